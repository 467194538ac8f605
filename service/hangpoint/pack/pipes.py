"""Pipes of a request: dimensions by size with schedule or wall, contents by name, and why a pipe is none."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.loads.pipe_sizes import CONTENTS, nominal, outside_diameter, pipe_size, schedules, sizes
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.pull import Rows, filled, found_rows, places
from hangpoint.pack.trade_texts import schedule_text, size_text
from hangpoint.units import LENGTH

WATER = CONTENTS["water"]
"""lb/ft3; what a sprinkler line holds is no lighter."""

GASES = frozenset({"steam", "air", "gas"})
"""Contents by name that are lighter than the water of a test."""

TOO_LIGHT = "A sprinkler line is checked filled with water, also a dry one: give water."

_SHORT_PVC = 18.0
"""NPS from which computed weights of PVC are below published ones."""

_NEUTRAL_PIPE = (1.0, 0.1, 1.0)


def pipe_dimensions(rows: Rows, material: Sequence[Any], size: Sequence[Any]) -> Floats:
    """Outside diameter, wall and nominal size of each pipe, in; neutral numbers where there is a flaw.

    Flaws: schedule and wall, or neither; a size or a schedule that the tables don't have; a wall that fills the pipe.
    """
    keys = list(zip(material, size, rows.values("schedule"), _stated(rows.quantity("wall", LENGTH)), strict=True))
    place, pipes = found_rows(keys, _pipe)
    for at in places(place == len(pipes)):
        _explain_pipe(rows, at, *keys[at])
    return np.array([*pipes, _NEUTRAL_PIPE])[place]


def weighed_short(material: Sequence[Any], schedule: Sequence[Any], nominal_size: Floats, allowance: Floats) -> Bools:
    """Pipes that come out lighter than they are, with no allowance for it: see `core.loads.pipe_sizes`."""
    if "ductile_iron" not in material and "pvc" not in material:
        return filled(len(material), False, np.bool_)
    own = [
        one == "ductile_iron" or (one == "pvc" and known is not None and size >= _SHORT_PVC)
        for one, known, size in zip(material, schedule, nominal_size.tolist(), strict=True)
    ]
    return np.array(own, dtype=np.bool_) & (allowance == 0)


def pipe_contents(
    rows: Rows, sprinkler: Sequence[bool], *, missing: str
) -> tuple[Sequence[str], Sequence[bool] | None]:
    """What each pipe holds, by name, and where water was assumed of a sprinkler line; None where nowhere.

    Flaws: nothing stated of another line, which ``missing`` says; a sprinkler line with something lighter than water.
    """
    values: Sequence[Any] = rows.values("contents")
    if not any(sprinkler) and None not in values:
        return values, None
    for at, (value, is_sprinkler) in enumerate(zip(values, sprinkler, strict=True)):
        if value is None and not is_sprinkler:
            rows.flaw(at, "contents", missing, code="missing", allowed=tuple(CONTENTS))
        elif value is not None and is_sprinkler and CONTENTS[value] < WATER:
            rows.flaw(at, "contents", TOO_LIGHT)
    assumed = [value is None and is_sprinkler for value, is_sprinkler in zip(values, sprinkler, strict=True)]
    return ["water" if value is None else value for value in values], assumed


def test_fluid(rows: Rows, light: Bools) -> Floats:
    """Density of the water that stands in each pipe during a test, lb/ft3; 0 where it isn't tested with water.

    Flaw: contents lighter than water, ``light`` (rows,), without a word on the test.
    """
    if not (np.count_nonzero(light) or rows.gives("hydrotest")):
        return filled(len(rows), 0.0)
    for at in places(light & rows.silent("hydrotest")):
        detail = "Say whether the line is tested filled with water: that is heavier than its contents."
        rows.flaw(at, "hydrotest", detail, code="missing", allowed=("true", "false"))
    return np.where(rows.true("hydrotest"), WATER, 0.0)


def _stated(wall: Floats) -> Sequence[float | None]:
    absent = np.isnan(wall)
    return [None] * len(wall) if absent.all() else [None if math.isnan(each) else each for each in wall.tolist()]


def _pipe(key: tuple[str | None, str | None, str | None, float | None]) -> tuple[float, float, float] | None:
    material, size, schedule, wall = key
    if material is None or size is None or (wall is None) == (schedule is None):
        return None
    if schedule is not None:
        return pipe_size(material, size, schedule)
    outside = outside_diameter(material, size)
    if outside is None or wall is None or wall * 2 >= outside:
        return None
    return outside, wall, nominal(size)


def _explain_pipe(
    rows: Rows, at: int, material: str | None, size: str | None, schedule: str | None, wall: float | None
) -> None:
    """Say why the tables and the request give no pipe here."""
    if material is None or size is None:
        return
    if (wall is None) == (schedule is None):
        rows.flaw(
            at,
            "schedule",
            "Give either the schedule of the pipe or its wall, not both and not neither.",
            code="missing" if wall is None else "contradiction",
            allowed=schedules(material, size),
        )
    elif wall is not None and size in sizes(material):
        rows.flaw(at, "wall", "The wall is not less than half of the outside diameter.", slug="impossible-geometry")
    else:
        _unknown_pipe(rows, at, material, size, schedule)


def _unknown_pipe(rows: Rows, at: int, material: str, size: str, schedule: str | None) -> None:
    if size not in sizes(material):
        rows.flaw(
            at,
            "size",
            f"There is no {material} pipe of this size in the tables.{_instead(size_text(size), sizes(material))}",
            slug="unknown-option",
            allowed=sizes(material),
        )
    else:
        rows.flaw(
            at,
            "schedule",
            f"There is no such schedule for {material} pipe of size {size}, or its wall is ambiguous."
            + _instead(schedule_text(schedule or ""), schedules(material, size)),
            slug="unknown-option",
            allowed=schedules(material, size),
        )


def _instead(meant: str, known: Sequence[str]) -> str:
    """What to write, if a word of the tables is what was meant."""
    return f" Write {meant}." if meant in known else ""
