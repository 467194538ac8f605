"""Lines of a section in MathML: the formula in symbols, then in numbers, and the conditions that chose its branch."""

import ast
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

from hangpoint.core.hang_point.verdict import EXCEEDED
from hangpoint.report.calculation import mathml
from hangpoint.report.calculation.sections import Line, Section, flag, side
from hangpoint.report.printable import on_page

_USED = "utilisation"
_OPPOSITE: Mapping[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
}
_POWERS = str.maketrans("023457.", "⁰²³⁴⁵⁷·")


def formula(line: Line, section: Section, *, in_numbers: bool = True) -> str:
    """How a line was computed, in symbols and unless told otherwise in numbers."""
    if line.taken is None:
        return ""
    tree, lines = line.taken.tree, {each.name: each for each in section.lines}

    def as_number(name: str) -> str:
        return _number(lines[name]) if name in lines else mathml.symbol(name)

    because = "; ".join(dict.fromkeys(_condition(each, holds, lines) for each, holds in line.taken.because))
    why = f'<div class="why">as {because}</div>' if because else ""
    if isinstance(line.value, bool):
        return ("" if _is_constant(tree) else f"<div>{_logic(tree, lines)}</div>") + why
    shown = f'<span class="symbols">{_equals(tree, _in_symbols(lines))}</span>'
    if in_numbers and isinstance(line.value, int | float) and not isinstance(tree, ast.Name) and not _is_constant(tree):
        shown += f' <span class="numbers">{_equals(tree, as_number)}</span>'
    return f"<div>{shown}</div>{why}"


def _in_symbols(lines: Mapping[str, Line]) -> mathml.Show:
    """Names of lines as their symbols; a line that does not hold keeps its name."""
    return lambda name: mathml.symbol(lines[name].symbol if name in lines else name)


def _equals(tree: ast.expr, show: mathml.Show) -> str:
    """A formula that may be broken into lines."""
    first, *others = mathml.pieces(tree, show)
    return " ".join([mathml.math_of(mathml.sign("="), first), *map(mathml.math_of, others)])


def sized(line: Line, *, with_unit: bool = True) -> str:
    """The value of a line with its unit, and in brackets what it is in another."""
    if line.also is not None and with_unit:
        also = sized(line.also).replace(" ", "\N{NO-BREAK SPACE}")
        return f"{sized(replace(line, also=None))} ({also})"
    value = line.value
    unit = "" if isinstance(value, str) or not with_unit else unit_text(line.unit)
    if isinstance(value, Mapping):
        own = cast(Mapping[str, Any], value)
        inside = ", ".join(f"{on_page(side(place))}\N{NO-BREAK SPACE}{_plain(each)}" for place, each in own.items())
        return f"{inside} {unit}".rstrip()
    if line.name == _USED and isinstance(value, float) and value > EXCEEDED and mathml.number(value) == "1":
        return "just above 1"
    return f"{_plain(value)} {unit}".rstrip()


def unit_text(unit: str) -> str:
    """A unit as it is printed: in2 with a raised 2."""
    return on_page(unit.translate(_POWERS).replace("*", "·")) if unit else ""


def _plain(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return mathml.number(value) if isinstance(value, int | float) else on_page(str(value))


def _number(line: Line) -> str:
    value = line.code if line.code is not None else line.value
    if isinstance(value, bool):
        return mathml.value(int(value))
    if isinstance(value, int | float):
        return mathml.value(value)
    if isinstance(value, str):
        return mathml.verbal(value)
    if isinstance(value, Mapping):
        return mathml.several([_plain(each) for each in cast(Mapping[str, Any], value).values()])
    return mathml.symbol(line.symbol)


def _is_constant(tree: ast.expr) -> bool:
    return not any(isinstance(node, ast.Name) for node in ast.walk(tree))


def _condition(tree: ast.expr, holds: bool, lines: Mapping[str, Line]) -> str:
    """A condition as it was: a choice by its word, a flag with yes or no, a comparison that failed as its opposite."""
    if _words(tree, lines):
        return _logic(tree, lines)
    flags = _flags(lines)
    match tree:
        case ast.Name(id=name) if name in flags:
            return f"{mathml.math_of(mathml.symbol(lines[name].symbol))}: {_plain(holds)}"
        case ast.Compare(left=left, ops=[sign], comparators=others) if not (holds or mathml.is_logic(left, flags)):
            return _logic(ast.Compare(left, [_OPPOSITE[type(sign)]()], others), lines)
        case _:
            text = _logic(tree, lines)
            return text if holds else f"not ({text})"


def _logic(tree: ast.expr, lines: Mapping[str, Line]) -> str:
    """A condition in symbols; of a choice the word that it is."""
    words = _words(tree, lines)
    if words:
        return ", ".join(f"{mathml.math_of(mathml.symbol(line.symbol))} is {on_page(line.value)}" for line in words)
    return " ".join(map(mathml.math_of, mathml.logic(tree, _in_symbols(lines), _flags(lines))))


def _flags(lines: Mapping[str, Line]) -> set[str]:
    return {name for name, line in lines.items() if flag(line.value) is not None}


def _words(tree: ast.expr, lines: Mapping[str, Line]) -> list[Line]:
    """The lines of a condition whose value is a word."""
    named = [lines[node.id] for node in ast.walk(tree) if isinstance(node, ast.Name) and node.id in lines]
    return [line for line in named if line.code is not None]
