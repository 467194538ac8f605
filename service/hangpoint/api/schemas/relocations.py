"""Relocations: a point moved after its hole has hit reinforcement."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.probe_answers import AnswerHead, Outcome, Patch
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.quantities import LengthQuantity, OffsetQuantity
from hangpoint.api.schemas.request import Item
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, Text, UnitSystem

MAX_NEIGHBOURS = 20


@with_config(STRICT)
class OldHole(TypedDict):
    """The hole that was given up, ``x``, ``y`` from the origin of the layout (0 where not stated).

    ``filled``: with high-strength mortar; not so where not stated.
    """

    depth: LengthQuantity
    filled: NotRequired[bool]
    x: NotRequired[OffsetQuantity]
    y: NotRequired[OffsetQuantity]


@with_config(STRICT)
class Move(TypedDict):
    """A move of the point along x and y."""

    dx: OffsetQuantity
    dy: OffsetQuantity


@with_config(STRICT)
class RelocationRequest(TypedDict):
    """A point, its old hole, and where it goes; without a ``move`` places near by are looked for, as far as ``within``.

    ``rod_length`` says that what hangs stays where it is, so that the rod of this length leans. ``scanned_by`` names
    who scanned the new place for tendons: a scan that the item states is of the old one. ``neighbours`` are other
    points in the same face of the member; in a side face each states z and which way it looks.
    """

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    item: Item
    old_hole: OldHole
    move: NotRequired[Move]
    within: NotRequired[LengthQuantity]
    rod_length: NotRequired[LengthQuantity]
    scanned_by: NotRequired[Text]
    neighbours: NotRequired[Annotated[list[Item], Field(max_length=MAX_NEIGHBOURS)]]


@with_config(CLOSED)
class Lean(TypedDict):
    """A rod out of plumb: its angle in degrees, and shear at the anchor and tension in the rod by the service load.

    ``rod_utilisation`` is that of the rod along its own axis, where the check has one of a rod.
    """

    angle: float
    service_tension: float
    shear: float
    rod_tension: float
    rod_utilisation: NotRequired[float]


@with_config(CLOSED)
class NeighbourOutcome(TypedDict):
    """A neighbour before and after the move."""

    id: str
    before: Outcome
    after: Outcome


@with_config(CLOSED)
class Relocated(TypedDict):
    """The point at a new place: accepted or not and why, its edges, and the check with its neighbours.

    ``edges`` of None are not within reach.
    """

    dx: float
    dy: float
    from_old_hole: float
    accepted: bool
    reasons: list[str]
    edges: dict[str, float | None]
    lean: NotRequired[Lean]
    outcome: Outcome
    neighbours: list[NeighbourOutcome]
    patch: Patch


@with_config(CLOSED)
class HoleRule(TypedDict):
    """The rule of the distance to an old hole, with its source and sentence."""

    code: Literal["distance-from-old-hole"]
    clause: str
    text: str


@with_config(CLOSED)
class HoleDistance(TypedDict):
    """Least distance of a new anchor from the old hole, and what it comes from."""

    least: float
    text: str
    rule: HoleRule


@with_config(CLOSED)
class RelocationAnswer(AnswerHead):
    """The point before, and after the move or at the places found, the nearest first.

    ``alternatives`` are places found where the move is not accepted.
    ``before`` is the point at its old place with its neighbours, ``tried`` counts the places that were checked.
    """

    text: str
    accepted: bool
    before: Outcome
    distance_from_old_hole: HoleDistance
    places: list[Relocated]
    alternatives: list[Relocated]
    tried: int
    instructions: list[str]
