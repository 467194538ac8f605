"""Elastic shear of bolt groups against textbook examples: V/n + T r / sum(r**2), the worst bolt.

Each is an eccentric shear along y. The formulas take any units that belong together.
"""

import numpy as np
import pytest

from core.statics.groups import one_group


def forces(x, y, v_y, arm):
    return one_group(x=x, y=y, v_y=v_y, at=(arm, 0.0)).anchors.v_a


def test_bracket_of_four_bolts():
    """V. B. Bhandari, Design of Machine Elements, example 7.3 (book title from memory; data as in a public collection
    of worked solutions): 10 kN at 500 mm, bolts 200 x 150 mm. Primary 2.5 kN, secondary 10.0 kN.

    The printed answer is the size M20 alone. Largest 12.0934 and least 8.1394 kN by ezbolt 0.3.0, a general library of
    bolt groups, as it was read.
    """
    x, y = [-100, 100, 100, -100], [-75, -75, 75, 75]
    found = one_group(x=x, y=y, v_y=10.0, at=(500.0, 0.0))
    assert found.group.v_y_1[0] == pytest.approx(2.5, abs=5e-2)
    assert found.group.t_1[0] * 125 == pytest.approx(10.0, abs=5e-2)
    np.testing.assert_allclose(np.sort(found.anchors.v_a), [8.13941, 8.13941, 12.093387, 12.093387], atol=5e-6)
    core = np.sqrt(4 * 1e3 * found.anchors.v_a.max() / (np.pi * 0.5 * 400 / 2.5))
    assert 16 < core / 0.8 <= 20


def test_three_bolts_in_a_line():
    """The same, example 7.4: 5 kN at 305 mm, three bolts at 75 mm; 1.6667 + 10.1667 = 11.8333 kN.

    The printed answer is M20; the forces are by hand.
    """
    found = forces([-75, 0, 75], [0, 0, 0], 5.0, 305.0)
    assert found.max() == pytest.approx(11.8333, abs=5e-5)


def test_bolted_bracket():
    """Shigley, Mechanical Engineering Design, the bolted bracket of chapter 8 (from memory): 16 kN at 425 mm, bolts at
    +-75, +-60 mm; primary 4 kN, secondary 17.7 kN, largest 21.0 kN, least 14.8 kN.
    """
    found = one_group(x=[-75, 75, 75, -75], y=[-60, -60, 60, 60], v_y=16.0, at=(425.0, 0.0))
    assert found.group.v_y_1[0] == pytest.approx(4, abs=0.05)
    assert found.group.t_1[0] * np.hypot(75, 60) == pytest.approx(17.7, abs=0.05)
    assert found.anchors.v_a.max() == pytest.approx(21.0, abs=0.05)
    assert found.anchors.v_a.min() == pytest.approx(14.8, abs=0.05)


def test_eccentric_shear_of_six_bolts():
    """Salmon and Johnson, Steel Structures, eccentric shear (from memory): 24 kip at 5 in, two columns of three, 4 in
    by 3 in; sum of r**2 60 in2, 6.0 kip across, 4.0 + 4.0 kip along, 10.0 kip on the worst.
    """
    found = one_group(x=[-2, -2, -2, 2, 2, 2], y=[-3, 0, 3, -3, 0, 3], v_y=24.0, at=(5.0, 0.0))
    assert found.group.j_r[0] == pytest.approx(60, abs=0.5)
    worst = np.argmax(found.anchors.v_a)
    assert abs(found.anchors.v_a_x[worst]) == pytest.approx(6.0, abs=0.05)
    assert found.anchors.v_a_y[worst] == pytest.approx(8.0, abs=0.05)
    assert found.anchors.v_a[worst] == pytest.approx(10.0, abs=0.05)
