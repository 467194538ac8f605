"""Electrical conduit: weights, diameters, fill.

* Modern Commercial Wiring (Goodheart-Willcox, 2015), p. 65, figure 5-12: EMT and RMC, lb per 1,000 ft.
* Association of steel tube makers, tables of nominal weights: EMT whole; of IMC and RMC 1-1/4, 1-1/2, 2-1/2, 3-1/2.
* Public utility district of Snohomish County, material standard 250027.1: PVC conduit, lb per 100 ft.
* NEC chapter 9, table 4, by a secondary print: inside diameters and 0.40 of the bore, EMT and IMC.
* From memory: least weights of RMC and IMC with couplings, and the remaining sizes.
"""

import numpy as np
import pytest

from hangpoint.core.loads.conduit import RHO_FILL, conduit_size, conduit_sizes, conduit_weight
from hangpoint.core.loads.pipe_sizes import pipe_size

TEXTBOOK = {
    "rmc": {
        "1/2": (0.840, 0.109, 820),
        "3/4": (1.050, 0.113, 1120),
        "1": (1.315, 0.133, 1600),
        "2": (2.375, 0.154, 3500),
        "3": (3.500, 0.216, 7120),
        "4": (4.500, 0.237, 10300),
    },
    "emt": {
        "1/2": (0.706, 0.042, 295),
        "3/4": (0.922, 0.049, 445),
        "1": (1.163, 0.057, 650),
        "2": (2.197, 0.065, 1410),
        "3": (3.500, 0.072, 2700),
        "4": (4.500, 0.083, 4000),
    },
}
ASSOCIATION = {
    "emt": {
        "1/2": (0.706, 30),
        "3/4": (0.922, 46),
        "1": (1.163, 67),
        "1-1/4": (1.510, 101),
        "1-1/2": (1.740, 116),
        "2": (2.197, 148),
        "2-1/2": (2.875, 216),
        "3": (3.500, 263),
        "3-1/2": (4.000, 349),
        "4": (4.500, 393),
    },
    "imc": {"1-1/4": (1.638, 158), "1-1/2": (1.883, 194), "2-1/2": (2.857, 441), "3-1/2": (3.971, 629)},
    "rmc": {"1-1/4": (1.660, 218), "1-1/2": (1.900, 263), "2-1/2": (2.875, 559), "3-1/2": (4.000, 880)},
}
UTILITY = {
    "pvc40": {"1": 34, "2": 73, "2-1/2": 124, "3": 163, "4": 232, "6": 409},
    "pvc80": {"1": 44, "2": 101, "3": 210, "4": 308, "6": 588},
}
LEAST = {
    "rmc": {"1/2": 79.0, "3/4": 105.0, "1": 153.0, "2": 332.0, "3": 682.6, "4": 972.3},
}
TABLE_4 = {
    "emt": {
        "1/2": (0.622, 0.122),
        "3/4": (0.824, 0.213),
        "1": (1.049, 0.346),
        "1-1/4": (1.380, 0.598),
        "1-1/2": (1.610, 0.814),
        "2": (2.067, 1.342),
        "2-1/2": (2.731, 2.343),
        "3": (3.356, 3.538),
        "3-1/2": (3.834, 4.618),
        "4": (4.334, 5.901),
    },
    "imc": {
        "1/2": (0.660, 0.137),
        "3/4": (0.864, 0.235),
        "1": (1.105, 0.384),
        "1-1/4": (1.448, 0.658),
        "1-1/2": (1.683, 0.889),
        "2": (2.150, 1.452),
        "2-1/2": (2.557, 2.054),
        "3": (3.176, 3.169),
        "3-1/2": (3.671, 4.234),
        "4": (4.166, 5.452),
    },
}


def weigh(kind, size, *, fill=0.0, rho_fill=RHO_FILL, w_cables=0.0):
    conduit = conduit_size(kind, size)
    values = {
        "w_conduit": conduit.weight,
        "d_i": conduit.inside_diameter,
        "fill": fill,
        "rho_fill": rho_fill,
        "w_cables": w_cables,
    }
    return conduit_weight(**{name: np.array([value]) for name, value in values.items()})


def test_never_lighter_than_a_list():
    """Every figure of every printed list is reached, and the heaviest is met exactly."""
    lists = {}
    for kind, sizes in TEXTBOOK.items():
        for size, (_, _, figure) in sizes.items():
            lists.setdefault((kind, size), []).append(figure / 1000)
    for kind, sizes in ASSOCIATION.items():
        for size, (_, figure) in sizes.items():
            lists.setdefault((kind, size), []).append(figure / 100)
    for kind, sizes in UTILITY.items():
        for size, figure in sizes.items():
            lists.setdefault((kind, size), []).append(figure / 100)
    assert len(lists) == 6 + 10 + 4 + 4 + 6 + 5
    for (kind, size), figures in lists.items():
        found = conduit_size(kind, size)
        if found.source in ("minimum", "nominal"):
            assert found.weight > max(figures), (kind, size)
        else:
            assert found.weight == pytest.approx(max(figures), abs=1e-9), (kind, size)


def test_lists_of_rigid_conduit_disagree():
    """Trade size 1/2: 82 by the textbook, 79.0 as the least weight with a coupling (from memory); 82 is taken.

    The least weights of all six sizes lie 4 to 6 % below the textbook.
    """
    assert conduit_size("rmc", "1/2").weight == 0.82
    for size, least in LEAST["rmc"].items():
        textbook = TEXTBOOK["rmc"][size][2] / 10
        assert 0.035 < 1 - least / textbook < 0.065, size
        assert conduit_size("rmc", size).weight * 100 >= textbook


def test_lists_of_tubing_disagree():
    """EMT 3: 270 by the textbook, 263 by the association; EMT 2: 141 and 148. The heavier is taken in both."""
    assert conduit_size("emt", "3")[2:] == (2.70, "textbook")
    assert conduit_size("emt", "2")[2:] == (1.48, "association")


def test_nominal_dimensions_do_not_give_the_weight():
    """Steel of 490 lb/ft3 on the textbook's walls is up to 6 % off its weights, either way: hence the table."""
    off = []
    for sizes in TEXTBOOK.values():
        for outside, wall, figure in sizes.values():
            off.append(np.pi * (outside - wall) * wall * 490 / 144 / (figure / 1000) - 1)
    assert min(off) == pytest.approx(-0.023, abs=0.005)
    assert max(off) == pytest.approx(0.065, abs=0.005)


def test_outside_diameters():
    for kind, sizes in ASSOCIATION.items():
        for size, (outside, _) in sizes.items():
            assert conduit_size(kind, size).outside_diameter == outside, (kind, size)
    for kind in ("rmc", "pvc40", "pvc80"):
        for size in conduit_sizes(kind):
            assert conduit_size(kind, size).outside_diameter == pipe_size("steel", size, "STD").outside_diameter


def test_bore_and_forty_percent():
    """NEC chapter 9, table 4: inside diameters exact, 0.40 of the area to 0.001 in2 (0.0015 where it rounds twice)."""
    for kind, sizes in TABLE_4.items():
        assert list(sizes) == list(conduit_sizes(kind))
        for size, (inside, forty) in sizes.items():
            assert conduit_size(kind, size).inside_diameter == inside
            assert 0.40 * weigh(kind, size).a_bore[0] == pytest.approx(forty, abs=0.0015), (kind, size)


def test_bore_of_plastic_conduit_is_that_of_the_pipe():
    """The average inside diameters of ASTM D1785 pipe, which `test_plastic_pipe` checks, to 1 % (1/2: 0.602, 0.608)."""
    for kind, schedule in (("pvc40", "40"), ("pvc80", "80")):
        for size in conduit_sizes(kind):
            pipe = pipe_size("pvc", size, schedule)
            bore = pipe.outside_diameter - 2 * pipe.wall
            assert conduit_size(kind, size).inside_diameter == pytest.approx(bore, rel=0.012), (kind, size)


PIPE_40 = dict(
    zip(
        conduit_sizes("pvc40"),
        (0.161, 0.214, 0.315, 0.426, 0.509, 0.682, 1.076, 1.409, 1.697, 2.006, 2.726, 3.535),
        strict=True,
    )
)
PIPE_80 = dict(
    zip(
        conduit_sizes("pvc80"),
        (0.202, 0.273, 0.402, 0.554, 0.673, 0.932, 1.419, 1.903, 2.322, 2.782, 3.867, 5.313),
        strict=True,
    )
)


def test_plastic_conduit_against_plastic_pipe():
    """Conduit of the utility's list is 7 to 16 % heavier than printed D1785 pipe of the same size, bell and all.

    The sizes from memory must lie in that range too.
    """
    for kind, pipe in (("pvc40", PIPE_40), ("pvc80", PIPE_80)):
        for size, printed in pipe.items():
            found = conduit_size(kind, size)
            assert (found.source == "utility") == (size in UTILITY[kind])
            assert 1.06 < found.weight / printed < 1.17, (kind, size)


def test_conductors_of_a_full_tube():
    """EMT 2 at 0.40: 1.342 in2 of conductors. Copper on 0.55 of it is 1.342 x 0.55 x 3.876 = 2.86 lb/ft by hand; the
    older tables' maximum of conductors adds about 2.6 lb/ft (from memory). Where nothing is stated more is taken.
    """
    assert weigh("emt", "2", fill=0.40, rho_fill=0.55 * 558).w_fill[0] == pytest.approx(2.86, abs=0.005)
    bound = weigh("emt", "2", fill=0.40)
    assert bound.w_fill[0] == pytest.approx(1.342 * 0.70 * 3.876, rel=1e-3)
    assert bound.w_fill[0] > 2.86
    assert bound.w_dead[0] == pytest.approx(1.48 + 3.64, abs=0.005)


def test_building_wire_is_lighter_than_the_density_of_the_fill():
    """THHN, weight per foot over the section of NEC chapter 9, table 5: both from memory.

    12 AWG 24 lb/1,000 ft on 0.0133 in2, 500 kcmil 1,655 on 0.7073, 1,000 kcmil 3,240 on 1.3478: 260 to 346 lb/ft3.
    """
    for pounds, section in ((24, 0.0133), (1_655, 0.7073), (3_240, 1.3478)):
        density = pounds / 1000 / section * 144
        assert 0.6 * RHO_FILL < density < 0.9 * RHO_FILL
