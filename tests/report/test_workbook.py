"""An answer as a workbook, opened again: the same cells as the schedule, no formula, and what it rests on."""

import io
import re
import zipfile

import pytest
from openpyxl import load_workbook

from api.bodies import SINGLE_JSON, batch, item
from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch
from hangpoint.core.vocabulary import CAUTIONS, Status
from hangpoint.product.catalogue import load_catalogue
from hangpoint.report.schedule import COLUMNS, Table, schedule_table
from hangpoint.report.workbook import schedule_workbook

FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("http://example.invalid")', "=cmd|' /C x'!A0"]
TEXTS = ["http://example.invalid", "12", "1e3", "TRUE", " spaces ", "<&>\"'", "\x01\x0b_x0041_", "ü 漢 😀", "a\nb"]


def answer_of(*items, **top):
    body = batch(*items, **top)
    return answer_batch(Batch(**body), catalogue=load_catalogue(), limits=Limits(), detail="verdict")


@pytest.fixture(scope="module")
def answer():
    weights = [{"kind": "weight", "weight": weight, "nature": "dead"} for weight in (123.456789, 300, 30_000)]
    odd = [item(hangs=each) for each in weights]
    odd += [item(base__thickness=2), item(anchor={"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625})]
    return answer_of(*odd)


@pytest.fixture(scope="module")
def opened(answer):
    return load_workbook(io.BytesIO(schedule_workbook(answer, schedule_table(answer))))


def reopened(table, answer):
    content = schedule_workbook(answer, table)
    return content, load_workbook(io.BytesIO(content))["Schedule"]


def expected(cell):
    """A cell of the schedule as a workbook holds it: yes and no are words, as in the CSV; a number has 16 digits."""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    return pytest.approx(cell, rel=1e-15, abs=0) if isinstance(cell, float) else cell


def test_every_cell_is_the_one_of_the_schedule(answer, opened):
    table = schedule_table(answer)
    rows = list(opened["Schedule"].iter_rows(values_only=True))
    assert list(rows[0]) == list(table.titles)
    assert [list(row) for row in rows[1:]] == [[expected(cell) for cell in row] for row in table.rows]
    assert {each["status"] for each in answer["items"]} == set(Status)


def test_numbers_are_numbers_whatever_is_shown_of_them(answer, opened):
    sheet = opened["Schedule"]
    for line, result in enumerate(answer["items"][:3], start=2):
        for name, value in (
            ("utilisation", result["governing"]["utilisation"]),
            ("dead", result["demand"]["dead"]),
            ("row", result["index"] + 1),
        ):
            cell = sheet.cell(line, COLUMNS.index(name) + 1)
            assert (cell.data_type, cell.value) == ("n", expected(value))
    titles = [cell.value for cell in sheet[1]]
    assert "dead [lbf]" in titles


def test_titles_stay_in_sight_and_have_filters(answer, opened):
    sheet = opened["Schedule"]
    assert sheet.freeze_panes == "B2"
    assert sheet.auto_filter.ref == f"A1:{sheet.cell(1, len(COLUMNS)).column_letter}{len(answer['items']) + 1}"
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.print_title_cols == "$A:$A"


def test_columns_are_as_wide_as_they_can_be_read(opened):
    columns = list(opened["Schedule"].column_dimensions.values())
    for cell in opened["Schedule"][1]:
        (width,) = [each.width for each in columns if each.min <= cell.column <= each.max]
        assert max(map(len, cell.value.split())) < width < 70


def test_a_status_is_told_by_more_than_its_colour(opened):
    cells = {cell.value: cell for cell in opened["Schedule"]["C"][1:]}
    assert set(cells) == set(Status)
    looks = {(cell.font.bold, cell.font.italic, cell.fill.fgColor.rgb) for cell in cells.values()}
    assert len(looks) == len(Status)
    weights = {name: (cell.font.bold, cell.font.italic) for name, cell in cells.items()}
    assert len(set(weights.values())) == len(Status)


def contrast(one, other):
    """Contrast of two colours by the relative luminance of WCAG 2.2 (from memory)."""

    def luminance(colour):
        parts = [int(colour[at : at + 2], 16) / 255 for at in (2, 4, 6)]
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_a_status_can_be_read_on_its_colour(opened):
    for cell in opened["Schedule"]["C"][1:]:
        assert contrast(cell.font.color.rgb, cell.fill.fgColor.rgb) > 7


def test_a_utilisation_above_one_never_reads_as_one(opened):
    column = COLUMNS.index("utilisation") + 1
    shown = opened["Schedule"].cell(2, column).number_format
    assert shown == '[<=1]0.000;[<1.0005]">"0.000;0.000'


def table_of(answer, texts):
    rows = [["" if name != "id" else text for name in COLUMNS] for text in texts]
    for row in rows:
        row[COLUMNS.index("status")] = "passed"
    return Table(titles=COLUMNS, names=COLUMNS, rows=rows)


@pytest.mark.parametrize("text", FORMULAS)
def test_a_text_is_never_a_formula(answer, text):
    content, sheet = reopened(table_of(answer, [text]), answer)
    cell = sheet["A2"]
    assert (cell.data_type, cell.value.replace("_x000D_", "\r")) == ("s", text)
    assert cell.quotePrefix
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        for name in parts.namelist():
            assert b"<f>" not in parts.read(name)
            assert b"<hyperlink" not in parts.read(name)


@pytest.mark.parametrize("text", TEXTS)
def test_a_text_stays_the_text_that_it_is(answer, text):
    content, sheet = reopened(table_of(answer, [text]), answer)
    assert sheet["A2"].data_type == "s"
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        strings = parts.read("xl/sharedStrings.xml").decode()
    escaped = re.search(r"<si><t[^>]*>([^<]*)</t></si>", strings[strings.index("not_checked") :].partition("</si>")[2])
    assert escaped is not None
    assert not sheet["A2"].quotePrefix
    if text.isprintable():
        assert sheet["A2"].value == text


def test_a_negative_number_stays_a_number(answer):
    table = table_of(answer, ["a"])
    table.rows[0][COLUMNS.index("dead")] = -10.5
    cell = reopened(table, answer)[1].cell(2, COLUMNS.index("dead") + 1)
    assert (cell.data_type, cell.value) == ("n", -10.5)


def test_a_row_is_as_high_as_its_sentences(answer):
    table = table_of(answer, ["a", "b"])
    table.rows[1][COLUMNS.index("problem")] = "word " * 40
    sheet = reopened(table, answer)[1]
    assert sheet.row_dimensions[2].height in (None, sheet.sheet_format.defaultRowHeight)
    assert sheet.row_dimensions[3].height >= 3 * sheet.sheet_format.defaultRowHeight


def summary(opened):
    return [(row[0] or "", row[1]) for row in opened["Summary"].iter_rows(values_only=True) if any(row)]


def test_the_summary_holds_what_the_answer_rests_on(answer, opened):
    pairs = summary(opened)
    for status in Status:
        ((_, text),) = [pair for pair in pairs if pair[0] == status]
        assert text.startswith(f"{answer['summary'][status]}  ")
    assert ("hang points", answer["summary"]["total"]) in pairs
    assert ("passed on assumptions", answer["summary"]["passed_on_assumptions"]) in pairs
    for name in ("assumptions", "not_checked"):
        assert answer[name]
        assert set(answer[name].items()) <= set(pairs)
    assert [text for _, text in pairs if text in CAUTIONS] == list(CAUTIONS)
    findings = {(each["code"], each["text"]) for point in answer["items"] for each in point.get("findings", ())}
    reasons = {(each["reason"]["code"], each["reason"]["text"]) for each in answer["items"] if "reason" in each}
    asked = {(each["code"], each["question"]) for point in answer["items"] for each in point.get("to_engineer", ())}
    assert findings
    assert reasons
    assert findings | reasons | asked <= set(pairs)
    assert ("hangpoint", answer["engine_version"]) in pairs
    assert ("design code", answer["design_code"]["edition"]) in pairs
    assert ("catalogue", f"{answer['catalogue']['version']}, {answer['catalogue']['hash']}") in pairs
    assert ("request digest", answer["request_digest"]) in pairs
    governing = {text: count for text, count in pairs if isinstance(count, int)}
    assert sum(governing.values()) == sum(answer["summary"]["governing"].values()) + sum(
        answer["summary"][name] for name in ("total", "passed_on_assumptions")
    )


def test_points_with_neighbours_are_counted_and_named():
    """Two alike points 6 in apart and one far from both; an id that a spreadsheet would compute."""
    places = {"=1+1": 0, "b": 0.5, "c": 50}
    items = [item(at={"level": "L2", "x": x, "y": 0}) | {"id": name} for name, x in places.items()]
    near = answer_batch(Batch(units="us", items=items), catalogue=load_catalogue(), limits=Limits(), detail="verdict")
    book = load_workbook(io.BytesIO(schedule_workbook(near, schedule_table(near))))
    named = [book["Schedule"].cell(line, COLUMNS.index("neighbours") + 1) for line in (2, 3, 4)]
    assert [cell.value for cell in named] == ["b", "=1+1", None]
    assert (named[1].data_type, named[1].quotePrefix) == ("s", True)
    assert ("checked with neighbours", 2) in list(book["Summary"].iter_rows(values_only=True, max_col=2))


def test_the_same_answer_is_the_same_file(answer):
    table = schedule_table(answer)
    assert schedule_workbook(answer, table) == schedule_workbook(answer, table)


def test_units_of_the_request(answer):
    other = answer_of(SINGLE_JSON["item"], units="si")
    sheet = reopened(schedule_table(other), other)[1]
    titles = [cell.value for cell in sheet[1]]
    assert "dead [kN]" in titles
    assert sheet.cell(2, titles.index("dead [kN]") + 1).number_format == "0.000"
    assert (sheet.page_setup.paperSize, reopened(schedule_table(answer), answer)[1].page_setup.paperSize) == (9, 1)
