"""The list of what is verified names every mode once, and modules that are there."""

import re
from pathlib import Path

from hangpoint.core.vocabulary import Mode

HERE = Path(__file__).parent
TEXT = (HERE / "README.md").read_text(encoding="utf-8")


def test_every_mode_says_whether_it_has_an_outside_check():
    rows = re.findall(r"^\| `(\w+)` \| (yes|partly|\*\*none\*\*) \| \S", TEXT, flags=re.MULTILINE)
    assert [code for code, _ in rows] == [mode.value.code for mode in Mode]
    assert {said for _, said in rows} == {"yes", "partly", "**none**"}


def test_every_module_named_is_there():
    named = set(re.findall(r"`(?:\w+/)*(test_\w+\.py)`", TEXT))
    there = {path.name for path in HERE.parent.rglob("test_*.py")}
    assert len(named) > 10
    assert named - there == set()
