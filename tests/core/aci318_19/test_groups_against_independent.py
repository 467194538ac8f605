"""Random fixtures of one to nine anchors through the whole chain, against own independent scalar code.

The scalar code is `independent_group`, written from a digest of the provisions. Everything that a fixture states goes
in as a hang point with one load case as given. The forces of the anchors of plates in contact, and all that follows
from them, are compared to 1e-6, everything else to 1e-9.
"""

import math
from collections import Counter

import numpy as np
import pytest

from core.aci318_19.group_layouts import SIDES, fixtures
from core.aci318_19.independent_group import check as scalar_check
from core.builders import FACTORED_LOADS, points
from hangpoint.core.aci318_19.pullout import HEADED, PRODUCT
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import OVERSTRENGTH
from hangpoint.core.outcome import EDGES
from hangpoint.core.vocabulary import Link

COUNT = 2000
OBLIQUE = {"vector": 0, "separate": 1, "linear": 2}


def stated(f):
    """A fixture with what the chain derives by other rules set to what the scalar code takes as given.

    Lightweight concrete changes E_c and gives bond a lambda of its own; a post-installed anchor in an earthquake goes
    by other tests, and moments of an earthquake are a second case.
    """
    contact = f["plate"] is not None and f["plate"][4]
    turns = any(f[name] for name in ("m_x", "m_y", "m_z"))
    lambda_a = 1.0 if contact or f["adhesive"] else f["lambda_a"]
    return {**f, "lambda_a": lambda_a, "seismic_075": f["seismic_075"] and f["cast_in"] and not turns}


@pytest.fixture(scope="module")
def made():
    """A lone anchor that is pushed without a plate is refused, and left out."""
    drawn = fixtures(COUNT, seed=20_318)
    return [stated(f) for f in drawn if f["n"] >= 0 or len(f["anchors"]) > 1 or (f["plate"] and f["plate"][4])]


@pytest.fixture(scope="module")
def scalar(made):
    return [scalar_check(f) for f in made]


@pytest.fixture(scope="module")
def verdicts(made):
    return check(packed(made), FACTORED_LOADS)


def column(made, name):
    return [f[name] for f in made]


def packed(made):
    """The fixtures as points."""
    plate = [f["plate"] or (0.0, 0.0, 0.0, 0.0, False) for f in made]
    adhesive = np.array(column(made, "adhesive"))
    cast_in = np.array(column(made, "cast_in"))
    light = np.array(column(made, "lambda_a")) < 1.0
    n_p = [0.0 if f["n_p"] is None or f["headed"] else f["n_p"] for f in made]
    state = [2 if f["n_p"] is None else 1 for f in made]
    return points(
        count=len(made),
        given={
            "n": column(made, "n"),
            "v": [(f["v_x"], f["v_y"]) for f in made],
            "m": [(f["m_x"], f["m_y"], f["m_z"]) for f in made],
            "sustained_fraction": column(made, "sustained"),
            "earthquake_fraction": np.where(column(made, "seismic_075"), 0.3, 0.0),
            "earthquake_fraction_v": 0.0,
        },
        layouts=[
            {"point": at, "x": x, "y": y, "resists_x": along_x, "resists_y": along_y}
            for at, f in enumerate(made)
            for (x, y), (along_x, along_y) in zip(f["anchors"], f["resists"], strict=True)
        ],
        plates={
            # one that hangs free is refused under shear, and shares it as if none were stated
            "stated": [bool(own[4]) for own in plate],
            **{name: [own[place] for own in plate] for place, name in enumerate(("x0", "x1", "y0", "y1"))},
            "contact": [bool(own[4]) for own in plate],
        },
        fixings={
            "welded": column(made, "welded"),
            "thickness": 2.0,
            "grout_pad": column(made, "grout_pad"),
            "oblique": [OBLIQUE[f["oblique"]] for f in made],
            "power": column(made, "power"),
            "bounding": column(made, "bounding"),
            "tension_option": OVERSTRENGTH,
        },
        bases={
            "f_c": column(made, "f_c"),
            "lightweight": light,
            "lambda_c": np.where(light, np.where(cast_in, 0.75, 0.9375), 1.0),
            "cracked": column(made, "cracked"),
            "thickness": column(made, "h_a"),
            "c_a": [[f["edges"][side] for side in SIDES] for f in made],
            "supplementary": column(made, "supplementary"),
            "edge_reinforcement": column(made, "edge_reinforcement"),
            "category": np.where(column(made, "seismic_075"), 3, 0),
        },
        bonds={"tau_cr": column(made, "tau_cr"), "tau_uncr": column(made, "tau_uncr")},
        products={
            "adhesive": adhesive,
            "post_installed": ~cast_in,
            "d_a": column(made, "d_a"),
            "a_se_n": column(made, "a_se"),
            "f_uta": column(made, "f_uta"),
            "f_ya": column(made, "f_ya"),
            "ductile": column(made, "ductile"),
            "h_ef": column(made, "h_ef"),
            "h_min": 0.0,
            "c_ac": column(made, "c_ac"),
            "category": np.where(cast_in, 0, column(made, "category")),
            "product_k_c": column(made, "product_k_c"),
            "k_cr": column(made, "k_cr"),
            "k_uncr": column(made, "k_uncr"),
            "pullout_method": np.where(column(made, "headed"), HEADED, PRODUCT),
            "a_brg": column(made, "a_brg"),
            "n_p_cr": n_p,
            "n_p_uncr": n_p,
            "n_p_eq": n_p,
            "n_p_cr_state": state,
            "n_p_uncr_state": state,
            "n_p_eq_state": 0,
            "n_exponent": 0.0,
            "lightweight_data": 1,
            "v_sa_tested": False,
            "welded_stud": column(made, "welded_stud"),
        },
    )


def rows(outcome, verdicts, at):
    """What a mode says of the case of one point: (anchors, edge, strength, demand, utilisation)."""
    first, last = (
        np.searchsorted(outcome.case_of_row, [at, at + 1]) if outcome.case_of_row is not None else (at, at + 1)
    )
    anchors = verdicts.anchors
    for row in range(first, last):
        if outcome.anchor_of_row is not None:
            own = [anchors.number[outcome.anchor_of_row[row]]]
        elif outcome.sets is not None:
            own = anchors.number[outcome.sets.members(row)].tolist()
        else:
            own = []
        edge = None if outcome.edge_of_row is None else EDGES[outcome.edge_of_row[row]]
        yield own, edge, outcome.design_strength[row], outcome.demand[row], outcome.utilisation[row]


def tolerance(f):
    return 1e-6 if f["plate"] is not None and f["plate"][4] else 1e-9


def test_every_fixture_is_checked(made, verdicts):
    assert (verdicts.refusal < 0).all()
    assert not verdicts.unchecked.any()
    assert Counter(len(f["anchors"]) for f in made)[4] > 200


def test_forces_of_the_anchors(made, scalar, verdicts):
    """Tension of each anchor, none where it is pushed, and shear, relative to the largest of the fixture."""
    anchors = verdicts.anchors
    starts = np.searchsorted(anchors.case, np.arange(len(made)))
    for at, (f, expected) in enumerate(zip(made, scalar, strict=True)):
        own = slice(starts[at], starts[at] + len(f["anchors"]))
        forces = expected["anchors"]
        tension = [max(each["tension"], 0.0) for each in forces]
        scale = max(max(abs(each["tension"]) for each in forces), abs(f["n"]), 1e-12)
        np.testing.assert_allclose(anchors.n_ua[own], tension, rtol=0, atol=tolerance(f) * scale)
        v = max(max(math.hypot(each["v_x"], each["v_y"]) for each in forces), 1e-12)
        np.testing.assert_allclose(anchors.v_x[own], [each["v_x"] for each in forces], rtol=0, atol=1e-9 * v)
        np.testing.assert_allclose(anchors.v_y[own], [each["v_y"] for each in forces], rtol=0, atol=1e-9 * v)


def anchor_modes(verdicts):
    return {mode.mode.value.code: mode for mode in verdicts.modes if mode.mode.link is not Link.ROD}


def test_every_row_of_every_mode(made, scalar, verdicts):
    """The sets of anchors, edge by edge, their strengths, demands and utilisations."""
    compared, limits, numbers = Counter(), [], []
    for code, mode in anchor_modes(verdicts).items():
        if mode.outcome is None or mode.outcome.record is None or code == "tension_shear_interaction":
            continue
        for at, (f, expected) in enumerate(zip(made, scalar, strict=True)):
            found = [row for row in rows(mode.outcome, verdicts, at) if row[4] > 0]
            theirs = [row for row in expected["modes"].get(code, []) if row["utilisation"] > 0]
            if code in ("steel_tension", "pullout", "steel_shear", "sustained_bond"):
                theirs = [{**row, "anchors": own} for (own, *_), row in zip(found, theirs, strict=True)]
            assert Counter((tuple(own) or (0,), edge) for own, edge, *_ in found) == Counter(
                (tuple(row["anchors"]), row["edge"]) for row in theirs
            ), (code, at, f)
            ours = sorted((tuple(own) or (0,), edge or "", *numbers) for own, edge, *numbers in found)
            wanted = sorted(
                (tuple(row["anchors"]), row["edge"] or "", row["strength"], row["demand"], row["utilisation"])
                for row in theirs
            )
            for one, other in zip(ours, wanted, strict=True):
                numbers.append((one[2:], other[2:]))
                limits.append((tolerance(f), code, at, one, other))
                compared[code] += 1
    ours, wanted = np.moveaxis(np.array(numbers), 1, 0)
    within = np.isclose(ours, wanted, rtol=np.array([[own[0]] for own in limits]), atol=0).all(axis=1)
    assert [own for own, good in zip(limits, within, strict=True) if not good][:5] == []
    assert {code for code, number in compared.items() if number > 50} >= {
        "steel_tension",
        "pullout",
        "adhesive_bond",
        "sustained_bond",
        "steel_shear",
        "concrete_breakout_tension",
        "side_face_blowout",
        "concrete_breakout_shear",
        "pryout",
    }, compared


def test_largest_utilisation_of_each_mode(made, scalar, verdicts):
    """Also of the interaction, which has one row a case."""
    for code, mode in anchor_modes(verdicts).items():
        for at, (f, expected) in enumerate(zip(made, scalar, strict=True)):
            wanted = expected["largest"].get(code, 0.0)
            found = mode.utilisation[at] if mode.applies[at] else 0.0
            assert found == pytest.approx(wanted, rel=tolerance(f), abs=1e-12), (code, at)
