"""Load maps: the service loads of hang points where they act, and their sums by level.

The check has computed every load; here they are only put beside their places and added up. Units: lbf and ft in the
columns of the core, those of the request in what leaves.
"""

import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, cast

import numpy as np

from hangpoint.core.hang_point.points import SIDE, SOFFIT, TOP
from hangpoint.core.hang_point.verdict import Demand
from hangpoint.core.hang_point.weights import load_on_structure, push_on_structure, shear_on_structure
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.quantity import Floats
from hangpoint.core.vocabulary import LoadMapNote, Status, StructureLoad
from hangpoint.pack.labels import one_name, set_of_anchors
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.structural_limits import further_loads
from hangpoint.units import COORDINATE, FORCE, System

ALWAYS = ("dead", "contents", "live", "sprinkler")
"""Natures that stand at every point, as in its check."""
_RULE = "sprinkler_rule"
OTHERS = ("roof_live", "snow", "wind", "test", "thermal", "earthquake")
"""Natures that are in no load on the structure, each where it is not 0."""
_STRUCTURE, PUSH = "on_structure", "push_on_structure"
SHEARS = ("shear_x", "shear_y")
"""Service shear along the axes of the face, where it is not 0."""
BESIDE = ("roof_live", "snow", "wind", "thermal", "test", "opposed", "earthquake")
"""What may pull beside the load on the structure."""
_FACES = {SOFFIT: "soffit", SIDE: "side", TOP: "top"}
_ALTERNATIVE = "alternative_of"

Item = dict[str, Any]


@dataclass(slots=True, kw_only=True)
class _Sums:
    """What has been added up of some points, those that pull apart from those that push.

    Of alternatives, points that are one set of anchors, the largest load of each name counts.
    """

    points: int = 0
    placed: int = 0
    sets: dict[Hashable, "_Sums"] = field(default_factory=dict[Hashable, "_Sums"])
    pulls: dict[str, float] = field(default_factory=dict[str, float])
    pushes: dict[str, float] = field(default_factory=dict[str, float])

    def add(self, item: Item) -> None:
        own = set_of(item)
        if own is not None:
            self.sets.setdefault(own, _Sums()).take_largest(item)
            return
        self.points += 1
        self.placed += item["placed"]
        if _STRUCTURE not in item:
            return
        for name, load in item["service"].items():
            self._put(self.pulls if load >= 0 else self.pushes, name, load)
        self._put(self.pulls, _STRUCTURE, item["on_structure"])
        self._put(self.pushes, _STRUCTURE, item.get(PUSH, 0.0))

    def take_largest(self, item: Item) -> None:
        """Take in one more of the alternatives that these sums are of."""
        one = _Sums()
        one.add({name: own for name, own in item.items() if name != _ALTERNATIVE})
        self.points, self.placed = 1, max(self.placed, one.placed)
        for sums, others, most in ((self.pulls, one.pulls, max), (self.pushes, one.pushes, min)):
            for name, load in others.items():
                sums[name] = most(sums.get(name, 0.0), load)

    def counted(self) -> "_Sums":
        """With each set of anchors as one point."""
        whole = _Sums(points=self.points, placed=self.placed, pulls={**self.pulls}, pushes={**self.pushes})
        for own in self.sets.values():
            whole.points += own.points
            whole.placed += own.placed
            for sums, others in ((whole.pulls, own.pulls), (whole.pushes, own.pushes)):
                for name, load in others.items():
                    self._put(sums, name, load)
        return whole

    @staticmethod
    def _put(sums: dict[str, float], name: str, load: float) -> None:
        sums[name] = sums.get(name, 0.0) + load

    def one(self, name: str) -> dict[str, float]:
        return {"pulls": self.pulls.get(name, 0.0), "pushes": self.pushes.get(name, 0.0)}

    def as_json(self) -> dict[str, Any]:
        made: dict[str, Any] = {"points": self.points, "placed": self.placed}
        named = self.pulls.keys() | self.pushes.keys()
        if not named:
            return made
        shown = [name for name in (*ALWAYS, *OTHERS) if name in named]
        return made | {
            "service": {name: self.one(name) for name in shown},
            _STRUCTURE: self.one(_STRUCTURE),
        }


@dataclass(slots=True, kw_only=True)
class _Level:
    """One map: a level, or a member where no level is stated, by the face that points hang from."""

    head: dict[str, Any]
    sums: _Sums = field(default_factory=_Sums)
    members: dict[str | None, tuple[str | None, _Sums]] = field(
        default_factory=dict[str | None, tuple[str | None, _Sums]]
    )
    extent: tuple[float, float, float, float] | None = None

    def add(self, item: Item) -> None:
        self.sums.add(item)
        member = item.get("member")
        self.members.setdefault(one_name(member), (member, _Sums()))[1].add(item)
        if item["placed"]:
            x, y = item["x"], item["y"]
            least_x, most_x, least_y, most_y = self.extent or (x, x, y, y)
            self.extent = (min(least_x, x), max(most_x, x), min(least_y, y), max(most_y, y))

    def as_json(self) -> dict[str, Any]:
        made = self.head | self.sums.counted().as_json()
        if self.extent is not None:
            made["extent"] = dict(zip(("x_from", "x_to", "y_from", "y_to"), self.extent, strict=True))
        return made | {"members": [{"member": name} | own.counted().as_json() for name, own in self.members.values()]}


class LoadMap:
    """The loads of the valid points of a batch, taken in part by part as they are checked."""

    def __init__(self, *, factored: bool, system: System) -> None:
        """``factored``: the request has factored loads only, whose service load nobody knows."""
        self.factored = factored
        self._system: System = system
        self._of_row: dict[int, Item] = {}

    def add(self, packed: Packed, demand: Demand) -> None:
        """Take in some points and their loads."""
        places = list(_places(packed, self._system))
        loads: Sequence[Item] = [{} for _ in places] if self.factored else list(self._loads(packed, demand))
        for row, place, load in zip(packed.index, places, loads, strict=True):
            self._of_row[row] = place | load

    def _loads(self, packed: Packed, demand: Demand) -> Iterator[Item]:
        hangs = packed.points.hangs
        stated = {name: hangs.transient[:, 0, TRANSIENT.index(name)] for name in TRANSIENT}
        of_check = {name: cast(Floats, getattr(demand, name)) for name in (*ALWAYS, "test")}
        columns = stated | of_check | {"earthquake": hangs.earthquake[:, 0]}
        columns[_STRUCTURE] = load_on_structure(
            **{name: columns[name] for name in ALWAYS},
            rule=columns[_RULE],
        )
        columns[PUSH] = push_on_structure(dead=demand.dead, contents=demand.contents, live=demand.live)
        columns |= dict(zip(SHEARS, shear_on_structure(hangs).T, strict=True))
        table = in_request_units(np.array(list(columns.values())), FORCE, self._system).T.tolist()
        beside = further_loads(packed, demand)
        further = np.array([beside[name] for name in BESIDE]).T.tolist()
        by_rule = ((demand.sprinkler > 0) | (columns[_RULE] > 0)).tolist()
        for own, pulls, ruled in zip(table, further, by_rule, strict=True):
            force = dict(zip(columns, own, strict=True))
            yield {
                "service": {name: force[name] for name in ALWAYS}
                | {name: force[name] for name in (*OTHERS, _RULE) if force[name]},
                _STRUCTURE: force[_STRUCTURE],
                **{name: force[name] for name in (PUSH, *SHEARS) if force[name]},
                "on_structure_by": (StructureLoad.SPRINKLER if ruled else StructureLoad.SERVICE).value.code,
                "beside": [name for name, pull in zip(BESIDE, pulls, strict=True) if pull],
            }

    def items(self, checked: Sequence[Mapping[str, Any]]) -> list[Item]:
        """The items of the map, in the order of the request; ``checked`` are those of the check."""
        return [_item(one, self._of_row.get(one["index"])) for one in checked]


def _places(packed: Packed, system: System) -> Iterator[Item]:
    labels = packed.labels
    own = np.array([labels.x, labels.y, labels.z])
    known = np.isfinite(own)
    numbers = in_request_units(np.where(known, own, 0.0), COORDINATE, system).T.tolist()
    columns = zip(
        *(
            labels.level,
            labels.member,
            labels.alternative_of,
            packed.points.bases.face.tolist(),
            labels.facing.tolist(),
        ),
        *(numbers, known.T.tolist()),
        strict=True,
    )
    for level, member, other, face, facing, place, stated in columns:
        yield {
            "placed": stated[0] and stated[1],
            **{
                name: text
                for name, text in (("level", level), ("member", member), (_ALTERNATIVE, other))
                if text is not None
            },
            "face": _FACES[face],
            **({"facing": facing} if math.isfinite(facing) else {}),
            **{axis: number for axis, number, has in zip("xyz", place, stated, strict=True) if has},
        }


def set_of(item: Mapping[str, Any]) -> Hashable:
    """What the alternatives to an item of the map share with it (`labels.set_of_anchors`), None where it is alone."""
    place = [item.get(axis, math.nan) for axis in "xyz"]
    return set_of_anchors(item.get(_ALTERNATIVE), item.get("level"), item.get("member"), place)


def _item(one: Mapping[str, Any], loads: Item | None) -> Item:
    if loads is None:
        return dict(one)
    demand = one["demand"]
    made: Item = {name: one[name] for name in ("id", "index", "status")} | {"number": one["index"] + 1} | loads
    made["demand"] = {name: demand[name] for name in ("factored_tension", "factored_shear", "load_case", "level")}
    made |= {name: one[name] for name in ("product",) if name in one}
    if "governing" in one:
        made |= {name: one["governing"][name] for name in ("mode", "utilisation")}
    return made


def levels_of(items: Sequence[Item]) -> list[dict[str, Any]]:
    """The maps of the items, in the order in which each first appears, with their sums.

    A map is that of a level, else of a member, by the face; each item takes its place in the list, from 0.
    """
    places: dict[tuple[str, str | None, str], int] = {}
    found: list[_Level] = []
    for item in items:
        if item["status"] != Status.INVALID:
            by = _named_by(item)
            item["map"] = places.setdefault((by, one_name(item.get(by)), item["face"]), len(found))
            if item["map"] == len(found):
                found.append(_Level(head=_head(item)))
            found[item["map"]].add(item)
    return [own.as_json() for own in found]


def _named_by(item: Mapping[str, Any]) -> str:
    return "member" if "member" in item and "level" not in item else "level"


def _head(item: Item) -> dict[str, Any]:
    by = _named_by(item)
    return {"name": item.get(by), "named_by": by if by in item else "nothing", "face": item["face"]}


def notes_of(items: Sequence[Item], *, factored: bool) -> dict[str, str]:
    """What is said of the loads of a map: sentences by code."""
    valid = [item for item in items if item["status"] != Status.INVALID]
    holds = {
        LoadMapNote.SERVICE: not factored,
        LoadMapNote.FACTORED_ONLY: factored,
        LoadMapNote.DIRECTION: True,
        LoadMapNote.SPRINKLER: any(item.get("on_structure_by") == StructureLoad.SPRINKLER.value.code for item in valid),
        LoadMapNote.BESIDE: any(name in item.get("service", ()) for item in valid for name in OTHERS),
        LoadMapNote.EARTHQUAKE: any("earthquake" in item.get("beside", ()) for item in valid),
        LoadMapNote.SHEAR: True,
        LoadMapNote.ALLOWABLE: any(item["demand"]["level"] == "allowable" for item in valid),
        LoadMapNote.ALTERNATIVES: any(_ALTERNATIVE in item for item in valid),
        LoadMapNote.NOT_PLACED: any(not item["placed"] for item in valid),
        LoadMapNote.NOT_HELD: any(item["status"] != Status.PASSED for item in valid),
        LoadMapNote.INVALID: len(valid) < len(items),
        LoadMapNote.STRUCTURE: True,
    }
    return {note.value.code: note.value.text for note in LoadMapNote if holds[note]}
