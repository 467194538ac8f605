"""A small reader of printed formulas, written for the tests only: values, units and the sides of each branch.

The core never evaluates a formula; it prints it. What is printed is evaluated here, over the fields of the record it
belongs to. Anything outside the printed grammar is an error.
"""

import ast
from dataclasses import dataclass, field
from math import isclose

import numpy as np

_BINARY = {
    ast.Add: np.add,
    ast.Sub: np.subtract,
    ast.Mult: np.multiply,
    ast.Div: np.divide,
    ast.Pow: np.power,
}
_COMPARE = {
    ast.Lt: np.less,
    ast.LtE: np.less_equal,
    ast.Gt: np.greater,
    ast.GtE: np.greater_equal,
    ast.Eq: np.equal,
    ast.NotEq: np.not_equal,
}
_REDUCE = {"min": np.min, "max": np.max, "sum": np.sum, "count": np.sum}
_SEVERAL = {"min": np.minimum, "max": np.maximum}


class GrammarError(Exception):
    """The printed formula is not in the printed grammar."""


@dataclass
class Sides:
    """How many rows took each side of each ``where``, and each argument of each ``min`` and ``max`` of several."""

    taken: dict[str, list[int]] = field(default_factory=dict)

    def add(self, node, masks):
        text = ast.unparse(node)
        counts = self.taken.setdefault(text, [0] * len(masks))
        for i, mask in enumerate(masks):
            counts[i] += int(np.count_nonzero(mask))

    def one_sided(self):
        return [text for text, counts in self.taken.items() if not all(counts)]


def _aligned(*values):
    """Give columns a trailing axis where another value has one."""
    values = [np.asarray(value) for value in values]
    widest = max(value.ndim for value in values)
    return [value[:, None] if value.ndim == 1 and widest == 2 else value for value in values]


def _call(node):
    if not isinstance(node.func, ast.Name) or node.keywords:
        raise GrammarError(ast.unparse(node))
    return node.func.id, node.args


def parse(text):
    """The expression tree of a printed formula."""
    return ast.parse(text, mode="eval").body


def evaluate(text, columns, rows, sides=None):
    """Value of a printed formula over the named columns.

    ``rows`` (n,) are the rows on which the line is printed: only they count towards the sides taken.
    """
    with np.errstate(all="ignore"):
        return _value(parse(text), columns, np.asarray(rows), sides if sides is not None else Sides())


def _value(node, columns, reached, sides):
    def value(part, reached=reached):
        return _value(part, columns, reached, sides)

    match node:
        case ast.Constant(value=int() | float()) if not isinstance(node.value, bool):
            return np.float64(node.value)
        case ast.Name(id="pi"):
            return np.float64(np.pi)
        case ast.Name():
            if node.id not in columns:
                raise GrammarError(f"{node.id} is no field of the record")
            column = columns[node.id]
            return column.astype(np.float64) if column.dtype == np.int8 else column
        case ast.UnaryOp(op=ast.USub()):
            return -value(node.operand)
        case ast.BinOp() if type(node.op) in _BINARY:
            return _BINARY[type(node.op)](*_aligned(value(node.left), value(node.right)))
        case ast.Compare(ops=[op], comparators=[right]) if type(op) in _COMPARE:
            return _COMPARE[type(op)](*_aligned(value(node.left), value(right)))
        case ast.Call():
            name, arguments = _call(node)
            if name == "sqrt" and len(arguments) == 1:
                return np.sqrt(value(arguments[0]))
            if name == "where" and len(arguments) == 3:
                return _where(node, arguments, columns, reached, sides)
            if name in _REDUCE and len(arguments) == 1:
                column = value(arguments[0])
                if column.ndim != 2:
                    raise GrammarError(f"{ast.unparse(node)}: no trailing axis to reduce")
                return _REDUCE[name](column, axis=1).astype(np.float64)
            if name in _SEVERAL and len(arguments) > 1:
                values = _aligned(*(value(argument) for argument in arguments))
                _count_extreme(node, name, values, reached, sides)
                result = values[0]
                for other in values[1:]:
                    result = _SEVERAL[name](result, other)
                return result
    raise GrammarError(ast.unparse(node))


def _where(node, arguments, columns, reached, sides):
    condition = np.asarray(_value(arguments[0], columns, reached, sides))
    if condition.dtype != np.bool_:
        raise GrammarError(f"{ast.unparse(node)}: the condition is not a comparison or a boolean field")
    mask, condition = _aligned(reached, condition)
    yes, no = mask & condition, mask & ~condition
    sides.add(node, (yes, no))
    result = _aligned(condition, _value(arguments[1], columns, yes, sides), _value(arguments[2], columns, no, sides))
    return np.where(*result)


def _count_extreme(node, name, values, reached, sides):
    extreme = values[0]
    for other in values[1:]:
        extreme = _SEVERAL[name](extreme, other)
    masks = [np.broadcast_arrays(*_aligned(reached, value == extreme)) for value in values]
    sides.add(node, [mask & governs for mask, governs in masks])


@dataclass(frozen=True)
class Measure:
    """A unit: exponents of the base dimensions and the size in base units."""

    exponents: tuple[tuple[str, float], ...]
    size: float

    @classmethod
    def of(cls, exponents, size):
        return cls(tuple(sorted((k, v) for k, v in exponents.items() if abs(v) > 1e-9)), size)

    def __mul__(self, other):
        mine, theirs = dict(self.exponents), dict(other.exponents)
        return Measure.of({k: mine.get(k, 0) + theirs.get(k, 0) for k in {*mine, *theirs}}, self.size * other.size)

    def __pow__(self, power):
        return Measure.of({k: v * power for k, v in self.exponents}, self.size**power)

    def agrees(self, other):
        mine, theirs = dict(self.exponents), dict(other.exponents)
        alike = all(abs(mine.get(k, 0) - theirs.get(k, 0)) < 1e-9 for k in {*mine, *theirs})
        return alike and isclose(self.size, other.size, rel_tol=1e-9)


NUMBER = Measure((), 1.0)
LITERAL = None
"""The unit of a literal: dimensionless, or that of the other side in a comparison, min, max and where."""


class UnitError(Exception):
    """The printed formula adds or compares what can't be."""


def _as_number(measure):
    return NUMBER if measure is LITERAL else measure


def _alike(node, measures):
    known = [measure for measure in measures if measure is not LITERAL]
    for other in known[1:]:
        if not known[0].agrees(other):
            raise UnitError(f"{ast.unparse(node)}: {known[0]} beside {other}")
    return known[0] if known else LITERAL


def _pure(node, measure):
    if not _as_number(measure).agrees(NUMBER):
        raise UnitError(f"{ast.unparse(node)} has a unit")


def literal_value(node):
    """The value of an expression of literals only, else None."""
    try:
        return float(_value(node, {}, np.array([], dtype=bool), Sides()))
    except (GrammarError, TypeError):
        return None


def measure(node, units):
    """Unit of a printed expression; ``units`` maps field names to `Measure`. The hidden coefficient is not in it."""
    match node:
        case ast.Constant():
            return LITERAL
        case ast.Name(id="pi"):
            return NUMBER
        case ast.Name():
            return units[node.id]
        case ast.UnaryOp():
            return measure(node.operand, units)
        case ast.BinOp(op=ast.Add() | ast.Sub()):
            return _alike(node, [_as_number(measure(side, units)) for side in (node.left, node.right)])
        case ast.BinOp(op=ast.Pow()):
            return _power(node, units)
        case ast.BinOp():
            left, right = (_as_number(measure(side, units)) for side in (node.left, node.right))
            return left * (right**-1 if isinstance(node.op, ast.Div) else right)
        case ast.Compare():
            _alike(node, [measure(node.left, units), measure(node.comparators[0], units)])
            return NUMBER
        case ast.Call():
            return _measure_call(node, units)
    raise GrammarError(ast.unparse(node))


def _power(node, units):
    base, power = _as_number(measure(node.left, units)), literal_value(node.right)
    if power is not None:
        return base**power
    _pure(node.left, base)
    _pure(node.right, measure(node.right, units))
    return NUMBER


def _measure_call(node, units):
    name, arguments = _call(node)
    measures = [measure(argument, units) for argument in arguments]
    if name == "sqrt":
        return _as_number(measures[0]) ** 0.5
    if name == "where":
        _pure(arguments[0], measures[0])
        return _alike(node, measures[1:])
    if name == "count":
        _pure(arguments[0], measures[0])
        return NUMBER
    return _alike(node, measures)
