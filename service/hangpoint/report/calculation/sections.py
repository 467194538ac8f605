"""The sections of a calculation sheet, made of the trace of a result. Nothing of it is markup."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

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


def sections(result: Result) -> list[Section]:
    """The sections of a result, numbered from 1; none where the point was not computed."""
    governing = result.get("governing", {}).get("mode")
    return [
        _section(number, made, governs=governing is not None and made.get("mode") == governing)
        for number, made in enumerate(result.get("trace", ()), 1)
    ]


def _section(number: int, made: Result, *, governs: bool) -> Section:
    numbers = _numbers(made["lines"])
    mode = MODE_TEXTS.get(made.get("mode", ""), "")
    return Section(
        number=number,
        title=made["title"],
        mode=mode,
        clause=made.get("clause", ""),
        about=list(_about(made)),
        governs=governs,
        lines=[_line(line, numbers) for line in made["lines"]],
        rows=made.get("rows", ()),
        converted=made.get("converted", {}),
    )


def _about(made: Result) -> Sequence[str]:
    about: list[str] = []
    if "load_case" in made:
        about.append(f"load case {made['load_case']}")
    if "edge" in made:
        about.append(f"edge {made['edge']}")
    if "anchors" in made:
        about.append(f"anchors {listed(made['anchors'])}")
    if "anchor" in made:
        about.append(f"anchor {made['anchor']}")
    if "points" in made:
        about.append(f"with the anchors of {', '.join(made['points'])}")
    return about


def listed(anchors: Sequence[int]) -> str:
    """Anchors by their place in the layout, which counts from 0."""
    return ", ".join(map(str, anchors))


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
