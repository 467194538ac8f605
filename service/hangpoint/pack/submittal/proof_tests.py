"""The items of a test plan out of a check: the load of each anchor on the basis that the rule takes.

Only an anchor whose load the check knows by itself is planned; all others are listed with why they are not.
"""

from collections.abc import Hashable, Mapping, Sequence
from typing import Any

from hangpoint.core.site.proof_rules import ProofRule
from hangpoint.core.vocabulary import BOLT_TENSION_MODES, EN_TENSION_MODES, TENSION_MODES, Mode, NotTested, Status
from hangpoint.pack.load_map import set_of

Item = Mapping[str, Any]

_IN_TENSION = {
    "strength": frozenset(mode.value.code for mode in (*TENSION_MODES, *BOLT_TENSION_MODES)),
    "allowable": frozenset(mode.value.code for mode in (Mode.TABLE_TENSION, *BOLT_TENSION_MODES)),
}
"""Modes whose least strength is that of an anchor in tension, by the level of its loads."""
_OF_ANOTHER_CODE = frozenset(mode.value.code for mode in EN_TENSION_MODES)
"""A design strength by EN 1992-4 is none that a rule has a factor for."""
_OF_STRENGTH = {"strength": "design_strength", "allowable": "allowable"}
"""The basis that the least strength of an anchor has, by the level of its loads."""


def planned(
    rule: ProofRule,
    results: Sequence[Item],
    mapped: Sequence[Item],
    stated: Sequence[Any],
    *,
    defaults: Item,
    use: str | None,
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Items of a test plan, and the points without a test.

    Args:
        rule: of the tests.
        results: of the check, with their modes.
        mapped: items of the load map, a row each as the results.
        stated: the items as they were stated, a row each.
        defaults: of the items.
        use: of the anchors, None where nothing is stated.
    """
    items: list[dict[str, Any]] = []
    left: list[dict[str, Any]] = []
    valid = [pair for pair in zip(results, mapped, strict=True) if pair[0]["status"] != Status.INVALID]
    loads: list[tuple[str, float] | NotTested] = []
    for result, on_map in valid:
        own = stated[result["index"]]
        several = any("layout" in each.get("anchor", {}) for each in (own, defaults))
        loads.append(_load(rule, result, on_map, several=several))
    for (result, on_map), found in zip(valid, _once([_anchor_of(on_map) for _, on_map in valid], loads), strict=True):
        own = stated[result["index"]]
        if isinstance(found, NotTested):
            left.append({"id": result["id"], "index": result["index"], "reason": _said(found)})
            continue
        basis, load = found
        item = {"id": result["id"], "basis": basis, "load": load} | anchors_of(own)
        items.append(
            item | {name: on_map[name] for name in ("level",) if name in on_map} | ({"use": use} if use else {})
        )
    return items, left


def _anchor_of(on_map: Item) -> Hashable:
    """What points that are one anchor have in common, None of one that names no other."""
    own = set_of(on_map)
    return None if own is None else (own, on_map.get("product", {}).get("address"))


def _once(
    sets: Sequence[Hashable], loads: Sequence[tuple[str, float] | NotTested]
) -> list[tuple[str, float] | NotTested]:
    """The loads with each anchor once: of points that are one anchor the first with the largest, and none is tested
    where one of them does not pass.
    """
    found = list(loads)
    alike: dict[Hashable, list[int]] = {}
    for at, own in enumerate(sets):
        if own is not None:
            alike.setdefault(own, []).append(at)
    for rows in alike.values():
        if any(loads[at] is NotTested.NOT_PASSED for at in rows):
            found = [NotTested.NOT_PASSED if at in rows else each for at, each in enumerate(found)]
            continue
        tested = {at: own[1] for at in rows if not isinstance(own := loads[at], NotTested)}
        for at in tested:
            if at != max(tested, key=tested.__getitem__):
                found[at] = NotTested.ALTERNATIVE
    return found


def anchors_of(stated: Item) -> dict[str, Any]:
    """What an item, or the defaults of a request, state of the anchor and what it is set in."""
    return {name: stated[name] for name in ("anchor", "base") if name in stated}


def _said(reason: NotTested) -> dict[str, str]:
    return {"code": reason.value.code, "text": reason.value.text}


def _load(rule: ProofRule, result: Item, on_map: Item, *, several: bool) -> tuple[str, float] | NotTested:
    """The basis and the load of the anchor of a point, in the units of the request, or why there is none."""
    if result["status"] != Status.PASSED:
        return NotTested.NOT_PASSED
    if several:
        return NotTested.SEVERAL_ANCHORS
    basis, load = _by_rule(rule, result, on_map)
    if basis is None:
        return NotTested.NO_BASIS
    if basis in _OF_STRENGTH.values() and result.get("neighbours", {}).get("together"):
        return NotTested.SHARED_CONCRETE
    if basis == "working" and on_map.get("beside"):
        return NotTested.OTHER_LOADS
    return (basis, load) if load > 0 else NotTested.NO_TENSION


def _by_rule(rule: ProofRule, result: Item, on_map: Item) -> tuple[str | None, float]:
    """By the working load, the load of the design, or the least strength in tension, whichever the rule takes."""
    demand = result["demand"]
    if "working" in rule.factors:
        return "working", on_map.get("on_structure", 0.0)
    if "design" in rule.factors:
        return "design", demand["factored_tension"]
    if any(mode["mode"] in _OF_ANOTHER_CODE for mode in result.get("modes", ())):
        return None, 0.0
    basis = _OF_STRENGTH[demand["level"]]
    modes = _IN_TENSION[demand["level"]]
    strengths = [
        mode["design_strength"] for mode in result.get("modes", ()) if mode["applies"] and mode["mode"] in modes
    ]
    return (basis if basis in rule.factors else None), min(strengths, default=0.0)
