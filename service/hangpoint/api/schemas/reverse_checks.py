"""Reverse questions: what a hang point would just hold, asked of one item as a check would take it."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT, Degrees
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, UnitSystem

Side = Literal["x_minus", "x_plus", "y_minus", "y_plus"]


@with_config(STRICT)
class LargestLoad(TypedDict):
    """The most that may hang here.

    Of forces and weights the factor on all stated loads, of a pipe a further dead weight at this support; and the dead
    tension that may act alone in place of what hangs.
    """

    kind: Literal["largest_load"]


@with_config(STRICT)
class LeastEmbedment(TypedDict):
    """The least embedment of the catalogue in this family and size."""

    kind: Literal["least_embedment"]


@with_config(STRICT)
class LeastRod(TypedDict):
    """The thinnest rod with which the point passes, by the rod rule of the item.

    Of unified threads, or of metric ones where the item's rod is metric or, without a rod, the request is in SI.
    """

    kind: Literal["least_rod"]


@with_config(STRICT)
class LeastEdge(TypedDict):
    """The least distance from the origin of the layout to the edge on one side, the other sides as stated.

    ``nearest`` is the side whose edge is stated nearest.
    """

    kind: Literal["least_edge"]
    side: Side | Literal["nearest"]


@with_config(STRICT)
class LeastSpacing(TypedDict):
    """The least spacing of the layout, or the least distance to a neighbour.

    A layout is drawn together about its middle, a rectangle or a list along one axis where ``along`` names it. A
    ``neighbour`` stands from the item ``towards`` one side, in the same member: its edges and coordinates are those of
    the item, moved. Both points have to pass. In a side face the item states z and which way the face looks.
    """

    kind: Literal["least_spacing"]
    along: NotRequired[Literal["x", "y"]]
    neighbour: NotRequired[Item]
    towards: NotRequired[Side]


@with_config(STRICT)
class LeastThickness(TypedDict):
    """The least thickness of the member: what the engineer would have to show."""

    kind: Literal["least_thickness"]


@with_config(STRICT)
class LeastStrength(TypedDict):
    """The least specified strength of the concrete: what the engineer would have to show."""

    kind: Literal["least_strength"]


@with_config(STRICT)
class LargestHangerSpacing(TypedDict):
    """The largest spacing of the hangers of a run of pipe: all spans alike, and the stated spans times one factor."""

    kind: Literal["largest_hanger_spacing"]


@with_config(STRICT)
class Envelope(TypedDict):
    """Tension and shear that may just act together in place of what hangs.

    ``shear_angle`` is the direction of the shear, from x towards y, in degrees; ``points`` are those of the boundary,
    tension alone and shear alone among them, 13 where not stated.
    """

    kind: Literal["envelope"]
    shear_angle: Degrees
    points: NotRequired[Annotated[int, Field(ge=3, le=37)]]


Question = Annotated[
    LargestLoad
    | LeastEmbedment
    | LeastRod
    | LeastEdge
    | LeastSpacing
    | LeastThickness
    | LeastStrength
    | LargestHangerSpacing
    | Envelope,
    Field(discriminator="kind"),
]


@with_config(STRICT)
class ReverseCheckRequest(TypedDict):
    """One hang point and one question about it."""

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    item: Item
    question: Question
