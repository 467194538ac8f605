"""The rods that rules ask for which don't know of each other: for the size of a pipe, and for a load.

Diameter by pipe size (`SIZE_RULES`), for a single pipe on a single rod at the spacing of its own rule:

* ``sprinkler_size_table``: NFPA 13, from memory, but that NPS 8 goes with 1/2 in, which is printed;
* ``piping_handbook_by_pipe``: Facility Piping Systems Handbook, table 2.11;
* ``specification_by_pipe``: the rods of a city's project specification (Orono, Minnesota, hangers, 3.04 C).

For NPS 4 they ask for 3/8, 5/8 and 1/2 in. By load (`LOAD_RULES`): the allowables of the hanger standard, and
``duct_standard``, the list of single hangers of the duct construction standards, from memory. For 650 lb they ask for
1/2 (older), 3/8 (newer) and 3/8 in. Units: in, lbf.
"""

from collections.abc import Sequence
from functools import cache

import numpy as np

from hangpoint.core.hanger.rod import ALLOWABLE_BASES, THREADS, RodRule, rod_allowable, sprinkler_rod_diameter
from hangpoint.core.hanger.tables import size_range, table_rows
from hangpoint.core.quantity import Codes, Floats, Index

SIZE_RULES = ("sprinkler_size_table", "piping_handbook_by_pipe", "specification_by_pipe")
"""Labels of the codes of ``rule``, in code order."""

DUCT_RULE = "duct_standard"
LOAD_RULES = (*ALLOWABLE_BASES, DUCT_RULE)

_SPRINKLER = SIZE_RULES.index("sprinkler_size_table")
_ROUNDING = 1e-9
_EVERY_RULE = np.arange(len(SIZE_RULES), dtype=np.int8)

FURTHER_RULES: dict[str, RodRule] = {
    "piping_handbook_by_pipe": RodRule(
        "Diameter of the rod by the table by pipe size.",
        "Facility Piping Systems Handbook, table 2.11",
        from_memory=False,
    ),
    "specification_by_pipe": RodRule(
        "Diameter of the rod by the list by pipe size.",
        "City of Orono, Minnesota, project specification, hangers, 3.04 C",
        from_memory=False,
    ),
    DUCT_RULE: RodRule(
        "Service load against the listed load of a single hanger.",
        "SMACNA, HVAC Duct Construction Standards, table of single hangers",
        from_memory=True,
    ),
}
"""Rules beside those of `rod.RULES`: answers list the rods they ask for, requests don't name them."""


@cache
def _sizes() -> Floats:
    """Rule, first and last nominal size and rod diameter of each row."""
    rows = table_rows("rod_by_pipe.csv")
    return np.array([(SIZE_RULES.index(row["rule"]), *size_range(row), THREADS[row["rod"]].d) for row in rows])


def rod_size_by_rule(*, rule: Codes, nominal: Floats) -> Floats:
    """Rod diameter in inches that a rule asks for a pipe of ``nominal`` size in inches; 0 where it has no row.

    ``rule`` (n,) codes of `SIZE_RULES`, ``nominal`` (n,).
    """
    of_rule, first, last, d = _sizes().T
    at = nominal[:, None]
    holds = (rule[:, None] == of_rule) & (first <= at) & (at <= last) & (at > 0.0)
    listed = np.max(np.where(holds, d, 0.0), axis=1)
    return np.where(rule == _SPRINKLER, sprinkler_rod_diameter(nominal=nominal), listed)


def rods_for_pipe(nominal: float) -> list[tuple[str, str]]:
    """Each rule by pipe size that has a row for this size, in, with its rod by thread; the thickest first."""
    d = rod_size_by_rule(rule=_EVERY_RULE, nominal=np.full(len(SIZE_RULES), nominal)).tolist()
    found = [(own, rule) for own, rule in zip(d, SIZE_RULES, strict=True) if own > 0]
    by_diameter = {THREADS[name].d: name for name in reversed(threads(metric=False))}
    return [(rule, by_diameter[own]) for own, rule in sorted(found, key=lambda each: -each[0])]


@cache
def threads(*, metric: bool) -> tuple[str, ...]:
    """Threads of one series, the thinnest first."""
    return tuple(sorted((name for name in THREADS if name.startswith("M") is metric), key=lambda name: THREADS[name].d))


def thinnest_rods(*, load: Floats, rule: str, names: Sequence[str]) -> Index:
    """The thinnest rod that holds each service load (n,), lbf, by a rule of `LOAD_RULES`: its place in ``names``.

    ``names`` rise by diameter; -1 where none of them holds it.
    """
    holds = rod_loads(rule, names) * (1.0 + _ROUNDING) >= load[:, None]
    return np.where(holds.any(axis=1), holds.argmax(axis=1), -1)


def rod_loads(rule: str, names: Sequence[str]) -> Floats:
    """Load that each of the threads may carry by a rule of `LOAD_RULES`, lbf; 0 where the rule doesn't list it."""
    d, pitch, k_root, _ = np.array([THREADS[name] for name in names], dtype=np.float64).T
    if rule == DUCT_RULE:
        return duct_rod_load(d=d)
    basis = ALLOWABLE_BASES[rule]
    return rod_allowable(
        d=d,
        pitch=pitch,
        k_root=k_root,
        f_basis=np.full(len(d), basis.f_basis),
        safety=np.full(len(d), basis.safety),
        k_thread=np.full(len(d), basis.k_thread),
        demand=np.zeros(len(d)),
    ).design_strength


@cache
def _duct_hangers() -> Floats:
    return np.array([(float(row["diameter"]), float(row["load"])) for row in table_rows("duct_hanger_loads.csv")])


def duct_rod_load(*, d: Floats) -> Floats:
    """Load in lbf that the duct standard lists for a wire or rod of diameter ``d`` (n,) in inches; 0 where it has none.

    Diameters match to 1e-6 in. From memory.
    """
    listed, load = _duct_hangers().T
    return np.max(np.where(np.abs(d[:, None] - listed) < 1e-6, load, 0.0), axis=1)
