"""Every command of the README does what it says, in the order of the page, in a folder that has the examples only."""

import re
import shlex
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from starlette.testclient import TestClient
from typer.testing import CliRunner

from hangpoint.app import create_app
from hangpoint.cli import app

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text("utf-8")
COMMANDS = [line for line in re.sub(r"\\\n *", "", README).splitlines() if line.startswith("    ")]
ASKED = [line.strip() for line in COMMANDS if line.startswith("    curl ")]
RUN = [line.strip() for line in COMMANDS if re.match(r"    \.venv/bin/hangpoint (?!serve)", line)]
BEGINS = {"pdf": b"%PDF-", "csv": b"id,", "": b"{"}
_WITH_VALUE = {"-H", "--data", "--data-binary", "--retry", "--retry-delay"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("readme")
    (made / "examples").symlink_to(TOP / "examples")
    return made


def sent(command, folder):
    """A command of curl as method, address, headers and body, and the file that its answer goes to."""
    _, *words = shlex.split(command)
    to = words[words.index(">") + 1] if ">" in words else None
    words = words[: words.index(">")] if to else words
    values = {}
    rest = iter(words)
    bare = []
    for word in rest:
        if word in _WITH_VALUE:
            values.setdefault(word, []).append(next(rest))
        else:
            bare.append(word)
    (address,) = [word for word in bare if not word.startswith("-")]
    assert set(bare) - {address} <= {"-s", "--retry-connrefused"}
    headers = dict(value.split(": ", 1) for value in values["-H"])
    ((option, (file,)),) = [(name, value) for name, value in values.items() if name.startswith("--data")]
    content = (folder / file.removeprefix("@")).read_bytes()
    # curl takes line ends out of what --data reads from a file.
    return address, headers, content if option == "--data-binary" else re.sub(rb"[\r\n]", b"", content), to


def test_there_are_commands_of_both_kinds():
    assert len(ASKED) >= 8
    assert len(RUN) >= 3


def test_every_request_is_answered(folder):
    """With ``curl`` an address has no space in it, and a log is judged as it was written."""
    client = TestClient(create_app())
    for command in ASKED:
        address, headers, content, to = sent(command, folder)
        assert not re.search(r"\s", address), command
        url = urlsplit(address)
        assert (url.scheme, url.netloc) == ("http", "127.0.0.1:8000"), command
        answer = client.post(f"{url.path}?{url.query}", content=content, headers=headers)
        assert answer.status_code == 200, (command, answer.text)
        form = Path(to).suffix.removeprefix(".") if to else ""
        assert answer.content.startswith(BEGINS[form]), command
        if to:
            (folder / to).write_bytes(answer.content)
    judged = (folder / "judged.csv").read_text("utf-8").splitlines()
    assert len(judged) == len((folder / "log.csv").read_text("utf-8").splitlines()) > 1
    assert all(",open," in row for row in judged[1:])


def test_every_command_ends_well(folder, monkeypatch):
    monkeypatch.chdir(folder)
    for command in RUN:
        found = CliRunner().invoke(app, shlex.split(command)[1:])
        assert found.exit_code == 0, (command, found.output)
    assert (folder / "loads" / "hang_points.json").is_file()
    assert (folder / "pull" / "pull_list.csv").is_file()
