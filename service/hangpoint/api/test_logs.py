"""The answer to a filled log of proof tests."""

from collections import Counter
from typing import Any

import numpy as np

from hangpoint import __version__
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.schemas.test_logs import LogRequest
from hangpoint.api.site_items import read_site_items
from hangpoint.api.state import State
from hangpoint.core.site.proof_rules import PROOF_RULES
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack import proof_plan
from hangpoint.pack.proof_log import judged_rows, pack_proof_log, retests
from hangpoint.pack.pull import convert, out_of_range, range_text
from hangpoint.units import LENGTH, PRINTED

_ORDER = "Tests stand in the order in which they were made; of an unstated crew or day they are one crew's day."
_LOADS = "Test loads are those that the log states; they are not compared with a plan."
_GAUGE = "A load within a thousandth of the test load is reached: a gauge is read no finer."


def run_test_logs(body: bytes, state: State) -> dict[str, Any]:
    """Judge every test of a body.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    read = read_site_items(
        LogRequest,
        body,
        limits=state.limits,
        pack=lambda rows, batch: pack_proof_log(
            rows, rule=PROOF_RULES[batch.others["rule"]], limit=_limit(batch.others, batch.units)
        ),
    )
    name = str(read.batch.others["rule"])
    rule, own = PROOF_RULES[name], read.packed
    traced = read.batch.detail == "trace" or (read.batch.detail is None and len(read.batch.items) == 1)
    rows = judged_rows(own, read.index, read.batch.units, traced=traced)
    counts = Counter(row["outcome"] for row in rows)
    return {
        "engine_version": __version__,
        "units": PRINTED[read.batch.units],
        "rule": proof_plan.rule_result(name, rule),
        "summary": {
            "total": len(read.batch.items),
            **{word: counts[word] for word in ("passed", "failed", "repeat", "overloaded", "open")},
            "invalid": len(read.invalid),
        },
        "assumptions": {"order-of-tests": _ORDER, "gauge": _GAUGE, "loads-as-stated": _LOADS},
        "cautions": [*CAUTIONS, proof_plan.STAND_CLEAR],
        "acceptance": [rule.acceptance, proof_plan.WITNESSED],
        "after_failure": proof_plan.after_failure(rule),
        "retests": retests(own, rule, complete=not read.invalid),
        "items": read.in_order(rows),
    }


def _limit(stated: Any, system: Any) -> Any:
    """The displacement that fails a test, in; infinite where none is stated."""
    value = convert([stated.get("displacement_limit")], LENGTH, system, absent=np.inf)
    if out_of_range(value, LENGTH).any():
        text = range_text(LENGTH, system)
        error = FieldError(pointer="#/displacement_limit", code="quantity", detail=text)
        raise ProblemError("quantity", f"#/displacement_limit: {text}", errors=[error])
    return value[0]
