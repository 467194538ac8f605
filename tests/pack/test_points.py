"""Items to columns: every place of an item lands in its own column, in the core unit, with the defaults behind it.

Each place gets a number of its own, so that two exchanged places can't pass. Expected numbers are those of the item,
converted by 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, g = 9.80665 m/s2 (NIST SP 811, from memory).
"""

import math

import numpy as np
import pytest

from api.bodies import change
from hangpoint.core.hang_point.points import NO_OPTION, NON_YIELDING, OVERSTRENGTH
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.points import pack_points
from hangpoint.product.catalogue import load_catalogue

CATALOGUE = load_catalogue()
MM, M = 1 / 25.4, 1 / 0.3048
KN = 1000 / (0.45359237 * 9.80665)
MPA = 1e6 * 0.0254**2 / (0.45359237 * 9.80665)
KG_M3 = 0.3048**3 / 0.45359237

PIPE = {
    "id": "a",
    "hangs": {
        "kind": "pipe",
        "material": "steel",
        "size": "4",
        "schedule": "40",
        "contents": "ethylene_glycol_30",
        "sprinkler": False,
        "insulation": {"thickness": 31.0, "density": 73.0},
        "allowance": 0.17,
        "run": {
            "spans": [3.1, 2.3, 4.7],
            "support": 2,
            "model": "tributary",
            "missing_support": 1,
            "spacing_rule": "sp58_water",
            "point_loads": [
                {"at": 1.9, "weight": 0.23, "nature": "live"},
                {"at": 7.7, "weight": 0.41},
            ],
        },
    },
    "rod": {"size": "1/2", "material": "a36", "f_u": 411.0, "rule": "tensile_strength"},
    "anchor": {"family": "undercut-stainless-metric", "size": "M10", "h_ef": 80},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 29.0},
        "density": "sand_lightweight",
        "lambda": 0.83,
        "state": "uncracked",
        "state_decided_by": "engineer",
        "thickness": 211.0,
        "edges": {"x_minus": 301.0, "x_plus": 303.0, "y_minus": "none", "y_plus": 307.0},
        "supplementary": True,
        "face": "side",
    },
    "seismic": {"category": "E"},
}
WEIGHT = {
    "id": "b",
    "hangs": {"kind": "weight", "weight": 1.7, "nature": "contents"},
    "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": "4 in"},
    "base": {
        "kind": "concrete",
        "density": "normalweight",
        "thickness": 190.0,
        "edges": {"x_minus": 53.0, "x_plus": "none", "y_minus": "5 in", "y_plus": "none"},
    },
    "seismic": {"category": "A"},
}
FORCES = WEIGHT | {
    "id": "c",
    "hangs": {
        "kind": "forces",
        "components": [
            {"nature": "dead", "tension": 1.1},
            {"nature": "contents", "tension": 1.3},
            {"nature": "live", "tension": 1.9},
            {"nature": "dead", "tension": -0.3, "shear_x": 0.6},
            {"nature": "live", "shear_x": -0.4, "shear_y": 0.9},
            {"nature": "dead", "shear_x": 0.1},
        ],
    },
}
SHEARED = WEIGHT | {
    "id": "d",
    "hangs": {"kind": "forces", "components": [{"nature": "snow", "tension": 1.0, "shear_y": -0.2}]},
}


def pack(*items, default=None, system="si", factored=False, flaws=None):
    found = Flaws() if flaws is None else flaws
    packed = pack_points(
        items,
        default=default or {},
        index=range(len(items)),
        system=system,
        catalogue=CATALOGUE,
        factored=factored,
        flaws=found,
    )
    assert flaws is not None or not found.by_row, found.by_row
    return packed


def close(column, *expected):
    np.testing.assert_allclose(np.asarray(column, dtype=float), np.array(expected), rtol=1e-12, atol=0)


@pytest.fixture(scope="module")
def points():
    return pack(WEIGHT, PIPE, FORCES, SHEARED).points


def test_loads(points):
    hangs = points.hangs
    close(hangs.dead, 0, 0, 0.8 * KN, 0)
    close(hangs.contents, 1.7 * KN, 0, 1.3 * KN, 0)
    close(hangs.live, 0, 0, 1.9 * KN, 0)
    close(hangs.v_dead, [0, 0], [0, 0], [0.7 * KN, 0], [0, 0])
    close(hangs.v_live, [0, 0], [0, 0], [-0.4 * KN, 0.9 * KN], [0, 0])
    assert not hangs.v_contents.any()
    assert len(points.given.point) == 0
    assert points.given_names == ("as given",)
    assert np.argwhere(hangs.transient).tolist() == [[3, 0, 1], [3, 2, 1]]
    close(hangs.transient[3, :, 1], 1 * KN, 0, -0.2 * KN, 0, 0, 0)
    assert not hangs.sprinkler.any()


def test_runs(points):
    """Outside diameter 4.500 in and wall 0.237 in of 4 in schedule 40 (ASME B36.10M, from memory)."""
    runs = points.runs
    assert runs.point.tolist() == [1]
    close(runs.d_o, 4.5)
    close(runs.t, 0.237)
    close(runs.nominal, 4)
    close(runs.t_ins, 31 * MM)
    close(runs.rho_ins, 73 * KG_M3)
    close(runs.allowance, 0.17)
    close(runs.spans[0], 3.1 * M, 2.3 * M, 4.7 * M)
    assert (runs.span_count.tolist(), runs.support.tolist(), runs.missing.tolist()) == ([3], [2], [1])
    loads = points.loads
    assert loads.run.tolist() == [0, 0]
    close(loads.position, 1.9 * M, 7.7 * M)
    close(loads.weight, 0.23 * KN, 0.41 * KN)
    assert loads.live.tolist() == [True, False]


def test_bases(points):
    base = points.bases
    close(base.f_c, 2500, 29 * MPA, 2500, 2500)
    close(base.lambda_c, 1, 0.83, 1, 1)
    close(base.thickness, 190 * MM, 211 * MM, 190 * MM, 190 * MM)
    close(base.c_a[1], 301 * MM, 303 * MM, math.inf, 307 * MM)
    close(base.c_a[0], 53 * MM, math.inf, 5, math.inf)
    assert base.cracked.tolist() == [True, False, True, True]
    assert base.lightweight.tolist() == [False, True, False, False]
    assert base.supplementary.tolist() == [False, True, False, False]
    assert base.face.tolist() == [0, 1, 0, 0]
    assert base.category.tolist() == [0, 4, 0, 0]


def test_rods(points):
    """1/2 in coarse thread: 13 threads an inch (ASME B1.1, from memory)."""
    close(points.rods.d[1:2], 0.5)
    close(points.rods.pitch[1:2], 1 / 13)
    close(points.rods.f_u[1:2], 411 * MPA)
    assert (points.rods.rule >= 0).tolist() == [False, True, False, False]


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, True),
        ({"rod": None}, False),
        ({"hangs": WEIGHT["hangs"]}, False),
        ({"hangs": PIPE["hangs"] | {"sprinkler": True}}, False),
    ],
)
def test_a_rod_by_the_size_of_the_pipe_is_not_looked_at(changes, told):
    """But for sprinkler lines, which have the table of their standard."""
    item = {name: own for name, own in (PIPE | changes).items() if own is not None}
    flaws = Flaws()
    packed = pack(item, flaws=flaws)
    assert not flaws.by_row, flaws.by_row
    (left_out,) = every(packed.not_checked)
    assert (NotChecked.ROD_SIZE.value.code in left_out) is told


def test_products(points):
    close(points.products.h_ef, 4, 80 * MM, 4, 4)
    close(points.products.s_min_code[0], 4 * 0.5)


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (3, 2, 1, 0), (1, 3, 0, 2)])
def test_the_order_of_items_is_that_of_columns(points, order):
    items = [WEIGHT, PIPE, FORCES, SHEARED]
    moved = pack(*(items[at] for at in order)).points
    for name in ("dead", "contents", "live", "v_dead", "v_live"):
        assert getattr(moved.hangs, name).tolist() == getattr(points.hangs, name)[list(order)].tolist()
    assert moved.bases.c_a.tolist() == points.bases.c_a[list(order)].tolist()
    assert moved.products.h_ef.tolist() == points.products.h_ef[list(order)].tolist()
    assert moved.runs.point.tolist() == [order.index(1)]


def test_defaults_stand_behind_each_key():
    bare = {"id": "x", "base": {"kind": "concrete", "edges": {"x_plus": 71.0}}}
    packed = pack(bare, PIPE, default={name: value for name, value in PIPE.items() if name != "id"}).points
    close(packed.bases.c_a[0], 301 * MM, 71 * MM, math.inf, 307 * MM)
    close(packed.runs.spans[0], *packed.runs.spans[1])
    assert packed.runs.point.tolist() == [0, 1]
    assert packed.bases.category.tolist() == [4, 4]


def test_a_factored_load_has_its_shares():
    hangs = FORCES["hangs"] | {"sustained_fraction": 0.7, "earthquake_fraction": 0.2}
    packed = pack(FORCES | {"hangs": hangs}, FORCES, factored=True).points
    close(packed.given.n, 3.2 * KN, 4 * KN)
    close(packed.given.n_e, 0.8 * KN, 0)
    close(packed.given.sustained_fraction, 0.7, 1)
    close(packed.hangs.dead, 0, 0)


def every(flags):
    return [flags.codes(bits) for bits in flags.of_points()]


def test_earthquake_in_tension_and_in_shear():
    """By nature: 3 of 4 kN of tension; of the shear the earthquake part is (0, 5), the rest (12, 0)."""
    components = [
        {"nature": "earthquake", "tension": 3.0, "shear_y": 5.0},
        {"nature": "dead", "tension": 1.0, "shear_x": 12.0},
    ]
    given = pack(FORCES | {"hangs": {"kind": "forces", "components": components}}, factored=True).points.given
    close(given.n, KN)
    close(given.n_e, 3 * KN)
    close(given.v, [12 * KN, 0])
    close(given.v_e, [0, 5 * KN])
    stated = {"kind": "forces", "components": [{"nature": "dead", "tension": 1.0, "shear_x": 1.0}]}
    both = pack(FORCES | {"hangs": stated | {"earthquake_fraction": 0.3}}, factored=True).points.given
    close(both.n_e, 0.3 * KN)
    close(both.v_e, [0.3 * KN, 0])


def test_fixings():
    item = WEIGHT | {
        "attachment": {"welded": True, "thickness": "1/2 in", "grout_pad": True, "gap": 5.0},
        "seismic": {
            "category": "D",
            "tension_option": "overstrength",
            "shear_option": "non_yielding_attachment",
            "stretch_length": 254.0,
            "upset_threads": True,
        },
        "options": {"oblique_shear": "linear", "interaction": "power_5_3", "group_area": "rectangle"},
    }
    fixings = pack(item, WEIGHT).points.fixings
    assert fixings.welded.tolist() == fixings.grout_pad.tolist() == fixings.upset_threads.tolist() == [True, False]
    close(fixings.thickness, 0.5, 0)
    close(fixings.gap, 5 / 25.4, 0)
    close(fixings.stretch_length, 10, 0)
    assert fixings.tension_option.tolist() == [OVERSTRENGTH, NO_OPTION]
    assert fixings.shear_option.tolist() == [NON_YIELDING, NO_OPTION]
    assert fixings.oblique.tolist() == [2, 0]
    assert fixings.power.tolist() == fixings.bounding.tolist() == [True, False]


def test_reinforcement():
    bars = {"tension": {"area": "0.88 in2", "f_y": "60 ksi"}, "shear": {"area": 200.0, "f_y": 420.0}}
    base = WEIGHT["base"] | {"edge_reinforcement": "edge_bar_and_stirrups", "anchor_reinforcement": bars}
    bases = pack(WEIGHT | {"base": base}, WEIGHT).points.bases
    close(bases.a_s_n, 0.88, 0)
    close(bases.f_y_n, 60_000, 0)
    close(bases.a_s_v, 200 / 645.16, 0)
    close(bases.f_y_v, 420 * MPA, 0)
    assert bases.edge_reinforcement.tolist() == [2, 0]


def test_shear_is_assumed_to_come_without_gap():
    sheared = {"kind": "forces", "components": [{"nature": "dead", "tension": 1.0, "shear_x": 1.0, "shear_y": 1.0}]}
    item = WEIGHT | {"hangs": sheared}
    (codes,) = every(pack(item).assumptions)
    assert {"flush-attachment-assumed", "oblique-shear-as-vector", "no-edge-reinforcement-assumed"} <= set(codes)
    stated = item | {"attachment": {"grout_pad": False}, "options": {"oblique_shear": "vector"}}
    stated |= {"base": WEIGHT["base"] | {"edge_reinforcement": "none"}}
    (codes,) = every(pack(stated).assumptions)
    assert not {"flush-attachment-assumed", "oblique-shear-as-vector", "no-edge-reinforcement-assumed"} & set(codes)


@pytest.mark.parametrize(
    ("attachment", "told"),
    [
        ({"thickness": 1.0}, True),
        ({"survives_loss": True}, True),
        ({"gap": 0.5}, False),
        ({"grout_pad": True}, False),
        ({"welded": True, "thickness": 1.0}, False),
        ({"plate": {"width_x": 4.0, "width_y": 4.0}}, False),  # what it bears on is an assumption of its own
    ],
)
def test_what_is_said_of_an_attachment_may_leave_its_gap_open(attachment, told):
    sheared = {"kind": "forces", "components": [{"nature": "dead", "tension": 1.0, "shear_x": 1.0}]}
    (codes,) = every(pack(WEIGHT | {"hangs": sheared, "attachment": attachment}).assumptions)
    assert ("flush-attachment-assumed" in codes) is told


@pytest.mark.parametrize(
    ("state", "edges", "told"),
    [
        ("cracked", ("x_minus", "y_plus"), True),
        ("cracked", ("x_plus",), False),
        ("uncracked", ("x_plus", "y_plus"), False),
    ],
)
def test_reinforcement_along_one_edge_is_taken_at_all(state, edges, told):
    """psi_c,V of 1.2 and 1.4 in cracked concrete goes by the bars of the edge that breaks; one word says all."""
    sheared = {"kind": "forces", "components": [{"nature": "dead", "tension": 1.0, "shear_x": 1.0}]}
    around = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none") | dict.fromkeys(edges, 30.0)
    base = WEIGHT["base"] | {"edge_reinforcement": "edge_bar", "state": state, "state_decided_by": "A", "edges": around}
    if state == "cracked":
        del base["state_decided_by"]
    (codes,) = every(pack(WEIGHT | {"hangs": sheared, "base": base}).assumptions)
    assert ("edge-reinforcement-at-every-edge" in codes) is told


def test_an_empty_pipe_is_not_tested_unless_it_is_said():
    empty = PIPE | {"hangs": PIPE["hangs"] | {"contents": "empty"}}
    for hangs, told in (({}, True), ({"hydrotest": True}, False), ({"contents": "water"}, False)):
        (codes,) = every(pack(empty | {"hangs": empty["hangs"] | hangs}).assumptions)
        assert ("empty-pipe-not-tested" in codes) == told


@pytest.mark.parametrize(
    ("pipe", "told"),
    [
        ({"material": "ductile_iron", "size": "6", "schedule": "CL52", "allowance": 0}, True),
        ({"material": "ductile_iron", "size": "6", "schedule": "CL52", "allowance": 0.1}, False),
        ({"material": "pvc", "size": "18", "allowance": 0}, True),
        ({"material": "pvc", "size": "18", "schedule": None, "wall": "0.6 in", "allowance": 0}, False),
        ({"material": "pvc", "size": "16", "allowance": 0}, False),
        ({"allowance": 0}, False),
    ],
)
def test_a_pipe_that_is_weighed_short_says_so(pipe, told):
    hangs = {name: value for name, value in (PIPE["hangs"] | pipe).items() if value is not None}
    (codes,) = every(pack(PIPE | {"hangs": hangs}).assumptions)
    assert ("pipe-weight-short" in codes) == told


def test_what_was_assumed_is_flagged_where_it_was():
    packed = pack(WEIGHT, PIPE)
    first, second = every(packed.assumptions)
    assert set(first) == {
        "cracked-assumed",
        "no-supplementary-reinforcement-assumed",
        "overhead-assumed",
        "f-c-assumed",
        "single-anchor-assumed",
        "contents-factored-as-dead",
        "not-post-tensioned-assumed",
        "dry-indoors-assumed",
    }
    assert list(second) == [
        "single-anchor-assumed",
        "straight-run-assumed",
        "point-load-dead-assumed",
        "contents-factored-as-dead",
        "f-c-ref-assumed",
        "lambda-on-pullout",
        "pullout-by-seismic-tests",
        "not-post-tensioned-assumed",
        "dry-indoors-assumed",
    ]
    left_out, other = every(packed.not_checked)
    assert NotChecked.ROD.value.code in left_out
    assert NotChecked.ROD.value.code not in other
    assert NotChecked.LOSS_OF_SUPPORT.value.code not in other


def test_a_flaw_of_one_item_leaves_the_columns_of_the_others(points):
    flaws = Flaws()
    bad = PIPE | {"anchor": {"family": "none-such", "size": "M10", "h_ef": 80}, "rod": {"size": "9/16"}}
    packed = pack(WEIGHT, bad, FORCES, flaws=flaws)
    assert set(flaws.by_row) == {1}
    assert [(flaw.path, flaw.slug) for flaw in flaws.by_row[1]] == [
        ("anchor/family", "unknown-product"),
        ("rod/size", "unknown-option"),
    ]
    assert packed.points.bases.c_a[0].tolist() == points.bases.c_a[0].tolist()


@pytest.mark.parametrize(
    ("place", "value"),
    [
        ("hangs.insulation.thickness", "1e6 m"),
        ("hangs.run.spans", [1.0, "1e6 m"]),
        ("hangs.run.point_loads", [{"at": "9000 m", "weight": 1.0}]),
        ("rod.f_u", "1e6 ksi"),
        ("base.strength.f_c", "0 psi"),
        ("base.thickness", "1e5 m"),
        ("base.edges.x_plus", "0 in"),
        ("anchor.layout", [{"x": "1e4 m", "y": 0.0}]),
    ],
)
def test_a_value_out_of_range_is_a_flaw_of_its_place(place, value):
    flaws = Flaws()
    pack(change(PIPE, {place: value}), flaws=flaws)
    first = flaws.by_row[0][0]
    assert first.slug == "quantity"
    assert first.path.startswith(place.replace(".", "/"))


def test_flags():
    flags = Flags(Assumption, 4)
    flags.set(Assumption.F_C, [True, False, True, False])
    flags.set(Assumption.OVERHEAD, [True], rows=[2])
    flags.set(Assumption.SINGLE_ANCHOR)
    own = Assumption.SINGLE_ANCHOR.value.code
    codes = every(flags)
    assert [set(each) - {own} for each in codes] == [
        {"f-c-assumed"},
        set(),
        {"f-c-assumed", "overhead-assumed"},
        set(),
    ]
    assert all(own in each for each in codes)
