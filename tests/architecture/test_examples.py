"""Every example posts, and its committed answer is the one that comes; the job of the example is what it says."""

import csv
import io
import json
import runpy
import subprocess
import sys
import threading
from collections import Counter
from http.server import ThreadingHTTPServer

import pytest
from starlette.testclient import TestClient

from architecture.forwarding import forwarding
from hangpoint.app import create_app
from regression.answers import JOB, REQUESTS, ROOT, WORKED_DAY, answer_file, differences, post, requests

CLIENT = ROOT / "examples" / "clients" / "check_job.py"


@pytest.fixture(scope="module")
def client():
    return TestClient(create_app())


@pytest.mark.parametrize("request_file", requests(), ids=lambda path: path.stem)
def test_request_gets_its_committed_answer(client, request_file):
    """Change detector: the answer was written by the service itself. What verifies numbers is in tests/published."""
    response = post(client, request_file)
    assert response.status_code == 200, response.text
    old = json.loads(answer_file(request_file).read_text(encoding="utf-8"))
    assert list(differences(old, response.json())) == []


def test_no_answer_without_its_request():
    answers = {path for folder in (REQUESTS, WORKED_DAY) for path in folder.glob("*.answer.json")}
    assert answers == {answer_file(path) for path in requests()}
    assert len(answers) >= 18
    named = {path.name for path in requests()}
    assert {"single.json", "hanger_loads_rack.json", "0900_rack.json"} <= named
    assert "0710_slab.json" not in named


def test_sprinkler_point_of_a_worked_day(client):
    """3/8 in rod, 4 in schedule 10 sprinkler main at 12 ft in a 6 in slab, 1 ft from the edge.

    Expected, from a worked day of the trade (common practice, no source; the weight of 11.8 lb/ft is that of handbook
    tables for water-filled 4 in schedule 10): W = 141.6 lb on a hanger, 5 W + 250 = 958 lb, load on the structure
    W + 250 = 392 lb; the rod is the one of the size table. Tolerance: the rounding of 11.8 (0.05 lb/ft x 12 ft = 0.6
    lb on a hanger, five times that on 5 W), and half a pound of the printed sums.
    """
    item = post(client, REQUESTS / "sprinkler_main.json").json()["items"][0]
    service = item["demand"]["dead"] + item["demand"]["contents"]
    assert service == pytest.approx(141.6, abs=0.6)
    assert item["demand"]["load_case"] == "5W+250lb"
    assert item["demand"]["factored_tension"] == pytest.approx(958, abs=5 * 0.6 + 0.5)
    structure = next(each for each in item["findings"] if each["code"] == "sprinkler-structure-load")
    assert structure["value"] == pytest.approx(392, abs=0.6 + 0.5)
    (rod,) = (each for each in item["links"] if each["link"] == "rod")
    assert rod["utilisation"] == pytest.approx(392 / 730, rel=1e-2), "730 lb: printed with SP-58, to 10 lb"
    assert "rod-below-size-table" not in {each["code"] for each in item["findings"]}
    assert item["status"] == "passed"


def test_script_writes_the_committed_job(tmp_path):
    out = tmp_path / "hang_points.csv"
    subprocess.run([sys.executable, str(JOB.parent / "make_hang_points.py"), str(out)], check=True)
    assert out.read_bytes() == JOB.read_bytes()


def test_job_is_of_the_size_and_variety_that_it_claims(client):
    response = client.post(
        "/v1/hang-points?format=json", content=JOB.read_bytes(), headers={"Content-Type": "text/csv"}
    )
    answer = response.json()
    rows = list(csv.DictReader(io.StringIO(JOB.read_text(encoding="utf-8"))))
    assert len(rows) >= 300
    assert answer["summary"]["total"] == len(rows)
    intended = runpy.run_path(str(JOB.parent / "make_hang_points.py"))
    by_status = {
        status: {item["id"] for item in answer["items"] if item["status"] == status}
        for status in ("passed", "failed", "refused", "invalid")
    }
    assert by_status["failed"] == set(intended["DOES_NOT_HOLD"])
    assert by_status["refused"] == set(intended["OUTSIDE"])
    assert by_status["invalid"] == {*intended["MALFORMED"], intended["TOO_LONG"]}
    assert {row["material"] for row in rows} == {"steel", "copper", "stainless", ""}
    assert len({(row["material"], row["pipe_size"], row["schedule"]) for row in rows}) >= 15
    assert {row["family"] for row in rows} >= {
        "wedge-expansion-zinc",
        "drop-in-zinc",
        "large-screw-internal-thread-zinc",
        "headed-bolt",
        "undercut-stainless-metric",
    }
    assert len({row["base.member"] for row in rows}) >= 3
    assert all(row["id"].startswith("IC-") for row in rows), "ids say that the clinic is invented"
    reasons = Counter(item["reason"]["code"] for item in answer["items"] if item["status"] == "refused")
    assert len(reasons) >= 5
    assert set(answer["summary"]["governing"]) >= {"rod_allowable", "pullout", "concrete_breakout_tension"}


def test_client_prints_what_does_not_pass(client):
    """The standard-library client against the service behind a plain HTTP server."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), forwarding(client))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        done = subprocess.run(
            [sys.executable, str(CLIENT), str(JOB), f"http://127.0.0.1:{server.server_port}"],
            capture_output=True,
            text=True,
            check=False,
        )
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
    assert done.returncode == 1, done.stderr
    lines = done.stdout.splitlines()
    intended = runpy.run_path(str(JOB.parent / "make_hang_points.py"))
    named = {line.split()[1] for line in lines if line.startswith(("failed ", "refused ", "invalid "))}
    expected = {*intended["DOES_NOT_HOLD"], *intended["OUTSIDE"], *intended["MALFORMED"], intended["TOO_LONG"]}
    assert named == expected
    assert "aid, not a design" in done.stdout


def test_loads_of_the_guide_go_on_to_the_check(tmp_path):
    """The commands of the command line as pasted; only the interpreter and the folder are those of the test."""
    text = (ROOT / "examples" / "guides" / "hanger_loads.md").read_text(encoding="utf-8")
    block = text.partition("<!-- loads and check: begin -->")[2].partition("<!-- loads and check: end -->")[0]
    ours = [line.strip() for line in block.strip().splitlines() if "bin/hangpoint" in line]
    assert len(ours) == 2
    for line in ours:
        command = line.replace(".venv/bin/hangpoint", f"{sys.executable} -m hangpoint.cli")
        command = command.replace("--out loads", f"--out {tmp_path}").replace(" loads/", f" {tmp_path}/")
        done = subprocess.run(command.split(), cwd=ROOT, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    points = json.loads((tmp_path / "hang_points.json").read_text(encoding="utf-8"))
    assert len(points["items"]) == 6
    assert "6  passed" in done.stdout


def test_client_takes_loads_on_to_the_check(client):
    """The figures of the rule are in `test_worked_day`; here the two requests of the client."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), forwarding(client))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    folder = ROOT / "examples" / "worked-day"
    try:
        done = subprocess.run(
            [
                sys.executable,
                str(CLIENT.parent / "check_loads.py"),
                str(folder / "0710_sprinkler_main.json"),
                str(folder / "0710_slab.json"),
                f"http://127.0.0.1:{server.server_port}",
            ],
            capture_output=True,
            text=True,
            check=False,
        )
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
    assert done.returncode == 0, done.stderr
    passed = [line.split()[1] for line in done.stdout.splitlines() if line.startswith("passed ")]
    assert passed == [f"MAIN-BY-{way}/{hanger}" for way in ("SIZE-TABLE", "LOAD") for hanger in range(3)]
    assert "aid, not a design" in done.stdout


def test_equipment_with_an_eccentric_centre_of_gravity(client):
    """By hand: 1,250 lb with impact at x 6, y 3.6 between rods at 24, 18. On equal springs the third rod carries
    1250 / 4 (1 + 6/24 + 3.6/18) = 453 lb. Of any three, those without the fourth: 0.6 of it on the third (moments about
    y -18), 750 lb; without the first: 0.4 on the second, 0.375 on the fourth. Rods of 2 ft weigh about 1.1 lb."""
    (item,) = post(client, REQUESTS / "hanger_loads_equipment.json").json()["items"]
    tension = [hanger["service_tension"] for hanger in item["hangers"]]
    weight = 1000 * 1.25
    assert tension == pytest.approx([0.375 * weight, 0.4 * weight, 0.6 * weight, 0.375 * weight], abs=1.5)
    assert item["hangers"][2]["service"]["contents"] == pytest.approx(0.6 * 120 * 1.25)


def test_braced_run_of_seven_sixteen(client):
    """By hand, ASCE 7-16 13.3: a_p 2.5, R_p 12, I_p 1.5, z/h 2/3: 0.4 x 2.5 (1 + 4/3) / 8 = 0.292 W_p is below the
    lower limit of 0.3 x 1.5 = 0.45 W_p. W_p is 30 ft of 6 in schedule 40 (18.97 + 12.51 lb/ft by handbook tables; 10 %
    allowance on pipe and insulation, 2 in of 8 lb/ft3, and on the water). At 45 degrees the brace brings as much
    tension as shear; its anchor has Omega_0 of 2.0 (from memory)."""
    (item,) = post(client, REQUESTS / "hanger_loads_braced.json").json()["items"]
    insulation = 8 * 3.14159265 * ((6.625 + 4) ** 2 - 6.625**2) / 4 / 144
    w_p = 30 * 1.1 * (18.97 + 12.51 + insulation)
    seismic = item["seismic"]
    assert seismic["w_p"] == pytest.approx(w_p, rel=0.001)
    assert seismic["f_p"] == pytest.approx(0.45 * w_p, rel=0.001)
    assert "lower limit" in seismic["governs"]
    assert seismic["vertical"] == pytest.approx(0.2 * w_p, rel=0.001)
    assert seismic["brace"]["hanger_tension"] == pytest.approx(0.45 * w_p, rel=0.001)
    assert seismic["brace"]["anchor_shear"] == pytest.approx(0.9 * w_p, rel=0.001)
    assert item["hang_points"][-1]["id"] == "IC-L2-CHS-6-BRACED/brace"
