"""The answer to a request for a plan of proof tests."""

from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import MAX_BATCH_ANCHORS
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.concrete_at_test import AboveConcrete, above_concrete
from hangpoint.api.problems import too_many
from hangpoint.api.schemas.test_plans import PlanRequest
from hangpoint.api.site_items import SiteItems, pack_site_items
from hangpoint.api.state import State
from hangpoint.core.site.proof_rules import PROOF_RULES
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack import proof_plan
from hangpoint.pack.proof_items import ProofItems, pack_proof_items, sample
from hangpoint.units import PRINTED

_USE = "Where an item states no use, its anchors are structural."
_SPREAD = (
    "Tests are spread over the stated levels, areas, crews and days, one of each at least, and chosen by the ids alone:"
    " the same request names the same anchors (common practice, no source)."
)
_LOAD = "That the stated load is what the rule means: it is taken as stated."
_CONCRETE = "Whether the concrete bears the test load: some items state no base, or none that can be checked."


def run_test_plans(body: bytes, state: State) -> dict[str, Any]:
    """Plan the tests of the installed anchors of a body.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch, catalogue = read_items(PlanRequest, body), state.catalogue
    return {
        "engine_version": __version__,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        **plan_of(batch, str(batch.others["rule"]), state),
    }


def plan_of(batch: Batch, name: str, state: State) -> dict[str, Any]:
    """The plan of items that have been read by the rule of a name, without the head of its answer.

    Raises:
        ProblemError: too many items, a duplicate id.
    """
    rule, catalogue, system = PROOF_RULES[name], state.catalogue, batch.units
    read = pack_site_items(
        batch, limits=state.limits, pack=lambda rows, _: pack_proof_items(rows, rule=rule, catalogue=catalogue)
    )
    own = read.packed
    if len(own.ids) > MAX_BATCH_ANCHORS:
        raise too_many("anchors", len(own.ids), MAX_BATCH_ANCHORS)
    chosen = sample(own, rule)
    traced = batch.detail == "trace" or (batch.detail is None and len(batch.items) == 1)
    log = proof_plan.plan_log(own, chosen, rule, system, traced=traced)
    concrete = above_concrete(own, chosen.tested, catalogue, system)
    for anchor, row in zip(chosen.tested, log, strict=True):
        row["findings"] += concrete.findings(anchor)
    return {
        "rule": proof_plan.rule_result(name, rule),
        "summary": _summary(read, log, concrete),
        "assumptions": {"spread": _SPREAD} | ({"use-assumed": _USE} if own.use_assumed else {}),
        "not_checked": {"load-as-stated": _LOAD} | ({"concrete": _CONCRETE} if concrete.unknown else {}),
        "cautions": [*CAUTIONS, *proof_plan.cautions(own)],
        "acceptance": [rule.acceptance, proof_plan.WITNESSED],
        "after_failure": proof_plan.after_failure(rule),
        "groups": proof_plan.plan_groups(own, chosen, rule, system),
        "log": log,
        "items": read.in_order(proof_plan.plan_items(own, chosen, read.index)),
    }


def _summary(read: SiteItems[ProofItems], log: list[dict[str, Any]], concrete: AboveConcrete) -> dict[str, int]:
    codes = [{each["code"] for each in row["findings"]} for row in log]
    return {
        "items": len(read.batch.items),
        "invalid": len(read.invalid),
        "anchors": len(read.packed.ids),
        "tests": len(log),
        "capped": sum(proof_plan.CAPPED["code"] in own for own in codes),
        "above_concrete": sum(concrete.CODE in own for own in codes),
    }
