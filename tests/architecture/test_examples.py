"""Every example posts, and its committed answer is the one that comes; the job of the example is what it says."""

import csv
import io
import json
import runpy
import subprocess
import sys
import threading
from collections import Counter
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest
from starlette.testclient import TestClient

from hangpoint.app import create_app
from regression.answers import JOB, REQUESTS, ROOT, answer_file, differences, post, requests

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
    answers = {path.name for path in REQUESTS.glob("*.answer.json")}
    assert answers == {answer_file(path).name for path in requests()}
    assert len(answers) >= 5


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
    assert item["rod_rule"] == "sprinkler_size_table"
    assert {"link": "rod", "checked": True} in item["links"]
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
    server = ThreadingHTTPServer(("127.0.0.1", 0), _handler(client))
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


def _handler(client):
    class Handler(BaseHTTPRequestHandler):
        def do_POST(self):
            body = self.rfile.read(int(self.headers["Content-Length"]))
            kept = {name: self.headers[name] for name in ("Content-Type", "Accept") if self.headers[name]}
            response = client.post(self.path, content=body, headers=kept)
            self.send_response(response.status_code)
            self.send_header("Content-Type", response.headers["content-type"])
            self.send_header("Content-Length", str(len(response.content)))
            self.end_headers()
            self.wfile.write(response.content)

        def log_message(self, *_):
            pass

    return Handler


@pytest.mark.parametrize(("name", "request_file"), [("first answer", "single"), ("first group answer", "anchor_group")])
def test_answer_in_the_readme_is_shortened_and_not_changed(name, request_file):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    block = text.partition(f"<!-- {name}: begin -->")[2].partition(f"<!-- {name}: end -->")[0]
    shown = json.loads(block.strip().removeprefix("```json").removesuffix("```"))
    whole = json.loads(answer_file(REQUESTS / f"{request_file}.json").read_text(encoding="utf-8"))
    assert shown["items"][0]["modes"]
    assert list(_changed(shown, whole)) == []
    assert list(_changed({"items": [{"status": "failed"}]}, whole)) == ["/items/0/status"]


def _changed(shown, whole, place=""):
    """Places where a shortened answer says something that the whole one doesn't; modes may be left out."""
    if isinstance(shown, dict):
        for key, value in shown.items():
            yield from _changed(value, whole.get(key), f"{place}/{key}")
    elif isinstance(shown, list) and shown and isinstance(shown[0], dict):
        by_mode = {each.get("mode"): each for each in whole}
        for at, value in enumerate(shown):
            yield from _changed(value, by_mode[value.get("mode")] if "mode" in value else whole[at], f"{place}/{at}")
    elif shown != whole:
        yield place
