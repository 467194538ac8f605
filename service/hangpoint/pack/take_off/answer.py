"""The parts of the answer to a take-off, in the units of the request."""

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from functools import partial
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats, Index
from hangpoint.core.vocabulary import LineKind
from hangpoint.pack.printed import finite, in_request_units
from hangpoint.pack.take_off.counts import Bars, Counts, feet
from hangpoint.pack.take_off.items import TakeOffItems
from hangpoint.pack.take_off.lines import Line, ordered, rod_text
from hangpoint.pack.take_off.rates import Rates
from hangpoint.units import DISTANCE, LENGTH, PRINTED, VOLUME, QuantityKind, System, bare_factor


def line_results(lines: Sequence[Line], items: TakeOffItems, system: System) -> list[dict[str, Any]]:
    """The pull list."""
    orders = ordered(lines)
    net, gross, packs, left = (
        finite(column).tolist() for column in (orders.net, orders.gross, orders.packs, orders.left_over)
    )
    made: list[dict[str, Any]] = []
    for at, line in enumerate(lines):
        number = partial(_number, factor=1.0 if line.counted else bare_factor(VOLUME, system))
        row: dict[str, Any] = {
            "line": at + 1,
            "kind": line.kind.value.code,
            "description": line.description,
            "unit": line.unit if line.counted else PRINTED[system]["volume"],
            "net": number(net[at]),
            "waste": line.waste,
            "gross": number(gross[at]),
            "pack": number(line.pack),
            "packs": int(packs[at]),
            "left_over": number(left[at]),
            "source": line.source,
        }
        if line.address is not None:
            row["product"] = line.address
        if len(line.items) and line.kind is not LineKind.BIT:
            names = {"level": items.level, "trade": items.trade, "area": items.area}
            row |= {f"by_{name}": _shares(own, line, number) for name, own in names.items()}
        made.append(row)
    return made


def _shares(names: Sequence[str | None], line: Line, number: Any) -> list[dict[str, Any]]:
    found: dict[str | None, float] = defaultdict(float)
    for at, amount in zip(line.items.tolist(), line.amounts.tolist(), strict=True):
        found[names[at]] += amount
    return [{"name": name, "net": number(amount)} for name, amount in found.items()]


def _number(value: float, *, factor: float = 1.0) -> float | int:
    """A number in the unit of its line, a whole one as such."""
    own = value / factor
    return int(own) if own == int(own) else own


def cut_list(items: TakeOffItems, counts: Counts, rates: Rates, system: System) -> list[dict[str, Any]]:
    """How the bars of every kind of rod are cut."""
    stock = counts.stock
    waste = in_request_units(stock.l_waste, DISTANCE, system).tolist()
    return [
        {
            "rod": {"size": items.rods[own.rod][0], "material": items.rods[own.rod][1]},
            "description": rod_text(items.rods[own.rod]),
            "stock_length": _printed(rates.rod_length, DISTANCE, system),
            "kerf": _printed(rates.kerf, LENGTH, system),
            "pieces": [
                {"length": _printed(feet(length), DISTANCE, system), "count": pieces}
                for length, pieces in zip(own.lengths, own.pieces, strict=True)
            ],
            "bars": own.plan.bars,
            "lower_bound": own.plan.lower_bound,
            "method": own.plan.method,
            "waste_length": waste[at],
            "waste_share": float(stock.waste_share[at]),
            "patterns": _patterns(own, system),
        }
        for at, own in enumerate(counts.bars)
    ]


def _patterns(bars: Bars, system: System) -> list[dict[str, Any]]:
    return [
        {
            "bars": times,
            "pieces": [
                {"length": _printed(feet(length), DISTANCE, system), "count": number}
                for length, number in zip(bars.lengths, pattern, strict=True)
                if number
            ],
        }
        for times, pattern in bars.plan.patterns
    ]


def _printed(value: float, kind: QuantityKind, system: System) -> float:
    return float(f"{value / bare_factor(kind, system):.12g}")


def _measures(counts: Counts, system: System) -> Mapping[str, Floats]:
    """What is summed, an array over the items each."""
    anchors, rods = counts.anchors, counts.rods
    return {
        "points": finite(anchors.quantity),
        "anchors": finite(anchors.anchors),
        "rods": finite(rods.rods),
        "rod_length": in_request_units(rods.l_rods, DISTANCE, system),
        "holes": finite(anchors.holes),
        "drilled_length": in_request_units(anchors.l_drilled, DISTANCE, system),
        "adhesive_volume": in_request_units(counts.adhesive.volume, VOLUME, system),
        "minutes": finite(anchors.minutes),
        "hours": finite(anchors.hours),
        "cost_index": finite(anchors.cost_index),
    }


def totals(items: TakeOffItems, counts: Counts, system: System) -> dict[str, Any]:
    """Sums of all items, and by level, trade, area and tag; an item counts under each of its tags."""
    measures = _measures(counts, system)
    every = np.arange(items.count)
    single = {"level": items.level, "trade": items.trade, "area": items.area}
    tagged = [(tag, at) for at, tags in enumerate(items.tags) for tag in dict.fromkeys(tags)]
    return {
        "overall": {name: float(column.sum()) for name, column in measures.items()},
        **{name: _sums(own, every, measures) for name, own in single.items()},
        "tag": _sums([tag for tag, _ in tagged], np.array([at for _, at in tagged], dtype=np.intp), measures),
    }


def _sums(names: Sequence[Hashable], rows: Index, measures: Mapping[str, Floats]) -> list[dict[str, Any]]:
    """Sums over the rows of each name, in the order in which the names come."""
    places = {name: place for place, name in enumerate(dict.fromkeys(names))}
    own = np.array([places[name] for name in names], dtype=np.intp)
    columns = {
        name: np.bincount(own, weights=column[rows], minlength=len(places)).tolist()
        for name, column in measures.items()
    }
    return [{"name": name, **{key: columns[key][at] for key in columns}} for name, at in places.items()]


def item_results(items: TakeOffItems, counts: Counts, system: System) -> list[dict[str, Any]]:
    """What each valid item needs, in order."""
    measures = {name: column.tolist() for name, column in _measures(counts, system).items()}
    rods, pieces = counts.rods, counts.pieces
    length = in_request_units(items.l_rod, DISTANCE, system).tolist()
    stock = in_request_units(pieces.l_stock, DISTANCE, system).tolist()
    cut = in_request_units(pieces.l_cut, DISTANCE, system).tolist()
    products: list[int] = items.product.tolist()
    kinds: list[int] = items.rod.tolist()
    made: list[dict[str, Any]] = []
    for at in range(items.count):
        result: dict[str, Any] = {"id": items.ids[at], "index": items.index[at], "status": "counted"}
        names = {"level": items.level[at], "trade": items.trade[at], "area": items.area[at]}
        result |= {name: value for name, value in names.items() if value is not None}
        result |= {"product": items.products[products[at]].address}
        result |= {name: column[at] for name, column in measures.items()}
        if kinds[at] >= 0:
            size, material = items.rods[kinds[at]]
            whole, short = int(pieces.n_whole[at]), int(pieces.n_cut[at])
            own: dict[str, Any] = {"size": size, "material": material}
            if length[at]:
                lengths = [(stock[at], whole), (cut[at], short)]
                own["length"] = length[at]
                own["pieces"] = [{"length": each, "count": number} for each, number in lengths if number]
            result["rod"] = own | {name: int(getattr(rods, name)[at]) for name in ("couplings", "nuts", "washers")}
        result["not_counted"] = [note.value.code for note in items.notes[at]]
        made.append(result)
    return made
