"""Printed formulas of a trace as trees, with the branch that the numbers of the trace take.

The language is that of `core.quantity`. A choice ``where(c, a, b)`` whose condition follows from the numbers becomes
the branch that was taken, and the condition is noted beside it.
"""

import ast
import math
from collections.abc import Callable, Mapping, Set
from dataclasses import dataclass
from functools import lru_cache

Numbers = Mapping[str, float]
"""What single numbers of a record are by their names; a bool is 0 or 1, a word its code."""

_BINARY: Mapping[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: float.__add__,
    ast.Sub: float.__sub__,
    ast.Mult: float.__mul__,
    ast.Div: float.__truediv__,
    ast.Pow: float.__pow__,
}
_COMPARED: Mapping[type[ast.cmpop], Callable[[float, float], bool]] = {
    ast.Lt: float.__lt__,
    ast.LtE: float.__le__,
    ast.Gt: float.__gt__,
    ast.GtE: float.__ge__,
    ast.Eq: float.__eq__,
}
_CALLED: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "sum": lambda *each: sum(each),
}


class UnknownValueError(ValueError):
    """A formula needs a value that is no single number."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A formula without its decided choices; ``because`` are the conditions of these, and whether each held."""

    tree: ast.expr
    because: tuple[tuple[ast.expr, bool], ...]


@lru_cache(maxsize=1024)
def parse(text: str) -> ast.expr:
    """The tree of a printed formula."""
    return ast.parse(text, mode="eval").body


def taken(text: str, numbers: Numbers) -> Taken:
    """A printed formula with the branches that these numbers take."""
    because: list[tuple[ast.expr, bool]] = []
    return Taken(_branch(parse(text), numbers, because), tuple(because))


def _branch(node: ast.expr, numbers: Numbers, because: list[tuple[ast.expr, bool]]) -> ast.expr:
    """The node anew with its branches, the conditions noted: a parsed formula is kept, and must not change."""

    def own(child: ast.expr) -> ast.expr:
        return _branch(child, numbers, because)

    match node:
        case ast.BinOp(left=left, op=sign, right=right):
            return ast.BinOp(left=own(left), op=sign, right=own(right))
        case ast.UnaryOp(op=sign, operand=operand):
            return ast.UnaryOp(op=sign, operand=own(operand))
        case ast.Compare(left=left, ops=signs, comparators=others):
            return ast.Compare(left=own(left), ops=signs, comparators=[own(each) for each in others])
        case ast.Call(func=function, args=arguments):
            if _name(node) == "where" and (choice := _choice(node, numbers)) is not None:
                because.append(choice)
                return own(arguments[1] if choice[1] else arguments[2])
            return ast.Call(func=function, args=[own(each) for each in arguments], keywords=[])
        case _:
            return node


def _choice(node: ast.Call, numbers: Numbers) -> tuple[ast.expr, bool] | None:
    """The condition of a choice and whether it holds; None where that is not the same at every place."""
    try:
        return node.args[0], bool(evaluate(node.args[0], numbers))
    except (UnknownValueError, ArithmeticError):
        return None


def without(tree: ast.expr, zeros: Set[str]) -> ast.expr | None:
    """A formula without the terms that are 0 because a name of theirs is; None where nothing of it is left.

    Args:
        tree: of `taken`.
        zeros: names that are 0 at every place.
    """

    def own(child: ast.expr) -> ast.expr | None:
        return without(child, zeros)

    match tree:
        case ast.Name(id=name):
            return None if name in zeros else tree
        case ast.BinOp(left=left, op=ast.Add() as sign, right=right):
            first, second = own(left), own(right)
            return ast.BinOp(left=first, op=sign, right=second) if first and second else first or second
        case ast.BinOp(left=left, op=ast.Sub() as sign, right=right):
            first, second = own(left), own(right)
            if first is None:
                return None if second is None else ast.UnaryOp(op=ast.USub(), operand=second)
            return ast.BinOp(left=first, op=sign, right=second) if second else first
        case ast.BinOp(left=left, op=(ast.Mult() | ast.Div()) as sign, right=right):
            first, second = own(left), own(right)
            return ast.BinOp(left=first, op=sign, right=second) if first and second else None
        case ast.BinOp(left=left, op=ast.Pow()):
            return None if own(left) is None else tree
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return None if own(operand) is None else tree
        case ast.Call(func=function, args=[operand]) if _name(tree) == "sqrt":
            inside = own(operand)
            return None if inside is None else ast.Call(func=function, args=[inside], keywords=[])
        case ast.Call(args=arguments):
            counted = arguments[1:] if _name(tree) == "where" else arguments
            return None if all(_is_zero(each) or own(each) is None for each in counted) else tree
        case _:
            return tree


def _is_zero(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value == 0


def evaluate(tree: ast.expr, numbers: Numbers) -> float:
    """What a formula is of these numbers.

    Raises:
        UnknownValueError: one of its names is no single number.
    """
    match tree:
        case ast.Constant(value=int() | float() as value):
            return float(value)
        case ast.Name(id="pi"):
            return math.pi
        case ast.Name(id=name) if name in numbers:
            return numbers[name]
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -evaluate(operand, numbers)
        case ast.BinOp(left=left, op=sign, right=right):
            return _BINARY[type(sign)](evaluate(left, numbers), evaluate(right, numbers))
        case ast.Compare(left=left, ops=[sign], comparators=[right]):
            return float(_COMPARED[type(sign)](evaluate(left, numbers), evaluate(right, numbers)))
        case ast.Call(args=[condition, yes, no]) if _name(tree) == "where":
            return evaluate(yes if evaluate(condition, numbers) else no, numbers)
        case ast.Call(args=[_, *rest] as arguments) if rest or _name(tree) == "sqrt":
            return _CALLED[_name(tree)](*(evaluate(each, numbers) for each in arguments))
        case _:
            raise UnknownValueError(ast.unparse(tree))


def _name(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else ""
