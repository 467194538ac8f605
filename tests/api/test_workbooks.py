"""Workbooks that come in, made by two other libraries.

What a cell shows is by ECMA-376 part 1, 18.8.31, and as spreadsheet programs show it, from memory.
"""

import csv
import datetime
import io
import json
import zipfile
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from xlsxwriter import Workbook as Written

from api.bodies import single
from hangpoint.api.media import XLSX
from hangpoint.api.workbooks import parts
from hangpoint.api.workbooks.reading import MOST_CHARACTERS, WorkbookOptions, read_workbook
from hangpoint.api.workbooks.shown import shown

PATH = "/v1/workbook-rows"
EXAMPLES = Path(__file__).parents[2] / "examples"
SHEET = "xl/worksheets/sheet1.xml"


def saved(book):
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def book_of(*rows, title="Points"):
    book = Workbook()
    sheet = book.active
    sheet.title = title
    for row in rows:
        sheet.append(row)
    return book


def changed(body, old, new, *, part=SHEET):
    """A workbook with another text in a part; the old one stands there."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(body)) as source, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            content = source.read(name)
            if name == part:
                assert old in content
                content = content.replace(old, new)
            target.writestr(name, content)
    return made.getvalue()


@pytest.fixture
def post(client, validator):
    """The answer to a workbook, or the problem; ``status`` is what is awaited."""

    def send(body, query="", *, status=200):
        response = client.post(f"{PATH}{query}", content=body, headers={"Content-Type": XLSX})
        assert response.status_code == status, response.text[:500]
        answer = response.json()
        validator("WorkbookRows" if status == 200 else "Problem").validate(answer)
        return answer

    return send


@pytest.mark.parametrize(
    ("value", "number_format", "text"),
    [
        (96, "General", "96"),
        (96, '0" in"', "96 in"),
        (2.5, '0.0\\ "mm"', "2.5 mm"),
        (2.4567, '0.0" in"', "2.4567 in"),
        (50, '"DN "0', "DN 50"),
        (7, "[$€-407]0", "€7"),
        (0.1 + 0.2, "0.00", "0.3"),
        (0.05, "0%", "5%"),
        (0.125, "0.0%", "12.5%"),
        (1234567, "#,##0", "1234567"),
        (5000, '#,##0,"k"', "5k"),
        (3.375, "# ?/?", "3.375"),
        (1e-7, "0.00E+00", "0.0000001"),
        (1e20, "General", "100000000000000000000"),
        (-5, '0" in"', "-5 in"),
        (-5, "0;(0)", "(5)"),
        (-5, "0.0;[Red]-0.0", "-5"),
        (5, '[<10]0" in";0" ft"', "5 in"),
        (12, '[<10]0" in";0" ft"', "12 ft"),
        (0, '_(* #,##0.00_);_(* (#,##0.00);_(* "-"??_);_(@_)', "0"),
        (8, '_(* #,##0.00_);_(* (#,##0.00);_(* "-"??_);_(@_)', "8"),
        (0, '0;-0;"none"', "none"),
        (0, '0;-0;"-"', "0"),
        (7, ";;;", "7"),
        (-0.0, "General", "0"),
        (True, "General", "true"),
        (" a\n b ", "@", "a b"),
        (None, '0" in"', ""),
        (datetime.datetime(2026, 3, 8), "d-mmm", "2026-03-08"),
        (datetime.datetime(2026, 3, 8, 9, 30), "d-mmm h:mm", "2026-03-08 09:30:00"),
        (datetime.time(9, 30), "h:mm", "09:30:00"),
    ],
)
def test_a_cell_has_the_text_that_is_seen_with_all_of_its_figures(value, number_format, text):
    assert shown(value, number_format, comma=False) == text


@pytest.mark.parametrize(
    ("value", "number_format", "text"),
    [
        (5, "# ?/8", "5"),
        (1, "# ??/16", "1"),
        (3.375, '# ?/8" in"', "3.375 in"),
        (0.375, "0/8", "0.375"),
        (5, '0"/8"', "5/8"),
        (-5, '0" in";@" mm"', "-5 in"),
        ("2 1/2", '0" in";@" mm"', "2 1/2 mm"),
        ("2 1/2", '0" in";-0" in";0" in";@" in"', "2 1/2 in"),
        ("2 1/2", '@" in"', "2 1/2 in"),
        (5, '@" in"', "5"),
        ("2", '0" in"', "2"),
        (7, '"H-"000', "H-007"),
        (0, '"H-"000', "H-000"),
        (120, '"L"0\\-00', "L1-20"),
        (56, "0\\'\\-0\\\"", "5'-6\""),
        (12, '0 "x" 0', "1 x 2"),
        (1250, "# ##0", "1250"),
        (5, '0"', '5"'),
        (5, '0"""', '5"'),
        (0, '[>10]0" a";0" b";0" c"', "0 c"),
    ],
)
def test_a_cell_says_what_an_outside_spreadsheet_program_shows(value, number_format, text):
    """Shown so by LibreOffice Calc 7.4 in a file of its own; figures that a format rounds away are added."""
    assert shown(value, number_format, comma=False) == text


@pytest.mark.parametrize(
    ("value", "number_format"),
    [(5, '0;[<5]0" in"'), (50, '[>100]0" in"'), (5000, "#,##0,.0"), (3.5, '0" x "0'), (5.5, "0\\'\\-0\\\"")],
)
def test_where_programs_differ_or_digits_would_be_lost_no_column_takes_it_for_a_number(value, number_format):
    assert shown(value, number_format, comma=False) == f"{value} ({number_format})"


@pytest.mark.parametrize("number_format", ["0;0", "0.0;[Red]0.0", "#,##0;[Red]#,##0", '0" in";[Red]0" in"'])
def test_a_negative_number_in_red_keeps_its_sign(number_format):
    """The screen shows the colour alone, which no text has."""
    assert shown(-5, number_format, comma=False).startswith("-5")


def test_three_figures_behind_a_decimal_comma_are_no_thousands(client, post):
    """3,375 in a text might be either; of a number it is known, and the reader of rows takes 3,3750."""
    read = post(saved(book_of(["id", "h_ef"], ["A", 3.375], ["B", 2.5], ["C", "3,375"])), "?decimal=,")
    assert read["csv"] == "id;h_ef\nA;3,3750\nB;2,5\nC;3,375\n"


def test_values_that_their_format_hides_are_told(post):
    book = book_of(["id", "a", "b", "c"], ["A", 7, 0, "x"], ["B", 7, 1, 0])
    book.active["B2"].number_format = ";;;"
    book.active["C2"].number_format = book.active["C3"].number_format = "0;-0;;@"
    book.active["D2"].number_format = "0;0;0;"
    read = post(saved(book))
    assert read["csv"] == "id,a,b,c\nA,7,0,x\nB,7,1,0\n"
    assert read["notes"] == ["Values that their number format doesn't show were read: B2, C2, D2."]


def test_ends_of_lines_that_programs_write_as_a_code_are_blanks(post):
    assert post(saved(book_of(["id"], ["A_x000D_\nB"])))["csv"] == "id\nA B\n"


def test_numbers_have_the_decimal_sign_of_the_texts(post):
    body = saved(book_of(["id", "h_ef"], ["A", 2.5], ["B", "2,5 in"]))
    assert post(body, "?decimal=,")["csv"] == "id;h_ef\nA;2,5\nB;2,5 in\n"


def test_a_job_as_a_workbook_is_answered_as_its_csv_is(client, job_csv):
    """The same points, numbers as numbers: line for line the same answer."""
    rows = list(csv.reader(io.StringIO(job_csv)))
    body = saved(book_of(*([_number(cell) for cell in row] for row in rows)))
    made = client.post(f"{PATH}?format=csv", content=body, headers={"Content-Type": XLSX})
    assert made.headers["content-type"] == "text/csv; charset=utf-8"
    plain, own = (
        client.post("/v1/hang-points?format=json", content=text, headers={"Content-Type": "text/csv"}).json()
        for text in (job_csv, made.text)
    )
    assert plain["summary"]["passed"] > 250
    assert own["summary"] == plain["summary"]
    assert own["request_digest"] == plain["request_digest"]


def _number(cell):
    try:
        return float(cell) if cell else None
    except ValueError:
        return cell


@pytest.fixture(scope="session")
def job_csv():
    """The clinic without the row that has a cell too many: its message is that of a CSV."""
    text = (EXAMPLES / "invented-clinic" / "hang_points.csv").read_text("utf-8")
    lines = [line for line in text.splitlines(keepends=True) if not line.startswith("IC-L1-SPB-1-1/2-05,")]
    assert len(lines) == text.count("\n") - 1
    return "".join(lines)


def test_a_blank_log_filled_in_by_hand_comes_back_as_a_workbook(client, post):
    """What the service hands out for the site it reads again."""
    wedge = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25}
    stated = {"anchor": wedge, "use": "structural", "basis": "design_strength", "load": 1500}
    plan = {"units": "us", "rule": "cbc_1910a_5", "items": [{"id": name, **stated} for name in ("a", "b")]}
    blank = client.post("/v1/test-plans?format=xlsx", json=plan)
    assert blank.status_code == 200, blank.text
    book = load_workbook(io.BytesIO(blank.content))
    sheet = book["Log"]
    column = {cell.value: cell.column for cell in sheet[1]}
    for row in range(2, sheet.max_row + 1):
        sheet.cell(row, column["applied [lbf]"], sheet.cell(row, column["test load [lbf]"]).value)
        sheet.cell(row, column["held seconds [s]"], 15)
        sheet.cell(row, column["moved"], "no")
    read = post(saved(book), "?sheet=Log")
    judged = client.post(
        "/v1/test-logs?rule=cbc_1910a_5&units=us&format=json", content=read["csv"], headers={"Content-Type": "text/csv"}
    )
    assert judged.status_code == 200, judged.text
    assert judged.json()["summary"]["passed"] == 2


def test_lines_are_rows_and_what_stands_above_the_titles_is_left_out(post, client):
    body = saved(book_of(["Invented Clinic"], [], ["id", "h_ef"], ["A", 3], [], ["B", "x\ny"]))
    assert post(body)["csv"] == "Invented Clinic,\n\nid,h_ef\nA,3\n\nB,x y\n"
    read = post(body, "?header=3")
    assert (read["sheet"], read["sheets"], read["rows"], read["notes"]) == ("Points", ["Points"], 3, [])
    assert read["csv"] == "\n\nid,h_ef\nA,3\n\nB,x y\n"
    told = client.post(
        "/v1/hang-points?format=json&default.hangs.kind=weight&default.hangs.weight=9 lb&default.hangs.nature=dead",
        content=read["csv"].replace("h_ef", "base.thickness [in]"),
        headers={"Content-Type": "text/csv"},
    ).json()
    assert {error["line"] for error in told["errors"]} == {3}
    assert post(body, "?header=9", status=422)["errors"][0]["pointer"] == "?header"
    for wrong in ("0", "-1", "x", "1.5", "99999999", "%E2%91%A0"):
        assert post(body, f"?header={wrong}", status=422)["errors"][0]["pointer"] == "?header"


def test_merged_cells_have_their_value_each_and_it_is_told(post):
    """A spreadsheet shows the one value over all of them; a CSV of it would leave the others empty."""
    book = book_of(["id", "level", "load"], ["A", "L1", 5], ["B", None, None], ["C", "L2", 6])
    book.active.merge_cells("B2:B3")
    book.active.merge_cells("C2:C3")
    book.active.merge_cells("E1:F9")
    read = post(saved(book))
    assert read["csv"] == "id,level,load\nA,L1,5\nB,L1,5\nC,L2,6\n"
    assert read["notes"] == [
        "What stands in merged cells was taken for each of them, a load too and not its share: B2:B3, C2:C3."
    ]


def test_nothing_hidden_is_read_or_skipped_unasked(post):
    book = book_of(["id", "old", "h_ef"], ["A", 1, 2], ["B", 3, 4], ["C", 5, 6])
    book.active.row_dimensions[3].hidden = True
    book.active.row_dimensions[9].hidden = True
    book.active.column_dimensions["B"].hidden = True
    book.active.column_dimensions["Z"].hidden = True
    body = saved(book)
    (error,) = post(body, status=422)["errors"]
    assert (error["pointer"], error["code"], error["allowed"]) == ("?hidden", "missing", ["read", "skip"])
    assert "rows 3 and columns B:" in error["detail"]
    skipped = post(body, "?hidden=skip")
    assert skipped["csv"] == "id,h_ef\nA,2\n\nC,6\n"
    assert skipped["notes"] == ["Hidden cells were skipped: rows 3 and columns B."]
    read = post(body, "?hidden=read")
    assert read["csv"] == "id,old,h_ef\nA,1,2\nB,3,4\nC,5,6\n"
    assert read["notes"] == ["Hidden cells were read as the others: rows 3 and columns B."]


def test_what_has_no_width_or_height_is_hidden(post):
    book = book_of(["id", "old", "h_ef"], ["A", 1, 2], ["B", 3, 4])
    book.active.row_dimensions[3].height = 9
    book.active.column_dimensions["B"].width = 9
    flat = changed(changed(saved(book), b'ht="9"', b'ht="0"'), b'width="9"', b'width="0"')
    assert "rows 3 and columns B:" in post(flat, status=422)["errors"][0]["detail"]


def test_what_lies_under_merged_cells_is_not_read(post):
    """A spreadsheet shows the first cell alone, here an empty one."""
    body = saved(book_of(["id", "load"], ["A", None], ["B", 5]))
    merged = b'</sheetData><mergeCells count="1"><mergeCell ref="B2:B3"/></mergeCells>'
    read = post(changed(body, b"</sheetData>", merged))
    assert (read["csv"], read["notes"]) == ("id,load\nA,\nB,\n", [])


def test_one_of_several_sheets_is_named(post):
    book = book_of(["id"], ["A"])
    book.create_sheet("Lists")["B2"] = "x"
    book.create_sheet("Empty")
    book.create_sheet("Archive")["A1"] = "old"
    book["Archive"].sheet_state = "hidden"
    body = saved(book)
    (error,) = post(body, status=422)["errors"]
    assert (error["pointer"], error["allowed"]) == ("?sheet", ["Points", "Lists"])
    assert post(body, "?sheet=lists")["csv"] == ",\n,x\n".replace(",\n", "\n", 1)
    read = post(body, "?sheet=Archive")
    assert (read["csv"], read["sheets"]) == ("old\n", ["Points", "Lists", "Empty"])
    (error,) = post(body, "?sheet=Pionts", status=422)["errors"]
    assert error["allowed"] == ["Points", "Lists", "Empty", "Archive"]
    assert "is empty" in post(body, "?sheet=Empty", status=422)["errors"][0]["detail"]
    assert "no values" in post(saved(Workbook()), status=400)["detail"]


def test_a_formula_has_the_value_that_the_file_holds_or_is_an_error(post):
    made = io.BytesIO()
    with Written(made) as book:
        sheet = book.add_worksheet()
        sheet.write_row(0, 0, ["id", "h_ef"])
        sheet.write_formula(1, 0, '="A"&"1"', None, "A1")
        sheet.write_formula(1, 1, "=1+1.5", None, 2.5)
        sheet.write_formula(2, 0, '=""', None, "nothing")
        sheet.write_formula(3, 1, "=1/0", None, "#DIV/0!")
    body = changed(made.getvalue(), b"<v>nothing</v>", b"<v></v>")
    assert post(body)["csv"] == "id,h_ef\nA1,2.5\n\n,#DIV/0!\n"
    errors = post(saved(book_of(["id", "h_ef"], ["A", "=1+1"], ["B", "=2+2"])), status=422)["errors"]
    assert [error["pointer"] for error in errors] == ["#/sheets/Points/B2", "#/sheets/Points/B3"]


def test_a_zero_that_was_never_computed_is_an_error(post):
    """A program that computes nothing writes 0 for each formula and asks that all be computed when it is opened."""
    made = io.BytesIO()
    with Written(made) as book:
        sheet = book.add_worksheet("Points")
        sheet.write_row(0, 0, ["id", "load"])
        sheet.write_row(1, 0, ["A", 0])
        sheet.write_formula(2, 1, "=100+200")
    errors = post(made.getvalue(), status=422)["errors"]
    assert [error["pointer"] for error in errors] == ["#/sheets/Points/B3"]
    computed = changed(made.getvalue(), b' fullCalcOnLoad="1"', b"", part="xl/workbook.xml")
    assert post(computed)["csv"] == "id,load\nA,0\n,0\n"


def test_a_size_that_became_a_date_is_told(client, post):
    """3/8 typed into a cell is the 8th of March to a spreadsheet."""
    body = saved(book_of(["id", "rod_size"], ["A", datetime.datetime(2026, 3, 8)]))
    text = post(body)["csv"]
    assert text == "id,rod_size\nA,2026-03-08\n"
    given = "&".join(
        f"default.{name}={value}"
        for name, value in {
            "hangs.kind": "weight",
            "hangs.weight": "9 lb",
            "hangs.nature": "dead",
            "base.kind": "concrete",
            "base.density": "normalweight",
            "base.thickness": "8 in",
            **{f"base.edges.{side}": "none" for side in ("x_minus", "x_plus", "y_minus", "y_plus")},
            "seismic.category": "B",
        }.items()
    )
    answer = client.post(f"/v1/hang-points?format=json&{given}", content=text, headers={"Content-Type": "text/csv"})
    errors = {error["column"]: error for error in answer.json()["items"][0]["problem"]["errors"] if "column" in error}
    own = errors["rod_size"]
    assert (own["code"], own["line"], own["cell"]) == ("date", 2, "2026-03-08")


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b"", "damaged or no workbook"),
        (b"id,h_ef\n", "damaged or no workbook"),
        (b"PK\x03\x04", "damaged or no workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 600, "an old workbook (XLS), or one under a password"),
    ],
)
def test_what_is_no_workbook_is_told(post, body, says):
    assert says in post(body, status=400)["detail"]


@pytest.mark.parametrize(("name", "says"), [("content.xml", "another kind (ODS)"), ("a.txt", "no workbook")])
def test_an_archive_of_something_else_is_told(post, name, says):
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        archive.writestr(name, "x")
    assert says in post(made.getvalue(), status=400)["detail"]


def test_what_would_grow_without_bounds_is_refused(post):
    body = saved(book_of([1]))
    merged = b'</sheetData><mergeCells count="1"><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    problem = post(changed(body, b"</sheetData>", merged), status=413)
    assert (problem["type"], problem["limit"]) == ("/problems/too-many-items", parts.MOST_CELLS)
    far = changed(changed(body, b'r="A1"', b'r="A1048576"'), b'<row r="1"', b'<row r="1048576"')
    assert post(far, status=413)["limit"] == parts.MOST_ROWS
    assert "16384 columns" in post(changed(body, b'r="A1"', b'r="XFD1"'), status=422)["detail"]
    assert post(changed(body, b"<sheetData>", b" " * parts.MOST_BYTES + b"<sheetData>"), status=413)["limit"] == (
        parts.MOST_BYTES
    )
    entities = b'<!DOCTYPE w [<!ENTITY a "12345678"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><worksheet'
    bomb = changed(changed(body, b"<worksheet", entities), b"<v>1</v>", b"<v>&b;</v>")
    assert "damaged, or has what XLSX forbids" in post(bomb, status=400)["detail"]


def test_what_costs_a_library_too_much_is_refused_before_it_reads(post):
    """Each of these took from 28 seconds and 900 megabytes to more than a minute, or would have filled any memory."""
    body = saved(book_of([1]))
    names = b"<definedNames>" + b'<definedName name="q">1</definedName>' * 100_001 + b"</definedNames>"
    for old, new, part, limit in (
        (b"<sheetData>", b"<sheetData>" + b"<row/>" * parts.MOST_TAGS, SHEET, parts.MOST_TAGS),
        (b"</sheets>", b"</sheets>" + names, "xl/workbook.xml", parts.MOST_OTHER_TAGS),
        (b"</cellXfs>", b"<xf/>" * parts.MOST_OTHER_TAGS + b"</cellXfs>", "xl/styles.xml", parts.MOST_OTHER_TAGS),
        (
            b"<sheetData>",
            b"<cols>" + b'<col min="1" max="16384" hidden="1"/>' * 16_385 + b"</cols><sheetData>",
            SHEET,
            parts.MOST_COLUMN_ENTRIES,
        ),
    ):
        assert post(changed(body, old, new, part=part), status=413)["limit"] == limit


def test_texts_and_formats_that_stand_in_many_cells_are_held_to_a_size(post):
    made = io.BytesIO()
    with Written(made) as book:
        sheet = book.add_worksheet()
        own = book.add_format({"num_format": '0.0" q"'})
        for row in range(20):
            sheet.write_string(row, 0, "aqa")
            sheet.write_number(row, 1, row, own)
    body, texts, styles = made.getvalue(), "xl/sharedStrings.xml", "xl/styles.xml"
    for long in (b"x " * 500_000, b" " * 1_000_000):
        assert post(changed(body, b"aqa", long, part=texts), status=413)["limit"] == MOST_CHARACTERS
    one = changed(changed(body, b"aqa", b"x" * 500_000, part=texts), b"</sheetData>", b"</sheetData>%s")
    merged = changed(one, b"%s", b'<mergeCells><mergeCell ref="B1:B20"/><mergeCell ref="A1:J20"/></mergeCells>')
    assert post(merged, status=413)["limit"] == MOST_CHARACTERS
    odd = changed(body, b"0.0&quot; q&quot;", b"[" * 1025, part=styles)
    assert post(odd, status=413)["limit"] == parts.MOST_FORMAT


def test_an_archive_that_can_be_read_in_two_ways_is_refused(post):
    """Of a part, a sheet or a row that stands twice two programs may take another one."""
    body = saved(book_of([1]))
    made = io.BytesIO(body)
    with pytest.warns(UserWarning, match="Duplicate name"), zipfile.ZipFile(made, "a") as archive:
        archive.writestr(SHEET, "x")
    assert "twice" in post(made.getvalue(), status=400)["detail"]
    book = book_of([1])
    book.create_sheet("Other")["A1"] = 2
    alike = changed(saved(book), b'name="Other"', b'name="points"', part="xl/workbook.xml")
    assert "one name" in post(alike, status=400)["detail"]
    moved = changed(body, b'Target="styles.xml"', b'Target="other.xml"', part="xl/_rels/workbook.xml.rels")
    assert "number formats" in post(moved, status=400)["detail"]
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(body)) as source, zipfile.ZipFile(packed, "w", zipfile.ZIP_LZMA) as target:
        for name in source.namelist():
            target.writestr(name, source.read(name))
    assert "compressed" in post(packed.getvalue(), status=400)["detail"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"<v>1</v>", b"<v>one</v>"),
        (b"</row>", b'</row><row r="1"><c r="A1"><v>2</v></c></row>'),
        (b"</row>", b'<c r="B3"><v>2</v></c></row>'),
        (b"</row>", b'<c r="A1"><v>2</v></c></row>'),
        (b'r="A1"', b'r="1A"'),
        (b"</worksheet>", b""),
        (b"</sheetData>", b'</sheetData><mergeCells><mergeCell ref="?"/></mergeCells>'),
        (b'<row r="1"', b'<row r="x"'),
    ],
)
def test_a_damaged_sheet_is_a_problem(post, old, new):
    assert post(changed(saved(book_of([1])), old, new), status=400)["type"] == "/problems/malformed"


def test_damage_anywhere_is_no_failure_of_the_service(client):
    """Bytes turned over throughout the file: an answer, or a problem of the request."""
    body = saved(book_of(["id", "h_ef"], *([f"A{row}", row / 8] for row in range(9))))
    seen = set()
    for at in range(0, len(body), 23):
        broken = body[:at] + bytes([body[at] ^ 0x5A]) + body[at + 1 :]
        seen.add(client.post(PATH, content=broken, headers={"Content-Type": XLSX}).status_code)
    assert seen <= {200, 400, 413, 422}
    assert {200, 400} <= seen


def test_other_addresses_say_where_a_workbook_goes(client):
    body = saved(book_of(["id"]))
    for path in ("/v1/hang-points", "/v1/test-logs?rule=cbc_1910a_5"):
        told = client.post(path, content=body, headers={"Content-Type": XLSX})
        assert (told.status_code, PATH in told.json()["detail"]) == (415, True)
        told = client.post(path, content=body, headers={"Content-Type": "text/csv"})
        assert (told.status_code, PATH in told.json()["detail"]) == (400, True)
    told = client.post(PATH, content=json.dumps(single()), headers={"Content-Type": "application/json"})
    assert told.status_code == 415


def test_a_sheet_with_formats_alone_is_read_as_far_as_its_values():
    book = book_of(["id"], ["A"])
    book.active["H40"].number_format = "0.00"
    assert read_workbook(saved(book), WorkbookOptions()).csv == "id\nA\n"
