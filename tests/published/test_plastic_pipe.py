"""Plastic pipe against published dimensions and weights.

* ``fluids`` (ASTM D1785 and F441): every least wall.
* A public engineering table of ASTM D1785 pipe, schedules 40 and 80: average inside diameter and weight of every size.
* A second public list, PVC and CPVC of schedule 40, two decimals; a third of CPVC of both schedules.
"""

import numpy as np
import pytest
from fluids.piping import schedule_lookup

from hangpoint.core.loads.pipe import pipe_weight
from hangpoint.core.loads.pipe_sizes import MATERIALS, WALL_FACTOR, nominal, pipe_size, schedules, sizes

IN = 25.4
PVC = """
1/2 .608 .161 .528 .202
3/4 .810 .214 .724 .273
1 1.033 .315 .935 .402
1-1/4 1.364 .426 1.256 .554
1-1/2 1.592 .509 1.476 .673
2 2.049 .682 1.913 .932
2-1/2 2.445 1.076 2.289 1.419
3 3.042 1.409 2.864 1.903
3-1/2 3.520 1.697 3.326 2.322
4 3.998 2.006 3.786 2.782
5 5.017 2.726 4.767 3.867
6 6.031 3.535 5.709 5.313
8 7.943 5.305 7.565 8.058
10 9.976 7.532 9.492 11.956
12 11.890 9.949 11.294 16.437
14 13.072 11.810 12.410 19.790
16 14.940 15.416 14.214 25.430
18 16.809 20.112 16.014 31.830
20 18.743 23.624 17.814 40.091
24 22.544 32.873 21.418 56.882
"""


def rows():
    """Size, schedule, average inside diameter and weight, as printed."""
    for line in PVC.strip().splitlines():
        size, inside_40, weight_40, inside_80, weight_80 = line.split()
        yield size, "40", float(inside_40), float(weight_40)
        yield size, "80", float(inside_80), float(weight_80)


def empty(material, size, schedule, wall=None):
    """Weight of the pipe alone, lb/ft, with the wall that the service takes or another one."""
    pipe = pipe_size(material, size, schedule)
    column, none = np.array([pipe.outside_diameter]), np.zeros(1)
    return pipe_weight(
        d_o=column,
        t=np.array([pipe.wall if wall is None else wall]),
        rho_pipe=np.array([MATERIALS[material]]),
        rho_contents=none,
        rho_test=none,
        t_ins=none,
        rho_ins=none,
        q_jacket=none,
        allowance=none,
    ).w_pipe[0]


@pytest.mark.parametrize(
    ("material", "names"), [("pvc", ("40D1785", "80D1785")), ("cpvc", ("S40F441IPS", "S80F441IPS"))]
)
def test_every_least_wall_by_fluids(material, names):
    """fluids 1.3, its tables of ASTM D1785 and F441, in inches to the last digit; no size of 1/2 or more is missing."""
    for schedule, name in zip(("40", "80"), names, strict=True):
        numbers, _, outside, walls = schedule_lookup[name][:4]
        table = {n: (d / IN, t / IN) for n, d, t in zip(numbers, outside, walls, strict=True) if n >= 0.5}
        assert sorted(table) == [nominal(size) for size in sizes(material)]
        for size in sizes(material):
            pipe = pipe_size(material, size, schedule)
            least = pipe.wall / WALL_FACTOR[material]
            assert (pipe.outside_diameter, least) == pytest.approx(table[nominal(size)], abs=1e-6), (size, schedule)
    assert {name for size in sizes(material) for name in schedules(material, size)} == {"40", "80"}


def test_average_bore():
    """The table's average inside diameters, to 0.002 in: they are printed to 0.001, and so are the walls."""
    seen = 0
    for size, schedule, inside, _ in rows():
        pipe = pipe_size("pvc", size, schedule)
        bore = pipe.outside_diameter - 2 * pipe.wall
        assert bore == pytest.approx(inside, abs=0.002), (size, schedule)
        seen += 1
    assert seen == 2 * len(sizes("pvc"))


def test_weights_of_every_size():
    """The table's weights: within 2 % with 1.40 g/cm3 and 1.06 of the least wall.

    The table's own specific gravity isn't stated. On its own average bore it is 1.38 in most
    sizes and 1.425 in the largest, around the 1.40 +/- 0.02 of the material: 2 % is the spread of the source.
    """
    for size, schedule, _, printed in rows():
        assert empty("pvc", size, schedule) == pytest.approx(printed, rel=0.02), (size, schedule)


def test_the_least_wall_is_too_light():
    """With the least wall every size is 3 to 7.2 % below the printed weight."""
    for size, schedule, _, printed in rows():
        least = pipe_size("pvc", size, schedule).wall / 1.06
        assert 0.03 < 1.0 - empty("pvc", size, schedule, least) / printed < 0.072, (size, schedule)


def test_the_specific_gravity_behind_the_table():
    """Weight over the annulus of the printed average inside diameter is within 1.40 +/- 0.025 g/cm3 in every size."""
    for size, schedule, inside, printed in rows():
        outside = pipe_size("pvc", size, schedule).outside_diameter
        gravity = printed * 144 / (np.pi / 4 * (outside**2 - inside**2)) / 62.42796
        assert gravity == pytest.approx(1.40, abs=0.0255), (size, schedule)


SECOND = """
1/2 .16 .17
3/4 .21 .23
1 .32 .34
1-1/4 .43 .46
1-1/2 .51 .55
2 .68 .74
2-1/2 1.07 1.18
3 1.41 1.54
4 2.01 2.20
6 3.53 3.86
8 5.39 5.81
10 7.55 8.24
12 10.01 10.89
"""


def test_second_list():
    """PVC within 2 % and half a digit; CPVC is printed up to 4 % lighter than 1.55 g/cm3, which is the safe side."""
    for size, pvc, cpvc in (line.split() for line in SECOND.strip().splitlines()):
        printed, computed = float(pvc), empty("pvc", size, "40")
        assert computed == pytest.approx(printed, abs=0.005 + 0.02 * printed), size
        printed, computed = float(cpvc), empty("cpvc", size, "40")
        assert -0.005 < computed - printed < 0.005 + 0.04 * printed, size


def test_a_heavier_list_of_cpvc():
    """A third public list prints CPVC 4.5 to 8 % above 1.55 g/cm3: it is recorded, not followed.

    Its weights over its own average inside diameters need 1.63 to 1.68 g/cm3, more than any CPVC compound is known to
    have. Filled with water, NPS 4 is 1.7 % lighter here than by that list.
    """
    for size, schedule, inside, printed in (
        ("1", "40", 1.033, 0.371),
        ("2", "40", 2.049, 0.803),
        ("3", "40", 3.042, 1.660),
        ("4", "40", 3.998, 2.363),
        ("6", "40", 6.031, 4.164),
        ("8", "40", 7.943, 6.268),
        ("10", "40", 9.976, 8.886),
        ("2", "80", 1.913, 1.097),
        ("4", "80", 3.786, 3.277),
        ("6", "80", 5.709, 6.258),
        ("8", "80", 7.565, 9.506),
        ("10", "80", 9.492, 14.095),
    ):
        assert 0.045 < 1.0 - empty("cpvc", size, schedule) / printed < 0.08, (size, schedule)
        outside = pipe_size("cpvc", size, schedule).outside_diameter
        gravity = printed * 144 / (np.pi / 4 * (outside**2 - inside**2)) / 62.42796
        assert 1.60 < gravity < 1.70, (size, schedule)
    water = 62.4 / 144 * np.pi / 4 * 3.998**2
    assert 1 - (empty("cpvc", "4", "40") + water) / (2.363 + water) == pytest.approx(0.017, abs=0.003)


def test_the_heavier_wall_is_the_heavier_filled_pipe():
    """Plastic is denser than water, so what the average wall adds is more than the water that it takes."""
    for material in ("pvc", "cpvc"):
        assert MATERIALS[material] > 62.43
