"""The wishes of a request, and what was taken where it is silent."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

import numpy as np

from hangpoint.core.hang_point.surroundings import OUTDOOR, SILENT, Environments
from hangpoint.core.quantity import Bools
from hangpoint.core.selection.candidates import Wishes
from hangpoint.core.vocabulary.selection import Objective, SelectionAssumption
from hangpoint.pack.pull import convert, out_of_range, range_text
from hangpoint.pack.selection.candidates import EXPOSURES, Shelf
from hangpoint.units import LENGTH, System

RESERVE = 0.1
"""Kept where the request states none (reading 42)."""

_PLACING = {"post_installed": True, "cast_in": False, "either": None}
_SEAT = {"flush": True, "stud": False}


@dataclass(frozen=True, slots=True, kw_only=True)
class WantFlaw:
    """What is wrong with a wish: its place within ``want``, and what would have done."""

    path: tuple[str | int, ...]
    slug: str
    detail: str
    allowed: Sequence[str] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadWishes:
    """Wishes, the defaults that were taken, and flaws that keep the request from being answered."""

    wishes: Wishes
    assumed: Sequence[SelectionAssumption]
    flaws: Sequence[WantFlaw]


def read_wishes(want: Mapping[str, Any], shelf: Shelf, *, system: System) -> ReadWishes:
    """Read what a request wants; flaws: a family or tool that the catalogue lacks, a length out of range."""
    flaws: list[WantFlaw] = []
    stocked = _named(want, "families", shelf.families, flaws)
    tools = _named(want, "tools", shelf.tools, flaws)
    deepest = convert([want.get("deepest_hole")], LENGTH, system, absent=np.inf)
    if out_of_range(deepest, LENGTH).any():
        flaws.append(WantFlaw(path=("deepest_hole",), slug="quantity", detail=range_text(LENGTH, system)))
    wishes = Wishes(
        objective=Objective(want.get("objective", Objective.COST_INDEX)),
        reserve=float(want.get("reserve", RESERVE)),
        stocked=stocked,
        tools=tools,
        post_installed=_PLACING[want.get("placing", "post_installed")],
        match_thread=want.get("rod_thread", "match") == "match",
        removable=bool(want.get("removable", False)),
        flush=_SEAT.get(want.get("seat", "")),
        internally_threaded=want.get("internally_threaded"),
        trained=bool(want.get("trained", False)),
        exposure=EXPOSURES[want.get("exposure", "dry")],
        vibration=bool(want.get("vibration", False)),
        deepest_hole=float(deepest[0]),
        hole_share=float(want.get("hole_share", np.inf)),
    )
    return ReadWishes(wishes=wishes, assumed=_assumed(want), flaws=flaws)


def _assumed(want: Mapping[str, Any]) -> list[SelectionAssumption]:
    by_name = {
        "objective": SelectionAssumption.OBJECTIVE,
        "reserve": SelectionAssumption.RESERVE,
        "families": SelectionAssumption.ALL_STOCKED,
        "placing": SelectionAssumption.POST_INSTALLED,
        "rod_thread": SelectionAssumption.ROD_THREAD,
        "tools": SelectionAssumption.TOOLS,
        "trained": SelectionAssumption.UNTRAINED,
        "exposure": SelectionAssumption.DRY,
        "vibration": SelectionAssumption.NO_VIBRATION,
    }
    found = [member for name, member in by_name.items() if name not in want]
    if "hole_share" not in want and "deepest_hole" not in want:
        found.append(SelectionAssumption.HOLE_DEPTH)
    return found


def assumed_at(around: Environments, want: Mapping[str, Any], read: ReadWishes) -> list[SelectionAssumption]:
    """What is taken of a request at its points, whose environments may state more than its wishes."""
    own = around.exposure[(around.exposure != SILENT) & (around.exposure <= OUTDOOR)]
    found = list(read.assumed)
    if "exposure" in want and (own != read.wishes.exposure).any():
        found.append(SelectionAssumption.HARDER_EXPOSURE)
    if len(around.exposure) and (around.exposure != SILENT).all() and SelectionAssumption.DRY in found:
        found.remove(SelectionAssumption.DRY)
    return found


def _named(want: Mapping[str, Any], name: str, known: Sequence[str], flaws: list[WantFlaw]) -> Bools:
    """(known,) the words that the request names; all where it names none."""
    if name not in want:
        return np.ones(len(known), dtype=np.bool_)
    place = {word: at for at, word in enumerate(known)}
    found = np.zeros(len(known), dtype=np.bool_)
    for at, word in enumerate(want[name]):
        if word in place:
            found[place[word]] = True
            continue
        nearest: Sequence[str] = get_close_matches(str(word)[:64], known, n=5, cutoff=0.3) or known
        slug = "unknown-product" if name == "families" else "unknown-option"
        detail = f"No family of the catalogue is named so; the nearest are listed under {name}."
        if name == "tools":
            detail = "No family of the catalogue needs a setting tool of this name; the nearest are listed."
        flaws.append(WantFlaw(path=(name, at), slug=slug, detail=detail, allowed=tuple(nearest)))
    return found
