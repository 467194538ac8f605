"""The strength of the concrete as each design code wants it stated: f'c, or a strength class."""

import numpy as np

from hangpoint.core.conversions import PSI_PER_MPA
from hangpoint.core.hang_point.surroundings import HOLLOW_CORE
from hangpoint.core.quantity import Codes, Floats
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.base_kinds import in_concrete
from hangpoint.pack.flags import Flags
from hangpoint.pack.pull import Rows, places
from hangpoint.units import STRESS

F_C_ASSUMED = 2500.0

F_CK = {
    "C12/15": 12.0,
    "C16/20": 16.0,
    "C20/25": 20.0,
    "C25/30": 25.0,
    "C30/37": 30.0,
    "C35/45": 35.0,
    "C40/50": 40.0,
    "C45/55": 45.0,
    "C50/60": 50.0,
    "C55/67": 55.0,
    "C60/75": 60.0,
    "C70/85": 70.0,
    "C80/95": 80.0,
    "C90/105": 90.0,
}
"""f_ck, N/mm2, of the strength classes that EN 1992-4 covers (EN 1992-1-1 Table 3.1, from memory)."""


_LEAST, _MOST = 500.0, 30_000.0
"""psi: no concrete or masonry that anchors are set in is as weak, or as strong (common practice, no source)."""


def refuse_wrong_unit(rows: Rows, name: str, strength: Floats) -> None:
    """Flaws of a strength (rows,), psi, that no concrete or masonry has: its unit is another one than was meant."""
    for at in places((strength < _LEAST) | (strength > _MOST)):
        detail = (
            "No concrete or masonry has such a strength: it lies between 500 and 30,000 psi, 3.45 and 207 MPa. Write"
            ' the unit that is meant, as "4000 psi" or "25 MPa".'
        )
        rows.flaw(at, name, detail, slug="quantity", code="quantity")


def specified_strength(base: Rows, kinds: Codes, assumptions: Flags) -> Floats:
    """f'c, psi (points,); 2,500 psi where the request is silent. A strength class is a flaw."""
    strength = base.child("strength")
    if strength.gives("class"):
        for at in places(~strength.silent("class")):
            strength.flaw(
                at,
                "class",
                "A strength class goes with en1992_4; for aci318_19 give f_c, the specified compressive strength.",
                code="contradiction",
            )
    f_c = strength.quantity("f_c", STRESS)
    refuse_wrong_unit(strength, "f_c", f_c)
    silent = np.isnan(f_c)
    if not np.count_nonzero(silent):
        return f_c
    assumptions.set(Assumption.F_C, silent & (in_concrete(kinds) | (kinds == HOLLOW_CORE)))
    return np.where(silent, F_C_ASSUMED, f_c)


def strength_class(base: Rows, kinds: Codes) -> Floats:
    """f_ck, N/mm2 (points,), which concrete has to state as a class: a number alone could be of a cube."""
    strength = base.child("strength")
    for at in places(~strength.silent("f_c")):
        strength.flaw(
            at,
            "f_c",
            "en1992_4 goes by strength classes, since a number could be that of cubes: give class, as C25/30.",
            code="contradiction",
        )
    found = np.full(len(base), np.nan)
    stated = strength.values("class")
    for at in places(in_concrete(kinds)):
        name = stated[at]
        if name is None:
            what = "The strength class of the concrete is required, for instance C25/30."
            strength.flaw(at, "class", what, code="missing", allowed=tuple(F_CK))
        elif class_strength(name) is None:
            what = "This is no strength class that EN 1992-4 covers."
            strength.flaw(at, "class", what, code="value", allowed=tuple(F_CK))
        else:
            found[at] = class_strength(name)
    return np.where(np.isnan(found), F_CK["C12/15"], found)


def class_strength(name: str | None) -> float | None:
    """f_ck of a strength class, N/mm2; None for what is none."""
    return None if name is None else F_CK.get(name.strip().upper())


def in_psi(f_ck: Floats) -> Floats:
    """A characteristic strength in the unit of the chain."""
    return f_ck * PSI_PER_MPA
