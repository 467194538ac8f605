"""`hangpoint take-off`: the list that it prints and the files that it writes."""

import csv
import json
from pathlib import Path

import pytest

from hangpoint.api.examples import TAKE_OFF_JSON

JOB = Path(__file__).parents[2] / "examples" / "invented-clinic" / "hang_points.csv"
SMALL = """\
id,level,quantity,family,anchor_size,h_ef [in],rod_size,rod_length [ft],rods
A,L1,30,drop-in-zinc,3/8,1.625,3/8,3,1
B,L2,10,wedge-expansion-zinc,1/2,3.25,1/2,12,1
"""


def test_the_invented_clinic_end_to_end(run, save, tmp_path):
    """Five of its 318 rows are made to be wrong; the others are 313 points on two levels."""
    defaults = save(json.dumps({"rod": {"length": "4 ft"}}), "defaults.json")
    found = run("take-off", JOB, "--units", "us", "--defaults", defaults, "--out", "made")
    assert found.exit_code == 0, found.output
    assert "318 items: 313 counted, 5 invalid" in found.stdout
    assert "Pull list" in found.stdout
    made = tmp_path / "made"
    assert {path.name for path in made.iterdir()} == {"pull_list.csv", "take_off.xlsx", "take_off.json"}
    answer = json.loads((made / "take_off.json").read_text())
    with JOB.open(newline="") as file:
        rows = list(csv.DictReader(file))
    invalid = {item["index"] for item in answer["items"] if item["status"] == "invalid"}
    good = [row for at, row in enumerate(rows) if at not in invalid]
    for level in ("L1", "L2"):
        own = next(each for each in answer["totals"]["level"] if each["name"] == level)
        assert own["points"] == sum(row["level"] == level for row in good)
    rods = sum(bool(row["rod_size"]) for row in good)
    assert answer["totals"]["overall"]["rods"] == rods
    assert answer["totals"]["overall"]["rod_length"] == pytest.approx(4 * rods)
    for own in answer["cut_list"]:
        assert own["bars"] == own["lower_bound"] == -(-own["pieces"][0]["count"] // 2)
    with (made / "pull_list.csv").open(encoding="utf-8-sig", newline="") as file:
        kinds = [row["kind"] for row in csv.DictReader(file)]
    assert kinds == [line["kind"] for line in answer["pull_list"]] + ["not_counted"] * 5


def test_rates_of_a_csv(run, save, tmp_path):
    """30 rods of 3 ft from bars of 12 ft without a kerf are 8 bars; without waste the gross is the net."""
    rates = save(json.dumps({"waste": {"rods": 0, "anchors": 0}, "stock": {"rod_length": 12, "kerf": 0}}), "r.json")
    found = run("take-off", save(SMALL), "--units", "us", "--rates", rates, "--out", "made")
    assert found.exit_code == 0, found.output
    answer = json.loads((tmp_path / "made" / "take_off.json").read_text())
    assert [own["bars"] for own in answer["cut_list"]] == [8, 10]
    assert [(line["net"], line["gross"]) for line in answer["pull_list"] if line["kind"] == "anchor"] == [
        (30, 30),
        (10, 10),
    ]


def test_what_is_no_point_is_told_without_a_name(run, save):
    found = run("take-off", save(f"{SMALL}TOTAL,,40\nC,,2 ea,drop-in-zinc,3/8,abc,,48,\n"), "--units", "us")
    assert "(no id): invalid, line 4" in found.stdout
    assert "None" not in found.stdout
    told = " ".join(found.stdout.split())
    assert "2 counted, 2 invalid" in told
    assert "And 1 more." in told


def test_what_is_wrong_with_many_rows_alike_is_told_once(run, save):
    head = SMALL.splitlines()[0].replace("rod_length [ft]", "rod_length")
    rows = "\n".join(f"X{at},L1,2,drop-in-zinc,3/8,1.625,3/8,48,1" for at in range(60))
    other = "Y,L1,2,drop-in-zinc,3/8,1.625,3/8,56,1"
    told = " ".join(run("take-off", save(f"{head}\n{rows}\n{other}\n"), "--units", "us").stdout.split())
    assert told.count("write 48 in or 48 ft") == 1
    assert "at 60 points (X0, X1, X2 and 57 more)" in told
    assert "Y: invalid, line 62" in told


def test_a_rod_without_a_unit_that_would_be_longer_than_a_bar_is_told(run, save):
    """48 is rather inches than feet, which bare lengths of rods are in."""
    found = run(
        "take-off", save(SMALL.replace("rod_length [ft]", "rod_length").replace(",3,1", ",48,1")), "--units", "us"
    )
    assert "Without a unit this would be 48 ft here: write 48 in or 48 ft." in " ".join(found.stdout.split())
    assert "2 items: 0 counted, 2 invalid" in found.stdout


def test_json(run, save):
    found = run("take-off", save(json.dumps(TAKE_OFF_JSON), "job.json"))
    assert found.exit_code == 0, found.output
    assert "3 items: 3 counted, 0 invalid" in found.stdout
    assert "licensed design professional" in " ".join(found.stdout.split())


def test_strict(run, save):
    assert run("take-off", save(SMALL), "--strict").exit_code == 0
    assert run("take-off", save(SMALL.replace("wedge-expansion-zinc", "nowhere")), "--strict").exit_code == 3


@pytest.mark.parametrize(
    ("name", "content", "options", "says"),
    [
        ("a.json", "{", (), "not JSON"),
        ("a.json", json.dumps({"units": "us", "items": []}), (), "#/items"),
        ("a.json", json.dumps(TAKE_OFF_JSON), ("--units", "us"), "--units: a JSON file says this itself"),
        ("a.ods", "PK", ("--units", "us"), "ends in .csv, .xlsx or .json; its ending says how it is read"),
        ("a.xlsx", "PK", ("--units", "us"), "damaged or no workbook (XLSX)"),
        ("a.csv", "id,rod_lenght\nA,3\n", (), "rod_length"),
        ("a.csv", SMALL, ("--defaults", "bare.json"), "--defaults needs --units"),
        ("a.csv", SMALL, ("--units", "us", "--defaults", "none.json"), "none.json"),
        ("a.csv", SMALL, ("--rates", "short.json"), "--rates needs --units"),
        ("a.csv", SMALL, ("--units", "us", "--rates", "list.json"), "JSON object"),
        ("a.csv", SMALL, ("--units", "us", "--rates", "bad.json"), "#/waste/rods"),
        ("a.csv", SMALL, ("--units", "us", "--rates", "short.json"), "#/stock/rod_length"),
        ("a.csv", "id,rod_lenght,sise\nA,3,4\n", (), '"sise"'),
    ],
)
def test_what_is_refused(run, save, name, content, options, says):
    save("[1]", "list.json")
    save('{"rod": {"length": 4}}', "bare.json")
    save('{"waste": {"rods": 2}}', "bad.json")
    save('{"stock": {"rod_length": "0.01 ft"}}', "short.json")
    found = run("take-off", save(content, name), *options)
    assert found.exit_code == 2
    assert says in found.stderr


def test_a_file_that_is_not_there(run):
    found = run("take-off", "nowhere.csv")
    assert found.exit_code == 2
    assert "nowhere.csv" in found.stderr


def test_many_rows_that_are_not_counted_are_cut_short(run, save):
    head = SMALL.splitlines()[0].replace("rod_length [ft]", "rod_length")
    rows = "\n".join(f"X{at},L1,2,drop-in-zinc,3/8,1.625,3/8,{40 + at},1" for at in range(60))
    shown = run("take-off", save(f"{head}\n{rows}\n"), "--units", "us").stdout
    assert shown.count(": invalid,") == 50
    assert "and 10 more: pull_list.csv of --out DIR has all" in shown
