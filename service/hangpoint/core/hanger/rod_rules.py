"""Rules that size a rod by its pipe or its duct, and a strength rule of structural steel; none knows of the others.

Diameter by pipe size (`SIZE_RULES`), for a single pipe on a single rod at the spacing of its own rule:

* ``sprinkler_size_table``: NFPA 13, from memory, but that NPS 8 goes with 1/2 in, which is printed;
* ``piping_handbook_by_pipe``: Facility Piping Systems Handbook, table 2.11;
* ``specification_by_pipe``: the rods of a city's project specification (Orono, Minnesota, hangers, 3.04 C).

For NPS 4 they ask for 3/8, 5/8 and 1/2 in. Loads of a rod: ``duct_standard`` is the list of single hangers of the duct
construction standards, from memory; ``steel_allowable`` is 0.375 F_u on the gross area of a threaded part (AISC 360,
allowable strength, F_u 58,000 psi), three times what the hanger standard allows: it holds for bolts and is here for
comparison. Units: in, lbf, psi.
"""

from functools import cache
from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.hanger.rod import THREADS, AllowableBasis, RodRule, RodSize, sprinkler_rod_diameter
from hangpoint.core.hanger.tables import size_range, table_rows
from hangpoint.core.quantity import Axis, Codes, Floats, given, procedure, record

SIZE_RULES = ("sprinkler_size_table", "piping_handbook_by_pipe", "specification_by_pipe")
"""Labels of the codes of ``rule``, in code order."""

_SPRINKLER = SIZE_RULES.index("sprinkler_size_table")

FURTHER_RULES: dict[str, RodRule] = {
    "piping_handbook_by_pipe": RodRule(
        "Diameter of the rod against the table by pipe size.",
        "Facility Piping Systems Handbook, table 2.11",
        from_memory=False,
    ),
    "specification_by_pipe": RodRule(
        "Diameter of the rod against the list by pipe size.",
        "City of Orono, Minnesota, project specification, hangers, 3.04 C",
        from_memory=False,
    ),
    "duct_standard": RodRule(
        "Service load against the listed load of a single hanger.",
        "SMACNA, HVAC Duct Construction Standards, table of single hangers",
        from_memory=True,
    ),
    "steel_allowable": RodRule(
        "Service load against 0.375 F_u on the gross area, F_u 58,000 psi.", "AISC 360, table J3.2", from_memory=False
    ),
}
"""Rules beside those of `rod.RULES`; no request names them yet."""

GROSS_AREA_BASES: dict[str, AllowableBasis] = {"steel_allowable": AllowableBasis(58_000.0, 2.0, 0.75)}
"""As `rod.ALLOWABLE_BASES`, but on the gross area: ``k_root`` of `rod.rod_allowable` is 0."""


@record
class RodSizeByRule(RodSize):
    """Threaded rod by a table of rods by pipe size: it suffices or it does not, there is no ratio."""

    TITLE: ClassVar[str] = "Threaded rod, size for the pipe by a named table"
    AXIS: ClassVar[Axis] = Axis.LOAD

    d_required: Annotated[Floats, procedure("d_req", "in", "rod_size_by_rule", clause="named rod rule")]
    rule: Annotated[Codes, given("rod rule", labels=SIZE_RULES, clause="named rod rule")]


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


def rod_size_record(*, rule: Codes, nominal: Floats, d: Floats) -> RodSizeByRule:
    """Diameter ``d`` of each rod in inches against the one its rule asks for its pipe, arrays of shape (n,).

    A row that is not ``covered`` has no requirement in the table of its rule; the caller says so.
    """
    d_required = rod_size_by_rule(rule=rule, nominal=nominal)
    return RodSizeByRule(
        rule=rule, nominal=nominal, d_required=d_required, covered=d_required > 0, d=d, suffices=d >= d_required
    )


@cache
def _duct_hangers() -> Floats:
    return np.array([(float(row["diameter"]), float(row["load"])) for row in table_rows("duct_hanger_loads.csv")])


def duct_rod_load(*, d: Floats) -> Floats:
    """Load in lbf that the duct standard lists for a wire or rod of diameter ``d`` (n,) in inches; 0 where it has none.

    Diameters match to 1e-6 in. From memory.
    """
    listed, load = _duct_hangers().T
    return np.max(np.where(np.abs(d[:, None] - listed) < 1e-6, load, 0.0), axis=1)
