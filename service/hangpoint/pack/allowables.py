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
    LIGHTWEIGHT,
    MASONRY_BOLT,
    MET,
    NO_TABLE,
    NOT_BY_TABLE,
    NOT_IN_UNITS,
    TABLE,
    WRONG_BASE,
    Allowables,
)
from hangpoint.core.hang_point.points import Bases
from hangpoint.core.hang_point.surroundings import BASE_KINDS, CONCRETE, HOLLOW_CORE, MASONRY
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.base_kinds import required_of
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows, found_rows
from hangpoint.product.allowable_rows import DIRECTIONS, AllowableLoad, strongest_below
from hangpoint.product.product_row import BASES
from hangpoint.product.table import ProductTable
from hangpoint.units import LENGTH, STRESS

UNITS = ("hollow", "grouted", "solid")
MATERIALS = ("concrete", "clay")
LOCATIONS = ("face", "cell", "web", "joint", "core", "unknown")
F_M_ASSUMED = 1500.0
_FACE = LOCATIONS.index("face")
_CAST_IN = BASES.index("cast_in")
_UNKNOWN = frozenset({"core", "web"})
_LENGTHS = ("c_least", "c_full", "slope_c", "s_least", "s_full", "slope_s")
_LIMITS = ("h_least", "shell_least", "joint_least", "cover_least", "strand_least")
_NUMBERS = ("mean_ultimate", "safety_factor", "f_ref", "strength_exponent", "f_least", *_LENGTHS, *_LIMITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
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
    items: Rows, kind: Codes, bases: Bases, taken: ProductTable, *, allowable: bool, factored: bool, assumptions: Flags
) -> Allowables | None:
    """The methods of the points; None where all are in concrete and go by chapter 17.

    Args:
        items: of the batch.
        kind: (points,) of `base_kinds`.
        bases: of the same points.
        taken: the product of each point.
        allowable, factored: the request asks for allowable combinations, or gives factored loads.
        assumptions: takes the defaults.

    Flaws: what a kind of base needs, and distances that the tables limit and the request doesn't state.
    """
    by_tables = (kind == MASONRY) | (kind == HOLLOW_CORE)
    if not allowable and not by_tables.any():
        return None
    base = items.child("base")
    method = np.where(by_tables | ((kind == CONCRETE) & allowable), TABLE, CHAPTER_17).astype(np.int8)
    places = _places(base, kind, bases, assumptions)
    bolt = _bolts(base, kind, method, places, taken)
    method[bolt] = MASONRY_BOLT
    silent = items.child("options").silent("masonry_edition")
    assumptions.set(Assumption.MASONRY_EDITION, bolt & silent)
    choices, own = _choices(places, method, taken)
    made = {name: column[own] for name, column in _columns(choices).items()}
    masonry, plank = base.child("masonry"), base.child("hollow_core")
    stated = {
        "joint": _limited(masonry, "joint_distance", "The distance to the nearest mortar joint", made["joint_least"]),
        "face_shell": _limited(masonry, "face_shell", "The thickness of the face shell", made["shell_least"]),
        "cover": _limited(plank, "cover", "The concrete below the core", made["cover_least"]),
        "strand": _limited(plank, "strand_distance", "The distance to the nearest strand", made["strand_least"]),
    }
    by_table = method == TABLE
    unmet = np.array([choice.unmet for choice in choices], dtype=np.int8)[own]
    assumptions.set(Assumption.TABLE_PRACTICE, by_table & (kind == CONCRETE) & (unmet == MET))
    assumptions.set(Assumption.SERVICE_COMBINATIONS, by_table & (not (allowable or factored)))
    both = [[load for load in choice.loads if load is not None] for choice in choices]
    one_a_cell = np.array([any(load.one_a_cell for load in loads) for loads in both], dtype=np.bool_)
    power = np.array([bool(loads) and all(load.power for load in loads) for loads in both], dtype=np.bool_)
    return Allowables(
        method=method,
        unmet=unmet,
        units=np.array([UNITS.index(place.units) if place.units else -1 for place in places], dtype=np.int8),
        material=np.array([MATERIALS.index(place.material) if place.material else -1 for place in places], np.int8),
        location=np.array([LOCATIONS.index(place.location) if place.location else -1 for place in places], np.int8),
        f_base=np.array([place.f_base for place in places]),
        one_a_cell=one_a_cell[own],
        power=power[own],
        older=items.child("options").codes("masonry_edition", {"tms402_16": 0, "tms402_13": 1}, absent=0) == 1,
        by_strength=bolt & (not allowable),
        **stated,
        **made,
    )


def _places(base: Rows, kind: Codes, bases: Bases, assumptions: Flags) -> list[_Place]:
    masonry, plank = base.child("masonry"), base.child("hollow_core")
    of_masonry, of_plank = kind == MASONRY, kind == HOLLOW_CORE
    units = required_of(masonry, "units", of_masonry, "Whether the units are hollow, grouted or solid", UNITS)
    material = required_of(masonry, "material", of_masonry, "The material of the units", MATERIALS)
    at, in_plank = masonry.values("location"), required_of(plank, "location", of_plank, "The place in the plank")
    f_m = masonry.quantity("f_m", STRESS)
    assumptions.set(Assumption.MASONRY_STRENGTH, of_masonry & np.isnan(f_m))
    silent = masonry.silent("location") | base.silent("face")
    assumptions.set(Assumption.MASONRY_FACE, of_masonry & silent)
    f_base = np.where(of_masonry, np.where(np.isnan(f_m), F_M_ASSUMED, f_m), bases.f_c).tolist()
    codes: list[int] = kind.tolist()
    return [
        _Place(
            kind=code,
            units=(units[row] or "") if code == MASONRY else "",
            material=(material[row] or "") if code == MASONRY else "",
            location=(at[row] or "face") if code == MASONRY else (in_plank[row] or "") if code == HOLLOW_CORE else "",
            cracked=bool(bases.cracked[row]) and code == CONCRETE,
            lightweight=bool(bases.lightweight[row]),
            f_base=f_base[row],
        )
        for row, code in enumerate(codes)
    ]


def _bolts(base: Rows, kind: Codes, method: Codes, places: Sequence[_Place], taken: ProductTable) -> Bools:
    """(points,) cast-in bolts in grouted masonry, which go by formula and so need f'm."""
    cast_in = (taken.basis == _CAST_IN) & taken.masonry_allowed
    grouted = np.array([place.units == "grouted" for place in places], dtype=np.bool_)
    bolt = (method == TABLE) & (kind == MASONRY) & cast_in & grouted
    required_of(base.child("masonry"), "f_m", bolt, "f'm")
    return bolt


def _choices(places: Sequence[_Place], method: Codes, taken: ProductTable) -> tuple[list[_Choice], Index]:
    """The rows of each product in each place, looked up once, and which of them every point has."""
    by_id = {id(loads): loads for loads in taken.loads}
    masonry: list[bool] = taken.masonry_allowed.tolist()
    cast: list[bool] = (taken.basis == _CAST_IN).tolist()
    keys = [
        (id(loads), made, cast_in, place) if code == TABLE else None
        for loads, made, cast_in, place, code in zip(taken.loads, masonry, cast, places, method.tolist(), strict=True)
    ]
    at, found = found_rows(keys, lambda key: None if key is None else _choice(by_id[key[0]], *key[1:]))
    return [*found, _Choice(unmet=MET)], at


def _choice(loads: Sequence[AllowableLoad], made_for_masonry: bool, cast_in: bool, place: _Place) -> _Choice:
    own = [load for load in loads if load.family_base == BASE_KINDS[place.kind]]
    if not own:
        return _Choice(unmet=_without(place, made_for_masonry, cast_in))
    narrowing: tuple[tuple[int, Callable[[AllowableLoad], bool]], ...] = (
        (NO_TABLE, lambda load: (load.units, load.material) == (place.units, place.material)),
        (AT_JOINT if place.location == "joint" else ELSEWHERE, lambda load: _tested_at(load, place.location)),
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


def _without(place: _Place, made_for_masonry: bool, cast_in: bool) -> int:
    """Why a product has no table at all in this base."""
    if place.kind == CONCRETE:
        return NOT_BY_TABLE
    if place.kind != MASONRY or not made_for_masonry:
        return WRONG_BASE
    return NOT_IN_UNITS if cast_in else NO_TABLE


def _tested_at(load: AllowableLoad, location: str) -> bool:
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


def _limited(rows: Rows, name: str, what: str, least: Floats) -> Floats:
    """A distance that the tables limit: it has to be stated, or said to be none; infinite where nothing limits it."""
    needed = least.max(axis=1) > 0
    required_of(rows, name, needed, f'{what}, or "none" where there is none,')
    stated: Any = rows.quantity(name, LENGTH, fill=np.inf)
    return np.where(needed, stated, np.where(np.isnan(stated), np.inf, stated))
