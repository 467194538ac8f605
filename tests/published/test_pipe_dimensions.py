"""Dimensions of pipe and tube against independent tables.

* ``fluids`` (pipe schedules of ASME B36.10M and B36.19M in millimetres): every shipped steel and stainless row.
* Hydraulic Institute, Engineering Data Book, data files (B36.10M-2018, B36.19M, ASTM B88-16): stainless and copper.
* Copper tube handbook of the copper industry, table 14.2f: inside diameters of types K and L.
"""

import pytest
from fluids.piping import schedule_lookup

from hangpoint.core.loads.pipe_sizes import nominal, outside_diameter, pipe_size, schedules, sizes

IN = 25.4


def _metric(schedule):
    names, _, outside, walls = schedule_lookup[schedule][:4]
    return {float(n): (d, t) for n, d, t in zip(names, outside, walls, strict=True)}


ROWS = [
    (material, size, schedule)
    for material in ("steel", "stainless")
    for size in sizes(material)
    for schedule in schedules(material, size)
    if schedule != "10-A795"
]


def test_every_steel_and_stainless_row_by_fluids():
    """fluids 1.3, its schedules of B36.10M and B36.19M; 214 steel and 80 stainless rows.

    Tolerances are the metric standards' rounding: outside diameters to 0.1 mm, to whole mm from NPS 14 (B36.10M
    prints 457 for 457.2 mm), walls to 0.01 mm; the wall of NPS 1-1/2 XXS is printed 0.01 mm short of 0.400 in.
    """
    assert len(ROWS) == 294
    for material, size, schedule in ROWS:
        pipe = pipe_size(material, size, schedule)
        outside, wall = _metric(schedule.removesuffix("-B36.10M"))[nominal(size)]
        assert pipe.outside_diameter * IN == pytest.approx(outside, abs=0.45 if nominal(size) >= 14 else 0.055)
        assert pipe.wall * IN == pytest.approx(wall, abs=0.0105)
        assert outside_diameter(material, size) == pipe.outside_diameter
        assert pipe.nominal == nominal(size)


def test_no_row_of_fluids_is_missing():
    """fluids 1.3: every size of ours that it has in a schedule of ours is shipped, under one name or another."""
    for material, names in (
        ("steel", "5 10 20 30 40 60 80 100 120 140 160 STD XS XXS"),
        ("stainless", "5S 10S 40S 80S"),
    ):
        for schedule in names.split():
            table = _metric(schedule)
            for size in sizes(material):
                shipped = {name.removesuffix("-B36.10M") for name in schedules(material, size)}
                assert (nominal(size) in table) == (schedule in shipped), (material, size, schedule)


STAINLESS = """
1/2 .840 .065 .083 .109 .147
3/4 1.05 .065 .083 .113 .154
1 1.315 .065 .083 .133 .179
1-1/4 1.66 .065 .109 .140 .191
1-1/2 1.9 .065 .109 .145 .200
2 2.375 .065 .109 .154 .218
2-1/2 2.875 .083 .120 .203 .276
3 3.5 .083 .120 .216 .300
3-1/2 4 .083 .120 .226 .318
4 4.5 .083 .120 .237 .337
5 5.563 .109 .134 .258 .375
6 6.625 .109 .134 .280 .432
8 8.625 .109 .148 .322 .500
10 10.75 .134 .165 .365 .500
12 12.75 .156 .180 .375 .500
14 14 .156 .188 .375 .500
16 16 .165 .188 .375 .500
18 18 .165 .188 .375 .500
20 20 .188 .218 .375 .500
24 24 .218 .250 .375 .500
"""


def test_stainless_in_inches():
    """Hydraulic Institute data book, stainless steel B36.19 (size, OD, walls of 5S, 10S, 40S, 80S), exact.

    Source error: NPS 1 10S is given 0.083 in (inside 1.149); B36.19M has 0.109 in, and so has ``fluids``.
    """
    lines = [line.split() for line in STAINLESS.strip().splitlines()]
    assert [line[0] for line in lines] == list(sizes("stainless"))
    for size, outside, *walls in lines:
        for schedule, wall in zip(("5S", "10S", "40S", "80S"), walls, strict=True):
            pipe = pipe_size("stainless", size, schedule)
            assert pipe.outside_diameter == float(outside)
            if (size, schedule) == ("1", "10S"):
                assert float(wall) == 0.083
                assert pipe.wall == 0.109
            else:
                assert pipe.wall == float(wall)


COPPER = """
1/4 .375 .305 .315 .035 .030 -
3/8 .500 .402 .430 .049 .035 .025
1/2 .625 .527 .545 .049 .040 .028
5/8 .750 .652 .666 .049 .042 -
3/4 .875 .745 .785 .065 .045 .032
1 1.125 .995 1.025 .065 .050 .035
1-1/4 1.375 1.245 1.265 .065 .055 .042
1-1/2 1.625 1.481 1.505 .072 .060 .049
2 2.125 1.959 1.985 .083 .070 .058
2-1/2 2.625 2.435 2.465 .095 .080 .065
3 3.125 2.907 2.945 .109 .090 .072
3-1/2 3.625 3.385 3.425 .120 .100 .083
4 4.125 3.857 3.905 .134 .110 .095
5 5.125 4.805 4.875 .160 .125 .109
6 6.125 5.741 5.854 .192 .140 .122
8 8.125 7.583 7.725 .271 .200 .170
"""
COPPER_LARGE = """
10 10.125 .338 .250 .212
12 12.125 .405 .280 .254
"""


def test_copper_tube():
    """Copper tube handbook, table 14.2f (OD, inside diameters and walls of K and L, to NPS 8), and Hydraulic
    Institute data book, ASTM B88-16 (walls of K, L and M); exact, inside diameters as OD less two walls.

    Source errors: the handbook prints 5.854 for the inside diameter of 6 L (6.125 - 2 x 0.140 = 5.845); the data
    book has 6.625 for the OD of size 3-1/2 (3.625) and, for annealed tube only, 0.050 for the wall of 1-1/4 L.
    """
    lines = [line.split() for line in COPPER.strip().splitlines()]
    for size, outside, inside_k, inside_l, *walls in lines:
        for name, inside in (("K", inside_k), ("L", inside_l)):
            tube = pipe_size("copper", size, name)
            assert tube.outside_diameter == float(outside)
            bore = tube.outside_diameter - 2 * tube.wall
            if (size, name) == ("6", "L"):
                assert (bore, float(inside)) == (pytest.approx(5.845), 5.854)
            else:
                assert bore == pytest.approx(float(inside), abs=1e-9)
        _walls(size, walls)
    for size, outside, *walls in (line.split() for line in COPPER_LARGE.strip().splitlines()):
        assert outside_diameter("copper", size) == float(outside)
        _walls(size, walls)
    assert len(lines) + 2 == len(sizes("copper"))


def _walls(size, walls):
    for name, wall in zip("KLM", walls, strict=True):
        tube = pipe_size("copper", size, name)
        if wall == "-":
            assert tube is None
        else:
            assert tube.wall == float(wall)


def test_schedule_10_of_sprinkler_pipe():
    """Walls of 0.188 in for NPS 8 and 10: from memory (ASTM A795, NFPA 13); B36.10M lists both walls unnamed."""
    for size in ("8", "10"):
        assert pipe_size("steel", size, "10-A795").wall == 0.188
