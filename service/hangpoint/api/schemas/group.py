"""The request for a group of anchors alone: its loads are stated, and nothing is said of what hangs from it."""

from typing import NotRequired, Required

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.request import STRICT, Anchor, Attachment, Base, Loads, Options, Seismic
from hangpoint.api.schemas.surroundings import Environment
from hangpoint.api.schemas.words import Combinations, DesignCode, Detail, Identifier, LoadStandard, UnitSystem


@with_config(STRICT)
class Group(TypedDict, total=False):
    """Anchors, the plate over them, the concrete under them, and the loads. Without an id it is named `group`."""

    id: Identifier
    loads: Required[Loads]
    anchor: Required[Anchor]
    base: Required[Base]
    attachment: Attachment
    seismic: Seismic
    options: Options
    environment: Environment


@with_config(STRICT)
class GroupRequest(TypedDict):
    """One group of anchors."""

    units: UnitSystem
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    group: Group
