"""The sections of a calculation sheet, made of the trace of a result. Nothing of it is markup."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.core.outcome import SIDES
from hangpoint.core.vocabulary import MODE_TEXTS
from hangpoint.report.calculation.formula import Numbers, Taken, taken
from hangpoint.report.calculation.procedures import PROCEDURES

Result = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One number. ``value`` is a number, a word, a bool, or one of these by place; ``code`` stands for a word.

    Of a formula ``taken`` is what it was of these numbers, of a procedure ``how`` the sentence.
    """

    name: str
    symbol: str
    unit: str
    clause: str
    value: Any
    code: int | None = None
    taken: Taken | None = None
    how: str = ""

    @property
    def is_given(self) -> bool:
        """Whether it comes from the request, the product or another section."""
        return self.taken is None and not self.how


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One record of the trace.

    ``about`` says which load case, edge and anchors it is of. ``rows`` are all sets of anchors that a mode was checked
    for. ``converted`` are strength and demand in the units of the request, where these are others.
    """

    number: int
    title: str
    mode: str
    clause: str
    about: Sequence[str]
    governs: bool
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
    return Section(
        number=number,
        title=made["title"],
        mode=mode,
        clause=made.get("clause", ""),
        about=_about(made, lone=lone),
        governs=governs,
        lines=[_line(line, numbers) for line in made["lines"]],
        rows=made.get("rows", ()),
        converted=made.get("converted", {}),
    )


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
    return found
