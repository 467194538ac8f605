"""Limits of the structural notes on service loads: per point, in total and per area of the points they hold for.

The service load of a point is dead load, contents and live load, and on a sprinkler line 250 lb; other natures are not
in it, and contents and live load that push take nothing off, for they may be absent. Where one of the other natures may
pull there too, a limit is never said to be kept, and the answer names it: roof live load, snow, wind, thermal load,
earthquake either way (its vertical effect is only said to be in no sum), a test heavier than the contents, loads of one
nature that are stated against each other, of which the one may be absent, and a stated sprinkler rule of which the
service load does not hold the part of the structure, 250 lb and the weight that the rule counts five times. A load that
lifts counts as none, and of points that are one set of anchors the largest counts. Units: ft, lbf, lb/ft2.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import inf, isfinite
from typing import Any

import numpy as np

from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.hang_point.weights import most_service
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.loads.combinations import SPRINKLER_LOAD, weight_in_rule
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.labels import Labels, one_name
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.pull import convert, out_of_range, range_text
from hangpoint.units import AREA_WEIGHT, COORDINATE, FORCE, QuantityKind, System

_BOUNDS = ("x_from", "x_to", "y_from", "y_to")
_MOST: Mapping[str, QuantityKind] = {"most_per_point": FORCE, "most_total": FORCE, "most_per_area": AREA_WEIGHT}
_ROUNDING = 1e-9
_SERVICE = (
    "Service loads: dead, contents, live, 250 lb of sprinkler lines; the vertical effect of earthquake is not in them."
)
_BY_NATURE = ("roof_live", "snow", "wind", "thermal")
_FURTHER: Mapping[str, str] = {
    "roof_live": "roof live load",
    "snow": "snow",
    "wind": "wind",
    "thermal": "thermal load",
    "earthquake": "earthquake",
    "test": "a test heavier than the contents",
    "opposed": "loads of one nature by themselves that are stated against each other",
    "sprinkler_rule": "the sprinkler rule's 250 lb or weight",
}
_IN_NO_MEMBER = "Points that name no member are taken to be in none."


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitFlaw:
    """What is wrong with a limit: its place in the list, the field, and why."""

    at: int
    name: str
    code: str
    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StructuralLimit:
    """One limit; bounds and limits that aren't stated are infinite."""

    id: str
    level: str | None
    member: str | None
    bounds: Mapping[str, float]
    most: Mapping[str, float]

    @property
    def area(self) -> float:
        """Of the rectangle, ft2, infinite unless all bounds are stated."""
        return (self.bounds["x_to"] - self.bounds["x_from"]) * (self.bounds["y_to"] - self.bounds["y_from"])

    def holds(self, labels: Labels) -> tuple[Bools, Bools]:
        """(points,) where it holds, and where a point states too little to tell.

        A point that names no member is in none.
        """
        level, level_known = _named(self.level, labels.level)
        member, _ = _named(self.member, labels.member)
        x, x_known = _between(labels.x, self.bounds["x_from"], self.bounds["x_to"])
        y, y_known = _between(labels.y, self.bounds["y_from"], self.bounds["y_to"])
        known = level_known & x_known & y_known
        may = (level | ~level_known) & member & (x | ~x_known) & (y | ~y_known)
        return may & known, may & ~known


def _named(name: str | None, stated: Sequence[str | None]) -> tuple[Bools, Bools]:
    if name is None:
        every = np.ones(len(stated), dtype=np.bool_)
        return every, every
    return (
        np.array([one_name(own) == one_name(name) for own in stated], dtype=np.bool_),
        np.array([own is not None for own in stated], dtype=np.bool_),
    )


def _between(place: Floats, least: float, most: float) -> tuple[Bools, Bools]:
    if not isfinite(least) and not isfinite(most):
        every = np.ones(len(place), dtype=np.bool_)
        return every, every
    return (place >= least) & (place <= most), ~np.isnan(place)


def read_limits(stated: Sequence[Mapping[str, Any]], system: System) -> tuple[list[StructuralLimit], list[LimitFlaw]]:
    """The limits of a request that have passed the schema, and what is wrong with them."""
    flaws: list[LimitFlaw] = []
    seen: set[str] = set()
    found: list[StructuralLimit] = []
    for at, one in enumerate(stated):
        if one["id"] in seen:
            flaws.append(LimitFlaw(at=at, name="id", code="duplicate-id", detail="Two limits have this id."))
        seen.add(one["id"])
        limit = StructuralLimit(
            id=one["id"],
            level=one.get("level"),
            member=one.get("member"),
            bounds={
                name: _quantity(one, name, COORDINATE, at, system, flaws, absent=-inf if name.endswith("from") else inf)
                for name in _BOUNDS
            },
            most={name: _quantity(one, name, kind, at, system, flaws, absent=inf) for name, kind in _MOST.items()},
        )
        flaws += _flaws(one, limit, at)
        found.append(limit)
    return found, flaws


def _quantity(
    one: Mapping[str, Any],
    name: str,
    kind: QuantityKind,
    at: int,
    system: System,
    flaws: list[LimitFlaw],
    *,
    absent: float,
) -> float:
    if name not in one:
        return absent
    column = convert([one[name]], kind, system)
    if out_of_range(column, kind).any():
        flaws.append(LimitFlaw(at=at, name=name, code="quantity", detail=range_text(kind, system)))
    return float(column[0])


def _flaws(one: Mapping[str, Any], limit: StructuralLimit, at: int) -> list[LimitFlaw]:
    flaws: list[LimitFlaw] = []
    if all(name not in one for name in _MOST):
        detail = "A limit needs one of most_per_point, most_total and most_per_area."
        flaws.append(LimitFlaw(at=at, name="most_per_point", code="missing", detail=detail))
    flaws += [
        LimitFlaw(at=at, name=name, code="quantity", detail="A limit is more than zero.")
        for name in _MOST
        if limit.most[name] <= 0
    ]
    for axis in ("x", "y"):
        if not limit.bounds[f"{axis}_from"] < limit.bounds[f"{axis}_to"]:
            detail = f"{axis}_to is more than {axis}_from."
            flaws.append(LimitFlaw(at=at, name=f"{axis}_to", code="contradiction", detail=detail))
    if "most_per_area" in one:
        flaws += [
            LimitFlaw(at=at, name=name, code="missing", detail="A limit per area needs all four coordinates.")
            for name in _BOUNDS
            if name not in one
        ]
    return flaws


def with_point_limits(packed: Packed, limits: Sequence[StructuralLimit]) -> Packed:
    """The points with the least of the limits per point that hold for each."""
    most = packed.points.surroundings.point_limit.copy()
    for limit in limits:
        if isfinite(limit.most["most_per_point"]):
            holds, _ = limit.holds(packed.labels)
            most[holds] = np.minimum(most[holds], limit.most["most_per_point"])
    surroundings = replace(packed.points.surroundings, point_limit=most)
    return replace(packed, points=replace(packed.points, surroundings=surroundings))


def further_loads(packed: Packed, demand: Demand) -> dict[str, Bools]:
    """(points,) where a load of each of `_FURTHER` may pull beside the service load."""
    hangs = packed.points.hangs
    found = {name: hangs.transient[:, 0, TRANSIENT.index(name)] > 0 for name in _BY_NATURE}
    contents, live = np.maximum(demand.contents, 0.0), np.maximum(demand.live, 0.0)
    found["test"] = demand.test > contents * (1 + _ROUNDING)
    found["opposed"] = packed.assumptions.any_of(Assumption.NATURE_TOGETHER)
    found["earthquake"] = hangs.earthquake[:, 0] != 0
    rule = hangs.transient[:, 0, TRANSIENT.index("sprinkler_rule")]
    counted = weight_in_rule(rule) * (1 - _ROUNDING)
    short = (live + demand.sprinkler < SPRINKLER_LOAD * (1 - _ROUNDING)) | (demand.dead + contents < counted)
    found["sprinkler_rule"] = (rule > 0) & short
    return found


@dataclass(slots=True, kw_only=True)
class _Sum:
    """What has been added up for one limit."""

    points: list[str] = field(default_factory=list[str])
    sets: list[Hashable] = field(default_factory=list[Hashable])
    loads: list[float] = field(default_factory=list[float])
    unplaced: list[str] = field(default_factory=list[str])
    further: set[str] = field(default_factory=set[str])

    def total(self) -> float:
        """Of all loads, of alternatives the largest."""
        largest: dict[Hashable, float] = {}
        for own, load in zip(self.sets, self.loads, strict=True):
            if own is not None:
                largest[own] = max(largest.get(own, 0.0), load)
        alone = [load for own, load in zip(self.sets, self.loads, strict=True) if own is None]
        return float(np.sum([*alone, *largest.values()]))


class LimitSums:
    """Sums of service loads under the limits of a request, added up block by block."""

    def __init__(self, limits: Sequence[StructuralLimit], *, factored: bool, system: System) -> None:
        """``factored``: the request has factored loads only, whose service load nobody knows."""
        self.limits = limits
        self._factored = factored
        self._system: System = system
        self._sums = [_Sum() for _ in limits]
        self._invalid = 0

    def add(self, packed: Packed, demand: Demand, *, invalid: int) -> None:
        """Take in the points of a block, checked or refused, and how many others of it are invalid."""
        service = most_service(dead=demand.dead, contents=demand.contents, live=demand.live, sprinkler=demand.sprinkler)
        further = further_loads(packed, demand)
        self._invalid += invalid
        for limit, own in zip(self.limits, self._sums, strict=True):
            holds, unknown = limit.holds(packed.labels)
            places: list[int] = np.flatnonzero(holds).tolist()
            own.points += [packed.labels.ids[at] for at in places]
            own.sets += [packed.labels.set_of(at) for at in places]
            own.loads += np.maximum(service[places], 0.0).tolist()
            own.further |= {name for name, pulls in further.items() if pulls[places].any()}
            own.unplaced += [packed.labels.ids[at] for at in np.flatnonzero(unknown).tolist()]

    def as_json(self) -> list[dict[str, Any]]:
        """A result a limit, in the units of the request."""
        return [self._result(limit, own) for limit, own in zip(self.limits, self._sums, strict=True)]

    def _result(self, limit: StructuralLimit, own: _Sum) -> dict[str, Any]:
        total = own.total()
        most = {name: value for name, value in limit.most.items() if isfinite(value)}
        per_point = limit.most["most_per_point"] * (1 + _ROUNDING)
        exceeding = [point for point, load in zip(own.points, own.loads, strict=True) if load > per_point]
        per_area = total / limit.area
        over = bool(exceeding)
        over |= total > limit.most["most_total"] * (1 + _ROUNDING)
        over |= per_area > limit.most["most_per_area"] * (1 + _ROUNDING)
        open_ends = self._open_ends(own)
        said = [_SERVICE] if limit.member is None else [_SERVICE, _IN_NO_MEMBER]
        made: dict[str, Any] = {
            "id": limit.id,
            "status": "exceeded" if over else "undecided" if open_ends else "within",
            "points": own.points,
            "total": self._force(total),
            "exceeding": exceeding,
            "unplaced": own.unplaced,
            "text": " ".join([*said, *open_ends]),
        }
        made |= {name: self._force(most[name]) for name in ("most_per_point", "most_total") if name in most}
        if "most_per_area" in most:
            made |= {"per_area": self._area(per_area), "most_per_area": self._area(most["most_per_area"])}
        if own.loads:
            at = int(np.argmax(own.loads))
            made["largest"] = {"id": own.points[at], "load": self._force(own.loads[at])}
        return made

    def _open_ends(self, own: _Sum) -> list[str]:
        """Why a limit that isn't exceeded may be."""
        said: list[str] = []
        if self._factored:
            said.append("The request states factored loads only: their service load is not known.")
        if own.further:
            named = ", ".join(words for name, words in _FURTHER.items() if name in own.further)
            said.append(f"Not in them, and it pulls there too: {named}.")
        if own.unplaced:
            said.append("Some points don't say where they are.")
        if self._invalid:
            said.append("Invalid points of the request are not counted.")
        return said

    def _force(self, value: float) -> float:
        return float(in_request_units(np.array([value]), FORCE, self._system)[0])

    def _area(self, value: float) -> float:
        return float(in_request_units(np.array([value]), AREA_WEIGHT, self._system)[0])
