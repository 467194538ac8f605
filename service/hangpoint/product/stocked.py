"""A product as the shelf and the site know it: what is ordered for it, drilled, and set with. Units: in, in3, ft*lbf.

Figures are those of its size, else of its family, with neutral ones where both are silent; a product stated inline has
no package and no setting of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from hangpoint.product.catalogue import Catalogue
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Cartridge, Charge, Commercial, SizeData
from hangpoint.product.fields import Units
from hangpoint.product.inline import ADDRESS, InlineProduct
from hangpoint.product.principles import EXACT_DEPTH, MM_PER_INCH, WITHOUT_HOLE
from hangpoint.product.product_row import NM_PER_FT_LBF, PSI_PER_MPA
from hangpoint.product.table import depth_text

BIT_LIFE = 200
"""Holes that a bit lasts where a product says nothing. Common practice, no source."""

CARTRIDGE_VOLUME = 17.0
"""Of an adhesive that says nothing, in3. Common practice, no source."""

_ML_PER_IN3 = MM_PER_INCH**3 / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class StockedProduct:
    """One product.

    ``family`` names those that share an adhesive. ``h_nom`` is None where the data of a mechanical anchor are silent.
    ``exact_depth`` says that its hole may not be too deep either, ``hole_open`` that it is drilled for and its data
    name no hole; ``hole_text`` and ``depth_text`` are diameter and depth of the hole in the unit of its data.
    ``torque`` is None where none is applied, ``thread`` where there is none. ``commercial`` says whether package,
    minutes and cost index are stated; ``bit_life_stated`` and ``cartridge_stated`` the same of theirs.
    """

    address: str
    family: str
    description: str
    size: str
    h_ef: float
    h_nom: float | None
    d_a: float
    a_se: float
    f_ya: float
    drilled: bool
    exact_depth: bool
    hole_open: bool
    hole_diameter: float
    hole_depth: float
    hole_text: str
    depth_text: str
    torque: float | None
    thread: str | None
    internally_threaded: bool
    setting_tool: str | None
    adhesive: bool
    commercial: bool
    pack: int
    minutes: float
    cost_index: float
    bit: str
    bit_life: int
    bit_life_stated: bool
    cartridge: Cartridge
    cartridge_volume: float
    cartridge_stated: bool
    charge: Charge | None


def stocked_products(catalogue: Catalogue) -> Iterator[StockedProduct]:
    """Every product of a catalogue, in the order of its table."""
    for family in catalogue.families.values():
        for size in family.sizes:
            for embedment in size.embedments:
                yield _stocked(
                    address=f"{family.id}/{size.size}/{depth_text(embedment.h_ef)}",
                    family=family.name,
                    units=family.units,
                    size=size,
                    embedment=embedment,
                    internally_threaded=family.traits.internally_threaded,
                    setting_tool=family.traits.setting_tool,
                    drilled=family.setting.drilling != "none",
                    principle=family.principle,
                    commercial=family.commercial,
                )


def stocked_inline(product: InlineProduct) -> StockedProduct:
    """A product of a request."""
    return _stocked(
        address=ADDRESS,
        family=product.name or f"product of the request, {product.principle.replace('_', ' ')}",
        units=product.units,
        size=product.size,
        embedment=product.embedment,
        internally_threaded=product.traits.internally_threaded,
        setting_tool=None,
        drilled=product.principle not in WITHOUT_HOLE,
        principle=product.principle,
        commercial=None,
    )


def length_text(length: float, units: Units) -> str:
    """A length of product data in words: inches as fractions down to a 64th, what is no such fraction by its number."""
    if units == "si":
        return f"{length:g} mm"
    parts = Fraction(length).limit_denominator(64)
    if abs(float(parts) - length) > 1e-6 or parts.denominator not in (1, 2, 4, 8, 16, 32, 64):
        return f"{length:g} in"
    whole, rest = divmod(parts, 1)
    words = [str(whole)] if whole or not rest else []
    return "-".join([*words, *([str(rest)] if rest else [])]) + " in"


def cost_index_of(size: SizeData, commercial: Commercial | None) -> float | None:
    """Cost of one, of its size or else of its family; None where neither states it."""
    return size.cost_index or (commercial and commercial.cost_index)


def minutes_of(size: SizeData, commercial: Commercial | None) -> float | None:
    """Setting time of one, minutes, of its size or else of its family; None where neither states it."""
    return size.minutes or (commercial and commercial.minutes)


def _stocked(
    *,
    address: str,
    family: str,
    units: Units,
    size: SizeData,
    embedment: Embedment,
    internally_threaded: bool,
    setting_tool: str | None,
    drilled: bool,
    principle: str,
    commercial: Commercial | None,
) -> StockedProduct:
    length = 1.0 if units == "us" else 1 / MM_PER_INCH
    hole = embedment.hole
    cartridge = commercial.cartridge if commercial else None
    bit_life = commercial.bit_life if commercial else None
    volume = cartridge.volume / (1.0 if units == "us" else _ML_PER_IN3) if cartridge else CARTRIDGE_VOLUME
    torque = embedment.torque
    adhesive = principle == "adhesive"
    by_tip = drilled and not adhesive  # such an anchor reaches beyond its h_ef
    nominal = embedment.h_nom or (None if by_tip else embedment.h_ef)
    return StockedProduct(
        address=address,
        family=family,
        description=f"{family}, {size.size}, h_ef {length_text(embedment.h_ef, units)}",
        size=size.size,
        h_ef=embedment.h_ef * length,
        h_nom=None if nominal is None else nominal * length,
        d_a=size.d_a * length,
        a_se=size.a_se * length**2,
        f_ya=size.f_ya * (1.0 if units == "us" else PSI_PER_MPA),
        drilled=drilled and hole is not None,
        exact_depth=principle in EXACT_DEPTH,
        hole_open=drilled and hole is None,
        hole_diameter=hole.diameter * length if hole else 0.0,
        hole_depth=hole.depth * length if hole else 0.0,
        hole_text=length_text(hole.diameter, units) if hole else "",
        depth_text=length_text(hole.depth, units) if hole else "",
        torque=None if torque is None else torque / (1.0 if units == "us" else NM_PER_FT_LBF),
        thread=size.thread,
        internally_threaded=internally_threaded,
        setting_tool=setting_tool,
        adhesive=adhesive and hole is not None,
        commercial=commercial is not None,
        pack=commercial.pack if commercial else 1,
        minutes=minutes_of(size, commercial) or 0.0,
        cost_index=cost_index_of(size, commercial) or 0.0,
        bit=(commercial.bit if commercial else None) or "bit",
        bit_life=bit_life or BIT_LIFE,
        bit_life_stated=bit_life is not None,
        cartridge=cartridge or Cartridge(name="cartridge", volume=CARTRIDGE_VOLUME),
        cartridge_volume=volume,
        cartridge_stated=cartridge is not None,
        charge=commercial.charge if commercial else None,
    )
