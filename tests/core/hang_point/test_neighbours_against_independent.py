"""Hang points that share concrete against own independent scalar code for one layout with the same anchors.

Points of one anchor each, of one product in one member: the sets that hold a point's anchor are those of a layout of
all of them, loaded as the points are. A point is as good as the worst of the sets that hold it.
"""

import random
from collections import Counter

import numpy as np
import pytest

from core.aci318_19.group_layouts import fixtures
from core.aci318_19.independent_group import (
    SIDES,
    edge_row,
    handed_on,
    rows_from_edge,
    sets_of,
    shear_rows,
    tension_rows,
    to_edge,
)
from core.aci318_19.test_groups_against_independent import column, packed, stated
from core.builders import FACTORED_LOADS
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import Sites
from hangpoint.core.vocabulary import Link

COUNT = 300
TENSION = ("concrete_breakout_tension", "adhesive_bond", "side_face_blowout")
SHEAR = ("concrete_breakout_shear", "pryout")


def members(seed):
    """Layouts of two anchors or more whose anchors are points with loads of their own."""
    rng = random.Random(seed)
    for f in fixtures(COUNT * 2, seed=seed):
        f = {
            **stated(f),
            "plate": None,
            "apart": True,
            "bounding": False,
            "welded": False,
            "seismic_075": False,
            "sustained": 0.0,
            "grout_pad": False,
        }
        count = len(f["anchors"])
        if count < 2:
            continue
        scale = f["a_se"] * 2e4
        tension = [scale * rng.choice([0.02, 0.1, 0.5, 1.5]) * rng.uniform(0.5, 1.0) for _ in range(count)]
        shear = [(0.3 * scale * rng.uniform(-1, 1), 0.3 * scale * rng.uniform(-1, 1)) for _ in range(count)]
        yield f, tension, shear


def alone(f, at, tension, shear):
    """One anchor of a layout as a fixture with its own edges."""
    x, y = f["anchors"][at]
    moved = {"x_minus": x, "x_plus": -x, "y_minus": y, "y_plus": -y}
    return {
        **f,
        "anchors": [(0.0, 0.0)],
        "resists": [(True, True)],
        "edges": {side: f["edges"][side] + moved[side] for side in f["edges"]},
        "n": tension[at],
        "v_x": shear[at][0],
        "v_y": shear[at][1],
        **dict.fromkeys(("m_x", "m_y", "m_z"), 0.0),
    }


def edge_rows(f, v, side):
    """17.7.2 at one edge for anchors that no plate joins.

    Each carries its own shear, and of the anchors nearer to the edge and within 3 c_a1 along it what the lever brings
    to it: those of its row on both sides share a shear, or the nearest takes all of it.
    """
    axis, sign = (0 if side[0] == "x" else 1), (-1.0 if side.endswith("minus") else 1.0)
    both = {i: (max(sign * own[axis], 0.0), abs(own[1 - axis])) for i, own in enumerate(v)}
    outward = {i: each for i, each in both.items() if each[0] > 0.0}
    place = [anchor[1 - axis] for anchor in f["anchors"]]
    families = [outward]
    if len(outward) < len(both):
        families.append({i: (0.0, each[1]) for i, each in both.items()})
    slid = []
    for family in reversed(families):
        rows = rows_from_edge({i: to_edge(f, i, side) for i in family}, apart=0.25)
        for k, row in enumerate(rows):
            limit = 3.0 * min(to_edge(f, i, side) for i in row)
            carried = {i: family[i] for i in row}
            for source in (i for nearer in rows[:k] for i in nearer):
                takers = [i for i in row if abs(place[i] - place[source]) < limit]
                if not takers:
                    continue
                for i, brought in handed_on(takers, {source: family[source]}, place).items():
                    carried[i] = tuple(own + more for own, more in zip(carried[i], brought, strict=True))
            loads = {i: sum(own) for i, own in carried.items()}
            for each in sets_of(row, lambda i, j, limit=limit: abs(place[i] - place[j]) < limit, loads=loads):
                made = edge_row(f, each, carried, place, side, slid if family is outward else ())
                yield made
                if family is not outward:
                    slid.append(made)


def expected_rows(f, tension, shear):
    found = tension_rows(f, tension) | shear_rows(f, shear)
    sides = [side for side in SIDES if f["edges"][side] < np.inf]
    return found | {"concrete_breakout_shear": [row for side in sides for row in edge_rows(f, shear, side)]}


@pytest.fixture(scope="module")
def jobs():
    return list(members(7))[:COUNT]


@pytest.fixture(scope="module")
def verdicts(jobs):
    singles = [alone(f, at, tension, shear) for f, tension, shear in jobs for at in range(len(f["anchors"]))]
    size = [len(f["anchors"]) for f, _, _ in jobs]
    member = np.repeat(np.arange(len(jobs)), size)
    first = np.cumsum(size) - size
    pairs = [
        (start + i, start + j) for start, n in zip(first, size, strict=True) for i in range(n) for j in range(i + 1, n)
    ]
    a, b = np.array(pairs).T
    places = np.array([place for f, _, _ in jobs for place in f["anchors"]])
    none = np.zeros(len(singles), dtype=np.bool_)
    sites = Sites(
        x=places[:, 0] + 1000.0 * member,
        y=places[:, 1].copy(),
        family=member,
        a=a,
        b=b,
        crowded=none,
        disputed=none,
        level=np.full(len(singles), -1),
        same=np.full(len(singles), -1),
    )
    batch = packed(singles)
    object.__setattr__(batch, "sites", sites)
    assert len(column(singles, "n")) == batch.count
    return check(batch, FACTORED_LOADS)


def test_every_point_is_as_good_as_the_worst_of_its_sets(jobs, verdicts):
    modes = {mode.mode.value.code: mode for mode in verdicts.modes if mode.mode.link is not Link.ROD}
    assert (verdicts.refusal < 0).all()
    compared, raised, start = Counter(), 0, 0
    for f, tension, shear in jobs:
        expected = expected_rows(f, tension, shear)
        for code in (*TENSION, *SHEAR):
            for at in range(len(f["anchors"])):
                holding = [row["utilisation"] for row in expected.get(code, []) if at in row["anchors"]]
                mode = modes[code]
                found = mode.utilisation[start + at] if mode.applies[start + at] else 0.0
                assert found == pytest.approx(max(holding, default=0.0), rel=1e-9, abs=1e-12), (code, f, at)
                compared[code] += bool(holding)
        start += len(f["anchors"])
    raised = np.count_nonzero(verdicts.utilisation > verdicts.neighbours.alone.utilisation * (1 + 1e-9))
    assert all(compared[code] > 50 for code in (*TENSION, *SHEAR)), compared
    assert raised > 200
    assert (verdicts.utilisation >= verdicts.neighbours.alone.utilisation * (1 - 1e-9)).all()
