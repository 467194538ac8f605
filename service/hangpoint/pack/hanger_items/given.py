"""Loads that items state at their hangers."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.hanger.hanger_cases import NATURES
from hangpoint.core.hanger.items import Given
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.forces import COME_AND_GO, stated_against_each_other
from hangpoint.pack.hanger_items.notes import Notes
from hangpoint.pack.pull import Rows, owners
from hangpoint.units import FORCE

_NATURE_CODES = {name: code for code, name in enumerate(NATURES)}
_COMPONENTS = ("tension", "shear_x", "shear_y")


def pack_given(items: Rows, hangers: Index, lost: Index, notes: Notes) -> Given:
    """Read ``given`` of every item.

    Args:
        items: of all kinds.
        hangers: (items,) how many each has.
        lost: (items,) the hanger that a run is without, below 0 for none.
        notes: takes what is assumed.

    Flaws: a hanger that there isn't or that is lost, a load without a component, an earthquake without S_DS, a quantity
    out of range.
    """
    lists: Sequence[Sequence[Any]] = [several or () for several in items.values("given")]
    loads = [load for several in lists for load in several]
    item = owners(lists)
    first = np.cumsum([0, *(len(several) for several in lists)])[:-1]
    hanger = np.array([load["hanger"] for load in loads], dtype=np.intp)
    nature = np.array([_NATURE_CODES[load["nature"]] for load in loads], dtype=np.intp)
    for row in np.flatnonzero((hanger >= hangers[item]) | (hanger == lost[item])).tolist():
        at = int(item[row])
        last = int(hangers[at]) - 1
        detail = "This item has the one hanger 0." if last == 0 else f"This item has hangers 0 to {last}."
        if hanger[row] == lost[at]:
            detail = "This hanger is the missing one: nothing can hang there."
        items.flaw(at, f"given/{row - first[at]}/hanger", detail, code="out-of-range")
    for row, load in enumerate(loads):
        if not any(name in load for name in _COMPONENTS):
            at = int(item[row])
            detail = "Give at least one of tension, shear_x and shear_y."
            items.flaw(at, f"given/{row - first[at]}/tension", detail, code="missing", allowed=_COMPONENTS)
    shaking = np.zeros(len(items), dtype=np.bool_)
    shaking[item[nature == _NATURE_CODES["earthquake"]]] = True
    _needs_s_ds(items, shaking)
    notes.assume(LoadAssumption.EARTHQUAKE_REVERSES, shaking, np.arange(len(items)))
    for member, name in ((LoadAssumption.WIND_AS_GIVEN, "wind"), (LoadAssumption.THERMAL_STAYS, "thermal")):
        notes.assume(member, nature == _NATURE_CODES[name], item)
    columns: list[Floats] = [items.listed("given", lists, FORCE, name) for name in _COMPONENTS]
    given = Given(item=item, hanger=hanger, nature=nature, n=columns[0], v=np.stack(columns[1:], axis=1))
    notes.assume(LoadAssumption.SHEAR_TOGETHER, _opposed(given, len(items)), np.arange(len(items)))
    return given


def _opposed(given: Given, count: int) -> Bools:
    """(count,) items with a hanger where shears of one nature that comes and goes are against each other."""
    found = np.zeros(count, dtype=np.bool_)
    for name in COME_AND_GO:
        own = np.flatnonzero(given.nature == _NATURE_CODES[name])
        place = np.stack((given.item[own], given.hanger[own]), axis=1)
        distinct, at = np.unique(place, axis=0, return_inverse=True)
        against = stated_against_each_other(at.ravel(), given.v[own], len(distinct))
        found[distinct[against, 0]] = True
    return found


def snow(given: Given, count: int) -> Bools:
    """(items,) which of them state snow."""
    found = np.zeros(count, dtype=np.bool_)
    found[given.item[given.nature == _NATURE_CODES["snow"]]] = True
    return found


def _needs_s_ds(items: Rows, shaking: Bools) -> None:
    seismic = items.child("seismic")
    for at in np.flatnonzero(shaking & seismic.silent("s_ds")).tolist():
        detail = "Load of nature earthquake needs S_DS, for the vertical effect 0.2 S_DS times dead load and contents."
        seismic.flaw(at, "s_ds", detail, code="missing")
