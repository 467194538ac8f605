"""``hangpoint submittal`` and ``hangpoint load-map``: what they write and say is what the service answers."""

import io
import json

import pypdf
import pytest
from starlette.testclient import TestClient

from hangpoint.api.examples_load_maps import LOAD_MAPS_CSV
from hangpoint.api.examples_submittals import SUBMITTALS_JSON
from hangpoint.app import create_app

HEAVY = LOAD_MAPS_CSV.replace(",260,", ",26000,")
"""The second of its points fails."""


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app()) as made:
        yield made


def test_a_submittal_of_a_csv_is_that_of_the_service(run, save, client, tmp_path):
    done = run("submittal", save(HEAVY), "--out", "made/s.json", "--project", "name=Clinic", "--sheets", "all")
    assert done.exit_code == 0, done.output
    sent = {"content": HEAVY, "headers": {"content-type": "text/csv"}}
    answer = client.post("/v1/submittals?project.name=Clinic&sheets=all", **sent).json()
    assert json.loads((tmp_path / "made" / "s.json").read_bytes()) == answer
    said = " ".join(done.output.split())
    assert all(sentence in said for sentence in answer["statement"])
    assert "1 point of this submittal fails: IC-L2-02." in said
    assert "2 points: 1 passed, 1 failed, 0 refused, 0 invalid. Written: made/s.json" in said


def test_the_ending_says_the_form(run, save, tmp_path):
    job = save(HEAVY)
    assert run("submittal", job, "--out", "s.pdf").exit_code == 0
    assert run("submittal", job, "--out", "s.html").exit_code == 0
    pages = pypdf.PdfReader(io.BytesIO((tmp_path / "s.pdf").read_bytes())).pages
    assert "This submittal contains points that fail" in pages[0].extract_text()
    assert "This submittal contains points that fail" in (tmp_path / "s.html").read_text("utf-8")
    wrong = run("submittal", job, "--out", "s.docx")
    assert (wrong.exit_code, "name a file that ends in .json, .html, .pdf" in wrong.stderr) == (2, True)


def test_options_go_into_a_json_file(run, save, tmp_path):
    stated = {name: value for name, value in SUBMITTALS_JSON.items() if name not in ("sheets", "test_rule", "test_use")}
    ids = [each["id"] for each in stated["items"]]
    job = save(json.dumps(stated), "job.json")
    save("\n".join(ids[:2]), "ids.txt")
    options = ("--only", "@ids.txt", "--only", ids[3], "--test-rule", "one_and_a_half_working_load")
    done = run("submittal", job, "--out", "s.json", *options)
    assert done.exit_code == 0, done.output
    made = json.loads((tmp_path / "s.json").read_bytes())
    assert [each["id"] for each in made["calculation_sheets"]["of"]] == [*ids[:2], ids[3]]
    assert made["test_plan"]["rule"]["name"] == "one_and_a_half_working_load"
    refused = run("submittal", job, "--out", "s.json", "--units", "us")
    assert (refused.exit_code, "--units: a JSON file says this itself" in refused.stderr) == (2, True)
    unknown = run("submittal", job, "--out", "s.json", "--only", "NOBODY")
    assert (unknown.exit_code, "NOBODY" in unknown.stderr) == (2, True)


def test_a_load_map_is_that_of_the_service(run, save, client, tmp_path):
    done = run("load-map", save(LOAD_MAPS_CSV), "--out", "map.html", "--strict")
    assert done.exit_code == 0, done.output
    assert "2 points: 2 passed, 0 failed, 0 refused, 0 invalid." in done.output
    sent = {"content": LOAD_MAPS_CSV, "headers": {"content-type": "text/csv"}}
    assert (tmp_path / "map.html").read_text("utf-8") == client.post("/v1/load-maps?format=html", **sent).text
    assert run("load-map", save(LOAD_MAPS_CSV), "--out", "map.pdf").exit_code == 0
    assert (tmp_path / "map.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("command", ["submittal", "load-map"])
def test_what_does_not_pass_ends_with_3_where_it_is_asked_for(run, save, command, tmp_path):
    assert run(command, save(HEAVY), "--out", "d.json", "--strict").exit_code == 3
    assert (tmp_path / "d.json").exists()


@pytest.mark.parametrize("command", ["submittal", "load-map"])
@pytest.mark.parametrize(
    ("name", "content"),
    [("job.ndjson", '{"id": "A"}\n'), ("one.json", '{"units": "us", "item": {"id": "A"}}'), ("job.ods", "PK")],
)
def test_other_files_are_refused_by_their_ending(run, save, command, name, content):
    done = run(command, save(content, name), "--out", "d.json")
    assert (done.exit_code, "its ending says how it is read" in done.stderr) == (2, True)


def test_a_file_that_cant_be_read_says_where(run, save):
    done = run("submittal", save(LOAD_MAPS_CSV.replace("hangs.kind", "hangs.kinds")), "--out", "d.json")
    assert (done.exit_code, "hangs.kinds" in done.stderr) == (2, True)


def test_more_than_a_pdf_takes_is_refused_in_words(run, save):
    head, row, _ = LOAD_MAPS_CSV.split("\n", 2)
    rows = "\n".join(row.replace("IC-L2-01", f"P-{at}") for at in range(21))
    done = run("submittal", save(f"{head}\n{rows}\n"), "--out", "d.pdf", "--sheets", "all")
    assert (done.exit_code, "at most 20 sheets" in " ".join(done.stderr.split())) == (2, True)


def test_requests_for_information_are_those_of_the_service(run, save, client, tmp_path):
    heavy = LOAD_MAPS_CSV.replace(",260,", ",1400,")
    done = run("rfis", save(heavy), "--out", "rfis.json")
    assert done.exit_code == 0, done.output
    sent = {"content": heavy, "headers": {"content-type": "text/csv"}}
    answer = client.post("/v1/rfis", **sent).json()
    assert json.loads((tmp_path / "rfis.json").read_bytes()) == answer
    said = " ".join(done.output.split())
    assert answer["rfis"]
    for each in answer["rfis"]:
        assert f"{each['number']}. {each['question']} (1 point)" in said
    assert "2 points: 1 passed, 1 failed, 0 refused, 0 invalid. Written: rfis.json" in said
