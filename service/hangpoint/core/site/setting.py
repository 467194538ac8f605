"""Numbers of an installation card that product data do not state: turns of a rod, and distance from a given-up hole.

A new hole stands at least twice the depth of the old one away, unless the old one is filled with high-strength mortar
(reading 45, from memory); the least spacing of the product holds beside it. Units: in.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


@record
class RodTurns(Record):
    """Whole rotations of a rod from the first thread to its least and its greatest engagement."""

    TITLE: ClassVar[str] = "Turns of the rod in an internal thread"
    AXIS: ClassVar[Axis] = Axis.CASE

    pitch: Annotated[Floats, given("p", "in", clause="thread standard")]
    reach_least: Annotated[Floats, given("least engagement", "in")]
    reach_most: Annotated[Floats, given("greatest engagement", "in")]
    turns_least: Annotated[Floats, formula("least turns", "", "reach_least/pitch", clause="geometry")]
    turns_most: Annotated[Floats, formula("most turns", "", "reach_most/pitch", clause="geometry")]


@record
class NewHole(Record):
    """How far from a given-up hole that stays open a new one is drilled."""

    TITLE: ClassVar[str] = "Distance of a new hole from a given-up one"
    AXIS: ClassVar[Axis] = Axis.CASE

    hole_depth: Annotated[Floats, given("depth of the given-up hole", "in")]
    s_min: Annotated[Floats, given("s_min", "in", clause="product data")]
    away: Annotated[
        Floats, formula("least distance", "in", "max(2*hole_depth, s_min)", clause="reading 45, from memory")
    ]


def rod_turns(*, pitch: Floats, reach_least: Floats, reach_most: Floats) -> RodTurns:
    """Turns of each rod, every array of shape (n,), in; ``pitch`` > 0."""
    return RodTurns(
        pitch=pitch,
        reach_least=reach_least,
        reach_most=reach_most,
        turns_least=reach_least / pitch,
        turns_most=reach_most / pitch,
    )


def new_hole(*, hole_depth: Floats, s_min: Floats) -> NewHole:
    """Least distance, centre to centre, of a new hole from one of ``hole_depth``, every array of shape (n,), in."""
    return NewHole(hole_depth=hole_depth, s_min=s_min, away=np.maximum(2.0 * hole_depth, s_min))
