"""Component seismic force: what the edition in force asks for, and the brace."""

from typing import Any

import numpy as np

from hangpoint.core.hanger.exemptions import CATEGORIES
from hangpoint.core.hanger.items import EQUIPMENT, RUN, TRAPEZE, Seismic
from hangpoint.core.loads.combination_tables import ASCE7_22
from hangpoint.core.loads.component_factors import CEILING, ISOLATED, NO_LINES
from hangpoint.core.loads.seismic_component import UNKNOWN_PERIOD
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.braces import Braces, pack_braces
from hangpoint.pack.hanger_items.coefficients import pack_coefficients
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pull import Rows
from hangpoint.pack.spans import LEAST_SPAN
from hangpoint.units import DISTANCE, LENGTH

LARGEST_GAP = 0.25
"""in; above it the force of a component on isolators is doubled."""

_ROUNDING = 1e-9
_CATEGORY_CODES = {name: code for code, name in enumerate(CATEGORIES)}
_NEEDS_S_DS = (
    *("i_p", "component", "coefficients", "z", "h", "at_grade"),
    *("building", "isolator_gap", "brace"),
)
_SYSTEM = ("r", "i_e", "omega_0")


def pack_seismic(
    items: Rows, kind: Codes, lengths: Floats, lined: Bools, *, load_standard: str, notes: Notes
) -> Seismic:
    """Read ``seismic`` of the items that have S_DS, by default or of their own.

    Args:
        items: of all kinds.
        kind: (items,) of each.
        lengths: (items,) of risers, ft.
        lined: (items,) whether any line hangs there.
        load_standard: the edition in force.
        notes: takes what is assumed and left out.

    Flaws: anything of a force without S_DS; no I_p; no z or h of what isn't at grade, z of what is; what
    `pack_coefficients` and `pack_braces` find; more braces of equipment than rods; a building's system in part; what is
    isolated, as stated or by the name of its component, without its gap; a trapeze without lines; a quantity out of
    range.
    """
    every = items.child("seismic")
    shaken = stated(every, "s_ds")
    _alone(every, shaken)
    places: list[int] = np.flatnonzero(shaken).tolist()
    rows, item = every.taken(places), np.array(places, dtype=np.intp)
    newer = load_standard == ASCE7_22
    brace = pack_braces(rows, kind[item], lengths[item])
    z, h, at_grade = _heights(rows)
    own = items.taken(places)
    rods = np.array([len(at or ()) for at in own.values("rods_at")], dtype=np.intp)
    detail = "Each brace that shares the force of equipment stands at a rod of its own: state no more than it has rods."
    many = (kind[item] == EQUIPMENT) & (rods > 0) & (brace.braces > rods)
    flaw_where(rows, many, "brace/number", detail, code="contradiction")
    detail = "The seismic force is that of the lines between braces, and this trapeze has none: give it as equipment."
    flaw_where(own, (kind != EQUIPMENT)[item] & ~lined[item], "tiers", detail, code="missing")
    isolated = own.true("isolated")
    detail = "What is on isolators needs the gap of their restraints: above 1/4 in the seismic force is doubled."
    component = np.array(rows.values("component"), dtype=object)
    on_isolators = isolated | np.isin(component, ISOLATED)
    flaw_where(rows, on_isolators & rows.silent("isolator_gap"), "isolator_gap", detail, code="missing")
    unknown = ~np.isin(kind, (RUN, TRAPEZE)) | items.child("at").silent("bearing")
    _say(notes, item, brace, unknown[item], kind[item])
    undirected = brace.braced & ~unknown[item] & rows.child("brace").silent("direction")
    notes.assume(LoadAssumption.BRACE_ACROSS, undirected, item)
    coefficients = pack_coefficients(rows, item, isolated=isolated, newer=newer, notes=notes)
    building = _building(rows, item, at_grade, newer=newer, notes=notes)
    flaw_where(rows, rows.silent("i_p"), "i_p", "The importance factor I_p is required: 1.0 or 1.5.", code="missing")
    return Seismic(
        item=item,
        newer=np.full(len(item), newer, dtype=np.bool_),
        ceiling=component == CEILING,
        distributes=(kind != EQUIPMENT)[item] & ~np.isin(component, NO_LINES),
        s_ds=rows.numbers("s_ds", 0.0),
        i_p=rows.numbers("i_p", 1.0),
        isolator_gap=rows.quantity("isolator_gap", LENGTH, fill=0.0) > LARGEST_GAP * (1 + _ROUNDING),
        z=z,
        h=h,
        at_grade=at_grade,
        **coefficients,
        **building,
        category=rows.codes("category", _CATEGORY_CODES),
        braced=brace.braced,
        l_brace=brace.l_brace,
        braces=brace.braces,
        theta_v=brace.theta_v,
        along=brace.along,
        bending_free=rows.true("bending_free"),
    )


def _alone(every: Rows, shaken: Bools) -> None:
    """Note the first of what an item states of a force without S_DS."""
    told = shaken.copy()
    for name in _NEEDS_S_DS:
        new = ~told & stated(every, name)
        detail = f"{name} is for the seismic force of the component, which needs S_DS."
        flaw_where(every, new, "s_ds", detail, code="missing")
        told |= new


def _heights(rows: Rows) -> tuple[Floats, Floats, Bools]:
    """z and h, ft, neutral where the component is at or below grade, and where it is: as stated, or by a z of 0."""
    z, h = rows.quantity("z", DISTANCE), rows.quantity("h", DISTANCE)
    at_grade = rows.true("at_grade")
    for name, column, what in (("z", z, "height z of the attachment"), ("h", h, "height h of the roof")):
        detail = f"The {what} above grade is required, unless at_grade is true."
        flaw_where(rows, ~at_grade & np.isnan(column), name, detail, code="missing")
    flaw_where(rows, h < LEAST_SPAN, "h", "The roof is at least 0.01 ft (3 mm) above grade.", slug="quantity")
    detail = "At grade the height z is 0: give z, or at_grade."
    flaw_where(rows, at_grade & (z > 0), "z", detail, code="contradiction")
    return np.where(at_grade, 0.0, np.nan_to_num(z)), np.where(h >= LEAST_SPAN, h, 1.0), at_grade | (z <= 0)


def _building(rows: Rows, item: Index, at_grade: Bools, *, newer: bool, notes: Notes) -> dict[str, Any]:
    """Period, and R, I_e and Omega_0 of the seismic system; neutral where they are unknown."""
    building = rows.child("building")
    t_a = building.numbers("period", np.nan)
    system = np.stack([building.numbers(name, np.nan) for name in _SYSTEM])
    some, known = ~np.isnan(system).all(axis=0), ~np.isnan(system).any(axis=0)
    for name, column in zip(_SYSTEM, system, strict=True):
        detail = "r, i_e and omega_0 of the building's system go together."
        flaw_where(building, some & np.isnan(column), name, detail, code="missing")
    period_known = ~np.isnan(t_a)
    if newer:
        notes.assume(LoadAssumption.BUILDING_UNKNOWN, ~at_grade & ~(period_known & known), item)
    else:
        notes.assume(LoadAssumption.BUILDING_NOT_READ, period_known | some, item)
    r, i_e, omega_building = np.where(known, system, 1.0)
    return {
        "period_known": period_known,
        "t_a": np.where(period_known, t_a, UNKNOWN_PERIOD),
        "system_known": known,
        "r": r,
        "i_e": i_e,
        "omega_building": omega_building,
    }


def _say(notes: Notes, item: Index, brace: Braces, unknown: Bools, kind: Codes) -> None:
    """What is assumed and left out; ``unknown`` is where nothing says which way a brace is in plan.

    A line on hangers of its own is braced at its centre; what stands on a bar and bodies on rods may not be.
    """
    unshaken = np.ones(notes.count, dtype=np.bool_)
    unshaken[item] = False
    notes.leave_unchecked(LoadNotChecked.EARTHQUAKE, unshaken, np.arange(notes.count))
    notes.leave_unchecked(LoadNotChecked.BRACING, ~brace.braced, item)
    for left in (LoadNotChecked.PUSHED_ANCHOR, LoadNotChecked.OTHER_DIRECTION):
        notes.leave_unchecked(left, brace.braced, item)
    notes.leave_unchecked(LoadNotChecked.COUPLE, brace.braced & np.isin(kind, (TRAPEZE, EQUIPMENT)), item)
    for member in (LoadAssumption.EVERY_HANGER_BRACED, LoadAssumption.EARTHQUAKE_REVERSES):
        notes.assume(member, brace.braced, item)
    notes.assume(LoadAssumption.BRACES_SHARE, brace.braced & (brace.braces > 1), item)
    notes.assume(LoadAssumption.BRACE_ALONG_X, brace.braced & unknown, item)
