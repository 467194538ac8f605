"""Bases: strength and edges, and what a request states of those that aren't plain concrete."""

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.quantities import EdgeDistance, StressQuantity
from hangpoint.api.schemas.words import MasonryLocation, MasonryMaterial, MasonryUnits, PlankLocation, Text

Strength = with_config(STRICT)(TypedDict("Strength", {"f_c": StressQuantity, "class": Text}, total=False))
Strength.__doc__ = "Strength of the concrete: f'_c, or the name of a strength class."


@with_config(STRICT)
class Edges(TypedDict, total=False):
    """Distance from the origin of the layout to the edge on each side, or the word none where no edge is within reach.

    A single anchor without a layout is at that origin.
    """

    x_minus: EdgeDistance
    x_plus: EdgeDistance
    y_minus: EdgeDistance
    y_plus: EdgeDistance


@with_config(STRICT)
class Masonry(TypedDict, total=False):
    """Masonry that carries the anchor: its units, and where the anchor stands in them.

    ``joint_distance`` is that from the anchor to the nearest mortar joint, head or bed, or the word none;
    ``face_shell`` the thickness of the shell of a hollow unit. Of a partly grouted wall the ``open_`` fields have the
    nearest cell that is not grouted on each side of the origin of the layout, an open head joint being one. What the
    tables of the product limit has to be stated.
    """

    units: MasonryUnits
    material: MasonryMaterial
    f_m: StressQuantity
    joint_distance: EdgeDistance
    location: MasonryLocation
    face_shell: EdgeDistance
    open_x_minus: EdgeDistance
    open_x_plus: EdgeDistance
    open_y_minus: EdgeDistance
    open_y_plus: EdgeDistance


@with_config(STRICT)
class HollowCore(TypedDict, total=False):
    """A hollow-core plank: where the anchor stands, the concrete below the core, the distance to the nearest strand."""

    location: PlankLocation
    cover: EdgeDistance
    strand_distance: EdgeDistance
