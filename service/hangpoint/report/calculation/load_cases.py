"""The load cases that a sheet's loads were combined by, each by its factors and source."""

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

from hangpoint.report.paper import listed
from hangpoint.report.printable import on_page

_SERVICE = "ASCE 7 2.4"
"""Sources of the combinations of allowable-stress design have this."""
_RULE = "5W+250lb"
_LETTERS: Mapping[str, str] = {
    "D": "dead load",
    "L": "live load",
    "Lr": "roof live load",
    "S": "snow",
    "W": "wind",
    "T": "thermal load",
    "Eh": "earthquake",
    "Ev": "0.2 S_DS D",
}
_EN_LETTERS: Mapping[str, str] = {
    "G": "dead load",
    "C": "contents of pipes",
    "L": "imposed load",
    "Lr": "imposed load of a roof",
    "S": "snow",
    "W": "wind",
    "T": "thermal load",
    "AEd": "earthquake",
}
_NATURES: Mapping[str, str] = {
    "Lr": "roof_live",
    "S": "snow",
    "W": "wind",
    "T": "thermal",
    "Eh": "earthquake",
    "Ev": "vertical",
    "AEd": "earthquake",
}
"""Members of a load case by the letter of the load that they are the factor of."""


def load_cases(answer: Mapping[str, Any], *, service: bool, ruled: bool, by_en: bool) -> str:
    """The load cases of an answer under their sources.

    Args:
        answer: a check.
        service: those of allowable-stress design, where both are in it.
        ruled: the rule for sprinkler lines is one of them.
        by_en: the combinations are those of EN 1990.
    """
    own = {name: case for name, case in answer["load_cases"].items() if _is_of(name, case, service, ruled)}
    if not own:
        return ""
    lines = [f"{source}: {'; '.join(names)}." for source, names in _by_source(own)]
    return listed("Load cases of the request", map(on_page, [*lines, *_legend(own, by_en=by_en)]))


def _is_of(name: str, case: Mapping[str, Any], service: bool, ruled: bool) -> bool:
    if case["as_given"]:
        return True
    return (_SERVICE in case["source"]) == service and (ruled or name != _RULE)


def _by_source(cases: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[str, list[str]]]:
    ordered = sorted(cases, key=lambda name: cases[name]["source"])
    for source, names in groupby(ordered, key=lambda name: cases[name]["source"]):
        yield str(source), list(names)


def _legend(cases: Mapping[str, Mapping[str, Any]], *, by_en: bool) -> Iterator[str]:
    """What the letters of their names stand for."""
    if all(case["as_given"] for case in cases.values()):
        return
    letters = _EN_LETTERS if by_en else _LETTERS
    named = [
        f"{letter} {word}"
        for letter, word in letters.items()
        if letter not in _NATURES or any(case.get(_NATURES[letter]) for case in cases.values())
    ]
    contents = "" if by_en else " Contents of pipes have the factor of D."
    yield f"A case is named by its factors: {', '.join(named)}.{contents}"
