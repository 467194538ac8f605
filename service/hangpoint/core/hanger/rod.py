"""Threaded hanger rods by four named rules. A rod has no strength by itself: the number goes with its rule.

* ``sp58_allowable`` (default): service load against 50,000 psi / 3.5, less 25 % for threads, on the root area: the
  basis of MSS SP-58 since 2002 (the 3.5 from memory). ASME B31.1 121.2(G) has the same 25 % for threaded rods.
* ``sp58_allowable_older``: service load against 12,000 psi less 25 %, 9,000 psi on the root area, the basis of the
  load tables printed before.
* ``tensile_strength``: factored load against 0.75 A_t F_u on the tensile stress area; the grade is stated.
* ``sprinkler_size_table``: the rod's diameter against the one that the sprinkler standard's table (NFPA 13) asks for
  the pipe. From memory, except that NPS 8 goes with 1/2 in, which is printed. The table is for hangers of horizontal
  pipe at the standard's own spacing, so it never stands for the load: a rod of a sprinkler line has to satisfy it and
  one of the other rules.

Computed allowables are not the rounded table values: those printed with SP-58 lie within 0.4 % of them, mostly
below, and 4 % above at 1/4 in.

Units: in, in2, psi, lbf. Threads: unified coarse, A_r at d - 1.299038/n, A_t at d - 0.9743/n; ISO metric coarse, root
d - 1.226869 P (d_3), A_t at d - 0.938194 P (ISO 898-1). Limits: straight rod in tension, service temperature to
650 F, load along the axis, full thread engagement; bending and fatigue are not covered; compression is
in `statics.rod_in_compression`.
"""

from typing import Annotated, ClassVar, NamedTuple

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, StrengthRecord, formula, given, procedure, record
from hangpoint.core.statics.thread_root import thread_root


class Thread(NamedTuple):
    """Nominal diameter and pitch in inches; coefficients of the pitch for the root and the stress diameter."""

    d: float
    pitch: float
    k_root: float
    k_stress: float


def _unified(d: float, per_inch: int) -> Thread:
    return Thread(d, 1.0 / per_inch, 1.299038, 0.9743)


def _metric(d: float, pitch: float) -> Thread:
    return Thread(d / 25.4, pitch / 25.4, 1.226869, 0.938194)


THREADS: dict[str, Thread] = {
    "1/4": _unified(0.25, 20),
    "5/16": _unified(0.3125, 18),
    "3/8": _unified(0.375, 16),
    "1/2": _unified(0.5, 13),
    "5/8": _unified(0.625, 11),
    "3/4": _unified(0.75, 10),
    "7/8": _unified(0.875, 9),
    "1": _unified(1.0, 8),
    "1-1/8": _unified(1.125, 7),
    "1-1/4": _unified(1.25, 7),
    "1-1/2": _unified(1.5, 6),
    "M8": _metric(8.0, 1.25),
    "M10": _metric(10.0, 1.5),
    "M12": _metric(12.0, 1.75),
    "M16": _metric(16.0, 2.0),
    "M20": _metric(20.0, 2.5),
    "M24": _metric(24.0, 3.0),
}

ROD_MATERIALS: dict[str, float] = {"unknown": 50_000.0, "a36": 58_000.0, "a307": 60_000.0, "f1554_36": 58_000.0}
"""Least tensile strength F_u in psi, from memory. ``unknown`` is an assumption: soft rod of 48,000 psi is sold."""


class RodRule(NamedTuple):
    """What a rule compares, where it comes from, and whether that is from memory."""

    text: str
    source: str
    from_memory: bool


RULES: dict[str, RodRule] = {
    "sp58_allowable": RodRule(
        "Service load against 10,714 psi on the root area (50,000 psi / 3.5, less 25 % for threads).",
        "MSS SP-58, 2002 and later",
        from_memory=True,
    ),
    "sp58_allowable_older": RodRule(
        "Service load against 9,000 psi on the root area (12,000 psi less 25 % for threads).",
        "MSS SP-58 before 2002, as printed in piping handbooks",
        from_memory=False,
    ),
    "tensile_strength": RodRule(
        "Factored load against 0.75 A_t F_u on the tensile stress area.",
        "as a ductile steel element of ACI 318-19, 17.5.3 and 17.6.1.2",
        from_memory=False,
    ),
    "sprinkler_size_table": RodRule(
        "Diameter of the rod against the table by pipe size, of sprinkler lines whatever rule is named; the load by"
        " `sp58_allowable` beside it.",
        "NFPA 13, table of hanger rod sizes",
        from_memory=True,
    ),
}


class AllowableBasis(NamedTuple):
    """Stress, safety factor and reduction for threads behind an allowable."""

    f_basis: float
    safety: float
    k_thread: float


ALLOWABLE_BASES: dict[str, AllowableBasis] = {
    "sp58_allowable": AllowableBasis(50_000.0, 3.5, 0.75),
    "sp58_allowable_older": AllowableBasis(12_000.0, 1.0, 0.75),
}

PHI_TENSION = 0.75


@record
class RodAllowable(StrengthRecord):
    """Threaded rod by an allowable load of the hanger standard, against the service load."""

    TITLE: ClassVar[str] = "Threaded rod, allowable load"
    AXIS: ClassVar[Axis] = Axis.LOAD

    d: Annotated[Floats, given("d", "in", clause="thread standard")]
    pitch: Annotated[Floats, given("p", "in", clause="thread standard")]
    k_root: Annotated[Floats, given("k_r", clause="thread standard")]
    d_r: Annotated[Floats, formula("d_r", "in", "d - k_root*pitch", clause="thread standard")]
    a_r: Annotated[Floats, formula("A_r", "in**2", "pi/4*d_r**2", clause="thread standard")]
    f_basis: Annotated[Floats, given("f", "psi", clause="named rod rule")]
    safety: Annotated[Floats, given("s", clause="named rod rule")]
    k_thread: Annotated[Floats, given("k_thread", clause="named rod rule")]
    f_allow: Annotated[Floats, formula("f_allow", "psi", "f_basis/safety*k_thread", clause="named rod rule")]
    design_strength: Annotated[Floats, formula("P_allow", "lbf", "f_allow*a_r", clause="named rod rule")]
    demand: Annotated[Floats, given("P", "lbf")]
    utilisation: Annotated[Floats, formula("P/P_allow", "", "demand/design_strength", clause="named rod rule")]


@record
class RodStrength(StrengthRecord):
    """Threaded rod by its tensile strength, against the factored load."""

    TITLE: ClassVar[str] = "Threaded rod, tensile strength"
    AXIS: ClassVar[Axis] = Axis.CASE

    d: Annotated[Floats, given("d", "in", clause="thread standard")]
    pitch: Annotated[Floats, given("p", "in", clause="thread standard")]
    k_stress: Annotated[Floats, given("k_t", clause="thread standard")]
    d_t: Annotated[Floats, formula("d_t", "in", "d - k_stress*pitch", clause="thread standard")]
    a_t: Annotated[Floats, formula("A_t", "in**2", "pi/4*d_t**2", clause="thread standard")]
    f_u: Annotated[Floats, given("F_u", "psi", clause="rod material")]
    phi: Annotated[Floats, given("φ", clause="named rod rule")]
    design_strength: Annotated[Floats, formula("φN", "lbf", "phi*a_t*f_u", clause="named rod rule")]
    demand: Annotated[Floats, given("N_u", "lbf")]
    utilisation: Annotated[Floats, formula("N_u/φN", "", "demand/design_strength", clause="named rod rule")]


@record
class RodSize(Record):
    """Threaded rod by the size table of the sprinkler standard: it suffices or it does not, there is no ratio."""

    TITLE: ClassVar[str] = "Threaded rod, size for the pipe"
    AXIS: ClassVar[Axis] = Axis.LOAD

    nominal: Annotated[Floats, given("NPS", "in", clause="pipe standard")]
    d_required: Annotated[Floats, procedure("d_req", "in", "sprinkler_rod_diameter", clause="named rod rule")]
    covered: Annotated[Bools, formula("in the table", "", "d_required > 0", clause="named rod rule")]
    d: Annotated[Floats, given("d", "in", clause="thread standard")]
    suffices: Annotated[Bools, formula("d ≥ d_req", "", "d >= d_required", clause="named rod rule")]


def rod_allowable(
    *,
    d: Floats,
    pitch: Floats,
    k_root: Floats,
    f_basis: Floats,
    safety: Floats,
    k_thread: Floats,
    demand: Floats,
) -> RodAllowable:
    """Allowable load of each rod against its service tension ``demand`` in lbf, every array of shape (n,).

    ``d``, ``pitch``, ``k_root`` of ``THREADS``; ``f_basis`` in psi, ``safety``, ``k_thread`` of ``ALLOWABLE_BASES``.
    """
    d_r, a_r = thread_root(d=d, pitch=pitch, k_root=k_root)
    f_allow = f_basis / safety * k_thread
    design_strength = f_allow * a_r
    return RodAllowable(
        d=d,
        pitch=pitch,
        k_root=k_root,
        d_r=d_r,
        a_r=a_r,
        f_basis=f_basis,
        safety=safety,
        k_thread=k_thread,
        f_allow=f_allow,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def rod_strength(
    *, d: Floats, pitch: Floats, k_stress: Floats, f_u: Floats, phi: Floats, demand: Floats
) -> RodStrength:
    """Design tensile strength of each rod against its factored tension ``demand`` in lbf, arrays of shape (n,).

    ``d``, ``pitch``, ``k_stress`` of ``THREADS``; ``f_u`` in psi; ``phi`` is ``PHI_TENSION``.
    """
    d_t = d - k_stress * pitch
    a_t = np.pi / 4.0 * d_t**2
    design_strength = phi * a_t * f_u
    return RodStrength(
        d=d,
        pitch=pitch,
        k_stress=k_stress,
        d_t=d_t,
        a_t=a_t,
        f_u=f_u,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def sprinkler_rod_diameter(*, nominal: Floats) -> Floats:
    """Rod diameter in inches that NFPA 13 asks for a pipe of ``nominal`` size (n,); 0 where its table has no row.

    Up to NPS 4: 3/8; 5, 6, 8: 1/2; 10, 12: 5/8. From memory.
    """
    small = (nominal > 0.0) & (nominal <= 4.0)
    middle = (nominal == 5.0) | (nominal == 6.0) | (nominal == 8.0)
    large = (nominal == 10.0) | (nominal == 12.0)
    return np.where(small, 0.375, np.where(middle, 0.5, np.where(large, 0.625, 0.0)))


def rod_size(*, nominal: Floats, d: Floats) -> RodSize:
    """Diameter ``d`` of each rod in inches against the one its pipe asks for, arrays of shape (n,).

    A row that is not ``covered`` has no requirement in the table; the caller says so.
    """
    d_required = sprinkler_rod_diameter(nominal=nominal)
    return RodSize(nominal=nominal, d_required=d_required, covered=d_required > 0, d=d, suffices=d >= d_required)
