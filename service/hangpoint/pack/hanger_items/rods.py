"""Rods of items: thread, strength, the rule that they are checked by, length and angle."""

import numpy as np

from hangpoint.core.hanger.hanger_cases import SPRINKLER_RULE
from hangpoint.core.hanger.items import Given, Lines, Rods
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows
from hangpoint.pack.rods import LOAD_RULES, ROD_RULES, stated_rods
from hangpoint.units import DISTANCE, LENGTH

_INCHES = 12.0
_ROUNDING = 1e-9
_STRENGTH = ROD_RULES["tensile_strength"]


def pack_rods(items: Rows, lines: Lines, shared: Bools, given: Given, notes: Notes) -> Rods:
    """Read ``rod`` of every item; ``shared`` (items,) is where a sprinkler line hangs and something beside it.

    Flaws: a size that the tables don't have, the size table where no sprinkler line hangs, a free length
    above the length, a quantity out of range.
    """
    rod, every = items.child("rod"), np.arange(len(items))
    read = stated_rods(rod)
    flaw_where(
        rod,
        read.by_table & ~_with_sprinkler_line(lines, len(items)),
        "rule",
        "The size table is for the hangers of sprinkler lines; for anything else name a rule that checks the load.",
        code="contradiction",
        allowed=LOAD_RULES,
    )
    notes.assume(LoadAssumption.ROD_RULE, read.by_default, every)
    notes.assume(LoadAssumption.ROD_MATERIAL, (read.rule == _STRENGTH) & ~read.graded, every)
    notes.assume(LoadAssumption.NO_ROD_WEIGHT, rod.silent("length"), every)
    notes.assume(LoadAssumption.PLUMB, rod.silent("out_of_plumb"), every)
    angle = rod.numbers("out_of_plumb", 0.0)
    notes.assume(LoadAssumption.LEAN_ALONG_SHEAR, angle > 0, every)
    notes.leave_unchecked(LoadNotChecked.ROD, ~read.stated, every)
    stated_rule = np.bincount(given.item[given.nature == SPRINKLER_RULE], minlength=len(items)) > 0
    ruled = stated_rule | shared
    notes.leave_unchecked(LoadNotChecked.ROD_SPRINKLER_RULE, ruled & read.allowable, every)
    length, free = rod.quantity("length", DISTANCE, fill=0.0), rod.quantity("free_length", LENGTH, fill=0.0)
    flaw_where(
        rod,
        (length > 0) & (free > _INCHES * length * (1 + _ROUNDING)),
        "free_length",
        "The free length is part of the rod: it is no longer than its length.",
        code="contradiction",
    )
    l_free = np.where(free > 0, free, _INCHES * length)
    return Rods(
        rule=read.rule,
        d=np.where(read.stated, read.d, 0.0),
        pitch=np.where(read.stated, read.pitch, 0.0),
        k_root=read.k_root,
        k_stress=read.k_stress,
        f_u=read.f_u,
        l_rod=length,
        l_free=np.where(l_free > 0, l_free, np.inf),
        angle=angle,
    )


def _with_sprinkler_line(lines: Lines, count: int) -> Bools:
    """(items,) whether a sprinkler line hangs there."""
    return np.bincount(lines.item[lines.sprinkler], minlength=count) > 0
