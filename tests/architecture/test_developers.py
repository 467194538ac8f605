"""The contributors' guide names what is there, and has every reading that is cited."""

import importlib
import re
from fnmatch import fnmatch

import pytest

from architecture.pages import PAGES, ROOT
from hangpoint.core.vocabulary import Mode

GUIDE = ROOT / "DEVELOPERS.md"
TEXT = GUIDE.read_text("utf-8")
WRITTEN = re.sub(r"(?s)<!-- nomenclature: begin -->.*<!-- nomenclature: end -->", "", TEXT)
PLACES = [ROOT / name for name in ("service", "tests", "examples", "openapi")]
FILES = [str(path.relative_to(ROOT)) for top in PLACES for path in (top, *top.rglob("*"))] + ["pyproject.toml"]
ENDINGS = r"\.(?:py|json|csv|toml|md|lock|js|html)"
LINE = 120
ROW = 400
"""Characters of a row of the readings; what is longer is told below the table."""


def is_there(path):
    return any(fnmatch(f"/{name}", f"*/{path.rstrip('/')}") for name in FILES)


def part(head):
    """What stands under a heading of the second level."""
    return WRITTEN.partition(f"\n## {head}\n")[2].partition("\n## ")[0]


def readings():
    """Numbers of the table, in its order."""
    return [int(number) for number in re.findall(r"^\| (\d+) \|", part("Readings"), flags=re.MULTILINE)]


def test_every_file_that_is_named_is_there():
    named = set(re.findall(rf"`([\w./*-]+(?:{ENDINGS}|/))`", WRITTEN))
    assert len(named) > 100
    assert {path for path in named if not path.startswith("/") and not is_there(path)} == set()


def test_every_module_that_is_named_is_there():
    """``api.batch`` as a module, ``core.hang_point.chain.check`` as what a module has."""
    named = set(re.findall(r"`((?:api|core|pack|product|report)(?:\.\w+)+)`", WRITTEN))
    assert len(named) > 20
    for name in named:
        try:
            importlib.import_module(f"hangpoint.{name}")
        except ModuleNotFoundError:
            module, _, own = name.rpartition(".")
            assert hasattr(importlib.import_module(f"hangpoint.{module}"), own), name


def test_every_name_of_the_layout_is_there():
    tree = part("Layout").partition("\n    service/")[2].partition("\nLayers")[0]
    named = set(re.findall(r"(?<![\w/*])([\w/]+(?:\.py|/))(?![\w*])", tree))
    assert len(named) > 60
    assert {path for path in named if not is_there(path)} == set()


def test_every_layer_is_named():
    contracts = (ROOT / "pyproject.toml").read_text("utf-8").partition("[[tool.importlinter.contracts]]")[2]
    layers = set(re.findall(r"\w+", " ".join(re.findall(r"(?s)layers = \[(.*?)\]", contracts))))
    said = part("Layout").partition("Layers, checked")[2].partition("\n\n")[2]
    assert len(layers) > 30
    assert set(re.findall(r"\w+", said)) == layers | {"core"}


def test_readings_are_numbered_once_and_in_order():
    assert readings() == list(range(len(readings())))


def test_every_reading_that_is_cited_is_there():
    cited = set()
    for top in PLACES[:2]:
        for path in top.rglob("*.py"):
            for first, second in re.findall(r"\breadings? (\d+)(?:(?:,| and| to) (\d+))?", path.read_text("utf-8")):
                cited |= {int(each) for each in (first, second) if each}
    assert len(cited) > 30
    assert cited <= set(readings())


def test_a_reading_is_short_or_has_a_part_of_its_own():
    """Each row names a module; one that leads to a part below leads to that of its number."""
    rows = re.findall(r"^\| \d+ \|.*$", part("Readings"), flags=re.MULTILINE)
    for row in rows:
        number = row.split("|")[1].strip()
        assert len(row) <= ROW, row
        assert ".py`" in row.split("|")[3], row
        for led in re.findall(r"\]\(#reading-(\d+)-", row):
            assert led == number, row
    parts = re.findall(r"^### Reading (\d+): ", part("Readings"), flags=re.MULTILINE)
    assert parts == re.findall(r"\]\(#reading-(\d+)-", "".join(rows))


def test_the_changelog_is_the_end_and_by_subject():
    heads = re.findall(r"^## (.*)$", WRITTEN, flags=re.MULTILINE)
    assert heads[-1] == "Changelog"
    assert len(re.findall(r"^#### ", part("Changelog"), flags=re.MULTILINE)) > 5
    assert part("Changelog").count("->") > 100


@pytest.mark.parametrize("page", [GUIDE, *PAGES], ids=lambda page: page.stem)
def test_lines_of_prose_are_short(page):
    """Tables, commands and blocks are as long as they have to be."""
    text = WRITTEN if page is GUIDE else page.read_text("utf-8")
    text = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
    long = [line for line in text.splitlines() if len(line) > LINE and not line.startswith(("|", "    ", "<!--"))]
    assert long == []


def test_how_to_add_a_mode_names_where_modes_are_listed():
    """Modules of the core and of packing that list single modes in a set of several, but for those of a method."""
    listed = set()
    for top in ("core", "pack"):
        for path in (ROOT / "service" / "hangpoint" / top).rglob("*.py"):
            found = set(re.findall(r"^ {4,8}Mode\.(\w+)[,:]", path.read_text("utf-8"), flags=re.MULTILINE))
            if len(found) > 2:
                listed.add(str(path.relative_to(ROOT / "service" / "hangpoint")))
                assert found <= set(Mode.__members__)
    steps = part("How to").partition("### Add a mode")[2].partition("\n### ")[0]
    assert listed
    assert {path for path in listed if path not in steps} == set()
