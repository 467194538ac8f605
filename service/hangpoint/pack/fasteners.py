"""What a check by EN 1992-4 reads of each item beside what every check does: product data, the class, its options."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np

from hangpoint.core.en1992_4.table_c1 import table_category
from hangpoint.core.hang_point.fastener_levers import fastener_levers
from hangpoint.core.hang_point.fasteners import (
    C1,
    C2,
    CAPACITY_DESIGN,
    DUCTILE_FAILURE,
    ELASTIC_DESIGN,
    NOT_IN_TABLE,
    FastenerData,
    Fasteners,
)
from hangpoint.core.hang_point.points import Fixings, Plates, Rods
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.anchors import PackedAnchors
from hangpoint.pack.flags import Flags
from hangpoint.pack.hangs import PackedHangs
from hangpoint.pack.pull import Rows, places
from hangpoint.pack.rods import ROD_RULES
from hangpoint.product.principles import MM_PER_INCH, PSI_PER_MPA
from hangpoint.product.table import ProductTable
from hangpoint.units import LENGTH, STRESS

_BAR_SPACINGS = {"close": 0, "wide": 1}
_NEAR_ROWS = {"whole_shear": 0, "own_share": 1}
_OF_CHAPTER_17 = ("oblique_shear", "interaction", "group_area")
"""Options that are choices in chapter 17 of ACI 318-19."""
_SEISMIC_OF_CHAPTER_17 = ("tension_option", "shear_option", "stretch_length", "upset_threads", "fully_threaded")
"""What 17.10 asks about earthquake."""
_OF_EN_1992_4 = {
    "base": ("bar_spacing", "splitting_reinforcement"),
    "options": ("near_row",),
    "seismic": ("performance_category", "design_option", "a_g_s", "importance_class", "connection"),
    "attachment": ("annular_gap", "grout_thickness", "grout_strength", "grout_fills", "clamped", "turning"),
}
_IMPORTANCE_CLASSES = {"I": 0, "II": 1, "III": 2, "IV": 3}
_CONNECTIONS = {"non_structural": 0, "structural": 1}
_CATEGORIES = {"C1": C1, "C2": C2}
_DESIGN_OPTIONS = {
    "capacity_design": CAPACITY_DESIGN,
    "elastic_design": ELASTIC_DESIGN,
    "ductile_failure": DUCTILE_FAILURE,
}
_GAPS = {"open": 0, "filled": 1}
_TURNING = {"free": 0, "held": 1}
_OF_BOND = {"tau_cr": "tau_rk_cr", "tau_ucr": "tau_rk_ucr", "tau_exponent": "tau_exponent"}
"""Columns by the condition of the hole, and what they are in the bond table."""
_LEAST_OF_BOND = {"tau_c1": "tau_rk_c1", "tau_c2": "tau_rk_c2"}
"""The same of the least of all conditions that are left open."""
_DERIVED = {"known", "headed", "h_min", *_OF_BOND, *_LEAST_OF_BOND}
_AS_IN_TABLE = tuple(name for name in FastenerData.names() if name not in _DERIVED)


def fastener_data(table: ProductTable, bond_row: Index, agreeing: Mapping[int, Sequence[int]]) -> FastenerData:
    """Figures by European assessment of the rows of a table; of a product without any those of another.

    Args:
        table: of products.
        bond_row: (rows,) the condition of each in the bond table, -1 without.
        agreeing: rows of all conditions of those where several are left open.
    """
    own, known = table.en, table.en_row >= 0
    columns: dict[str, Any] = {}
    for name in _AS_IN_TABLE:
        column = getattr(own, name)
        columns[name] = column[np.maximum(table.en_row, 0)] if len(own) else np.ones_like(column, shape=len(table))
    columns["bonded"] &= known & (bond_row >= 0)
    columns |= _bonds(table, bond_row, agreeing, np.where(columns["bonded"], 0.0, columns["gamma_inst"]))
    return FastenerData(known=known, headed=known & (columns["a_h"] > 0), h_min=table.h_min * MM_PER_INCH, **columns)


def psi0_silent(table: ProductTable) -> Bools:
    """(rows,) whose data of a bonded fastener don't say psi0_sus."""
    known = table.en_row >= 0
    return known & table.en.psi0_sus_silent[np.maximum(table.en_row, 0)] if len(table.en) else known


def _bonds(
    table: ProductTable, bond_row: Index, agreeing: Mapping[int, Sequence[int]], gamma_inst: Floats
) -> dict[str, Floats]:
    """The columns of `FastenerData` that go by the condition of the hole; ``gamma_inst`` is that of all others."""
    bond, there = table.bond, bond_row >= 0
    row = np.maximum(bond_row, 0)
    found: dict[str, Floats] = {}
    for name, column in (_OF_BOND | _LEAST_OF_BOND | {"gamma_inst": "gamma_inst"}).items():
        values: Floats = getattr(bond, column)
        found[name] = np.where(there, values[row], 0.0) if len(bond) else np.zeros(len(bond_row))
        for at, rows in agreeing.items() if name not in _OF_BOND else ():
            found[name][at] = (values[list(rows)].max if name == "gamma_inst" else values[list(rows)].min)()
    found["gamma_inst"] = np.where(gamma_inst > 0, gamma_inst, np.maximum(found["gamma_inst"], 1.0))
    found["tau_ucr"] = np.where(found["tau_ucr"] > 0, found["tau_ucr"], 1.0)
    return found


def pack_fasteners(
    items: Rows, anchors: PackedAnchors, rods: Rods, *, f_ck_class: Floats | None, cracked: Bools
) -> Fasteners | None:
    """Read what EN 1992-4 asks of every item; None where the points go by another design code, without ``f_ck_class``.

    Flaws: options of chapter 17, the rule of a rod that is of American strength design, and reinforcement against
    splitting in uncracked concrete; of another code whatever only EN 1992-4 has.
    """
    if f_ck_class is None:
        _refuse_fastener_options(items)
        return None
    _refuse_of_chapter_17(items)
    data = fastener_data(anchors.table, anchors.bond_row, anchors.conditions)
    for at in places(rods.rule == ROD_RULES["tensile_strength"]):
        items.child("rod").flaw(
            at,
            "rule",
            "This rule is of American strength design; under en1992_4 name one that goes by service loads.",
            code="contradiction",
            allowed=[name for name in RULE_NAMES if name != "tensile_strength"],
        )
    base = items.child("base")
    splitting_bars = base.true("splitting_reinforcement")
    for at in places(splitting_bars & ~cracked):
        base.flaw(
            at,
            "splitting_reinforcement",
            "Reinforcement in place of the check of splitting goes with cracked concrete: EN 1992-4 7.2.1.7(2).",
            code="contradiction",
        )
    seismic = items.child("seismic")
    return Fasteners(
        **{name: getattr(data, name) for name in FastenerData.names()},
        f_ck_class=f_ck_class,
        wide_bars=base.codes("bar_spacing", _BAR_SPACINGS, absent=0) == 1,
        splitting_bars=splitting_bars,
        own_share=items.child("options").codes("near_row", _NEAR_ROWS, absent=0) == 1,
        **_categories(seismic),
        design_option=seismic.codes("design_option", _DESIGN_OPTIONS),
        **_attached(items.child("attachment")),
    )


def _categories(seismic: Rows) -> dict[str, Any]:
    """The columns of `Fasteners` on the performance category. Flaw: half of what Table C.1 goes by."""
    stated, known = seismic.codes("performance_category", _CATEGORIES), ~seismic.silent("a_g_s")
    whole = known & ~seismic.silent("importance_class")
    for at in places(known & ~whole):
        seismic.flaw(at, "importance_class", "Table C.1 asks for it beside a_g_s: I to IV.", code="missing")
    for name in ("importance_class", "connection"):
        for at in places(~known & ~seismic.silent(name)):
            seismic.flaw(at, "a_g_s", "Table C.1 asks for it: a_g times S as a share of g, as 0.08.", code="missing")
    table = table_category(
        a_g_s=seismic.numbers("a_g_s", 0.0),
        importance_class=seismic.codes("importance_class", _IMPORTANCE_CLASSES, absent=len(_IMPORTANCE_CLASSES) - 1),
        structural=seismic.codes("connection", _CONNECTIONS, absent=1) == 1,
    )
    table = np.where(whole, table, NOT_IN_TABLE).astype(np.int8)
    taken = np.where(whole, np.maximum(table, C1), C2)
    return {
        "category": np.where(stated >= 0, stated, taken).astype(np.int8),
        "category_stated": stated >= 0,
        "table_category": table,
    }


def _attached(attachment: Rows) -> dict[str, Any]:
    """The columns of `Fasteners` that say how what is fixed meets the fasteners. Flaw: grout of unknown thickness."""
    grout = attachment.quantity("grout_thickness", LENGTH, fill=0.0) * MM_PER_INCH
    f_grout = attachment.quantity("grout_strength", STRESS, fill=0.0) / PSI_PER_MPA
    for at in places((f_grout > 0) & (grout == 0)):
        attachment.flaw(at, "grout_thickness", "The strength of grout goes with its thickness.", code="missing")
    fills = attachment.true("grout_fills")
    for at in places(fills & (grout == 0)):
        attachment.flaw(at, "grout_thickness", "Grout that fills the space goes with its thickness.", code="missing")
    return {
        "gap_filled": (attachment.codes("annular_gap", _GAPS, absent=0) == 1) | attachment.true("welded"),
        "grout": grout,
        "f_grout": f_grout,
        "grout_fills": fills,
        "clamped": attachment.true("clamped"),
        "held": attachment.codes("turning", _TURNING, absent=0) == 1,
    }


class FastenersFixed(NamedTuple):
    """Fasteners with what is fixed by them; (points,) ``sheared`` in any load case, ``psi0_silent`` of psi0_sus."""

    fasteners: Fasteners
    fixings: Fixings
    plates: Plates
    sheared: Bools
    psi0_silent: Bools


def fastener_assumptions(items: Rows, hangs: PackedHangs, fixed: FastenersFixed, assumptions: Flags) -> None:
    """What is taken by EN 1992-4 of points that state earthquake, and of those sheared with a lever arm."""
    given, shaken = hangs.forces.given, np.any(hangs.hangs.earthquake, axis=1)
    shaken[given.point[(given.n_e != 0) | given.v_e.any(axis=1) | given.m_e.any(axis=1)]] = True
    assumptions.set(Assumption.EN_EARTHQUAKE, shaken)
    seismic = items.child("seismic")
    assumptions.set(Assumption.STRUCTURAL, shaken & fixed.fasteners.by_table & seismic.silent("connection"))
    attachment = items.child("attachment")
    open_gap = attachment.silent("annular_gap") & ~attachment.true("welded")
    assumptions.set(Assumption.ANNULAR_GAP, shaken & fixed.sheared & open_gap)
    bonded = fixed.fasteners.bonded & fixed.fasteners.known
    assumptions.set(Assumption.SUSTAINED_SHARE, bonded)
    assumptions.set(Assumption.PSI0_SUS, bonded & fixed.psi0_silent)
    levers = fastener_levers(fixed.fasteners, fixed.fixings, fixed.plates)
    assumptions.set(Assumption.LEVER_ARM, levers.acts & fixed.sheared & attachment.silent("turning"))


def _refuse_of_chapter_17(items: Rows) -> None:
    """Flaws of items that state what only chapter 17 reads, for none of it would be in the answer."""
    options, base = items.child("options"), items.child("base")
    for name in _OF_CHAPTER_17:
        for at in places(~options.silent(name)) if options.gives(name) else ():
            options.flaw(at, name, "This is a choice of aci318_19; en1992_4 has none there.", code="contradiction")
    seismic = items.child("seismic")
    for name in _SEISMIC_OF_CHAPTER_17:
        for at in places(~seismic.silent(name)) if seismic.gives(name) else ():
            what = "This is for 17.10 of aci318_19; en1992_4 goes by performance_category and design_option."
            seismic.flaw(at, name, what, code="contradiction")
    what = "This goes with aci318_19; the check by en1992_4 takes no reinforcement of this kind into account."
    for at in places(base.true("supplementary")):
        base.flaw(at, "supplementary", what, code="contradiction")
    for at in places(np.array([word not in (None, "none") for word in base.values("edge_reinforcement")])):
        base.flaw(at, "edge_reinforcement", what, code="contradiction")


def _refuse_fastener_options(items: Rows) -> None:
    """Flaws of items of another design code that state what only EN 1992-4 has."""
    for part, names in _OF_EN_1992_4.items():
        own = items.child(part)
        for name in names:
            for at in places(~own.silent(name)) if own.gives(name) else ():
                own.flaw(at, name, "This goes with en1992_4; aci318_19 doesn't ask for it.", code="contradiction")
