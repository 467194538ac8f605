"""Rods of items: thread, strength, the rule that they are checked by, length and angle."""

import numpy as np

from hangpoint.core.hanger.items import Lines, Rods
from hangpoint.core.hanger.rod_checks import NO_ROD
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.pull import Rows
from hangpoint.pack.rods import ROD_RULES, stated_rods
from hangpoint.units import DISTANCE

_SIZE_TABLE, _STRENGTH = ROD_RULES["sprinkler_size_table"], ROD_RULES["tensile_strength"]


def pack_rods(items: Rows, lines: Lines, loaded: Bools, notes: Notes) -> Rods:
    """Read ``rod`` of every item; ``loaded`` (items,) have loads beside their lines, so that no size table goes alone.

    Flaws: a size that the tables don't have, the size table for anything but one sprinkler line, a quantity out of
    range.
    """
    rod, every = items.child("rod"), np.arange(len(items))
    read = stated_rods(rod)
    alone = _one_sprinkler_line(lines, len(items)) & ~loaded
    named = np.where(read.rule >= 0, read.rule, np.where(alone, _SIZE_TABLE, ROD_RULES["sp58_allowable"]))
    rule = np.where(read.stated, named, NO_ROD).astype(np.int8)
    flaw_where(
        rod,
        (rule == _SIZE_TABLE) & ~_one_sprinkler_line(lines, len(items)),
        "rule",
        "The size table is for the hanger of one sprinkler line; for anything else name a rule that checks the load.",
        code="contradiction",
        allowed=[name for name, code in ROD_RULES.items() if code != _SIZE_TABLE],
    )
    notes.assume(LoadAssumption.ROD_RULE, read.stated & (read.rule < 0), every)
    notes.assume(LoadAssumption.ROD_MATERIAL, (rule == _STRENGTH) & ~read.graded, every)
    notes.assume(LoadAssumption.NO_ROD_WEIGHT, read.stated & rod.silent("length"), every)
    notes.assume(LoadAssumption.PLUMB, rod.silent("out_of_plumb"), every)
    angle = rod.numbers("out_of_plumb", 0.0)
    notes.assume(LoadAssumption.LEAN_ALONG_SHEAR, angle > 0, every)
    notes.leave_unchecked(LoadNotChecked.ROD, ~read.stated, every)
    return Rods(
        rule=rule,
        d=np.where(read.stated, read.d, 0.0),
        pitch=np.where(read.stated, read.pitch, 0.0),
        k_root=read.k_root,
        k_stress=read.k_stress,
        f_u=read.f_u,
        l_rod=rod.quantity("length", DISTANCE, fill=0.0),
        angle=angle,
    )


def _one_sprinkler_line(lines: Lines, count: int) -> Bools:
    """(items,) whether one line hangs there, and that a sprinkler line."""
    sprinkler = np.bincount(lines.item, weights=lines.number * lines.sprinkler, minlength=count)
    return (np.bincount(lines.item, weights=lines.number, minlength=count) == 1) & (sprinkler == 1)
