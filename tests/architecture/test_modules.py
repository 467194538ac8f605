"""Sizes, docstrings and layers of the modules of the service."""

import ast
import logging
from pathlib import Path
from statistics import median

import pytest
from importlinter import cli

import hangpoint

ROOT = Path(hangpoint.__file__).parent
MODULES = {str(path.relative_to(ROOT)): path.read_text(encoding="utf-8") for path in sorted(ROOT.rglob("*.py"))}

LONGEST_MODULE = 400
LARGEST_MEDIAN = 200
LONGEST_FUNCTION = 60
"""Lines of a body without docstring: a screen. A closing ``return Record(...)`` that lists the fields isn't counted."""


@pytest.mark.parametrize("name", MODULES)
def test_module_is_short_and_says_what_it_is(name):
    text = MODULES[name]
    assert len(text.splitlines()) <= LONGEST_MODULE
    docstring = ast.get_docstring(ast.parse(text))
    assert docstring
    assert docstring.split("\n")[0].endswith((".", ":", "?")) or "\n" in docstring


def test_median_module(record_property):
    sizes = [len(text.splitlines()) for text in MODULES.values()]
    record_property("median_lines", median(sizes))
    assert len(sizes) > 20
    assert median(sizes) <= LARGEST_MEDIAN


def body_lines(node):
    """Lines of a function's body that count."""
    body = node.body[1:] if ast.get_docstring(node) else node.body
    if not body:
        return 0
    end = body[-1].end_lineno
    if isinstance(body[-1], ast.Return) and isinstance(body[-1].value, ast.Call):
        end = body[-1].lineno - 1
    return end - body[0].lineno + 1


@pytest.mark.parametrize("name", MODULES)
def test_functions_fit_a_screen(name):
    functions = [n for n in ast.walk(ast.parse(MODULES[name])) if isinstance(n, ast.FunctionDef | ast.AsyncFunctionDef)]
    assert {n.name: body_lines(n) for n in functions if body_lines(n) > LONGEST_FUNCTION} == {}


def test_long_functions_are_found():
    lines = "\n".join(f"    x{i} = {i}" for i in range(70))
    long = ast.parse(f'def f():\n    """What."""\n{lines}\n    return dict(\n        a=1,\n    )\n').body[0]
    assert body_lines(long) == 70


@pytest.fixture
def logging_kept():
    """The linter configures logging, which disables every logger that there is: each is enabled again."""
    loggers = [each for each in logging.root.manager.loggerDict.values() if isinstance(each, logging.Logger)]
    before = {each: each.disabled for each in loggers}
    yield
    for each, disabled in before.items():
        each.disabled = disabled


@pytest.mark.usefixtures("logging_kept")
def test_layers(capsys, monkeypatch):
    """The import contracts of pyproject.toml hold."""
    monkeypatch.chdir(Path(__file__).parents[2])
    code = cli.lint_imports(no_cache=True)
    assert code == cli.EXIT_STATUS_SUCCESS, capsys.readouterr().out
