"""A load map as a page: the plans of every level on sheets of their own, and one of what it stands on."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.vocabulary import StructureLoad
from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.calculation.style import INVENTED, STYLE, named_pages
from hangpoint.report.load_map.plan import plan
from hangpoint.report.load_map.tables import SPRINKLER_MARK, amount, member_table, point_table, sum_table, tension_title
from hangpoint.report.load_map.tiles import Point, split
from hangpoint.report.paper import STANDARDS, paper_of, printed_page, project_block
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import error_texts

Answer = Mapping[str, Any]

_STYLE = """
.points { font-size: 7.6pt; line-height: 1.2; }
.points th { font-size: 7.6pt; vertical-align: bottom; }
.points td { overflow-wrap: anywhere; }
.points .number { white-space: normal; overflow-wrap: normal; }
thead { display: table-header-group; }
@media screen and (max-width: 480px) {
  .points { display: block; overflow-x: auto; }
  .points td:nth-child(2) { min-width: 9em; }
  .points td:last-child { min-width: 5em; }
}
.sketches svg { max-width: 100%; height: auto; }
"""
_FACES = {"soffit": "soffit", "side": "side faces", "top": "top faces"}
_LAST = "Basis of the load map"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """One drawing with its points: a tile of a level."""

    level: Mapping[str, Any]
    tiles: Sequence[Sequence[Point]]
    at: int
    unplaced: Sequence[Point]

    @property
    def title(self) -> str:
        own = self.level
        name = "No level stated" if own["name"] is None else f"{str(own['named_by']).capitalize()} {own['name']}"
        part = f", part {self.at + 1} of {len(self.tiles)}" if len(self.tiles) > 1 else ""
        return f"{name}, {_FACES[own['face']]}{part}"

    @property
    def points(self) -> Sequence[Point]:
        return self.tiles[self.at] if self.tiles else ()

    @property
    def shown(self) -> Sequence[Point]:
        """Those on the drawing and those listed below it."""
        return [*self.points, *(self.unplaced if self.is_last else ())]

    @property
    def is_last(self) -> bool:
        return self.at >= len(self.tiles) - 1


def sheet_count(answer: Answer) -> int:
    """How many sheets a map has, that of its basis among them."""
    return len(_sheets(answer)) + 1


def load_map_html(answer: Answer) -> str:
    """The map of an answer as one document."""
    sheets = _sheets(answer)
    body = "".join(_article(answer, sheet) for sheet in sheets) + _basis(answer)
    feet = [f"{sheet.title}{_foot(sheet.shown)}" for sheet in sheets]
    style = STYLE + _STYLE + "".join(named_pages([*feet, f"{_LAST}{_foot(answer['items'])}"]))
    name = answer.get("project", {}).get("name")
    title = f"Load map: {name}" if name else "Load map"
    return printed_page(title=title, style=style, paper=paper_of(answer["units"]), body=body)


def _sheets(answer: Answer) -> list[_Sheet]:
    of_level: dict[int, list[Point]] = {}
    for item in answer["items"]:
        if "map" in item:
            of_level.setdefault(item["map"], []).append(item)
    made: list[_Sheet] = []
    for place, level in enumerate(answer["levels"]):
        points = of_level[place]
        tiles = split([point for point in points if point["placed"]]) if level["placed"] else []
        unplaced = [point for point in points if not point["placed"]]
        made += [_Sheet(level=level, tiles=tiles, at=at, unplaced=unplaced) for at in range(max(1, len(tiles)))]
    return made


def _is_invented(points: Iterable[Point]) -> bool:
    return any(point.get("product", {}).get("data") == INVENTED for point in points)


def _foot(points: Iterable[Point]) -> str:
    """What stands behind the title at the foot of a sheet."""
    return " · invented data" if _is_invented(points) else ""


def _article(answer: Answer, sheet: _Sheet) -> str:
    units = answer["units"]
    parts = [_header(answer, sheet.title)]
    if sheet.tiles:
        drawing = plan(sheet.tiles, sheet.at, unit=units["coordinate"], title=f"Plan of {sheet.title}")
        parts.append(f'<div class="sketches">{drawing}</div>\n')
    parts.append(_remarks(sheet, units))
    if sheet.tiles:
        parts.append(point_table(sheet.points, units))
    if sheet.is_last and sheet.unplaced:
        parts.append(f"<section><h2>Not placed: on no drawing</h2>{point_table(sheet.unplaced, units)}</section>\n")
    if sheet.is_last:
        parts.append(_sums(sheet.level, units["force"]))
    kind = f' class="{INVENTED}"' if _is_invented(sheet.shown) else ""
    return f"<article{kind}>\n{''.join(parts)}</article>\n"


def _header(answer: Answer, title: str) -> str:
    loads = (
        "factored loads as given; service loads are not known"
        if answer["loads"] == "factored_only"
        else "service loads on the structure, unfactored"
    )
    combined = str(answer["combinations"]).replace("_", " ")
    return (
        f"<header>{project_block(answer)}<p>Load map: {loads}</p><h1>{on_page(title)}</h1>"
        f"<p>Checked by {on_page(answer['design_code']['edition'])} · combinations: {combined},"
        f" {STANDARDS[answer['load_standard']]} · catalogue {on_page(answer['catalogue']['version'])}"
        f" · hangpoint {on_page(answer['engine_version'])}</p></header>\n"
    )


def _remarks(sheet: _Sheet, units: Mapping[str, str]) -> str:
    """What has to be known to read the table of a sheet."""
    points = sheet.shown
    read = f"Coordinates in {units['coordinate']}, loads in {units['force']}."
    said = [read, "No. is the number on the drawing, the place of the point in the request."]
    if any(point.get("on_structure_by") == StructureLoad.SPRINKLER.value.code for point in points):
        said.append(
            f"{SPRINKLER_MARK.strip()}: by the sprinkler standard, water-filled weight once + 250 lb; the anchor is"
            " checked with five times the weight + 250 lb."
        )
    opposed = ", ".join(str(point["number"]) for point in points if "opposed" in point.get("beside", ()))
    if opposed:
        said.append(f"Loads of one nature that are stated against each other are summed at: {opposed}.")
    if tension_title(points) == "largest tension":
        said.append("The largest tension is factored, or of service loads where a point goes by allowable loads.")
    return f'<p class="small">{on_page(" ".join(said))}</p>\n'


def _sums(level: Mapping[str, Any], force: str) -> str:
    if "on_structure" not in level:
        return '<p class="small">No sums: the request states factored loads only.</p>\n'
    left = level["points"] - level["placed"]
    unplaced = f", {left} of them on no drawing" if left else ""
    points = f"{level['points']} point{'s' * (level['points'] != 1)}{unplaced}"
    weights = (
        " What weighs on side faces is shear: it is in the table and in no sum." if level["face"] == "side" else ""
    )
    return (
        f"<section><h2>Sums of service loads, unfactored: {points}</h2>"
        f"{sum_table(level, force)}{member_table(level, force)}"
        '<p class="small">On the structure: dead load, contents, live load and the 250 lb of sprinkler lines; where'
        " contents or live load push they take nothing off. Other natures, shears, moments and invalid points are not"
        f" in it.{weights}</p></section>\n"
    )


def _basis(answer: Answer) -> str:
    wrong = [
        f"{each['id'] or 'item without an id'} (No. {each['index'] + 1}): {text}"
        for each in answer["items"]
        if "problem" in each
        for text in error_texts(each)
    ]
    force = answer["units"]["force"]
    limits = [
        f"{each['id']}: {each['status']}, {amount(each['total'], force)} {force} in total. {each['text']}"
        for each in answer.get("structural_limits", ())
    ]
    digests = (
        f'<p class="small">The same request gives the same map. Request {on_page(answer["request_digest"])},'
        f" catalogue {on_page(answer['catalogue']['hash'])}.</p>\n"
    )
    parts = (
        _header(answer, _LAST),
        f"<p>{on_page(_counted(answer['summary']))}</p>\n",
        _list("What the loads are", map(sentence, answer["notes"].values())),
        _list("Columns of the CSV that were not read", map(on_page, answer.get("columns_not_read", ()))),
        _list("Invalid items: in no sum and on no drawing", map(on_page, wrong)),
        _list("Limits of the structural notes", map(on_page, limits)),
        _list("Assumptions, where the request is silent", map(sentence, answer["assumptions"].values())),
        _list("Not checked", map(sentence, answer["not_checked"].values())),
        _list("Cautions", map(on_page, answer["cautions"])),
        digests,
    )
    kind = f' class="{INVENTED}"' if _is_invented(answer["items"]) else ""
    return f"<article{kind}>\n{''.join(parts)}</article>\n"


def _counted(summary: Mapping[str, int]) -> str:
    words = ("passed", "failed", "refused", "invalid")
    counts = ", ".join(f"{summary[word]} {word}" for word in words if summary[word])
    return f"{summary['total']} points: {counts}; {summary['placed']} placed, {summary['not_placed']} not placed."


def _list(title: str, shown: Iterable[str]) -> str:
    """A heading with a list; ``shown`` are texts as they stand on the page."""
    lines = "".join(f"<li>{each}</li>" for each in shown)
    return f"<section><h2>{on_page(title)}</h2><ul>{lines}</ul></section>\n" if lines else ""
