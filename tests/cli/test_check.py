"""`hangpoint check`: what it prints, what it writes, and how it ends."""

import csv
import io
import json
import re
import runpy
import subprocess
import sys
from codecs import BOM_UTF8

import orjson
import pytest
from starlette.testclient import TestClient

from hangpoint.app import create_app
from regression.answers import JOB, REQUESTS

HEADER = (
    "id,hangs.kind,hangs.weight [lb],hangs.nature,family,anchor_size,h_ef [in],base.kind,base.density,thickness [in],"
    "edge_x_minus,edge_x_plus,edge_y_minus,edge_y_plus,seismic_category\n"
)
ROW = "{id},weight,{weight},dead,{family},3/8,2.5,concrete,normalweight,6,none,none,none,{edge},B\n"


def row(**changes):
    return ROW.format(**{"id": "H-1", "weight": 180, "family": "wedge-expansion-zinc", "edge": "8 in"} | changes)


EN_HEADER = HEADER.replace("seismic_category", "base.strength.class")


def en_row(**changes):
    """The same by EN 1992-4, of a family by European assessment."""
    own = {"family": "en-wedge-expansion-zinc"} | changes
    return row(**own).replace("3/8,2.5,", "M12,85 mm,").replace("weight,6,", "weight,8,").replace(",B\n", ",C25/30\n")


@pytest.fixture
def run(run, monkeypatch):
    """In a terminal of 80 columns, as tables have to fit one."""
    monkeypatch.setenv("COLUMNS", "80")
    return run


def squeezed(text):
    return " ".join(text.split())


def test_job_is_answered_whatever_the_verdicts(run, tmp_path):
    result = run("check", JOB)
    assert result.exit_code == 0
    intended = runpy.run_path(str(JOB.parent / "make_hang_points.py"))
    for heading, names in (("FAILED", "DOES_NOT_HOLD"), ("REFUSED", "OUTSIDE")):
        assert f"{heading} {len(intended[names])}" in result.stdout
        assert all(name in result.stdout for name in intended[names])
    assert f"INVALID {len(intended['MALFORMED']) + 1}" in result.stdout
    order = [result.stdout.index(f"\n{word} ") for word in ("FAILED", "REFUSED", "INVALID", "PASSED")]
    assert order == sorted(order)
    assert list(tmp_path.iterdir()) == []


def test_invalid_rows_name_line_and_column(run):
    text = squeezed(run("check", JOB).stdout)
    lines = JOB.read_text(encoding="utf-8").splitlines()
    for name, column in (
        ("IC-L1-CHS-6-09", "thickness [in]"),
        ("IC-L1-HWR-4-05", "family"),
        ("IC-L2-DHW-2-06", "edge_y_plus [in]"),
        ("IC-L1-SPB-2-04", "schedule"),
    ):
        line = next(at for at, text_of_line in enumerate(lines, start=1) if text_of_line.startswith(f"{name},"))
        assert f'{name} line {line}, column "{column}"' in text


def test_every_error_stands_in_a_file_of_its_own(run, save, tmp_path):
    content = HEADER + row(id="H-1", weight="300 stone", edge="8 inchs", family="no-such").replace(
        "6,none", "thick,nope"
    )
    shown = squeezed(run("check", save(content)).stdout)
    assert "and 2 more 5 errors in all: --out DIR writes each to errors.csv." in shown
    result = run("check", save(content), "--out", "out")
    path = tmp_path / "out" / "errors.csv"
    assert "5 errors in all: out/errors.csv has each." in squeezed(result.stdout)
    assert "out/errors.csv" in squeezed(result.stdout).partition("Written: ")[2]
    head, *errors = csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig")))
    assert head[:5] == ["line", "column", "id", "cell", "what"]
    assert ["2", "edge_y_plus", "H-1", "8 inchs"] in [error[:4] for error in errors]
    assert len(errors) == 5
    assert all(error[4] for error in errors)
    run("check", save(HEADER + row()), "--out", "out")
    assert not path.exists()


def test_what_is_wrong_with_many_points_alike_is_told_once(run, save):
    """A unit left out of whole columns would take thousands of lines of a job, with other errors among them."""
    rows = [row(id=f"H-{at}", edge="8") for at in range(40)]
    rows[7] = row(id="H-7", edge="8", family="no-such").replace("dead", "deed")
    rows[9] = row(id="H-9", edge="8 in", family="no-such")
    content = HEADER.replace("thickness [in]", "thickness") + "".join(rows)
    shown = squeezed(run("check", save(content)).stdout)
    assert shown.count("A number without a unit") == 2
    assert '- thickness at 40 points (H-0, H-1, H-2 and 37 more): "6": A number without a unit' in shown
    assert '- edge_y_plus at 39 points (H-0, H-1, H-2 and 36 more): "8": A number without a unit' in shown
    assert re.search(r'H-7 line 9 line 9, column "hangs.nature": "deed": .* and 2 of those above', shown)
    assert "H-8" not in shown
    assert re.search(r"\d+ errors in all: --out DIR writes each", shown)


def test_what_is_wrong_with_few_points_is_told_with_each(run, save):
    shown = squeezed(run("check", save(HEADER + "".join(row(id=f"H-{at}", edge="8") for at in range(4)))).stdout)
    assert shown.count("A number without a unit") == 4
    assert "errors in all" not in shown


def test_a_status_without_points_is_not_explained(run, save):
    text = run("check", save(HEADER + row())).stdout
    assert re.search(r"^INVALID 0$", text, flags=re.MULTILINE)
    assert "PASSED 1  everything that was checked holds" in text


def test_no_line_ends_with_a_sign_between_two_things(run, save):
    lines = run("check", save(HEADER + row())).stdout.splitlines()
    assert not [line for line in lines if line.rstrip().endswith("|")]


def test_columns_that_are_not_read_are_named(run, save, tmp_path):
    content = HEADER.replace("\n", ",Notes\n") + row().replace("\n", ",see detail 5\n")
    result = run("check", save(content), "--out", "out")
    assert "handed back at the end of the schedule: Notes" in squeezed(result.stdout)
    head, cells = csv.reader(io.StringIO((tmp_path / "out" / "schedule.csv").read_text(encoding="utf-8-sig")))
    assert (head[-1], cells[-1]) == ("Notes", "see detail 5")


def test_what_was_stated_is_repeated_on_request(run, save, tmp_path):
    assert run("check", save(HEADER + row()), "--out", "out", "--echo").exit_code == 0
    (cells,) = csv.DictReader(io.StringIO((tmp_path / "out" / "schedule.csv").read_text(encoding="utf-8-sig")))
    assert (cells["input.anchor.h_ef"], cells["line"]) == ("2.5 in", "2")
    for arguments in (["--echo"], ["--echo", "--out", "out", "--format", "json"]):
        refused = run("check", save(HEADER + row()), *arguments)
        assert (refused.exit_code, "--echo needs" in refused.stderr) == (2, True)


def test_passed_points_are_folded(run, save):
    result = run("check", save(HEADER + "".join(row(id=f"H-{at}", weight=100 + at) for at in range(50))))
    assert "PASSED 50" in result.stdout
    assert len(re.findall(r"^H-\d+", result.stdout, flags=re.MULTILINE)) == 10
    assert "H-49" in result.stdout
    assert "and 40 more" in result.stdout


@pytest.mark.parametrize("columns", [80, 120])
def test_fits_the_width_and_needs_no_terminal(run, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    result = run("check", JOB)
    assert max(map(len, result.stdout.splitlines())) <= columns
    assert "\x1b" not in result.stdout
    assert result.stderr == ""


def test_says_what_it_assumed_did_not_check_and_warns_of(run, save):
    text = squeezed(run("check", save(HEADER + row())).stdout)
    assert "The concrete is taken as cracked. [1 point]" in text
    assert "The design code is ACI 318-19, chapter 17. [the whole request]" in text
    assert "The strength of the slab, beam or wall that carries the anchor, and that no plastic hinge forms" in text
    assert "1 passed, 1 of them on assumptions" in text
    assert "This answer is an aid, not a design" in text
    assert "An overhead anchor that fails can kill." in text


def test_failure_is_never_shown_as_a_ratio_of_one(run, save):
    """A utilisation a hair above 1 must not read 1.000."""
    client = TestClient(create_app())
    low, high = 1000.0, 2000.0
    for _ in range(60):
        middle = (low + high) / 2
        text = HEADER + row(weight=f"{middle:.9f}")
        answer = client.post("/v1/hang-points?format=json", content=text, headers={"Content-Type": "text/csv"}).json()
        low, high = (middle, high) if answer["items"][0]["status"] == "passed" else (low, middle)
    text = squeezed(run("check", save(HEADER + row(weight=f"{high + 1e-6:.9f}"))).stdout)
    assert "FAILED 1" in text
    assert "utilisation >1.000" in text


def test_answers_are_those_of_the_service(run, tmp_path):
    result = run("check", JOB, "--out", tmp_path / "checked")
    assert result.exit_code == 0
    client = TestClient(create_app())
    by_route = client.post(
        "/v1/hang-points?format=json&detail=modes", content=JOB.read_bytes(), headers={"Content-Type": "text/csv"}
    )
    assert orjson.loads((tmp_path / "checked" / "answers.json").read_bytes()) == by_route.json()
    schedule = client.post("/v1/hang-points", content=JOB.read_bytes(), headers={"Content-Type": "text/csv"})
    assert (tmp_path / "checked" / "schedule.csv").read_bytes() == BOM_UTF8 + schedule.content


def test_out_replaces_whole_files_and_leaves_nothing_else(run, save, tmp_path):
    out = tmp_path / "a" / "b"
    assert run("check", save(HEADER + row()), "--out", out).exit_code == 0
    (out / "schedule.csv").write_text("old " * 10_000)
    assert run("check", save(HEADER + row()), "--out", out).exit_code == 0
    assert sorted(path.name for path in out.iterdir()) == ["answers.json", "schedule.csv"]
    rows = list(csv.DictReader((out / "schedule.csv").read_text(encoding="utf-8-sig").splitlines()))
    assert [each["id"] for each in rows] == ["H-1"]


def test_out_that_cannot_be_written(run, save, tmp_path):
    (tmp_path / "taken").write_text("a file")
    result = run("check", save(HEADER + row()), "--out", tmp_path / "taken")
    assert result.exit_code == 2
    assert "can't be written" in result.stderr


@pytest.mark.parametrize(
    ("change", "code"),
    [({}, 0), ({"weight": 9000}, 3), ({"edge": ""}, 3), ({"family": "drop-in-zinc"}, 3)],
    ids=["passed", "failed", "invalid", "unknown product"],
)
def test_strict(run, save, change, code):
    path = save(HEADER + row(**change))
    assert run("check", path).exit_code == 0
    assert run("check", path, "--strict").exit_code == code


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            HEADER.replace("family", "famly") + row(),
            "of the command --note. Possible: family.\n",
        ),
        (HEADER.replace("thickness [in],", "") + row(), "line 1: The column base.thickness is missing, and"),
        (HEADER.replace("[lb]", "[psi]") + row(), 'The unit "psi" is not one of this column. Possible: lb, lbs'),
        (HEADER.replace("base.kind,", "") + row(), "line 1: The column base.kind is missing, and"),
        (HEADER + row() + row(), 'line 3, column "id": "H-1": The same id stands on line 2 (#/rows/1/id).'),
        (HEADER, "no rows"),
        (b"\xff\xfei\x00d\x00", "UTF-16"),
        (b"id,\xfc\n", "not UTF-8"),
        (b"", "no header"),
    ],
    ids=["column", "missing", "unit of column", "kind of base", "same id", "no rows", "utf-16", "latin-1", "empty"],
)
def test_csv_that_cannot_be_read(run, save, content, said):
    result = run("check", save(content))
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_a_row_that_cannot_be_read_costs_itself_only(run, save):
    """A number without a unit, and an open quote that swallows what comes after it."""
    content = HEADER.replace("h_ef [in]", "h_ef") + row() + row(id="H-2").replace("2.5", "2.5 in") + '"H-3,weight\n\n'
    result = run("check", save(content))
    assert result.exit_code == 0
    text = squeezed(result.stdout)
    assert 'H-1 line 2, column "h_ef" "2.5": A number without a unit' in text
    assert "(no id) line 4 The quoted cell that begins on line 4 is not closed. Lines 4 to 5 were not read." in text
    assert "3 hang points 1 passed" in text
    assert "2 invalid" in text


def test_who_decided_that_concrete_is_uncracked_is_printed(run, save):
    header = HEADER.replace("base.kind", "base.kind,base.state,base.state_decided_by")
    state = "concrete,uncracked,{who}"
    rows = [row(id=f"H-{at}").replace("concrete", state.format(who="the engineer")) for at in range(20)]
    rows.append(row(id="H-Z", weight=1).replace("concrete", state.format(who="another")))
    text = squeezed(run("check", save(header + "".join(rows))).stdout)
    assert "uncracked, decided by the engineer" in text
    assert "H-Z" not in text.partition("Concrete taken as uncracked")[0]
    assert "- the engineer: H-0, H-1, H-2 and 17 more" in text
    assert "- another: H-Z" in text
    assert "uncracked" not in squeezed(run("check", save(HEADER + row())).stdout)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("{", "not JSON"),
        ('{"units": "us", "itm": []}', "#/itm: There is no such field here. Possible: item"),
        ('{"units": "us", "item": []}', "#/item: "),
        ('{"units": "metric", "items": [{"id": "a"}]}', "#/units"),
    ],
    ids=["syntax", "field", "item", "unit system"],
)
def test_json_that_cannot_be_read(run, save, content, said):
    result = run("check", save(content, "job.json"))
    assert result.exit_code == 2
    assert said in squeezed(result.stderr)


def test_json_is_checked_and_its_invalid_items_are_named_by_pointer(run):
    path = JOB.parents[1] / "requests" / "batch.json"
    text = squeezed(run("check", path).stdout)
    assert "IC-misspelt #/items/4/anchor/family" in text


def test_neighbours_are_named_and_counted(run):
    """Two of the example fail together, and each holds alone."""
    text = squeezed(run("check", JOB.parents[1] / "requests" / "neighbours.json").stdout)
    assert "anchor 0). near IC-L2-HWR-11; alone 0.879" in text
    assert "near IC-L2-CHS-11, IC-L2-CABLE-04; alone 0.786" in text
    assert "3 checked with neighbours" in text
    assert "caution x 2 A neighbouring anchor is of another family" in text


def test_a_group_names_its_anchors(run):
    text = squeezed(run("check", JOB.parents[1] / "requests" / "stand_off_plate.json").stdout)
    assert "concrete breakout in tension (1.2D+1.6L, anchors 0, 1, 2)" in text
    assert "checked with neighbours" not in text


def test_neighbours_may_be_left_out(run, tmp_path):
    job = [str(JOB), "--format", "csv", "--out"]
    on, off = run("check", *job, "on"), run("check", "--no-neighbours", *job, "off")
    assert "4 checked with neighbours" in squeezed(on.stdout)
    assert "checked with neighbours" not in off.stdout
    cells = {}
    for name in ("on", "off"):
        with (tmp_path / name / "schedule.csv").open(encoding="utf-8-sig", newline="") as file:
            cells[name] = [each["neighbours"] for each in csv.DictReader(file)]
    assert sum(map(bool, cells["on"])) == 4
    assert not any(cells["off"])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nowhere.csv"], "No such file"),
        (["."], "ends in .csv, .xlsx, .json or .ndjson"),
        (["job.xlsx"], "No such file"),
        (["job.ods"], "name a file that ends in .csv, .xlsx, .json or .ndjson"),
        (["job.csv", "--format", "xlsx"], "--format needs --out"),
        (["job.csv", "--format", "docx", "--out", "o"], "docx"),
        (["job.ndjson", "--delimiter", "tab"], "--delimiter: a JSON file says this itself"),
        (["job.json", "--units", "us"], "--units: a JSON file says this itself"),
        (["job.json", "--neighbours"], "--neighbours: a JSON file says this itself"),
        (["job.json", "--no-neighbours"], "--no-neighbours: a JSON file says this itself"),
        (["job.csv", "--defaults", "bare.json"], "in which units base.thickness, anchor.layout.1.x of bare.json are"),
        (["job.csv", "--units", "us", "--defaults", "d.json"], "no such product field"),
        (["job.csv", "--catalogue", "nowhere"], "there is no such file or folder"),
        (["job.csv", "--units", "metric"], "metric"),
        (["job.csv", "--detail", "all"], "all"),
    ],
)
def test_options_that_cannot_be_used(run, save, arguments, said):
    save(HEADER + row())
    save("{}", "job.json")
    save('{"units": "us"}\n{"id": "H-1"}\n', "job.ndjson")
    save('{"no such product field": 1}', "d.json")
    save('{"base": {"thickness": 8}, "anchor": {"layout": [{"x": "0 in"}, {"x": 4}]}}', "bare.json")
    result = run("check", *arguments)
    assert result.exit_code == 2
    assert said in squeezed(result.stderr)


def test_defaults_without_bare_quantities_need_no_units(run, save):
    content = HEADER.replace("thickness [in],", "") + row().replace(",6,none", ",none")
    defaults = save(
        '{"base": {"thickness": "6 in", "lambda": 1}, "anchor": {"layout": [{"x": "0 in", "y": "0 in"}]}}', "d"
    )
    assert "PASSED 1" in run("check", save(content), "--defaults", defaults).stdout


def test_a_file_of_hanger_loads_is_told_as_one(run):
    result = run("check", REQUESTS / "hanger_loads_rack.json")
    assert result.exit_code == 2
    assert "its items are hanger loads" in squeezed(result.stderr)
    assert "Run hangpoint loads" in squeezed(result.stderr)


def test_file_over_the_limit_is_not_read(run, save, monkeypatch):
    monkeypatch.setenv("HANGPOINT_MAX_BATCH_BYTES", "1024")
    result = run("check", save(HEADER + row() + "\n" * 2000))
    assert result.exit_code == 2
    assert "the limit is 1024" in result.stderr


def test_setting_that_cannot_be_used(run, save, monkeypatch):
    monkeypatch.setenv("HANGPOINT_MAX_ITEMS", "many")
    result = run("check", save(HEADER + row()))
    assert result.exit_code == 2
    assert "HANGPOINT_MAX_ITEMS" in result.stderr


def test_defaults_and_units(run, save, tmp_path):
    header = "id,hangs.kind,hangs.weight,hangs.nature,family,anchor_size,h_ef\n"
    lines = "H-1,weight,0.8,dead,undercut-stainless-metric,M10,80\n"
    defaults = {
        "base": {
            "kind": "concrete",
            "density": "normalweight",
            "thickness": 200,
            "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
        },
        "seismic": {"category": "B"},
    }
    result = run(
        *("check", save(header + lines), "--units", "si", "--out", tmp_path / "out"),
        *("--defaults", save(json.dumps(defaults), "defaults.json")),
    )
    assert result.exit_code == 0, result.stderr
    answer = json.loads((tmp_path / "out" / "answers.json").read_bytes())
    assert answer["units"]["force"] == "kN"
    assert answer["items"][0]["demand"]["dead"] == pytest.approx(0.8)
    assert answer["items"][0]["status"] == "passed"


def test_semicolons_and_decimal_comma(run, save, tmp_path):
    text = (HEADER + row(weight="180.5")).replace(",", ";").replace("180.5", "180,5").replace(";2.5;", ";2,5;")
    result = run("check", save(text), "--delimiter", "semicolon", "--decimal", ",", "--out", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    answer = json.loads((tmp_path / "out" / "answers.json").read_bytes())
    assert answer["items"][0]["demand"]["dead"] == 180.5


@pytest.mark.parametrize(
    ("file", "option", "word", "said"),
    [
        (HEADER + row(), "--combinations", "allowable", "this product has no table of allowable loads"),
        (
            EN_HEADER + en_row().replace("en-wedge-expansion-zinc,M12,85 mm", "wedge-expansion-zinc,3/8,2.5"),
            "--design-code",
            "en1992_4",
            "The figures of this family are not by European assessment",
        ),
    ],
    ids=["allowable", "en1992_4"],
)
def test_what_is_not_covered_is_refused_by_name(run, save, file, option, word, said):
    text = run("check", save(file), option, word).stdout
    assert "REFUSED 1" in text
    assert said in squeezed(text)


def test_a_load_standard_goes_with_its_design_code(run, save):
    file = save(HEADER + row())
    result = run("check", file, "--load-standard", "en1990")
    assert result.exit_code == 2
    assert "en1990 doesn't go with the design code aci318_19" in squeezed(result.stderr)
    result = run("check", save(EN_HEADER + en_row()), "--load-standard", "en1990", "--design-code", "en1992_4")
    assert result.exit_code == 0
    assert "PASSED 1" in result.stdout


def test_detail_trace_reaches_the_file(run, save, tmp_path):
    run("check", save(HEADER + row()), "--detail", "trace", "--out", tmp_path / "out")
    answer = json.loads((tmp_path / "out" / "answers.json").read_bytes())
    assert answer["items"][0]["trace"]


def test_catalogue_of_the_operator(run, save, tmp_path):
    from importlib import resources

    family = json.loads(resources.files("hangpoint.product").joinpath("data", "wedge-expansion-zinc.json").read_text())
    family["id"] = "own-wedge"
    own = save(json.dumps(family), "own.json")
    result = run("check", save(HEADER + row(family="own-wedge")), "--catalogue", own)
    assert "PASSED 1" in result.stdout
    assert "catalogue: supplied-" in squeezed(result.stdout)


def test_text_of_a_user_cannot_drive_the_terminal(run, save):
    result = run("check", save(HEADER + row(id='"[red]\x1b]0;owned\x07[/red]"')))
    assert "\x1b" not in result.stdout
    assert "\x07" not in result.stdout
    assert "[red]\\x1b]0;owned\\x07[/red]" in "".join(result.stdout.split())


@pytest.mark.parametrize(
    ("command", "kept_out"),
    [
        (["check", str(JOB)], ["fastapi", "starlette", "uvicorn"]),
        (["--version"], ["fastapi", "starlette", "uvicorn", "numpy", "pint", "pydantic", "orjson"]),
    ],
)
def test_heavy_imports_stay_out(command, kept_out):
    """Start-up of a check is under a second because the server's libraries are not loaded."""
    program = (
        "import sys; from hangpoint.cli import app; app(sys.argv[1:], standalone_mode=False);"
        f"sys.exit(' '.join(name for name in {kept_out} if name in sys.modules) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", program, *command], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_point_without_an_anchor(run, tmp_path):
    hangs = {"kind": "weight", "weight": 180, "nature": "dead"}
    file = tmp_path / "steel.json"
    file.write_text(json.dumps({"units": "us", "items": [{"id": "B-1", "hangs": hangs, "base": {"kind": "steel"}}]}))
    result = run("check", file)
    assert result.exit_code == 0
    assert "B-1 no anchor The base is steel" in squeezed(result.stdout)


def test_what_goes_to_the_engineer_and_limits_of_structural_notes(run):
    """Every limit with its sum, and every question once with the points that it is about."""
    text = squeezed(run("check", REQUESTS / "structural_limits.json").stdout)
    assert "S-001 NOTE 7: 350 LB PER POINT: exceeded, 2533 lbf at 8 points; above it P-03-FAN." in text
    assert "BAY B-C/2-3: undecided, 1633 lbf at 5 points." in text
    assert text.count("Please confirm that the soffit may be drilled") == 1
    assert "where the bottom bars or strands are. At P-05-JOIST, P-06-JOIST." in text


def test_the_first_points_of_a_finding_have_its_values(run, save):
    """A 2-1/4 in edge where the invented family asks for 3 in, and one at 2 in."""
    rows = [row(id=name, edge=edge) for name, edge in (("H-1", "2-1/4 in"), ("H-2", "2 in"), ("H-3", "8 in"))]
    text = squeezed(run("check", save(HEADER + "".join(rows), "job.csv")).stdout)
    assert "At H-1 (is 2.25 in, limit 3 in), H-2 (is 2 in, limit 3 in)." in text


def test_the_rows_of_the_guide_are_read(run):
    assert "PASSED 2" in run("check", str(JOB.parents[1] / "guides" / "two_rows.csv")).stdout


def test_a_project_heads_the_sheets_of_a_csv(run, save, tmp_path):
    options = ("--project", "name=Invented Clinic", "--project", "number=7")
    assert run("check", save(HEADER + row()), *options, "--out", "out", "--format", "html").exit_code == 0
    (page,) = (tmp_path / "out").glob("*.html")
    head = page.read_text("utf-8").partition("<h1>")[0]
    assert "Invented Clinic" in head
    assert ">7<" in head


@pytest.mark.parametrize(
    ("stated", "said"),
    [
        (["Invented Clinic"], "write NAME=TEXT"),
        (["name=a", "name=b"], "each name once"),
        (["nme=a"], "--project nme: There is no such field here. Possible: name"),
    ],
)
def test_a_project_is_named_by_its_members(run, save, stated, said):
    result = run("check", save(HEADER + row()), *(part for each in stated for part in ("--project", each)))
    assert (result.exit_code, said in result.stderr) == (2, True), result.stderr


def test_a_title_is_named_as_a_note(run, save):
    text = HEADER.rstrip("\n") + ",Colour\n" + row().rstrip("\n") + ",red\n"
    assert run("check", save(text)).exit_code == 2
    assert run("check", save(text), "--note", "Colour").exit_code == 0


def test_many_failed_points_are_a_schedule_that_can_be_read(run, save):
    """60 points hang 9,000 lb each, far above what a 3/8 rod's anchor holds; 50 are listed, and the file has all."""
    content = HEADER + "".join(row(id=f"F-{at:02}", weight=9000) for at in range(60))
    shown = run("check", save(content)).stdout
    assert "FAILED 60" in shown
    assert re.findall(r"F-\d\d", shown.partition("REFUSED")[0]) == [f"F-{at:02}" for at in range(50)]
    assert "and 10 more: --out DIR writes schedule.csv, which has all" in shown
    for forms, name in (((), "schedule.csv"), (("--format", "json"), "answers.json")):
        written = run("check", "job.csv", "--out", "out", *forms).stdout
        assert f"and 10 more: out/{name} has all" in written


def test_what_many_failed_points_have_alike_is_told_once(run, save):
    """Thirty points hang alike and fail alike, two hang more and one less: a screen and not three, and every name."""
    content = HEADER + "".join(row(id=f"F-{at:02}", weight=9000) for at in range(30))
    content += row(id="G-1", weight=9500) + row(id="G-2", weight=9500) + row(id="L-1", weight=8000)
    failed = squeezed(run("check", save(content)).stdout.partition("FAILED 33")[2].partition("REFUSED")[0])
    assert re.findall(r"[FGL]-\d+", failed) == ["G-1", "G-2", *(f"F-{at:02}" for at in range(30)), "L-1"]
    assert "The same at 29 more: F-01, F-02, F-03," in failed
    assert failed.count("utilisation") == 4


def test_failed_points_are_listed_the_worst_first(run, save, tmp_path):
    """The heaviest of points that are alike is used most; files keep the order of the rows."""
    weights = {"F-1": 5000, "F-2": 9000, "F-3": 7000, "G-1": 100}
    content = HEADER + "".join(row(id=name, weight=weight) for name, weight in weights.items())
    content += row(id="F-4", weight=100, edge="1 in")
    shown = run("check", save(content), "--out", "out").stdout
    failed = shown.partition("FAILED 4")[2].partition("REFUSED")[0]
    assert [name for name in re.findall(r"^(\S+)", failed, re.MULTILINE) if name[:2] in ("F-", "G-")] == [
        "F-2",
        "F-3",
        "F-1",
        "F-4",
    ]
    with (tmp_path / "out" / "schedule.csv").open(encoding="utf-8-sig", newline="") as file:
        assert [each["id"] for each in csv.DictReader(file)] == [*weights, "F-4"]


def test_few_points_of_an_assumption_are_named(run, save):
    names = ("H-1", "h-1", "H-2", "H-3", "H-4")
    shown = squeezed(run("check", save(HEADER + "".join(row(id=name) for name in names))).stdout)
    assert "taken as those of different points. [2 points: H-1, h-1]" in shown
    assert "taken as cracked. [5 points]" in shown


def test_a_file_for_spreadsheets_says_its_encoding(run, save, tmp_path):
    """Without the mark a spreadsheet takes UTF-8 for the code page of its place; with it the file is read back here."""
    content = (HEADER + row() + row(weight="heavy", id="Ä-2")).replace("\n", ",Notes\n", 1)
    content = content.replace(",B\n", ",B,über Kopf – 5°\n")
    run("check", save(content), "--out", "out")
    for name in ("schedule.csv", "errors.csv"):
        written = (tmp_path / "out" / name).read_bytes()
        assert written.startswith(BOM_UTF8)
        assert not written.startswith(BOM_UTF8 * 2)
    assert "über Kopf – 5°" in (tmp_path / "out" / "schedule.csv").read_text(encoding="utf-8-sig")
    assert "Ä-2" in (tmp_path / "out" / "errors.csv").read_text(encoding="utf-8-sig")
    client = TestClient(create_app())
    answer = client.post("/v1/hang-points", content=content.encode(), headers={"Content-Type": "text/csv"})
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert answer.content.startswith(b"id,")


def test_fifty_failed_points_are_all_listed(run, save):
    content = HEADER + "".join(row(id=f"F-{at:02}", weight=9000) for at in range(50))
    shown = run("check", save(content)).stdout
    assert all(f"F-{at:02}" in shown for at in range(50))
    assert "more: --out" not in shown


@pytest.mark.parametrize("command", [("check",), ("take-off", "--units", "us")])
def test_a_file_of_windows_wants_its_encoding_stated(run, save, command):
    """0xBD is one half in the table of windows-1252."""
    save((HEADER + row(edge="8\xbd in")).encode("cp1252"))
    refused = run(*command, "job.csv")
    assert refused.exit_code == 2
    assert "line 2" in refused.stderr
    assert "--encoding windows-1252" in refused.stderr
    read = run(*command, "job.csv", "--encoding", "windows-1252")
    assert read.exit_code == 0, read.output
    assert "invalid 1" not in squeezed(read.stdout)


def test_a_quantity_that_is_not_read_and_words_that_may_stand_are_told(run, save):
    text = HEADER.replace("\n", ",quantity\n") + row().replace("\n", ",14\n")
    text += row(id="H-2", weight=0).replace("concrete", "block").replace("\n", ",1\n")
    shown = " ".join(run("check", save(text)).stdout.split())
    assert "Each row is one point, whatever its quantity" in shown
    assert "Possible: concrete, masonry, hollow_core, deck, steel, wood, unknown." in shown
