"""Bodies for the checks of anchors that the loads of fixtures make: a group a direction, and hang points.

Loads are service loads by nature at the origin of the anchors. Earthquake of a component is there with Omega_0, and the
options then say so; a stated one goes as it stands.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.fixture.fixtures import COMPONENTS, FixtureLoads
from hangpoint.core.fixture.items import DEAD, EARTHQUAKE, NATURES
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.fixture_items.packed import PackedFixtures
from hangpoint.pack.forces import ROUNDING
from hangpoint.pack.printed import in_request_units
from hangpoint.units import COORDINATE, FORCE, MOMENT, OFFSET, System

Object = dict[str, Any]
_NAMES = {
    "n": "tension",
    "v_x": "shear_x",
    "v_y": "shear_y",
    "m_x": "moment_x",
    "m_y": "moment_y",
    "m_z": "torsion",
}
_KINDS = {name: MOMENT if name.startswith("m_") else FORCE for name in COMPONENTS}
_OVERSTRENGTH = {"tension_option": "overstrength", "shear_option": "overstrength"}


def components_of_ways(loads: FixtureLoads, system: System) -> list[list[Object]]:
    """Components by nature of each way, those that act."""
    way, nature = np.nonzero(loads.acts)
    sums = {name: loads.sums[way, nature, place] for place, name in enumerate(COMPONENTS)}
    made: list[list[Object]] = [[] for _ in loads.ways.item]
    for at, component in zip(way.tolist(), _components(nature.tolist(), sums, system), strict=True):
        made[at].append(component)
    return made


def handed_on(loads: FixtureLoads, whole: Sequence[list[Object]], system: System) -> list[list[Object]]:
    """Components of each way for the check of its anchors: those by nature, ``whole``, but of loads of a nature with
    both signs in any of their components those alike in all signs by themselves, because each may be absent.
    """
    apart = against_each_other(loads)
    rows = np.flatnonzero(apart[loads.way, loads.nature])
    values = np.stack([getattr(loads.forces, name)[rows] for name in COMPONENTS], axis=1)
    keys = np.column_stack((loads.way[rows], loads.nature[rows], np.sign(values)))
    kinds, kind = np.unique(keys, axis=0, return_inverse=True)
    sums = np.zeros((len(kinds), len(COMPONENTS)))
    np.add.at(sums, kind.reshape(len(rows)), values)
    ways, natures = kinds[:, :2].astype(np.intp).T.tolist()
    each: dict[tuple[int, int], list[Object]] = {}
    columns = {name: sums[:, place] for place, name in enumerate(COMPONENTS)}
    for way, nature, own in zip(ways, natures, _components(natures, columns, system), strict=True):
        each.setdefault((way, nature), []).append(own)
    return [
        [
            own
            for nature, name in enumerate(NATURES)
            for own in each.get((way, nature), [part for part in parts if part["nature"] == name])
        ]
        for way, parts in enumerate(whole)
    ]


def against_each_other(loads: FixtureLoads) -> Bools:
    """(ways, natures) whether loads of the nature, of those that may be absent, have both signs in a component."""
    ups, downs = np.zeros_like(loads.sums), np.zeros_like(loads.sums)
    values = np.stack([getattr(loads.forces, name) for name in COMPONENTS], axis=1)
    np.add.at(ups, (loads.way, loads.nature), np.maximum(values, 0.0))
    np.add.at(downs, (loads.way, loads.nature), np.maximum(-values, 0.0))
    found: Bools = np.any(np.minimum(ups, downs) > ROUNDING * np.maximum(ups, downs), axis=2)
    found[:, [DEAD, EARTHQUAKE]] = False
    return found


def _components(natures: Sequence[int], columns: dict[str, Floats], system: System) -> list[Object]:
    """One component a row; ``columns`` by the names of `COMPONENTS`, 0 where there is none."""
    none = np.zeros(len(natures))
    lists = [in_request_units(columns.get(name, none), _KINDS[name], system).tolist() for name in COMPONENTS]
    names = [_NAMES[name] for name in COMPONENTS]
    return [
        {"nature": NATURES[nature], **dict(zip(names, values, strict=True))}
        for nature, *values in zip(natures, *lists, strict=True)
    ]


def group_bodies(
    packed: PackedFixtures, ids: Sequence[str], components: Sequence[list[Object]], loads: FixtureLoads, head: Object
) -> list[Object]:
    """A body of a group for each way, named by ``ids``; ``head`` has what is the same of all."""
    layouts = _layouts(packed, head["units"])
    seismic = _seismic(packed)
    made: list[Object] = []
    for way, item in enumerate(loads.ways.item.tolist()):
        group: Object = {"id": ids[way], "loads": {"components": components[way]}}
        if item in layouts:
            group["anchor"] = {"layout": layouts[item]}
        if seismic[item]:
            group["seismic"] = seismic[item]
        made.append({**head, "group": group})
    return made


def hang_points(packed: PackedFixtures, groups: Sequence[Object], loads: FixtureLoads, system: System) -> list[Object]:
    """The same groups as hang points, one a way.

    One with a single way has its place in the job. Several ways of one fixture stand at one place and are no neighbours
    of each other: they have none, and name the fixture that they are alternatives of.
    """
    places = packed.places
    columns = [in_request_units(np.nan_to_num(column), COORDINATE, system).tolist() for column in (places.x, places.y)]
    known = ~(np.isnan(places.x) | np.isnan(places.y))
    made: list[Object] = []
    alone = np.isnan(loads.ways.theta).tolist()
    for item, single, body in zip(loads.ways.item.tolist(), alone, groups, strict=True):
        group: Object = dict(body["group"])
        at: Object = {} if places.level[item] is None else {"level": places.level[item]}
        if single and known[item]:
            at |= {"x": columns[0][item], "y": columns[1][item]}
        own: Object = {"id": group["id"]} if single else {"id": group["id"], "alternative_of": packed.ids[item]}
        if at:
            own["at"] = at
        if packed.trade[item] is not None:
            own["trade"] = packed.trade[item]
        own["hangs"] = {"kind": "forces", **group["loads"]}
        made.append(own | {name: group[name] for name in ("anchor", "seismic") if name in group})
    return made


def supports_of_ways(loads: FixtureLoads, system: System) -> list[list[Object]]:
    """Tension and shear by nature of every support of floor equipment, by way; tension below 0 presses on the floor."""
    supports, reactions = loads.supports, loads.supports.reactions
    columns = {
        "tension": in_request_units(reactions.t, FORCE, system),
        "shear_x": in_request_units(supports.shears.anchors.v_a_x, FORCE, system),
        "shear_y": in_request_units(supports.shears.anchors.v_a_y, FORCE, system),
    }
    lists = {name: column.tolist() for name, column in columns.items()}
    places = [in_request_units(column, OFFSET, system).tolist() for column in (reactions.x, reactions.y)]
    made: list[dict[int, Object]] = [{} for _ in loads.ways.item]
    ways: list[int] = supports.way[supports.body].tolist()
    numbers: list[int] = supports.number.tolist()
    natures: list[int] = supports.nature[supports.body].tolist()
    for row, (way, nature, number) in enumerate(zip(ways, natures, numbers, strict=True)):
        own: Object = made[way].setdefault(
            number, {"support": number, "x": places[0][row], "y": places[1][row], "components": []}
        )
        own["components"].append({"nature": NATURES[nature]} | {name: each[row] for name, each in lists.items()})
    return [list(each.values()) for each in made]


def _layouts(packed: PackedFixtures, system: System) -> dict[int, list[Object]]:
    """Anchors of equipment on floors by item, from the origin."""
    standing = packed.fixtures.standing
    x, y = (in_request_units(column, OFFSET, system).tolist() for column in (standing.x, standing.y))
    made: dict[int, list[Object]] = {}
    for at, own_x, own_y in zip(standing.item[standing.body].tolist(), x, y, strict=True):
        made.setdefault(at, []).append({"x": own_x, "y": own_y})
    return made


def _seismic(packed: PackedFixtures) -> list[Object]:
    """Seismic fields of the body of each item."""
    s_ds = dict(zip(packed.fixtures.seismic.item.tolist(), packed.fixtures.seismic.s_ds.tolist(), strict=True))
    made: list[Object] = []
    for item, category in enumerate(packed.category):
        own: Object = {} if category is None else {"category": category}
        if item in s_ds:
            own |= {"s_ds": s_ds[item], **_OVERSTRENGTH}
        made.append(own)
    return made
