"""Rods of a request: thread by size, tensile strength by material, the named rule."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hanger.rod import ROD_MATERIALS, RULES, THREADS, Thread
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.pack.pull import Rows
from hangpoint.units import STRESS

ROD_RULES: Mapping[str, int] = {name: code for code, name in enumerate(RULES)}
"""Codes of the rules by name."""

_MATERIAL_ROWS = {name: row for row, name in enumerate(ROD_MATERIALS)}
_F_U = np.array(list(ROD_MATERIALS.values()))
_NO_THREAD = Thread(1.0, 0.1, 1.0, 1.0)
_THREADS = np.array([*THREADS.values(), _NO_THREAD])
_THREAD_ROWS = {size: row for row, size in enumerate(THREADS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedRods:
    """Rods as stated, a row an item, neutral numbers without one.

    ``rule`` is a code of `ROD_RULES` or -1 where none is named; ``graded`` where a strength or a material is stated.
    """

    stated: Bools
    d: Floats
    pitch: Floats
    k_root: Floats
    k_stress: Floats
    rule: Codes
    f_u: Floats
    graded: Bools


def stated_rods(rod: Rows) -> StatedRods:
    """Read size, rule, strength and material.

    Flaws: a size that the tables don't have, a strength out of range.
    """
    sizes = rod.values("size")
    for at, size in enumerate(sizes):
        if size is not None and size not in THREADS:
            rod.flaw(
                at, "size", "There is no rod of this size in the tables.", slug="unknown-option", allowed=tuple(THREADS)
            )
    threads = _THREADS[[_THREAD_ROWS.get(size, -1) for size in sizes]]
    f_u = rod.quantity("f_u", STRESS, fill=0.0)
    material = rod.codes("material", _MATERIAL_ROWS, absent=_MATERIAL_ROWS["unknown"])
    return StatedRods(
        stated=np.array([size is not None for size in sizes], dtype=np.bool_),
        d=threads[:, 0],
        pitch=threads[:, 1],
        k_root=threads[:, 2],
        k_stress=threads[:, 3],
        rule=rod.codes("rule", ROD_RULES),
        f_u=np.where(f_u > 0, f_u, _F_U[material]),
        graded=(f_u > 0) | (material != _MATERIAL_ROWS["unknown"]),
    )
