"""Hypothesis strategies: anchors, hang points and runs, one row at a time. Everything is invented."""

import numpy as np
from hypothesis import settings
from hypothesis import strategies as st

from core.builders import ADHESIVE_ROD, ANCHOR, EXPANSION, HEADED_BOLT, IN_FLUTE, RUN, TABLES, anchor_cases, points, rod
from hangpoint.core.aci318_19.pullout import HEADED, HOOKED, PRODUCT
from hangpoint.core.hang_point.points import FORCES, PIPE, SIDE, SOFFIT, WEIGHT
from hangpoint.core.hang_point.surroundings import CONCRETE, DECK, STEEL
from hangpoint.core.hanger.rod import RULES, THREADS

QUICK = settings(deadline=None, max_examples=60)


def edges(h_ef):
    """Four edge distances between an eighth and three times the reach of breakout, or none."""
    one = st.one_of(st.just(np.inf), st.floats(0.125, 3.0).map(lambda part: 1.5 * h_ef * part))
    return st.tuples(one, one, one, one)


FORCE = st.one_of(st.just(0.0), st.floats(1.0, 20_000.0))
SIGNED = st.one_of(FORCE, FORCE.map(lambda force: -force))
BARS = st.one_of(st.just(0.0), st.floats(0.05, 1.0))


@st.composite
def fixed(draw):
    """Columns of the attachment, the reinforcement, the options and the load of one row."""
    bars_n, bars_v = draw(BARS), draw(BARS)
    n_ua = draw(FORCE)
    return {
        "edge_reinforcement": draw(st.integers(0, 2)),
        "reinforced_n": bars_n > 0,
        "a_s_n": bars_n,
        "f_y_n": 60_000.0,
        "reinforced_v": bars_v > 0,
        "a_s_v": bars_v,
        "f_y_v": 60_000.0,
        "grout_pad": draw(st.booleans()),
        "oblique": draw(st.integers(0, 2)),
        "power": draw(st.booleans()),
        "seismic_category": draw(st.integers(0, 5)),
        "n_ua": n_ua,
        "n_ua_s": n_ua * draw(st.sampled_from([0.0, 0.5, 1.0])),
        "n_ua_e": n_ua * draw(st.sampled_from([0.0, 0.5])),
        "v_ua_x": draw(SIGNED),
        "v_ua_y": draw(SIGNED),
        "either_x": draw(st.booleans()),
        "either_y": draw(st.booleans()),
    }


@st.composite
def anchor_rows(draw):
    """One row of `AnchorCases` as a dictionary of scalars."""
    kind = draw(st.sampled_from(["headed", "hooked", "expansion", "undercut", "adhesive"]))
    h_ef = draw(st.floats(1.5, 28.0))
    row = draw(fixed()) | {
        "h_ef": h_ef,
        "c_a": draw(edges(h_ef)),
        "h_a": h_ef * draw(st.floats(1.05, 5.0)),
        "d_a": h_ef * draw(st.floats(0.05, 0.3)),
        "ductile": draw(st.booleans()),
        "cracked": draw(st.booleans()),
        "supplementary": draw(st.booleans()),
        "f_c_specified": draw(st.floats(2_000.0, 12_000.0)),
        "lightweight": draw(st.booleans()),
        "lambda_c": draw(st.sampled_from([0.75, 0.85])),
        "a_brg": draw(st.floats(0.2, 5.0)),
    }
    if kind == "headed":
        return row | {
            "pullout_method": HEADED,
            "welded_stud": draw(st.booleans()),
            "welded": draw(st.booleans()),
        }
    if kind == "hooked":
        return row | {"pullout_method": HOOKED, "headed": False, "e_h": draw(st.floats(1.0, 5.0))}
    tau_uncr = draw(st.floats(600.0, 3_000.0))
    return (
        EXPANSION
        | row
        | {
            "pullout_method": PRODUCT,
            "undercut": kind == "undercut",
            "category": draw(st.integers(1, 3)),
            "product_k_c": draw(st.booleans()),
            "c_ac": draw(st.floats(1.0, 4.0)) * h_ef,
            "n_exponent": draw(st.floats(0.05, 0.5)),
            "pullout_governs": draw(st.booleans()),
            "tested_lightweight": draw(st.booleans()),
            "distance_sleeve": draw(st.booleans()),
            "by_shear_tests": draw(st.booleans()),
            "v_sa_eq_alone": draw(st.booleans()),
            "v_sa": draw(st.floats(500.0, 30_000.0)),
            "adhesive": kind == "adhesive",
            "tau_cr": tau_uncr * draw(st.floats(0.3, 0.9)),
            "tau_uncr": tau_uncr,
            "by_seismic_bond": kind == "adhesive" and row["seismic_category"] >= 2,
            "alpha_n_seis": draw(st.floats(0.5, 1.0)),
            "tau_exponent": draw(st.sampled_from([0.0, 0.1])),
        }
    )


def cases_of(rows):
    """`AnchorCases` and `Anchors` of rows that may state different columns."""
    stated = sorted({name for row in rows for name in row})
    return anchor_cases(**{name: [row.get(name, ANCHOR[name]) for row in rows] for name in stated})


@st.composite
def spans(draw, most=6):
    """Spans of a run, ft; none more than four times another, so that rounding stays rounding."""
    return tuple(draw(st.lists(st.floats(5.0, 20.0), min_size=1, max_size=most)))


SIDEWAYS = st.one_of(st.just(0.0), st.floats(1.0, 2_000.0), st.floats(-2_000.0, -1.0))
VECTOR = st.one_of(st.just((0.0, 0.0)), st.tuples(SIDEWAYS, SIDEWAYS))
FRACTIONS = ("sustained_fraction", "earthquake_fraction", "earthquake_fraction_v")


@st.composite
def fixings(draw):
    """Attachment and options of one hang point."""
    return {
        "welded": draw(st.booleans()),
        "thickness": draw(st.sampled_from([0.0, 0.5])),
        "grout_pad": draw(st.booleans()),
        "gap": draw(st.sampled_from([0.0, 0.0, 0.0, 0.5])),
        "tension_option": draw(st.integers(-1, 3)),
        "shear_option": draw(st.sampled_from([-1, 1, 2, 3])),
        "stretch_length": draw(st.sampled_from([0.0, 6.0])),
        "oblique": draw(st.integers(0, 2)),
        "power": draw(st.booleans()),
    }


@st.composite
def bonds(draw):
    """Bond of one hang point's anchor, should it be an adhesive one."""
    return {
        "tau_cr": draw(st.sampled_from([0.0, 800.0, 1_000.0])),
        "alpha_n_seis": draw(st.sampled_from([0.0, 0.8])),
        "exponent": draw(st.sampled_from([0.0, 0.1])),
        "confirmed": draw(st.sampled_from([True, True, False])),
    }


@st.composite
def surroundings(draw):
    """Most often a slab that nothing is said of; else a deck, another base, or an environment."""
    kind = draw(st.sampled_from([CONCRETE] * 5 + [DECK, DECK, DECK, STEEL]))
    environment = {
        "exposure": draw(st.sampled_from([-1, -1, -1, 0, 1, 3, 4])),
        "rod": draw(st.sampled_from([-1, -1, 2])),
    }
    around = {
        "kind": kind,
        "post_tensioned": draw(st.sampled_from([-1, 0, 0, 2])),
        "drilled": draw(st.floats(0.0, 8.0)),
    }
    decks = {}
    if kind == DECK:
        decks = IN_FLUTE | {"tested": draw(st.sampled_from([True, True, False])), "offset": draw(st.floats(0.0, 1.5))}
    return {"surroundings": around, "environments": environment, "decks": decks}


@st.composite
def point_rows(draw):
    """One hang point: tables of scalars, its run or None, and the point loads of the run."""
    kind = draw(st.sampled_from([FORCES, WEIGHT, PIPE]))
    weight = st.floats(0.0, 3_000.0)
    hangs = {"kind": kind}
    run, loads = None, []
    if kind == PIPE:
        lengths = draw(spans())
        hangs["sprinkler"] = draw(st.booleans())
        run = RUN | {
            "spans": lengths,
            "span_count": len(lengths),
            "support": draw(st.integers(0, len(lengths))),
            "model": draw(st.integers(0, 2)),
            "nominal": draw(st.sampled_from([2.0, 4.0, 8.0, 14.0])),
            "spacing_limit": draw(st.sampled_from([12.0, np.inf])),
        }
        for _ in range(draw(st.integers(0, 2))):
            at = draw(st.floats(0.0, 1.0)) * sum(lengths)
            loads.append({"position": at, "weight": draw(st.floats(0.0, 500.0)), "live": draw(st.booleans())})
    else:
        hangs |= {"dead": draw(weight), "contents": draw(weight), "live": draw(weight), "factored": draw(weight)}
        hangs |= {name: draw(VECTOR) for name in ("v_dead", "v_contents", "v_live", "v_factored")}
        hangs |= {name: draw(st.sampled_from([0.0, 0.5, 0.8])) for name in FRACTIONS}
    product = draw(st.sampled_from([{}, HEADED_BOLT, HEADED_BOLT | {"h_ef": 12.0, "h_min": 14.0}, ADHESIVE_ROD]))
    if not product:
        product = {"n_p_cr_state": draw(st.sampled_from([0, 1, 1, 2])), "removable": draw(st.booleans())}
    rods = draw(st.sampled_from([{}, *({"rule": name} for name in RULES)]))
    if rods:
        rods = rod(rods["rule"], draw(st.sampled_from(sorted(THREADS))))
    base = {
        "f_c": draw(st.floats(2_000.0, 12_000.0)),
        "cracked": draw(st.booleans()),
        "lightweight": draw(st.booleans()),
        "lambda_c": draw(st.sampled_from([0.75, 0.85])),
        "c_a": draw(edges(6.0)),
        "thickness": draw(st.floats(6.0, 30.0)),
        "supplementary": draw(st.booleans()),
        "face": draw(st.sampled_from([SOFFIT, SIDE])),
        "edge_reinforcement": draw(st.integers(0, 2)),
        "a_s_n": draw(st.sampled_from([0.0, 0.0, 0.2])),
        "f_y_n": 60_000.0,
        "a_s_v": draw(st.sampled_from([0.0, 0.0, 0.2])),
        "f_y_v": 60_000.0,
        "category": draw(st.integers(0, 5)),
    }
    return {
        "hangs": hangs,
        "rods": rods,
        "bases": base,
        "fixings": draw(fixings()),
        "bonds": draw(bonds()),
        "products": product,
        **draw(surroundings()),
        "run": run,
        "loads": loads,
    }


def points_of(rows):
    """`Points` of a list of hang points."""
    runs, loads = [], []
    for at, row in enumerate(rows):
        if row["run"] is None:
            continue
        loads += [load | {"run": len(runs)} for load in row["loads"]]
        runs.append(row["run"] | {"point": at})
    tables = {}
    for name, defaults in TABLES.items():
        stated = sorted({column for row in rows for column in row.get(name, {})})
        tables[name] = {column: [row.get(name, {}).get(column, defaults[column]) for row in rows] for column in stated}
    return points(**tables, runs=runs, loads=loads, count=len(rows))
