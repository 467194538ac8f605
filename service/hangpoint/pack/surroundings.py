"""What a base is and where it stands, and the environment of the anchor, as columns; flaws of what is said of it."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.hang_point.surroundings import (
    CONCRETE,
    EXPOSURES,
    METALS,
    PARTS,
    TENSIONED_WORDS,
    Environments,
    Surroundings,
)
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.base_kinds import anchored
from hangpoint.pack.bonds import NOT_STATED, concrete_age
from hangpoint.pack.flags import Flags, bits_of
from hangpoint.pack.pull import Rows, filled, places
from hangpoint.product.product_row import PRINCIPLES
from hangpoint.product.table import ProductTable
from hangpoint.units import LENGTH

_PARTS = {name: code for code, name in enumerate(PARTS)}
_TENSIONED = {name: code for code, name in enumerate(TENSIONED_WORDS)}
_EXPOSURES = {name: code for code, name in enumerate(EXPOSURES)}
_METALS = {name: code for code, name in enumerate(METALS)}
_FOLLOWS = np.array(
    [
        name in ("torque_controlled_expansion", "undercut", "headed_cast_in", "hooked_cast_in", "cast_in_insert")
        for name in PRINCIPLES
    ]
)
OF_THE_ANCHOR = bits_of(
    Assumption.CRACKED,
    Assumption.NO_SUPPLEMENTARY,
    Assumption.OVERHEAD,
    Assumption.F_C,
    Assumption.LAMBDA,
    Assumption.SINGLE_ANCHOR,
    Assumption.C_AC_BY_CODE,
    Assumption.K_C_BY_CODE,
    Assumption.F_C_REF,
    Assumption.LAMBDA_ON_PULLOUT,
    Assumption.N_P_EQ,
    Assumption.OBLIQUE_SHEAR,
    Assumption.SHEAR_STEEL,
    Assumption.FLUSH,
    Assumption.NO_EDGE_REINFORCEMENT,
    Assumption.EDGE_REINFORCEMENT,
    Assumption.CONCRETE_AGE,
    Assumption.BOND_CONDITION,
    Assumption.EDGES_FROM_ORIGIN,
    Assumption.ALL_RESIST,
    Assumption.GROUP_AREA,
    Assumption.GROUP_SUBSETS,
    Assumption.EDGE_ROWS,
)
"""Taken of an anchor in concrete; not said where the base is one that no anchor is checked in."""
OF_BREAKOUT = bits_of(
    Assumption.LAMBDA,
    Assumption.NO_SUPPLEMENTARY,
    Assumption.OBLIQUE_SHEAR,
    Assumption.NO_EDGE_REINFORCEMENT,
    Assumption.EDGE_REINFORCEMENT,
    Assumption.GROUP_AREA,
    Assumption.GROUP_SUBSETS,
    Assumption.EDGE_ROWS,
)
"""Taken for breakout of concrete; not said in a deck."""


def pack_surroundings(items: Rows, kinds: Codes, table: ProductTable, assumptions: Flags) -> Surroundings:
    """Read what is said of the member; ``table`` are the products of the items.

    Flaws: a scan that nobody made, a depth of tendons in a member that isn't post-tensioned, two ages.
    """
    base = items.child("base")
    tensioned = base.codes("post_tensioned", _TENSIONED)
    assumptions.set(Assumption.NOT_POST_TENSIONED, (tensioned < 0) & (kinds == CONCRETE))
    scanned = base.true("scanned")
    _named(base, scanned)
    tendon_depth = base.quantity("tendon_depth", LENGTH, fill=0.0)
    for at in places((tendon_depth > 0) & (tensioned == _TENSIONED["no"])):
        base.flaw(
            at,
            "tendon_depth",
            "The member is stated not to be post-tensioned: it has no tendons.",
            code="contradiction",
        )
    return Surroundings(
        kind=kinds,
        part=base.codes("part", _PARTS),
        post_tensioned=tensioned,
        scanned=scanned,
        existing=base.true("existing"),
        f_c_stated=~base.child("strength").silent("f_c"),
        age=_one_age(items),
        clear_cover=base.quantity("clear_cover", LENGTH, fill=0.0),
        tendon_depth=tendon_depth,
        drilled=drilled_depth(table),
        point_limit=filled(len(items), np.inf),
    )


def _one_age(items: Rows) -> Floats:
    age, base = concrete_age(items), items.child("base")
    of_member = base.numbers("age_days", NOT_STATED)
    for at in places((of_member != NOT_STATED) & (of_member != age)):
        base.flaw(
            at,
            "age_days",
            f"The concrete is {age[at]:g} days old when the anchor is set by `anchor.adhesive.concrete_age`, and"
            f" {of_member[at]:g} here. Correct one of the two, or leave it out.",
            code="contradiction",
        )
    return age


def drilled_depth(table: ProductTable) -> Floats:
    """(rows,) depth of the hole of each product, its embedment where the data state none; 0 without a hole, in."""
    return np.where(table.hole_depth > 0, table.hole_depth, np.where(table.post_installed, table.h_ef, 0.0))


def follow_up(table: ProductTable) -> Bools:
    """(rows,) products that tighten themselves under load, bear in an undercut, or are cast in."""
    return _FOLLOWS[table.principle]


def _named(base: Rows, scanned: Bools) -> None:
    """A scan names who made it."""
    at = places(scanned)
    by: Sequence[object] = base.values("scanned_by") if at else ()
    for place in at:
        if by[place] is None:
            base.flaw(place, "scanned_by", "A scan needs who made it.", code="missing")


def pack_environments(items: Rows, kinds: Codes, table: ProductTable, assumptions: Flags) -> Environments:
    """Read ``environment``; ``table`` are the products of the items."""
    environment = items.child("environment")
    exposure = environment.codes("exposure", _EXPOSURES)
    assumptions.set(Assumption.DRY_INDOORS, (exposure < 0) & anchored(kinds))
    return Environments(
        exposure=exposure,
        attached=environment.codes("attached_metal", _METALS),
        rod=environment.codes("rod_metal", _METALS),
        vibration=environment.true("vibration"),
        fire_rating=environment.numbers("fire_rating", 0.0),
        steel=table.steel,
        coating=table.coating,
        follow_up=follow_up(table),
    )
