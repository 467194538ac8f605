"""Formulas, symbols and numbers in MathML, the standard for formulas in pages."""

import ast
import math
import re
from collections.abc import Callable, Container, Iterator, Mapping, Sequence

from hangpoint.report.printable import on_page

Show = Callable[[str], str]
"""How a name of a formula is shown, in MathML."""

_SYMBOL = re.compile(
    r"(?P<factor>[0-9.]+)?(?P<base>[^\s_/^,.0-9]{1,4})_(?P<index>[^\s/^]*[^\s/,^])"
    r"(?:\^(?:\((?P<fraction>[0-9]+/[0-9]+)\)|(?P<power>[0-9.]+)))?"
)
"""A base and its index behind an underscore, with a factor before it and a power behind it."""
_IN_SENTENCE = re.compile(
    r"(?<![\w.])(?P<factor>[0-9.]+)?(?P<base>lambda|Omega|psi|gamma|[A-Za-z]'?)_(?P<index>[A-Za-z0-9]+(?:,[A-Za-z]+)?)\b"
)
"""A symbol within a sentence, which may end at it; a place of a request (`survives_loss`) is none."""
_GREEK: Mapping[str, str] = {"lambda": "λ", "Omega": "Ω", "psi": "ψ", "gamma": "γ"}
_RATIO = re.compile(r"[^\s/()^]+/[^\s/()^]+")
_SIGNS: Mapping[type[ast.AST], str] = {
    ast.Add: "+",
    ast.Sub: "−",
    ast.Mult: "·",
    ast.Lt: "&lt;",
    ast.LtE: "≤",
    ast.Gt: "&gt;",
    ast.GtE: "≥",
    ast.NotEq: "≠",
    ast.Eq: "=",
}
_SUM, _PRODUCT, _ATOM = 1, 2, 3
_FIGURES = 5
_NOTHING = 1e-10
"""Below every number of a calculation in the units of the code."""
_SEVERAL = re.compile(r"[ /]")
"""In a symbol of several words or of a ratio, which takes a power in brackets."""
_TAG = re.compile(r"<[^>]*>")
_LONG = 45
"""Letters of a formula above which it is broken inside of its brackets."""


def number(value: float) -> str:
    """A number to five figures, never with an exponent; whole figures are not cut, and what rounding left of 0 is 0."""
    if not math.isfinite(value):
        return "∞" if value > 0 else "−∞"
    if abs(value) < _NOTHING:
        return "0"
    places = max(0, _FIGURES - 1 - math.floor(math.log10(abs(value))))
    text = f"{abs(value):.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"−{text}" if value < 0 else text


def math_of(*parts: str) -> str:
    """A formula in a line."""
    return f'<math displaystyle="true">{"".join(parts)}</math>'


def symbol(text: str) -> str:
    """A symbol: what stands behind its underscore is its index; words are words; a ratio is of two symbols."""
    parts = text.split("/") if _RATIO.fullmatch(text) else text.split(" / ")
    if len(parts) > 1:
        return sign("/").join(map(symbol, parts))
    if len(text) <= 2 and _SYMBOL.search(text) is None:
        return f"<mi>{_primed(text)}</mi>"
    return "".join(shown if is_symbol else f"<mtext>{on_page(shown)}</mtext>" for is_symbol, shown in _parts(text))


def label(text: str) -> str:
    """A symbol that stands alone, outside of a formula: its words are text, which may be broken into lines."""
    parts = text.split(" / ")
    if len(parts) > 1:
        return " / ".join(map(label, parts))
    return worded(text) if " " in text else math_of(symbol(text))


def worded(text: str) -> str:
    """A text whose symbols are set as such."""
    return "".join(math_of(shown) if is_symbol else on_page(shown) for is_symbol, shown in _parts(text))


def sentence(text: str) -> str:
    """A sentence whose symbols are set as such."""
    shown, end = "", 0
    for found in _IN_SENTENCE.finditer(text):
        base, factor = found["base"], found["factor"] or ""
        symbol_ = f"{factor}{_GREEK.get(base, base)}_{found['index']}"
        shown += on_page(text[end : found.start()]) + math_of(symbol(symbol_))
        end = found.end()
    return shown + on_page(text[end:])


def _parts(text: str) -> Iterator[tuple[bool, str]]:
    """The symbols of a text in MathML, and the words between them as they are; whether each is a symbol."""
    end = 0
    for found in _SYMBOL.finditer(text):
        if found.start() > end:
            yield False, text[end : found.start()]
        yield True, _indexed(found)
        end = found.end()
    if end < len(text):
        yield False, text[end:]


def _indexed(found: re.Match[str]) -> str:
    factor = f"<mn>{found['factor']}</mn>" if found["factor"] else ""
    shown = f"<msub><mi>{_primed(found['base'])}</mi><mtext>{_primed(found['index'])}</mtext></msub>"
    power = found["fraction"] or found["power"]
    return factor + (f"<msup><mrow>{shown}</mrow><mrow><mn>{power}</mn></mrow></msup>" if power else shown)


def _primed(text: str) -> str:
    return on_page(text.replace("'", "′"))


def value(size: float) -> str:
    """A number in a formula; a negative one in brackets, as it may stand behind a sign."""
    return f"<mn>{number(size)}</mn>" if size >= 0 else _bracketed(f"<mn>{number(size)}</mn>")


def verbal(text: str) -> str:
    """A word in the place of a number, as of a distance that is none."""
    return f"<mn>{on_page(text)}</mn>"


def several(texts: Sequence[str]) -> str:
    """Numbers that are taken together."""
    inside = sign(";").join(f"<mn>{text}</mn>" for text in texts)
    return f"<mrow><mo>{{</mo>{inside}<mo>}}</mo></mrow>"


def sign(text: str) -> str:
    """An operator."""
    return f"<mo>{text}</mo>"


def pieces(node: ast.expr, show: Show) -> list[str]:
    """A formula in pieces of a line each, between which it may be broken; inside of brackets only where it is long."""
    match node:
        case ast.BinOp(left=left, op=ast.Add() | ast.Sub() as own, right=right):
            bound = _PRODUCT if isinstance(own, ast.Sub) else _SUM
            return [*pieces(left, show), *_behind(_infix(own), _pieces_of(bound, right, show))]
        case ast.BinOp(left=left, op=ast.Mult() as own, right=right):
            return [*_pieces_of(_PRODUCT, left, show), *_behind(_infix(own), _pieces_of(_PRODUCT, right, show))]
        case ast.BinOp(left=left, op=ast.Div(), right=right) if _is_long(tree(left, show)):
            return [*_pieces_of(_PRODUCT, left, show), sign("/") + _at_least(_ATOM, right, show)]
        case ast.Compare(left=left, ops=[own], comparators=[right]):
            return [*pieces(left, show), *_behind(_infix(own), pieces(right, show))]
        case ast.Call(func=ast.Name(id=name), args=arguments) if name != "sqrt" and _is_long(tree(node, show)):
            inside = [pieces(each, show) for each in arguments]
            for own in inside[:-1]:
                own[-1] += sign(";")
            function = f"<mi>{_FUNCTIONS.get(name, name)}</mi>"
            return _in_brackets([each for own in inside for each in own], before=function)
        case _:
            return [tree(node, show)]


def _pieces_of(bound: int, node: ast.expr, show: Show) -> list[str]:
    """Pieces of an operand that is bound at least so, or in brackets."""
    whole, own = _shown(node, show)
    if own >= bound:
        return pieces(node, show)
    return _in_brackets(pieces(node, show)) if _is_long(whole) else [_bracketed(whole)]


def _in_brackets(inside: list[str], *, before: str = "") -> list[str]:
    first, *others = inside
    opened = [before + sign("(") + first, *others]
    return [*opened[:-1], opened[-1] + sign(")")]


def _behind(joint: str, inside: list[str]) -> list[str]:
    first, *others = inside
    return [joint + first, *others]


def _infix(own: ast.operator | ast.cmpop) -> str:
    """A sign at the beginning of a piece, with the room of one between two numbers."""
    return f'<mo form="infix">{_SIGNS[type(own)]}</mo>'


def _is_long(shown: str) -> bool:
    return len(_TAG.sub("", shown)) > _LONG


def tree(node: ast.expr, show: Show) -> str:
    """A formula (`formula.parse`) whose names are shown in one way."""
    return _shown(node, show)[0]


def logic(node: ast.expr, show: Show, flags: Container[str]) -> list[str]:
    """A condition in pieces: of numbers that are 0 or 1 a product is "and", a sum or the larger one is "or".

    ``flags`` are the names of such numbers.
    """
    match node:
        case ast.Compare(left=left, ops=[ast.Eq()], comparators=[ast.Constant(value=1)]) if is_logic(left, flags):
            return logic(left, show, flags)
        case ast.BinOp(left=left, op=ast.Mult(), right=ast.Constant(value=1)) if is_logic(left, flags):
            return logic(left, show, flags)
        case ast.BinOp(left=left, op=ast.Mult() | ast.Add() as own, right=right) if is_logic(node, flags):
            word = "and" if isinstance(own, ast.Mult) else "or"
            return [*logic(left, show, flags), *_behind(_word(word), logic(right, show, flags))]
        case ast.Call(args=[first, *others]) if is_logic(node, flags):
            rest = [piece for each in others for piece in _behind(_word("or"), logic(each, show, flags))]
            return _in_brackets([*logic(first, show, flags), *rest])
        case _:
            return pieces(node, show)


def _word(text: str) -> str:
    return f"<mtext>{text}\u00a0</mtext>"


def is_logic(node: ast.expr, flags: Container[str]) -> bool:
    """Whether a formula is 0 or 1 of itself."""
    match node:
        case ast.Name(id=name):
            return name in flags
        case ast.Compare() | ast.Constant(value=1):
            return True
        case ast.BinOp(left=left, op=ast.Mult() | ast.Add(), right=right):
            return is_logic(left, flags) and is_logic(right, flags)
        case ast.Call(func=ast.Name(id="max"), args=arguments):
            return all(is_logic(each, flags) for each in arguments)
        case _:
            return False


def _shown(node: ast.expr, show: Show) -> tuple[str, int]:
    """MathML, and how strongly it is bound."""
    match node:
        case ast.Constant(value=int() | float() as size):
            return value(size), _ATOM
        case ast.Name(id="pi"):
            return "<mi>π</mi>", _ATOM
        case ast.Name(id=name):
            return show(name), _ATOM
        case ast.UnaryOp(operand=operand):
            return sign("−") + _at_least(_PRODUCT, operand, show), _SUM
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return f"<mfrac><mrow>{tree(left, show)}</mrow><mrow>{tree(right, show)}</mrow></mfrac>", _PRODUCT
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            base = _at_least(_ATOM, left, show)
            base = _bracketed(base) if isinstance(left, ast.Name) and _SEVERAL.search(_TAG.sub("", base)) else base
            return f"<msup><mrow>{base}</mrow><mrow>{tree(right, show)}</mrow></msup>", _ATOM
        case ast.BinOp(left=left, op=ast.Mult() as own, right=right):
            return _joined(own, left, right, _PRODUCT, show), _PRODUCT
        case ast.BinOp(left=left, op=ast.Sub() as own, right=right):
            return tree(left, show) + sign(_SIGNS[type(own)]) + _at_least(_PRODUCT, right, show), _SUM
        case ast.BinOp(left=left, op=own, right=right):
            return _joined(own, left, right, _SUM, show), _SUM
        case ast.Compare(left=left, ops=[own], comparators=[right]):
            return tree(left, show) + sign(_SIGNS[type(own)]) + tree(right, show), 0
        case ast.Call(func=ast.Name(id="sqrt"), args=[operand]):
            return f"<msqrt>{tree(operand, show)}</msqrt>", _ATOM
        case ast.Call(func=ast.Name(id=name), args=arguments):
            inside = sign(";").join(tree(each, show) for each in arguments)
            return f"<mi>{_FUNCTIONS.get(name, name)}</mi>{_bracketed(inside)}", _ATOM
        case _:
            return f"<mtext>{on_page(ast.unparse(node))}</mtext>", _ATOM


_FUNCTIONS = {"where": "if", "count": "number of"}


def _joined(own: ast.operator, left: ast.expr, right: ast.expr, bound: int, show: Show) -> str:
    return _at_least(bound, left, show) + sign(_SIGNS[type(own)]) + _at_least(bound, right, show)


def _at_least(bound: int, node: ast.expr, show: Show) -> str:
    inside, own = _shown(node, show)
    return inside if own >= bound else _bracketed(inside)


def _bracketed(inside: str) -> str:
    return f"<mrow><mo>(</mo>{inside}<mo>)</mo></mrow>"
