"""Titles that name no column, and rows that are no hang point: what is said of them, and never guessed."""

import csv
import io

import pytest

from api.bodies import BATCH_CSV
from api.test_csv import JOB, renamed, written
from hangpoint.api.csv_columns import columns
from hangpoint.api.csv_titles import MEANT
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.take_offs import TakeOffItem
from hangpoint.api.test_logs import LOG_FORM


@pytest.fixture(scope="module")
def title_error(send_csv):
    """The error of one title of a file that is otherwise in order."""

    def of(title):
        (error,) = send_csv(written([JOB[0] | {title: "1"}]), status=422)["errors"]
        assert (error["code"], error["line"]) == ("unknown-column", 1)
        return error

    return of


@pytest.mark.parametrize(
    ("title", "meant"),
    [
        ("Mark", ["id", "anchor.family"]),
        ("Hanger No.", ["id"]),
        ("Tag", ["id", "tags"]),
        ("Pipe Dia.", ["hangs.size"]),
        ("Rod Diameter (in)", ["rod.size"]),
        ("Hanger Spacing", ["hangs.run.spans"]),
        ("Slab Thk (in)", ["base.thickness"]),
        ("f'c (psi)", ["base.strength.f_c"]),
        ("f’c", ["base.strength.f_c"]),
        ("Hef", ["anchor.h_ef"]),
        ("SDC", ["seismic.category"]),
        ("Sprinkler?", ["hangs.sprinkler"]),
        ("Edge X-", ["base.edges.x_minus", "base.edges.x_plus"]),
        ("Weight, lbs", ["Weight [lbs]"]),
        ("Weight lb", ["Weight [lb]"]),
        ("Qty", ["quantity"]),
        ("Hgr Spacing", ["hangs.run.spans"]),
        ("Mat'l", ["hangs.material"]),
        ("FP?", ["hangs.sprinkler"]),
        ("Anch Dia", ["anchor.size"]),
        ("Conc type", ["base.density", "base.kind"]),
        ("Weight per hanger (lbs)", ["hangs.weight"]),
        ("Edge L", [f"base.edges.{side}" for side in ("x_minus", "x_plus", "y_minus", "y_plus")]),
    ],
)
def test_words_of_the_trade_are_offered_their_columns(title_error, title, meant):
    error = title_error(title)
    assert error["allowed"] == meant
    assert f'"note: {title.partition(" (")[0]}"' in error["detail"]


@pytest.mark.parametrize(
    ("title", "first"),
    [
        ("famly", "family"),
        ("base.edge.x_minus", "base.edges.x_minus"),
        ("Rod sise", "rod_size"),
        ("wieght", "hangs.weight"),
        ("Seismic Catagory", "seismic_category"),
    ],
)
def test_a_misspelt_title_is_offered_the_nearest(title_error, title, first):
    assert title_error(title)["allowed"][0] == first


def test_a_spacing_is_told_that_a_hanger_has_spans_on_both_sides(title_error):
    """Of one span a hanger carries half."""
    assert "both spans, 10;10, and the place 1" in title_error("Hanger Spacing (ft)")["detail"]


def test_the_nominal_embedment_is_not_taken_for_the_effective_one(title_error):
    """The effective depth is less than the depth that the anchor is set to (ACI 318-19, 2.3)."""
    assert "less than the nominal one" in title_error("Embedment (in)")["detail"]


@pytest.mark.parametrize(
    "title", ["Colour", "Color", "Drawing", "Room", "Checked by", "Zone", "Detail", "Date", "Cost"]
)
def test_what_is_far_from_every_column_is_offered_none(title_error, title):
    error = title_error(title)
    assert "allowed" not in error
    assert f'Title a column of your own "note: {title}", or name it' in error["detail"]


def test_every_column_that_is_offered_is_one():
    assert {path for paths in MEANT.values() for path in paths} <= {
        *columns(Item),
        *columns(TakeOffItem),
        *columns(LOG_FORM.item),
    }


@pytest.mark.parametrize("unit", ["(in)", '(")', "[inch]"])
def test_a_nominal_size_may_be_titled_in_inches(send_csv, unit):
    names = {"hangs.size": f"Pipe Size {unit}", "anchor.size": f"Anchor Size {unit}"}
    plain, titled = (
        send_csv(written(renamed(JOB[:1], each)), "?format=json", status=200)["request_digest"] for each in ({}, names)
    )
    assert titled == plain


def test_a_title_with_a_unit_that_it_has_not_is_told_to_drop_it(send_csv):
    problem = send_csv(written(renamed(JOB, {"hangs.size": "Pipe Size (mm)"})), status=422)
    assert problem["errors"][0]["detail"] == 'This column has no unit: take "mm" out of its title.'


@pytest.mark.parametrize(
    ("above", "rows"),
    [
        (["Invented Clinic"], 1),
        (["Invented Clinic", "", "Level 2"], 2),
        ([",,,Load,,Rod,Anchor,,,Base"], 1),
        (["Level,,,,Rod,Anchor,,,Base", ",,,lb,,in"], 2),
        (["sep=,"], 1),
    ],
)
@pytest.mark.parametrize("sign", [",", ";"])
def test_lines_above_the_header_are_told(send_csv, above, rows, sign):
    lines = [line.replace(",", sign) for line in above]
    order = [name for name in JOB[0] if name not in ("hangs.run.spans", "tags")]
    text = "\n".join([*lines, written(JOB, sign, order=order)])
    (error,) = send_csv(text, status=422)["errors"]
    assert error["code"] == "no-header"
    assert f"row {rows} under it has {len(JOB[0]) - 2}: the header seems to stand there" in error["detail"]


@pytest.mark.parametrize("above", ["\n", "\n\r\n,,,\n", " , \n"])
def test_blank_lines_above_the_header_are_no_header(send_csv, above):
    """Lines are counted as an editor counts them."""
    lines, blank = written(JOB).count("\n"), above.count("\n")
    plain = send_csv(written(JOB), "?format=json", status=200)
    assert send_csv(above + written(JOB), "?format=json", status=200)["request_digest"] == plain["request_digest"]
    short = written(JOB, order=[name for name in JOB[0] if name != "id"])
    assert {error["line"] for error in send_csv(above + short, status=422)["errors"]} == {1 + blank}
    wrong = send_csv(above + written(JOB) + "H-9", "?format=json", status=200)["items"][-1]
    assert wrong["problem"]["errors"][0]["line"] == blank + lines + 1


def test_a_sign_that_no_csv_has_is_named(send_csv):
    (error,) = send_csv(written(JOB, "|"), status=422)["errors"]
    assert error["detail"].startswith("The titles have | between them")


def test_a_title_of_the_job_is_told_where_the_job_is_named(title_error):
    assert "?project.number=" in title_error("Project No.")["detail"]


@pytest.mark.parametrize("text", ["Total", "TOTALS:", "Grand total", "Sub-total", "Sum"])
def test_lines_of_totals_are_no_hang_points(send_csv, text):
    """Not even where the defaults state all that a point needs, nor are several of them one id that stands twice."""
    everything = "".join(f"&default.{name}={cell}" for name, cell in JOB[0].items() if name not in ("id", "tags"))
    few = [{"id": name, "tags": ""} for name in ("H-1", text, "H-2", text)]
    items = send_csv(written(few), f"?format=json{everything}", status=200)["items"]
    assert [item["status"] == "invalid" for item in items] == [False, True, False, True]
    (error,) = items[1]["problem"]["errors"]
    assert (error["code"], error["line"], error["pointer"]) == ("line-of-totals", 3, "#/rows/2")
    assert f'"{text}"' in error["detail"]


def test_an_id_that_only_begins_so_is_one(send_csv):
    (item,) = send_csv(written([JOB[0] | {"id": "Total-7"}]), "?format=json", status=200)["items"]
    assert (item["id"], item["status"]) == ("Total-7", "passed")


def test_a_header_that_stands_again_costs_its_row(send_csv):
    """As at the head of every page of an export."""
    lines = written(JOB).splitlines()
    items = send_csv("\n".join([*lines[:2], lines[0], lines[2], lines[0]]), "?format=json", status=200)["items"]
    assert [item["id"] for item in items] == ["H-1", None, "H-2", None]
    assert [items[row]["problem"]["errors"][0]["code"] for row in (1, 3)] == ["header-again"] * 2


PROJECT = {"name": "Invented Clinic", "number": "7", "revision": "B", "date": "1 May", "prepared_by": "E. N. Gineer"}


def test_a_query_names_the_project_of_a_csv(send_csv):
    """As the member of a request in JSON does: it heads the sheets and isn't in the digest."""
    query = "".join(f"&project.{name}={text}" for name, text in PROJECT.items())
    plain = send_csv(BATCH_CSV, "?format=json", status=200)
    named = send_csv(BATCH_CSV, f"?format=json{query}", status=200)
    assert named["project"] == PROJECT
    assert {name: value for name, value in named.items() if name != "project"} == plain


@pytest.mark.parametrize(
    ("query", "place"),
    [
        ("?project.nme=x", "?project.nme"),
        (f"?project.name={'x' * 300}", "?project.name"),
        ("?project=x", "?project"),
    ],
)
def test_a_bad_name_of_a_project_is_refused(send_csv, query, place):
    (error,) = send_csv(BATCH_CSV, query, status=422)["errors"]
    assert error["pointer"] == place


def test_the_schedule_has_the_rows_of_a_file_with_a_project(send_csv):
    plain, named = (send_csv(BATCH_CSV, query, status=200) for query in ("", "?project.name=Invented Clinic"))
    assert list(csv.reader(io.StringIO(named))) == list(csv.reader(io.StringIO(plain)))


@pytest.mark.parametrize(
    ("cells", "said"),
    [
        ({"base.edges.y_plus": '>24"'}, 'This says at least: write 24", with which the check is on the safe side'),
        ({"base.edges.y_plus": "≥ 24 in"}, "write 24 in, with"),
        ({"base.edges.y_plus": '24"+'}, 'write 24", with'),
        ({"base.edges.y_plus": "24 in min."}, "write 24 in, with"),
        ({"hangs.run.spans": "10 ft, 8 ft"}, "write ; between its places"),
        ({"hangs.run.spans": "10, 8"}, "write ; between its places"),
        ({"hangs.kind": ""}, "The kind is required."),
    ],
)
def test_cells_that_are_not_guessed_say_what_to_write(send_csv, cells, said):
    (item,) = send_csv(written([JOB[0] | cells]), "?format=json", status=200)["items"]
    (error,) = item["problem"]["errors"]
    assert (error["pointer"], error["line"]) == (f"#/rows/1/{next(iter(cells))}", 2)
    assert said in error["detail"]
    assert error.get("allowed", []) == (["forces", "pipe", "weight"] if "hangs.kind" in cells else [])


def test_a_whole_number_may_have_a_point(send_csv):
    """As spreadsheets write it."""
    plain, pointed = (
        send_csv(written([JOB[0] | {"hangs.run.support": text}]), "?format=json", status=200)["request_digest"]
        for text in ("1", "1.0")
    )
    assert pointed == plain
    (item,) = send_csv(written([JOB[0] | {"hangs.run.support": "1.5"}]), "?format=json", status=200)["items"]
    assert item["status"] == "invalid"


def test_titles_are_named_as_notes_in_the_query(send_csv):
    """Columns of an export that nobody has to edit: they are handed back, and nothing of them is read."""
    rows = [row | {"Colour": "red", "Dwg. No.": "S-101"} for row in JOB]
    plain = list(csv.reader(io.StringIO(send_csv(written(JOB), status=200))))
    head, *cells = csv.reader(io.StringIO(send_csv(written(rows), "?notes=colour, Dwg. No. ,Crew", status=200)))
    assert head[-2:] == ["Colour", "Dwg. No."]
    assert [row[-2:] for row in cells] == [["red", "S-101"]] * len(JOB)
    assert [row[:-2] for row in cells] == plain[1:]


def test_a_column_that_is_read_is_no_note(send_csv):
    """Otherwise a thickness would silently not count."""
    (error,) = send_csv(written(JOB[:1]), "?notes=Base.Thickness", status=422)["errors"]
    at = list(JOB[0]).index("base.thickness") + 1
    assert (error["pointer"], error["code"]) == (f"#/header/{at}", "contradiction")
    assert "base.thickness" in error["detail"]


def test_notes_are_of_a_csv_only(client):
    response = client.post("/v1/hang-points?notes=Colour", json={"units": "us", "items": []})
    assert response.status_code == 422
    assert response.json()["errors"][0]["pointer"] == "?notes"


def test_lines_that_were_joined_on_the_way_are_noticed(send_csv):
    """As by curl with --data: it takes line ends out, so that the last title and the first id are one word."""
    error = send_csv(written(JOB[:2]).replace("\r", "").replace("\n", ""), status=422)["errors"][0]
    assert error["detail"].startswith("All of the CSV is one line")
    assert "--data-binary" in error["detail"]


def test_a_header_with_rows_under_it_is_not_taken_for_joined_lines(title_error):
    assert "one line" not in title_error("Colour")["detail"]


def test_a_bad_title_of_a_header_alone_is_named_all_the_same(send_csv):
    errors = send_csv("id,Colour\n", status=422)["errors"]
    assert any('"Colour"' in error["detail"] for error in errors)
