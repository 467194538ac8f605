"""Anchors found in place: what is known of them, what is not, whether re-use may be considered, and their test.

No capacity is made from what is seen. All judgements are common practice without a source and err to the side of not
using an anchor again.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

import numpy as np

from hangpoint.core.outcome import EDGES
from hangpoint.core.site.proof_load import ProofLoad, SupportDistance, proof_load, support_distance
from hangpoint.core.site.proof_rules import ProofRule
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.proof_items import PLACES, proof_reference
from hangpoint.pack.proof_plan import BELOW_LOAD, CAST_IN, load_findings, stated_places
from hangpoint.pack.pull import EMPTY, Rows
from hangpoint.pack.trace import record_section
from hangpoint.product import principles
from hangpoint.units import AREA, FORCE, LENGTH, PRINTED, STRESS, System

_NAMES: Mapping[str, str] = {
    "type_seen": "type",
    "diameter": "diameter",
    "thread": "thread",
    "projection": "projecting length",
    "embedment": "embedment",
    "corrosion": "corrosion",
    "damage": "damage",
    "edges": "edges",
    "thickness": "thickness of the base",
    "post_tensioned": "post-tensioning",
    "base": "base",
    "steel": "steel area and yield strength",
    "documents": "records of the installation",
}
_PARTS: Mapping[str, str] = {
    "a_se": "A_se",
    "f_ya": "f_ya",
    "x_minus": "x minus",
    "x_plus": "x plus",
    "y_minus": "y minus",
    "y_plus": "y plus",
}
_QUESTIONS: Mapping[str, str] = {
    "type_seen": "What kind of anchor is it, and who can open one up?",
    "embedment": "How deep is it? Someone measures it, or one like it is taken out.",
    "steel": "Which yield strength and smallest steel area may a test count on?",
    "edges": "How far is every edge, joint and opening?",
    "thickness": "How thick is the base?",
    "base": "What is the base, and how strong?",
    "corrosion": "Is there corrosion below the nut and inside the hole?",
    "damage": "Was it looked at for looseness, bends and cracks?",
    "documents": "Are there records of the product, its installation and its tests?",
}
_FORBIDS: Mapping[str, str] = {
    "loose": "It is loose.",
    "bent": "It is bent.",
    "thread_damaged": "Its thread is damaged.",
    "crack_at_anchor": "A crack runs through the anchor.",
    "spalled": "The base around it has spalled.",
    "fire": "It was in a fire.",
    "pitting": "Corrosion has pitted it.",
    "section_loss": "Corrosion has taken some of its section.",
    "driven_pin": "Driven pins are not used again.",
    "hammer_set_pin": "Hammer-set pins are not used again, and carry no tension overhead.",
    "hollow_core": "In hollow-core plank nobody sees where the strands and cores are.",
}
_DEPTH_SEEN_BY = ("measured", "detector")
"""What makes an embedment known; one by drawings or assumed is asked about."""
_LOOKED_AT: Mapping[str, str] = {
    "damage": "Nobody says whether it is loose, bent or cracked.",
    "corrosion": "Nobody says whether it is corroded.",
    "base": "Nobody says what the base is.",
}
_IMPOSSIBLE = "impossible-geometry"
_THROUGH = "The embedment reaches or passes the back of the base: measure both anew."
_MORE_STEEL = "The steel area is above that of the diameter that was measured: the test would be cut too high."
_NO_TYPE = "Nobody knows what kind of anchor it is: one is opened up or taken out first."
_NO_DEPTH = "Nobody has measured how deep it is: that comes first, or one like it is taken out."
_MASONRY = ("grouted_masonry", "hollow_masonry", "brick")
LOOK_FIRST = {
    "code": "look-first",
    "text": "Damage, corrosion or base were not looked at: that comes before the test.",
}
TENDONS = {
    "code": "tendons-not-excluded",
    "text": "Post-tensioning is not ruled out: nobody pulls or drills before the tendons are located and the engineer"
    " agrees.",
}
YIELD_UNKNOWN = {
    "code": "yield-unknown",
    "text": "Nobody states the steel, so the load is not cut to 0.8 A_se f_ya: the engineer states a limit before"
    " anything is pulled.",
}
SUSTAINED_BOND = {
    "code": "no-proof-of-sustained-bond",
    "text": "A short test does not show how bond creeps under load that stays: adhesive overhead is for the engineer.",
}
NO_EDGE_TO_CLEAR = {
    "code": "embedment-unknown",
    "text": "The embedment is not known, so the distance of the supports of the jack can't be named: ask the engineer.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundAnchors:
    """Anchors as found; ``depth_row`` is the row of each in ``supports``, -1 where the embedment is not known."""

    rows: Sequence[Mapping[str, Any]]
    places: Sequence[tuple[str | None, ...]]
    load: ProofLoad
    supports: SupportDistance
    depth_row: Sequence[int]

    def reasons(self, at: int) -> list[str]:
        """What forbids to think of using the anchor again."""
        own = self.rows[at]
        words = [str(own.get(name)) for name in ("type_seen", "corrosion", "base")]
        return [_FORBIDS[word] for word in (*words, *own.get("damage", ())) if word in _FORBIDS]

    def lacking(self, at: int) -> list[str]:
        """What someone has to look at before anyone thinks of it."""
        return [text for name, text in _LOOKED_AT.items() if not _is_known(self.rows[at], name)]

    def tendons_excluded(self, at: int) -> bool:
        """Whether no tendon can be near (reading 39): none is there, or nobody speaks of one in masonry."""
        own = self.rows[at]
        return own.get("post_tensioned", "no" if own.get("base") in _MASONRY else "unknown") == "no"

    def confined(self, at: int) -> bool:
        """Whether it is pulled against a plate close to it: adhesive, but not in masonry."""
        own = self.rows[at]
        return own.get("type_seen") == "adhesive" and own.get("base") not in _MASONRY

    def unsettled(self, at: int) -> list[str]:
        """What stands before anyone thinks of using the anchor again."""
        own = self.rows[at]
        others = (
            (_NO_TYPE, not _is_known(own, "type_seen")),
            (_NO_DEPTH, not _is_known(own, "embedment")),
            (SUSTAINED_BOND["text"], _creeps(own)),
            (TENDONS["text"], not self.tendons_excluded(at)),
            (BELOW_LOAD["text"], self.load.below_load[at]),
        )
        return [*self.lacking(at), *(text for text, holds in others if holds)]


def pack_existing(items: Rows, *, rule: ProofRule) -> FoundAnchors:
    """Columns of the anchors.

    Flaws: those of `proof_reference`, quantities out of range, an anchor that is deeper than its base is thick, steel
    of more area than the anchor.
    """
    reference = proof_reference(items, rule)
    basis = items.values("basis")
    steel, depth = items.child("steel"), items.child("embedment")
    a_se_n, f_ya = steel.quantity("a_se", AREA), steel.quantity("f_ya", STRESS)
    known = np.isfinite(a_se_n) & np.isfinite(f_ya)
    diameter, thickness = items.quantity("diameter", LENGTH), items.quantity("thickness", LENGTH)
    items.quantity("projection", LENGTH)
    edges = items.child("edges")
    for side in EDGES:
        edges.quantity(side, LENGTH)
    count = len(items)
    load = proof_load(
        reference=reference,
        factor=np.array([rule.factors.get(word, 0.0) for word in basis], dtype=np.float64),
        least_load=np.full(count, rule.least_load),
        yield_known=known,
        a_se_n=np.where(known, a_se_n, 0.0),
        f_ya=np.where(known, f_ya, 0.0),
        yield_share=np.full(count, rule.yield_share),
    )
    h_ef = depth.quantity("depth", LENGTH)
    for at in np.flatnonzero(h_ef >= thickness).tolist():
        depth.flaw(at, "depth", _THROUGH, slug=_IMPOSSIBLE)
    for at in np.flatnonzero(a_se_n > np.pi / 4 * diameter**2).tolist():
        steel.flaw(at, "a_se", _MORE_STEEL, slug=_IMPOSSIBLE)
    seen = np.array([by in _DEPTH_SEEN_BY for by in depth.values("by")], dtype=np.bool_)
    deep = np.flatnonzero(np.isfinite(h_ef) & seen)
    depth_row = np.full(count, -1)
    depth_row[deep] = np.arange(len(deep))
    names = (*_NAMES, "use", "face")
    merged = {name: items.values(name) for name in names} | {"edges": _edges(items)}
    return FoundAnchors(
        rows=[
            {"id": own} | {name: values[at] for name, values in merged.items() if values[at] is not None}
            for at, own in enumerate(items.values("id"))
        ],
        places=list(zip(*(items.values(name) for name in PLACES), strict=True)),
        load=load,
        supports=support_distance(h_ef=h_ef[deep]),
        depth_row=depth_row.tolist(),
    )


def _edges(items: Rows) -> list[Mapping[str, Any] | None]:
    """The edges of each anchor, those of the defaults on the sides that it is silent on; None where none is stated."""
    behind = items.default.get("edges", EMPTY)
    return [{**behind, **own} or None for own in items.stated("edges", EMPTY)]


def reuse(found: FoundAnchors, at: int) -> tuple[str, list[str]]:
    """Whether re-use may be considered, and why."""
    forbidden, lacking = found.reasons(at), found.unsettled(at)
    if forbidden:
        return "not_considered", forbidden
    if lacking:
        return "not_yet", lacking
    return "may_be_considered", ["Nothing that was seen forbids it; test and engineer decide."]


def existing_items(found: FoundAnchors, index: Sequence[int], system: System) -> list[dict[str, Any]]:
    """Each anchor with what is known, what is not, and what to ask."""
    clear = in_request_units(found.supports.clear, LENGTH, system).tolist()
    made: list[dict[str, Any]] = []
    for at, own in enumerate(found.rows):
        word, reasons = reuse(found, at)
        row: dict[str, Any] = {
            "id": own["id"],
            "index": index[at],
            "status": "assessed",
            "reuse": word,
            "reasons": reasons,
            "known": [
                _known(name, own[name], system) for name in _NAMES if _is_known(own, name) or _in_part(own, name)
            ],
            "unknown": [
                f"{text} on the other sides" if _in_part(own, name) else text
                for name, text in _NAMES.items()
                if not _is_known(own, name) and not (name == "post_tensioned" and found.tendons_excluded(at))
            ],
            "ask": list(_questions(own)),
        }
        if found.depth_row[at] >= 0 and word != "not_considered" and not found.confined(at):
            row["support_distance"] = clear[found.depth_row[at]]
        made.append(row)
    return made


def existing_log(found: FoundAnchors, rule: ProofRule, system: System, *, traced: bool) -> list[dict[str, Any]]:
    """A test of every anchor that nothing forbids: an unknown one shows nothing of its neighbour."""
    load = in_request_units(found.load.test_load, FORCE, system).tolist()
    most = in_request_units(found.load.most, FORCE, system).tolist()
    made: list[dict[str, Any]] = []
    for at, own in enumerate(found.rows):
        if found.reasons(at):
            continue
        confined = found.confined(at)
        row: dict[str, Any] = {
            "id": own["id"],
            "product": f"existing: {own.get('type_seen', 'unknown')}",
            "use": own.get("use", "structural"),
            **stated_places(found.places[at]),
            "method": "confined" if confined else "unconfined",
            "test_load": load[at],
            "hold_seconds": rule.hold,
            "findings": list(_findings(found, rule, at)),
        }
        if found.load.yield_known[at]:
            row["most_load"] = most[at]
        sections = [record_section(found.load, at)]
        if found.depth_row[at] >= 0 and not confined:
            sections.append(record_section(found.supports, found.depth_row[at]))
        made.append(row | ({"trace": sections} if traced else {}))
    return made


def _findings(found: FoundAnchors, rule: ProofRule, at: int) -> Iterator[dict[str, str]]:
    own = found.rows[at]
    if found.lacking(at):
        yield LOOK_FIRST
    if not found.tendons_excluded(at):
        yield TENDONS
    if not found.load.yield_known[at]:
        yield YIELD_UNKNOWN
    yield from load_findings(found.load, rule, at)
    if rule.post_installed and own.get("type_seen") in principles.CAST_IN:
        yield CAST_IN
    if own.get("type_seen", "unknown") in ("adhesive", "unknown"):
        yield SUSTAINED_BOND
    if found.depth_row[at] < 0:
        yield NO_EDGE_TO_CLEAR


def _is_known(own: Mapping[str, Any], name: str) -> bool:
    value = own.get(name)
    if name == "embedment" and value:
        return value.get("by") in _DEPTH_SEEN_BY
    if name == "edges" and value:
        return all(side in value for side in EDGES)
    return value is not None and value != "unknown"


def _creeps(own: Mapping[str, Any]) -> bool:
    """Whether it is or may be an adhesive that load pulls out of a soffit or a side."""
    return own.get("type_seen", "unknown") in ("adhesive", "unknown") and own.get("face", "soffit") != "top"


def _in_part(own: Mapping[str, Any], name: str) -> bool:
    """Whether edges are stated on some sides and not on all."""
    return name == "edges" and name in own and not _is_known(own, name)


def _known(name: str, value: Any, system: System) -> str:
    """What is known in words; a bare number has its unit."""
    if isinstance(value, Mapping):
        parts = cast(Mapping[str, Any], value)
        text = ", ".join(f"{_PARTS.get(key, key)} {_with_unit(key, part, system)}" for key, part in parts.items())
    elif isinstance(value, list):
        text = ", ".join(cast(list[str], value)) or "none seen"
    else:
        text = _with_unit(name, value, system)
    return f"{_NAMES[name]}: {text}"


def _with_unit(name: str, value: Any, system: System) -> str:
    if isinstance(value, str):
        return value.replace("_", " ")
    kind = {"a_se": AREA, "f_ya": STRESS}.get(name, LENGTH)
    return f"{value:g} {PRINTED[system][kind.name]}"


def _questions(own: Mapping[str, Any]) -> Iterator[str]:
    for name, text in _QUESTIONS.items():
        if not _is_known(own, name):
            yield text
    if own.get("post_tensioned", "unknown") != "no":
        yield "Is the structure post-tensioned, and where are the tendons? No pull and no drilling before it is known."
    if own.get("type_seen") == "displacement_controlled_expansion":
        yield "Is the plug driven home? Gauge it before the pull; if one is unset, check the whole row."
    if _creeps(own):
        yield "May an adhesive, or an unknown anchor that may be one, carry load that stays overhead or sideways?"
    yield "May this anchor be used again for the wanted load, and with which limit of the test?"
