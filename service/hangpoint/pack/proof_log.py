"""A filled log of proof tests: its columns, and its rows as they are answered."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf
from typing import Any

import numpy as np

from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.site.proof_result import ProofResult, passes_in_a_row, proof_result
from hangpoint.core.site.proof_rules import ProofRule
from hangpoint.pack.decoded import plain
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.proof_items import PLACES
from hangpoint.pack.proof_plan import stated_places
from hangpoint.pack.pull import Rows
from hangpoint.pack.trace import record_section
from hangpoint.units import DISPLACEMENT, FORCE, LENGTH, System

_ROUNDING = 1e-9
_GAUGE = 0.999
"""Share of a load that a gauge reads as the load."""
_ECHOED = ("group", "product", "use", "method", "notes", "moved", "inspector")

OVERLOADED = {
    "code": "overloaded",
    "text": "The load went above what the steel may take in a test: the engineer says whether the anchor may stay.",
}
SHORT = {"code": "load-not-reached", "text": "The test load was not reached, and nothing moved: test again."}
NOT_HELD = {"code": "not-held-long-enough", "text": "The load was not held for the time of the rule: test again."}
NOT_MEASURED = {
    "code": "displacement-not-measured",
    "text": "The displacement has a limit, and nobody states that it was measured: test again.",
}
MOVED = {"code": "moved", "text": "The anchor or the base moved, cracked or came loose: the test failed."}
BEYOND = {"code": "displacement-beyond-limit", "text": "The displacement is above the stated limit: the test failed."}
UNLIMITED = {
    "code": "displacement-without-limit",
    "text": "A displacement was measured, and nobody states its limit: it has no part in the result.",
}
JUDGEMENTS = (OVERLOADED, SHORT, NOT_HELD, NOT_MEASURED, MOVED, BEYOND, UNLIMITED)
"""What a judgement finds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofLog:
    """Tests in the order in which they were made; ``made`` are those with a load applied."""

    ids: Sequence[str]
    places: Sequence[tuple[str | None, ...]]
    echoed: Sequence[Mapping[str, Any]]
    noted: Sequence[Sequence[Any]]
    made: Bools
    held_stated: Bools
    measured: Bools
    result: ProofResult

    def outcome(self, at: int) -> str:
        """What a test shows."""
        if self.result.failed[at]:
            return "failed"
        if not self.made[at]:
            return "open"
        if self.result.overloaded[at]:
            return "overloaded"
        return "passed" if self.result.passed[at] else "repeat"


def pack_proof_log(items: Rows, *, rule: ProofRule, limit: Floats) -> ProofLog:
    """Columns of the tests; a hold that is stated shorter than that of the rule is that of the rule.

    Flaws: no test load, or one above what no test may exceed; a load applied without saying how long and whether
    anything moved.
    """
    test_load = items.quantity("test_load", FORCE, what="The test load", fill=0.0)
    applied = items.quantity("applied", FORCE)
    most = items.quantity("most_load", FORCE, fill=inf)
    made = np.isfinite(applied)
    held = items.numbers("held_seconds", np.nan)
    displacement = items.quantity("displacement", DISPLACEMENT)
    measured = np.isfinite(displacement)
    moved = items.values("moved")
    for at in range(len(items)):
        if test_load[at] <= 0 and items.values("test_load")[at] is not None:
            items.flaw(at, "test_load", "A test load is above zero.", slug="quantity")
        if most[at] < _GAUGE * test_load[at] or most[at] <= 0:
            items.flaw(at, "most_load", "The load that no test may exceed is not below the test load.", slug="quantity")
        if made[at] and applied[at] < 0:
            items.flaw(at, "applied", "A load applied is not below zero.", slug="quantity")
        if made[at] and moved[at] is None:
            items.flaw(at, "moved", "Say whether anything moved, cracked or came loose.", code="missing")
        if made[at] and np.isnan(held[at]):
            items.flaw(at, "held_seconds", "Say how long the load was held.", code="missing")
    count = len(items)
    result = proof_result(
        test_load=test_load,
        applied=np.where(made, applied, 0.0),
        hold=np.maximum(items.numbers("hold_seconds", rule.hold), rule.hold),
        held_for=np.where(np.isnan(held), 0.0, held),
        moved=np.array([word is True for word in moved], dtype=np.bool_),
        displacement=displacement,
        measured=measured,
        limit=np.full(count, limit),
        most=most,
    )
    names = {name: items.values(name) for name in _ECHOED}
    return ProofLog(
        ids=items.values("id"),
        places=list(zip(*(items.values(name) for name in PLACES), strict=True)),
        echoed=[{name: own[at] for name, own in names.items() if own[at] is not None} for at in range(count)],
        noted=plain([own or () for own in items.values("findings")]),
        made=made,
        held_stated=~np.isnan(held),
        measured=measured,
        result=result,
    )


def judged_rows(log: ProofLog, index: Sequence[int], system: System, *, traced: bool) -> list[dict[str, Any]]:
    """Each test with its outcome."""
    own = log.result
    forces = {name: _listed(getattr(own, name), FORCE, system) for name in ("test_load", "applied", "most")}
    displacement = _listed(own.displacement, LENGTH, system)
    rows: list[dict[str, Any]] = []
    for at, name in enumerate(log.ids):
        row: dict[str, Any] = {"id": name, "index": index[at], "status": "judged", "outcome": log.outcome(at)}
        row |= {**log.echoed[at], **stated_places(log.places[at])}
        row |= {"test_load": forces["test_load"][at], "hold_seconds": float(own.hold[at])}
        optional = {
            "most_load": (np.isfinite(own.most[at]), forces["most"][at]),
            "applied": (log.made[at], forces["applied"][at]),
            "held_seconds": (log.held_stated[at], float(own.held_for[at])),
            "displacement": (log.measured[at], displacement[at]),
        }
        row |= {key: value for key, (stated, value) in optional.items() if stated}
        row["findings"] = [*log.noted[at], *_findings(log, at)]
        rows.append(row | ({"trace": [record_section(own, at)]} if traced else {}))
    return rows


def retests(log: ProofLog, rule: ProofRule, *, complete: bool) -> list[dict[str, Any]]:
    """Crews' days with a failure, in the order of their first test; none is closed while tests can't be read."""
    days: dict[tuple[str | None, str | None], list[int]] = {}
    for at, (_, _, crew, day) in enumerate(log.places):
        days.setdefault((crew, day), []).append(at)
    made: list[dict[str, Any]] = []
    for (crew, day), tests in days.items():
        outcomes = [log.outcome(at) for at in tests]
        if "failed" not in outcomes:
            continue
        rows = [passes_in_a_row(row) for row in _like_the_failed(log, tests)]
        left = sum(max(rule.passes_in_a_row - row, 0) for row in rows)
        known = {key: value for key, value in (("crew", crew), ("day", day)) if value is not None}
        made.append(
            {
                **known,
                "failed": [log.ids[at] for at in tests if log.outcome(at) == "failed"],
                "passed_in_a_row": min(rows),
                "still_to_pass": left,
                "closed": complete and not left,
                "text": _retest_text(left, rule.passes_in_a_row, known=bool(known), complete=complete),
            }
        )
    return made


def _like_the_failed(log: ProofLog, tests: Sequence[int]) -> Iterator[list[str]]:
    """For each product and group that failed the outcomes of its crew's day: a pass of another, or at a lower load, is
    none."""
    loads: dict[Any, float] = {}
    for at in tests:
        if log.outcome(at) == "failed":
            loads[_kind(log, at)] = max(float(log.result.test_load[at]), loads.get(_kind(log, at), 0.0))
    for kind, least in loads.items():
        yield [
            "open"
            if log.outcome(at) == "passed"
            and (_kind(log, at) != kind or log.result.test_load[at] < least * (1 - _ROUNDING))
            else log.outcome(at)
            for at in tests
        ]


def _kind(log: ProofLog, at: int) -> Any:
    """The product of a test and its group, as far as they are stated: one product in two bases is two groups."""
    stated = log.echoed[at]
    return stated.get("product"), stated.get("group")


def _retest_text(left: int, row: int, *, known: bool, complete: bool) -> str:
    if not left and not complete:
        return "Some tests of the log can't be read: put them right before this is closed."
    if not left:
        return (
            f"{row} in a row of each product that failed have passed since the last failure, at no lower load (from"
            " memory): the engineer closes it."
        )
    whose = "this crew and day" if known else "the same crew and day, which the log does not name,"
    return (
        f"Test every anchor of {whose} until {row} in a row of each product that failed pass at no lower load (from"
        f" memory): {left} more."
    )


def _findings(log: ProofLog, at: int) -> list[dict[str, str]]:
    own = log.result
    repeat = log.outcome(at) == "repeat"
    found = (
        (MOVED, own.moved[at]),
        (BEYOND, own.beyond[at]),
        (SHORT, repeat and not own.reached[at]),
        (NOT_HELD, repeat and own.reached[at] and not own.held[at]),
        (NOT_MEASURED, repeat and not own.compared[at]),
        (UNLIMITED, own.displacement[at] > 0 and np.isinf(own.limit[at])),
        (OVERLOADED, own.overloaded[at]),
    )
    return [text for text, holds in found if holds]


def _listed(column: Floats, kind: Any, system: System) -> list[float]:
    return in_request_units(np.where(np.isfinite(column), column, 0.0), kind, system).tolist()
