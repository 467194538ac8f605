"""Ductile iron pipe, AWWA C151/A21.51.

* Special thickness classes, sizes 4 to 24: the table of the standard in a public record of the city of South Bend;
  size 3 by a second public table, whose CL54 is misprinted .43 (.34 by its steps of .03).
* Pressure classes 300 and 350, sizes 3 to 24: utility standards of Indian River County, table 6.1.
* Weights of the barrel per foot: from memory.
"""

import numpy as np
import pytest

from hangpoint.core.loads.pipe_sizes import MATERIALS, pipe_size, schedules, sizes

CLASSES = """
4 4.80 - .26 .29 .32 .35 .38 .41
6 6.90 .25 .28 .31 .34 .37 .40 .43
8 9.05 .27 .30 .33 .36 .39 .42 .45
10 11.10 .29 .32 .35 .38 .41 .44 .47
12 13.20 .31 .34 .37 .40 .43 .46 .49
14 15.30 .33 .36 .39 .42 .45 .48 .51
16 17.40 .34 .37 .40 .43 .46 .49 .52
18 19.50 .35 .38 .41 .44 .47 .50 .53
20 21.60 .36 .39 .42 .45 .48 .51 .54
24 25.80 .38 .41 .44 .47 .50 .53 .56
"""
SIZE_3 = "3 3.96 - .25 .28 .31 .43 .37 .40"
PRESSURE = """
3 3.96 - .25
4 4.80 - .25
6 6.90 - .25
8 9.05 - .25
10 11.10 - .26
12 13.20 - .28
14 15.30 .30 .31
16 17.40 .32 .34
18 19.50 .34 .36
20 21.60 .36 .38
24 25.80 .40 .43
"""


def _check(size, outside, names, walls):
    for name, wall in zip(names, walls, strict=True):
        pipe = pipe_size("ductile_iron", size, name)
        if wall == "-":
            assert pipe is None
        else:
            assert pipe[:2] == (float(outside), float(wall)), (size, name)


def test_thickness_classes():
    names = [f"CL{n}" for n in range(50, 57)]
    for size, outside, *walls in (line.split() for line in CLASSES.strip().splitlines()):
        _check(size, outside, names, walls)
    size, outside, *walls = SIZE_3.split()
    assert walls[4] == ".43"
    _check(size, outside, names, [*walls[:4], ".34", *walls[5:]])


def test_pressure_classes():
    lines = [line.split() for line in PRESSURE.strip().splitlines()]
    assert [line[0] for line in lines] == list(sizes("ductile_iron"))
    for size, outside, *walls in lines:
        _check(size, outside, ["PC300", "PC350"], walls)


def test_nothing_else_is_shipped():
    named = {name for size in sizes("ductile_iron") for name in schedules("ductile_iron", size)}
    assert named == {"PC300", "PC350", *(f"CL{n}" for n in range(50, 57))}


def test_weight_of_the_barrel():
    """AWWA C151, barrel in lb/ft with 0.255 lb/in3: 16.0 (6 in, .25), 38.4 (12, .31), 92.9 (24, .38), from memory."""
    for size, name, printed in (("6", "CL50", 16.0), ("12", "CL50", 38.4), ("24", "CL50", 92.9)):
        pipe = pipe_size("ductile_iron", size, name)
        area = np.pi * (pipe.outside_diameter - pipe.wall) * pipe.wall
        assert area * MATERIALS["ductile_iron"] / 144 == pytest.approx(printed, abs=0.051)
