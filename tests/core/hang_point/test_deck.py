"""Anchors in the flute of a deck, by hand; the strengths are invented.

phi of pullout in category 1 is .65, of ductile steel .75 in tension and .65 in shear (Table 17.5.3).
"""

import numpy as np
import pytest

from core.builders import FACTORED_LOADS, IN_FLUTE
from core.hang_point.verdicts import checked, found_on, governing_mode, mode_of, refusal_of
from hangpoint.core.hang_point.points import OVERSTRENGTH
from hangpoint.core.hang_point.surroundings import DECK
from hangpoint.core.vocabulary import Finding, Mode

TESTED = {
    "n_p_cr": 1_450.0,
    "n_p_uncr": 2_180.0,
    "n_p_eq": 1_300.0,
    "n_exponent": 0.5,
    "f_c_ref": 3_000.0,
    "v_sa": 2_140.0,
    "v_sa_eq": 1_820.0,
    "lightweight_data": 1,
    "product_k_c": False,
}
"""What was tested in the flute, in place of the strengths in concrete."""


def in_deck(basis=FACTORED_LOADS, *, bases=None, products=None, decks=None, **tables):
    return checked(
        basis,
        products=TESTED | (products or {}),
        decks=IN_FLUTE | (decks or {}),
        surroundings={"kind": DECK},
        bases={"f_c": 3_000.0, "lightweight": True, "lambda_c": 0.85} | (bases or {}),
        **tables,
    )


@pytest.mark.parametrize(
    ("f_c", "cracked", "strength"),
    [
        (3_000.0, True, 942.5),  # .65 x 1,450
        (4_000.0, True, 1_088.3),  # x sqrt(4/3)
        (2_500.0, True, 860.4),  # x sqrt(2.5/3)
        (9_000.0, True, 1_539.1),  # 8,000 psi is the limit of 17.3.1: x sqrt(8/3)
        (3_000.0, False, 1_417.0),  # .65 x 2,180
    ],
)
def test_tension_by_tests_scaled_with_the_fill(f_c, cracked, strength):
    """Reading 37; sand-lightweight fill takes nothing more off, because the tests were made in it."""
    verdicts = in_deck(hangs={"factored": 500.0}, bases={"f_c": f_c, "cracked": cracked})
    found = mode_of(verdicts, Mode.PULLOUT)
    assert found.design_strength[0] == pytest.approx(strength, abs=0.05)
    assert verdicts.utilisation[0] == pytest.approx(500 / strength, rel=1e-4)
    assert governing_mode(verdicts) is Mode.PULLOUT


def test_tension_and_shear():
    """n 500 / 942.5 = .5305, v 400 / (.65 x 2,140 = 1,391) = .2876; both above .2: .8181 / 1.2 = .6817."""
    verdicts = in_deck(hangs={"factored": 500.0, "v_factored": (0.0, 400.0)})
    assert mode_of(verdicts, Mode.STEEL_SHEAR).design_strength[0] == pytest.approx(1_391.0)
    assert mode_of(verdicts, Mode.INTERACTION).utilisation[0] == pytest.approx(0.6817, abs=5e-5)
    for mode in (Mode.CONCRETE_BREAKOUT_TENSION, Mode.CONCRETE_BREAKOUT_SHEAR, Mode.PRYOUT, Mode.SIDE_FACE_BLOWOUT):
        assert not mode_of(verdicts, mode).applies[0]


def test_earthquake():
    """Category D, half of the load earthquake: .75 x .65 x 1,300 = 633.75 and .65 x 1,820 = 1,183."""
    quake = {"factored": 300.0, "earthquake_fraction": 0.5, "v_factored": (100.0, 0.0), "earthquake_fraction_v": 0.5}
    verdicts = in_deck(
        hangs=quake,
        bases={"category": 3},
        fixings={"tension_option": OVERSTRENGTH, "shear_option": OVERSTRENGTH},
    )
    assert refusal_of(verdicts) is None
    assert mode_of(verdicts, Mode.PULLOUT).design_strength[0] == pytest.approx(633.75)
    assert mode_of(verdicts, Mode.STEEL_SHEAR).design_strength[0] == pytest.approx(1_183.0)


def test_a_cast_in_insert_in_category_d_by_its_seismic_tests():
    """phi .70 of a cast-in anchor: .70 x 1,300 = 910, gravity alone."""
    insert = {"post_installed": False, "category": 0}
    verdicts = in_deck(hangs={"factored": 300.0}, products=insert, bases={"category": 3})
    assert mode_of(verdicts, Mode.PULLOUT).design_strength[0] == pytest.approx(910.0)


def test_anchors_in_one_flute_keep_their_spacing_across_points():
    """s_min 9.75 in of the tests, farther than 3 h_ef: two points 9.7 in apart, and 9.8."""
    for apart, seen in ((9.7, True), (9.8, False)):
        verdicts = in_deck(hangs={"factored": 300.0}, products={"s_min": 9.75, "h_ef": 2.0}, sites={"x": [0.0, apart]})
        assert (Finding.NEIGHBOUR_BELOW_SPACING in found_on(verdicts)) is seen
        assert mode_of(verdicts, Mode.PULLOUT).design_strength[0] == pytest.approx(942.5)


def test_a_deck_beside_a_slab_in_one_batch():
    """Each as if alone: the slab has breakout, the deck has not."""
    both = checked(
        FACTORED_LOADS,
        hangs={"factored": 500.0, "v_factored": (0.0, 100.0)},
        decks={name: [value, 0] for name, value in IN_FLUTE.items()},
        surroundings={"kind": [DECK, 0]},
    )
    for row, decks, kind in ((0, IN_FLUTE, DECK), (1, {}, 0)):
        alone = checked(
            FACTORED_LOADS,
            hangs={"factored": 500.0, "v_factored": (0.0, 100.0)},
            decks=decks,
            surroundings={"kind": kind},
        )
        for mode in (each.mode for each in both.modes):
            one, other = mode_of(both, mode), mode_of(alone, mode)
            assert one.applies[row] == other.applies[0]
            assert one.reason[row] == other.reason[0] or one.applies[row]
            np.testing.assert_allclose(one.utilisation[row], other.utilisation[0], rtol=1e-13)
