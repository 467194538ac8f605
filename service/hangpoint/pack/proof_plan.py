"""A plan of proof tests as it is answered: groups, the blank log, items."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.site.proof_load import ProofLoad, support_distance
from hangpoint.core.site.proof_rules import ProofRule
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.proof_items import PLACES, ProofItems, ProofSample
from hangpoint.pack.trace import record_section
from hangpoint.product.product_row import PRINCIPLES
from hangpoint.units import FORCE, LENGTH, System

METHODS = {
    "confined": "Pull against a plate close to the anchor, with a hole a little larger than the anchor's: the bond is"
    " tested, not the concrete (ASTM E488/E488M, from memory).",
    "unconfined": "Pull with every support of the jack clear of the anchor by two embedments, so that nothing presses"
    " on the cone of the concrete (ASTM E488/E488M, from memory).",
}
TORQUE = (
    "Instead of pulling: the installation torque is reached on a calibrated wrench within half a turn of the nut (from"
    " memory); the special inspector watches."
)
AFTER_FAILURE = (
    "The anchor that failed is taken out of use and replaced as the engineer says.",
    "Every anchor that this crew set on this day is tested until {row} in a row pass (from memory).",
    "Who set it finds the cause before more are set; the engineer of record and the special inspector are told.",
)
STAND_CLEAR = "Nobody stands below or in line with the jack while an anchor is tested; the load rises slowly."
WITNESSED = "The special inspector watches the tests and signs the log; a calibrated jack and gauge, with its date."


CURE = (
    "No adhesive anchor is tested before its cure time at the temperature of the base is over, by the product's"
    " instructions."
)


def cautions(items: ProofItems) -> list[str]:
    """What is said to whoever tests the anchors of a plan."""
    return [STAND_CLEAR, *([CURE] if items.anchors.products.bonded.any() else [])]


def rule_result(name: str, rule: ProofRule) -> dict[str, Any]:
    """A rule as it stands in an answer."""
    return {
        "name": name,
        "title": rule.title,
        "source": rule.source,
        "from_memory": rule.from_memory,
        "factors": dict(rule.factors),
        "percent": dict(rule.percent),
        "hold_seconds": rule.hold,
        "yield_share": rule.yield_share,
        "passes_in_a_row": rule.passes_in_a_row,
        "acceptance": rule.acceptance,
    }


def after_failure(rule: ProofRule) -> list[str]:
    """What follows a failure."""
    return [text.format(row=rule.passes_in_a_row) for text in AFTER_FAILURE]


def plan_groups(items: ProofItems, chosen: ProofSample, rule: ProofRule, system: System) -> list[dict[str, Any]]:
    """Groups with their number of tests and the method."""
    first = np.array(items.group_first, dtype=np.intp)
    clear = support_distance(h_ef=items.anchors.products.h_ef[first])
    distance = in_request_units(clear.clear, LENGTH, system).tolist()
    made: list[dict[str, Any]] = []
    for group, item in enumerate(items.group_first):
        method = _method(items, item)
        count = chosen.count
        own: dict[str, Any] = {
            "group": group,
            "product": items.anchors.addresses[item],
            "base": items.base_texts[item],
            "use": items.use[item],
            "installed": int(count.installed[group]),
            "percent": int(count.percent[group]),
            "strata": int(count.strata[group]),
            "tests": int(count.tests[group]),
            "method": method,
            "method_text": " ".join(filter(None, (METHODS[method], rule.supports))),
            "trace": [record_section(count, group)],
        }
        if method == "unconfined":
            own["support_distance"] = distance[group]
            own["trace"].append(record_section(clear, group))
        if rule.torque and _principle(items, item) == "torque_controlled_expansion":
            own["torque_alternative"] = TORQUE
        made.append(own)
    return made


def plan_log(
    items: ProofItems, chosen: ProofSample, rule: ProofRule, system: System, *, traced: bool
) -> list[dict[str, Any]]:
    """A row for each test, to be filled in."""
    load = in_request_units(items.load.test_load, FORCE, system).tolist()
    most = in_request_units(items.load.most, FORCE, system).tolist()
    rows: list[dict[str, Any]] = []
    for anchor in chosen.tested:
        item = int(items.item[anchor])
        row: dict[str, Any] = {
            "id": items.ids[anchor],
            "group": items.group[item],
            "product": items.anchors.addresses[item],
            "use": items.use[item],
            **stated_places(items.places[item]),
            "method": _method(items, item),
            "test_load": load[item],
            "most_load": most[item],
            "hold_seconds": rule.hold,
            "findings": [*load_findings(items.load, rule, item), *_beyond_rule(items, rule, item)],
        }
        rows.append(row | ({"trace": [record_section(items.load, item)]} if traced else {}))
    return rows


def plan_items(items: ProofItems, chosen: ProofSample, index: Sequence[int]) -> list[dict[str, Any]]:
    """Of each item its group, and which of its anchors are tested."""
    tested: list[list[str]] = [[] for _ in items.item_ids]
    for anchor in chosen.tested:
        tested[int(items.item[anchor])].append(items.ids[anchor])
    number = items.anchors.layouts.count.tolist()
    return [
        {
            "id": own,
            "index": index[at],
            "status": "planned",
            "group": items.group[at],
            "anchors": number[at],
            "tested": tested[at],
        }
        for at, own in enumerate(items.item_ids)
    ]


def stated_places(places: Sequence[str | None]) -> Mapping[str, str]:
    """Level, area, crew and day that are stated, by name."""
    return {name: value for name, value in zip(PLACES, places, strict=True) if value is not None}


def load_findings(load: ProofLoad, rule: ProofRule, at: int) -> list[dict[str, str]]:
    """What is seen of a test load: cut by the steel, and below what it is for."""
    found = (
        (CAPPED, load.capped[at]),
        (BELOW_LEAST, load.yield_known[at] and rule.least_load > load.most[at]),
        (BELOW_LOAD, load.below_load[at]),
    )
    return [text for text, holds in found if holds]


def _beyond_rule(items: ProofItems, rule: ProofRule, item: int) -> list[dict[str, str]]:
    cast_in = rule.post_installed and not items.anchors.products.post_installed[item]
    elsewhere = rule.masonry and items.kinds[item] not in (None, "masonry")
    return [text for text, holds in ((CAST_IN, cast_in), (NOT_MASONRY, elsewhere)) if holds]


CAST_IN = {
    "code": "rule-for-post-installed",
    "text": "The rule is for anchors that are set into hardened concrete: a cast-in anchor is tested only where the"
    " engineer asks for it.",
}
NOT_MASONRY = {
    "code": "rule-for-masonry",
    "text": "The rule is for anchors in walls of unreinforced masonry: in another base one is tested by it only where"
    " the engineer asks for it.",
}
CAPPED = {
    "code": "capped-by-yield",
    "text": "The load of the rule is cut to the share of A_se f_ya that no test exceeds.",
}
BELOW_LEAST = {
    "code": "below-the-least-of-the-rule",
    "text": "The cap lies below the least load of the rule: this anchor can't meet the rule, the engineer decides.",
}
BELOW_LOAD = {
    "code": "below-the-load",
    "text": "The cap lies below the load itself: a test that passes does not show that this anchor carries it, the"
    " engineer decides.",
}

FINDINGS = (CAST_IN, CAPPED, BELOW_LEAST, BELOW_LOAD)
"""What a plan finds of a test whatever it stands in."""


def _principle(items: ProofItems, item: int) -> str:
    return PRINCIPLES[int(items.anchors.table.principle[item])]


def _method(items: ProofItems, item: int) -> str:
    return "confined" if items.confined[item] else "unconfined"
