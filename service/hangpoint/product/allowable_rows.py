"""Allowable loads of one product as rows in the units of the core (in, psi, lbf), ready to be looked up."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf

from hangpoint.product.allowable_table import AllowableTable, Distance

DIRECTIONS = ("tension", "shear")


@dataclass(frozen=True, slots=True, kw_only=True)
class AllowableLoad:
    """One row of a table with what the table says of it. Limits that it doesn't state are 0.

    ``family_base`` is one of the bases; ``units`` and ``material`` are empty but in masonry. ``c_full``, ``c_least``
    and ``slope_c`` are of the edge, ``s_full``, ``s_least`` and ``slope_s`` of the spacing: the share of the load lost
    with each inch below the distance for all of it. ``n`` is the exponent of
    the strength, which reaches down to ``f_least``.
    """

    direction: str
    family_base: str
    units: str
    material: str
    locations: frozenset[str]
    lightweight: bool
    state: str
    f_ref: float
    n: float
    f_least: float
    safety_factor: float
    mean_ultimate: float
    c_full: float
    c_least: float
    slope_c: float
    s_full: float
    s_least: float
    slope_s: float
    one_a_cell: bool
    h_least: float
    shell_least: float
    joint_least: float
    cover_least: float
    strand_least: float
    power: bool


def allowable_rows(
    tables: Iterable[AllowableTable],
    *,
    size: str,
    h_ef: float,
    h_min: float,
    length: float,
    stress: float,
    force: float,
) -> tuple[AllowableLoad, ...]:
    """The rows of one size and embedment in all tables, weaker bases first.

    Args:
        tables: of the product.
        size, h_ef, h_min: as the file states them.
        length, stress, force: factors from the units of the file to those of the core.
    """
    found = [
        _load(table, at, h_min=h_min, length=length, stress=stress, force=force)
        for table in tables
        for at, row in enumerate(table.rows)
        if row.size == size and row.h_ef == h_ef
    ]
    return tuple(sorted(found, key=lambda load: load.f_ref))


def _load(table: AllowableTable, at: int, *, h_min: float, length: float, stress: float, force: float) -> AllowableLoad:
    row = table.rows[at]
    c_least, c_full, slope_c = _distance(row.edge, length)
    s_least, s_full, slope_s = _distance(row.spacing, length)
    thickness = h_min if table.least_thickness is None else table.least_thickness
    return AllowableLoad(
        direction=table.direction,
        family_base=table.base,
        units=table.masonry or "",
        material=table.material or "",
        locations=frozenset(table.locations),
        lightweight=table.lightweight,
        state=table.state,
        f_ref=table.f_c * stress,
        n=table.strength_exponent or 0.0,
        f_least=(table.least_strength or table.f_c) * stress,
        safety_factor=table.safety_factor,
        mean_ultimate=min(row.mean_ultimate, row.allowable * table.safety_factor) * force,
        c_full=c_full,
        c_least=c_least,
        slope_c=slope_c,
        s_full=s_full,
        s_least=s_least,
        slope_s=slope_s,
        one_a_cell=table.one_a_cell,
        h_least=thickness * length,
        shell_least=(table.least_face_shell or 0.0) * length,
        joint_least=(table.least_joint or 0.0) * length,
        cover_least=(table.least_cover or 0.0) * length,
        strand_least=(table.least_strand or 0.0) * length,
        power=table.interaction == "power_5_3",
    )


def _distance(distance: Distance | None, length: float) -> tuple[float, float, float]:
    if distance is None:
        return 0.0, 0.0, 0.0
    least = distance.least * length
    if distance.full is None or distance.full == distance.least:
        return least, least, 0.0
    full = distance.full * length
    return least, full, (1 - distance.factor) / (full - least)


def strongest_below(loads: Sequence[AllowableLoad], strength: float) -> AllowableLoad:
    """Of rows in rising strength of the base, the last whose tests were in no stronger base; otherwise the first."""
    least = inf if not loads else loads[0].f_ref
    found = [load for load in loads if not above(load.f_ref, max(strength, least))]
    return found[-1]


def above(f_ref: float, strength: float) -> bool:
    """Whether tests were in a stronger base, by more than the rounding of a conversion."""
    return f_ref > strength * (1 + 1e-9)
