"""The sections of a calculation sheet, made of the trace of a result. Nothing of it is markup."""

import ast
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

from hangpoint.core.outcome import SIDES
from hangpoint.core.vocabulary import MODE_TEXTS
from hangpoint.report.calculation.formula import Numbers, Taken, taken, without
from hangpoint.report.calculation.procedures import PROCEDURES

Result = Mapping[str, Any]
_OF_LOADS, _FORCE = "load", "lbf"
"""Axis of records of what hangs, and what units of loads begin with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One number. ``value`` is a number, a word, a bool, or one of these by place; ``code`` stands for a word.

    Of a formula ``taken`` is what it was of these numbers, of a procedure ``how`` the sentence. ``left_out``: it is a
    load of 0, which a sheet doesn't print. ``also`` is the same in another unit.
    """

    name: str
    symbol: str
    unit: str
    clause: str
    value: Any
    code: int | None = None
    taken: Taken | None = None
    how: str = ""
    left_out: bool = False
    also: "Line | None" = None

    @property
    def is_given(self) -> bool:
        """Whether it comes from the request, the product or another section."""
        return self.taken is None and not self.how


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One record of the trace.

    ``about`` says which load case, edge and anchors it is of; ``anchor`` is the number of the one anchor that a record
    of all anchors has a section for, from 0, and ``kind`` what such sections have in common. ``is_unloaded``: every
    load and moment that it has is 0. ``rows`` are all sets of anchors that a mode was checked for. ``converted`` are
    strength and demand in the units of the request, where these are others.
    """

    number: int
    kind: tuple[str, str]
    anchor: int | None
    title: str
    mode: str
    clause: str
    about: Sequence[str]
    governs: bool
    is_unloaded: bool
    lines: Sequence[Line]
    rows: Sequence[Result]
    converted: Mapping[str, float]

    def line(self, name: str) -> Line | None:
        """The line of a name; None where it does not hold here."""
        return next((line for line in self.lines if line.name == name), None)


def sections(result: Result, *, lone: bool) -> list[Section]:
    """The sections of a result, numbered from 1; none where the point was not computed. ``lone``: of a lone anchor."""
    governing = result.get("governing", {}).get("mode")
    return [
        _section(number, made, governs=governing is not None and made.get("mode") == governing, lone=lone)
        for number, made in enumerate(result.get("trace", ()), 1)
    ]


def _section(number: int, made: Result, *, governs: bool, lone: bool) -> Section:
    numbers = _numbers(made["lines"])
    mode = MODE_TEXTS.get(made.get("mode", ""), "")
    lines = _without_zeros(made, [_line(line, numbers) for line in made["lines"]])
    return Section(
        number=number,
        kind=(made["record"], made.get("load_case", "")),
        anchor=made.get("anchor"),
        title=made["title"],
        mode=mode,
        clause=made.get("clause", ""),
        about=_about(made, lone=lone),
        governs=governs,
        is_unloaded=all(_is_nothing(line.value) for line in lines if line.unit.startswith(_FORCE)),
        lines=lines,
        rows=made.get("rows", ()),
        converted=made.get("converted", {}),
    )


def _without_zeros(made: Result, lines: Sequence[Line]) -> Sequence[Line]:
    """Lines of what hangs and pulls with those marked that are loads of 0, and formulas without their terms.

    A mode has all of its lines, and a section keeps at least what it comes to.
    """
    if "mode" in made:
        return lines
    zeros: set[str] = set()
    factors = {line.name for line in lines if _is_factor(line) and _is_nothing(line.value)}
    shown: list[Line] = []
    for line in lines:
        rest = None if line.taken is None else without(line.taken.tree, zeros)
        gone = rest is None or without(rest, factors) is None
        nothing = line.is_given or (gone if line.taken is not None else made["axis"] == _OF_LOADS)
        if nothing and line.unit.startswith(_FORCE) and _is_nothing(line.value):
            zeros.add(line.name)
            shown.append(replace(line, left_out=True))
        elif line.taken is not None and rest is not None:
            shown.append(replace(line, taken=replace(line.taken, tree=rest)))
        else:
            shown.append(line)
    if all(line.is_given or line.left_out for line in shown):
        shown[-1] = lines[-1]
    idle = _names(lines) - _names([line for line in shown if not line.left_out])
    return [replace(line, left_out=True) if _is_idle(line) and line.name in idle else line for line in shown]


def _names(lines: Iterable[Line]) -> set[str]:
    """What formulas and their conditions name."""
    trees = [
        tree for line in lines if line.taken for tree in (line.taken.tree, *(each for each, _ in line.taken.because))
    ]
    return {node.id for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Name)}


def _is_factor(line: Line) -> bool:
    return line.is_given and not line.unit and isinstance(line.value, int | float) and not isinstance(line.value, bool)


def _is_idle(line: Line) -> bool:
    """Whether a line says nothing where no formula that is shown has it."""
    return line.is_given and not line.unit and isinstance(line.value, bool | int | float | Mapping)


def _is_nothing(value: Any) -> bool:
    """Whether a number is 0, at every place where it has several."""
    if isinstance(value, Mapping):
        return all(map(_is_nothing, cast(Mapping[str, Any], value).values()))
    return isinstance(value, int | float) and not isinstance(value, bool) and value == 0


def _about(made: Result, *, lone: bool) -> list[str]:
    about = [f"load case {made['load_case']}"] if "load_case" in made else []
    about += [edge_text(made["edge"])] if "edge" in made else []
    own = made["anchors"] if "anchors" in made else [made["anchor"]] if "anchor" in made else ()
    return [*about, *anchors_text(own, made.get("points", ()), lone=lone)]


def edge_text(edge: str) -> str:
    """An edge by the side of the origin that it is on."""
    return f"edge at {side(edge)}"


def side(edge: str) -> str:
    """A side of the origin with its sign; other places of a record in words."""
    return SIDES.get(edge, edge.replace("_", " "))


def anchors_text(own: Sequence[int], points: Sequence[str], *, lone: bool) -> list[str]:
    """Anchors by their place in the layout, counted from 1, and the points whose anchors act with them.

    A lone anchor (``lone``) has no number.
    """
    numbers = ", ".join(str(each + 1) for each in own)
    named = [f"{'anchors' if len(own) > 1 else 'anchor'} {numbers}"] if own and not lone else []
    return [*named, f"together with {', '.join(points)}"] if points else named


def _line(line: Result, numbers: Numbers) -> Line:
    kind = line["kind"]
    return Line(
        name=line["name"],
        symbol=line["symbol"],
        unit=line["unit"],
        clause=line.get("clause", ""),
        value=line["value"],
        code=line.get("code"),
        taken=taken(line["formula"], numbers) if kind == "formula" else None,
        how=PROCEDURES.get(line["procedure"], line["procedure"]) if kind == "procedure" else "",
    )


def _numbers(lines: Sequence[Result]) -> dict[str, float]:
    found: dict[str, float] = {}
    for line in lines:
        value = line.get("code", line["value"])
        if isinstance(value, bool | int | float):
            found[line["name"]] = float(value)
        elif isinstance(value, str):
            found[line["name"]] = math.inf
        elif (held := flag(value)) is not None:
            found[line["name"]] = float(held)
    return found


def flag(value: Any) -> bool | None:
    """A flag, which may be the same at every place; None of anything else."""
    if isinstance(value, Mapping):
        first, *others = cast(Mapping[str, Any], value).values()
        return flag(first) if all(each is first for each in others) else None
    return value if isinstance(value, bool) else None
