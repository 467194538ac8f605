"""The answer to a filled log of proof tests."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, cast

import numpy as np

from hangpoint import __version__
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.api.csv_header import CsvForm
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.schemas.test_logs import LogRequest, PartialTest, TestRow
from hangpoint.api.site_items import pack_site_items
from hangpoint.api.state import State
from hangpoint.core.site.proof_rules import PROOF_RULES
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack import proof_plan
from hangpoint.pack.proof_log import JUDGEMENTS, judged_rows, pack_proof_log, retests
from hangpoint.pack.pull import convert, out_of_range, range_text
from hangpoint.units import LENGTH, PRINTED

_ORDER = "Tests stand in the order in which they were made; of an unstated crew or day they are one crew's day."
_LOADS = "Test loads are those that the log states; they are not compared with a plan."
_GAUGE = "A load within a thousandth of the test load is reached: a gauge is read no finer."


MADE = ("findings", "outcome", "problem")
"""Columns that a plan or the judgement has made: no test states them."""
LOG_FORM = CsvForm(
    item=TestRow,
    partial=PartialTest,
    request=LogRequest,
    required=("id", "test_load"),
    made=MADE,
    guarded=True,
    what="test",
    listed="The columns are those of the log that POST /v1/test-plans writes with format=csv.",
)
"""A filled log as CSV."""
_OF_PLAN = {each["code"]: each["text"] for each in proof_plan.FINDINGS}
_OF_JUDGEMENT = {each["code"] for each in JUDGEMENTS}


def run_test_logs(body: bytes, state: State) -> dict[str, Any]:
    """Judge every test of a body.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    return _judged(read_items(LogRequest, body), state)


def run_test_logs_csv(
    body: bytes, options: CsvOptions, head: Mapping[str, Any], state: State
) -> tuple[dict[str, Any], Sequence[tuple[str, Sequence[str | None]]]]:
    """Judge every test of a CSV, and the columns of it that are handed back; ``head`` is what its query states.

    Raises:
        ProblemError: as `run_test_logs`.
    """
    batch = read_csv(body, options, LOG_FORM)
    beside = [] if batch.source is None else batch.source.handed_back(len(batch.items))
    cells = next((own for title, own in beside if title.casefold() == "findings"), None)
    items = batch.items if cells is None else [_with_findings(*each) for each in zip(batch.items, cells, strict=True)]
    others = [each for each in beside if each[0].casefold() not in MADE]
    return _judged(replace(batch, items=items, others=head), state), others


def _with_findings(item: Any, cell: str | None) -> Any:
    """A row with the findings of its plan, by their codes; those of a judgement are made anew."""
    codes = [code for part in (cell or "").split(";") if (code := part.strip()) and code not in _OF_JUDGEMENT]
    if not codes or not isinstance(item, dict):
        return item
    noted = [{"code": code, "text": _OF_PLAN.get(code, "As the log has it.")} for code in codes]
    return {**cast(dict[str, Any], item), "findings": noted}


def _judged(batch: Batch, state: State) -> dict[str, Any]:
    read = pack_site_items(
        batch,
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
