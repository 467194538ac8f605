"""What requests that choose products share: points whose product is open, and what is wanted of a product."""

from typing import Annotated, Literal, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT, Layout
from hangpoint.api.schemas.quantities import LengthQuantity
from hangpoint.api.schemas.request import (
    AdhesiveConditions,
    At,
    Attachment,
    Base,
    Hangs,
    Options,
    Rod,
    Seismic,
)
from hangpoint.api.schemas.surroundings import Environment
from hangpoint.api.schemas.words import Identifier, Text

MAX_SELECTIONS = 100
MAX_JOB_POINTS = 2000
MAX_RANKED = 50

Objective = Literal["cost_index", "minutes", "drilled_depth", "reserve"]
JobObjective = Literal["cost_index", "minutes", "drilled_depth"]
Reserve = Annotated[float, Field(ge=0, le=0.9)]


@with_config(STRICT)
class OpenAnchor(TypedDict, total=False):
    """The anchor of a point whose product is to be chosen: its layout, and what holds of an adhesive's hole."""

    layout: Layout
    adhesive: AdhesiveConditions


@with_config(STRICT)
class PartialOpenPoint(TypedDict, total=False):
    """Values for every point that doesn't give its own."""

    at: At
    trade: Text
    tags: Annotated[list[Text], Field(max_length=20)]
    hangs: Hangs
    rod: Rod
    anchor: OpenAnchor
    base: Base
    attachment: Attachment
    seismic: Seismic
    environment: Environment
    options: Options


@with_config(STRICT)
class OpenPoint(PartialOpenPoint, total=False):
    """A hang point without a product."""

    id: Required[Identifier]


@with_config(STRICT)
class Traits(TypedDict, total=False):
    """What is wanted of a product, whatever the objective.

    ``families`` are those stocked. ``placing``: into concrete that is there, into fresh concrete, or either.
    ``rod_thread``: "match" wants the thread of the stated rod, "any" leaves rods to couplings and brackets.
    ``removable``: it can be taken out again. ``seat``: ends flush, or is a stud that projects. ``tools`` are the
    setting tools at hand, in the words of the catalogue; ``trained``: people trained for the product set it.
    ``exposure`` is that of the place, ``vibration`` acts there; what a point's ``environment`` states counts where it
    is the harder. ``deepest_hole``, and ``hole_share`` of the thickness,
    limit what is drilled. ``reserve`` is kept of the strength of anchor and base.
    """

    families: Annotated[list[Text], Field(min_length=1, max_length=200)]
    placing: Literal["post_installed", "cast_in", "either"]
    rod_thread: Literal["match", "any"]
    removable: bool
    seat: Literal["flush", "stud"]
    internally_threaded: bool
    tools: Annotated[list[Text], Field(max_length=100)]
    trained: bool
    exposure: Literal["dry", "damp", "outdoor"]
    vibration: bool
    deepest_hole: LengthQuantity
    hole_share: Annotated[float, Field(gt=0, le=1)]
    reserve: Reserve


@with_config(STRICT)
class Want(Traits, total=False):
    """What is wanted of a product: what the best has least of (of reserve the most), and its traits."""

    objective: Objective
