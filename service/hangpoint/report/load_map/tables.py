"""The tables of a load map: its points, the sums of a level and of its members."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.vocabulary import StructureLoad
from hangpoint.report.calculation import mathml
from hangpoint.report.load_map.plan import is_sheared
from hangpoint.report.load_map.tiles import Point
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import percent

NATURES: Mapping[str, str] = {
    "dead": "dead",
    "contents": "contents",
    "live": "live",
    "sprinkler": "250 lb of sprinkler lines",
    "roof_live": "roof live",
    "snow": "snow",
    "wind": "wind",
    "test": "test",
    "thermal": "thermal",
    "earthquake": "earthquake",
}
"""Natures by their words, in the order of the columns."""
_SHORT = {"sprinkler": "250 lb"}
_ALWAYS = ("dead", "contents", "live")
_OTHERS = ("roof_live", "snow", "wind", "test", "thermal", "earthquake")
_MOST_OTHERS = 2
"""Natures beside the load on the structure, and how many of them at most have columns of their own."""
_DECIMALS = {"lbf": 1, "kN": 3, "ft": 2, "m": 3}
_BY_SPRINKLER = StructureLoad.SPRINKLER.value.code
SPRINKLER_MARK = " S"
_GOVERNS = ' class="governs"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table of points.

    Those that are ``wide`` have the room that the others leave, one of 2 more of it than one of 1. Texts that are
    ``whole`` break between words alone.
    """

    title: str
    cell: Callable[[Point], str]
    number: bool = True
    wide: int = 0
    whole: bool = False

    @property
    def kind(self) -> str:
        """Its class, as an attribute."""
        word = "number" if self.number else ("whole" * self.whole, "wide", "wider")[self.wide]
        return f' class="{word}"' if word else ""


def point_table(points: Sequence[Point], units: Mapping[str, str]) -> str:
    """A row a point; natures other than dead, contents and live only where one is not 0."""
    return column_table(points, list(_columns(points, units)))


def column_table(points: Iterable[Point], columns: Sequence[Column], *, strong: Sequence[str] = ()) -> str:
    """A row a point with these columns; those of points with a status in ``strong`` are bold."""
    head = "".join(f"<th{each.kind}>{on_page(each.title)}</th>" for each in columns)
    rows = "".join(
        f"<tr{_GOVERNS if point.get('status') in strong else ''}>"
        f"{''.join(f'<td{each.kind}>{on_page(each.cell(point))}</td>' for each in columns)}</tr>"
        for point in points
    )
    return f'<table class="points"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>\n'


def _columns(points: Sequence[Point], units: Mapping[str, str]) -> Iterator[Column]:
    force, distance = units["force"], units["coordinate"]
    yield Column(title="No.", cell=lambda point: str(point["number"]))
    yield Column(title="Id", cell=lambda point: point["id"], number=False, wide=1)
    if len({point.get("member") for point in points}) > 1:
        yield Column(title="Member", cell=lambda point: point.get("member", ""), number=False)
    yield from place_columns(points, distance, axes="xy")
    if all("service" in point for point in points):
        shown = _shown(points)
        beside = [name for name in shown if name in _OTHERS]
        for name in shown if len(beside) <= _MOST_OTHERS else [each for each in shown if each not in beside]:
            yield Column(title=_SHORT.get(name, NATURES[name]), cell=_nature(name, force))
        if len(beside) > _MOST_OTHERS:
            yield Column(title="other natures", cell=_others(beside, force), number=False, whole=True)
        yield Column(title="on structure", cell=_on_structure(force))
        if any(point.get("push_on_structure") for point in points):
            yield Column(title="push", cell=_part("push_on_structure", force))
        for axis in "xy":
            if any(point.get(f"shear_{axis}") for point in points):
                yield Column(title=f"shear {axis}", cell=_part(f"shear_{axis}", force))
    yield from demand_columns(points, force)
    yield Column(title="Check", cell=_check, number=False, whole=True)


def place_columns(points: Sequence[Point], unit: str, *, axes: str) -> Iterator[Column]:
    """The coordinates that a point states."""
    for axis in axes:
        if any(axis in point for point in points):
            yield Column(title=axis, cell=_place(axis, unit))


def demand_columns(points: Sequence[Point], unit: str) -> Iterator[Column]:
    """The largest tension, and the largest shear where a point has any."""
    yield Column(title=tension_title(points), cell=_of_demand("factored_tension", unit))
    if any(map(is_sheared, points)):
        yield Column(title="largest shear", cell=_of_demand("factored_shear", unit))


def tension_title(points: Iterable[Point]) -> str:
    """What the largest tension is: factored, of service loads, or the one at some points and the other at others."""
    levels = {point["demand"]["level"] for point in points}
    return "largest tension" if len(levels) > 1 else "service tension" if "allowable" in levels else "factored tension"


def _shown(points: Sequence[Point]) -> list[str]:
    return [name for name in NATURES if name in _ALWAYS or any(point["service"].get(name, 0) != 0 for point in points)]


def _place(axis: str, unit: str) -> Callable[[Point], str]:
    return lambda point: amount(point[axis], unit) if axis in point else ""


def _nature(name: str, unit: str) -> Callable[[Point], str]:
    return lambda point: amount(point["service"].get(name, 0.0), unit)


def _others(names: Sequence[str], unit: str) -> Callable[[Point], str]:
    """Those of these natures that a point has, by name."""
    return lambda point: "; ".join(
        f"{NATURES[name]} {amount(point['service'][name], unit)}" for name in names if point["service"].get(name)
    )


def _on_structure(unit: str) -> Callable[[Point], str]:
    return lambda point: (
        amount(point["on_structure"], unit) + SPRINKLER_MARK * (point["on_structure_by"] == _BY_SPRINKLER)
    )


def _part(name: str, unit: str) -> Callable[[Point], str]:
    return lambda point: amount(point.get(name, 0.0), unit)


def _of_demand(name: str, unit: str) -> Callable[[Point], str]:
    return lambda point: amount(point["demand"][name], unit)


def _check(point: Point) -> str:
    if point["status"] == "refused" or "utilisation" not in point:
        return str(point["status"])
    return f"{point['status']}, {percent(point['utilisation'])}"


def amount(value: float, unit: str) -> str:
    """A number with the decimals of its unit; one that these would make 0 has figures of its own."""
    text = f"{abs(value):.{_DECIMALS[unit]}f}"
    if not float(text):
        return mathml.number(value)
    return f"−{text}" if value < 0 else text


def sum_table(level: Mapping[str, Any], unit: str) -> str:
    """Sums of a level by nature and on the structure, those that pull apart from those that push."""
    head = f'<th>Sum</th><th class="number">Pulls [{unit}]</th><th class="number">Pushes [{unit}]</th>'
    rows = [(NATURES[name], own) for name, own in level["service"].items()]
    rows.append(("On the structure, all members", level["on_structure"]))
    made = "".join(_sum_row((name,), own, unit, strong=at == len(rows)) for at, (name, own) in enumerate(rows, 1))
    return f"<table><thead><tr>{head}</tr></thead><tbody>{made}</tbody></table>\n"


def member_table(level: Mapping[str, Any], unit: str) -> str:
    """Loads on each of the members of a level; empty where there is one alone."""
    members = level["members"]
    if len(members) < 2:
        return ""
    head = (
        '<th>Member</th><th class="number">Points</th>'
        f'<th class="number">Pulls [{unit}]</th><th class="number">Pushes [{unit}]</th>'
    )
    rows = "".join(
        _sum_row((own["member"] or "none named", str(own["points"])), own["on_structure"], unit) for own in members
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>\n"


def _sum_row(lead: Sequence[str], own: Mapping[str, float], unit: str, *, strong: bool = False) -> str:
    name, *more = lead
    cells = "".join(
        f'<td class="number">{on_page(each)}</td>'
        for each in (*more, amount(own["pulls"], unit), amount(own["pushes"], unit))
    )
    return f"<tr{_GOVERNS if strong else ''}><td>{on_page(name)}</td>{cells}</tr>"
