"""Every command, block and link of README and guides is what it says, in the order of its page.

The pages are run in a folder that has the examples only.
"""

import contextlib
import io
import json
import re
import runpy
import shlex
import sys
import threading
from http.server import ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from starlette.testclient import TestClient
from typer.main import get_command
from typer.testing import CliRunner

from architecture.forwarding import forwarding
from architecture.pages import GUIDES, PAGES, ROOT, Block, heads, is_part, links, parts, shown
from hangpoint.app import create_app
from hangpoint.cli import app
from regression.answers import REQUESTS

MARKDOWN = [
    *PAGES,
    ROOT / "DEVELOPERS.md",
    ROOT / "tests" / "published" / "README.md",
    *(ROOT / "examples").glob("*/README.md"),
]
BEGINS = {"pdf": b"%PDF-", "html": b"<!doctype html>", "csv": b"id,", "json": b"{", "": b"{"}
ELSEWHERE = (
    "python3 -m venv .venv && ",  # the two lines at the head of the README: the second is what runs these tests
    ".venv/bin/hangpoint serve &",  # test_documentation
)
_WITH_VALUE = {"-H", "--data", "--data-binary", "--retry", "--retry-delay"}


def name(page):
    return page.stem


@pytest.fixture(scope="module")
def client():
    return TestClient(create_app())


@pytest.fixture(scope="module")
def address(client):
    """The service behind a plain HTTP server."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), forwarding(client))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture
def folder(tmp_path, monkeypatch):
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    monkeypatch.chdir(tmp_path)
    return tmp_path


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
    assert not re.search(r"\s", address), "with curl an address has no space in it"
    headers = dict(value.split(": ", 1) for value in values.get("-H", ()))
    bodies = [(option, file) for option, files in values.items() if option.startswith("--data") for file in files]
    if not bodies:
        return "GET", address, headers, b"", to
    ((option, file),) = bodies
    content = (folder / file.removeprefix("@")).read_bytes()
    # curl takes line ends out of what --data reads from a file.
    return "POST", address, headers, content if option == "--data-binary" else re.sub(rb"[\r\n]", b"", content), to


def ask(client, command, folder):
    """The answer to a command of curl, kept where the command keeps it."""
    method, address, headers, content, to = sent(command, folder)
    url = urlsplit(address)
    assert (url.scheme, url.netloc) == ("http", "127.0.0.1:8000"), command
    answer = client.request(method, f"{url.path}?{url.query}", content=content, headers=headers)
    assert answer.status_code == 200, (command, answer.text)
    form = Path(to).suffix.removeprefix(".") if to else ""
    assert answer.content.lstrip(b"\n").startswith(BEGINS[form]), command
    if to:
        (folder / to).write_bytes(answer.content)
    return answer.content


def run(command):
    """A command of the command line ends well."""
    found = CliRunner().invoke(app, shlex.split(command)[1:])
    assert found.exit_code == 0, (command, found.output)


def run_client(command, address, monkeypatch):
    """A script of ``examples/clients``, in this process; 1 says that not all is passed."""
    _, script, *words = shlex.split(command)
    monkeypatch.setattr(sys, "argv", [script, *words, address])
    with contextlib.redirect_stdout(io.StringIO()) as printed, pytest.raises(SystemExit) as end:
        runpy.run_path(script, run_name="__main__")
    assert end.value.code in (None, 0, 1), (command, end.value.code)
    assert printed.getvalue()


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_page_holds_what_it_says(page, client, address, folder, monkeypatch):
    """Answers are those of the request before them, shortened; other blocks those of the file that they name."""
    answer = b""
    for part in parts(page):
        if isinstance(part, Block):
            _compare(part, answer)
        elif part.startswith("curl "):
            answer = ask(client, part, folder)
        elif part.startswith("python3 examples/clients/"):
            run_client(part, address, monkeypatch)
        elif not part.startswith(ELSEWHERE):
            assert part.startswith(".venv/bin/hangpoint "), part
            run(part)


def _compare(block, answer):
    if block.mark == "answer":
        assert block.kind == "json"
        assert is_part(shown(block), json.loads(answer)), block.text
        return
    kind, _, file = block.mark.partition(" ")
    assert kind == "of", f"no mark says what this block is: {block.text[:80]}"
    whole = Path(file).read_text("utf-8")
    if block.kind == "json":
        assert is_part(shown(block), json.loads(whole)), block.text
    else:
        assert block.text == whole


@pytest.mark.parametrize(
    ("shown", "whole", "same"),
    [
        ({"a": 1}, {"a": 1, "b": 2}, True),
        ({"a": 1}, {"a": 2}, False),
        ({"a": 1}, {}, False),
        ({"a": 1.0}, {"a": 1.0 + 1e-12}, True),
        ({"a": 1.0}, {"a": 1.0 + 1e-6}, False),
        ({"a": True}, {"a": 1}, False),
        ([{"a": 1}, {"a": 3}], [{"a": 1}, {"a": 2}, {"a": 3}], True),
        ([{"a": 3}, {"a": 1}], [{"a": 1}, {"a": 2}, {"a": 3}], False),
        ([{"a": 1}, {"a": 1}], [{"a": 1}], False),
        (["x"], ["x", "y"], False),
        (["x", "y"], ["x", "y"], True),
    ],
)
def test_what_is_a_part_of_an_answer(shown, whole, same):
    assert is_part(shown, whole) is same


@pytest.mark.parametrize("page", GUIDES, ids=name)
def test_guide_opens_with_a_request_and_its_answer(page):
    """Who needs it comes first; then a command and what comes back, before any other part."""
    text = page.read_text("utf-8")
    assert re.match(r"# [^\n]+\n\nFor ", text)
    opening = text.partition("\n## ")[0]
    assert "\n    curl " in opening
    assert "<!-- answer -->" in opening
    assert f"](examples/guides/{page.name})" in (ROOT / "README.md").read_text("utf-8")


def test_a_log_as_it_was_written_is_open_in_every_row(client, folder):
    asked = [part for part in parts(ROOT / "examples" / "guides" / "site.md") if str(part).startswith("curl ")]
    for command in asked:
        ask(client, command, folder)
    judged = (folder / "judged.csv").read_text("utf-8").splitlines()
    assert len(judged) == len((folder / "log.csv").read_text("utf-8").splitlines()) > 1
    assert all(",open," in row for row in judged[1:])


@pytest.mark.parametrize("page", MARKDOWN, ids=lambda page: str(page.relative_to(ROOT)))
def test_every_link_leads_somewhere(page):
    """To a file, and to a heading of it by its words."""
    for link in links(page):
        target, _, head = link.partition("#")
        file = page.parent / target if target else page
        assert file.exists(), link
        assert not head or head in heads(file), link


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_commands_are_indented(page):
    """Else nobody sees that it is one, and it is not run here."""
    assert re.findall(r"(?m)^(?:curl|\.venv/bin/\w+|python3) .*$", page.read_text("utf-8")) == []


def test_the_pages_have_links():
    assert len(links(ROOT / "README.md")) > 40
    assert all(links(page) for page in GUIDES)


def test_every_example_is_led_to():
    """From the README or a guide, and none by a path that only somebody at the top of the repository can follow."""
    led = {(page.parent / link.partition("#")[0]).resolve() for page in PAGES for link in links(page)}
    requests = {path for path in REQUESTS.glob("*.json") if not path.name.endswith(".answer.json")}
    assert len(requests) > 50
    assert requests <= led


def test_every_address_stands_in_the_pages_and_no_other(client):
    """All but a problem's own page, which its answer leads to."""
    text = "".join(page.read_text("utf-8") for page in PAGES)
    served = {path for path in client.get("/openapi.json").json()["paths"] if path.startswith("/v1/")}
    named = {
        path.rstrip("/").replace("/v1/families/wedge-expansion-zinc", "/v1/families")
        for path in re.findall(r"/v1/[a-z-]+(?:/[a-z-]+)?", text)
    }
    assert named == {re.sub(r"/\{\w+\}", "", path) for path in served}


def test_every_option_of_the_command_line_in_the_pages_is_one():
    """What curl, pip and docker have are not ours."""
    text = "".join(re.sub(r"(?m)^ +curl .*(?:\n .*)?", "", page.read_text("utf-8")) for page in PAGES)
    group = get_command(app)
    known = {option for command in _commands(group) for param in command.params for option in param.opts}
    named = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", text)) - {"--data", "--data-binary", "--no-neighbours"}
    assert len(named) > 10
    assert named <= known
    assert "--no-neighbours" in {
        option for each in _commands(group) for p in each.params for option in p.secondary_opts
    }


def _commands(group):
    for command in group.commands.values():
        yield from _commands(command) if hasattr(command, "commands") else [command]
