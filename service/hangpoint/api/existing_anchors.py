"""The answer about anchors that are found in place."""

from collections import Counter
from typing import Any

from hangpoint import __version__
from hangpoint.api.schemas.existing_anchors import ExistingRequest
from hangpoint.api.site_items import read_site_items
from hangpoint.api.state import State
from hangpoint.core.site.proof_rules import PROOF_RULES
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack import proof_plan
from hangpoint.pack.existing_anchors import existing_items, existing_log, pack_existing
from hangpoint.units import PRINTED

_ALL = "Every anchor that nothing seen forbids is tested: an unknown one shows nothing of its neighbour."
_SILENT = "What is not stated counts as unknown; a face that is not stated is a soffit, a use structural."
_CAPACITY = "The capacity of an anchor: none is made from what is seen, and a test that passes gives none."


def run_existing_anchors(body: bytes, state: State) -> dict[str, Any]:
    """Say what is known of the anchors of a body, and plan their tests.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    read = read_site_items(
        ExistingRequest,
        body,
        limits=state.limits,
        pack=lambda rows, batch: pack_existing(rows, rule=PROOF_RULES[batch.others["rule"]]),
    )
    name = str(read.batch.others["rule"])
    rule, system, found = PROOF_RULES[name], read.batch.units, read.packed
    traced = read.batch.detail == "trace" or (read.batch.detail is None and len(read.batch.items) == 1)
    items = existing_items(found, read.index, system)
    log = existing_log(found, rule, system, traced=traced)
    counts = Counter(item["reuse"] for item in items)
    return {
        "engine_version": __version__,
        "units": PRINTED[system],
        "rule": proof_plan.rule_result(name, rule),
        "summary": {
            "items": len(read.batch.items),
            "invalid": len(read.invalid),
            **{word: counts[word] for word in ("may_be_considered", "not_yet", "not_considered")},
            "tests": len(log),
        },
        "assumptions": {"all-tested": _ALL, "silent-is-unknown": _SILENT},
        "not_checked": {"capacity": _CAPACITY},
        "cautions": [*CAUTIONS, proof_plan.STAND_CLEAR],
        "acceptance": [rule.acceptance, proof_plan.WITNESSED],
        "after_failure": [
            "An anchor that failed is not used, and the engineer says what that means for those like it."
        ],
        "log": log,
        "items": read.in_order(items),
    }
