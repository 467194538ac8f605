"""Sections of what hangs and of plates in N, mm and m, for sheets by EN 1992-4, whose own equations are in N and mm.

A section is shown in other units where its formulas hold in any: where the dimensions of both sides agree, inches and
feet being two. The others stay as they are, each of their numbers with the same in N, mm or m beside it.
"""

import ast
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import prod
from typing import Any, cast

from hangpoint.core.conversions import MM_PER_INCH, NEWTONS_PER_POUND
from hangpoint.report.calculation.sections import Line, Section

Dimension = Mapping[str, float]
"""Powers of the units that a number has, none of them 0; none at all of a mere number."""

_UNIT = re.compile(r"(?P<below>[*/]?)(?P<name>[A-Za-z]+)(?P<power>[0-9.]*)")
_WRITTEN: Mapping[str, Dimension] = {"psi": {"lbf": 1, "in": -2}}
_METRIC: Mapping[str, tuple[str, float]] = {
    "lbf": ("N", NEWTONS_PER_POUND),
    "in": ("mm", MM_PER_INCH),
    "ft": ("m", 12 * MM_PER_INCH / 1000),
}
_EXACT = "exact conversion"
"""The clause of a line that is only the same number in another unit."""


class _UnlikeError(ValueError):
    """A formula that holds in its own units only."""


def metric_sections(sections: Iterable[Section]) -> list[Section]:
    """The sections in N, mm and m, numbered anew without those that only convert from one unit to another."""
    kept = [own for own in sections if any(line.clause != _EXACT for line in own.lines if not line.is_given)]
    return [replace(own, number=number, lines=_metric_lines(own.lines)) for number, own in enumerate(kept, 1)]


def has_other_units(sections: Iterable[Section]) -> bool:
    """Whether any of `metric_sections` has stayed in units of inches and pounds."""
    return any(line.also is not None for own in sections for line in own.lines)


def _metric_lines(lines: Sequence[Line]) -> Sequence[Line]:
    if _holds_in_any_units(lines):
        return [_converted(line) for line in lines]
    others = [_converted(line) for line in lines]
    return [
        replace(own, also=other) if other.unit != own.unit else own for own, other in zip(lines, others, strict=True)
    ]


def _converted(line: Line) -> Line:
    stated = _dimension_of(line.unit)
    pairs = [(_METRIC.get(name, (name, 1.0)), power) for name, power in stated.items()]
    factor = prod(size**power for (_, size), power in pairs)
    unit = _text({name: power for (name, _), power in pairs}) if stated.keys() & _METRIC.keys() else line.unit
    return replace(line, unit=unit, value=_times(line.value, factor)) if unit != line.unit else line


def _times(value: Any, factor: float) -> Any:
    """Numbers by a factor, at every place where there are several; words and flags as they are."""
    if isinstance(value, Mapping):
        return {place: _times(each, factor) for place, each in cast(Mapping[str, Any], value).items()}
    return value * factor if isinstance(value, int | float) and not isinstance(value, bool) else value


def _dimension_of(unit: str) -> Dimension:
    """The dimension of a unit as a trace writes it: ``lbf*in``, ``psi/in``, ``1/in``, ``in2``."""
    found: Dimension = {}
    for part in _UNIT.finditer(unit):
        power = float(part["power"] or 1) * (-1 if part["below"] == "/" else 1)
        found = _product(found, _power(_WRITTEN.get(part["name"], {part["name"]: 1}), power))
    return found


def _text(dimension: Dimension) -> str:
    """A unit in words: what is multiplied, forces first, and behind a stroke each what divides."""
    order = sorted(dimension.items(), key=lambda each: each[0] != "N")
    above = [f"{name}{power:g}".removesuffix("1") for name, power in order if power > 0]
    below = [f"/{name}{-power:g}".removesuffix("1") for name, power in order if power < 0]
    return ("*".join(above) or "1") + "".join(below)


def _holds_in_any_units(lines: Sequence[Line]) -> bool:
    """Whether both sides of every formula that is shown, and of its conditions, have one dimension."""
    named = {line.name: _dimension_of(line.unit) for line in lines}
    try:
        for line in lines:
            if line.taken is not None:
                _alike(named[line.name], _dimension(line.taken.tree, named))
                for condition, _ in line.taken.because:
                    _dimension(condition, named)
    except _UnlikeError:
        return False
    return True


_ANY: Dimension = {"0": 1}
"""The dimension of 0, which is 0 in every unit."""


def _dimension(tree: ast.expr, named: Mapping[str, Dimension]) -> Dimension:
    """The dimension of a formula.

    Raises:
        _UnlikeError: it adds or compares what has two.
    """

    def own(child: ast.expr) -> Dimension:
        return _dimension(child, named)

    match tree:
        case ast.Constant(value=value):
            return _ANY if value == 0 else {}
        case ast.Name(id=name):
            return named.get(name, {})
        case ast.UnaryOp(operand=operand):
            return own(operand)
        case ast.BinOp(left=left, op=ast.Mult(), right=right):
            return _product(own(left), own(right))
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return _product(own(left), _power(own(right), -1))
        case ast.BinOp(left=left, op=ast.Pow(), right=ast.Constant(value=int() | float() as power)):
            return _power(own(left), power)
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            return _alike(_alike({}, own(left)), own(right))
        case ast.BinOp(left=left, right=right):
            return _alike(own(left), own(right))
        case ast.Compare(left=left, comparators=[right]):
            _alike(own(left), own(right))
            return {}
        case ast.Call(func=ast.Name(id="where"), args=[condition, yes, no]):
            own(condition)
            return _alike(own(yes), own(no))
        case ast.Call(func=ast.Name(id="sqrt"), args=[operand]):
            return _power(own(operand), 0.5)
        case ast.Call(func=ast.Name(id="count")):
            return {}
        case ast.Call(args=[first, *others]):
            found = own(first)
            for other in others:
                found = _alike(found, own(other))
            return found
        case _:
            raise _UnlikeError(ast.unparse(tree))


def _alike(one: Dimension, other: Dimension) -> Dimension:
    """The dimension that both have."""
    if one is _ANY or one == other:
        return other
    if other is _ANY:
        return one
    raise _UnlikeError(f"{one} and {other}")


def _product(one: Dimension, other: Dimension) -> Dimension:
    if one is _ANY or other is _ANY:
        return _ANY
    powers = {name: one.get(name, 0) + other.get(name, 0) for name in (*one, *other)}
    return {name: power for name, power in powers.items() if power}


def _power(one: Dimension, power: float) -> Dimension:
    return one if one is _ANY else {name: own * power for name, own in one.items()}
