"""`hangpoint catalogue check` and `hangpoint catalogue schema`."""

import json
from importlib import resources

import jsonschema
import pytest
from typer.testing import CliRunner

from hangpoint.cli import app

DATA = resources.files("hangpoint.product").joinpath("data")
WEDGE = json.loads(DATA.joinpath("wedge-expansion-zinc.json").read_bytes())


def run(*arguments):
    return CliRunner().invoke(app, ["catalogue", *map(str, arguments)])


@pytest.fixture
def write(tmp_path):
    def save(name, content):
        file = tmp_path / name
        file.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return file

    return save


def test_good_files_and_folders(write, tmp_path):
    file = write("a.json", WEDGE)
    for target in (file, tmp_path, str(DATA)):
        result = run("check", target)
        assert (result.exit_code, result.stderr) == (0, "")
        assert "can be used" in result.stdout


def test_bad_files_are_told_with_file_place_and_reason(write):
    content = json.loads(json.dumps(WEDGE))
    content["sizes"][1]["embedments"][1]["n_p_eq"] = 2650
    content["sizes"][2]["f_ya"] = 106000
    bad, broken, good = write("bad.json", [content]), write("broken.json", "{"), write("good.json", WEDGE)
    result = run("check", good, bad, broken)
    lines = result.stderr.splitlines()
    assert result.exit_code == 2
    assert result.stdout == ""
    assert lines[0].startswith(f"{bad}: #/0/sizes/1/embedments/1/n_p_eq: N_p,eq 2650.0 exceeds N_p,cr 2640.0")
    assert lines[1].startswith(f"{bad}: #/0/sizes/2/f_ya: f_ya 106000 is not below f_uta 106000")
    assert lines[2].startswith(f"{bad}: #/0/id: the id wedge-expansion-zinc is there twice")
    assert lines[3].startswith(f"{broken}: #: not JSON at line 1, column 2")
    assert len(lines) == 4


def test_what_a_file_says_does_not_reach_the_terminal_raw(write):
    content = WEDGE | {"id": "a\u001b[31m"}
    result = run("check", write("bad.json", content))
    assert result.exit_code == 2
    assert "\u001b" not in result.stderr


def test_a_path_that_is_not_there(tmp_path):
    result = run("check", tmp_path / "none.json")
    assert result.exit_code == 2
    assert "there is no such file or folder" in result.stderr


def test_files_are_required():
    assert run("check").exit_code == 2


def test_the_schema_takes_the_built_in_families():
    result = run("schema")
    assert result.exit_code == 0
    schema = json.loads(result.stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(WEDGE)
    assert not jsonschema.Draft202012Validator(schema).is_valid(WEDGE | {"id": "A"})
