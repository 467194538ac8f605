"""Installed anchors of a request for proof tests, as columns: one flat axis of anchors, and the group of each."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.quantity import Floats, Index
from hangpoint.core.site.proof_load import ProofCount, ProofLoad, proof_count, proof_load
from hangpoint.core.site.proof_rules import ProofRule
from hangpoint.core.site.sampling import sampled
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.anchors import PackedAnchors, pack_anchors
from hangpoint.pack.decoded import plain
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import FORCE

PLACES = ("level", "area", "crew", "day")
_UNCONFINED = ("masonry", "hollow_core")


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofItems:
    """Items with an anchor or several each.

    ``item`` (anchors,) is the item of each anchor, ``ids`` its id; ``group`` (items,) is that of its product, use and
    base.
    """

    item_ids: Sequence[str]
    places: Sequence[tuple[str | None, ...]]
    use: Sequence[str]
    use_assumed: bool
    basis: Sequence[str]
    anchors: PackedAnchors
    load: ProofLoad
    item: Index
    ids: Sequence[str]
    group: Sequence[int]
    confined: Sequence[bool]
    """Of each item, whether it is pulled against a plate close to it: adhesive in concrete."""
    group_first: Sequence[int]
    """The first item of each group."""
    base_texts: Sequence[str]
    """Of each item what it is set in, in words."""
    bases: Sequence[Any]
    """What each item itself states of its base, None where nothing is stated."""
    base_default: Any
    """What the defaults state of a base, None where they are silent."""
    kinds: Sequence[str | None]
    """Kind of the base of each item, None where nothing is stated."""
    conditions: Sequence[Any]
    """What each item itself states of an adhesive, None where nothing is stated."""
    conditions_default: Any
    """What the defaults state of an adhesive, None where they are silent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofSample:
    """Number of tests of each group, and the anchors that are tested, rising."""

    count: ProofCount
    tested: Sequence[int]


def pack_proof_items(items: Rows, *, rule: ProofRule, catalogue: Catalogue) -> ProofItems:
    """Columns of the items.

    Flaws: those of `pack_anchors`; no load, none above zero; a basis that the rule lacks; an id that an anchor of a
    layout has as another has it.
    """
    anchors = pack_anchors(items, catalogue=catalogue, assumptions=Flags(Assumption, len(items)))
    reference = proof_reference(items, rule)
    basis = items.values("basis")
    factor = np.array([rule.factors.get(word, 0.0) for word in basis], dtype=np.float64)
    products = anchors.products
    count = len(items)
    load = proof_load(
        reference=reference,
        factor=factor,
        least_load=np.full(count, rule.least_load),
        yield_known=np.ones(count, dtype=np.bool_),
        a_se_n=products.a_se_n,
        f_ya=products.f_ya,
        yield_share=np.full(count, rule.yield_share),
    )
    uses = items.values("use")
    use = ["structural" if word is None else word for word in uses]
    ids = items.values("id")
    several = anchors.layouts.count
    confined = _confined(items, anchors, rule)
    base_texts = _base_texts(items)
    group, first = _groups(anchors, use, confined, base_texts)
    item: Index = np.repeat(np.arange(count, dtype=np.intp), several)
    anchor_ids = [
        own if number == 1 else f"{own}/{place}"
        for own, number in zip(ids, several.tolist(), strict=True)
        for place in range(number)
    ]
    _refuse_twice(items, anchor_ids, item.tolist())
    anchor = items.child("anchor")
    return ProofItems(
        item_ids=ids,
        places=list(zip(*(items.values(name) for name in PLACES), strict=True)),
        use=use,
        use_assumed=None in uses,
        basis=basis,
        anchors=anchors,
        load=load,
        item=item,
        ids=anchor_ids,
        group=group,
        confined=confined,
        group_first=first,
        base_texts=base_texts,
        kinds=items.child("base").values("kind"),
        bases=plain(items.stated("base")),
        base_default=items.default.get("base"),
        conditions=plain(anchor.stated("adhesive")),
        conditions_default=anchor.default.get("adhesive"),
    )


def _refuse_twice(items: Rows, ids: Sequence[str], owners: Sequence[int]) -> None:
    """An id that two anchors have, of which one at least is numbered in a layout."""
    first: dict[str, int] = {}
    for own, item in zip(ids, owners, strict=True):
        if first.setdefault(own, item) != item:
            detail = f"Another item has the anchor {own} too: those of a layout are numbered behind the id of theirs."
            items.flaw(item, "id", detail, code="duplicate-id")


def proof_reference(items: Rows, rule: ProofRule) -> Floats:
    """Load of each item on the basis that it states."""
    basis = items.required("basis", "What the load is", tuple(rule.factors))
    load = items.quantity("load", FORCE, what="The load per anchor", fill=0.0)
    for at, word in enumerate(basis):
        if word is not None and word not in rule.factors:
            items.flaw(at, "basis", "The rule has no factor for this basis.", allowed=tuple(rule.factors))
        if not load[at] > 0 and items.values("load")[at] is not None:
            items.flaw(at, "load", "The load of a test is above zero.", slug="quantity")
    return load


def sample(items: ProofItems, rule: ProofRule) -> ProofSample:
    """Choose the anchors that are tested: of each group the share of its use, spread over its strata."""
    members: list[list[int]] = [[] for _ in items.group_first]
    owners: list[int] = items.item.tolist()
    for anchor, item in enumerate(owners):
        members[items.group[item]].append(anchor)
    strata = [[items.places[int(items.item[anchor])] for anchor in own] for own in members]
    count = proof_count(
        installed=np.array([len(own) for own in members], dtype=np.float64),
        percent=np.array([rule.percent[items.use[item]] for item in items.group_first], dtype=np.float64),
        strata=np.array([len(set(own)) for own in strata], dtype=np.float64),
    )
    tested: list[int] = []
    for own, places, tests in zip(members, strata, count.tests.tolist(), strict=True):
        tested += [own[at] for at in sampled([items.ids[anchor] for anchor in own], places, int(tests))]
    return ProofSample(count=count, tested=sorted(tested))


def _confined(items: Rows, anchors: PackedAnchors, rule: ProofRule) -> list[bool]:
    """In masonry the unit and its joints are what may fail, in a plank its shell, so nothing presses on them."""
    kinds = items.child("base").values("kind")
    bonded = anchors.products.bonded.tolist()
    return [own and kind not in _UNCONFINED and not rule.supports for own, kind in zip(bonded, kinds, strict=True)]


def _base_texts(items: Rows) -> list[str]:
    base = items.child("base")
    kinds = ["concrete" if kind is None else kind for kind in base.values("kind")]
    units, material = (base.child("masonry").values(name) for name in ("units", "material"))
    return [
        ", ".join(["masonry", *filter(None, stated)]) if kind == "masonry" else kind.replace("_", "-")
        for kind, *stated in zip(kinds, units, material, strict=True)
    ]


def _groups(
    anchors: PackedAnchors, use: Sequence[str], confined: Sequence[bool], bases: Sequence[str]
) -> tuple[list[int], list[int]]:
    """Alike in product, use, method and base: a test in concrete shows nothing of an anchor in masonry."""
    keys = list(zip(anchors.addresses, anchors.family.tolist(), use, confined, bases, strict=True))
    number = {key: place for place, key in enumerate(dict.fromkeys(keys))}
    first: dict[int, int] = {}
    group = [number[key] for key in keys]
    for item, own in enumerate(group):
        first.setdefault(own, item)
    return group, [first[own] for own in range(len(number))]
