"""The least spacing: of the anchors of a layout, or of two points of one member."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.api.reverse.asked import Asked, invalid, refuse_rows, unanswerable
from hangpoint.api.reverse.changes import TOWARDS, moved, read, scaled_layout
from hangpoint.api.reverse.grids import decades, even_grid
from hangpoint.api.reverse.merge_patch import difference
from hangpoint.api.reverse.near_sites import refuse_unknown_face
from hangpoint.api.reverse.probes import packed_probes
from hangpoint.api.reverse.sweeps import sweep
from hangpoint.api.reverse.swept import LEAST, Sought, answer, swept_answer
from hangpoint.pack.objects import value_at
from hangpoint.units import LENGTH


def least_spacing(asked: Asked, question: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The least spacing of the layout, or the least distance to the neighbour that the question names."""
    if "neighbour" in question:
        return [_to_neighbour(asked, question)]
    if "towards" in question:
        raise unanswerable("#/question/towards", "The direction is that to a neighbour, and none is stated.")
    return [_of_layout(asked, question.get("along", "xy"))]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measure:
    """What tells how far apart the anchors of a layout are: a name, a kind of quantity, the stated value."""

    of: str
    quantity: str
    stated: float


def _of_layout(asked: Asked, axes: str) -> dict[str, Any]:
    item, system = asked.item, asked.system
    if len(asked.own.packed.points.layouts.point) < 2:
        raise unanswerable("#/question/kind", "The item has one anchor: name a neighbour, or state a layout.")
    layout: Any = item["anchor"]["layout"]
    own = _measure(layout, axes, asked)
    grid = even_grid("spacing", system) if own.quantity == "length" else decades(0.05, 20.0, a_decade=80)
    sought = Sought(
        of=own.of,
        sense=LEAST,
        quantity=own.quantity,
        make=lambda value: scaled_layout(item, value / own.stated, system, axes=axes),
        grid=grid,
        stated=own.stated,
        note="The middle of the layout stays where it is; edges are measured from its origin.",
    )
    return answer(sought, asked)


def _measure(layout: Any, axes: str, asked: Asked) -> _Measure:
    if isinstance(layout, list):
        return _Measure(of="factor on the positions of the layout, about their middle", quantity="factor", stated=1.0)
    pattern: str = layout["pattern"]
    if pattern != "rectangle":
        if axes != "xy":
            raise unanswerable("#/question/along", f"A {pattern} has one spacing: leave the axis out.")
        name = "diameter" if pattern == "circle" else "spacing"
        of = "diameter of the circle of anchors" if pattern == "circle" else "spacing of the row"
        return _Measure(of=of, quantity="length", stated=read(layout[name], LENGTH, asked.system))
    named = [axis for axis, many in (("x", layout["columns"]), ("y", layout["rows"])) if many > 1 and axis in axes]
    if not named:
        raise unanswerable("#/question/along", "The rectangle has one anchor along this axis.")
    other = " (that along y with it)" if len(named) > 1 else ""
    stated = read(layout[f"spacing_{named[0]}"], LENGTH, asked.system)
    return _Measure(of=f"spacing along {named[0]}{other}", quantity="length", stated=stated)


def _to_neighbour(asked: Asked, question: Mapping[str, Any]) -> dict[str, Any]:
    """Sweep the distance of two points of one member, in which both have to pass."""
    if "towards" not in question:
        raise unanswerable(
            "#/question/towards", "Say on which side the neighbour is.", code="missing", allowed=tuple(TOWARDS)
        )
    if "along" in question:
        raise unanswerable("#/question/along", "The axis is that of a layout; a neighbour stands towards a side.")
    item, system = asked.item, asked.system
    if value_at(item, "at", "x") is None or value_at(item, "at", "y") is None:
        raise unanswerable("#/item/at", "A point with a neighbour needs its coordinates x and y.", code="missing")
    refuse_unknown_face(asked)
    neighbour = {**question["neighbour"], "at": item["at"], "base": item["base"]}
    pair = packed_probes([item, neighbour], asked.situation)
    if pair.packed.points.count < 2:
        raise invalid(pair.outcome(1), "#/question/neighbour")
    refuse_rows(pair.packed.points, asked.situation, np.zeros(2, dtype=np.intp))
    x, y = TOWARDS[question["towards"]]

    def other(value: float) -> dict[str, Any]:
        return moved(neighbour, x * value, y * value, system)

    grid = even_grid("spacing", system)
    sought = Sought(
        of=f"distance to the neighbour towards {question['towards']}",
        sense=LEAST,
        quantity="length",
        make=lambda value: [item, other(value)],
        grid=grid,
        note="Both points pass; what is shown is the worse of the two. The neighbour has base and place of the item,"
        " moved.",
    )
    made = swept_answer(sought, sweep(grid.values, sought.make, asked.situation), asked)
    if "value" in made:
        made["neighbour"] = difference(question["neighbour"], other(made["value"]))
    return made
