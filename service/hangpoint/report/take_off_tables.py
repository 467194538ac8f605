"""The tables of a take-off: pull list, sums by level, trade, area and tag, cut list, items; the first one as CSV."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from hangpoint.report.schedule import Table, table_csv

Result = Mapping[str, Any]
_NOTHING: Result = {}

PULL_TEXTS: Mapping[str, str] = {
    "line": "Number of the line, from 1.",
    "kind": "What it is, of the closed list; in the CSV `not_counted` for an item that is in no count.",
    "product": "Address of an anchor's product: family/size/h_ef, or inline.",
    "description": "What it is, in words.",
    "unit": "What is counted: pieces, or the unit of a volume.",
    "net": "Used, without waste.",
    "waste_percent": "What is added for waste.",
    "gross": "Used, with waste.",
    "pack": "Content of a package.",
    "packs": "Packages to pull.",
    "left_over": "What then is left over.",
    "source": "Where the package, or what wears out, comes from.",
}
"""Columns of the pull list and what they hold."""

NOT_COUNTED = "not_counted"
"""Kind of a row of the CSV that is no line: an item that is in no count, and why, without any number."""

CUT_TEXTS: Mapping[str, str] = {
    "rod": "Kind of rod.",
    "bars": "Bars that are cut alike.",
    "stock": "Length of a bar.",
    "pieces": "Pieces of one bar: number x length.",
    "left": "What is left of each bar, the kerfs among it.",
}
"""Columns of the cut list and what they hold; lengths in the unit that the header names in brackets."""

SUM_TEXTS: Mapping[str, str] = {
    "points": "Hang points.",
    "anchors": "Anchors.",
    "rods": "Rods.",
    "rod_length": "Length of all rods.",
    "holes": "Drilled holes.",
    "drilled_length": "Depth of all holes.",
    "adhesive_volume": "Adhesive in the rings.",
    "minutes": "Minutes of setting anchors.",
    "hours": "The same in hours.",
    "cost_index": "Sum of the cost index of the anchors.",
}
"""Columns of sums and what they hold, without waste."""

ITEM_TEXTS: Mapping[str, str] = {
    "id": "Id of the item.",
    "row": "Its place in the request, from 1.",
    "status": "counted or invalid.",
    "level": "Level that it states.",
    "trade": "Trade that it states.",
    "area": "Area that it states.",
    "product": "Address of the product.",
    **SUM_TEXTS,
    "rod": "Thread of the rod.",
    "length": "Length of one rod.",
    "pieces": "Pieces of one rod: number x length.",
    "couplings": "Couplings of all rods.",
    "nuts": "Nuts of all rods.",
    "washers": "Washers of all rods.",
    "not_counted": "Codes of what of the item is in no count, separated by semicolons.",
    "problem": "What is wrong first with an invalid item.",
    "pointer": "Where that is.",
}
"""Columns of the items and what they hold."""

_UNITS = {"rod_length": "distance", "drilled_length": "distance", "adhesive_volume": "volume"}
_DECIMALS = 6
_FINEST = 16
_SIXTEENTH = 1e-3
"""How near a length has to be to a number of sixteenths of an inch, in sixteenths."""
_LENGTHS = {"length": "distance", "stock": "distance", "left": "distance"}


def pull_table(answer: Result) -> Table:
    """The pull list."""
    rows = [{**line, "waste_percent": 100 * line["waste"]} for line in answer["pull_list"]]
    return _table(PULL_TEXTS, PULL_TEXTS, rows)


def pull_csv(answer: Result) -> str:
    """The pull list as CSV (RFC 4180), cells that a spreadsheet would take for a formula guarded by an apostrophe.

    Items that are in no count stand at its end, a row of the kind `NOT_COUNTED` each.
    """
    listed = pull_table(answer)
    left_out = [
        {"kind": NOT_COUNTED, "description": f"{item['id'] or 'no id'}: {item['problem']['detail']}"}
        for item in answer["items"]
        if "problem" in item
    ]
    return table_csv(replace(listed, rows=[*listed.rows, *_table(PULL_TEXTS, PULL_TEXTS, left_out).rows]))


def sum_table(answer: Result, group: str) -> Table:
    """Sums by a group, the overall sum last."""
    rows = [{**own, group: name_of(own["name"])} for own in answer["totals"][group]]
    rows.append({**answer["totals"]["overall"], group: "all items"})
    names = (group, *SUM_TEXTS)
    return _table(names, _titled(names, _UNITS, answer), rows)


def share_table(answer: Result, group: str) -> Table:
    """Lines of what is used at points by a group: a row a line, a column a name, the sum last."""
    lines = [line for line in answer["pull_list"] if f"by_{group}" in line]
    known = dict.fromkeys(share["name"] for line in lines for share in line[f"by_{group}"])
    names = ("description", "unit", *map(name_of, known), "net")
    rows = [
        [
            line["description"],
            line["unit"],
            *(by.get(name) for name in known),
            line["net"],
        ]
        for line in lines
        for by in [{share["name"]: share["net"] for share in line[f"by_{group}"]}]
    ]
    return Table(titles=names, names=names, rows=rows)


def cut_table(answer: Result) -> Table:
    """The patterns of every kind of rod; a row with the sum and the bound after each."""
    rows: list[dict[str, Any]] = []
    unit = answer["units"]["distance"]
    for own in answer["cut_list"]:
        rows += [
            {
                "rod": own["description"],
                "bars": pattern["bars"],
                "stock": own["stock_length"],
                "pieces": pieces_text(pattern["pieces"], unit),
                "left": _left(own["stock_length"], pattern["pieces"]),
            }
            for pattern in own["patterns"]
        ]
        bound = f"in all; no plan needs fewer than {own['lower_bound']} ({own['method'].replace('_', ' ')})"
        share = f"{own['waste_share']:.1%} left"
        rows.append(
            {
                "rod": own["description"],
                "bars": own["bars"],
                "stock": own["stock_length"],
                "pieces": f"{bound}; {share}",
                "left": own["waste_length"],
            }
        )
    return _table(CUT_TEXTS, _titled(CUT_TEXTS, _LENGTHS, answer), rows)


def item_table(answer: Result) -> Table:
    """A row an item."""
    titles = _titled(ITEM_TEXTS, {**_UNITS, **_LENGTHS}, answer)
    unit = answer["units"]["distance"]
    return _table(ITEM_TEXTS, titles, [_item(item, unit) for item in answer["items"]])


def _left(stock: float, pieces: Sequence[Result]) -> float:
    """What is left of a bar, without the digits that subtracting makes."""
    return round(stock - sum(each["length"] * each["count"] for each in pieces), _DECIMALS)


def _item(item: Result, unit: str) -> dict[str, Any]:
    rod: Result = item.get("rod", _NOTHING)
    problem: Result = next(iter(item.get("problem", _NOTHING).get("errors", ())), _NOTHING)
    return {
        **item,
        "row": item["index"] + 1,
        "rod": rod.get("size"),
        "length": rod.get("length"),
        "pieces": pieces_text(rod.get("pieces", ()), unit) or None,
        **{name: rod.get(name) for name in ("couplings", "nuts", "washers")},
        "not_counted": ";".join(item.get("not_counted", ())) or None,
        "problem": problem.get("detail"),
        "pointer": problem.get("pointer"),
    }


def pieces_text(pieces: Sequence[Result], unit: str) -> str:
    """Pieces in words: 3 x 3'-4", 1 x 1.25 m."""
    return ", ".join(f"{each['count']} x {length_text(each['length'], unit)}" for each in pieces)


def length_text(length: float, unit: str) -> str:
    """A length to cut to: of feet in feet and inches to a sixteenth, where it is one, else as a number."""
    parts = length * 12 * _FINEST
    if unit != "ft" or abs(parts - round(parts)) > _SIXTEENTH:
        return f"{length:.6g} {unit}"
    inches, sixteenths = divmod(round(parts), _FINEST)
    feet, inches = divmod(inches, 12)
    rest = f" {Fraction(sixteenths, _FINEST)}" if sixteenths else ""
    return f"{feet}'-{inches}{rest}\""


def name_of(name: str | None) -> str:
    """A name of a group; one that no item states is said so."""
    return "not stated" if name is None else name


def _titled(names: Sequence[str] | Mapping[str, str], kinds: Mapping[str, str], answer: Result) -> Iterator[str]:
    for name in names:
        yield f"{name} [{answer['units'][kinds[name]]}]" if name in kinds else name


def _table(
    names: Sequence[str] | Mapping[str, str], titles: Sequence[str] | Mapping[str, str] | Iterator[str], rows: Any
) -> Table:
    return Table(titles=list(titles), names=list(names), rows=[[row.get(name) for name in names] for row in rows])
