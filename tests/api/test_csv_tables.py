"""Tables as people keep them: rows that are no points, marks for the cell above, and what is said of a wrong cell."""

import pytest

from api.test_csv import JOB, renamed, written

WEIGHT = {name: text for name, text in JOB[0].items() if not name.startswith(("hangs.", "tags"))} | {
    "hangs.kind": "weight",
    "hangs.weight [lb]": "300",
    "hangs.nature": "dead",
}
EVERYTHING = "".join(
    f"&default.{name}={text}" for name, text in WEIGHT.items() if name not in ("id", "hangs.weight [lb]", "at.level")
)


def raw(rows, sign="\t"):
    """Cells as a clipboard has them, none in quotes."""
    return "\n".join([sign.join(rows[0]), *(sign.join(row[name] for name in rows[0]) for row in rows)]) + "\n"


@pytest.fixture(scope="module")
def items(send_csv):
    def of(rows, query=""):
        text = rows if isinstance(rows, str) else written(rows)
        return send_csv(text, f"?format=json{query}", status=200)["items"]

    return of


@pytest.fixture(scope="module")
def error(items):
    """The one error of a row that is otherwise in order."""

    def of(cells, query="", row=JOB[0]):
        (item,) = items([row | cells], query)
        (found,) = item["problem"]["errors"]
        return found

    return of


@pytest.mark.parametrize("sign", ["\t", ";"])
@pytest.mark.parametrize("place", [1, -1])
def test_two_ditto_marks_of_quotes_swallow_no_row(items, sign, place):
    """A quote that begins a cell is closed by the next one, rows below: what stands between would be one cell."""
    names = [name for name in WEIGHT if name != "at.level"]
    names.insert(place if place > 0 else len(names), "at.level" if place > 0 else "notes")
    rows = [WEIGHT | {"notes": "x", "id": each} for each in "ABCD"]
    for row in rows[1:3]:
        row[names[place]] = '"'
    made = items(raw([{name: row[name] for name in names} for row in rows], sign))
    assert [(each["id"], each["status"]) for each in made] == [("A", "passed"), ("B", "invalid"), ("D", "passed")]
    (told,) = made[1]["problem"]["errors"]
    assert (told["code"], told["line"]) == ("broken-quote", 3)
    assert "lines 3 to 4 are read as one row" in told["detail"]


def test_a_cell_of_more_lines_is_no_swallowed_row(items):
    (item,) = items([WEIGHT | {"notes": "hot,\ncold, and\nreturn"}])
    assert item["status"] == "passed"


@pytest.mark.parametrize("column", ["at.level", "base.member", "trade"])
@pytest.mark.parametrize("text", ["ditto", "Same", "as above", '"', "''", "do.", "idem", "〃", "same as above"])
def test_a_word_for_the_cell_above_is_no_name(error, column, text):
    """Points that share a slab would be taken apart, and not as neighbours."""
    found = error({column: text}, row=WEIGHT)
    assert (found["pointer"], found["line"]) == (f"#/rows/1/{column}", 2)
    assert "This stands for the cell above" in found["detail"]


@pytest.mark.parametrize(
    "text", ["L1 Total", "Total L1", "Subtotal North", "Sum of L1", "TOTAL FOR LEVEL 1", "L1 sub-total:"]
)
def test_a_total_of_something_is_no_point(items, text):
    made = items([{"id": "H-1", "hangs.weight [lb]": "300"}, {"id": text, "hangs.weight [lb]": "900"}], EVERYTHING)
    assert [each["status"] for each in made] == ["passed", "invalid"]
    assert made[1]["problem"]["errors"][0]["code"] == "line-of-totals"


def test_a_total_in_another_column_is_told_once(items):
    row = dict.fromkeys(WEIGHT, "") | {"at.level": "Total", "hangs.weight [lb]": "900", "base.thickness": "3"}
    (found,) = items([WEIGHT, row])[1]["problem"]["errors"]
    assert found["code"] == "line-of-totals"


@pytest.mark.parametrize("text", ["LEVEL 2", "Branch lines", "Zone B", "2nd floor"])
def test_a_heading_is_no_point_whatever_the_defaults_state(items, text):
    rows = [
        {"id": "H-1", "hangs.weight [lb]": "300", "at.level": ""},
        {"id": text, "hangs.weight [lb]": "", "at.level": ""},
    ]
    made = items(rows, f"{EVERYTHING}&default.hangs.weight=200 lb")
    assert [each["status"] for each in made] == ["passed", "invalid"]
    assert made[1]["problem"]["errors"][0]["code"] == "heading"


def test_a_row_of_an_id_that_defaults_complete_is_a_point(items):
    rows = [
        {"id": "H-1", "hangs.weight [lb]": "300", "at.level": ""},
        {"id": "H-2", "hangs.weight [lb]": "", "at.level": ""},
    ]
    made = items(rows, f"{EVERYTHING}&default.hangs.weight=200 lb")
    assert [each["status"] for each in made] == ["passed", "passed"]


@pytest.mark.parametrize(
    ("units", "text", "said"),
    [("us", "96", "96 ft here: write 96 in or 96 ft"), ("si", "2500", "2500 m here: write 2500 mm or 2500 m")],
)
def test_a_span_without_a_unit_that_no_run_has_is_not_taken_in_feet_or_metres(error, units, text, said):
    found = error({"hangs.run.spans": text, "hangs.run.support": "0"}, f"&units={units}")
    assert said in found["detail"]


@pytest.mark.parametrize(
    ("units", "text"), [("us", "30"), ("us", "96 in"), ("us", "96 ft"), ("si", "10"), ("si", "12 m")]
)
def test_spans_that_are_usual_or_have_a_unit_are_read(items, units, text):
    (item,) = items([JOB[0] | {"hangs.run.spans": text, "hangs.run.support": "0"}], f"&units={units}")
    assert item["status"] in ("passed", "failed")


def test_a_span_of_a_titled_unit_is_read(items):
    rows = renamed([JOB[0] | {"hangs.run.spans": "96"}], {"hangs.run.spans": "spans [ft]"})
    (item,) = items([rows[0] | {"hangs.run.support": "0"}], "&units=us")
    assert item["status"] in ("passed", "failed")


@pytest.mark.parametrize("text", ["no edge", "No Edges", "∞", "infinite"])
def test_words_for_no_edge_within_reach(send_csv, text):
    plain, worded = (
        send_csv(written([JOB[0] | {"base.edges.x_minus": each}]), "?format=json", status=200)["request_digest"]
        for each in ("none", text)
    )
    assert worded == plain


@pytest.mark.parametrize("text", ["0", "0.0", "-", "n/a", "no", "nil"])
def test_an_edge_that_is_nothing_is_told_to_be_none_or_a_distance(error, text):
    assert "write none, or a size" in error({"base.edges.x_minus": text}, "&units=us")["detail"]


def test_an_edge_that_is_far_may_still_be_near_enough_to_count(error):
    assert 'or the word "none"' in error({"base.edges.x_minus": "far"}, "&units=us")["detail"]


BARE = {"hangs.insulation.thickness": "0", "hangs.insulation.density": ""}


@pytest.mark.parametrize(
    "cells",
    [
        {"hangs.insulation.thickness": "none"},
        {"hangs.insulation.thickness": "Bare"},
        {"hangs.insulation.thickness": "no insulation"},
        {"hangs.insulation.density": "-"},
        {"hangs.insulation.thickness": "None", "hangs.insulation.density": "n/a"},
    ],
)
def test_no_insulation_in_words(send_csv, cells):
    plain, worded = (
        send_csv(written([JOB[0] | BARE | each]), "?format=json&units=us", status=200)["request_digest"]
        for each in ({}, cells)
    )
    assert worded == plain


@pytest.mark.parametrize("text", ["-", "n/a", "NA", "–"])
def test_a_dash_for_insulation_is_told_what_to_write(error, text):
    assert "write 0, or the thickness" in error({"hangs.insulation.thickness": text})["detail"]


def test_insulation_without_a_density_is_not_weightless(error):
    cells = {"hangs.insulation.thickness": "1 in", "hangs.insulation.density": "-"}
    assert error(cells)["detail"] == "Insulation needs its density as well."


@pytest.mark.parametrize("text", ["-", "n/a", "none", "–"])
def test_a_dash_in_a_column_of_another_kind_says_nothing(items, text):
    """As in lists of pipes and equipment; what would be read is refused all the same."""
    weight = WEIGHT | {"hangs.size": text, "hangs.run.spans": text, "hangs.material": text, "base.masonry.units": text}
    pipe = JOB[0] | {"id": "P", "hangs.weight [lb]": text, "hangs.nature": text}
    names = list({name: None for row in (weight, pipe) for name in row})
    made = items(written([weight, pipe], order=names))
    assert [each["status"] for each in made] == ["passed", "passed"]
    own = weight | {"hangs.nature": text}, pipe | {"hangs.size": text}
    assert [each["status"] for each in items(written(own, order=names))] == ["invalid", "invalid"]


def test_a_list_of_another_kind_is_named_by_its_column(error):
    found = error({"spans [ft]": "10"}, row=WEIGHT)
    assert (found["column"], found["cell"]) == ("spans [ft]", "10")
    assert "leave the cell empty" in found["detail"]


@pytest.mark.parametrize("text", ["DN50", "DN 50", "50 mm", "50mm"])
def test_a_size_in_millimetres_is_told_in_inches(error, text):
    """DN 50 is NPS 2 in ISO 6708 and ASME B36.10M, from memory."""
    assert "DN 50 is 2" in error({"hangs.size": text})["detail"]


def test_a_strength_class_is_told_its_column(error):
    detail = error({"base.strength.f_c": "C25/30"})["detail"]
    assert "base.strength.class" in detail
    assert "write 25 MPa" in detail


def test_an_allowance_above_all_of_the_weight_is_told_per_cent(error):
    assert "write 10 % or 0.1" in error({"hangs.allowance": "10"})["detail"]


@pytest.mark.parametrize(("text", "said"), [("1,000", "write 1000"), ("-", "whole number"), ("1.5", "whole number")])
def test_a_count_is_told_what_to_write(error, text, said):
    assert said in error({"hangs.run.support": text})["detail"]


def test_an_empty_cell_under_a_filled_one_is_told_not_to_take_it(items):
    rows = [WEIGHT, WEIGHT | {"id": "H-2", "base.thickness": "", "hangs.kind": ""}]
    found = items(rows)[1]["problem"]["errors"]
    assert {each["column"] for each in found} == {"hangs.kind", "base.thickness"}
    assert all("does not take what stands above it" in each["detail"] for each in found)


def test_a_header_in_words_of_the_trade_below_a_title_is_told(send_csv):
    above = "Invented School,,,\nRev 2,,,\n"
    problem = send_csv(f"{above}Hanger No.,Lvl,Pipe Dia,Mat'l,Slab Thk\nH-1,2,4,steel,8\n", status=422)
    (found,) = problem["errors"]
    assert found["code"] == "no-header"
    assert "row 2 under it has 5" in found["detail"]


def test_a_row_of_merged_cells_is_told_once(items):
    """As where a spreadsheet shows one cell over several rows and keeps it in the first."""
    empty = dict.fromkeys(WEIGHT, "") | {"id": "H-2", "hangs.weight [lb]": "300"}
    for rows in ([WEIGHT, empty], [WEIGHT, empty | {"hangs.kind": "weight"}]):
        (found,) = items(rows)[1]["problem"]["errors"]
        assert (found["code"], found["pointer"], found["line"]) == ("missing", "#/rows/2", 3)
        assert "base.kind, anchor.family" in found["detail"]
        assert "does not take what stands above it: fill these cells." in found["detail"]


@pytest.mark.parametrize(
    ("row", "column", "plain", "text"),
    [
        (JOB[0], "hangs.material", "steel", "Carbon Steel"),
        (JOB[0], "hangs.material", "steel", "black steel"),
        (JOB[0], "hangs.contents", "water", "Cold water"),
        (WEIGHT, "hangs.nature", "dead", "Dead load"),
        (WEIGHT, "hangs.nature", "dead", "DL"),
        (WEIGHT, "hangs.nature", "live", "LL"),
    ],
)
def test_words_that_can_mean_one_thing_only(send_csv, row, column, plain, text):
    first, second = (
        send_csv(written([row | {column: each}]), "?format=json", status=200)["request_digest"]
        for each in (plain, text)
    )
    assert first == second


@pytest.mark.parametrize(("column", "text"), [("hangs.material", "iron"), ("hangs.contents", "chilled water")])
def test_words_that_may_mean_two_things_are_not_taken(error, column, text):
    """Chilled water may have glycol in it, iron may be cast or ductile."""
    assert error({column: text})["code"] == "unknown-option"
