"""Take-offs of random jobs against a take-off of our own code (`independent_take_off`), in both systems of units.

Jobs have what a list from a site has: mixed notations, invalid items among valid ones, alternatives, products of one's
own, ids that a spreadsheet would take for formulas, rods longer than the bars, packs that do not come out even.
"""

import csv
import io
import math
import random
from fractions import Fraction

import openpyxl
import pytest

from api.bodies import INLINE, change
from api.independent_scalar import families, inches, products, unguarded
from api.independent_take_off import take_off

PATH = "/v1/take-offs"
KNOWN = families()
PRODUCTS = products(KNOWN)
RODS = ("1/4", "3/8", "1/2", "5/8", "3/4", "7/8", "1", "M8", "M10", "M12")
NAMES = ("L1", "L2", "=1+1", "@x", "-2", "\tL", "Уровень 3", "l1", "階 " * 40, "+A1", None)
MY_OWN = change(INLINE, {"size.thread": "3/8", "embedment.hole": {"diameter": 0.5, "depth": 2.625}})
BAD = (
    {"anchor": {"family": "none-such", "size": "3/8", "h_ef": "2 in"}},
    {"rod": {"size": "3/8", "length": 0}},
    {"rod": {"size": "9/16", "length": "3 ft"}},
    {"quantity": 0},
    {"rod": {"size": "3/8", "length": "-2 ft"}},
)


def length_of(r, units):
    """A length of a rod in one of the notations that a request may have."""
    sixteenths = r.randrange(4, 16 * 12 * 35)
    if r.random() < 0.3:
        sixteenths = 16 * 12 * r.randrange(1, 36)
    inch, part = divmod(sixteenths, 16)
    feet, rest = divmod(inch, 12)
    mm = r.randrange(50, 9000)
    return r.choice(
        (
            f"{feet}'-{rest} {part}/16\"",
            f"{sixteenths}/16 in",
            f"{mm} mm",
            f"{mm / 10} cm",
            f"{feet}.5 ft",
            feet + 0.25 if units == "us" else mm / 1000,
        )
    )


def anchor_of(r):
    if r.random() < 0.05:
        return {"product": MY_OWN if r.random() < 0.5 else INLINE}
    family, size, embedment = r.choice(PRODUCTS)
    unit = "in" if family["units"] == "us" else "mm"
    made = {"family": family["id"], "size": size["size"], "h_ef": f"{embedment['h_ef']} {unit}"}
    if r.random() < 0.2:
        made["layout"] = [{"x": f"{6 * at} in", "y": 0} for at in range(r.randrange(1, 5))]
    return made


def item_of(r, units, at):
    made = {"id": f"{r.choice(('P', '=', '@', '-', '+', 'é'))}{at}", "anchor": anchor_of(r)}
    if r.random() < 0.8:
        rod = {"size": r.choice(RODS)}
        if r.random() < 0.85:
            rod["length"] = length_of(r, units)
        if r.random() < 0.3:
            rod["number"] = r.randrange(0, 4)
        if r.random() < 0.3:
            rod["ends"] = {name: r.randrange(0, 4) for name in ("nuts", "washers", "couplings") if r.random() < 0.7}
        if r.random() < 0.3:
            rod["material"] = r.choice(("unknown", "a36", "a307", "f1554_36"))
        made["rod"] = rod
    if r.random() < 0.7:
        made["quantity"] = r.choice((1, 2, 7, 49, 50, 51, 300))
    level = r.choice(NAMES)
    if level is not None:
        made["at"] = {"level": level, "x": r.choice((-3, 0, "5 ft", "-2.5 m"))}
    for name in ("trade", "area"):
        if r.random() < 0.6:
            made[name] = r.choice(NAMES[:-1])
    if r.random() < 0.4:
        made["tags"] = [r.choice(NAMES[:4]) for _ in range(r.randrange(1, 4))]
    return made


def job_of(seed, count):
    r = random.Random(seed)  # Jobs to try, no secrets.
    units = r.choice(("us", "si"))
    items = [item_of(r, units, at) for at in range(count)]
    for at in range(1, count):
        if r.random() < 0.15:
            other = items[at - 1]
            other["alternative_of"] = f"A{at // 7}"
            items[at] = {**other, "id": items[at]["id"]}
    bad = {at for at in range(count) if r.random() < 0.05}
    for at in bad:
        items[at] = {**items[at], **r.choice(BAD)}
    request = {"units": units, "items": items}
    if r.random() < 0.5:
        request["waste"] = {
            name: r.choice((0, 0.03, 0.1, 0.333, 1))
            for name in ("anchors", "rods", "hardware", "adhesive", "charges")
            if r.random() < 0.6
        }
    if r.random() < 0.6:
        bar = r.choice(("12 ft", "6 ft", "3 m", "10 ft", "1000 mm"))
        request["stock"] = {"rod_length": bar, "kerf": r.choice((0, "1/16 in", "3 mm", "0.125 in"))}
        request["stock"]["packs"] = {"nuts": r.choice((1, 50, 100)), "rods": r.choice((1, 25)), "nozzles": 3}
        if r.random() < 0.4:
            request["stock"]["shortest_piece"] = r.choice(("3 in", "200 mm", "1'-0\""))
    if r.random() < 0.3:
        request["crews"] = r.randrange(1, 5)
    if r.random() < 0.5:
        request["defaults"] = {"rod": {"size": "3/8", "ends": {"nuts": 3}}, "quantity": 2, "area": "north"}
    return request, bad


def near(one, other):
    return math.isclose(float(one), float(other), rel_tol=1e-9, abs_tol=1e-9)


def lines_of(answer):
    made = {}
    for line in answer["pull_list"]:
        made.setdefault(line["kind"], []).append(line)
    return made


def same_lines(answer, own, volume):
    """Lines of a kind match as sets of figures: what two programs call a thing may differ, what is counted may not."""
    theirs = lines_of(answer)
    for kind in ("anchor", "bit", "charge", "nut", "washer", "coupling", "cartridge", "nozzle"):
        mine = sorted(tuple(map(float, line.values())) for (of, _), line in own["lines"].items() if of == kind)
        found = [[line[name] for name in ("net", "gross", "packs", "left_over")] for line in theirs.get(kind, ())]
        assert sorted(tuple(map(float, line)) for line in found) == mine, kind
    mine = sorted(line["packs"] for (of, _), line in own["lines"].items() if of == "adhesive")
    assert sorted(line["packs"] for line in theirs.get("adhesive", ())) == mine
    mine = sorted(line["net"] for (of, _), line in own["lines"].items() if of == "adhesive")
    assert all(map(near, sorted(line["net"] / volume for line in theirs.get("adhesive", ())), mine))


def same_cuts(answer, own, unit):
    """Pieces are those of our own; patterns cut them all, within the bar; no fewer bars than the material asks for."""
    found = {(each["rod"]["size"], each["rod"]["material"]): each for each in answer["cut_list"]}
    assert found.keys() == {rod for rod, pieces in own["pieces"].items() if pieces}
    bar, kerf, waste = own["rates"]["bar"], own["rates"]["kerf"], own["rates"]["waste"]["rods"]
    for rod, each in found.items():
        mine = sorted(own["pieces"][rod].items())
        theirs = sorted((piece["length"] * unit, piece["count"]) for piece in each["pieces"])
        assert len(theirs) == len(mine)
        assert all(near(a, b) and n == m for (a, n), (b, m) in zip(theirs, mine, strict=True))
        cut = {}
        for pattern in each["patterns"]:
            number = sum(piece["count"] for piece in pattern["pieces"])
            length = sum(piece["length"] * piece["count"] for piece in pattern["pieces"]) * unit
            assert length + (number - 1) * float(kerf) <= float(bar) + 1e-6
            for piece in pattern["pieces"]:
                cut[piece["length"]] = cut.get(piece["length"], 0) + pattern["bars"] * piece["count"]
        assert cut == {piece["length"]: piece["count"] for piece in each["pieces"]}
        assert each["bars"] == sum(pattern["bars"] for pattern in each["patterns"])
        material = sum((length + kerf) * number for length, number in mine) / (bar + kerf)
        assert math.ceil(material) <= each["lower_bound"] <= each["bars"]
        used = sum(length * number for length, number in mine)
        assert near(each["waste_length"] * unit, each["bars"] * bar - used)
        description = each["description"]
        line = next(own for own in answer["pull_list"] if own["kind"] == "rod" and own["description"] == description)
        assert (line["net"], line["gross"]) == (each["bars"], math.ceil(each["bars"] * (1 + waste)))
        assert line["packs"] == math.ceil(Fraction(line["gross"], line["pack"]))


MEASURES = ("points", "anchors", "rods", "rod_length", "holes", "drilled_length", "adhesive_volume", "minutes")


def same_items(answer, own, bad, units):
    rows = iter(own["rows"])
    for at, result in enumerate(answer["items"]):
        assert ("problem" in result) is (at in bad), result
        if at in bad:
            continue
        row = next(rows)
        assert result["id"] == row["id"]
        for name in (*MEASURES, "cost_index"):
            assert near(result[name] * units.get(name, 1), row[name]), (name, result, row)
        for name in ("couplings", "nuts", "washers"):
            assert result.get("rod", {}).get(name, 0) == row[name]
        assert ("rod-joint-open" in result["not_counted"]) is row["open"]


def same_totals(answer, own, units):
    for group in ("level", "trade", "area", "tag"):
        names = {}
        for row in own["rows"]:
            for name in row["tags"] if group == "tag" else [row[group]]:
                sums = names.setdefault(name, dict.fromkeys(MEASURES, 0))
                for each in MEASURES:
                    sums[each] += row[each]
        found = {each["name"]: each for each in answer["totals"][group]}
        assert list(found) == list(names)
        assert all(near(found[name][key] * units.get(key, 1), names[name][key]) for name in names for key in MEASURES)
    overall = answer["totals"]["overall"]
    assert all(near(overall[key] * units.get(key, 1), sum(row[key] for row in own["rows"])) for key in MEASURES)
    assert near(overall["hours"], sum(row["minutes"] for row in own["rows"]) / 60)


@pytest.mark.parametrize("seed", range(60))
def test_a_random_job_by_our_own_count(client, seed):
    request, bad = job_of(seed, (1, 3, 25, 120)[seed % 4])
    response = client.post(PATH, json=request)
    assert response.status_code == 200, response.text[:600]
    answer = response.json()
    own = take_off(request, KNOWN, bad)
    si = request["units"] == "si"
    far = float(inches(1, "m" if si else "ft"))
    volume = 25.4**3 / 1000 if si else 1
    units = {"rod_length": far, "drilled_length": far, "adhesive_volume": 1 / volume}
    assert answer["summary"]["invalid"] == len(bad)
    same_items(answer, own, bad, units)
    same_totals(answer, own, units)
    same_lines(answer, own, volume)
    same_cuts(answer, own, far)


PULL = ("line", "kind", "product", "description", "unit", "net", "gross", "pack", "packs", "left_over", "source")


def cells_of(sheet):
    """Rows of the first table of a sheet by the words of its titles; a cell of a number is a number."""
    rows = list(sheet.iter_rows(values_only=True))
    titles = [title for title in rows[0] if title is not None]
    body = rows[1 : next((at for at, row in enumerate(rows) if not any(cell is not None for cell in row)), len(rows))]
    return [dict(zip(titles, row, strict=False)) for row in body]


def same_cell(cell, value):
    if isinstance(value, int | float):
        assert isinstance(cell, int | float)
        assert math.isclose(cell, value, rel_tol=1e-14)
    else:
        assert (cell or None) == (value or None), (cell, value)


def distance_of(text, unit):
    """A piece of a cut list in words, in ft or m."""
    if unit == "ft" and text.endswith('"'):
        return float(inches(text, "ft")) / 12
    return float(text.removesuffix(f" {unit}"))


@pytest.mark.parametrize("seed", range(0, 60, 6))
def test_files_of_a_random_job_say_what_its_answer_says(client, seed):
    request, bad = job_of(seed, 40)
    answer = client.post(PATH, json=request).json()
    units = answer["units"]
    rows = list(csv.DictReader(io.StringIO(client.post(f"{PATH}?format=csv", json=request).text, newline="")))
    assert len(rows) == len(answer["pull_list"]) + len(bad)
    for row, line in zip(rows, answer["pull_list"], strict=False):
        for name in PULL:
            value = line.get(name)
            cell = float(row[name]) if isinstance(value, int | float) else unguarded(row[name])
            same_cell(cell, value)
        assert near(row["waste_percent"], 100 * line["waste"])
    book = openpyxl.load_workbook(io.BytesIO(client.post(f"{PATH}?format=xlsx", json=request).content))
    assert not [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    for row, line in zip(cells_of(book["Pull list"]), answer["pull_list"], strict=True):
        for name in PULL:
            same_cell(row[name.replace("_", " ")], line.get(name))
    kinds = {"rod length": "distance", "drilled length": "distance", "adhesive volume": "volume"}
    for row, item in zip(cells_of(book["Items"]), answer["items"], strict=True):
        assert (row["id"], row["row"]) == (item["id"], item["index"] + 1)
        for name in (*MEASURES, "cost_index", "hours", "level", "trade", "area", "product"):
            title = name.replace("_", " ")
            same_cell(row[f"{title} [{units[kinds[title]]}]" if title in kinds else title], item.get(name))
        rod = item.get("rod", {})
        same_cell(row["rod"], rod.get("size"))
        same_cell(row[f"length [{units['distance']}]"], rod.get("length"))
        told = [each.split(" x ") for each in (row["pieces"] or "").split(", ") if each]
        assert [int(number) for number, _ in told] == [each["count"] for each in rod.get("pieces", ())]
        for (_, text), piece in zip(told, rod.get("pieces", ()), strict=True):
            # Six digits, or a sixteenth of an inch where the length is one.
            assert math.isclose(distance_of(text, units["distance"]), piece["length"], rel_tol=1e-5, abs_tol=1e-5)
    for group in ("level", "trade", "area"):
        sums = cells_of_part(book[f"By {group}"])
        named = [*answer["totals"][group], {"name": "all items", **answer["totals"]["overall"]}]
        for row, own in zip(sums, named, strict=True):
            assert row[group] == ("not stated" if own["name"] is None else own["name"])
            same_cell(row["anchors"], own["anchors"])
            same_cell(row[f"rod length [{units['distance']}]"], own["rod_length"])


def cells_of_part(sheet):
    """The table below a heading."""
    rows = list(sheet.iter_rows(values_only=True))[1:]
    end = next((at for at, row in enumerate(rows) if not any(cell is not None for cell in row)), len(rows))
    return [dict(zip(rows[0], row, strict=True)) for row in rows[1:end]]
