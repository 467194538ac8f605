"""Findings beside the numbers: violations fail the point, the others don't."""

import math

import numpy as np
import pytest

from core.builders import ADHESIVE_ROD, FACTORED_LOADS, HEADED_BOLT, IN_FLUTE, INF, RUN, rod
from core.hang_point.verdicts import (
    SPRINKLER_LINE,
    checked,
    found_on,
    refusal_of,
    value_of,
)
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.en1992_4.fire import class_of
from hangpoint.core.hang_point.allowables import MASONRY_BOLT
from hangpoint.core.hang_point.points import DUCTILE_STEEL, NON_YIELDING, OVERSTRENGTH, PIPE, SIDE, TOP, YIELDING, Basis
from hangpoint.core.hang_point.surroundings import (
    ALUMINIUM_METAL,
    BEAM,
    CARBON_METAL,
    CARBON_STEEL,
    CHLORIDES,
    COPPER_METAL,
    DAMP,
    DECK,
    DRY,
    FOOD,
    GALVANISED_METAL,
    HIGH_ALLOY,
    HOT_DIP,
    JOIST,
    NO_COATING,
    NOT_TENSIONED,
    OUTDOOR,
    POOL,
    SILENT,
    STAINLESS_304,
    STAINLESS_316,
    STAINLESS_METAL,
    TENSIONED,
    TREATED_WOOD,
    ZINC,
    ZINC_MECHANICAL,
)
from hangpoint.core.hanger.spacing import RULE_NAMES
from hangpoint.core.vocabulary import Finding, Severity

HOOK = HEADED_BOLT | {"pullout_method": HOOKED, "d_a": 0.5, "a_brg": 0.0}
SCREW = {"screw": True, "d_a": 0.5, "thickness_tested": True, "h_min": 3.0}
PULLED = {"dead": 10.0}
SHEARED = {"dead": 10.0, "v_dead": (10.0, 0.0)}
PLATE = {"stated": True, "x0": -4.0, "x1": 4.0, "y0": -4.0, "y1": 4.0, "contact": True}
HUNG = {"position": 5.0, "weight": 60.0}
B31_1, SP_58, VAPOUR = (RULE_NAMES.index(name) for name in ("b31_1_water", "sp58_water", "sp58_vapour"))
WELDED_BOLT = {"hangs": SHEARED, "products": HEADED_BOLT}
ROW_AT_EDGE = {"hangs": SHEARED, "bases": {"c_a": [[5.0, INF, INF, INF]] * 2}}
QUAKE = {"factored": 10.0, "v_factored": (10.0, 0.0), "earthquake_fraction": 0.5, "sustained_fraction": 0.0}


def pair(spacing):
    """Two anchors along x, the origin between them."""
    return [{"x": -spacing / 2}, {"x": spacing / 2}]


def shaken(*, products=None, category=3, tension=DUCTILE_STEEL, stretch=5.0, quake=None, shear=OVERSTRENGTH):
    """A headed bolt 5/8 in with half of its tension from earthquake; by default option (a) holds.

    N_sa .226 x 58,000 = 13,108 lb, 1.2 N_sa 15,729.6; N_pn 8 x .671 x 4,000 = 21,472; N_cb 24 sqrt(4,000) 6^1.5 =
    22,308; 8 d_a = 5 in; f_uta / f_ya 1.61.
    """
    return {
        "basis": FACTORED_LOADS,
        "hangs": QUAKE | (quake or {}),
        "bases": {"category": category},
        "products": HEADED_BOLT | (products or {}),
        "fixings": {"tension_option": tension, "stretch_length": stretch, "shear_option": shear},
    }


def in_flute(**changed):
    """In the flute of a deck, at every limit of the tests but for what is changed."""
    return {"decks": IN_FLUTE | changed, "surroundings": {"kind": DECK}}


def living(exposure, **changed):
    """A zinc plated anchor in an exposure, but for what is changed."""
    return {"environments": {"exposure": exposure} | changed}


def lacking(*, x=9.7, shear=0.0):
    """Two points, 3 h_ef = 9.75 in; one has a case that the other lacks, which has a shear in a case of its own."""
    return {
        "basis": FACTORED_LOADS,
        "sites": {"x": [0.0, x]},
        "given": {
            "point": [0, 0, 1, 1],
            "name": [0, 1, 0, 2],
            "n": [20.0, 10.0, 20.0, 10.0],
            "v": [(0.0, 0.0), (0.0, 0.0), (0.0, 0.0), (shear, 0.0)],
        },
        "given_names": ("gravity", "wind", "storm"),
    }


def apart(live):
    """A live load that is there without the one against it; breakout .65 x 17 sqrt(4,000) 3.25^1.5 = 4,094.66 lb."""
    return {"apart": [{"live": (live, 0.0, 0.0, 0.0, 0.0, 0.0)}]}


def at_angles(force, turned=-0.9):
    """Two headed bolts 5/8 in, 6 in from an edge and 5 in apart along it, with earthquake along and towards it.

    Both towards it have .70 x 7 x 8^.2 sqrt(.625) x sqrt(4,000) 6^1.5 x (5 + 18) x 9 / 162 = 6,973.75 lb, and along it
    twice that: hypot(1.8, 1) / 6,973.75 of the force along it.
    """
    quake = [(0.0, force, toward * force, 0.0, 0.0, 0.0) for toward in (0.9, turned)]
    return {
        "hangs": {"dead": 10.0, "earthquake": quake},
        "sites": {"x": [0.0, 5.0]},
        "bases": {"c_a": [[INF, INF, INF, 6.0]] * 2},
        "products": HEADED_BOLT,
    }


def filled(contents, y=12.0):
    """Two headed bolts 5/8 in, 6 in deep, 12 in apart along x and y, in concrete of 3,000 psi, that may be empty."""
    return {
        "hangs": {"dead": 10.0, "contents": contents},
        "sites": {"x": [0.0, 12.0], "y": [0.0, y]},
        "bases": {"f_c": 3_000.0},
        "products": HEADED_BOLT,
    }


def eccentric(contents):
    """Use of both, one of them empty: A_Nc 2 x 18 x 18 - 6 x 6 in2, 6 in from the middle on both axes (17.6.2.3.1)."""
    one, other = 1.4 * (10.0 + contents), 14.0
    off = 6.0 * (one - other) / (one + other)
    n_cbg = 0.70 * 612 / 324 * 24 * math.sqrt(3_000) * 6**1.5 / (1 + off / 9) ** 2
    return (one + other) / n_cbg


def filled_row(count):
    """Headed bolts 5 in apart that may be empty."""
    return {
        "hangs": {"contents": [10.0] * count},
        "sites": {"x": [5.0 * place for place in range(count)]},
        "products": HEADED_BOLT,
    }


def shaken_row(count):
    """Headed bolts 5 in apart with earthquake along their row."""
    return {
        "hangs": {"dead": 10.0, "earthquake": [(0.0, 100.0, 0.0, 0.0, 0.0, 0.0)] * count},
        "sites": {"x": [5.0 * place for place in range(count)]},
        "products": HEADED_BOLT,
    }


BOLT_IN_MASONRY = {"allowables": {"method": MASONRY_BOLT}}

BY_EN = Basis(factored=False, allowable=False, load_standard="en1990")
EN = {"fasteners": {}, "products": {"c_min": 0.1, "s_min": 0.1, "european": True}}
"""A point by EN 1992-4, far from the least distances of its product."""


def fastened(**changed):
    """The same with other figures, in one batch with what `fastened_at` says of its place."""
    return EN | {"fasteners": changed}


def fastened_at(c_a=INF, *, layouts=({"x": 0.0},), **hangs):
    """Fasteners at one edge."""
    return EN | {"hangs": {"dead": 10.0} | hangs, "bases": {"c_a": [[c_a, INF, INF, INF]]}, "layouts": layouts}


SHAKEN = {"dead": 10.0, "earthquake": (10.0, 10.0, 0, 0, 0, 0)}


def quaking(hangs=SHAKEN, **changed):
    """The same with earthquake."""
    return fastened(**changed) | {"basis": BY_EN, "hangs": hangs}


def row_along_edge(count):
    return [{"y": 8.0 * (place - (count - 1) / 2)} for place in range(count)]


def in_fire(hours=1.0, **tables):
    """A point by EN 1992-4 that is to withstand a fire."""
    minutes = float(class_of(np.array(hours)))
    return EN | {"basis": BY_EN, "fires": {"minutes": minutes, "hours": hours}} | tables


def beside_fire(hours):
    """Two near points, the second with such a fire rating."""
    each = np.array([0.0, hours])
    return in_fire(fires={"minutes": class_of(each), "hours": each}) | {"sites": {"x": [0.0, 4.0]}}


VIOLATIONS = {
    Finding.FASTENER_FIRE_EDGE: (  # 300 mm
        in_fire(bases={"c_a": [[11.81, INF, INF, INF]]}),
        in_fire(bases={"c_a": [[11.82, INF, INF, INF]]}),
        (11.81, 300 / 25.4),
    ),
    Finding.FASTENER_EDGE: (
        {"fasteners": {}, "bases": {"c_a": [[2.74, INF, INF, INF]]}},
        {"fasteners": {}, "bases": {"c_a": [[2.75, INF, INF, INF]]}},
        (2.74, 2.75),
    ),
    Finding.FASTENER_SPACING: (
        {"fasteners": {}, "products": {"s_min": 3.0}, "layouts": pair(2.99)},
        {"fasteners": {}, "products": {"s_min": 3.0}, "layouts": pair(3.0)},
        (2.99, 3.0),
    ),
    Finding.FASTENER_THICKNESS: (
        {"fasteners": {}, "bases": {"thickness": 5.99}},
        {"fasteners": {}, "bases": {"thickness": 6.0}},
        (5.99, 6.0),
    ),
    Finding.FASTENER_EMBEDMENT: (  # 40 mm
        {"fasteners": {}, "products": {"h_ef": 1.574}},
        {"fasteners": {}, "products": {"h_ef": 1.575}},
        (1.574, 40 / 25.4),
    ),
    Finding.FASTENER_STEEL: (  # 1 N/mm2 is 145.0377 psi
        fastened(f_uk=1_000.5),
        fastened(f_uk=1_000.0),
        (1_000.5 * 145.0377377, 145_037.7377),
    ),
    Finding.FASTENER_ROW_SPACING: (  # 4 x 12.7 mm = 2 in
        fastened_at(8.0, layouts=[{"y": -0.995}, {"y": 0.995}], v_dead=(-10.0, 0.0)),
        fastened_at(8.0, layouts=[{"y": -1.0}, {"y": 1.0}], v_dead=(-10.0, 0.0)),
        (1.99, 2.0),
    ),
    Finding.FASTENER_GROUP_AT_EDGE: (  # 10 x 82.55 mm = 32.5 in
        fastened_at(32.49, layouts=row_along_edge(5), v_dead=(-10.0, 0.0)),
        fastened_at(32.49, layouts=row_along_edge(4), v_dead=(-10.0, 0.0)),
        (0.0, 0.0),
    ),
    Finding.FASTENER_CATEGORY_WEAK: (quaking(table_category=1), quaking(table_category=0), (0.0, 0.0)),
    Finding.FASTENER_PLATE_CRUSHES: (  # 3 x 4,000 / 1.5 x 64 in2 = 512,000 lb; 1.35G
        EN | {"basis": BY_EN, "plates": PLATE, "hangs": {"dead": -379_260.0}},
        EN | {"basis": BY_EN, "plates": PLATE, "hangs": {"dead": -379_259.0}},
        (1.35 * 379_260.0, 512_000.0),
    ),
    Finding.EARTHQUAKE_OTHER_SENSE: (
        at_angles(3400.0),
        at_angles(3380.0),
        (3400 * math.hypot(1.8, 1) / 6973.75, 1.0),
    ),
    Finding.LOADS_IN_PATTERN: (filled(6_700.0), filled(6_400.0), (eccentric(6_700.0), 1.0)),
    Finding.NATURE_APART: (apart(2600.0), apart(2500.0), ((1.2 * 10 + 1.6 * 2600) / 4094.655, 1.0)),
    Finding.NATURE_APART_UNSOUND: (apart(-7.6), apart(-7.4), (0.0, 0.0)),  # 1.2 x 10 / 1.6 = 7.5
    Finding.DECK_FLUTE_NARROW: (in_flute(width=4.49), in_flute(), (4.49, 4.5)),
    Finding.DECK_OFFSET: (in_flute(offset=1.01), in_flute(), (1.01, 1.0)),
    Finding.DECK_COVER: (in_flute(cover=3.24), in_flute(), (3.24, 3.25)),
    Finding.DECK_SHEET: (in_flute(sheet=0.0358), in_flute(), (0.0358, 0.0359)),
    Finding.DRILLED_TO_TENDON: (
        {"surroundings": {"drilled": 4.0, "tendon_depth": 4.0}},
        {"surroundings": {"drilled": 4.0, "tendon_depth": 4.01}},
        (4.0, 4.0),
    ),
    Finding.STRUCTURAL_LIMIT: (
        {"hangs": {"dead": 4.0, "contents": 3.0, "live": 3.0}, "surroundings": {"point_limit": 9.9}},
        {"hangs": {"dead": 4.0, "contents": 3.0, "live": 3.0}, "surroundings": {"point_limit": 10.0}},
        (10.0, 9.9),
    ),
    Finding.EXPOSURE_CORROSION: (living(DAMP), living(DAMP, coating=HOT_DIP), (0.0, 0.0)),
    Finding.GALVANIC_COUPLE: (
        living(OUTDOOR, coating=HOT_DIP, rod=STAINLESS_METAL),
        living(OUTDOOR, coating=HOT_DIP, rod=GALVANISED_METAL),
        (0.0, 0.0),
    ),
    Finding.EDGE_BELOW_MINIMUM: (
        {"bases": {"c_a": [[2.74, INF, INF, INF]]}},
        {"bases": {"c_a": [[2.75, INF, INF, INF]]}},
        (2.74, 2.75),
    ),
    Finding.EDGE_BELOW_CODE: (  # 8 x 1/2 in, Table 17.9.2(b) for torque-controlled anchors
        {"products": {"c_min": 0.5, "c_min_code": 4.0}, "bases": {"c_a": [[3.99, INF, INF, INF]]}},
        {"products": {"c_min": 0.5, "c_min_code": 4.0}, "bases": {"c_a": [[4.0, INF, INF, INF]]}},
        (3.99, 4.0),
    ),
    Finding.THICKNESS_BELOW_MINIMUM: (
        {"bases": {"thickness": 5.9}},
        {"bases": {"thickness": 6.0}},
        (5.9, 6.0),
    ),
    Finding.EMBEDMENT_TOO_DEEP: (  # max(2/3 x 6, 6 - 4) = 4 in
        {"bases": {"thickness": 6.0}, "products": {"h_ef": 4.01}},
        {"bases": {"thickness": 6.0}, "products": {"h_ef": 3.99}},
        (4.01, 4.0),
    ),
    Finding.SCREW_EMBEDMENT: (  # 5 x 0.5 = 2.5 to 10 x 0.5 = 5 in
        {"products": SCREW | {"h_ef": 2.49}},
        {"products": SCREW | {"h_ef": 2.5}},
        (2.49, 2.5),
    ),
    Finding.HOOK_LENGTH: (  # 3 x 0.5 = 1.5 to 4.5 x 0.5 = 2.25 in
        {"products": HOOK | {"e_h": 2.26}},
        {"products": HOOK | {"e_h": 2.25}},
        (2.26, 2.25),
    ),
    Finding.SPACING_EXCEEDED: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_limit": 11.9}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_limit": 12.0}]},
        (12.0, 11.9),
    ),
    Finding.ROD_BELOW_SIZE_TABLE: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN | {"nominal": 6.0}], "rods": rod("sprinkler_size_table")},
        {"hangs": SPRINKLER_LINE, "runs": [RUN], "rods": rod("sprinkler_size_table")},
        (0.375, 0.5),
    ),
    Finding.ROD_SIZE_NOT_COVERED: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN | {"nominal": 14.0}], "rods": rod("sprinkler_size_table")},
        {"hangs": SPRINKLER_LINE, "runs": [RUN], "rods": rod("sprinkler_size_table")},
        (0.375, 0.0),
    ),
    Finding.ROD_THREAD: (
        {"rods": rod("sp58_allowable"), "products": {"thread_d": 0.5}},
        {"rods": rod("sp58_allowable"), "products": {"thread_d": 0.375}},
        (0.375, 0.5),
    ),
    Finding.SUPPLIED_WITHOUT_SOURCE: (
        {"products": {"invented": False, "has_source": False}},
        {"products": {"invented": False, "has_source": True}},
        (0.0, 0.0),
    ),
    Finding.PIN_ALONE: (
        {"products": {"pin": True}},
        {"products": {"pin": True}, "fixings": {"survives_loss": True}},
        (0.0, 0.0),
    ),
    Finding.CEILING_ONLY: (
        {"products": {"ceiling_only": True}},
        {"products": {"ceiling_only": True}, "fixings": {"ceiling": True}},
        (0.0, 0.0),
    ),
    Finding.ADHESIVE_EMBEDMENT: (  # 20 x 0.5 = 10 in
        {"products": ADHESIVE_ROD | {"h_ef": 10.01, "h_min": 11.0}},
        {"products": ADHESIVE_ROD | {"h_ef": 10.0, "h_min": 11.0}},
        (10.01, 10.0),
    ),
    Finding.SPACING_BELOW_MINIMUM: (
        {"products": {"s_min": 4.0}, "layouts": pair(3.99)},
        {"products": {"s_min": 4.0}, "layouts": pair(4.0)},
        (3.99, 4.0),
    ),
    Finding.SPACING_BELOW_CODE: (  # 6 x 1/2 in, 17.9.2(a) for post-installed anchors
        {"products": {"s_min": 1.0, "s_min_code": 3.0}, "layouts": pair(2.99)},
        {"products": {"s_min": 1.0, "s_min_code": 3.0}, "layouts": pair(3.0)},
        (2.99, 3.0),
    ),
    Finding.NO_EQUILIBRIUM: (  # two anchors along x resist no moment about x
        {"hangs": PULLED | {"m_dead": (5.0, 0.0, 0.0)}, "layouts": pair(8.0)},
        {"hangs": PULLED | {"m_dead": (0.0, 5.0, 0.0)}, "layouts": pair(8.0)},
        (0.0, 0.0),
    ),
    Finding.ANCHOR_PUSHED: (  # 1.4D: 14 / 2 - 1.4 x 80 / 8 = -7 lb; 14 / 2 - 1.4 x 39 / 8 = .175 lb
        {"hangs": PULLED | {"m_dead": (0.0, 80.0, 0.0)}, "layouts": pair(8.0)},
        {"hangs": PULLED | {"m_dead": (0.0, 39.0, 0.0)}, "layouts": pair(8.0)},
        (7.0, 0.0),
    ),
    Finding.PLATE_CRUSHES: (  # 2 x .65 x .85 x 4,000 x 8 x 8 = 282,880 lb (22.8.3.2, from memory); 1.4D
        {"plates": PLATE, "hangs": {"dead": -202_058.0}},
        {"plates": PLATE, "hangs": {"dead": -202_057.0}},
        (282_881.2, 282_880.0),
    ),
    Finding.NEIGHBOUR_BELOW_SPACING: (
        {"products": {"s_min": 4.0}, "sites": {"x": [0.0, 3.99]}},
        {"products": {"s_min": 4.0}, "sites": {"x": [0.0, 4.0]}},
        (3.99, 4.0),
    ),
    Finding.NEIGHBOUR_CASES_DIFFER: (lacking(shear=10.0), lacking(shear=10.0, x=9.8), (0.0, 0.0)),
    Finding.MIXED_AT_EDGE: (  # 3 x 5 = 15 in
        {"sites": {"x": [0.0, 0.0], "y": [0.0, 14.9], "family": [0, 1]}} | ROW_AT_EDGE,
        {"sites": {"x": [0.0, 0.0], "y": [0.0, 15.1], "family": [0, 1]}} | ROW_AT_EDGE,
        (0.0, 0.0),
    ),
    Finding.SEISMIC_STEEL_NOT_GOVERNING: (  # N_cb 24 sqrt(4,000) 4^1.5 = 12,143.2
        shaken(products={"h_ef": 4.0}),
        shaken(products={"h_ef": 5.0}),
        (12_143.2, 15_729.6),
    ),
    Finding.SEISMIC_STRETCH_LENGTH: (shaken(stretch=4.99), shaken(stretch=5.0), (4.99, 5.0)),
    Finding.SEISMIC_NOT_DUCTILE: (shaken(products={"ductile": False}), shaken(), (0.0, 0.0)),
    Finding.SEISMIC_STRENGTH_RATIO: (  # 58 / 50 and 58 / 44.6
        shaken(products={"f_ya": 50_000.0}),
        shaken(products={"f_ya": 44_600.0}),
        (1.16, 1.3),
    ),
    Finding.NEIGHBOUR_BOLTS: (  # twice an l_b of 4 in
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 4.0}, "sites": {"x": [0.0, 7.99]}},
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 4.0}, "sites": {"x": [0.0, 8.0]}},
        (7.99, 8.0),
    ),
    Finding.MASONRY_EMBEDMENT: (  # four diameters of 5/8 in
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 2.49}},
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 2.5}},
        (2.49, 2.5),
    ),
    Finding.MASONRY_EDGE: (  # half of 5/8 in and 1/4 in; behind a shell of 1-1/4 in elsewhere than in a side
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"c_min": 0.1}, "bases": {"c_a": [[1.81, INF, INF, INF]]}},
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"c_min": 0.1}, "bases": {"c_a": [[1.8125, INF, INF, INF]]}},
        (1.81, 1.8125),
    ),
    Finding.MASONRY_SPACING: (
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"s_min": 0.1}, "layouts": pair(1.62)},
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"s_min": 0.1}, "layouts": pair(1.625)},
        (1.62, 1.625),
    ),
    Finding.MASONRY_THICKNESS: (
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 4.0}, "bases": {"thickness": 4.6}},
        BOLT_IN_MASONRY | {"products": HEADED_BOLT | {"h_ef": 4.0}, "bases": {"thickness": 4.65}},
        (4.6, 4.0 + 5 / 8 * 5 / 8 + 0.25),  # embedded, a head of 5/8 d of 5/8 in, grout
    ),
    Finding.MASONRY_STRENGTH_LOW: (
        {"allowables": {"method": MASONRY_BOLT, "f_base": 1_499.0}, "products": HEADED_BOLT},
        {"allowables": {"method": MASONRY_BOLT, "f_base": 1_500.0}, "products": HEADED_BOLT},
        (1_499.0, 1_500.0),
    ),
    Finding.TABLE_EDGE: (
        {"allowables": {}, "bases": {"c_a": [[3.99, INF, INF, INF]]}},
        {"allowables": {}, "bases": {"c_a": [[4.0, INF, INF, INF]]}},
        (3.99, 4.0),
    ),
    Finding.TABLE_SPACING: (
        {"allowables": {}, "layouts": pair(7.99)},
        {"allowables": {}, "layouts": pair(8.0)},
        (7.99, 8.0),
    ),
    Finding.ONE_A_CELL: (
        {"allowables": {"one_a_cell": True}, "layouts": pair(7.99)},
        {"allowables": {"one_a_cell": True}, "layouts": pair(8.0)},
        (7.99, 8.0),
    ),
    Finding.TABLE_THICKNESS: (
        {"allowables": {}, "bases": {"thickness": 5.99}},
        {"allowables": {}, "bases": {"thickness": 6.0}},
        (5.99, 6.0),
    ),
    **{
        finding: ({"allowables": {name: limit - 0.01}}, {"allowables": {name: limit}}, (limit - 0.01, limit))
        for finding, name, limit in (
            (Finding.TABLE_FACE_SHELL, "face_shell", 1.25),
            (Finding.TABLE_STRENGTH, "f_base", 1_000.0),
            (Finding.TABLE_JOINT, "joint", 1.5),
            (Finding.TABLE_COVER, "cover", 1.5),
            (Finding.TABLE_STRAND, "strand", 2.0),
        )
    },
}


def beside(earthquake):
    """Two near points, the second with so much earthquake in tension."""
    loads = {"dead": 10.0, "earthquake": [(0, 0, 0, 0, 0, 0), (earthquake, 0, 0, 0, 0, 0)]}
    return quaking(loads) | {"sites": {"x": [0.0, 4.0]}}


BESIDES = {
    Finding.EARTHQUAKE_PUSHES: (  # 0.9 x 100 - 91 = -1 lb; 90 - 89 = 1 lb
        {"hangs": {"dead": 100.0, "earthquake": (91.0, 0.0, 0.0, 0.0, 0.0, 0.0)}},
        {"hangs": {"dead": 100.0, "earthquake": (89.0, 0.0, 0.0, 0.0, 0.0, 0.0)}},
    ),
    Finding.FASTENER_C2_TAKEN: (
        quaking(category=1, category_stated=False),
        quaking(category=1, category_stated=False, table_category=1),
    ),
    Finding.FASTENER_CATEGORY_BY_TABLE: (
        quaking(category_stated=False, table_category=0),
        quaking(category_stated=False, table_category=-1),
    ),
    Finding.FASTENER_VERY_LOW: (quaking(table_category=-1), quaking(table_category=0)),
    Finding.FASTENER_GROUT: (
        fastened_at(v_dead=(10.0, 0.0)) | {"fasteners": {"grout": 6.36}, "fixings": {"thickness": 0.25}},
        fastened_at(v_dead=(10.0, 0.0))
        | {"fasteners": {"grout": 6.35, "f_grout": 30.0}, "fixings": {"thickness": 0.25}},
    ),
    Finding.FASTENER_ELASTIC_DESIGN: (quaking(), quaking(design_option=0)),
    Finding.FASTENER_CAPACITY_DESIGN: (quaking(design_option=0), fastened(design_option=0)),
    Finding.FASTENER_SHAKEN_BESIDE: (beside(10.0), beside(0.0)),
    Finding.FASTENER_CRACKED_BY_EARTHQUAKE: (
        quaking() | {"bases": {"cracked": False}},
        EN | {"bases": {"cracked": False}},
    ),
    Finding.FASTENER_FIRE: (in_fire(), EN | {"basis": BY_EN}),
    Finding.FASTENER_FIRE_BESIDE: (beside_fire(1.0), in_fire()),
    Finding.FASTENER_FIRE_CLASS: (in_fire(1.01), in_fire()),
    Finding.FASTENER_FIRE_CARBON: (in_fire(environments={"steel": STAINLESS_304}), in_fire()),
    Finding.FASTENER_FIRE_PULL_OUT: (in_fire(fasteners={"n_rk_p_cr_state": 2}), in_fire()),
    Finding.FASTENER_DISPLACEMENT: (quaking(category=1), quaking()),
    Finding.FASTENER_F_CK: (fastened(f_ck_class=60.5), fastened(f_ck_class=60.5, post_installed=False)),
    Finding.FASTENER_ASSESSED_IN: (fastened(f_ck_class=50.5), fastened(f_ck_class=50.5, post_installed=False)),
    Finding.FASTENER_HOLE_CLEARANCE: (
        fastened_at(layouts=pair(8.0), v_dead=(10.0, 0.0)),
        fastened_at(v_dead=(10.0, 0.0)),
    ),
    Finding.FASTENER_PLATE_BEARING: (  # 4,000 / 1.5 x 64 in2 = 170,667 lb; 1.35G
        EN | {"basis": BY_EN, "plates": PLATE, "hangs": {"dead": -126_420.0}},
        EN | {"basis": BY_EN, "plates": PLATE, "hangs": {"dead": -126_419.0}},
    ),
    Finding.MASONRY_STRENGTH_LIMITED: (
        {"allowables": {"method": MASONRY_BOLT, "f_base": 4_001.0}, "products": HEADED_BOLT},
        {"allowables": {"method": MASONRY_BOLT, "f_base": 4_000.0}, "products": HEADED_BOLT},
    ),
    Finding.BAR_YIELD_LIMITED: (
        {"bases": {"a_s_v": 1.0, "f_y_v": 80_001.0}},
        {"bases": {"a_s_v": 1.0, "f_y_v": 80_000.0}},
    ),
    Finding.F_C_LIMITED: ({"bases": {"f_c": 8_001.0}}, {"bases": {"f_c": 8_000.0}}),
    # 2,500 psi of one edition are 17 MPa of the other, 2,465.6 psi.
    Finding.F_C_BELOW_QUALIFICATION: ({"bases": {"f_c": 2_465.0}}, {"bases": {"f_c": 2_466.0}}),
    Finding.F_C_BELOW_STRUCTURAL: (
        {"bases": {"f_c": 2_465.0}, "products": HEADED_BOLT},
        {"bases": {"f_c": 2_466.0}, "products": HEADED_BOLT},
    ),
    Finding.RUN_UPLIFT: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spans": (2.0, 20.0, 20.0), "support": 0}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN]},
    ),
    Finding.UNCRACKED_IN_SEISMIC: (
        {"bases": {"cracked": False, "category": 2}},
        {"bases": {"cracked": False, "category": 1}},
    ),
    Finding.NO_LOAD: ({"hangs": {"dead": 0.0}}, {"hangs": {"dead": 0.0, "v_dead": (0.0, 1.0)}}),
    Finding.DEAD_RELIEVES_LIVE: (
        {"hangs": {"dead": 100.0, "v_dead": (50.0, -20.0), "v_live": (10.0, 30.0)}},  # 500 - 600 < 0
        {"hangs": {"dead": 100.0, "v_dead": (50.0, -20.0), "v_live": (12.0, 30.0)}},  # 600 - 600 = 0
    ),
    Finding.END_OF_RUN: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spans": (10.0,), "span_count": 1, "support": 1}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN]},
    ),
    Finding.SPACING_VAPOUR: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_rule": VAPOUR, "rho_contents": 62.4}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_rule": VAPOUR, "rho_contents": 0.58}]},
    ),
    Finding.SPACING_POINT_LOAD: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_rule": B31_1}], "loads": [HUNG]},
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_rule": SP_58}], "loads": [HUNG]},
    ),
    Finding.SPACING_NOT_COVERED: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_covered": False}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN]},
    ),
    Finding.SPRINKLER_CERTIFICATION: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN]},
        {"hangs": {"kind": PIPE}, "runs": [RUN]},
    ),
    Finding.SPRINKLER_STRUCTURE: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN]},
        {"hangs": {"kind": PIPE}, "runs": [RUN]},
    ),
    Finding.NOT_FOR_REUSE: ({"products": {"removable": True}}, {"products": {"removable": False}}),
    Finding.WELDED_STEEL_THIN: (
        WELDED_BOLT | {"fixings": {"welded": True, "thickness": 0.374}},
        WELDED_BOLT | {"fixings": {"welded": True, "thickness": 0.375}},
    ),
    Finding.WELDED_NEAR_CORNER: (  # 1.5 x 6 in
        WELDED_BOLT | {"fixings": {"welded": True, "thickness": 0.375}, "bases": {"c_a": [[9.0, INF, 20.0, INF]]}},
        WELDED_BOLT | {"fixings": {"welded": True, "thickness": 0.375}, "bases": {"c_a": [[9.1, INF, 20.0, INF]]}},
    ),
    Finding.THICKNESS_UNUSUAL: ({"bases": {"thickness": 120.1}}, {"bases": {"thickness": 120.0}}),
    Finding.F_C_UNUSUAL: ({"bases": {"f_c": 15_001.0}}, {"bases": {"f_c": 15_000.0}}),
    Finding.WELDED_POST_INSTALLED: ({"fixings": {"welded": True}}, {"fixings": {"welded": False}}),
    Finding.NATURE_APART_HOLDS: (apart(10.0), {}),
    Finding.EARTHQUAKE_OTHER_SENSE_HOLDS: (at_angles(1000.0), at_angles(1000.0, turned=0.5)),
    Finding.EARTHQUAKE_SENSES_NOT_ALL: (shaken_row(9), shaken_row(8)),
    Finding.PLATE_THICKNESS_UNKNOWN: (
        {"plates": PLATE},
        {"plates": PLATE, "fixings": {"thickness": 0.5}},
    ),
    Finding.PLATE_BENDS: (  # sqrt(3 x 14 / 36,000) = .03416 in
        {"plates": PLATE, "fixings": {"thickness": 0.0341}},
        {"plates": PLATE, "fixings": {"thickness": 0.0342}},
    ),
    Finding.PLATE_PRESSES: (
        {"plates": PLATE, "hangs": {"dead": -10.0}},
        {"plates": PLATE, "hangs": {"dead": -10.0, "m_dead": (0.0, 80.0, 0.0)}},  # beyond the plate: it lifts
    ),
    Finding.PLATE_BEARING: (  # .65 x .85 x 4,000 = 2,210 psi (22.8.3.2, from memory); 1.4D / 64 in2
        {"plates": PLATE, "hangs": {"dead": -101_029.0}},
        {"plates": PLATE, "hangs": {"dead": -101_028.0}},
    ),
    Finding.MIXED_GROUP: (  # 3 x 3.25 = 9.75 in
        {"sites": {"x": [0.0, 9.7], "family": [0, 1]}},
        {"sites": {"x": [0.0, 9.8], "family": [0, 1]}},
    ),
    Finding.NEIGHBOUR_NOT_COUNTED: (
        {"sites": {"x": [0.0, 9.7]}, "products": {"table_only": [False, True]}},
        {"sites": {"x": [0.0, 9.8]}, "products": {"table_only": [False, True]}},
    ),
    Finding.ALTERNATIVES_TOGETHER: (
        {"sites": {"x": [0.0, 0.0, 9.7], "same": [5, 5, -1]}},
        {"sites": {"x": [0.0, 0.0, 9.7], "same": [5, -1, 6]}},
    ),
    Finding.EDGES_DISAGREE: ({"sites": {"disputed": True}}, {"sites": {"disputed": False}}),
    Finding.NEIGHBOUR_CASE_BORROWED: (lacking(), lacking(x=9.8)),
    Finding.BASES_DISAGREE: (
        {"sites": {"x": [0.0, 9.7]}, "bases": {"thickness": [12.0, 8.0]}},
        {"sites": {"x": [0.0, 9.8]}, "bases": {"thickness": [12.0, 8.0]}},
    ),
    Finding.BARS_OF_NEIGHBOURS: (
        {"sites": {"x": [0.0, 9.7]}, "bases": {"a_s_n": [0.2, 0.31], "f_y_n": 60_000.0}},
        {"sites": {"x": [0.0, 9.7]}, "bases": {"a_s_n": [0.2, 0.0], "f_y_n": 60_000.0}},
    ),
    Finding.LOADS_IN_PATTERN_HOLDS: (filled(1000.0), filled(1000.0, y=0.0)),
    Finding.LOADS_TOGETHER: (filled_row(7), filled_row(6)),  # 160 rows / 2 load cases = 80, 2^6 = 64
    Finding.LEVELS_DISAGREE: (
        {"sites": {"x": [0.0, 9.7], "level": [0, 1]}},
        {"sites": {"x": [0.0, 9.7], "level": [0, -1]}},
    ),
    Finding.SEISMIC_BUCKLING: (shaken(), shaken(quake={"earthquake_fraction": 0.2})),
    Finding.SEISMIC_ATTACHMENT_OPTION: (shaken(tension=YIELDING), shaken(tension=YIELDING, category=1)),
    Finding.SEISMIC_OVERSTRENGTH: (shaken(tension=OVERSTRENGTH), shaken(tension=OVERSTRENGTH, category=1)),
    Finding.DECK_SHEET_UNKNOWN: (in_flute(sheet=0.0), in_flute()),
    Finding.DECK_F_C_BELOW_TESTS: (
        in_flute() | {"bases": {"f_c": 2_999.0}, "products": {"f_c_ref": 3_000.0}},
        in_flute() | {"bases": {"f_c": 3_000.0}, "products": {"f_c_ref": 3_000.0}},
    ),
    Finding.DRILLED_BEYOND_COVER: (
        {"surroundings": {"drilled": 1.01, "clear_cover": 1.0}},
        {"surroundings": {"drilled": 1.0, "clear_cover": 1.0}},
    ),
    Finding.DRILLED_BEYOND_HALF: (  # half of 12 in
        {"surroundings": {"drilled": 6.01}},
        {"surroundings": {"drilled": 6.0}},
    ),
    Finding.TENDONS_SCANNED: (
        {"surroundings": {"post_tensioned": TENSIONED, "scanned": True}},
        {"surroundings": {"post_tensioned": NOT_TENSIONED, "scanned": True}},
    ),
    Finding.BEAM_SOFFIT: (
        {"surroundings": {"part": JOIST}},
        {"surroundings": {"part": BEAM}, "bases": {"face": SIDE}},
    ),
    Finding.CHLORIDES_304: (living(CHLORIDES, steel=STAINLESS_304), living(CHLORIDES, steel=STAINLESS_316)),
    Finding.FOOD_CARBON: (living(FOOD), living(FOOD, steel=STAINLESS_304)),
    Finding.MATERIAL_UNKNOWN: (living(DAMP, steel=SILENT, coating=SILENT), living(DRY, steel=SILENT, coating=SILENT)),
    Finding.DISSIMILAR_METALS: (living(DRY, attached=COPPER_METAL), living(DRY, attached=GALVANISED_METAL)),
    Finding.ATTACHMENT_CORRODES: (
        living(OUTDOOR, steel=STAINLESS_316, attached=CARBON_METAL),
        living(OUTDOOR, steel=STAINLESS_316, attached=STAINLESS_METAL),
    ),
    Finding.HYDROGEN: (
        living(DAMP, coating=HOT_DIP) | {"products": SCREW},
        living(DRY, coating=HOT_DIP) | {"products": SCREW},
    ),
    Finding.VIBRATION: (
        {"environments": {"vibration": True, "follow_up": False}},
        {"environments": {"vibration": True, "follow_up": True}},
    ),
    Finding.FIRE_RATED: ({"environments": {"fire_rating": 1.0}}, {"environments": {"fire_rating": 0.0}}),
}
"""What brings about each finding that doesn't fail the point, and what just doesn't."""


def test_every_finding_is_tried():
    assert set(VIOLATIONS) == {finding for finding in Finding if finding.value.severity is Severity.VIOLATION}
    assert set(BESIDES) == set(Finding) - set(VIOLATIONS)


@pytest.mark.parametrize("finding", VIOLATIONS, ids=lambda finding: finding.value.code)
def test_violation_fails_the_point(finding):
    """17.9.2, 17.9.4, 17.3.4, 17.6.3.2.2 and the rules named: beyond the limit, and just within it."""
    beyond, within, shown = VIOLATIONS[finding]
    load = {"dead": 10.0}
    failed = checked(**({"hangs": load} | beyond))
    assert found_on(failed) & set(VIOLATIONS) == {finding}
    assert failed.failed[0]
    assert failed.utilisation[0] <= 1.0
    assert value_of(failed, finding) == pytest.approx(shown, rel=1e-5)
    passed = checked(**({"hangs": load} | within))
    assert found_on(passed) & set(VIOLATIONS) == set()
    assert not passed.failed[0]


@pytest.mark.parametrize("finding", BESIDES, ids=lambda finding: finding.value.code)
def test_caution_or_note(finding):
    seen, unseen = ({"hangs": {"dead": 10.0}} | tables for tables in BESIDES[finding])
    with_it, without = checked(**seen), checked(**unseen)
    assert finding in found_on(with_it)
    assert refusal_of(with_it) is None
    assert not with_it.failed[0]
    assert finding not in found_on(without)
    assert refusal_of(without) is None


@pytest.mark.parametrize(
    ("sides", "h_ef", "least"), [(0, 100.0, 200.0), (0, 160.0, 320.0), (1, 100.0, 300.0), (-1, 160.0, 320.0)]
)
def test_edges_in_fire(sides, h_ef, least):
    """Annex D, from memory: 2 h_ef, and 300 mm unless the fire is on one side alone; not said is on several."""
    for c, found in ((least - 0.1, True), (least + 0.1, False)):
        fire = {"minutes": 60.0, "hours": 1.0, "sides": sides}
        made = in_fire(fires=fire, fasteners={"h_ef": h_ef}, bases={"c_a": [[INF, c / 25.4, INF, INF]]})
        verdicts = checked(**({"hangs": {"dead": 10.0}} | made))
        assert (Finding.FASTENER_FIRE_EDGE in found_on(verdicts)) is found
        assert not found or value_of(verdicts, Finding.FASTENER_FIRE_EDGE)[1] * 25.4 == pytest.approx(least)


@pytest.mark.parametrize(("h_ef", "limit"), [(1.99, 2.0), (10.01, 10.0)])
def test_adhesive_embedment(h_ef, limit):
    """17.3.3: 4 d_a to 20 d_a; of an adhesive anchor only."""
    products = ADHESIVE_ROD | {"h_ef": h_ef, "h_min": 11.0}
    found = checked(hangs={"dead": 1.0}, products=products)
    assert value_of(found, Finding.ADHESIVE_EMBEDMENT) == (h_ef, limit)
    assert Finding.ADHESIVE_EMBEDMENT in found_on(found)
    within = checked(hangs={"dead": 1.0}, products=products | {"h_ef": limit})
    assert Finding.ADHESIVE_EMBEDMENT not in found_on(within)
    other = checked(hangs={"dead": 1.0}, products={"h_ef": h_ef, "h_min": 11.0, "thickness_tested": True})
    assert Finding.ADHESIVE_EMBEDMENT not in found_on(other)


@pytest.mark.parametrize(("d_a", "limit"), [(0.625, 0.375), (1.0, 0.5)])
def test_thickness_of_the_steel_of_a_weld(d_a, limit):
    """17.7.2.2.2: the greater of 3/8 in and d_a / 2; not stated is too thin; nothing to say without shear or a weld."""
    products = HEADED_BOLT | {"d_a": d_a}
    for thickness, hangs, welded, seen in (
        (0.0, SHEARED, True, True),
        (limit - 0.001, SHEARED, True, True),
        (limit, SHEARED, True, False),
        (0.0, {"dead": 10.0}, True, False),
        (0.0, SHEARED, False, False),
    ):
        found = checked(hangs=hangs, products=products, fixings={"welded": welded, "thickness": thickness})
        assert (Finding.WELDED_STEEL_THIN in found_on(found)) is seen
        if seen:
            assert value_of(found, Finding.WELDED_STEEL_THIN) == (thickness, limit)


@pytest.mark.parametrize(
    ("layouts", "least"),
    [
        ([{"x": 0.0}, {"x": 3.0, "y": 4.0}, {"x": 9.0, "y": 4.0}], 5.0),
        ([{"x": 0.0}, {"y": 7.0}, {"x": 2.0, "y": 2.0}], 2.8284),
    ],
)
def test_the_least_spacing_is_between_any_two_anchors(layouts, least):
    """5 beside 6 and 9.85; sqrt(8) beside 7 and sqrt(29)."""
    verdicts = checked(hangs=PULLED | {"at": (2.0, 2.0, 0.0)}, layouts=layouts, products={"s_min": 6.5})
    assert value_of(verdicts, Finding.SPACING_BELOW_MINIMUM) == pytest.approx((least, 6.5), abs=5e-5)
    assert Finding.SPACING_BELOW_MINIMUM in found_on(verdicts)


def test_the_edge_of_a_plate_bears_more_than_its_middle():
    """Reading 22. 8 x 8 in, 14 kip 2 in beside the middle: pressed over 3 x (4 - 2) = 6 in, 2 x 14,000 / 48 psi."""
    load = {"dead": -10_000.0, "m_dead": (0.0, -20_000.0, 0.0)}
    found = checked(plates=PLATE, hangs=load, products={"a_se_n": 1e-9}, bases={"f_c": 1_000.0})
    assert value_of(found, Finding.PLATE_BEARING) == pytest.approx((583.333, 552.5), rel=1e-5)
    assert Finding.PLATE_BEARING in found_on(found)
    free = checked(plates=PLATE | {"contact": False}, hangs={"dead": 1_000.0}, bases={"f_c": 1_000.0})
    assert not found_on(free) & {Finding.PLATE_BEARING, Finding.PLATE_CRUSHES}


def test_the_thickness_of_a_plate():
    """All of 1,000 lb on one anchor: sqrt(3 x 1,000 / 36,000) = .288675 in. A quarter of it on each of four: half."""
    corners = [{"x": x, "y": y} for x in (-3.0, 3.0) for y in (-3.0, 3.0)]
    for layouts, needed in (([{}], 0.288675), (corners, 0.1443376)):
        verdicts = checked(
            basis=FACTORED_LOADS,
            hangs={"factored": 1_000.0},
            layouts=layouts,
            plates=PLATE,
            fixings={"thickness": needed - 0.001},
        )
        assert Finding.PLATE_BENDS in found_on(verdicts)
        assert value_of(verdicts, Finding.PLATE_BENDS) == pytest.approx((needed - 0.001, needed), rel=1e-6)


def test_what_lacks_beside_option_a():
    """Every condition of 17.10.5.3(a) by itself, and all at once; the other options ask for none of them."""
    lacking = {"h_ef": 4.0, "ductile": False, "f_ya": 50_000.0}
    found = found_on(checked(**shaken(products=lacking, stretch=0.0)))
    seismic = {finding for finding in VIOLATIONS if finding.name.startswith("SEISMIC")}
    assert len(seismic) == 4
    assert seismic <= found
    for option in (YIELDING, NON_YIELDING, OVERSTRENGTH):
        assert not seismic & found_on(checked(**shaken(products=lacking, stretch=0.0, tension=option)))
    assert not seismic & found_on(checked(**shaken(products=lacking, stretch=0.0, category=1)))


def test_anchor_reinforcement_stands_for_the_concrete_in_option_a():
    """A_s f_y in place of N_cb 12,143 lb: .25 x 60,000 = 15,000 lb is below 1.2 N_sa = 15,729.6, .3 x 60,000 above."""
    for a_s, seen in ((0.25, True), (0.30, False)):
        tables = shaken(products={"h_ef": 4.0})
        tables["bases"] = tables["bases"] | {"a_s_n": a_s, "f_y_n": 60_000.0}
        found = checked(**tables)
        assert (Finding.SEISMIC_STEEL_NOT_GOVERNING in found_on(found)) is seen
        if seen:
            assert value_of(found, Finding.SEISMIC_STEEL_NOT_GOVERNING) == pytest.approx((15_000.0, 15_729.6))


def test_threads_that_are_upset_need_no_ratio():
    tables = shaken(products={"f_ya": 50_000.0})
    assert Finding.SEISMIC_STRENGTH_RATIO in found_on(checked(**tables))
    tables["fixings"] = tables["fixings"] | {"upset_threads": True}
    assert Finding.SEISMIC_STRENGTH_RATIO not in found_on(checked(**tables))


@pytest.mark.parametrize("direction", ["tension", "shear"])
@pytest.mark.parametrize(
    ("option", "finding"),
    [
        (YIELDING, Finding.SEISMIC_ATTACHMENT_OPTION),
        (NON_YIELDING, Finding.SEISMIC_ATTACHMENT_OPTION),
        (OVERSTRENGTH, Finding.SEISMIC_OVERSTRENGTH),
    ],
)
def test_options_of_each_direction(direction, option, finding):
    """The option of the direction that earthquake governs is told, that of the other is not."""
    fraction = {"tension": "earthquake_fraction", "shear": "earthquake_fraction_v"}[direction]
    hangs = {"factored": 10.0, "v_factored": (10.0, 0.0), fraction: 0.5}
    told = {Finding.SEISMIC_ATTACHMENT_OPTION, Finding.SEISMIC_OVERSTRENGTH}
    other = {"tension": "shear", "shear": "tension"}[direction]
    for options, expected in (
        ({f"{direction}_option": option}, {finding}),
        ({f"{direction}_option": option, f"{other}_option": OVERSTRENGTH}, {finding}),
    ):
        found = checked(basis=FACTORED_LOADS, hangs=hangs, bases={"category": 3}, fixings=options)
        assert found_on(found) & told == expected


@pytest.mark.parametrize(
    ("thickness", "deepest"),
    [(6.0, 4.0), (12.0, 8.0), (18.0, 14.0)],
)
def test_deepest_embedment(thickness, deepest):
    """17.9.4: the larger of 2/3 of the member and the member less 4 in; not for cast-in anchors, nor where tested."""
    products = {"h_ef": deepest + 0.01, "h_min": 1.0}
    found = checked(hangs={"dead": 1.0}, products=products, bases={"thickness": thickness})
    assert value_of(found, Finding.EMBEDMENT_TOO_DEEP) == pytest.approx((deepest + 0.01, deepest))
    assert Finding.EMBEDMENT_TOO_DEEP in found_on(found)
    for exempt in (products | {"thickness_tested": True}, HEADED_BOLT | products | {"thickness_tested": False}):
        verdicts = checked(hangs={"dead": 1.0}, products=exempt, bases={"thickness": thickness})
        assert Finding.EMBEDMENT_TOO_DEEP not in found_on(verdicts)


@pytest.mark.parametrize(("d_a", "h_ef", "limit"), [(0.25, 1.4, 1.5), (0.5, 2.4, 2.5), (0.25, 2.6, 2.5)])
def test_screw_embedment(d_a, h_ef, limit):
    """17.3.4: 5 d_a to 10 d_a and at least 1.5 in."""
    verdicts = checked(hangs={"dead": 1.0}, products=SCREW | {"d_a": d_a, "h_ef": h_ef})
    assert Finding.SCREW_EMBEDMENT in found_on(verdicts)
    assert value_of(verdicts, Finding.SCREW_EMBEDMENT) == pytest.approx((h_ef, limit))


def test_short_hook():
    verdicts = checked(hangs={"dead": 1.0}, products=HOOK | {"e_h": 1.49})
    assert value_of(verdicts, Finding.HOOK_LENGTH) == pytest.approx((1.49, 1.5))
    assert verdicts.failed[0]


def test_findings_that_do_not_fail():
    """f'c above the limit of 17.3.1 and below the tests; uncracked in category C; an anchor not for reuse."""
    verdicts = checked(
        hangs={"dead": 1.0},
        bases={"f_c": [8_001.0, 2_400.0, 4_000.0, 4_000.0], "cracked": [True, True, False, True], "category": 2},
        products={"removable": [False, False, False, True]},
    )
    expected = (
        Finding.F_C_LIMITED,
        Finding.F_C_BELOW_QUALIFICATION,
        Finding.UNCRACKED_IN_SEISMIC,
        Finding.NOT_FOR_REUSE,
    )
    assert [found_on(verdicts, row) for row in range(4)] == [{finding} for finding in expected]
    assert not verdicts.failed.any()
    assert value_of(verdicts, Finding.F_C_LIMITED) == (8_001.0, 8_000.0)
    assert value_of(verdicts, Finding.F_C_BELOW_QUALIFICATION, 1) == (2_400.0, 2_500.0)


def test_spacing_looks_at_the_spans_beside_the_hanger():
    """Spans of 8, 14 and 15 ft, limit 12 ft: the hangers at the long ones exceed it, the first does not."""
    runs = [
        RUN | {"point": i, "spans": (8.0, 14.0, 15.0), "span_count": 3, "support": i, "spacing_limit": 12.0}
        for i in range(4)
    ]
    verdicts = checked(hangs={"kind": PIPE}, runs=runs)
    found = [Finding.SPACING_EXCEEDED in found_on(verdicts, row) for row in range(4)]
    assert found == [False, True, True, True]
    longest = [value_of(verdicts, Finding.SPACING_EXCEEDED, row)[0] for row in range(4)]
    assert longest == [8.0, 14.0, 15.0, 15.0]


def test_spacing_rule_without_a_value():
    verdicts = checked(hangs={"kind": PIPE}, runs=[RUN | {"spacing_covered": False}])
    assert Finding.SPACING_NOT_COVERED in found_on(verdicts)
    assert not verdicts.failed[0]


def corrosion_of(exposure, steel, coating=NO_COATING):
    found = found_on(checked(hangs=PULLED, **living(exposure, steel=steel, coating=coating)))
    return found & {Finding.EXPOSURE_CORROSION, Finding.CHLORIDES_304, Finding.FOOD_CARBON, Finding.MATERIAL_UNKNOWN}


@pytest.mark.parametrize("coating", [NO_COATING, ZINC, ZINC_MECHANICAL, HOT_DIP])
@pytest.mark.parametrize("exposure", [SILENT, DRY, DAMP, OUTDOOR, TREATED_WOOD, CHLORIDES])
def test_carbon_steel_by_coating_and_exposure(exposure, coating):
    """Common practice, no source: zinc plating indoors and dry, galvanised in damp air and outdoors, none in salt."""
    thick = coating in (ZINC_MECHANICAL, HOT_DIP)
    holds = {SILENT: True, DRY: True, CHLORIDES: False}.get(exposure, thick)
    expected = set() if holds else {Finding.EXPOSURE_CORROSION}
    assert corrosion_of(exposure, CARBON_STEEL, coating) == expected


@pytest.mark.parametrize("exposure", [SILENT, DRY, DAMP, OUTDOOR, TREATED_WOOD, FOOD, CHLORIDES])
@pytest.mark.parametrize("steel", [STAINLESS_304, STAINLESS_316, HIGH_ALLOY])
def test_stainless_steel_by_exposure(exposure, steel):
    """Common practice, no source: 304 and 316 outdoors; in chlorides 316."""
    pits = exposure == CHLORIDES and steel == STAINLESS_304
    assert corrosion_of(exposure, steel) == ({Finding.CHLORIDES_304} if pits else set())


def couple_of(exposure, steel, **touching):
    found = found_on(checked(hangs=PULLED, **living(exposure, steel=steel, coating=HOT_DIP, **touching)))
    return found & {Finding.GALVANIC_COUPLE, Finding.DISSIMILAR_METALS, Finding.ATTACHMENT_CORRODES}


@pytest.mark.parametrize("place", ["attached", "rod"])
@pytest.mark.parametrize(
    ("steel", "metal", "dry", "wet"),
    [
        (CARBON_STEEL, STAINLESS_METAL, Finding.DISSIMILAR_METALS, Finding.GALVANIC_COUPLE),
        (CARBON_STEEL, COPPER_METAL, Finding.DISSIMILAR_METALS, Finding.GALVANIC_COUPLE),
        (CARBON_STEEL, ALUMINIUM_METAL, None, Finding.ATTACHMENT_CORRODES),
        (CARBON_STEEL, CARBON_METAL, None, None),
        (CARBON_STEEL, GALVANISED_METAL, None, None),
        (STAINLESS_316, CARBON_METAL, None, Finding.ATTACHMENT_CORRODES),
        (STAINLESS_316, ALUMINIUM_METAL, None, Finding.ATTACHMENT_CORRODES),
        (STAINLESS_316, STAINLESS_METAL, None, None),
        (STAINLESS_316, COPPER_METAL, None, None),
        (SILENT, STAINLESS_METAL, None, None),
    ],
)
def test_metals_that_touch(place, steel, metal, dry, wet):
    """Common practice, no source: a stainless rod in a zinc anchor; the less noble, smaller part is eaten, if wet."""
    for exposure, expected in ((DRY, dry), (SILENT, dry), (DAMP, wet), (OUTDOOR, wet), (CHLORIDES, wet)):
        found = couple_of(exposure, steel, **{place: metal})
        assert found == ({expected} - {None}), exposure


def test_a_pool_below_an_anchor_in_the_floor():
    """In the top of a slab nothing falls, but the steel still cracks: a violation, not a refusal."""
    for steel, holds in ((STAINLESS_316, True), (HIGH_ALLOY, False)):
        verdicts = checked(hangs=PULLED, bases={"face": 2}, **living(POOL, steel=steel))
        assert refusal_of(verdicts) is None
        assert (Finding.EXPOSURE_CORROSION in found_on(verdicts)) is holds


def test_in_a_deck_the_tests_decide_how_deep_a_hole_may_be():
    for tables, seen in ((in_flute(), False), ({"surroundings": {}}, True)):
        around = tables["surroundings"] | {"drilled": 6.5}
        verdicts = checked(hangs=PULLED, **(tables | {"surroundings": around}))
        assert (Finding.DRILLED_BEYOND_HALF in found_on(verdicts)) is seen


def test_the_limit_of_the_structural_notes_counts_the_250_lb_of_a_sprinkler_line():
    """12 ft of NPS 4 schedule 10 with water and 250 lb; without a sprinkler line the same pipe alone."""
    line = checked(hangs=SPRINKLER_LINE, runs=[RUN])
    own = line.demand.dead[0] + line.demand.contents[0]
    for hangs, service in ((SPRINKLER_LINE, own + 250.0), ({"kind": PIPE}, own)):
        verdicts = checked(hangs=hangs, runs=[RUN], surroundings={"point_limit": service - 0.1})
        assert value_of(verdicts, Finding.STRUCTURAL_LIMIT) == pytest.approx((service, service - 0.1))
        assert Finding.STRUCTURAL_LIMIT in found_on(verdicts)
        within = checked(hangs=hangs, runs=[RUN], surroundings={"point_limit": service})
        assert Finding.STRUCTURAL_LIMIT not in found_on(within)


@pytest.mark.parametrize(
    ("changed", "found"),
    [
        ({"spans": (6.0,) * 4, "span_count": 4, "support": 1, "missing": 2}, False),
        ({"spans": (6.0,) * 4, "span_count": 4, "support": 1, "missing": 3}, True),
        ({"spans": (6.0,) * 4, "span_count": 4, "support": 1}, True),
    ],
)
def test_a_pin_holds_where_its_neighbour_may_fail(changed, found):
    """Reading 33: the run solved without the hanger beside the pin; one farther away brings it no load."""
    verdicts = checked(hangs={"kind": PIPE}, runs=[RUN | changed], products={"pin": True})
    assert (Finding.PIN_ALONE in found_on(verdicts)) is found


def test_a_pin_that_is_only_sheared_is_not_alone():
    """A pin on a wall holds by bearing: nothing pulls it out."""
    verdicts = checked(hangs={"dead": 0.0, "v_dead": (10.0, 0.0)}, products={"pin": True})
    assert Finding.PIN_ALONE not in found_on(verdicts)


def test_a_pipe_is_no_ceiling():
    verdicts = checked(hangs={"kind": PIPE}, runs=[RUN], products={"ceiling_only": True}, fixings={"ceiling": True})
    assert Finding.CEILING_ONLY in found_on(verdicts)


@pytest.mark.parametrize(
    ("hangs", "holds"),
    [
        ({"dead": -40.0, "live": 1.0}, True),
        ({"dead": 40.0, "live": -1.0}, False),  # live load that pushes relieves nothing
        (
            {"dead": -40.0, "m_live": (0.0, 8400.0, 0.0)},
            True,
        ),  # a guard post is held down by its weight
        ({"dead": -40.0, "m_live": (0.0, 0.0, 8400.0)}, False),  # torsion lifts nothing
        ({"dead": -40.0, "v_live": (200.0, 0.0), "at": (0.0, 0.0, 42.0)}, True),
        ({"dead": -40.0, "v_live": (200.0, 0.0)}, False),
        ({"dead": 40.0, "m_dead": (-10.0, 0.0, 0.0), "m_live": (5.0, 0.0, 0.0)}, True),
        ({"dead": -40.0}, False),
    ],
)
def test_dead_load_that_holds_down_live_load(hangs, holds):
    square = [{"x": x, "y": y} for x in (-3.0, 3.0) for y in (-3.0, 3.0)]
    verdicts = checked(hangs={"dead": 0.0, **hangs}, plates=PLATE, layouts=square, bases={"face": TOP})
    assert (Finding.DEAD_RELIEVES_LIVE in found_on(verdicts)) is holds
