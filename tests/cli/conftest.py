"""The command line in a folder of its own, and files for it."""

import pytest
from typer.testing import CliRunner

from hangpoint.cli import app


@pytest.fixture
def run(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")

    def invoke(*arguments):
        return CliRunner().invoke(app, [str(argument) for argument in arguments])

    return invoke


@pytest.fixture
def save(tmp_path):
    def write(content, name="job.csv"):
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    return write
