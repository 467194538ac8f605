"""A load map as a page: the plans of every level on sheets of their own, and one of what it stands on."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.vocabulary import StructureLoad
from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.calculation.style import STYLE
from hangpoint.report.load_map.plan import plan
from hangpoint.report.load_map.tables import SPRINKLER_MARK, amount, member_table, point_table, sum_table, tension_title
from hangpoint.report.load_map.tiles import Point, split
from hangpoint.report.paper import INVENTED, Article, articles_page, head, listed, paper_of
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import invalid_texts, once_text

Answer = Mapping[str, Any]

POINTS_STYLE = """
.points { font-size: 7.6pt; line-height: 1.2; }
.points th { font-size: 7.6pt; vertical-align: bottom; }
.points td { overflow-wrap: anywhere; }
.points .number { white-space: normal; overflow-wrap: normal; }
.points .whole { overflow-wrap: normal; }
.points .wide, .points .wider { min-width: 5em; }
.points td, .points th { padding-right: 4pt; }
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
        part = f", part {self.at + 1} of {len(self.tiles)}" if len(self.tiles) > 1 else ""
        return level_title(self.level) + part

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


def level_title(level: Mapping[str, Any]) -> str:
    """The name of a level or of a member, with the face that points hang from."""
    name = "No level stated" if level["name"] is None else f"{str(level['named_by']).capitalize()} {level['name']}"
    return f"{name}, {_FACES[level['face']]}"


def sheet_count(answer: Answer) -> int:
    """How many sheets a map has, that of its basis among them."""
    return len(_sheets(answer)) + 1


def load_map_html(answer: Answer) -> str:
    """The map of an answer as one document."""
    name = answer.get("project", {}).get("name")
    return articles_page(
        title=f"Load map: {name}" if name else "Load map",
        style=STYLE + POINTS_STYLE,
        paper=paper_of(answer["units"]),
        articles=load_map_articles(answer),
    )


def load_map_articles(answer: Answer, *, gathered: bool = False) -> list[Article]:
    """The sheets of a map; ``gathered``: invalid items, cautions, what was assumed and not checked stand elsewhere."""
    return [*(_article(answer, sheet) for sheet in _sheets(answer)), _basis(answer, gathered=gathered)]


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


def _article(answer: Answer, sheet: _Sheet) -> Article:
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
        parts.append(_sums(sheet.level, units["force"], once_text(answer.get("columns_not_read", ()))))
    return Article(body="".join(parts), foot=sheet.title, invented=_is_invented(sheet.shown))


def _header(answer: Answer, title: str) -> str:
    loads = (
        "factored loads as given; service loads are not known"
        if answer["loads"] == "factored_only"
        else "service loads on the structure, unfactored"
    )
    return head(answer, f"Load map: {loads}", title)


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


def _sums(level: Mapping[str, Any], force: str, once: str) -> str:
    if "on_structure" not in level:
        return '<p class="small">No sums: the request states factored loads only.</p>\n'
    left = level["points"] - level["placed"]
    unplaced = f", {left} of them on no drawing" if left else ""
    points = f"{level['points']} point{'s' * (level['points'] != 1)}{unplaced}"
    weights = (
        " Pulls on side faces add up whichever way their faces look. What weighs on them is shear: it is in the table"
        " and in no sum."
        if level["face"] == "side"
        else ""
    )
    return (
        f"<section><h2>Sums of service loads, unfactored: {points}</h2>"
        f"{sum_table(level, force)}{member_table(level, force)}"
        '<p class="small">On the structure: dead load, contents, live load and the 250 lb of sprinkler lines; where'
        " contents or live load push they take nothing off. Other natures, shears, moments and invalid points are not"
        f" in it.{weights} {once}".rstrip()
        + "</p></section>\n"
    )


def _basis(answer: Answer, *, gathered: bool) -> Article:
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
        listed("What the loads are", map(sentence, answer["notes"].values())),
        listed("Columns of the CSV that were not read", map(on_page, answer.get("columns_not_read", ()))),
        "" if gathered else _invalid(answer),
        listed("Limits of the structural notes", map(on_page, limits)),
        "" if gathered else _taken(answer),
        digests,
    )
    return Article(body="".join(parts), foot=_LAST, invented=_is_invented(answer["items"]))


def _invalid(answer: Answer) -> str:
    wrong = invalid_texts(answer["items"])
    return listed("Invalid items: in no sum and on no drawing", map(on_page, wrong))


def _taken(answer: Answer) -> str:
    """What was assumed and not checked, and the cautions."""
    return (
        listed("Assumptions, where the request is silent", map(sentence, answer["assumptions"].values()))
        + listed("Not checked", map(sentence, answer["not_checked"].values()))
        + listed("Cautions", map(on_page, answer["cautions"]))
    )


def _counted(summary: Mapping[str, int]) -> str:
    words = ("passed", "failed", "refused", "invalid")
    counts = ", ".join(f"{summary[word]} {word}" for word in words if summary[word])
    return f"{summary['total']} points: {counts}; {summary['placed']} placed, {summary['not_placed']} not placed."
