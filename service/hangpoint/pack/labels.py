"""What of an item stands in no column of the core: names, places, notes."""

import unicodedata
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from hangpoint.core.geometry.side_face import in_face
from hangpoint.core.quantity import Floats, Index
from hangpoint.pack.anchors import PackedAnchors
from hangpoint.pack.pull import Rows
from hangpoint.units import COORDINATE

_PLACE_DECIMALS = 6
"""Of a coordinate in ft or m; what lies beyond is the rounding of a conversion."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """Texts of a batch, one a point and None where none is stated, and its coordinates, ft, nan where not stated.

    ``facing`` is the direction on plan that a side face looks to, degrees, nan of other faces and where not stated.
    ``addresses`` and ``invented`` are those of the products, the former None where no product is named; ``family``
    codes their families: products stated inline with the same data are one, below 0. ``alternative_of`` is one name for
    points that are one set of anchors under loads that act one at a time.
    """

    ids: Sequence[str]
    addresses: Sequence[str | None]
    invented: Sequence[bool]
    family: Index
    level: Sequence[str | None]
    trade: Sequence[str | None]
    tags: Sequence[Sequence[str] | None]
    member: Sequence[str | None]
    decided_by: Sequence[str | None]
    x: Floats
    y: Floats
    z: Floats
    facing: Floats
    alternative_of: Sequence[str | None]

    def set_of(self, at: int) -> Hashable:
        """What the alternatives to a point share with it, None where it is alone."""
        place = [float(column[at]) for column in (self.x, self.y, self.z)]
        return set_of_anchors(self.alternative_of[at], self.level[at], self.member[at], place)

    def apart(self, one: int, other: int) -> tuple[float, float]:
        """How far another point of its face is from one, along x and y of the face, ft."""
        x, y, z = (column[[other]] - column[[one]] for column in (self.x, self.y, self.z))
        facing = self.facing[[one]]
        if np.isfinite(facing).all():
            x, y, _ = in_face(facing=facing, x=x, y=y, z=z)
        return float(x[0]), float(y[0])


@lru_cache(maxsize=4096)
def one_name(text: str | None) -> str | None:
    """The name of a member or a level however it is spelt: its spaces, its case and how its accents are coded.

    Two names that were taken for one would only compare points that are not near; one that was taken for two would
    hide those that are.
    """
    return None if text is None else " ".join(unicodedata.normalize("NFKC", text).casefold().split())


def set_of_anchors(name: str | None, level: str | None, member: str | None, place: Sequence[float]) -> Hashable:
    """What points that are one set of anchors have in common: all of what they name, and their coordinates, may be nan.

    Coordinates stated in other units, 1.2 in and 0.1 ft, are the same place. None where they name no other.
    """
    if name is None:
        return None
    same = tuple(None if own != own else round(own, _PLACE_DECIMALS) + 0.0 for own in place)
    return one_name(name), one_name(level), one_name(member), same


def pack_labels(items: Rows, anchors: PackedAnchors, *, facing: Floats) -> Labels:
    """Read them of every item; ``anchors`` are its products, ``facing`` is that of its face."""
    place, base = items.child("at"), items.child("base")
    return Labels(
        ids=items.values("id"),
        addresses=anchors.addresses,
        invented=anchors.invented,
        family=anchors.family,
        level=place.values("level"),
        trade=items.values("trade"),
        tags=items.values("tags"),
        member=base.values("member"),
        decided_by=base.values("state_decided_by"),
        x=place.quantity("x", COORDINATE),
        y=place.quantity("y", COORDINATE),
        z=place.quantity("z", COORDINATE),
        facing=facing,
        alternative_of=items.values("alternative_of"),
    )
