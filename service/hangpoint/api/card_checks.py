"""What a check says against setting an anchor as an item of a card states it.

An item of a card need not state what a check asks for. What it leaves open is filled with what nothing stands against:
no edge, a thick member, normalweight concrete, no load, no earthquake; without a load uncracked concrete. So all that
is found is of what is stated. Where the request names no design code, each item goes by that of its product's figures.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.api.bodies import Batch
from hangpoint.api.load_standards import ACI318_19, EN1992_4, GOES_WITH
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.probes import Outcome, Situation, probe
from hangpoint.api.reverse.words import why
from hangpoint.core.outcome import EDGES
from hangpoint.core.vocabulary import Finding, Refusal
from hangpoint.pack.card_products import CardProduct
from hangpoint.pack.digest import merged as with_defaults
from hangpoint.product.catalogue import Catalogue

Attention = Mapping[str, str]

_FILL: Mapping[str, Mapping[str, Any]] = {
    "concrete": {"density": "normalweight"},
    "deck": {"density": "normalweight"},
    "masonry": {"masonry": {"joint_distance": "none", "face_shell": "none", "f_m": "3000 psi"}},
    "hollow_core": {"hollow_core": {"cover": "none", "strand_distance": "none"}, "strength": {"f_c": "5000 psi"}},
}
_BY_CLASS: Mapping[str, Mapping[str, Any]] = {kind: {"strength": {"class": "C20/25"}} for kind in ("concrete", "deck")}
"""The class that resistances in European data are for, where an item states none."""
_UNCRACKED = {"state": "uncracked", "state_decided_by": "nobody"}
_NO_LOAD = {"kind": "forces", "components": [{"nature": "dead", "tension": 0}]}

_COMPARED = frozenset(
    {
        Finding.EDGE_BELOW_MINIMUM,
        Finding.EDGE_BELOW_CODE,
        Finding.THICKNESS_BELOW_MINIMUM,
        Finding.SPACING_BELOW_MINIMUM,
        Finding.SPACING_BELOW_CODE,
        Finding.TABLE_EDGE,
        Finding.TABLE_SPACING,
        Finding.ONE_A_CELL,
        Finding.TABLE_THICKNESS,
        Finding.TABLE_FACE_SHELL,
        Finding.TABLE_JOINT,
        Finding.TABLE_COVER,
        Finding.TABLE_STRAND,
        Finding.DECK_FLUTE_NARROW,
        Finding.DECK_OFFSET,
        Finding.DECK_COVER,
        Finding.DECK_SHEET,
        Finding.SUPPLIED_WITHOUT_SOURCE,
        Finding.FASTENER_EDGE,
        Finding.FASTENER_SPACING,
        Finding.FASTENER_THICKNESS,
    }
)
"""What a card says by itself, with its figures."""

_OF_TABLES = frozenset({Finding.TABLE_EDGE, Finding.TABLE_SPACING, Finding.TABLE_THICKNESS})
"""What a card in concrete says with its figures only of a product that has no other data than its tables."""

_OF_LOAD = frozenset({Finding.CEILING_ONLY, Finding.PIN_ALONE})
_SAID = frozenset({Refusal.NOT_OVERHEAD, Refusal.NOT_UPWARD, Refusal.EN_NOT_UPWARD})
_LACKING = frozenset({Refusal.NO_DECK_DATA, Refusal.NO_TABLE, Refusal.LOCATION_NOT_TESTED, Refusal.MORTAR_JOINT})
_PRODUCT_ALONE = frozenset({"id", "at", "trade", "tags", "anchor", "base"})
_BASE_ALONE = frozenset({"kind", "face"})
_FOREIGN = frozenset({Refusal.OTHER_CODE.value.code, Refusal.EN_FAMILY.value.code})
_HOLE = frozenset({Finding.DRILLED_BEYOND_COVER})
"""Cautions that whoever drills has to know."""


def against_setting(
    batch: Batch, index: Sequence[int], products: Sequence[CardProduct], catalogue: Catalogue
) -> list[list[Attention]]:
    """Refusals and violations of each item, and a hole that reaches reinforcement; none of one that can't be checked.

    Args:
        batch: the request.
        index: rows of the items that have a card.
        products: that of each of them.
        catalogue: products by address.
    """
    stated = [with_defaults(batch.items[row], batch.defaults) for row in index]
    codes = [batch.design_code or (EN1992_4 if product.european else ACI318_19) for product in products]
    items = [_filled(item, code) for item, code in zip(stated, codes, strict=True)]
    own = [
        (code, _combinations(item, product, batch)) for code, item, product in zip(codes, items, products, strict=True)
    ]
    found: list[list[Attention]] = [[] for _ in items]
    for code, combinations in dict.fromkeys(own):
        rows = [at for at, each in enumerate(own) if each == (code, combinations)]
        situation = Situation(
            units=batch.units,
            design_code=code,
            combinations=combinations,
            load_standard=batch.load_standard if batch.load_standard in GOES_WITH[code] else None,
            catalogue=catalogue,
        )
        probes = probe([items[at] for at in rows], situation)
        for place, at in enumerate(rows):
            loaded = items[at]["hangs"] is not _NO_LOAD
            found[at] = [
                {"id": str(items[at]["id"]), "what": what, "text": text}
                for what, text in _against(probes.outcome(place), products[at], loaded=loaded)
                if what not in _FOREIGN or _places(stated[at])
            ]
    return found


def _filled(item: Mapping[str, Any], code: str) -> dict[str, Any]:
    base: Mapping[str, Any] = item.get("base") or {}
    kind = base.get("kind", "concrete")
    fill: dict[str, Any] = {"kind": kind, "thickness": "120 in", "edges": dict.fromkeys(EDGES, "none")}
    fill |= {name: value for name, value in _FILL.get(kind, {}).items() if name != "strength" or name not in base}
    if kind == "concrete" and "state" not in base and "hangs" not in item:
        fill |= _UNCRACKED
    if code == EN1992_4:
        fill.pop("strength", None)
        fill |= {} if "strength" in base else _BY_CLASS.get(kind, {})
    made = merged({"base": fill, **({} if code == EN1992_4 else {"seismic": {"category": "A"}})}, item)
    return made if "hangs" in made else {**made, "hangs": _NO_LOAD}


def _places(item: Mapping[str, Any]) -> bool:
    """Whether an item says more than what is set and into what: of the product alone there is nothing to check."""
    base: Mapping[str, Any] = item.get("base") or {}
    return not _PRODUCT_ALONE.issuperset(item) or not _BASE_ALONE.issuperset(base)


def _combinations(item: Mapping[str, Any], product: CardProduct, batch: Batch) -> str | None:
    """Those of the request; where it names none, or there is no load, those that the product has data for."""
    if batch.combinations is not None and item["hangs"] is not _NO_LOAD:
        return batch.combinations
    if batch.combinations == "allowable":
        return "allowable"
    return "allowable" if product.table_only and item["base"]["kind"] == "concrete" else "strength"


def _against(outcome: Outcome, product: CardProduct, *, loaded: bool) -> Iterator[tuple[str, str]]:
    refusal = outcome.refusal
    if refusal is not None:
        if refusal not in _SAID and not (product.base.lacking and refusal in _LACKING):
            yield refusal.value.code, refusal.value.text
        return
    tables_beside = product.base.kind == "concrete" and not product.table_only
    for found in (*outcome.violations, *(each for each in outcome.cautions if each in _HOLE)):
        compared = found in _COMPARED and not (found in _OF_TABLES and tables_beside)
        if not compared and (loaded or found not in _OF_LOAD):
            yield found.value.code, found.value.text
    if loaded and (outcome.utilisation or 0.0) > 1.0 and not outcome.violations:
        yield "utilisation", f"It fails the check: {why(outcome)}."
