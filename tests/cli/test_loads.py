"""`hangpoint loads`: the schedule that it prints and the files that it writes; the hang points go on to the check."""

import csv
import json
import re

import pytest

from api.bodies import SINGLE_JSON
from hangpoint.api.examples import HANGER_LOADS_JSON

ANCHORS = {name: SINGLE_JSON["item"][name] for name in ("anchor", "base", "seismic")}
BAD = {"id": "BAD", "kind": "riser", "length": "30 ft", "supports": 2} | {
    "line": {"kind": "pipe", "material": "steel", "size": "4", "schedule": "41", "contents": "water"}
}
OVERLOADED = {
    "id": "HEAVY",
    "kind": "equipment",
    "weight": "4000 lb",
    "rods_at": [{"x": 0, "y": 0}, {"x": 40, "y": 0}, {"x": 0, "y": 40}, {"x": 40, "y": 40}],
    "centre_of_gravity": {"x": 20, "y": 20},
}


@pytest.fixture
def save(save):
    def write(content, name):
        return save(content if isinstance(content, str) else json.dumps(content), name)

    return write


def with_items(*more):
    return HANGER_LOADS_JSON | {"items": [*HANGER_LOADS_JSON["items"], *more]}


def test_the_schedule_is_printed(run, save):
    """Any three of four rods of 4,000 lb centred carry 2,000 lb at most, above the 1,350 lb of a 1/2 in rod (SP-58)."""
    found = run("loads", save(with_items(BAD, OVERLOADED), "ceiling.json"))
    assert found.exit_code == 0, found.output
    assert "L2-CHW-RACK-07" in found.stdout
    assert "BAD: invalid, #/items/3/line/schedule" in found.stdout
    assert "HEAVY hanger 0: violation" in found.stdout
    assert "5 items, 14 hangers: 3 passed, 1 failed, 1 invalid" in found.stdout
    assert "licensed design professional" in " ".join(found.stdout.split())


def run_of(name, weight, rod):
    """Two spans of 10 ft: the middle hanger of three has ten times the weight of a foot by its tributary length."""
    line = {"kind": "line", "weight": weight, "allowance": 0}
    spans = {"spans": ["10 ft", "10 ft"], "model": "tributary"}
    return {"id": name, "kind": "run", "line": line, "run": spans, "rod": {"size": rod}}


def test_no_figure_hides_that_a_limit_is_passed(run, save):
    """1,350 lb on a 1/2 in rod of 50,000 psi / 3.5 less 25 % on (pi / 4) (0.5 - 1.299038 / 13)^2 = 0.12571 in2: 1,346.9
    lb, 100.23 %, and 1,346.92 lb are 100.002 %. 12,345.6 lb have no power of ten."""
    loads = {"FULL": ("135 lb/ft", "1/2"), "JUST": ("134.692 lb/ft", "1/2"), "BIG": ("1234.56 lb/ft", "1-1/2")}
    items = [run_of(name, *own) for name, own in loads.items()]
    printed = " ".join(run("loads", save({"units": "us", "items": items}, "full.json")).stdout.split())
    assert " 100.3%" in printed
    assert " 100.1%" in printed
    assert " 100% " not in printed
    assert re.search(r"FULL hanger 1: violation, [^()]*\(1,350, limit 1,347 lbf\)", printed)
    assert re.search(r"JUST hanger 1: violation, [^()]*\(1,346\.92, limit 1,346\.9 lbf\)", printed)
    assert " 12,346 " in printed
    assert "e+0" not in printed


def test_files_and_the_check_of_the_hang_points(run, save, tmp_path):
    request, defaults = save(with_items(BAD), "ceiling.json"), save(ANCHORS, "anchors.json")
    found = run("loads", request, "--out", "made", "--defaults", defaults)
    assert found.exit_code == 0, found.output
    made = tmp_path / "made"
    assert {path.name for path in made.iterdir()} == {"hangers.csv", "loads.json", "hang_points.json"}
    with (made / "hangers.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    answer = json.loads((made / "loads.json").read_text())
    hangers = [hanger for item in answer["items"] for hanger in item.get("hangers", ())]
    assert len(rows) == len(hangers) + 1 == 11
    assert float(rows[0]["service_tension [lbf]"]) == hangers[0]["service_tension"]
    assert rows[0]["snow [lbf]"] == ""
    assert (rows[-1]["id"], rows[-1]["status"], rows[-1]["pointer"]) == ("BAD", "invalid", "#/items/3/line/schedule")
    checked = run("check", made / "hang_points.json")
    assert checked.exit_code == 0, checked.output
    assert "INVALID 0" in checked.stdout
    assert "L2-FCU-11/2" in checked.stdout


def test_strict(run, save):
    assert run("loads", save(HANGER_LOADS_JSON, "a.json"), "--strict").exit_code == 0
    assert run("loads", save(with_items(BAD), "b.json"), "--strict").exit_code == 3


@pytest.mark.parametrize(
    ("content", "options", "says"),
    [
        ("{", (), "not JSON"),
        ({"units": "us", "items": []}, (), "#/items"),
        ({"units": "us"}, (), "#/items"),
        (HANGER_LOADS_JSON, ("--defaults", "a.json"), "--defaults needs --out"),
        (HANGER_LOADS_JSON, ("--defaults", "none.json", "--out", "made"), "none.json"),
        (HANGER_LOADS_JSON, ("--defaults", "list.json", "--out", "made"), "one JSON object"),
    ],
)
def test_what_is_refused(run, save, content, options, says):
    save([1], "list.json")
    found = run("loads", save(content, "a.json"), *options)
    assert found.exit_code == 2
    assert says in found.stderr


def test_a_file_that_is_not_there(run):
    found = run("loads", "nowhere.json")
    assert found.exit_code == 2
    assert "nowhere.json" in found.stderr


def test_forces_name_their_unit(run, save):
    """A unit in brackets would be taken for markup and not be printed."""
    printed = run("loads", save(json.dumps(HANGER_LOADS_JSON), "loads.json")).stdout
    heading = next(line for line in printed.splitlines() if "Item" in line)
    assert "Service, lbf" in heading
    assert "Factored, lbf" in heading


def test_many_hangers_and_findings_are_cut_short(run, save):
    """70 items of 4 rods, each overloaded: 200 of 280 hangers in the table, 50 lines of what is wrong, violations."""
    many = [OVERLOADED | {"id": f"HEAVY-{at:02}"} for at in range(70)]
    shown = run("loads", save(HANGER_LOADS_JSON | {"items": [*many, BAD]}, "many.json")).stdout
    assert "and 80 more: hangers.csv of --out DIR has all" in shown
    lines = [line for line in shown.splitlines() if re.match(r"(?:HEAVY-|BAD|L2)[^ ]*(?: \w+ \d+)?: ", line)]
    assert len(lines) == 50
    assert lines[0].startswith("BAD: invalid")
    assert all(": violation, " in line for line in lines[1:])
    assert len(re.findall(r"and \d+ more: hangers.csv of --out DIR has all", shown)) == 2


def test_a_csv_is_told_where_it_belongs(run, save):
    found = run("loads", save("id,hangs.kind\nA,weight\n", "job.csv"))
    assert found.exit_code == 2
    assert "Check a CSV of hang points by hangpoint check." in found.stderr


def test_one_is_one(run, save):
    shown = run("loads", save(HANGER_LOADS_JSON | {"items": [OVERLOADED]}, "one.json")).stdout
    assert "1 item, 4 hangers: 0 passed, 1 failed, 0 invalid" in shown
