"""Outside diameters and walls of pipe and tube, and densities of what they are made of and filled with.

Documents: ASME B36.10M (steel; schedules 5 to 160, STD, XS, XXS), ASME B36.19M (stainless; 5S to 80S), ASTM B88
(copper water tube; types K, L, M), ASTM D1785 (PVC; 40, 80), ASTM F441 (CPVC; 40, 80, to NPS 16), AWWA C151 (ductile
iron; pressure classes PC300 and PC350, special thickness classes CL50 to CL56, as two public works specifications
reprint them). Units: in, lb/ft3. NPS 1/2 to 24, copper 1/4 to 12, ductile iron 3 to 24. Mill tolerance and corrosion
are not taken off, and weights computed from the walls carry the tolerance of the pipe standard.

Walls are nominal, but those of plastic pipe are the least that the standard allows, and pipe is made heavier:
``WALL_FACTOR`` turns them into the average wall, and ``pipe_size`` hands out that one. The bore is that of the average
wall; as plastic is denser than water, the thicker wall is the heavier one filled as well. What comes out for PVC lies
within 2 % of published weights (1.7 % below them in NPS 18 to 24); least walls would be 3 to 7 % light. A wall that a
request states is taken as it is stated.

Ductile iron is bare barrel: the bells of push-on and mechanical joints, flanges and the cement lining of AWWA C104
are not in its weight and belong in the allowance of the run.

A schedule name stands for one wall only. "10" does not in steel of NPS 8, 10 and 12: B36.10M has 0.148, 0.165 and
0.180 in, while sprinkler work means 0.188 in for NPS 8 and 10 by ASTM A795, and 0.330 in for NPS 12, which is
schedule 30. There the bare name is refused and ``schedules`` lists "10-B36.10M", "10-A795" (NPS 8 and 10) and "30".
The walls of "10-A795" are from memory. Schedule 40 equals STD through NPS 10 only, 80 equals XS through NPS 8 only.

Densities: steel 490 lb/ft3 (the basis of the B36.10M weight column), copper 0.323 lb/in3 (that of ASTM B88),
stainless 8.03 g/cm3 (from memory, 304 and 316), PVC 1.40 g/cm3, CPVC 1.55 g/cm3 (the upper end of 1.52 to 1.55, from
memory), ductile iron 0.255 lb/in3 (from memory, ASTM A536). One list of CPVC weights lies 2 to 4 % below what comes
out, another 5 to 8 % above; the denser plastic that the latter implies isn't known.

Contents: water 62.4 lb/ft3; ethylene glycol 30 and 50 % by volume at 40 F from the ASHRAE Handbook, Fundamentals;
propylene glycol 30 and 50 % from memory and rounded up. Glycol below 40 F is up to 1 % heavier, and inhibitors add to
it; a known density takes the place of a word. Gases by an upper bound, for their weight is small beside the pipe's:

* "steam", 0.58 lb/ft3: dry saturated steam at 250 psig (0.573), so any below. Condensate that stands is not in it;
* "air", 1.2 lb/ft3: compressed air at 200 psig and 32 F (1.18), so any below or warmer;
* "gas", 0.5 lb/ft3: fuel gas of specific gravity 0.65 at 125 psig and 60 F (0.47), propane vapour at 40 psig (0.43).

A line of gas that is tested with water holds water then: that is ``rho_test`` of ``pipe``, not its contents.
"""

import csv
import re
from functools import cache
from importlib.resources import files
from typing import NamedTuple

_SIZE = re.compile(r"(?:([1-9]\d*)-)?([1-9]\d*)(?:/([1-9]\d*))?")
_TABLES = {
    "steel": "steel_b36_10.csv",
    "stainless": "stainless_b36_19.csv",
    "copper": "copper_b88.csv",
    "pvc": "pvc_d1785.csv",
    "cpvc": "cpvc_f441.csv",
    "ductile_iron": "ductile_iron_c151.csv",
}
_GRAM_PER_CM3 = 62.42796

MATERIALS: dict[str, float] = {
    "steel": 490.0,
    "stainless": 8.03 * _GRAM_PER_CM3,
    "copper": 0.323 * 1728.0,
    "pvc": 1.40 * _GRAM_PER_CM3,
    "cpvc": 1.55 * _GRAM_PER_CM3,
    "ductile_iron": 0.255 * 1728.0,
}
"""Density of each pipe material, lb/ft3."""

WALL_FACTOR: dict[str, float] = {"pvc": 1.06, "cpvc": 1.06}
"""Average wall over the wall of the table, where the table has the least wall; 1 for every other material."""

CONTENTS: dict[str, float] = {
    "empty": 0.0,
    "water": 62.4,
    "ethylene_glycol_30": 65.66,
    "ethylene_glycol_50": 67.47,
    "propylene_glycol_30": 65.0,
    "propylene_glycol_50": 66.5,
    "steam": 0.58,
    "air": 1.2,
    "gas": 0.5,
}
"""Density of each kind of contents, lb/ft3; glycol by its percentage by volume."""


class PipeSize(NamedTuple):
    """One pipe or tube, in inches; ``wall`` as weights take it, ``nominal`` the size as a number (1.25 for "1-1/4")."""

    outside_diameter: float
    wall: float
    nominal: float


class _Row(NamedTuple):
    outside_diameter: float
    nominal: float
    walls: dict[str, float]


def nominal(size: str) -> float:
    """A printed size as a number: "1/2", "1-1/4", "4". Raises ValueError for anything else."""
    found = _SIZE.fullmatch(size)
    if found is None or (found[1] and not found[3]):
        raise ValueError(f"{size!r} is not a size such as 1/2, 1-1/4 or 4")
    whole, numerator, denominator = found.groups()
    return int(whole or 0) + int(numerator) / int(denominator or 1)


@cache
def _table(material: str) -> dict[str, _Row]:
    if material not in _TABLES:
        return {}
    factor = WALL_FACTOR.get(material, 1.0)
    text = files("hangpoint.core.loads").joinpath("data", _TABLES[material]).read_text(encoding="utf-8")
    rows: dict[str, _Row] = {}
    for line in csv.DictReader(text.splitlines()):
        size, outside_diameter = line.pop("size"), line.pop("outside_diameter")
        walls = {schedule: factor * float(wall) for schedule, wall in line.items() if wall}
        rows[size] = _Row(float(outside_diameter), nominal(size), walls)
    return rows


def sizes(material: str) -> tuple[str, ...]:
    """Sizes of a material as printed, smallest first; empty for an unknown material."""
    return tuple(_table(material))


def schedules(material: str, size: str) -> tuple[str, ...]:
    """Schedules, weight classes or types that name one wall of this size; empty for an unknown material or size."""
    row = _table(material).get(size)
    return tuple(row.walls) if row else ()


def outside_diameter(material: str, size: str) -> float | None:
    """Outside diameter in inches, for a wall that is stated; None for an unknown material or size."""
    row = _table(material).get(size)
    return row.outside_diameter if row else None


def pipe_size(material: str, size: str, schedule: str) -> PipeSize | None:
    """The pipe of that name, or None where the table has none or the name could mean more than one wall."""
    row = _table(material).get(size)
    if row is None or schedule not in row.walls:
        return None
    return PipeSize(row.outside_diameter, row.walls[schedule], row.nominal)
