"""Workbooks on the command line: their rows as a CSV, and commands that read one as they read its CSV."""

import json

import pytest
from openpyxl import Workbook

TITLES = ["id", "hangs.kind", "hangs.weight [lb]", "hangs.nature", "family", "anchor_size", "h_ef [in]", "base.kind"]
TITLES += ["base.density", "thickness [in]", "edge_x_minus", "edge_x_plus", "edge_y_minus", "edge_y_plus"]
TITLES += ["seismic_category"]
POINT = ["weight", 300, "dead", "wedge-expansion-zinc", "3/8", 2.5, "concrete", "normalweight", 8]
POINT += ["none", "none", "none", "none", "B"]


@pytest.fixture
def book(tmp_path):
    """Save a workbook with the sheets of these names, each with the same two points."""

    def save(*names, above=()):
        made = Workbook()
        made.remove(made.active)
        for name in names:
            sheet = made.create_sheet(name)
            for row in (*above, TITLES, ["A", *POINT], ["B", *POINT]):
                sheet.append(row)
        path = tmp_path / "job.xlsx"
        made.save(path)
        return path

    return save


def test_rows_are_printed_or_written(run, book, tmp_path):
    path = book("Points")
    printed = run("rows", path)
    assert printed.exit_code == 0
    assert printed.stdout.splitlines()[0] == ",".join(TITLES)
    assert printed.stdout.splitlines()[1].startswith("A,weight,300,dead,wedge-expansion-zinc,3/8,2.5,")
    out = tmp_path / "rows.csv"
    written = run("rows", path, "--out", out)
    assert written.stdout.replace("\n", "") == f"Written: {out}, 3 rows of Points"
    assert out.read_text("utf-8") == printed.stdout
    again = run("rows", path, "--out", out)
    assert (again.exit_code, "there already" in again.stderr) == (2, True)


@pytest.mark.parametrize(("command", "more"), [("check", []), ("take-off", []), ("submittal", ["--out", "made.html"])])
def test_commands_read_a_workbook_as_its_rows(run, book, tmp_path, command, more):
    path = book("Points")
    run("rows", path, "--out", tmp_path / "job.csv")
    own, plain = (run(command, each, *more) for each in (path, tmp_path / "job.csv"))
    assert own.exit_code == plain.exit_code == 0, own.output
    assert own.stdout.replace("job.xlsx", "job.csv") == plain.stdout


def test_what_a_command_can_not_know_is_told_with_the_way(run, book):
    path = book("Points", "Old points")
    told = run("check", path)
    assert told.exit_code == 2
    assert "--sheet: The workbook has several sheets with values: name the one to read." in told.stderr
    assert "Possible: Points, Old points." in told.stderr
    assert "hangpoint rows" in told.stderr
    assert run("rows", path, "--sheet", "old points").exit_code == 0
    path = book("Points", above=(["Invented Clinic"], []))
    told = run("check", path)
    assert (told.exit_code, "--header" in told.stderr) == (2, True)
    assert run("rows", path, "--header", "3").stdout.startswith("\n\nid,")
    assert run("rows", path, "--header", "0").exit_code == 2


def test_what_the_sheet_does_not_show_is_told(run, tmp_path, book):
    path = book("Points")
    made = Workbook()
    for row in (TITLES, ["A", *POINT], ["B", *POINT]):
        made.active.append(row)
    made.active.merge_cells("C2:C3")
    made.active.row_dimensions[3].hidden = True
    made.save(path)
    assert "hidden cells, rows 3" in run("rows", path).stderr
    read = run("rows", path, "--hidden", "read", "--decimal", ",")
    assert "C2:C3" in read.stderr
    assert "Hidden cells were read" in read.stderr
    assert read.stdout.splitlines()[2].startswith("B;weight;300;dead;wedge-expansion-zinc;3/8;2,5;")


@pytest.mark.parametrize("name", ["job.ods", "job.csv"])
def test_rows_are_those_of_a_workbook(run, save, name):
    told = run("rows", save("id\n", name))
    assert (told.exit_code, "ends in .xlsx or .xlsm" in told.stderr) == (2, True)


def test_a_checked_workbook_gives_its_answers(run, book, tmp_path):
    assert run("check", book("Points"), "--out", tmp_path / "out").exit_code == 0
    answer = json.loads((tmp_path / "out" / "answers.json").read_bytes())
    assert [item["id"] for item in answer["items"]] == ["A", "B"]
