"""Rods of a request: thread by size, tensile strength by material, the named rule."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import repeat

import numpy as np

from hangpoint.core.hanger.rod import ALLOWABLE_BASES, ROD_MATERIALS, RULES, THREADS, Thread
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.pack.pull import Rows, places
from hangpoint.pack.trade_texts import rod_text
from hangpoint.units import STRESS

ROD_RULES: Mapping[str, int] = {name: code for code, name in enumerate(RULES)}
"""Codes of the rules by name."""

LOAD_RULES: tuple[str, ...] = tuple(name for name in ROD_RULES if name != "sprinkler_size_table")
"""Rules that check a load."""

_DEFAULT, _SIZE_TABLE, _NO_ROD = ROD_RULES["sp58_allowable"], ROD_RULES["sprinkler_size_table"], -1
_IS_ALLOWABLE = np.array([*(name in ALLOWABLE_BASES for name in ROD_RULES), False])
"""By the code of the rule; the last is that without a rod."""
_MATERIAL_ROWS = {name: row for row, name in enumerate(ROD_MATERIALS)}
_F_U = np.array(list(ROD_MATERIALS.values()))
_NO_THREAD = Thread(1.0, 0.1, 1.0, 1.0)
_THREADS = np.array([*THREADS.values(), _NO_THREAD]).T
_THREAD_ROWS = {size: row for row, size in enumerate(THREADS)}
_UNKNOWN = _MATERIAL_ROWS["unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedRods:
    """Rods as stated, a row an item, neutral numbers without one.

    ``rule`` is the code of the rule for the load, the named one or that of the hanger standard, -1 without a rod;
    ``by_default`` where none for the load is named, ``by_table`` where the size table is. ``graded`` where a strength
    or a material is stated.
    """

    stated: Bools
    d: Floats
    pitch: Floats
    k_root: Floats
    k_stress: Floats
    rule: Codes
    by_default: Bools
    by_table: Bools
    f_u: Floats
    graded: Bools

    @property
    def allowable(self) -> Bools:
        """Where an allowable load of the hanger standard is the rule."""
        return _IS_ALLOWABLE[self.rule]


def stated_rods(rod: Rows) -> StatedRods:
    """Read size, rule, strength and material.

    Flaws: a size that the tables don't have, a strength out of range.
    """
    sizes = rod.values("size")
    row = np.fromiter(map(_THREAD_ROWS.get, sizes, repeat(-1)), dtype=np.intp, count=len(sizes))
    stated = row >= 0
    for at in places(~stated):
        if sizes[at] is not None:
            stated[at] = True
            meant = rod_text(sizes[at])
            instead = f" Write {meant}." if meant in THREADS else ""
            detail = f"There is no rod of this size in the tables.{instead}"
            rod.flaw(at, "size", detail, slug="unknown-option", allowed=tuple(THREADS))
    d, pitch, k_root, k_stress = _THREADS[:, row]
    f_u = rod.quantity("f_u", STRESS, fill=0.0)
    material = rod.codes("material", _MATERIAL_ROWS, absent=_UNKNOWN)
    strong = f_u > 0
    named = rod.codes("rule", ROD_RULES)
    by_table = named == _SIZE_TABLE
    unnamed = (named < 0) | by_table
    rule = np.where(stated, np.where(unnamed, _DEFAULT, named), _NO_ROD).astype(np.int8)
    return StatedRods(
        stated=stated,
        d=d,
        pitch=pitch,
        k_root=k_root,
        k_stress=k_stress,
        rule=rule,
        by_default=stated & unnamed,
        by_table=stated & by_table,
        f_u=np.where(strong, f_u, _F_U[material]),
        graded=strong | (material != _UNKNOWN),
    )
