"""What the image promises, read from its recipe: there is no container engine where the tests run.

What a recipe can't show (that it builds, starts and answers) is not tested here.
"""

import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from hangpoint.cli import app

ROOT = Path(__file__).parents[2]
EVERYWHERE = "0.0.0.0"  # noqa: S104


@pytest.fixture(scope="module")
def stages():
    """Instructions of each stage, continued lines joined."""
    text = (ROOT / "Dockerfile").read_text("utf-8").replace("\\\n", " ")
    lines = [line.strip() for line in text.splitlines() if line.strip() and not line.startswith("#")]
    starts = [at for at, line in enumerate(lines) if line.startswith("FROM ")]
    return [lines[start:stop] for start, stop in zip(starts, [*starts[1:], None], strict=True)]


@pytest.fixture(scope="module")
def final(stages):
    """Instructions of the last stage by their word; ENV as its variables."""
    made = dict(line.split(maxsplit=1) for line in stages[-1])
    return made | {"ENV": dict(part.split("=", 1) for part in shlex.split(made["ENV"]))}


def test_only_what_the_lock_names_is_installed(stages):
    installs = [line for stage in stages for line in stage if "pip" in line and "install" in line]
    assert len(installs) == 1
    assert "--require-hashes" in installs[0]
    assert "requirements.lock" in installs[0]
    assert "--only-binary :all:" in " ".join(installs[0].split())
    assert not any(word in line for stage in stages for line in stage for word in ("apt-get", "curl", "gcc"))


def test_the_last_stage_runs_nothing_and_has_no_rights(stages, final):
    assert len(stages) == 2
    assert not [line for line in stages[-1] if line.startswith(("RUN ", "ADD "))]
    user, group = (int(part) for part in final["USER"].split(":"))
    assert min(user, group) > 0
    assert final["ENV"]["PYTHONDONTWRITEBYTECODE"] == "1"


def test_who_may_call_is_not_decided_by_the_image(final, monkeypatch):
    """It listens on all interfaces, and without HANGPOINT_ACCESS it ends with the sentence."""
    assert final["ENV"]["HANGPOINT_HOST"] == EVERYWHERE
    assert "HANGPOINT_ACCESS" not in final["ENV"]
    for name in ("ACCESS", "TOKENS", "PORT"):
        monkeypatch.delenv(f"HANGPOINT_{name}", raising=False)
    for name, value in final["ENV"].items():
        if name.startswith("HANGPOINT_"):
            monkeypatch.setenv(name, value)
    assert (final["ENTRYPOINT"], final["CMD"]) == ('["hangpoint"]', '["serve"]')
    result = CliRunner().invoke(app, ["serve"])
    assert result.exit_code == 2
    assert "Set HANGPOINT_ACCESS=tokens" in result.stderr


def test_its_health_is_asked_by_a_command_that_there_is(final):
    assert final["HEALTHCHECK"].endswith('CMD ["hangpoint", "health"]')
    assert CliRunner().invoke(app, ["health", "--help"]).exit_code == 0


def test_nothing_but_the_package_and_the_lock_enters_the_build(stages):
    lines = (ROOT / ".dockerignore").read_text("utf-8").splitlines()
    rules = [line for line in lines if line and not line.startswith("#")]
    assert rules[0] == "*"
    allowed = {rule[1:] for rule in rules if rule.startswith("!")}
    assert allowed == {"service/requirements.lock", "service/hangpoint"}
    copied = {line.split()[1] for line in stages[0] if line.startswith("COPY ")}
    assert copied == allowed
    assert all((ROOT / path).exists() for path in copied)
