"""Items of a request for fixtures as columns of the core, or the flaws that keep an item out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.fixture.items import CONTENTS, DEAD, EARTHQUAKE, Fixtures, Forces
from hangpoint.core.hanger.items import EQUIPMENT
from hangpoint.core.loads.guard_load import GuardLoad
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import FixtureAssumption, FixtureNotChecked, LoadAssumption
from hangpoint.pack.fixture_items.forces import (
    joined,
    pack_bodies,
    pack_guards,
    pack_horizontal,
    pack_loads,
    pack_stated,
)
from hangpoint.pack.fixture_items.standing import pack_standing
from hangpoint.pack.flags import Flags
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.hanger_items.notes import Notes, flaw_where
from hangpoint.pack.hanger_items.seismic import pack_seismic
from hangpoint.pack.pull import Object, Rows
from hangpoint.units import COORDINATE, System

BRACKET, WALL, FLOOR, POST = KINDS = ("bracket", "wall_equipment", "floor_equipment", "post")
_ON_SIDE = (BRACKET, WALL)
_DIRECTIONS = {POST: 8}
_FEWEST_DIRECTIONS = 4
_ALWAYS_UNCHECKED = (FixtureNotChecked.ANCHORS, FixtureNotChecked.FIXTURE, FixtureNotChecked.STRUCTURE)


@dataclass(frozen=True, slots=True, kw_only=True)
class FixturePlaces:
    """Where the items are; ``x``, ``y`` in ft and ``bearing`` in degrees, nan where not stated."""

    level: Sequence[str | None]
    x: Floats
    y: Floats
    bearing: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedFixtures:
    """A batch in columns: ``index`` is the row in the request of each item.

    ``guards`` is the record of named loads and ``guarded`` the item of each; ``shaken`` the items with a component's
    seismic force. ``loads`` holds the assumptions that fixtures share with hanger loads.
    """

    fixtures: Fixtures
    index: Sequence[int]
    ids: Sequence[str]
    kinds: Sequence[str]
    places: FixturePlaces
    trade: Sequence[str | None]
    category: Sequence[str | None]
    guards: GuardLoad
    guarded: Index
    shaken: Bools
    assumptions: Flags
    loads: Flags
    not_checked: Flags


def pack_fixtures(
    objects: Sequence[Object],
    *,
    default: Mapping[str, Any],
    index: Sequence[int],
    system: System,
    standard_stated: bool,
    load_standard: str,
    flaws: Flaws,
) -> PackedFixtures:
    """Read every place of every item.

    Args:
        objects: items that have passed the schema.
        default: the defaults of the request.
        index: row in the request of each item.
        system: unit system of bare numbers.
        standard_stated: the request names ``load_standard``.
        load_standard: the edition in force.
        flaws: takes what is wrong; if it takes anything the columns are not to be used.
    """
    count = len(objects)
    items = Rows(objects, default=default, path="", index=index, local=range(count), system=system, flaws=flaws)
    kinds: Sequence[str] = items.values("kind")
    notes = Notes(count)

    def of_kind(*names: str) -> Rows:
        return items.taken([at for at, kind in enumerate(kinds) if kind in names])

    guards, record = pack_guards(of_kind(POST))
    bodies = pack_bodies(of_kind(WALL, FLOOR, POST), notes)
    stated = joined([pack_horizontal(items), pack_stated(items)])
    forces = joined([bodies, pack_loads(of_kind(BRACKET), notes), guards, stated])
    lined = np.ones(count, dtype=np.bool_)
    seismic = pack_seismic(
        items,
        np.full(count, EQUIPMENT, dtype=np.int8),
        np.zeros(count),
        lined,
        load_standard=load_standard,
        notes=notes,
    )
    shaken = np.zeros(count, dtype=np.bool_)
    shaken[seismic.item] = True
    notes.assume(LoadAssumption.LOAD_STANDARD, shaken & (not standard_stated), np.arange(count))
    _shaken_twice(items, shaken, stated)
    heavy = np.bincount(forces.item, (forces.nature <= 1) * forces.w, count) > 0
    detail = "The seismic force is that of dead load and contents, and nothing of these natures is stated."
    flaw_where(items, shaken & ~heavy, "loads", detail, code="missing")
    standing = pack_standing(of_kind(FLOOR))
    at = items.child("at")
    directions = [_DIRECTIONS.get(kind, _FEWEST_DIRECTIONS) for kind in kinds]
    chosen = items.values("directions")
    fixtures = Fixtures(
        count=count,
        on_side=np.array([kind in _ON_SIDE for kind in kinds], dtype=np.bool_),
        directions=np.array(
            [own if each is None else each for own, each in zip(directions, chosen, strict=True)], dtype=np.intp
        ),
        forces=forces,
        standing=standing,
        seismic=seismic,
    )
    assumptions, not_checked = _said(items, fixtures, shaken, guards.item)
    return PackedFixtures(
        fixtures=fixtures,
        index=index,
        ids=items.values("id"),
        kinds=kinds,
        places=FixturePlaces(
            level=at.values("level"),
            x=at.quantity("x", COORDINATE),
            y=at.quantity("y", COORDINATE),
            bearing=at.numbers("bearing", np.nan),
        ),
        trade=items.values("trade"),
        category=items.child("seismic").values("category"),
        guards=record,
        guarded=guards.item,
        shaken=shaken,
        assumptions=assumptions,
        loads=notes.assumptions,
        not_checked=not_checked,
    )


def _shaken_twice(items: Rows, shaken: Bools, stated: Forces) -> None:
    """Note a stated earthquake force of an item whose component force is computed."""
    twice = np.zeros(len(items), dtype=np.bool_)
    twice[stated.item[stated.nature == EARTHQUAKE]] = True
    detail = "A stated earthquake force and the computed one of the component don't go together."
    flaw_where(items, shaken & twice, "seismic/s_ds", detail, code="contradiction")


def _said(items: Rows, fixtures: Fixtures, shaken: Bools, guarded: Index) -> tuple[Flags, Flags]:
    """What was assumed and what stays unchecked of each item."""
    count, forces, floor = fixtures.count, fixtures.forces, fixtures.standing.item
    standing, any_way, as_stated, named, unshaken = (np.zeros(count, dtype=np.bool_) for _ in range(5))
    standing[floor] = True
    any_way[forces.item[forces.any_way]] = True
    as_stated[forces.item[forces.nature == EARTHQUAKE]] = True
    named[guarded] = True
    forced = (forces.p_x != 0) | (forces.p_y != 0) | (forces.p_z != 0)
    unshaken[forces.item[forced & np.isin(forces.nature, (DEAD, CONTENTS))]] = True
    assumptions, not_checked = Flags(FixtureAssumption, count), Flags(FixtureNotChecked, count)
    assumptions.set(FixtureAssumption.RIGID)
    for assumed, holds in (
        (FixtureAssumption.ANY_DIRECTION, any_way | shaken),
        (FixtureAssumption.FEET_AT_ANCHORS, standing),
        (FixtureAssumption.TIPS_OVER_ANCHORS, standing & items.silent("footprint")),
        (FixtureAssumption.WITH_OMEGA_0, shaken),
        (FixtureAssumption.EARTHQUAKE_AS_STATED, as_stated),
        (FixtureAssumption.STATED_NOT_SHAKEN, unshaken & shaken),
        (FixtureAssumption.GUARD_LOAD, named),
    ):
        assumptions.set(assumed, holds)
    for always in _ALWAYS_UNCHECKED:
        not_checked.set(always)
    for left, holds in (
        (FixtureNotChecked.FRICTION, ~fixtures.on_side),
        (FixtureNotChecked.BEARING, standing),
        (FixtureNotChecked.EARTHQUAKE, ~shaken & ~as_stated),
        (FixtureNotChecked.VERTICAL_EARTHQUAKE, standing & as_stated),
    ):
        not_checked.set(left, holds)
    return assumptions, not_checked
