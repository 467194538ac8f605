"""Hang points as CSV: how it may be written, what is refused and where, and what comes back."""

import csv
import io
from pathlib import Path

import pytest

from api.bodies import BATCH_CSV, change, single
from hangpoint.api.csv_columns import ALIASES, REQUIRED, columns
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.report.schedule import COLUMNS

GUIDE = Path(__file__).parents[2] / "examples" / "guides" / "csv.md"
OF_AN_ANCHOR = ("family", "size", "h_ef")
JOB = [
    {
        "id": "H-1",
        "at.level": "L2",
        "tags": "east; riser",
        "hangs.kind": "pipe",
        "hangs.material": "steel",
        "hangs.size": "4",
        "hangs.schedule": "40",
        "hangs.contents": "water",
        "hangs.sprinkler": "no",
        "hangs.run.spans": "10 ft;8'-6\"",
        "hangs.run.support": "1",
        "anchor.family": "wedge-expansion-zinc",
        "anchor.size": "3/8",
        "anchor.h_ef": "2-1/2 in",
        "base.kind": "concrete",
        "base.strength.f_c": "4000 psi",
        "base.density": "normalweight",
        "base.thickness": "6 in",
        "base.edges.x_minus": "none",
        "base.edges.x_plus": "none",
        "base.edges.y_minus": "none",
        "base.edges.y_plus": "8 in",
        "seismic.category": "B",
    },
]
JOB += [
    JOB[0] | {"id": "H-2", "hangs.run.spans": "30 ft;30 ft", "base.edges.y_plus": "2 in"},
    JOB[0] | {"id": "H-3", "base.thickness": "2 in", "hangs.run.support": "0"},
]


def written(rows, delimiter=",", end="\n", order=None):
    names = order or list(rows[0])
    out = io.StringIO()
    writer = csv.writer(out, delimiter=delimiter, lineterminator=end)
    writer.writerow(names)
    writer.writerows([row.get(name, "") for name in names] for row in rows)
    return out.getvalue()


def renamed(rows, names):
    return [{names.get(name, name): text for name, text in row.items()} for row in rows]


@pytest.fixture(scope="module")
def digest(send_csv):
    """Digest of the answer in JSON: two files that mean the same have the same."""

    def of(text, query=""):
        return send_csv(text, f"?format=json{query}", status=200)["request_digest"]

    return of


@pytest.fixture(scope="module")
def table(send_csv):
    def of(text, query="", **options):
        return list(csv.DictReader(io.StringIO(send_csv(text, query, status=200, **options))))

    return of


def test_columns_come_in_any_order(digest):
    assert digest(written(JOB, order=sorted(JOB[0], reverse=True))) == digest(written(JOB))


@pytest.mark.parametrize(
    ("names", "cells"),
    [
        ({"base.thickness": "base.thickness [in]"}, {"base.thickness": "6"}),
        ({"base.thickness": "base.thickness [mm]"}, {"base.thickness": "152.4"}),
        ({"base.thickness": " base.thickness[ft] "}, {"base.thickness": "1/2"}),
        ({"base.thickness": "base.thickness [mm]"}, {"base.thickness": "6 in"}),
        ({"base.strength.f_c": "f_c [ksi]"}, {"base.strength.f_c": "4"}),
        ({"hangs.run.spans": "spans [ft]"}, {"hangs.run.spans": "10; 8.5"}),
        ({"hangs.run.spans": "hangs.run.spans [in]"}, {"hangs.run.spans": "120;8.5 ft"}),
        ({}, {"hangs.sprinkler": "FALSE"}),
        ({}, {"hangs.sprinkler": "0"}),
        ({}, {"tags": "east;riser"}),
        ({}, {"tags": "east;riser;"}),
        ({}, {"base.thickness": " 6 in "}),
        ({}, {"base.edges.x_minus": "None", "base.edges.x_plus": "NONE"}),
        ({}, {"seismic.category": "b", "hangs.kind": "Pipe", "base.kind": "CONCRETE"}),
        ({}, {"base.density": "Normalweight", "hangs.material": "Steel", "hangs.contents": "WATER"}),
        ({"id": "ID", "base.thickness": "Base.Thickness [in]", "anchor.family": "Family"}, {"base.thickness": "6"}),
    ],
)
def test_ways_to_write_a_cell(digest, names, cells):
    rows = renamed([JOB[0] | cells], names)
    assert digest(written(rows)) == digest(written(JOB[:1]))


def test_each_alias_is_its_column(digest):
    names = {path: alias for alias, path in ALIASES.items()}
    assert set(ALIASES.values()) <= set(columns())
    assert digest(written(renamed(JOB, names))) == digest(written(JOB))


@pytest.mark.parametrize(("delimiter", "query"), [(";", ""), ("\t", ""), (";", "semicolon"), ("\t", "tab")])
def test_other_delimiters(digest, delimiter, query):
    rows = [row | {"tags": ""} for row in JOB]
    assert digest(written(rows, delimiter), query and f"&delimiter={query}") == digest(written(rows))


def test_a_decimal_comma_only_where_it_is_stated(digest, send_csv):
    rows = [JOB[0] | {"base.thickness": "6,5 in", "anchor.h_ef": "2,5 in"}]
    plain = digest(written([JOB[0] | {"base.thickness": "6.5 in"}]))
    assert digest(written(rows, ";"), "&decimal=,") == plain
    answer = send_csv(written(rows, ";"), "?format=json", status=200)
    places = [error["pointer"] for error in answer["items"][0]["problem"]["errors"]]
    assert sorted(places) == ["#/rows/1/anchor.h_ef", "#/rows/1/base.thickness"]


def test_quotes_hold_delimiters_and_newlines(digest, send_csv):
    rows = [JOB[0] | {"trade": 'pipes, "hot"\nand cold'}, *JOB[1:]]
    answer = send_csv(written(rows), "?format=json&echo=true&detail=verdict", status=422)
    assert answer["errors"][0]["pointer"] == "?echo"
    text = send_csv(written(rows, order=[*JOB[0], "trade"]), "?echo=true", status=200)
    first = next(csv.DictReader(io.StringIO(text)))
    assert first["input.trade"] == 'pipes, "hot"\nand cold'


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text.replace("\n", "\r\n"),
        lambda text: "\ufeff" + text,
        lambda text: text.replace("\n", "\n\n\n"),
        lambda text: text + "\n  \n,,,,\n",
        lambda text: text.replace("\n", ",,,\n"),
        lambda text: text.rstrip("\n"),
    ],
    ids=["crlf", "byte order mark", "blank lines", "blank end", "empty columns", "no end"],
)
def test_what_spreadsheets_add_changes_nothing(digest, spoil):
    assert digest(spoil(written(JOB))) == digest(written(JOB))


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_a_carriage_return_alone_ends_a_line(digest, delimiter):
    rows = [row | {"tags": ";".join("abcdefghijklmnopqrst")} for row in JOB]
    short = [row["id"] for row in rows]
    assert digest(written(rows, delimiter, end="\r")) == digest(written(rows))
    everything = "".join(f"&default.{name}={JOB[0][name]}" for name in JOB[0] if name not in ("id", "tags"))
    few = [{"id": name, "tags": "a;b;c;d"} for name in short]
    assert digest(written(few, "\t", end="\r"), everything) == digest(written(few), everything)


@pytest.mark.parametrize("title", ["", "  ", "[in]"])
def test_a_cell_under_no_title_is_not_dropped(send_csv, title):
    lines = written(JOB).splitlines()
    text = "\n".join([f"{lines[0]},{title}", f"{lines[1]},", f"{lines[2]},see drawing", lines[3]])
    items = send_csv(text, "?format=json", status=200)["items"]
    plain = send_csv(written(JOB), "?format=json", status=200)["items"]
    assert [items[0], items[2]] == [plain[0], plain[2]]
    (error,) = items[1]["problem"]["errors"]
    assert (items[1]["id"], error["code"], error["pointer"], error["line"]) == (
        "H-2",
        "cell-without-title",
        "#/rows/2",
        3,
    )
    assert f"Column {len(JOB[0]) + 1} " in error["detail"]


@pytest.mark.parametrize(
    ("cells", "code"),
    [
        (dict.fromkeys(JOB[0], "") | {"id": "LEVEL 2"}, "heading"),
        ({name: f" {name.upper()} " for name in JOB[0]}, "header-again"),
        (dict.fromkeys(JOB[0], "") | {"anchor.h_ef": "in", "base.thickness": "in", "at.level": "-"}, "header-again"),
        (dict.fromkeys(JOB[0], "") | {"base.thickness": "12,345.00"}, "line-of-totals"),
        (dict.fromkeys(JOB[0], "") | {"id": "TOTAL LBS", "base.thickness": "12,345.00"}, "line-of-totals"),
        (dict.fromkeys(JOB[0], "") | {"id": "Total weight:", "base.thickness": "12"}, "line-of-totals"),
    ],
)
def test_a_line_that_is_no_point_has_one_error(send_csv, cells, code):
    items = send_csv(written([JOB[0], cells, JOB[1]]), "?format=json", status=200)["items"]
    assert [item["status"] == "invalid" for item in items] == [False, True, False]
    assert [error["code"] for error in items[1]["problem"]["errors"]] == [code]


def test_a_row_that_defaults_complete_is_no_heading(send_csv):
    defaults = "".join(f"&default.{name}={text}" for name, text in JOB[0].items() if name != "id")
    rows = [dict.fromkeys(JOB[0], "") | {"id": "LEVEL 2"}]
    (item,) = send_csv(written(rows), f"?format=json{defaults.replace('; ', ';')}", status=200)["items"]
    assert item["status"] != "invalid"


@pytest.mark.parametrize(
    ("cell", "advice"),
    [("1,250.50", "write 1250.50 without separators"), ("6.00E+00", "write the number in full")],
)
def test_what_a_spreadsheet_makes_of_a_number_is_told_with_what_to_write(send_csv, cell, advice):
    rows = renamed([JOB[0] | {"base.thickness": cell}], {"base.thickness": "base.thickness [in]"})
    (item,) = send_csv(written(rows), "?format=json", status=200)["items"]
    (error,) = item["problem"]["errors"]
    assert advice in error["detail"]


def test_a_word_may_have_a_space_that_does_not_break(send_csv):
    (item,) = send_csv(written([JOB[0] | {"base.density": "Normal\u00a0weight"}]), "?format=json", status=200)["items"]
    assert item["status"] != "invalid"


@pytest.mark.parametrize("spans", ["10 ft;;8 ft", ";10 ft", "10 ft;;", "10 ft; ;8 ft", ";", "10 ft;", "10 ft; "])
def test_an_empty_place_in_a_list_is_no_shorter_list(send_csv, spans):
    (item,) = send_csv(written([JOB[0] | {"hangs.run.spans": spans}]), "?format=json", status=200)["items"]
    assert [error["code"] for error in item["problem"]["errors"]] == ["empty-place"]


def test_places_of_a_list_keep_the_numbers_of_their_columns(send_csv):
    rest = {name: text for name, text in JOB[0].items() if not name.startswith("hangs.")} | {"hangs.kind": "forces"}
    own = {"hangs.components.1.nature": "dead", "hangs.components.1.tension": "100 lb"}
    bad = {"hangs.components.4.nature": "dead", "hangs.components.4.tension": "100 ft"}
    later = {"hangs.components.4.nature": "live", "hangs.components.4.tension": "1e6 kip"}
    rows = [rest | {"id": "good"} | own, rest | own | {"id": "bad"} | bad, rest | own | {"id": "later"} | later]
    items = send_csv(written(rows, order=list({name: None for row in rows for name in row})), "?format=json")["items"]
    assert items[0]["status"] == "passed"
    for row in (1, 2):
        (error,) = items[row]["problem"]["errors"]
        assert (error["pointer"], error["line"]) == (f"#/rows/{row + 1}/hangs.components.4.tension", row + 2)


def test_defaults_by_query(digest, send_csv):
    without = [{name: text for name, text in row.items() if name != "base.strength.f_c"} for row in JOB]
    given = "&default.base.strength.f_c=4000 psi"
    items = send_csv(written(without), f"?format=json{given}", status=200)["items"]
    assert items == send_csv(written(JOB), "?format=json", status=200)["items"]
    own = [without[0], without[1] | {"base.strength.f_c": "3000 psi"}, without[2]]
    strengths = {"f-c-assumed" in each.get("assumptions", ()) for each in items}
    assert strengths == {False}
    assert digest(written(own, order=list(JOB[0])), given) != digest(written(without), given)
    everything = "".join(f"&default.{name}={JOB[0][name]}" for name in JOB[0] if name != "id").replace(" ", "%20")
    all_default = send_csv("id\nH-1\n", f"?format=json{everything}", status=200)["items"]
    assert all_default == send_csv(written(JOB[:1]), "?format=json", status=200)["items"]


@pytest.mark.parametrize(
    ("query", "place"),
    [
        ("?default.base.thickness=4 psi", "#/defaults/base/thickness"),
        ("?default.base.thicknes=4 in", "?default.base.thicknes"),
        ("?default.id=x", "?default.id"),
        ("?default.base.thickness=4", "?default.base.thickness"),
        ("?unit=us", "?unit"),
        ("?units=metric", "?units"),
        ("?decimal=;", "?decimal"),
        ("?units=us&units=si", "?units"),
        ("?units=us&units=us", "?units"),
        ("?format=json&format=csv", "?format"),
        ("?default.base.thickness=4 in&default.base.thickness=6 in", "?default.base.thickness"),
        ("?default.base.thickness=4 in&default.thickness=6 in", "?default.thickness"),
    ],
)
def test_a_bad_query_refuses_the_whole(send_csv, query, place):
    assert send_csv(BATCH_CSV, query, status=422)["errors"][0]["pointer"] == place


@pytest.mark.parametrize(
    ("names", "code", "allowed"),
    [
        ({"base.thickness": "base.thicknes"}, "unknown-column", "base.thickness"),
        ({"tags": "BASE.Thickness"}, "duplicate-column", None),
        ({"base.strength.f_c": "thickness"}, "duplicate-column", None),
        ({"tags": "base.thickness"}, "duplicate-column", None),
        ({"base.thickness": "base.thickness [psi]"}, "quantity", "in"),
        ({"tags": "tags [in]"}, "quantity", None),
        ({"tags": "anchor.product"}, "unknown-column", None),
    ],
)
def test_a_bad_header_refuses_the_whole(send_csv, names, code, allowed):
    header = ",".join(names.get(name, name) for name in JOB[0])
    problem = send_csv(f"{header}\n{written(JOB).partition(chr(10))[2]}", status=422)
    assert {error["code"] for error in problem["errors"]} == {code}
    assert all(error["line"] == 1 for error in problem["errors"])
    if allowed:
        assert allowed in problem["errors"][0]["allowed"]


@pytest.mark.parametrize(
    "title",
    [
        "Notes",
        "REMARKS",
        "comment",
        "Note on price",
        "notes_2",
        "Remark: crew",
        "rod_length",
        "Rod Length [ft]",
        "quantity",
        "area",
    ],
)
def test_notes_and_columns_of_a_take_off_are_handed_back(send_csv, digest, title):
    """They are not read, whatever stands in them: the same file serves both."""
    rows = [row | {title: cell} for row, cell in zip(JOB, ("see detail 5", "=1+1", ""), strict=True)]
    head, *cells = csv.reader(io.StringIO(send_csv(written(rows), status=200)))
    assert (head[-1], len(head)) == (title, len(COLUMNS) + 1)
    assert [row[-1] for row in cells] == ["see detail 5", "'=1+1", ""]
    assert digest(written(rows)) == digest(written(JOB))


def test_notes_follow_what_is_repeated_and_two_of_one_title_are_both_handed_back(send_csv):
    text = written(JOB[:1]).replace("id,", "note,note,id,", 1).replace("H-1,", "a,b,H-1,", 1)
    head, row = csv.reader(io.StringIO(send_csv(text, "?echo=true", status=200)))
    assert (head[-2:], row[-2:]) == (["note", "note"], ["a", "b"])
    assert "input.id" in head
    assert "input.note" not in head


@pytest.mark.parametrize(
    "title", ["x-distance [ft]", "x-coord", "X_place", "Notes [in]", "y-crew", "annotation", "noteworthy"]
)
def test_what_may_be_meant_to_be_read_is_no_note(send_csv, title):
    problem = send_csv(written([JOB[0] | {title: "1"}]), status=422)
    assert [error["code"] for error in problem["errors"]] == ["unknown-column"]


def test_a_title_like_no_column_is_told_how_to_be_a_note(send_csv):
    problem = send_csv(written([JOB[0] | {"zone Z9": "1"}]), status=422)
    title = problem["errors"][0]["detail"].partition('Title a column of your own "')[2].partition('"')[0]
    assert "zone Z9" in title
    head, row = csv.reader(io.StringIO(send_csv(written([JOB[0] | {title: "1"}]), "?echo=true", status=200)))
    assert (head[-1], row[-1]) == (title, "1")


@pytest.mark.parametrize("path", REQUIRED)
def test_a_required_column_or_a_default(send_csv, path):
    rows = [{name: text for name, text in row.items() if name != path} for row in JOB[:1]]
    problem = send_csv(written(rows), status=422)
    (error,) = problem["errors"]
    assert error["detail"].startswith(f"The column {path} is missing, and no default gives it: add it")
    if path != "id":
        assert send_csv(written(rows), f"?format=json&default.{path}={JOB[0][path]}", status=200)["summary"]["passed"]


@pytest.mark.parametrize("text", ["", "\n", "id\n", written(JOB).partition("\n")[0]])
def test_nothing_to_check(send_csv, text):
    assert send_csv(text, status=422)["type"] == "/problems/validation"


@pytest.mark.parametrize("body", [b"id\n\xff\n", b"id\n\x00\n", b'"id\nabc\n', b'"i"d\nabc\n'])
def test_what_is_no_csv(send_csv, body):
    assert send_csv(body, status=400)["type"] == "/problems/malformed"


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("odd", [b"\x00", b"\xe9"])
def test_a_byte_that_is_no_text_has_its_line(send_csv, end, mark, odd):
    body = mark + end.join([b"id", "\u00e9".encode(), b"ab" + odd, b"c"])
    problem = send_csv(body, status=400)
    (error,) = problem["errors"]
    assert (error["pointer"], error["line"]) == ("#/lines/3", 3)
    assert "byte 3 of line 3 " in problem["detail"]


@pytest.mark.parametrize(
    ("cells", "places"),
    [
        ({"base.thickness": "6 inches thick"}, ["base.thickness"]),
        (
            {"base.thickness": "6 lb", "seismic.category": "", "anchor.h_ef": "7 in"},
            ["base.thickness", "anchor.h_ef", "seismic.category"],
        ),
        (
            {"base.thickness": "6 lb", "base.edges.y_plus": "3/8/2024", "base.density": ""},
            ["base.edges.y_plus", "base.thickness", "base.density"],
        ),
        ({"hangs.run.spans": "10 lb;8 ft", "base.density": ""}, ["hangs.run.spans.0", "base.density"]),
        # An h_ef without its sign of a unit goes with the product, of which then nothing is said.
        ({"anchor.h_ef": "2-1/2 lb", "anchor.size": "7/8"}, ["anchor.h_ef"]),
        # A word that no list has may say what else is asked for.
        ({"base.thickness": "6 lb", "base.state": "wet", "base.density": ""}, ["base.state", "base.thickness"]),
    ],
)
def test_a_row_with_a_wrong_unit_tells_what_else_is_wrong(send_csv, cells, places):
    """Each error once, those of the cells first; the row beside it is checked."""
    rows = [JOB[0] | cells, JOB[1]]
    bad, good = send_csv(written(rows), "?format=json", status=200)["items"]
    assert good["status"] != "invalid"
    assert sorted(each["pointer"].rpartition("/")[2] for each in bad["problem"]["errors"]) == sorted(places)
    assert all(each["line"] == 2 for each in bad["problem"]["errors"])


def test_bare_numbers_need_a_unit(send_csv, digest):
    rows = [JOB[0], JOB[1] | {"base.thickness": "6"}]
    answer = send_csv(written(rows), "?format=json", status=200)
    assert [each["status"] for each in answer["items"]] == ["passed", "invalid"]
    (error,) = answer["items"][1]["problem"]["errors"]
    assert (error["pointer"], error["line"], error["code"]) == ("#/rows/2/base.thickness", 3, "missing")
    assert "units=us or units=si" in error["detail"]
    assert digest(written(rows), "&units=us") == digest(written(JOB[:2]), "&units=us")
    metric = [JOB[0] | {"base.thickness": "152.4", "hangs.run.spans": "3.048;2.5908"}]
    items = send_csv(written(metric), "?format=json&units=si", status=200)["items"]
    plain = send_csv(written(JOB[:1]), "?format=json&units=si", status=200)["items"]
    assert items[0]["demand"]["factored_tension"] == pytest.approx(
        plain[0]["demand"]["factored_tension"], rel=1e-12, abs=0
    )


def test_every_row_may_lack_a_unit(send_csv):
    rows = [JOB[0] | {"id": str(at), "base.thickness": "6", "hangs.run.spans": "10;8"} for at in range(3)]
    items = send_csv(written(rows), "?format=json", status=200)["items"]
    for at, each in enumerate(items, start=1):
        places = [error["pointer"] for error in each["problem"]["errors"]]
        assert sorted(places) == [f"#/rows/{at}/base.thickness", f"#/rows/{at}/hangs.run.spans"]
    (row, *_) = csv.DictReader(io.StringIO(send_csv(written(rows), "?echo=true", status=200)))
    assert row["input.base.thickness"] == "6"


@pytest.mark.parametrize(
    ("spoil", "opened", "said"),
    [
        (lambda text: text.replace("R2,", '"R2,'), 4, "is not closed"),
        (lambda text: text.replace("R2,", '"R"2,'), 4, "other text behind its closing quote"),
        (lambda text: text.replace("R2,L2", '"R2",L2').replace("R4,L2", 'R4,"L2'), 6, "Line 6 was not read."),
        (lambda text: text.replace("R2,L2", '"R""2","L2'), 4, "Lines 4 to 6 were not read."),
        (lambda text: text.replace("R2,L2", '"R\n2","L2'), 5, "Lines 4 to 7 were not read."),
        (lambda text: text.replace("R2,", '"R2,').replace("\n", "\r\n"), 4, "Lines 4 to 6 were not read."),
        (lambda text: text.replace("R2,", '"R2,') + "x" * 20_000, 4, "Lines 4 to 7 were not read."),
    ],
)
def test_a_broken_quote_costs_what_comes_after_it(send_csv, spoil, opened, said):
    """The rows before it are answered, the rest is one invalid row without an id, and the summary shows it."""
    rows = [JOB[0] | {"id": f"R{at}", "at.level": "L2"} for at in range(5)]
    text = written(rows, order=["id", "at.level", *(name for name in JOB[0] if name not in ("id", "at.level"))])
    answer = send_csv(spoil(text), "?format=json", status=200)
    *good, bad = answer["items"]
    assert [each["status"] for each in good] == ["passed"] * len(good)
    assert good == send_csv(text, "?format=json", status=200)["items"][: len(good)]
    assert (bad["id"], bad["status"]) == (None, "invalid")
    (error,) = bad["problem"]["errors"]
    assert (error["pointer"], error["code"], error["line"]) == (f"#/rows/{len(good) + 1}", "broken-quote", opened)
    assert f"begins on line {opened} " in error["detail"]
    assert said in error["detail"]
    assert (answer["summary"]["total"], answer["summary"]["invalid"]) == (len(good) + 1, 1)
    echoed = list(csv.DictReader(io.StringIO(send_csv(spoil(text), "?echo=true", status=200))))
    assert (echoed[-1]["status"], echoed[-1]["input.id"]) == ("invalid", "")


def test_a_quote_inside_a_cell_is_no_broken_one(send_csv):
    rows = [JOB[0] | {"hangs.run.spans": "10'-3 1/2\"", "hangs.run.support": "0"}]
    text = written(rows).replace('"10\'-3 1/2"""', "10'-3 1/2\"")
    assert send_csv(text, "?format=json", status=200)["items"][0]["status"] == "passed"


@pytest.mark.parametrize("column", ["tags", "anchor.family", "id"])
def test_a_cell_that_is_too_long_costs_its_row(send_csv, column):
    items = send_csv(written([JOB[0] | {column: "x" * 4097}, JOB[1]]), "?format=json", status=200)["items"]
    assert [each["status"] for each in items] == ["invalid", "failed"]
    (error,) = items[0]["problem"]["errors"]
    assert (error["pointer"], error["code"], error["line"]) == ("#/rows/1", "cell-too-long", 2)


def test_a_decimal_comma_leaves_texts_alone(send_csv, client):
    rows = [JOB[0] | {"id": "H-1,5", "tags": "a,b", "at.level": "2,5", "trade": "x, y", "anchor.h_ef": "2,5 in"}]
    text = send_csv(written(rows, ";"), "?decimal=,&echo=true", status=200)
    (row,) = csv.DictReader(io.StringIO(text))
    assert (row["id"], row["status"]) == ("H-1,5", "passed")
    assert (row["input.tags"], row["input.at.level"], row["input.trade"]) == ("a,b", "2,5", "x, y")


@pytest.mark.parametrize(
    "titles",
    [
        {"hangs.size": "Pipe Size", "anchor.size": "Anchor-Size", "anchor.h_ef": "h ef", "base.thickness": "THICKNESS"},
        {"base.kind": "Base Kind", "base.density": "base density", "seismic.category": "Seismic Category"},
        {"base.edges.x_minus": "x minus", "base.edges.y_plus": "Edges y_plus", "base.strength.f_c": "Strength f_c"},
        {"base.kind": "Base.Kind", "base.density": "BASE.density", "base.edges.x_minus": "edges.x_minus"},
        {"seismic.category": "category", "hangs.run.support": "run support", "at.level": "Level"},
    ],
)
def test_titles_are_known_with_spaces_and_by_an_end_that_only_one_column_has(digest, titles):
    assert digest(written(renamed(JOB, titles))) == digest(written(JOB))


def test_a_unit_may_stand_in_either_bracket(digest):
    rows = [JOB[0] | {"base.thickness": "6"}]
    square, other = (written(renamed(rows, {"base.thickness": f"Thickness {unit}"})) for unit in ("[in]", "(in)"))
    assert digest(square) == digest(other)


@pytest.mark.parametrize(
    ("path", "title", "allowed"),
    [
        ("base.density", "Density", ["hangs.insulation.density", "base.density"]),
        ("base.kind", "kind", ["hangs.kind", "base.kind"]),
        ("hangs.size", "Size", ["hangs.size", "rod.size", "anchor.size"]),
        ("hangs.run.spans", "spacing", ["hangs.run.spans", "anchor.layout.spacing"]),
    ],
)
def test_a_title_that_may_mean_two_columns_is_not_guessed(send_csv, path, title, allowed):
    problem = send_csv(written(renamed(JOB, {path: title})), status=422)
    error = next(each for each in problem["errors"] if each["code"] == "unknown-column")
    assert error["allowed"] == allowed
    assert error["detail"].startswith(f'There is no column "{title}": write the one that is meant.')


def test_a_title_of_the_file_above_the_header_is_told(send_csv):
    problem = send_csv(f"INVENTED CLINIC,,\nLevel 2,,\n{written(JOB)}", status=422)
    first = problem["errors"][0]
    assert (first["code"], first["line"]) == ("no-header", 1)
    assert f"row 2 under it has {len(JOB[0])}" in first["detail"]


def test_a_column_that_is_missing_names_the_ways_to_state_it(send_csv):
    rows = [{name: cell for name, cell in row.items() if name not in ("base.thickness", "id")} for row in JOB]
    first, second = (each["detail"] for each in send_csv(written(rows), status=422)["errors"])
    assert first == "The column id is missing, and no default gives it: add it."
    assert second.endswith(": add it, or ?default.base.thickness= for all rows; of the command, --defaults.")


@pytest.mark.parametrize("text", ["6,5", "6,5 in", "1,000", "-6,5"])
def test_a_comma_in_a_number_is_asked_about(send_csv, text):
    """It may be the decimal sign or separate thousands."""
    rows = [JOB[0] | {"base.thickness": text}, JOB[0] | {"id": "other"}]
    bad, good = send_csv(written(rows, ";"), "?format=json&units=us", status=200)["items"]
    (error,) = bad["problem"]["errors"]
    assert (error["code"], error["pointer"]) == ("quantity", "#/rows/1/base.thickness")
    assert "state decimal=," in error["detail"]
    assert error["detail"].startswith(
        "A comma in a number: write " + ("1000 without separators;" if text == "1,000" else "no separators;")
    )
    assert good["status"] == "passed"


@pytest.mark.parametrize(
    ("path", "text", "said"),
    [
        ("hangs.run.spans", "10/10", "10/10 may be two numbers"),
        ("hangs.run.spans", "8/10 ft", "8/10 may be two numbers"),
        ("base.edges.y_plus", "9/8", "9/8 may be two numbers"),
        ("base.thickness", "1'000", "write 1000, or feet and inches"),
        ("base.thickness", "1’250", "write 1250, or feet and inches"),
        ("base.thickness", "5' 14", "below 12"),
    ],
)
def test_what_reads_as_another_number_is_not_guessed(send_csv, path, text, said):
    """Two spans were one of a foot, a metre with a mark between its thousands a foot."""
    rows = [JOB[0] | {path: text}, JOB[0] | {"id": "other"}]
    bad, good = send_csv(written(rows), "?format=json&units=us", status=200)["items"]
    (error,) = bad["problem"]["errors"]
    assert error["pointer"].startswith(f"#/rows/1/{path}")
    assert said in error["detail"]
    assert good["status"] == "passed"


OF_A_PIPE = ("material", "size", "schedule", "contents", "sprinkler", "run.spans", "run.support")


@pytest.mark.parametrize(
    "path", [*(f"hangs.{name}" for name in OF_A_PIPE), *(f"anchor.{name}" for name in OF_AN_ANCHOR)]
)
def test_what_a_pipe_needs_stands_in_the_guide(send_csv, path):
    """Without it the row is invalid, and the guide says so beforehand."""
    bad = {name: text for name, text in JOB[0].items() if name != path}
    (result,) = send_csv(written([bad]), "?format=json", status=200)["items"]
    assert result["status"] == "invalid"
    of = "| of a pipe |" if path.startswith("hangs.") else "| of an anchor |"
    needed = next(line for line in GUIDE.read_text("utf-8").splitlines() if line.startswith(of))
    assert f"`{path}`" in needed


def test_the_place_of_a_hanger_in_its_run_is_asked_for_in_words(send_csv):
    bad = {name: text for name, text in JOB[0].items() if name != "hangs.run.support"}
    (result,) = send_csv(written([bad]), "?format=json", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert error["detail"].startswith("Which support of its run this point is, 0 for the first, is required")


@pytest.mark.parametrize("text", ["10/10", "6/4", "8/2", "10/8", "4/1", "4/8", "5/10", "6/4 in", '6/4"'])
@pytest.mark.parametrize("path", ["hangs.size", "rod.size", "anchor.size"])
def test_two_sizes_are_no_fraction(send_csv, path, text):
    """A hanger of a 6 in and a 4 in line was one of 1-1/2 in. A nominal size is a proper fraction in lowest terms."""
    rows = [JOB[0] | {path: text}, JOB[0] | {"id": "other"}]
    bad, good = send_csv(written(rows), "?format=json", status=200)["items"]
    (error,) = bad["problem"]["errors"]
    assert error["pointer"] == f"#/rows/1/{path}"
    assert "may be two sizes" in error["detail"]
    assert good["status"] == "passed"


def test_a_name_of_a_size_is_not_taken_for_two(send_csv):
    """A catalogue of one's own may name its sizes so."""
    (bad,) = send_csv(written([JOB[0] | {"anchor.size": "M12/15"}]), "?format=json", status=200)["items"]
    assert [each["code"] for each in bad["problem"]["errors"]] == ["unknown-product"]


@pytest.mark.parametrize("text", ["10/10", "6/4", "4/8"])
def test_two_sizes_of_json_are_no_size_that_was_meant(send_one, text):
    problem = send_one(single(hangs__size=text), status=422)
    assert "Write" not in problem["errors"][0]["detail"]


@pytest.mark.parametrize(("sign", "query", "said"), [(";", "", "may separate thousands"), (";", "&decimal=.", "")])
def test_a_point_before_three_figures_between_semicolons(send_csv, sign, query, said):
    """Where cells have semicolons between them the comma may be the decimal sign, and 1.250 be a thousand."""
    rows = [JOB[0] | {"base.edges.y_plus": "1.250 ft"}]
    (result,) = send_csv(written(rows, sign), f"?format=json&units=us{query}", status=200)["items"]
    found = result.get("problem", {"detail": ""})["detail"]
    assert said in found if said else result["status"] == "passed"


@pytest.mark.parametrize(
    ("cells", "query", "doubted"),
    [
        ({}, "&units=us", False),
        ({"base.thickness": "6,5 in"}, "&units=us", True),
        ({"base.thickness": "0,500 ft"}, "&units=us", True),
        ({"hangs.run.spans": "10,5 ft;8 ft"}, "&units=us", True),
        ({"base.thickness": "6,500 in"}, "&units=us", False),
        ({"tags": "1,5 m"}, "&units=us", False),
        ({"base.edges.y_plus": "1.250 m"}, "&units=us", True),
        ({"base.edges.y_plus": "1.250 MM"}, "&units=us", True),
        ({"base.thickness": "152 mm"}, "&units=us", True),
        ({"base.thickness": "152\u00a0mm"}, "&units=us", True),
        ({"anchor.size": "M10", "trade": "152 mm", "tags": "3 m"}, "&units=us", False),
        ({}, "&units=si", True),
        ({"base.thickness": "6,5 in"}, "&units=us&decimal=.", False),
        ({}, "&units=si&decimal=.", False),
    ],
)
def test_a_point_before_three_figures_between_tabs(send_csv, cells, query, doubted):
    """Tabs stand in files of every country: what else is in the file says whether the comma may be the decimal sign."""
    rows = [JOB[0] | {"base.edges.y_plus": "1.250 ft", "tags": ""} | cells]
    (result,) = send_csv(written(rows, "\t"), f"?format=json{query}", status=200)["items"]
    found = [
        error["pointer"] for error in result.get("problem", {}).get("errors", ()) if "thousands, for" in error["detail"]
    ]
    assert found == (["#/rows/1/base.edges.y_plus"] if doubted else [])


@pytest.mark.parametrize(
    ("text", "doubted"),
    [
        ("1.250", True),
        ("1.250 lb", True),
        ("12.500 lbs", True),
        ("1.250 kip", False),
        ("1.25", False),
        ("0.250", False),
    ],
)
def test_pounds_to_the_thousandth_between_tabs(send_csv, text, doubted):
    """1,250 lb would hang as 1.25 lb; nobody weighs to the thousandth of a pound, but kips have three decimals."""
    weight = {"hangs.kind": "weight", "hangs.weight": text, "hangs.nature": "dead", "tags": ""}
    row = {name: cell for name, cell in JOB[0].items() if not name.startswith("hangs.")} | weight
    (result,) = send_csv(written([row], "\t"), "?format=json&units=us", status=200)["items"]
    assert ("may separate thousands" in result.get("problem", {}).get("detail", "")) == doubted


def test_the_unit_of_a_title_raises_the_doubt_between_tabs(send_csv):
    rows = renamed([JOB[0] | {"base.edges.y_plus": "1.250"}], {"base.edges.y_plus": "base.edges.y_plus [mm]"})
    (result,) = send_csv(written(rows, "\t"), "?format=json", status=200)["items"]
    assert "may separate thousands" in result["problem"]["detail"]


@pytest.mark.parametrize(
    "text", ['5´6"', "5`-6``", "66´´", "5.5\u202fft", "66\u2009in", "5‑1/2 ft", "5\u00a01/2\u2007ft"]
)
def test_marks_and_spaces_of_typesetters(digest, text):
    """Accents in place of primes, narrow spaces, a hyphen that does not break: 5 ft 6 in, which is 5.5 ft and 66 in."""
    plain = [JOB[0] | {"base.edges.y_plus": "66 in"}]
    assert digest(written([JOB[0] | {"base.edges.y_plus": text}])) == digest(written(plain))


@pytest.mark.parametrize("text", ["1´250", "1`250", "1\u202f250 in", "1\u2007250 in"])
def test_such_a_mark_may_separate_thousands(send_csv, text):
    rows = [JOB[0] | {"base.edges.y_plus": text}]
    (result,) = send_csv(written(rows), "?format=json&units=us", status=200)["items"]
    assert "write 1250" in result["problem"]["detail"]


@pytest.mark.parametrize("text", ["ok", "Passed", "not tested", "pending", "TBD"])
def test_a_word_where_a_number_stands(send_csv, text):
    rows = [JOB[0] | {"base.strength.f_c": text}]
    (result,) = send_csv(written(rows), "?format=json&units=us", status=200)["items"]
    assert "This is no number: write the value" in result["problem"]["detail"]


@pytest.mark.parametrize("text", ["#N/A", "#REF!", "#DIV/0!", "#VALUE!", "####"])
def test_what_a_spreadsheet_shows_without_a_value(send_csv, text):
    rows = [JOB[0] | {"base.thickness": text}]
    (result,) = send_csv(written(rows), "?format=json&units=us", status=200)["items"]
    assert "A spreadsheet has no value here" in result["problem"]["detail"]


@pytest.mark.parametrize("delimiter", [";", "\t"])
def test_a_title_with_commas_above_a_header_without(send_csv, delimiter):
    """The sign between cells is that of the header, which is told to stand below."""
    rows = [row | {"tags": ""} for row in JOB]
    problem = send_csv(f"INVENTED CLINIC, Level 2, June, 4\n{written(rows, delimiter)}", status=422)
    (error,) = problem["errors"]
    assert (error["code"], error["line"]) == ("no-header", 1)
    assert f"row 1 under it has {len(JOB[0])}" in error["detail"]


def test_a_point_behind_a_unit_is_no_decimal_sign(digest):
    comma = [JOB[0] | {"base.edges.y_plus": "15,5 in.", "base.thickness": "8 in."}]
    point = [JOB[0] | {"base.edges.y_plus": "15.5 in", "base.thickness": "8 in"}]
    assert digest(written(comma, ";"), "&decimal=,") == digest(written(point))


@pytest.mark.parametrize("title", ["base.thickness [IN]", "thickness (inches)", "thickness [In.]"])
def test_the_unit_of_a_title_in_other_letters(digest, title):
    plain = [JOB[0] | {"base.thickness": "8 in"}]
    other = renamed([JOB[0] | {"base.thickness": "8"}], {"base.thickness": title})
    assert digest(written(other)) == digest(written(plain))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1,250 lbs", "write 1250 without separators, or 1,25 if it is the decimal sign"),
        ("1,255", "write 1255 without separators, or 1,2550 if"),
        ("12,000", "write 12000 without separators, or 12 if"),
        ("1,250,000 lb", "write 1250000 without separators."),
    ],
)
def test_a_decimal_comma_before_three_figures_is_not_guessed(send_csv, text, said):
    """It may separate thousands, and then a heavy load would be a light one."""
    weight = {"hangs.kind": "weight", "hangs.weight": text, "hangs.nature": "dead"}
    row = {name: cell for name, cell in JOB[0].items() if not name.startswith("hangs.")} | weight
    (result,) = send_csv(written([row], ";"), "?decimal=,&format=json&units=us", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert (error["pointer"], error["code"]) == ("#/rows/1/hangs.weight", "quantity")
    assert said in error["detail"]


def test_a_decimal_comma_that_separates_no_thousands_is_read(digest):
    comma = [JOB[0] | {"base.edges.y_plus": "0,375 ft", "base.thickness": "6,2500 in"}]
    point = [JOB[0] | {"base.edges.y_plus": "0.375 ft", "base.thickness": "6.25 in"}]
    assert digest(written(comma, ";"), "&decimal=,") == digest(written(point))


@pytest.mark.parametrize("text", ["6.000 in", "6.5", "1.000,5"])
def test_a_point_beside_a_decimal_comma_is_not_guessed(send_csv, text):
    """It may be the decimal sign or separate thousands."""
    rows = [JOB[0] | {"base.thickness": text}]
    (result,) = send_csv(written(rows, ";"), "?decimal=,&format=json&units=us", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert (error["pointer"], error["code"]) == ("#/rows/1/base.thickness", "quantity")
    assert "the comma is the decimal sign" in error["detail"]


@pytest.mark.parametrize(
    ("cell", "allowed"),
    [
        ("seismic.category", list("ABCDEF")),
        ("hangs.kind", ["forces", "pipe", "weight"]),
        ("base.kind", ["concrete", "masonry", "hollow_core", "deck", "steel", "wood", "unknown"]),
        ("base.density", ["normalweight", "sand_lightweight", "all_lightweight"]),
        ("hangs.material", ["steel", "stainless", "copper", "pvc", "cpvc", "ductile_iron"]),
        ("hangs.sprinkler", ["true", "yes", "1", "false", "no", "0"]),
    ],
)
def test_an_unknown_word_has_those_that_are_allowed(send_csv, cell, allowed):
    (result,) = send_csv(written([JOB[0] | {cell: "Elephant"}]), "?format=json", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert (error["pointer"], error["code"], error["allowed"]) == (f"#/rows/1/{cell}", "unknown-option", allowed)


def test_the_base_is_never_guessed(send_csv):
    """A row that is silent about its base is invalid, however concrete the rest of it looks."""
    rows = [JOB[0], JOB[1] | {"base.kind": ""}]
    items = send_csv(written(rows), "?format=json", status=200)["items"]
    assert [error["pointer"] for error in items[1]["problem"]["errors"]] == ["#/rows/2/base.kind"]
    given = send_csv(written(rows), "?format=json&default.base.kind=Concrete", status=200)["items"]
    assert [each["status"] for each in given] == ["passed", "failed"]


def test_who_decided_on_uncracked_concrete_has_a_column(table):
    state = {"base.state": "Uncracked", "base.state_decided_by": "Engineer of Record"}
    rows = table(written([JOB[0] | state, JOB[0] | {"id": "H-2"}], order=[*JOB[0], *state]))
    assert [row["state_decided_by"] for row in rows] == ["Engineer of Record", ""]


def test_bad_cells_have_row_column_and_line(send_csv):
    """Rows count from 1 without blank ones; lines are those of the file, also behind a cell of two lines."""
    rows = [JOB[0] | {"id": f"R{at}"} for at in range(14)]
    rows[3]["at.level"] = "two\nlines"
    rows[11]["base.thickness"] = "6 psi"
    rows[12]["hangs.run.support"] = "1.5"
    rows[13]["hangs.kind"] = "elephant"
    items = send_csv(written(rows), "?format=json", status=200)["items"]
    found = {
        error["pointer"]: error["line"]
        for each in items
        if each["status"] == "invalid"
        for error in each["problem"]["errors"]
    }
    assert found == {
        "#/rows/12/base.thickness": 14,
        "#/rows/13/hangs.run.support": 15,
        "#/rows/14/hangs.kind": 16,
    }
    assert {each["status"] for each in items[:11]} == {"passed"}


@pytest.mark.parametrize(
    ("cell", "value"),
    [
        ("base.thickness", "1e999"),
        ("base.thickness", "inf"),
        ("base.thickness", "nan"),
        ("base.thickness", "-6"),
        ("base.thickness", "9**9**9"),
        ("base.thickness", "1/0 in"),
        ("hangs.sprinkler", "maybe"),
        ("hangs.run.support", "9999999999999999999999"),
        ("hangs.run.spans", "10 ft;;x"),
        ("seismic.category", "G"),
    ],
)
def test_a_bad_cell_is_invalid_in_its_place(send_csv, cell, value):
    items = send_csv(written([JOB[0] | {cell: value}, JOB[1]]), "?format=json&units=us", status=200)["items"]
    assert [each["status"] for each in items] == ["invalid", "failed"]
    assert items[0]["problem"]["errors"][0]["pointer"].startswith(f"#/rows/1/{cell}")
    assert items[0]["problem"]["errors"][0]["line"] == 2


def test_an_empty_cell_is_absent(send_csv):
    items = send_csv(written([JOB[0] | {"base.thickness": ""}]), "?format=json", status=200)["items"]
    assert [error["code"] for error in items[0]["problem"]["errors"]] == ["missing"]


def test_a_row_longer_than_the_header_is_invalid(send_csv):
    text = written(JOB).replace("H-2,", "H-2,extra,")
    items = send_csv(text, "?format=json", status=200)["items"]
    (error,) = items[1]["problem"]["errors"]
    assert (error["pointer"], error["code"], error["line"]) == ("#/rows/2", "row-too-long", 3)
    assert [each["status"] for each in items] == ["passed", "invalid", "invalid"]


def test_a_short_row_lacks_its_last_cells(send_csv):
    text = written(JOB[:1]).replace(",8 in,B\n", ",8 in\n")
    items = send_csv(text, "?format=json", status=200)["items"]
    assert [error["pointer"] for error in items[0]["problem"]["errors"]] == ["#/rows/1/seismic.category"]


@pytest.mark.parametrize(
    ("path", "title", "cell", "shown"),
    [
        ("base.thickness", "Thickness [in]", "8 inchs", "8 inchs"),
        ("hangs.run.spans", "spans", "10 ft; 8 feets", "8 feets"),
        ("base.density", "base.density", "dense" * 9, f"{('dense' * 9)[:39]}…"),
        ("hangs.size", "Pipe Size", "7-1/2", "7-1/2"),
    ],
)
def test_an_error_names_the_title_and_the_cell_as_they_stand_in_the_file(send_csv, path, title, cell, shown):
    text = written(renamed([JOB[0] | {path: cell}], {path: title}))
    (result,) = send_csv(text, "?format=json", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert error["pointer"].startswith(f"#/rows/1/{path}")
    assert (error["column"], error["cell"], error["line"]) == (title, shown, 2)
    (row,) = csv.DictReader(io.StringIO(send_csv(text, status=200)))
    assert row["problem"].startswith(f'column "{title}": "{shown}": {error["detail"]}')


@pytest.mark.parametrize(
    ("path", "written_so", "cell"),
    [
        ("anchor.family", "wedge-expansion-zinc", "Wedge Expansion-ZINC"),
        ("anchor.size", "3/8", "3/8 UNC"),
        ("rod.size", "1/2", '1/2" UNC'),
        ("rod.size", "M10", "m10"),
        ("base.density", "normalweight", "normal"),
        ("base.kind", "concrete", "Conc."),
        ("hangs.allowance", "0.1", "10%"),
        ("hangs.allowance", "0.125", "12.5 %"),
        ("hangs.insulation.density", "8 lb/ft3", "8 pcf"),
        ("hangs.insulation.density", "8 lb/ft3", "8 lbs/ft³"),
        ("hangs.insulation.density", "128 kg/m3", "128 KG/M³"),
        ("hangs.run.point_loads.0.weight", "300 lb", "300#"),
        ("hangs.run.point_loads.0.weight", "300 lb", "300 Pounds"),
    ],
)
def test_more_notations_of_the_trade(digest, path, written_so, cell):
    more = {"hangs.insulation.thickness": "1 in", "hangs.insulation.density": "4 lb/ft3"}
    more |= {"hangs.run.point_loads.0.at": "2 ft", "hangs.run.point_loads.0.weight": "10 lb"}
    row = JOB[0] | more
    assert digest(written([row | {path: cell}])) == digest(written([row | {path: written_so}]))


@pytest.mark.parametrize(
    ("path", "cell", "said"),
    [
        ("anchor.size", "8-Mar", "as 3/8."),
        ("hangs.size", "2-Jan", "A date, which spreadsheets make of a size"),
        ("hangs.size", "1/2/2026", "A date"),
        ("anchor.h_ef", "2026-03-08 00:00:00", "A date"),
        ("base.density", "LW", "Lightweight concrete is of two kinds"),
        ("anchor.size", "3/8 UNF", "no such product"),
    ],
)
def test_what_may_mean_two_things_is_not_read(send_csv, path, cell, said):
    (result,) = send_csv(written([JOB[0] | {path: cell}]), "?format=json", status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert error["cell"] == cell
    assert said in error["detail"]


def test_an_empty_cell_is_named_by_its_title_alone(send_csv):
    rows = renamed([JOB[0] | {"base.thickness": ""}, JOB[1]], {"base.thickness": "thickness"})
    first, _ = send_csv(written(rows), "?format=json", status=200)["items"]
    (error,) = first["problem"]["errors"]
    assert error["column"] == "thickness"
    assert "cell" not in error


def test_duplicate_ids_have_their_lines(send_csv):
    problem = send_csv(written([*JOB, JOB[0]]), status=422)
    assert problem["type"] == "/problems/duplicate-id"
    assert [(error["pointer"], error["line"]) for error in problem["errors"]] == [("#/rows/4/id", 5)]
    assert "#/rows/1/id" in problem["errors"][0]["detail"]


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [("H-1", "h-1", True), ("H 1", "H1", True), ("H-1", "H-01", False), ("H-1", "H.1", False)],
)
def test_ids_that_differ_in_capitals_or_spaces_are_doubted(send_csv, first, second, said):
    """They stay two points, and each says so; so does one whose like is invalid."""
    rows = [JOB[0] | {"id": first}, JOB[1] | {"id": second}, JOB[1] | {"id": "G-1"}]
    answer = send_csv(written(rows), "?format=json", status=200)
    assert [item["id"] for item in answer["items"]] == [first, second, "G-1"]
    assert ["alike-ids" in item["assumptions"] for item in answer["items"]] == [said, said, False]
    assert ("alike-ids" in answer["assumptions"]) == said
    rows[1]["base.thickness"] = ""
    answer = send_csv(written(rows), "?format=json", status=200)
    assert answer["items"][1]["status"] == "invalid"
    assert ("alike-ids" in answer["items"][0]["assumptions"]) == said


def test_a_size_with_the_decimal_comma(digest, send_csv):
    """0,375 in is 3/8 in; where nobody says that the comma is the decimal sign, the row is told what to state."""
    row = JOB[0] | {"rod.size": "3/8", "rod.rule": "sp58_allowable"}
    comma = row | {"hangs.size": "4,0", "anchor.size": "0,375", "rod.size": '0,375"'}
    assert digest(written([comma], ";"), "&decimal=,") == digest(written([row]))
    for query in ("?format=json", "?format=json&decimal=."):
        (result,) = send_csv(written([comma], ";"), query, status=200)["items"]
        errors = {error["pointer"]: error["detail"] for error in result["problem"]["errors"]}
        assert {"#/rows/1/hangs.size", "#/rows/1/anchor.size", "#/rows/1/rod.size"} <= set(errors)
        assert all("state decimal=," in detail for detail in errors.values())
    (result,) = send_csv(written([row | {"hangs.size": "1,250"}], ";"), "?format=json&decimal=,", status=200)["items"]
    assert "may separate thousands" in result["problem"]["errors"][0]["detail"]


def test_columns_that_are_not_read_are_named(send_csv, validator):
    rows = [row | {"Notes": "see detail 5", "remark on price": ""} for row in JOB]
    answer = send_csv(written(rows), "?format=json", status=200)
    assert answer["columns_not_read"] == ["Notes", "remark on price"]
    validator("Answer").validate(answer)
    assert "columns_not_read" not in send_csv(written(JOB), "?format=json", status=200)


def test_the_answer_has_fixed_columns(send_csv, table):
    """The documented columns, with the unit of forces in brackets; one row an input row, in order."""
    text = send_csv(written(JOB), status=200)
    names = next(csv.reader(io.StringIO(text)))
    assert [name.partition(" [")[0] for name in names] == list(COLUMNS)
    assert {name.partition(" [")[2] for name in names} == {"", "lbf]"}
    assert "dead [kN]" in next(csv.reader(io.StringIO(send_csv(written(JOB), "?units=si", status=200))))
    rows = table(written(JOB))
    assert [(row["id"], row["row"], row["status"]) for row in rows] == [
        ("H-1", "1", "passed"),
        ("H-2", "2", "failed"),
        ("H-3", "3", "invalid"),
    ]
    assert rows[2]["pointer"] == "#/rows/3/anchor.h_ef"
    assert rows[2]["utilisation"] == ""
    assert rows[1]["findings"].startswith("violation:edge-below-minimum")


def test_cells_are_no_formulas(table):
    rows = table(
        written([JOB[0] | {"id": "=1+1"}, JOB[0] | {"id": "@x"}, JOB[0] | {"id": "-x"}, JOB[0] | {"id": "+x"}])
    )
    assert [row["id"] for row in rows] == ["'=1+1", "'@x", "'-x", "'+x"]


def test_a_negative_number_stays_one(table):
    text = (
        "id,hangs.kind,hangs.components.0.nature,hangs.components.0.tension [lbf],at.x [ft],anchor.family,anchor.size,"
        "anchor.h_ef,base.kind,base.density,base.thickness,base.edges.x_minus,base.edges.x_plus,base.edges.y_minus,"
        "base.edges.y_plus,seismic.category\n"
        "A,forces,dead,-10.5,-3,wedge-expansion-zinc,3/8,2.5 in,concrete,normalweight,6 in,none,none,none,none,B\n"
    )
    (row,) = table(text, "?echo=true&units=us")
    assert float(row["dead [lbf]"]) == -10.5
    assert row["status"] == "refused"
    assert row["reason"] == "compression-not-covered"
    assert row["input.at.x"] == "'-3 ft"


def test_echo_repeats_the_inputs(table):
    rows = table(written(JOB), "?echo=true")
    assert rows[0]["input.hangs.run.spans"] == "10 ft;8'-6\""
    assert rows[2]["input.base.thickness"] == "2 in"
    assert rows[0]["input.hangs.sprinkler"] == "false"


def test_csv_and_json_of_one_job_agree(send, send_csv, table):
    """The same job as JSON objects: results are equal to the last bit."""
    items = []
    for row in JOB:
        made = {}
        for path, text in row.items():
            value = text
            if columns()[path].listed:
                value = [part.strip() for part in text.split(";")]
            elif path == "hangs.sprinkler":
                value = False
            elif path == "hangs.run.support":
                value = int(text)
            made = change(made, {path: value})
        items.append(made)
    answer = send({"units": "us", "items": items}, status=200)
    by_csv = send_csv(written(JOB), "?format=json&units=us", status=200)
    assert by_csv["items"][:2] == answer["items"][:2]
    assert by_csv["summary"] == answer["summary"]
    for row, each in zip(table(written(JOB)), answer["items"], strict=True):
        assert row["status"] == each["status"]
        if each["status"] != "invalid":
            assert float(row["utilisation"]) == each["governing"]["utilisation"]


def test_the_form_of_the_answer(client):
    headers = {"content-type": "text/csv"}
    for accept, query, media in [
        (None, "", "text/csv"),
        ("application/json", "", "application/json"),
        ("image/png, text/csv", "", "text/csv"),
        ("text/html, text/csv;q=0.9", "", "text/html"),
        ("application/json", "?format=csv", "text/csv"),
        ("text/*", "", "text/csv"),
        ("application/*", "", "application/json"),
    ]:
        response = client.post(
            BATCH_PATH + query, content=BATCH_CSV, headers=headers | ({"accept": accept} if accept else {})
        )
        assert response.headers["content-type"].startswith(media), (accept, query)
        if media == "text/csv":
            assert response.headers["content-disposition"] == 'attachment; filename="schedule.csv"'


@pytest.mark.parametrize(
    ("column", "plain", "notations"),
    [
        ("hangs.size", "4", ['4"', "4 in", "4 in.", "4.0", "NPS 4", "nps4", "4”", "4''"]),
        ("hangs.size", "1-1/4", ["1 1/4", '1-1/4"', "1.25", "1¼", "NPS 1-1/4"]),
        ("hangs.schedule", "40", ["Sch 40", "SCH40", "sch. 40", "Schedule 40", "40.0"]),
        ("hangs.schedule", "STD", ["Standard", "std", "Std."]),
        ("hangs.schedule", "XS", ["xs", "Extra Strong"]),
        ("rod.size", "3/8", ['3/8"', "3/8 in", "3/8-16", "3/8-16 UNC", "0.375", ".375"]),
        ("anchor.size", "3/8", ['3/8"', "0.375", "3/8 in."]),
        ("base.thickness", "8 in", ["8 IN", "8 in.", "8”", "8''", "0' 8", "0'-8\""]),
        ("anchor.h_ef", "2.5 in", ["2½ in", "2.5 IN", "2-½”", "2.5''", "0' 2-1/2", "0'2½\""]),
        ("base.edges.y_plus", "5.5 ft", ["5′-6″", "5’-6”", "5.5 FT", "5' 6"]),
        ("base.edges.y_plus", "66 in", ["5 feet 6 inches", "5 Foot 6 Inch", "5 ft. 6 in.", "5ft-6in", "66 Inches"]),
        ("base.edges.y_plus", "8.75 in", ["8¾”", "8 3/4”", "8–3/4 in", "8−3/4 in"]),
        ("base.strength.f_c", "4000 psi", ["4000 PSI", "4 KSI", "4000 psi.", "4000 lb/in²", "4000 lbs/in2"]),
        ("base.strength.f_c", "28 MPa", ["28 N/mm²", "28 N/mm^2", "28 n/MM2", "28 mpa"]),
        ("base.density", "normalweight", ["Normal Weight", "normal-weight", "NW"]),
        ("hangs.sprinkler", "no", ["N", "n", "NO"]),
        ("hangs.sprinkler", "yes", ["Y", "y"]),
        ("seismic.category", "B", ["SDC B", "sdc b", "SDC-B"]),
    ],
)
def test_notations_of_the_trade(digest, column, plain, notations):
    def asked(text):
        return digest(written([JOB[0] | {"rod.size": "3/8"} | {column: text}]))

    means = asked(plain)
    assert {text: asked(text) == means for text in notations} == dict.fromkeys(notations, True)


@pytest.mark.parametrize(
    ("column", "text", "says"),
    [
        ("base.edges.y_plus", "n/a", "write none, or a size"),
        ("base.edges.y_plus", "-", "write none, or a size"),
        ("hangs.size", "DN100", "none by DN"),
        ("base.density", "lightweight", "say which"),
        ("hangs.contents", "Chilled Water", "write water, or the glycol"),
        ("hangs.contents", "CHW", "write water, or the glycol"),
        ("rod.size", "3/8-24", "no rod of this size"),
        ("rod.size", "0.38", "no rod of this size"),
        ("hangs.size", "4 mm", "nominal size in inches"),
        ("hangs.sprinkler", "-", "neither yes nor no"),
        ("base.thickness", "8 in thick", "Behind 8 in stands more"),
        ("base.thickness", "8 yd", "not a length"),
        ("base.thickness", "~8", "This says about"),
        ("base.thickness", '8" ±', "This says about"),
        ("base.thickness", "8 in?", "This says about"),
        ("base.thickness", "8 or 9", "two numbers"),
        ("base.thickness", "8 - 9 in", "two numbers"),
        ("base.thickness", "10-6", "write 10'-6\", or one"),
        ("base.thickness", "8 in min", "This is a limit"),
        ("base.thickness", "TBD", "This is no number"),
        ("base.thickness", "=8", "A formula"),
        ("base.thickness", "(8)", "Brackets"),
        ("base.thickness", "1 000 mm", "write 1000 mm without"),
        ("base.thickness", "8 in (203 mm)", "Behind 8 in stands more"),
        ("base.strength.f_c", "4k", "k may mean kip, ksi or thousand"),
    ],
)
def test_what_may_mean_two_things_is_refused(table, column, text, says):
    (row,) = table(written([JOB[0] | {"rod.size": "3/8"} | {column: text}]))
    assert row["status"] == "invalid"
    assert says in row["problem"]
