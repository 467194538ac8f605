"""Hang points that the hangers of an item make, ready for the check of hang points. Numbers in request units.

Each has its loads by nature. Earthquake, that of a brace and what the request states, is there with Omega_0, for
anchorage in concrete. What the hang point lacks, anchor and base, comes from the defaults of that request. An item that
nothing balances makes none: no load of its hangers is known; nor does a hanger that a run is named without.
"""

from collections.abc import Sequence
from itertools import compress, pairwise
from typing import Any

import numpy as np
import orjson

from hangpoint.core.hanger.hanger_cases import DEAD, EARTHQUAKE, NATURES
from hangpoint.core.hanger.hangers import HangerLoads
from hangpoint.core.hanger.rod_checks import ROD_RULES
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.pack.hanger_answer.hanger_places import brace_ways, hanger_places
from hangpoint.pack.hanger_items.packed import PackedLoads
from hangpoint.pack.json_text import ABSENT, RowText, sparse
from hangpoint.pack.printed import in_request_units
from hangpoint.units import COORDINATE, FORCE, STRESS, System

_OVERSTRENGTH = {"tension_option": "overstrength", "shear_option": "overstrength"}


def hang_points(packed: PackedLoads, loads: HangerLoads, system: System) -> list[bytes]:
    """The hang points of every item as an array in JSON: one a hanger, and one for the anchor of a brace."""
    item, number = loads.hangers.item, loads.hangers.number
    tension, shear = loads.at_anchors
    owners: list[int] = item.tolist()
    shaken = (tension[:, EARTHQUAKE] != 0) | np.any(shear[:, EARTHQUAKE] != 0, axis=1)
    texts = _texts(
        packed,
        loads,
        item,
        ids=[f"{packed.ids[own]}/{place}" for own, place in zip(owners, number.tolist(), strict=True)],
        components=_components(tension, shear, loads.against, system),
        shaken=shaken.tolist(),
        places=hanger_places(packed, loads),
        system=system,
    )
    braces = _braces(packed, loads, system)
    loose = set(item[~loads.held].tolist())
    there: list[bool] = loads.hangers.there.tolist()
    ends: list[int] = np.searchsorted(item, np.arange(packed.items.count + 1)).tolist()
    return [
        b"[]"
        if own in loose
        else b"[%b]" % b",".join([*compress(texts[first:last], there[first:last]), *braces.get(own, [])])
        for own, (first, last) in enumerate(pairwise(ends))
    ]


def _texts(
    packed: PackedLoads,
    loads: HangerLoads,
    item: Index,
    *,
    ids: Sequence[str],
    components: Sequence[bytes],
    shaken: Sequence[bool],
    places: Floats,
    system: System,
) -> list[bytes]:
    """A hang point of each of the items ``item`` (rows,), at ``places`` (rows, 2) ft, nan where that isn't known."""
    owners: list[int] = item.tolist()
    count = len(owners)
    trades = packed.places.trade
    seismic = _seismic(packed, loads)
    hangs = RowText.object({"kind": RowText.constant("forces"), "components": RowText.texts(components)})
    text = RowText.object(
        {"id": RowText.strings(ids), "hangs": hangs},
        {
            "at": _places(packed, owners, places, system),
            "trade": _stated(owners, trades),
            "rod": _rods(packed, owners, shaken, system),
            "seismic": [
                orjson.dumps({**own, **(_OVERSTRENGTH if quake or "s_ds" in own else {})}) if own or quake else ABSENT
                for own, quake in zip((seismic[owner] for owner in owners), shaken, strict=True)
            ],
        },
    )
    return text.rows(count)


def _places(packed: PackedLoads, owners: Sequence[int], places: Floats, system: System) -> list[bytes]:
    levels = packed.places.level
    known: list[bool] = np.all(np.isfinite(places), axis=1).tolist()
    x, y = (in_request_units(np.nan_to_num(column), COORDINATE, system).tolist() for column in places.T)
    values: list[dict[str, Any]] = [
        ({} if levels[own] is None else {"level": levels[own]}) | ({"x": x[row], "y": y[row]} if known[row] else {})
        for row, own in enumerate(owners)
    ]
    at = [row for row, value in enumerate(values) if value]
    return sparse(len(values), at, [values[row] for row in at])


def _rods(packed: PackedLoads, owners: Sequence[int], shaken: Sequence[bool], system: System) -> list[bytes]:
    """The rods that the hang points are to check.

    Omega_0 is for anchorage: where the load holds it, the rod isn't checked again. The size table of sprinkler lines
    goes by the pipe and stays here.
    """
    rods = packed.items.rods
    f_u = in_request_units(rods.f_u, STRESS, system).tolist()
    codes: list[int] = rods.rule.tolist()
    rules = [ROD_RULES[code] if code >= 0 else "" for code in codes]
    values: list[dict[str, Any] | None] = [
        None
        if size is None
        else {"size": size, "rule": rule} | ({"f_u": strength} if rule == "tensile_strength" else {})
        for size, rule, strength in zip(packed.rod_sizes, rules, f_u, strict=True)
    ]
    at = [row for row, own in enumerate(owners) if values[own] is not None and not shaken[row]]
    return sparse(len(owners), at, [values[owners[row]] for row in at])


def _stated(owners: Sequence[int], values: Sequence[Any]) -> list[bytes]:
    """A value of the item of each row, where it has one."""
    texts = sparse(
        len(values), [at for at, value in enumerate(values) if value is not None], [v for v in values if v is not None]
    )
    return [texts[own] for own in owners]


def _seismic(packed: PackedLoads, loads: HangerLoads) -> list[dict[str, Any]]:
    """Category and S_DS of each item, as far as they are stated."""
    made: list[dict[str, Any]] = [{} if category is None else {"category": category} for category in packed.category]
    own = loads.items.seismic
    for item, s_ds in zip(own.item.tolist(), own.s_ds.tolist(), strict=True):
        made[item]["s_ds"] = s_ds
    return made


def _components(tension: Floats, shear: Floats, against: Floats, system: System) -> list[bytes]:
    """The loads of each hanger by nature; dead load alone where there is none.

    Shears ``against`` others of their nature are a component of their own, and so are those others: each may be absent.
    """
    either, nothing = against != 0, np.zeros(len(tension))
    steady = np.where(either, 0.0, shear)
    unloaded = ~(np.any(tension != 0, axis=1) | np.any(shear != 0, axis=(1, 2)))
    parts: list[Sequence[bytes]] = []
    for place, name in enumerate(NATURES):
        own = steady[:, place]
        acts = (tension[:, place] != 0) | np.any(own != 0, axis=1)
        parts += _component(name, tension[:, place], own, acts | (unloaded if place == DEAD else False), system)
        apart = np.any(either[:, place], axis=1)
        for slides in (np.where(either, shear, 0.0), against) if apart.any() else ():
            parts += _component(name, nothing, slides[:, place], apart, system)
    return [b"[%b]" % b",".join(filter(None, texts)) for texts in zip(*parts, strict=True)]


def _component(nature: str, tension: Floats, shear: Floats, acts: Bools, system: System) -> list[Sequence[bytes]]:
    """One component of every hanger where it acts, if it acts anywhere."""
    if not acts.any():
        return []
    slid = shear != 0
    text = RowText.object(
        {
            "nature": RowText.constant(nature),
            "tension": RowText.numbers(in_request_units(tension, FORCE, system)),
        },
        {
            f"shear_{axis}": RowText.numbers(in_request_units(shear[:, at], FORCE, system)).only(slid[:, at])
            for at, axis in enumerate("xy")
            if slid[:, at].any()
        },
    )
    return [text.only(acts).rows(len(acts))]


def _braces(packed: PackedLoads, loads: HangerLoads, system: System) -> dict[int, list[bytes]]:
    """The anchor of a brace of each braced item."""
    own = loads.seismic
    if own is None or own.anchor is None:
        return {}
    item = loads.items.seismic.item[own.braced]
    tension, shear = np.zeros((len(item), len(NATURES))), np.zeros((len(item), len(NATURES), 2))
    ways = brace_ways(packed, item, loads.items.seismic.along[own.braced])
    tension[:, EARTHQUAKE], shear[:, EARTHQUAKE] = own.anchor.v, own.anchor.f_horizontal[:, None] * ways
    owners: list[int] = item.tolist()
    texts = _texts(
        packed,
        loads,
        item,
        ids=[f"{packed.ids[each]}/brace" for each in owners],
        components=_components(tension, shear, np.zeros_like(shear), system),
        shaken=[True] * len(owners),
        places=np.full((len(owners), 2), np.nan),
        system=system,
    )
    return {each: [text] for each, text in zip(owners, texts, strict=True)}
