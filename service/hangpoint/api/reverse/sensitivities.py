"""One item and changes of it side by side: those that a request names, or the usual ones."""

from collections.abc import Mapping
from typing import Any, cast

import orjson

from hangpoint.api.bodies import row_errors
from hangpoint.api.problems import FieldError
from hangpoint.api.reverse.asked import Asked, placed, read_asked, unanswerable
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.probes import Outcome, probe
from hangpoint.api.reverse.usual import usual_changes
from hangpoint.api.reverse.words import outcome_json
from hangpoint.api.schemas.sensitivities import SensitivitiesRequest
from hangpoint.core.vocabulary import Status
from hangpoint.product.catalogue import Catalogue

_SHOWN = (
    ("base", "strength"),
    ("base", "state"),
    ("base", "density"),
    ("base", "lambda"),
    ("base", "thickness"),
    ("base", "supplementary"),
    ("seismic", "category"),
)
"""Places of an item that nobody builds or chooses: the engineer shows them."""


def run_sensitivities(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body and check its item with each change.

    Raises:
        ProblemError: the body can't be read, or the item as stated can't be checked.
    """
    asked = read_asked(SensitivitiesRequest, body, catalogue)
    named = "changes" in asked.body
    changes: list[Mapping[str, Any]] = asked.body["changes"] if named else list(usual_changes(asked))
    if named:
        _printable(changes)
    items = [merged(asked.item, each["patch"]) for each in changes]
    probes = probe(items, asked.situation, errors=_errors(items) if named else None)
    rows = [(each, probes.outcome(row)) for row, each in enumerate(changes)]
    if not named:
        rows = [(each, outcome) for each, outcome in rows if outcome.status is not Status.INVALID]
    told = [item for row, item in enumerate(items) if probes.outcome(row).status is not Status.INVALID]
    return asked.head(told) | {
        "changes": [_sensitivity(each, outcome, row, asked) for row, (each, outcome) in enumerate(rows)]
    }


def _printable(changes: list[Mapping[str, Any]]) -> None:
    """Refuse a patch that no answer could repeat."""
    for row, each in enumerate(changes):
        try:
            orjson.dumps(each["patch"])
        except TypeError:
            raise unanswerable(f"#/changes/{row}/patch", "An integer exceeds 64 bits.", code="out-of-range") from None


def _errors(items: list[Any]) -> Mapping[int, list[FieldError]]:
    """What is not of the schema in changed items, by row."""
    return {row: list(found) for row, found in row_errors(items).items()}


def _sensitivity(change: Mapping[str, Any], outcome: Outcome, row: int, asked: Asked) -> dict[str, Any]:
    if outcome.problem is not None:
        problem = placed(outcome.problem, f"#/changes/{row}/patch")
        outcome = Outcome(status=outcome.status, problem=problem)
    made: dict[str, Any] = {
        "name": change["name"],
        "by_engineer": any(_touches(change["patch"], path) for path in _SHOWN),
        "outcome": outcome_json(outcome),
        "patch": change["patch"],
    }
    if outcome.utilisation is not None and asked.stated.utilisation is not None:
        made["difference"] = outcome.utilisation - asked.stated.utilisation
    return made


def _touches(patch: Mapping[str, Any], path: tuple[str, ...]) -> bool:
    """Whether a patch changes what is at a place, or takes away or replaces what it is in."""
    found: Any = patch
    for name in path:
        if not isinstance(found, Mapping):
            return True
        own = cast(Mapping[str, Any], found)
        if name not in own:
            return False
        found = own[name]
    return True
