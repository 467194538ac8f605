"""What each point is checked by, and the rows of its product's tables, as columns."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hang_point.allowables import (
    AT_JOINT,
    CHAPTER_17,
    CRACKED,
    ELSEWHERE,
    F_M_ASSUMED,
    LIGHTWEIGHT,
    LOCATIONS,
    MASONRY_BOLT,
    MET,
    NO_TABLE,
    NOT_BY_TABLE,
    NOT_IN_UNITS,
    TABLE,
    WRONG_BASE,
    Allowables,
    TableData,
)
from hangpoint.core.hang_point.columns import columns_of
from hangpoint.core.hang_point.points import SIDE, Bases, Points
from hangpoint.core.hang_point.surroundings import BASE_KINDS, CONCRETE, HOLLOW_CORE, MASONRY
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.anchors import PackedAnchors
from hangpoint.pack.base_kinds import required_of
from hangpoint.pack.flags import Flags, bits_of
from hangpoint.pack.open_cells import pack_open_cells
from hangpoint.pack.pull import Rows, found_rows
from hangpoint.pack.strengths import refuse_wrong_unit
from hangpoint.product.allowable_rows import DIRECTIONS, AllowableLoad, strongest_below
from hangpoint.product.product_row import BASES
from hangpoint.product.table import ProductTable
from hangpoint.units import LENGTH, STRESS

UNITS = ("hollow", "grouted", "solid")
MATERIALS = ("concrete", "clay")
_FACE = LOCATIONS.index("face")
_CAST_IN = BASES.index("cast_in")
_UNKNOWN = frozenset({"core", "web"})
_LENGTHS = ("c_least", "c_full", "slope_c", "s_least", "s_full", "slope_s")
_LIMITS = ("h_least", "shell_least", "joint_least", "cover_least", "strand_least")
_NUMBERS = ("mean_ultimate", "safety_factor", "f_ref", "strength_exponent", "f_least", *_LENGTHS, *_LIMITS)
_DISTANCES = {
    "joint": ("masonry", "joint_distance", "The distance to the nearest mortar joint", "joint_least"),
    "face_shell": ("masonry", "face_shell", "The thickness of the face shell", "shell_least"),
    "cover": ("hollow_core", "cover", "The concrete below the core", "cover_least"),
    "strand": ("hollow_core", "strand_distance", "The distance to the nearest strand", "strand_least"),
}
"""Distances by their column: where they are stated, in words, and the limit of the tables that asks for them."""
PATHS = {column: f"{child}.{name}" for column, (child, name, _, _) in _DISTANCES.items()}
"""Where each distance is stated, within the base."""
_PARTS = {"face_shell": "half of the thickness of the unit", "cover": "the thickness of the plank"}
"""What a shell is less than, in words."""
LIMITS = {PATHS[column]: limit for column, (_, _, _, limit) in _DISTANCES.items()}
"""The limit of a row of a table that asks for the distance stated there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a point is, as far as tables ask."""

    kind: int
    units: str
    material: str
    location: str
    cracked: bool
    lightweight: bool
    f_base: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """The rows of the tables for a point, None where there is none, and why none is at all."""

    unmet: int
    loads: tuple[AllowableLoad | None, AllowableLoad | None] = (None, None)


def pack_allowables(
    items: Rows,
    kind: Codes,
    bases: Bases,
    anchors: PackedAnchors,
    *,
    chosen: bool,
    allowable: bool,
    factored: bool,
    assumptions: Flags,
) -> Allowables | None:
    """The methods of the points; None where all are in concrete and go by chapter 17.

    Args:
        items: of the batch.
        kind: (points,) of `base_kinds`.
        bases: of the same points.
        anchors: of the same points.
        chosen: False: the products are still to be chosen.
        allowable, factored: the request asks for allowable combinations, or gives factored loads.
        assumptions: takes the defaults.

    Flaws: what a kind of base needs, and distances that the tables limit and the request doesn't state.
    """
    by_tables = (kind == MASONRY) | (kind == HOLLOW_CORE)
    if not (allowable or np.count_nonzero(by_tables)):
        return None
    base, taken = items.child("base"), anchors.table if chosen else None
    method = np.where(by_tables | ((kind == CONCRETE) & allowable), TABLE, CHAPTER_17).astype(np.int8)
    codes, f_base = _stated_places(base, kind, bases, assumptions)
    distances = _distances(base, np.nan if taken is None else np.inf)
    _hollow_flaws(base, codes, distances, bases.thickness)
    grouted = codes["units"] == UNITS.index("grouted")
    open_cells = pack_open_cells(base.child("masonry"), grouted, anchors.layouts.layouts, assumptions)
    older = items.child("options").codes("masonry_edition", {"tms402_16": 0, "tms402_13": 1}, absent=0) == 1
    if taken is None:
        return Allowables(
            method=method,
            f_base=f_base,
            open_cells=open_cells,
            older=older,
            by_strength=np.full(len(items), not allowable),
            **codes,
            **distances,
            **columns_of(_no_tables(len(items))),
        )
    places = _places(kind, bases, f_base=f_base, **codes)
    bolt = bolts(places, taken)
    required_of(base.child("masonry"), "f_m", bolt, "f'm")
    method[bolt] = MASONRY_BOLT
    assumptions.set(Assumption.MASONRY_EDITION, bolt & items.child("options").silent("masonry_edition"))
    by_table = method == TABLE
    data = table_data([place if own else None for place, own in zip(places, by_table.tolist(), strict=True)], taken)
    for child, name, what, limit in _DISTANCES.values():
        needed = getattr(data, limit).max(axis=1) > 0
        required_of(base.child(child), name, needed, f'{what}, or "none" where there is none,')
    assumptions.set(Assumption.TABLE_PRACTICE, by_table & (kind == CONCRETE) & (data.unmet == MET))
    assumptions.set(Assumption.TABLE_OF_SIDE, by_table & (kind == MASONRY) & (bases.face != SIDE) & (data.unmet == MET))
    assumptions.set(Assumption.SERVICE_COMBINATIONS, by_table & (not (allowable or factored)))
    return Allowables(
        method=method,
        f_base=np.where(np.isnan(f_base), F_M_ASSUMED, f_base),
        open_cells=open_cells,
        older=older,
        by_strength=bolt & (not allowable),
        **codes,
        **distances,
        **columns_of(data),
    )


def _distances(base: Rows, absent: float) -> dict[str, Floats]:
    """The distances that tables may limit; infinite where they are said to be none."""
    return {
        column: base.child(child).quantity(name, LENGTH, fill=absent)
        for column, (child, name, _, _) in _DISTANCES.items()
    }


def _stated_places(base: Rows, kind: Codes, bases: Bases, assumptions: Flags) -> tuple[dict[str, Codes], Floats]:
    """Codes of units, material and location, -1 where none is stated, and f'c or f'm, no number where f'm isn't."""
    masonry, plank = base.child("masonry"), base.child("hollow_core")
    of_masonry, of_plank = kind == MASONRY, kind == HOLLOW_CORE
    units = required_of(masonry, "units", of_masonry, "Whether the units are hollow, grouted or solid", UNITS)
    material = required_of(masonry, "material", of_masonry, "The material of the units", MATERIALS)
    at, in_plank = masonry.values("location"), required_of(plank, "location", of_plank, "The place in the plank")
    f_m = masonry.quantity("f_m", STRESS)
    refuse_wrong_unit(masonry, "f_m", f_m)
    assumptions.set(Assumption.MASONRY_STRENGTH, of_masonry & np.isnan(f_m))
    silent = masonry.silent("location") | base.silent("face")
    assumptions.set(Assumption.MASONRY_FACE, of_masonry & silent)
    assumptions.set(Assumption.PLANK_NORMALWEIGHT, of_plank)
    assumptions.clear(bits_of(Assumption.CONCRETE_AGE), of_masonry)
    in_masonry = _codes(at, LOCATIONS, of_masonry)
    codes = {
        "units": _codes(units, UNITS, of_masonry),
        "material": _codes(material, MATERIALS, of_masonry),
        "location": np.where(
            of_masonry & (in_masonry < 0), _FACE, np.where(of_plank, _codes(in_plank, LOCATIONS, of_plank), in_masonry)
        ).astype(np.int8),
    }
    return codes, np.where(of_masonry, f_m, bases.f_c)


def _hollow_flaws(base: Rows, codes: dict[str, Codes], distances: dict[str, Floats], thickness: Floats) -> None:
    """What is hollow has a shell, which is less than half of a unit and less than a plank."""
    of_plank = (codes["location"] == LOCATIONS.index("core")) | (codes["location"] == LOCATIONS.index("unknown"))
    hollow = codes["units"] == UNITS.index("hollow")
    for column, own, most in (("face_shell", hollow, thickness / 2), ("cover", of_plank, thickness)):
        child, name, what, _ = _DISTANCES[column]
        stated = own & ~base.child(child).silent(name)
        for at in np.flatnonzero(stated & (distances[column] >= most)).tolist():
            if np.isinf(distances[column][at]):
                base.child(child).flaw(at, name, f"{what} is a thickness here: there is no hollow without a shell.")
            else:
                detail = f"{what} reaches or passes the hollow behind it: it is at least {_PARTS[column]}."
                base.child(child).flaw(at, name, detail, slug="impossible-geometry")


def _codes(words: Sequence[Any], known: Sequence[str], where: Bools) -> Codes:
    stated = [known.index(word) if word and own else -1 for word, own in zip(words, where.tolist(), strict=True)]
    return np.array(stated, dtype=np.int8)


def places_of(points: Points) -> Sequence[Place | None]:
    """Where each point is, as far as tables ask; None where none goes by them."""
    own = points.allowables
    if own is None:
        return [None] * points.count
    places = _places(
        points.surroundings.kind,
        points.bases,
        units=own.units,
        material=own.material,
        location=own.location,
        f_base=own.f_base,
    )
    by_table: list[bool] = (own.method != CHAPTER_17).tolist()
    return [place if asked else None for place, asked in zip(places, by_table, strict=True)]


def _places(
    kind: Codes, bases: Bases, *, units: Codes, material: Codes, location: Codes, f_base: Floats
) -> list[Place]:
    rows = zip(
        kind.tolist(),
        units.tolist(),
        material.tolist(),
        location.tolist(),
        (bases.cracked & (kind == CONCRETE)).tolist(),
        bases.lightweight.tolist(),
        np.where(np.isnan(f_base), F_M_ASSUMED, f_base).tolist(),
        strict=True,
    )
    return [
        Place(
            kind=own,
            units=_word(UNITS, unit),
            material=_word(MATERIALS, made_of),
            location=_word(LOCATIONS, at),
            cracked=cracked,
            lightweight=light,
            f_base=strength,
        )
        for own, unit, made_of, at, cracked, light, strength in rows
    ]


def _word(known: Sequence[str], code: int) -> str:
    return known[code] if code >= 0 else ""


def bolts(places: Sequence[Place | None], taken: ProductTable) -> Bools:
    """(rows,) cast-in bolts in grouted masonry, which go by formula and so need f'm.

    Args:
        places: of each row, None where nothing goes by tables.
        taken: the product of each row.
    """
    grouted = [place is not None and place.kind == MASONRY and place.units == "grouted" for place in places]
    return masonry_bolts(taken) & np.array(grouted, dtype=np.bool_)


def masonry_bolts(taken: ProductTable) -> Bools:
    """(rows,) products that are cast-in bolts made for masonry."""
    return (taken.basis == _CAST_IN) & taken.masonry_allowed


def table_data(places: Sequence[Place | None], taken: ProductTable) -> TableData:
    """The rows of each product's tables in its place, looked up once for each pair of them.

    Args:
        places: of each row, None where it doesn't go by a table.
        taken: the product of each row.
    """
    choices, own = _choices(places, taken)
    return _data([*choices, _Choice(unmet=MET)], own)


def _no_tables(count: int) -> TableData:
    return _data([_Choice(unmet=MET)], np.zeros(count, dtype=np.intp))


def _data(choices: Sequence[_Choice], own: Index) -> TableData:
    """Of each row its choice as columns."""
    both = [[load for load in choice.loads if load is not None] for choice in choices]
    one_a_cell = np.array([any(load.one_a_cell for load in loads) for loads in both], dtype=np.bool_)
    power = np.array([bool(loads) and all(load.power for load in loads) for loads in both], dtype=np.bool_)
    return TableData(
        unmet=np.array([choice.unmet for choice in choices], dtype=np.int8)[own],
        one_a_cell=one_a_cell[own],
        power=power[own],
        **{name: column[own] for name, column in _columns(choices).items()},
    )


def _choices(places: Sequence[Place | None], taken: ProductTable) -> tuple[list[_Choice], Index]:
    by_id = {id(loads): loads for loads in taken.loads}
    masonry: list[bool] = taken.masonry_allowed.tolist()
    cast: list[bool] = (taken.basis == _CAST_IN).tolist()
    keys = [
        None if place is None else (id(loads), made, cast_in, place)
        for loads, made, cast_in, place in zip(taken.loads, masonry, cast, places, strict=True)
    ]
    at, found = found_rows(keys, lambda key: None if key is None else _choice(by_id[key[0]], *key[1:]))
    return found, at


def _choice(loads: Sequence[AllowableLoad], made_for_masonry: bool, cast_in: bool, place: Place) -> _Choice:
    own = [load for load in loads if load.family_base == BASE_KINDS[place.kind]]
    if not own:
        return _Choice(unmet=_without(place, made_for_masonry, cast_in))
    narrowing: tuple[tuple[int, Callable[[AllowableLoad], bool]], ...] = (
        (NO_TABLE, lambda load: (load.units, load.material) == (place.units, place.material)),
        (AT_JOINT if place.location == "joint" else ELSEWHERE, lambda load: tested_at(load, place.location)),
        (LIGHTWEIGHT, lambda load: load.lightweight or not place.lightweight),
        (CRACKED, lambda load: load.state == "cracked" or not place.cracked),
    )
    for unmet, holds in narrowing:
        own = [load for load in own if holds(load)]
        if not own:
            return _Choice(unmet=unmet)
    tension, shear = ([load for load in own if load.direction == name] for name in DIRECTIONS)
    return _Choice(
        unmet=MET,
        loads=(
            strongest_below(tension, place.f_base) if tension else None,
            strongest_below(shear, place.f_base) if shear else None,
        ),
    )


def _without(place: Place, made_for_masonry: bool, cast_in: bool) -> int:
    """Why a product has no table at all in this base."""
    if place.kind == CONCRETE:
        return NOT_BY_TABLE
    if place.kind != MASONRY or not made_for_masonry:
        return WRONG_BASE
    return NOT_IN_UNITS if cast_in else NO_TABLE


def tested_at(load: AllowableLoad, location: str) -> bool:
    """Whether a row holds where a point is."""
    if not load.locations:
        return True
    return load.locations >= _UNKNOWN if location == "unknown" else location in load.locations


def _columns(choices: Sequence[_Choice]) -> dict[str, Floats]:
    """Numbers of the tables, (choices, 2); 0 and harmless distances where there is none."""
    made = {name: np.zeros((len(choices), len(DIRECTIONS))) for name in _NUMBERS}
    made["safety_factor"][:] = made["f_ref"][:] = 1.0
    for at, choice in enumerate(choices):
        for direction, load in enumerate(choice.loads):
            if load is not None:
                for name in _NUMBERS:
                    made[name][at, direction] = load.n if name == "strength_exponent" else getattr(load, name)
    return made
