"""Choices as JSON: candidates in their order, every rejected one with its reason in words, the nearest change."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np

from hangpoint.core.clauses import cited
from hangpoint.core.hang_point.verdict import SERVICE
from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Index
from hangpoint.core.selection.candidates import Wishes
from hangpoint.core.selection.changes import FoundChange, nearest_candidate
from hangpoint.core.selection.choice import Choice, order, strength_rejections
from hangpoint.core.selection.pairs import CAUTIONS, FINDINGS, MODES, NONE, TRIAGE
from hangpoint.core.selection.takes import Takes, takes
from hangpoint.core.vocabulary import Refusal
from hangpoint.core.vocabulary.selection import ENGINEER_TEXT, Change, Rejection
from hangpoint.core.vocabulary.words import Entry
from hangpoint.pack.allowables import PATHS
from hangpoint.pack.citing import citing_of
from hangpoint.pack.printed import CASE_NAMES, SERVICE_NAME, finite
from hangpoint.pack.selection.candidates import Label, Shelf
from hangpoint.pack.selection.why import why_nothing_holds
from hangpoint.product.principles import MM_PER_INCH
from hangpoint.units import KINDS, LENGTH, System, bare_factor

_REFUSALS = tuple(Refusal)
_REJECTIONS = tuple(Rejection)
SHARE_TEXT = "Hangers closer together, or more of them:"
OWN_ROD_TEXT = "Join the rod to a stud by a reducing coupling, or take a rod of the stud's thread."
COUPLING_TEXT = (
    "Join the rod to a stud by a reducing coupling; a rod of the stud's thread does not hold what hangs here."
)
_BY_UTILISATION = (Rejection.UTILISATION, Rejection.RESERVE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A choice with what its answer is written from; ``case_names`` are those of the load cases of its checks."""

    choice: Choice
    shelf: Shelf
    wishes: Wishes
    case_names: Sequence[str]
    system: System

    def ranked(self, at: int) -> Index:
        """Candidates that hold a situation, from the best on."""
        held = self.choice.holds[at]
        used = np.full(len(held), np.inf)
        used[held] = self.choice.checks.utilisation[self.choice.pair[at, held]]
        own = order(self.shelf.columns, self.wishes.objective, used)
        return own[held[own]]

    def takes(self, at: int, candidates: Index) -> Takes:
        """What each of some checked candidates takes at a situation."""
        own, points = self.shelf.columns, self.choice.points
        count = float(np.count_nonzero(points.layouts.point == at))
        return takes(
            anchors=np.full(len(candidates), count),
            cost_of_one=own.cost_index[candidates],
            minutes_of_one=own.minutes[candidates],
            hole_depth=own.hole_depth[candidates],
            utilisation=self.choice.checks.utilisation[self.choice.pair[at, candidates]],
        )

    def length(self, value: float) -> float:
        """A length in the unit of the request."""
        return _shown(value / bare_factor(LENGTH, self.system))

    def clause(self, entry: Entry, at: int) -> str:
        """The clause of an entry of a closed list at a situation."""
        return cited(entry.clause, citing_of(int(self.choice.points.method[at])))


def ranked_candidates(chosen: Chosen, at: int, most: int) -> list[dict[str, Any]]:
    """The best candidates of a situation."""
    candidates = chosen.ranked(at)[:most]
    own = chosen.takes(at, candidates)
    finite(own.utilisation)
    found: list[dict[str, Any]] = []
    rows: list[int] = candidates.tolist()
    for place, candidate in enumerate(rows):
        label = chosen.shelf.labels[candidate]
        pair = int(chosen.choice.pair[at, candidate])
        found.append(
            {
                "rank": place + 1,
                **product_json(label),
                "utilisation": float(own.utilisation[place]),
                "reserve": float(own.reserve[place]),
                "governing": governing_json(chosen, pair),
                **asides_json(chosen, pair),
                "anchors": int(own.anchors[place]),
                **_stated("cost_index", own.cost_index[place]),
                **_stated("minutes", own.minutes[place]),
                "drilled_depth": chosen.length(float(own.drilled_depth[place])),
                "needs": needs_json(label, chosen),
            }
        )
    return found


def asides_json(chosen: Chosen, pair: int) -> dict[str, list[str]]:
    """Codes of the cautions of a checked pair, and of what to ask the engineer about it."""
    checks = chosen.choice.checks
    return {
        "cautions": [CAUTIONS[at].value.code for at in np.flatnonzero(checks.cautions[pair])],
        "to_engineer": [TRIAGE[at].value.code for at in np.flatnonzero(checks.to_engineer[pair])],
    }


def _stated(name: str, value: float) -> dict[str, float]:
    return {name: float(value)} if np.isfinite(value) else {}


def product_json(label: Label) -> dict[str, Any]:
    """Which product a candidate is, and how a hang point names it."""
    family = label.family
    return {
        "product": label.address,
        "name": family.name,
        "data": "invented" if family.invented else "supplied",
        "principle": family.principle,
        "anchor": label.anchor,
    }


def needs_json(label: Label, chosen: Chosen) -> dict[str, Any]:
    """What it takes to set the product: hole, bit, tool, training, cleaning."""
    family, hole = label.family, label.embedment.hole
    factor = 1.0 if family.units == "us" else 1 / MM_PER_INCH
    made: dict[str, Any] = {"drilling": family.setting.drilling}
    if hole is not None:
        made["hole_diameter"] = chosen.length(hole.diameter * factor)
        made["hole_depth"] = chosen.length(hole.depth * factor)
    if family.setting.bit is not None:
        made["bit"] = family.setting.bit
    if family.traits.setting_tool is not None:
        made["setting_tool"] = family.traits.setting_tool
    return made | {
        "training": family.traits.training,
        "removable": family.traits.removable,
        "flush": family.traits.flush,
        "cleaning": list(family.setting.cleaning),
    }


def governing_json(chosen: Chosen, pair: int) -> dict[str, Any]:
    """The mode of anchor or base that governs a checked pair, in words."""
    checks = chosen.choice.checks
    mode = MODES[int(checks.mode[pair])].value
    case = _case(chosen, pair)
    return {"mode": mode.code, "load_case": case, "text": f"{mode.text} governs ({case})"}


def _case(chosen: Chosen, pair: int) -> str:
    at = int(chosen.choice.checks.load_case[pair])
    names = chosen.case_names or CASE_NAMES
    return SERVICE_NAME if at == SERVICE else names[at]


def rejected_candidates(chosen: Chosen, at: int) -> list[dict[str, Any]]:
    """Every candidate that a situation rejects, in the order of the catalogue, those with one reason together."""
    strength = strength_rejections(chosen.choice.checks, chosen.wishes.reserve)
    rejected: list[int] = np.flatnonzero(~chosen.choice.holds[at]).tolist()
    found: dict[tuple[tuple[str, Any], ...], list[str]] = {}
    for candidate in rejected:
        reason = _reason(chosen, at, candidate, strength)
        found.setdefault(tuple(reason.items()), []).append(chosen.shelf.labels[candidate].address)
    return [{"reason": dict(reason), "products": products} for reason, products in found.items()]


def _reason(chosen: Chosen, at: int, candidate: int, strength: Any) -> dict[str, Any]:
    choice, checks = chosen.choice, chosen.choice.checks
    trait, refusal, pair = (int(own[at, candidate]) for own in (choice.rejection, choice.refusal, choice.pair))
    if pair != NONE:
        refusal = int(checks.refusal[pair])
    if refusal != NONE:
        entry = _REFUSALS[refusal].value
        return {"kind": "refusal", "code": entry.code, "clause": chosen.clause(entry, at), "text": entry.of_candidate}
    if trait != NONE:
        return _trait_reason(chosen, at, candidate, _REJECTIONS[trait])
    if checks.violation[pair] != NONE:
        return _violation(chosen, at, pair)
    return _strength_reason(chosen, pair, _REJECTIONS[int(strength[pair])])


def _trait_reason(chosen: Chosen, at: int, candidate: int, rejection: Rejection) -> dict[str, Any]:
    entry = rejection.value
    reason = {"kind": "rejection", "code": entry.code, "clause": entry.clause, "text": entry.text}
    if not entry.quantity:
        return reason
    column = next(own for own in chosen.choice.traits if own.rejection is rejection)
    shape = chosen.choice.holds.shape
    value, limit = (float(np.broadcast_to(own, shape)[at, candidate]) for own in (column.value, column.limit))
    return reason | {"quantity": "length", "value": chosen.length(value), "limit": chosen.length(limit)}


def _violation(chosen: Chosen, at: int, pair: int) -> dict[str, Any]:
    checks = chosen.choice.checks
    entry = FINDINGS[int(checks.violation[pair])].value
    reason = {"kind": "violation", "code": entry.code, "clause": chosen.clause(entry, at), "text": entry.text}
    if entry.quantity:
        factor = bare_factor(KINDS[entry.quantity], chosen.system) if entry.quantity in KINDS else 1.0
        value, limit = float(checks.value[pair]) / factor, float(checks.limit[pair]) / factor
        reason |= {"quantity": entry.quantity, "value": _shown(value), "limit": _shown(limit)}
    return reason


def _strength_reason(chosen: Chosen, pair: int, rejection: Rejection) -> dict[str, Any]:
    checks, entry = chosen.choice.checks, rejection.value
    reason: dict[str, Any] = {"kind": "rejection", "code": entry.code, "clause": entry.clause, "text": entry.text}
    if rejection is Rejection.ROD:
        value, limit = float(checks.rod[pair]), 1.0
        reason["text"] = f"{entry.text} Its utilisation is {_beyond(value, limit)}."
    elif rejection in _BY_UTILISATION:
        value = float(checks.utilisation[pair])
        limit = 1.0 if rejection is Rejection.UTILISATION else 1.0 - chosen.wishes.reserve
        mode = MODES[int(checks.mode[pair])].value
        reason["text"] = (
            f"Utilisation {_beyond(value, limit)} in {mode.text} ({_case(chosen, pair)}): {_clause_of(entry.text)}"
        )
        reason |= {"mode": mode.code, "load_case": _case(chosen, pair)}
    else:
        return reason
    return reason | {"quantity": "ratio", "value": _shown(value), "limit": limit}


def _beyond(value: float, limit: float) -> str:
    """A utilisation in words, in as many decimals as show that it is beyond its limit."""
    few = (f"{value:.{decimals}f}" for decimals in range(2, 9))
    return next((text for text in few if float(text) > limit), f"{value:.2f}")


def _clause_of(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def nearest_json(chosen: Chosen, at: int, changes: Sequence[FoundChange] | None) -> dict[str, Any]:
    """What would have to change for a situation that nothing holds, and the candidate that comes nearest."""
    told = None if changes is None else [_change(chosen, own) for own in changes]
    made: dict[str, Any] = {
        "text": why_nothing_holds(rejected_candidates(chosen, at), told, system=chosen.system),
        "tried": told is not None,
        "changes": told or [],
        "engineer": ENGINEER_TEXT,
    }
    candidate = nearest_candidate(chosen.choice, at)
    if candidate is not None:
        pair = int(chosen.choice.pair[at, candidate])
        made["candidate"] = {
            "product": chosen.shelf.labels[candidate].address,
            "utilisation": float(chosen.choice.checks.utilisation[pair]),
            "excess": _shown(float(chosen.choice.checks.utilisation[pair]) - (1 - chosen.wishes.reserve)),
            "governing": governing_json(chosen, pair),
        }
    return made


def _change(chosen: Chosen, found: FoundChange) -> dict[str, Any]:
    entry, address = found.change.value, chosen.shelf.labels[found.candidate].address
    made: dict[str, Any] = {"code": entry.code, "product": address, "utilisation": _shown(found.utilisation)}
    if found.wishes:
        made["gives_up"] = [own.value.code for own in found.wishes]
    if found.change is Change.WISH:
        return made | {"text": f"{_remedies(found)}Then {address} holds."}
    if found.change is Change.SHARE_LOAD:
        return made | {
            "quantity": "ratio",
            "value": found.value,
            "text": f"{_remedies(found)}{SHARE_TEXT} with {_fraction(found.value)} of the load {address} holds.",
        }
    unit = "in" if chosen.system == "us" else "mm"
    if found.change is Change.STATE:
        least = [(PATHS[name], chosen.length(limit)) for name, limit in found.distances]
        asked = " and ".join(f"base.{path} at least {limit:g} {unit}" for path, limit in least)
        return made | {"text": f"Measure and state it: with {asked} {address} holds."}
    value = chosen.length(found.value)
    texts = {
        Change.MOVE: f"Move the point so that no edge is nearer than {value:g} {unit}: then {address} holds.",
        Change.LARGER_ROD: f"Take a {_rod(found.value)} rod: then {address} holds.",
    }
    return made | {"quantity": "length", "value": value, "text": texts[found.change]}


def _rod(d: float) -> str:
    """The size of the rod of a nominal diameter, in."""
    return min(THREADS, key=lambda size: abs(THREADS[size].d - d))


def _remedies(found: FoundChange) -> str:
    remedies = {own: own.value.remedy for own in found.wishes}
    if Rejection.OTHER_THREAD in remedies:
        remedies[Rejection.OTHER_THREAD] = OWN_ROD_TEXT if found.own_rod else COUPLING_TEXT
    return "".join(f"{text} " for text in remedies.values())


def _fraction(share: float) -> str:
    return str(Fraction(share).limit_denominator(100))


def _shown(value: float) -> float:
    """A number that can be shown, without the dust of conversions."""
    return float(finite(np.array([round(value, 10)]))[0])


def counts_json(chosen: Chosen, at: int) -> dict[str, int]:
    """How many candidates there are and what became of them."""
    choice = chosen.choice
    held, checked = int(choice.holds[at].sum()), int((choice.pair[at] != NONE).sum())
    total = choice.holds.shape[1]
    return {"candidates": total, "checked": checked, "held": held, "rejected": total - held}
