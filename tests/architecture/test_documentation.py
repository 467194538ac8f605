"""What an operator or a caller can meet is documented: settings, problems, codes, limits, columns."""

import ast
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from hangpoint.api.csv_columns import ALIASES, REQUIRED, columns
from hangpoint.api.problems import PROBLEMS
from hangpoint.app import create_app
from hangpoint.core.hanger.rod import RULES
from hangpoint.core.hanger.rod_rules import FURTHER_RULES
from hangpoint.core.hanger.spacing import spacing_rules
from hangpoint.core.vocabulary import (
    Assumption,
    ChangeAssumption,
    ChangeNotChecked,
    Finding,
    Inapplicable,
    Link,
    Mode,
    NotChecked,
    Refusal,
    Severity,
    Status,
)
from hangpoint.report.schedule import COLUMNS
from hangpoint.settings import Settings
from hangpoint.units import KINDS, PRINTED

TOP = Path(__file__).parents[2]
LISTS = {
    "modes": Mode,
    "inapplicable": Inapplicable,
    "findings": Finding,
    "assumptions": Assumption,
    "refusals": Refusal,
    "not_checked": NotChecked,
}


def page(name):
    return (TOP / name).read_text("utf-8")


@pytest.fixture(scope="module")
def client():
    return TestClient(create_app())


@pytest.fixture(scope="module")
def served(client):
    return client.get("/v1/quantities").json()


@pytest.mark.parametrize("name", list(Settings.model_fields))
@pytest.mark.parametrize("file", ["README.md", "DEVELOPERS.md"])
def test_every_setting_is_documented(name, file):
    assert f"HANGPOINT_{name.upper()}" in page(file)
    assert Settings.model_fields[name].description


def test_no_setting_is_documented_that_is_not_there():
    named = {word for file in ("README.md", "DEVELOPERS.md") for word in re.findall(r"HANGPOINT_([A-Z_]+)", page(file))}
    assert named - {"VENV"} == {name.upper() for name in Settings.model_fields}


@pytest.mark.parametrize("slug", list(PROBLEMS))
def test_every_problem_has_a_page(client, slug):
    kind = PROBLEMS[slug]
    response = client.get(f"/problems/{slug}")
    assert response.status_code == 200
    assert response.headers["content-type"].startswith("text/html")
    for part in (kind.title, kind.slug, str(kind.status)):
        assert part.replace("'", "&#x27;") in response.text
    assert len(kind.page) > 60


def test_problems_that_the_service_makes_are_of_the_closed_list():
    """Every slug in the code, by its own text."""
    made = set()
    for file in (TOP / "service" / "hangpoint").rglob("*.py"):
        made |= set(re.findall(r'(?:ProblemError\(\s*|slug=|slugs \+= \[)"([a-z-]+)"', file.read_text("utf-8")))
    assert len(made) > 8
    assert made <= PROBLEMS.keys()


@pytest.mark.parametrize("name", list(LISTS))
def test_every_code_is_served_with_its_sentence(served, name):
    entries = {member.value.code: member.value for member in LISTS[name]}
    assert len(entries) == len(LISTS[name])
    assert [each["code"] for each in served[name]] == list(entries)
    for each in served[name]:
        assert each["text"] == entries[each["code"]].text
        assert each["clause"] == entries[each["code"]].clause
        assert len(each["text"]) > 10


def test_every_code_of_proposed_changes_is_served(served):
    for name, vocabulary in (("assumptions", ChangeAssumption), ("not_checked", ChangeNotChecked)):
        assert {each["code"]: each["text"] for each in served["changes"][name]} == {
            each.value.code: each.value.text for each in vocabulary
        }


def test_every_finding_says_how_much_it_weighs(served):
    for each in served["findings"]:
        assert each["severity"] in served["severities"]
        assert each["quantity"] in ("", "ratio", *served["quantities"])


def test_the_short_lists(served):
    assert served["statuses"] == list(Status)
    assert served["severities"] == list(Severity)
    assert served["links"] == list(Link)
    assert served["problems"] == list(PROBLEMS)
    assert set(served["rod_rules"]) == set(RULES)
    assert set(served["further_rod_rules"]) == set(FURTHER_RULES)
    assert len(served["spacing_rules"]) == len(spacing_rules())


def test_every_kind_of_quantity_is_served(served):
    assert set(served["quantities"]) == set(KINDS)
    for name, kind in KINDS.items():
        own = served["quantities"][name]
        assert own["units"] == list(kind.units)
        assert own["pattern"] == kind.pattern
        assert (own["us"], own["si"]) == (PRINTED["us"][name], PRINTED["si"][name])


def test_every_column_is_served(served):
    """Columns of a list of objects stand once for all places."""
    assert served["csv"]["required"] == list(REQUIRED)
    assert served["csv"]["aliases"] == ALIASES
    assert set(served["csv"]["columns"]) <= set(columns())
    bare = {re.sub(r"\.\d+", ".0", path) for path in columns()}
    assert {re.sub(r"\.\d+", ".0", path) for path in served["csv"]["columns"]} == bare


def test_the_columns_of_a_schedule_are_served(served):
    """In the order of the file, each with what it holds."""
    assert list(served["csv"]["answer"]) == list(COLUMNS)
    assert all(len(text) > 10 for text in served["csv"]["answer"].values())


LOWERED = {
    "max_single_bytes": 2001,
    "max_batch_bytes": 2002,
    "max_items": 3,
    "max_traces": 4,
    "max_stream_bytes": 2005,
    "max_stream_items": 6,
    "max_line_bytes": 2007,
    "body_seconds": 8.5,
    "stream_seconds": 9.5,
}


def test_every_limit_of_the_settings_is_served():
    """As it is set, of each setting that is a limit by its name."""
    assert {name for name in Settings.model_fields if name.startswith("max_") or name.endswith("_seconds")} == set(
        LOWERED
    )
    limits = TestClient(create_app(Settings(**LOWERED))).get("/v1/limits").json()
    assert {name: limits.get(name.removeprefix("max_")) for name in LOWERED} == LOWERED


OF_NO_REQUEST = {
    "MAX_ERRORS_OF_ITEM": "of a list in an answer",
    "MAX_SUGGESTIONS": "of names that are compared with a misspelt one",
    "MAX_REMEMBERED": "of a cache",
    "MAX_SPELLINGS": "of a cache",
    "MAX_LINE": "a setting",
    "MAX_ITEMS": "a setting",
}


def test_every_limit_of_the_code_is_served():
    """Each constant of the interface that is a limit by its name is read where limits are listed."""
    folder = TOP / "service" / "hangpoint" / "api"
    listed = (folder / "limits.py").read_text("utf-8")
    found = 0
    for file in folder.rglob("*.py"):
        for name in re.findall(r"^(M(?:AX|OST)_[A-Z_]+)(?::.*)? =", file.read_text("utf-8"), re.MULTILINE):
            if name not in OF_NO_REQUEST:
                found += 1
                by_import = re.search(rf"import .*\b{name}\b", listed) and f".{file.stem} import" in listed
                assert by_import or f"{file.stem}.{name}" in listed, f"{file.stem}.{name}"
    assert found > 30


def test_limits_are_numbers_from_where_they_hold():
    """No number is written down a second time where they are listed."""
    tree = ast.parse((TOP / "service" / "hangpoint" / "api" / "limits.py").read_text("utf-8"))
    assert not [each for each in ast.walk(tree) if isinstance(each, ast.Constant) and not isinstance(each.value, str)]


def test_the_page_of_documentation_needs_no_other_host(client):
    text = client.get("/docs").text
    for address in re.findall(r'(?:src|href)="([^"]+)"', text):
        assert address.startswith("/")
        assert client.get(address).status_code == 200
    assert "http" not in re.sub(r"http-equiv", "", text)


def test_the_first_request_of_the_readme_works_as_pasted():
    """Both commands in one shell; only the interpreter and the port are those of the test."""
    if shutil.which("curl") is None:
        pytest.skip("curl is not installed")
    text = page("README.md").partition("<!-- first request: begin -->")[2].partition("<!-- first request: end -->")[0]
    serve, ask = (line.strip() for line in text.strip().splitlines())
    assert serve.endswith("&")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    serve = serve.replace(".venv/bin/hangpoint", f"{sys.executable} -m hangpoint.cli").replace("&", ">/dev/null 2>&1 &")
    script = f"{serve}\n{ask.replace(':8000/', f':{port}/')}\n"
    assert str(port) in script
    with subprocess.Popen(
        ["bash", "-c", script],
        stdout=subprocess.PIPE,
        text=True,
        cwd=TOP,
        env=os.environ | {"HANGPOINT_PORT": str(port)},
        start_new_session=True,
    ) as shell:
        try:
            out, _ = shell.communicate(timeout=60)
        finally:
            os.killpg(shell.pid, signal.SIGTERM)
    committed = json.loads(page("examples/requests/single.answer.json"))
    assert json.loads(out)["items"][0]["status"] == committed["items"][0]["status"] == "passed"


@pytest.mark.parametrize("path", REQUIRED)
def test_every_required_column_is_in_the_pages(path):
    needed = next(line for line in page("examples/guides/csv.md").splitlines() if line.startswith("| needed |"))
    short = page("README.md").partition("## A job as CSV")[2].partition("\n## ")[0]
    for text in (needed, short):
        assert f"`{path}`" in text or (path.startswith("base.edges.") and "the four edges" in text)


def test_the_start_is_documented(client):
    assert "GET /`" in page("README.md")
    assert client.get("/openapi.json").json()["paths"]["/"]["get"]["summary"]


def test_no_docstring_of_a_module_is_said_twice():
    first = [file.read_text("utf-8").partition("\n")[0] for file in (TOP / "service" / "hangpoint").rglob("*.py")]
    assert len(first) > 20
    assert len(set(first)) == len(first)


def test_the_tasks_of_the_readme_have_no_numbers_of_their_own():
    assert "| reaction at a hanger |" in page("README.md")
    assert not re.search(r"\bT\d+\b", page("README.md"))


def test_the_contract_on_pint_names_everything_but_its_importer():
    """The core has a contract of its own, which forbids more."""
    contracts = tomllib.loads(page("pyproject.toml"))["tool"]["importlinter"]["contracts"]
    (own,) = [each for each in contracts if each["name"] == "unit_factors is the only importer of pint"]
    package = TOP / "service" / "hangpoint"
    modules = {each.stem for each in package.iterdir() if each.suffix == ".py" or (each / "__init__.py").exists()}
    expected = {f"hangpoint.{name}" for name in modules - {"__init__", "unit_factors", "core"}}
    assert set(own["source_modules"]) == expected


def test_the_readme_leads_to_every_part_of_it():
    """Each part is led to from its opening, from the table of tasks or from another part."""
    text = page("README.md")
    heads = re.findall(r"(?m)^## (.*)$", text)
    found = {head for head in heads if f"](#{re.sub(r'[^a-z0-9 -]', '', head.lower()).replace(' ', '-')})" in text}
    assert set(heads) == found


def test_the_readme_is_short_enough_to_be_read():
    """What is longer belongs into a guide."""
    assert len(page("README.md").splitlines()) <= 450
