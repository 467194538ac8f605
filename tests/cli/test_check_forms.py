"""`hangpoint check`: every form of a file that it reads, and of a file that it writes."""

import csv
import gzip
import io
import json
import re

import pypdf
import pytest
from openpyxl import load_workbook

from api.bodies import BATCH_JSON, GONE, SINGLE_JSON, as_lines, change, item
from hangpoint.api import pdf_files
from hangpoint.api.examples import BATCH_CSV, BATCH_LINES, GROUP_JSON
from hangpoint.api.files import FileKind, file_kind
from hangpoint.api.media import CSV, JSON, NDJSON

SINGLE = json.dumps(SINGLE_JSON)
BATCH = json.dumps(BATCH_JSON)
PRETTY = json.dumps(BATCH_JSON, indent=2)
ALL = {"schedule.csv", "answers.json", "answers.ndjson", "schedule.xlsx", "calculation.html"}
EVERY_FORMAT = [part for word in ("csv", "json", "ndjson", "xlsx", "html") for part in ("--format", word)]


@pytest.mark.parametrize(
    ("name", "content", "media", "one"),
    [
        ("a.csv", BATCH_CSV, CSV, None),
        ("a.TSV", BATCH_CSV, CSV, None),
        ("a.txt", BATCH_CSV, CSV, None),
        ("a.txt", BATCH, JSON, None),
        ("a.txt", BATCH_LINES, NDJSON, None),
        ("a.csv", PRETTY, JSON, None),
        ("a.json", BATCH, JSON, None),
        ("a.json", PRETTY, JSON, None),
        ("a.JSON", SINGLE, JSON, "item"),
        ("a.json", json.dumps(SINGLE_JSON, indent=1), JSON, "item"),
        ("a.json", BATCH_LINES, NDJSON, None),
        ("a.json", "\n\n" + BATCH_LINES, NDJSON, None),
        ("a.json", '{"units": "us"', JSON, None),
        ("a.json", '{"units": "us"}', JSON, None),
        ("a.json", "nope", JSON, None),
        ("a.json", "", JSON, None),
        ("a.ndjson", BATCH_LINES, NDJSON, None),
        ("a.jsonl", BATCH_LINES, NDJSON, None),
        ("a.ndjson", '{"units": "us"}', NDJSON, None),
        ("a.ndjson", '{"units": "us"\n{"id": "a"}', NDJSON, None),
        ("a.ndjson", "nope", NDJSON, None),
        ("a.ndjson", PRETTY, JSON, None),
        ("a.ndjson", BATCH, JSON, None),
        ("a.ndjson", SINGLE, JSON, "item"),
        ("a.json", json.dumps(GROUP_JSON), JSON, "group"),
        ("a.ndjson", json.dumps(GROUP_JSON), JSON, "group"),
        ("a.json", json.dumps(GROUP_JSON | BATCH_JSON), JSON, None),
    ],
)
def test_a_file_is_what_its_ending_and_content_say(name, content, media, one):
    assert file_kind(name, content.encode()) == FileKind(media_type=media, one=one)


@pytest.mark.parametrize("name", ["a", "a.ods", "csv", ".csv", "a.json.gz"])
def test_another_ending_is_none(name):
    assert file_kind(name, BATCH.encode()) is None


@pytest.mark.parametrize(("name", "content"), [("a.json", BATCH), ("a.ndjson", BATCH_LINES), ("a.txt", BATCH_LINES)])
def test_every_form_of_a_file_has_the_same_answer(run, save, tmp_path, name, content):
    assert run("check", save(BATCH, "plain.json"), "--out", "plain").exit_code == 0
    result = run("check", save(content, name), *(["--neighbours"] if content == BATCH_LINES else []), "--out", "out")
    assert result.exit_code == 0, result.stderr
    for file in ("answers.json", "schedule.csv"):
        assert (tmp_path / "out" / file).read_bytes() == (tmp_path / "plain" / file).read_bytes()


def test_a_single_check(run, save, tmp_path):
    result = run("check", save(SINGLE, "one.json"), "--out", "out", "--detail", "trace")
    assert result.exit_code == 0, result.stderr
    assert "PASSED 1" in result.stdout
    assert json.loads((tmp_path / "out" / "answers.json").read_bytes())["items"][0]["trace"]


def test_a_group(run, save, tmp_path):
    result = run("check", save(json.dumps(GROUP_JSON), "group.json"), "--out", "out")
    assert result.exit_code == 0, result.stderr
    assert "PASSED 1" in result.stdout
    assert json.loads((tmp_path / "out" / "answers.json").read_bytes())["items"][0]["id"] == GROUP_JSON["group"]["id"]


def test_a_group_that_is_invalid(run, save):
    bad = change(
        GROUP_JSON, {"group.loads.load_cases.0.components.0.tension": "9 psi", "group.base.edges.x_plus": GONE}
    )
    result = run("check", save(json.dumps(bad), "group.json"))
    assert result.exit_code == 2
    assert "#/group/loads/load_cases/0/components/0/tension" in result.stderr
    bad = change(GROUP_JSON, {"group.base.edges.x_plus": GONE})
    assert "#/group/base/edges/x_plus" in run("check", save(json.dumps(bad), "group.json")).stderr


def test_a_single_check_that_is_invalid(run, save):
    body = json.dumps(change(SINGLE_JSON, {"item.base.thickness": 2}))
    result = run("check", save(body, "one.json"))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "#/item/anchor/h_ef: The embedment reaches or passes" in result.stderr


def test_what_is_written_is_chosen(run, save, tmp_path):
    for words, files in (
        ([], {"schedule.csv", "answers.json"}),
        (["xlsx"], {"schedule.xlsx"}),
        (["ndjson", "csv", "ndjson"], {"schedule.csv", "answers.ndjson"}),
        (["html"], {"calculation.html"}),
        (["csv", "json", "ndjson", "xlsx", "html"], ALL),
    ):
        out = tmp_path / "-".join(["out", *words])
        named = [part for word in words for part in ("--format", word)]
        result = run("check", save(BATCH, "job.json"), "--out", out, *named)
        assert result.exit_code == 0, result.stderr
        assert {file.name for file in out.iterdir()} == files
        written = result.stdout.partition("Written: ")[2].replace("\n", "")
        assert {each.strip().rpartition("/")[2] for each in written.split(",")} == files


def test_every_file_holds_the_same(run, save, tmp_path):
    assert run("check", save(BATCH, "job.json"), "--out", "out", *EVERY_FORMAT).exit_code == 0
    out = tmp_path / "out"
    answer = json.loads((out / "answers.json").read_bytes())
    head, *results, last = map(json.loads, (out / "answers.ndjson").read_bytes().splitlines())
    assert results == answer["items"]
    assert head | last | {"items": results} == answer | {"withdrawn": []}
    rows = list(csv.reader(io.StringIO((out / "schedule.csv").read_text("utf-8-sig"))))
    sheet = [list(row) for row in load_workbook(out / "schedule.xlsx")["Schedule"].iter_rows(values_only=True)]
    assert sheet[0] == rows[0]
    assert [row[:3] for row in sheet[1:]] == [[name, int(at), status] for name, at, status in (r[:3] for r in rows[1:])]


@pytest.mark.parametrize("body", [BATCH, SINGLE, json.dumps(GROUP_JSON), BATCH_CSV])
def test_calculation_sheets(run, save, tmp_path, body):
    """A sheet an item with its calculation, whatever the detail; the answer beside it has the traces too."""
    path = save(body, "job.csv" if body is BATCH_CSV else "job.json")
    units = ("--units", "us") if body is BATCH_CSV else ()
    result = run("check", path, *units, "--out", "out", "--format", "html", "--format", "json")
    assert result.exit_code == 0, result.stderr
    page = (tmp_path / "out" / "calculation.html").read_text("utf-8")
    items = json.loads((tmp_path / "out" / "answers.json").read_bytes())["items"]
    assert page.count("<article") == len(items)
    assert page.count("<h2>Calculation</h2>") == sum("trace" in each for each in items) > 0


def test_sheets_of_chosen_points(run, save, tmp_path):
    many = json.dumps({**BATCH_JSON, "items": [item(id=f"P {at}") for at in range(201)]})
    words = ("--out", "out", "--format", "html")
    path = save(many, "job.json")
    assert run("check", path, *words, "--only", "P 7", "--only", "P 200").exit_code == 0
    page = (tmp_path / "out" / "calculation.html").read_text("utf-8")
    assert (page.count("<article"), page.count("<h1>P 7</h1>"), page.count("<h1>P 200</h1>")) == (2, 1, 1)
    unknown = run("check", path, *words, "--only", "Q")
    assert (unknown.exit_code, "No item has the id Q" in unknown.stderr) == (2, True)
    assert run("check", path, "--out", "out", "--only", "P 7").exit_code == 2
    assert run("check", save(SINGLE, "one.json"), *words, "--only", "A").exit_code == 2


def test_many_sheets_are_several_pdfs(run, save, tmp_path, monkeypatch):
    """Those of an earlier run with more of them don't stay beside those of a later one. One run is of as many sheets as
    a file has; the others, with a limit of two, typeset few."""
    out = tmp_path / "out"
    most = pdf_files.MOST_SHEETS
    assert most == 20
    for limit, count, files in (
        (2, 5, {"calculation-01.pdf", "calculation-02.pdf", "calculation-03.pdf"}),
        (most, 21, {"calculation-01.pdf", "calculation-02.pdf"}),
        (most, 1, {"calculation.pdf"}),
    ):
        monkeypatch.setattr(pdf_files, "MOST_SHEETS", limit)
        job = json.dumps({**BATCH_JSON, "items": [item(id=f"P {at}") for at in range(count)]})
        assert run("check", save(job, "job.json"), "--out", out, "--format", "pdf").exit_code == 0
        assert {file.name for file in out.iterdir()} == files
        assert all(file.read_bytes().startswith(b"%PDF-") for file in out.iterdir())


def test_long_sheets_are_several_pdfs(run, save, tmp_path, monkeypatch):
    monkeypatch.setattr(pdf_files, "MOST_PAGE_BYTES", 150_000)
    job = json.dumps({**BATCH_JSON, "items": [item(id=f"P {at}") for at in range(4)]})
    assert run("check", save(job, "job.json"), "--out", "out", "--format", "pdf").exit_code == 0
    texts = [
        "".join(sheet.extract_text() for sheet in pypdf.PdfReader(file).pages)
        for file in sorted((tmp_path / "out").iterdir())
    ]
    assert [re.findall(r"Calculation sheet\s+(P \d)", text) for text in texts] == [["P 0", "P 1"], ["P 2", "P 3"]]


def test_a_sheet_too_long_for_a_pdf_costs_nothing_else(run, save, tmp_path, monkeypatch):
    monkeypatch.setattr(pdf_files, "MOST_PAGE_BYTES", 75_000)
    group = {name: GROUP_JSON["group"][name] for name in ("anchor", "base", "attachment", "seismic")}
    dead = {"nature": "dead", "tension": "900 lbf", "shear_y": "-1100 lbf", "moment_x": "7 kip*in"}
    long = {**group, "id": "P long", "hangs": {"kind": "forces", "components": [dead]}}
    job = json.dumps({**BATCH_JSON, "items": [item(id="P 0"), long, item(id="P 1")]})
    result = run("check", save(job, "job.json"), "--out", "out", "--format", "pdf", "--format", "csv")
    assert result.exit_code == 2
    assert "the sheets of P long." in squeezed(result.stderr)
    assert "P long" in result.stdout
    files = sorted((tmp_path / "out").iterdir())
    assert [file.name for file in files] == ["calculation-01.pdf", "calculation-02.pdf", "schedule.csv"]
    texts = ["".join(sheet.extract_text() for sheet in pypdf.PdfReader(file).pages) for file in files[:2]]
    assert [re.findall(r"Calculation sheet\s+(P \d)", text) for text in texts] == [["P 0"], ["P 1"]]


def test_more_sheets_than_a_page_has_are_several_pages(run, save, tmp_path):
    """Each point has its sheet once, in order; a later run with fewer leaves no page of an earlier one."""
    many = save(json.dumps({**BATCH_JSON, "items": [item(id=f"P{at}") for at in range(201)]}), "job.json")
    words = ("--out", "out", "--format", "html", "--format", "json")
    assert run("check", many, *words).exit_code == 0
    pages = sorted((tmp_path / "out").glob("*.html"))
    assert [page.name for page in pages] == ["calculation-01.html", "calculation-02.html"]
    heads = [re.findall(r"<h1>(P\d+)</h1>", page.read_text("utf-8")) for page in pages]
    assert heads == [[f"P{at}" for at in range(200)], ["P200"]]
    assert len(json.loads((tmp_path / "out" / "answers.json").read_bytes())["items"]) == 201
    assert run("check", many, *words, "--only", "P3").exit_code == 0
    assert [page.name for page in (tmp_path / "out").glob("*.html")] == ["calculation.html"]


def test_traces_of_any_number_of_points_are_written(run, save, tmp_path):
    items = [item(id=f"P{at}") for at in range(201)]
    many = save(json.dumps({"units": "us", "detail": "trace", "items": items}), "job.json")
    assert run("check", many, "--out", "out", "--format", "json").exit_code == 0
    assert all(each["trace"] for each in json.loads((tmp_path / "out" / "answers.json").read_bytes())["items"])


def test_sheets_of_a_status_and_of_a_list_of_ids(run, save, tmp_path):
    heavy = {"kind": "weight", "weight": "90 kip", "nature": "dead"}
    items = [item(id="P0"), item(id="P1") | {"hangs": heavy}, item(id="P 2") | {"hangs": heavy}]
    job = save(json.dumps({"units": "us", "neighbours": "off", "items": items}), "job.json")
    words = ("check", job, "--out", "out", "--format", "html")
    ids = save("P0\n\n  P 2  \n", "ids.txt")

    def heads(*arguments):
        assert run(*words, *arguments).exit_code == 0
        return re.findall(r"<h1>(P ?\d)</h1>", (tmp_path / "out" / "calculation.html").read_text("utf-8"))

    assert heads("--only-status", "failed") == ["P1", "P 2"]
    assert heads("--only-status", "failed", "--only-status", "passed") == ["P0", "P1", "P 2"]
    assert heads("--only", f"@{ids}") == ["P0", "P 2"]
    assert heads("--only", f"@{ids}", "--only-status", "failed") == ["P 2"]
    none = run(*words, "--only-status", "refused")
    assert (none.exit_code, list((tmp_path / "out").glob("*.html"))) == (0, [])
    assert "No calculation sheets: no point is wanted that has the status." in squeezed(none.stdout)
    assert "can't be read" in run(*words, "--only", "@nowhere.txt").stderr
    assert run("check", job, "--out", "out", "--only-status", "failed").exit_code == 2


def test_an_earlier_file_of_another_form_stays(run, save, tmp_path):
    path = save(BATCH, "job.json")
    run("check", path, "--out", "out")
    assert run("check", path, "--out", "out", "--format", "xlsx").exit_code == 0
    assert {file.name for file in (tmp_path / "out").iterdir()} == {"schedule.csv", "answers.json", "schedule.xlsx"}


def squeezed(text):
    return " ".join(text.split())


def test_an_invalid_line_is_named_by_line_and_field(run, save):
    lines = as_lines(change(BATCH_JSON, {"items.1.base": {"thickness": "8 psi"}}))
    text = "\n".join(json.dumps(line) for line in lines) + "\n\n{nope\n"
    result = run("check", save(text, "job.ndjson"))
    assert result.exit_code == 0, result.stderr
    shown = squeezed(result.stdout)
    assert "line 3, field base.thickness" in shown
    assert "line 6 The line is not JSON in UTF-8: " in shown
    assert "at column 2" in shown


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ('{"units": "us"}\n', "#/lines/2: The stream has no items."),
        ('{"detail": "modes"}\n{"id": "a"}\n', "line 1, field units: The units of bare numbers are required"),
        (
            '{"units": "us", "defaults": {"base": {"thickness": "8 psi"}}}\n{}\n',
            "line 1, field defaults.base.thickness",
        ),
        ("nope\n{}", "line 1: The first line is not JSON"),
        ("", "#/lines: The stream is empty."),
    ],
)
def test_lines_that_cannot_be_read(run, save, content, said):
    result = run("check", save(content, "job.ndjson"))
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in squeezed(result.stderr)


def test_a_syntax_error_of_json_has_its_line_and_column(run, save):
    result = run("check", save(PRETTY.replace('"units": "us",', '"units": "us"'), "job.json"))
    assert result.exit_code == 2
    assert "at line 3 column 3" in squeezed(result.stderr)


def test_units_of_lines_without_a_header(run, save, tmp_path):
    text = json.dumps(item()) + "\n"
    assert run("check", save(text, "job.ndjson")).exit_code == 2
    result = run("check", save(text, "job.ndjson"), "--units", "si", "--design-code", "aci318_19", "--out", "out")
    assert result.exit_code == 0, result.stderr
    answer = json.loads((tmp_path / "out" / "answers.json").read_bytes())
    assert answer["units"]["force"] == "kN"
    assert "design-code-defaulted" not in answer["assumptions"]
    assert "the request si: state it once" in squeezed(
        run("check", save(BATCH_LINES, "job.ndjson"), "--units", "si").stderr
    )


def test_a_compressed_file_is_told_by_its_ending(run, save):
    result = run("check", save(gzip.compress(BATCH.encode()), "job.json.gz"))
    assert result.exit_code == 2
    assert "ends in .csv, .xlsx, .json or .ndjson" in squeezed(result.stderr)


def test_lower_limit_of_a_line(run, save, monkeypatch):
    monkeypatch.setenv("HANGPOINT_MAX_LINE_BYTES", "1024")
    text = json.dumps({"units": "us"}) + "\n" + json.dumps(item(trade="x" * 250, at={"level": "x" * 250})) + " " * 900
    shown = squeezed(run("check", save(text, "job.ndjson")).stdout)
    assert "INVALID 1" in shown
    assert "the limit is 1024" in shown
