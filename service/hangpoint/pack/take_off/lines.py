"""The lines of a pull list: what is used of each thing, ordered with its waste in whole packages.

Lines of what is used at points know how much of it each item takes, so that they can be shared out by level, trade and
area; tools are by crew.
"""

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.take_off.order import Order, order
from hangpoint.core.vocabulary import LineKind
from hangpoint.pack.take_off.counts import Counts
from hangpoint.pack.take_off.items import TakeOffItems
from hangpoint.pack.take_off.rates import Rates
from hangpoint.pack.torques import torque_text
from hangpoint.product.stocked import StockedProduct
from hangpoint.units import TORQUE, System, bare_factor

PIECE = "piece"
PRODUCT, PRACTICE = "product data", "common practice"
_MATERIALS = {"unknown": "grade not stated", "a36": "A36", "a307": "A307", "f1554_36": "F1554 grade 36"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line before it is ordered; ``items`` and ``amounts`` say what each item uses, none for tools.

    ``pack`` is in the unit of the line, ``source`` says where that and what wears out come from. ``rank`` is its place
    among lines of its kind.
    """

    kind: LineKind
    description: str
    used: float
    waste: float
    pack: float
    source: str
    unit: str = PIECE
    address: str | None = None
    rank: tuple[str, float, float] = ("", 0.0, 0.0)
    items: Index = field(default_factory=lambda: np.zeros(0, dtype=np.intp))
    amounts: Floats = field(default_factory=lambda: np.zeros(0))

    @property
    def counted(self) -> bool:
        """Whether it is in pieces."""
        return self.unit == PIECE


def pull_lines(items: TakeOffItems, counts: Counts, rates: Rates, system: System) -> list[Line]:
    """The lines in the order of their kinds."""
    used = _Used(items, counts, rates)
    adhesive = used.adhesive()
    cartridges = ordered(adhesive).packs.tolist()
    lines = [
        *used.anchors(),
        *adhesive,
        *used.cartridges(cartridges),
        *used.charges(),
        *used.rods(),
        *used.hardware(),
        *used.bits(),
        *used.tools(system),
    ]
    place = {kind: at for at, kind in enumerate(LineKind)}
    return sorted(lines, key=lambda line: (place[line.kind], line.rank))


def ordered(lines: Sequence[Line]) -> Order:
    """The lines with waste, in packages."""
    return order(
        used=np.array([line.used for line in lines], dtype=np.float64),
        waste=np.array([line.waste for line in lines], dtype=np.float64),
        counted=np.array([line.counted for line in lines], dtype=np.bool_),
        pack=np.array([line.pack for line in lines], dtype=np.float64),
    )


class _Used:
    """What the items use, line by line."""

    def __init__(self, items: TakeOffItems, counts: Counts, rates: Rates) -> None:
        self._items = items
        self._counts = counts
        self._rates = rates
        self._holed = [own for own in self._present() if own.drilled]
        self._glued = [own for own in self._present() if own.adhesive]

    def _present(self) -> Sequence[StockedProduct]:
        return sorted(self._items.products, key=lambda own: (own.d_a, own.h_ef))

    def _grouped(self, keys: Sequence[Hashable], amounts: Floats) -> Iterator[tuple[int, Index, Floats]]:
        """The items of each key that isn't None, with what they use: the first of them, all, and the amounts."""
        places: dict[Hashable, list[int]] = defaultdict(list)
        for at, key in enumerate(keys):
            if key is not None and amounts[at] > 0:
                places[key].append(at)
        for own in places.values():
            rows = np.array(own, dtype=np.intp)
            yield own[0], rows, amounts[rows]

    def _of_product(self, keys: Sequence[Hashable], amounts: Floats) -> Iterator[tuple[StockedProduct, Index, Floats]]:
        """As `_grouped`, the keys by product."""
        by_item = [keys[at] for at in self._items.product.tolist()]
        for first, rows, own in self._grouped(by_item, amounts):
            yield self._items.products[self._items.product[first]], rows, own

    def anchors(self) -> list[Line]:
        keys = list(range(len(self._items.products)))
        return [
            Line(
                kind=LineKind.ANCHOR,
                address=own.address,
                description=own.description,
                used=float(amounts.sum()),
                waste=self._rates.waste["anchors"],
                pack=own.pack,
                source=PRODUCT if own.commercial else PRACTICE,
                rank=(own.family, own.d_a, own.h_ef),
                items=rows,
                amounts=amounts,
            )
            for own, rows, amounts in self._of_product(keys, self._counts.anchors.anchors)
        ]

    def adhesive(self) -> list[Line]:
        keys = [(own.family, own.cartridge) if own.adhesive else None for own in self._items.products]
        return [
            Line(
                kind=LineKind.ADHESIVE,
                description=f"adhesive of {own.family}",
                used=float(amounts.sum()),
                waste=self._rates.waste["adhesive"],
                pack=own.cartridge_volume,
                source=PRODUCT if own.cartridge_stated else PRACTICE,
                unit="volume",
                items=rows,
                amounts=amounts,
            )
            for own, rows, amounts in self._of_product(keys, self._counts.adhesive.volume)
        ]

    def cartridges(self, packs: Sequence[float]) -> Iterator[Line]:
        keys = [(own.family, own.cartridge) if own.adhesive else None for own in self._items.products]
        found = self._of_product(keys, self._counts.adhesive.volume)
        for (own, _, _), number in zip(found, packs, strict=True):
            yield Line(
                kind=LineKind.CARTRIDGE,
                description=f"{own.cartridge.name}, {own.family}",
                used=number,
                waste=0.0,
                pack=own.cartridge.pack,
                source=PRODUCT if own.cartridge_stated else PRACTICE,
            )
        if packs:
            yield self._hardware(LineKind.NOZZLE, "mixing nozzle", "nozzles", sum(packs))

    def charges(self) -> Iterator[Line]:
        keys = [own.charge and (own.family, own.charge) for own in self._items.products]
        for own, rows, amounts in self._of_product(keys, self._counts.anchors.charges):
            charge = own.charge
            assert charge is not None  # noqa: S101  # A key is None without one.
            yield Line(
                kind=LineKind.CHARGE,
                description=f"{charge.name}, {own.family}",
                used=float(amounts.sum()),
                waste=self._rates.waste["charges"],
                pack=charge.pack,
                source=PRODUCT,
                items=rows,
                amounts=amounts,
            )

    def rods(self) -> list[Line]:
        return [
            Line(
                kind=LineKind.ROD,
                description=rod_text(self._items.rods[own.rod]),
                used=float(own.plan.bars),
                waste=self._rates.waste["rods"],
                pack=self._rates.packs["rods"],
                source="cut list",
                rank=("", THREADS[self._items.rods[own.rod][0]].d, own.rod),
            )
            for own in self._counts.bars
        ]

    def hardware(self) -> Iterator[Line]:
        rods = self._counts.rods
        kinds: list[int] = self._items.rod.tolist()
        sizes = [self._items.rods[kind][0] if kind >= 0 else None for kind in kinds]
        for kind, text, pack, amounts in (
            (LineKind.COUPLING, "rod coupling", "couplings", rods.couplings),
            (LineKind.NUT, "hexagon nut", "nuts", rods.nuts),
            (LineKind.WASHER, "washer", "washers", rods.washers),
        ):
            for first, rows, own in self._grouped(sizes, amounts):
                size = str(sizes[first])
                shares = {"rank": ("", THREADS[size].d, 0.0), "items": rows, "amounts": own}
                yield self._hardware(kind, f"{text} {size}", pack, float(own.sum()), **shares)

    def _hardware(self, kind: LineKind, text: str, pack: str, used: float, **shares: Any) -> Line:
        return Line(
            kind=kind,
            description=text,
            used=used,
            waste=self._rates.waste["hardware"],
            pack=self._rates.packs[pack],
            source=PRACTICE,
            **shares,
        )

    def bits(self) -> Iterator[Line]:
        """A bit by its hole; where the depth has to be exact, its stop makes it one of that depth."""
        keys = [
            (own.bit, own.hole_text, own.depth_text if own.exact_depth else "") if own.drilled else None
            for own in self._items.products
        ]
        deepest: dict[Hashable, StockedProduct] = {}
        for key, own in zip(keys, self._items.products, strict=True):
            deepest[key] = max(deepest.get(key, own), own, key=lambda each: each.hole_depth)
        for own, rows, amounts in self._of_product(keys, self._counts.anchors.bits):
            key = keys[self._items.product[rows[0]]]
            depth = f"{'of' if own.exact_depth else 'to'} {deepest[key].depth_text}"
            yield Line(
                kind=LineKind.BIT,
                description=f"{own.bit}, {own.hole_text}, for holes {depth}",
                used=float(amounts.sum()),
                waste=self._rates.waste["anchors"],
                pack=1,
                source=PRODUCT if own.bit_life_stated else PRACTICE,
                rank=("", own.hole_diameter, own.hole_depth if own.exact_depth else 0.0),
                items=rows,
                amounts=amounts,
            )

    def tools(self, system: System) -> Iterator[Line]:
        """One of each a crew."""
        needed = dict.fromkeys(f"{own.setting_tool}, {own.size}" for own in self._present() if own.setting_tool)
        yield from (self._tool(LineKind.SETTING_TOOL, text, PRODUCT) for text in needed)
        torques = [own.torque for own in self._present() if own.torque]
        if torques:
            factor = bare_factor(TORQUE, system)
            reach = torque_text((min(torques) / factor, max(torques) / factor), system)
            text = f"torque wrench, calibrated, {reach}"
            yield self._tool(LineKind.TORQUE_WRENCH, text, PRODUCT)
        for text in dict.fromkeys(own.hole_text for own in self._glued):
            yield self._tool(LineKind.BRUSH, f"brush for a hole of {text}", PRODUCT)
        if self._glued:
            yield self._tool(LineKind.PUMP, "hand pump or oil-free compressed air", PRODUCT)
        if self._holed:
            text = "shroud or cowling with dust collector, filter 99 % or more, with filter cleaning"
            yield self._tool(LineKind.SHROUD, text, LineKind.SHROUD.value.clause)
            yield self._tool(LineKind.VACUUM, "vacuum with HEPA filter", LineKind.VACUUM.value.clause)

    def _tool(self, kind: LineKind, text: str, source: str) -> Line:
        return Line(kind=kind, description=text, used=float(self._rates.crews), waste=0.0, pack=1, source=source)


def rod_text(rod: tuple[str, str]) -> str:
    """A kind of rod in words."""
    size, material = rod
    return f"threaded rod {size}, {_MATERIALS[material]}"
