"""Hypothesis strategies: anchors, hang points and runs, one row at a time. Everything is invented."""

import numpy as np
from hypothesis import settings
from hypothesis import strategies as st

from core.builders import EXPANSION, HEADED_BOLT, RUN, anchor_cases, points, rod
from hangpoint.core.aci318_19.pullout import HEADED, HOOKED, PRODUCT
from hangpoint.core.hang_point.points import FORCES, PIPE, SIDE, SOFFIT, WEIGHT
from hangpoint.core.hanger.rod import RULES, THREADS

QUICK = settings(deadline=None, max_examples=60)


def edges(h_ef):
    """Four edge distances between an eighth and three times the reach of breakout, or none."""
    one = st.one_of(st.just(np.inf), st.floats(0.125, 3.0).map(lambda part: 1.5 * h_ef * part))
    return st.tuples(one, one, one, one)


@st.composite
def anchor_rows(draw):
    """One row of `AnchorCases` as a dictionary of scalars."""
    kind = draw(st.sampled_from(["headed", "hooked", "expansion", "undercut"]))
    h_ef = draw(st.floats(1.5, 28.0))
    row = {
        "h_ef": h_ef,
        "c_a": draw(edges(h_ef)),
        "ductile": draw(st.booleans()),
        "cracked": draw(st.booleans()),
        "supplementary": draw(st.booleans()),
        "f_c_specified": draw(st.floats(2_000.0, 12_000.0)),
        "lightweight": draw(st.booleans()),
        "lambda_c": draw(st.sampled_from([0.75, 0.85])),
        "n_ua": draw(st.floats(0.0, 50_000.0)),
        "a_brg": draw(st.floats(0.2, 5.0)),
    }
    if kind == "headed":
        return row | {"pullout_method": HEADED}
    if kind == "hooked":
        return row | {"pullout_method": HOOKED, "headed": False, "e_h": draw(st.floats(1.0, 5.0))}
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
        }
    )


def cases_of(rows):
    """`AnchorCases` of rows that may state different columns."""
    defaults = {name: getattr(anchor_cases(), name)[0] for name in sorted({name for row in rows for name in row})}
    return anchor_cases(**{name: [row.get(name, default) for row in rows] for name, default in defaults.items()})


@st.composite
def spans(draw, most=6):
    """Spans of a run, ft; none more than four times another, so that rounding stays rounding."""
    return tuple(draw(st.lists(st.floats(5.0, 20.0), min_size=1, max_size=most)))


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
        hangs |= {"dead": draw(weight), "contents": draw(weight), "live": draw(weight)}
        hangs["shear"] = draw(st.sampled_from([False, False, False, True]))
    product = draw(st.sampled_from([{}, HEADED_BOLT, HEADED_BOLT | {"h_ef": 12.0, "h_min": 14.0}]))
    if not product:
        product = {
            "n_p_cr_state": draw(st.sampled_from([0, 1, 1, 2])),
            "adhesive": draw(st.sampled_from([False, False, True])),
            "removable": draw(st.booleans()),
        }
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
        "category": draw(st.integers(0, 5)),
    }
    return {"hangs": hangs, "rods": rods, "bases": base, "products": product, "run": run, "loads": loads}


def points_of(rows):
    """`Points` of a list of hang points."""
    default = points()
    runs, loads = [], []
    for at, row in enumerate(rows):
        if row["run"] is None:
            continue
        loads += [load | {"run": len(runs)} for load in row["loads"]]
        runs.append(row["run"] | {"point": at})
    tables = {}
    for name in ("hangs", "rods", "bases", "products"):
        stated = sorted({column for row in rows for column in row[name]})
        tables[name] = {
            column: [row[name].get(column, getattr(getattr(default, name), column)[0]) for row in rows]
            for column in stated
        }
    return points(**tables, runs=runs, loads=loads, count=len(rows))
