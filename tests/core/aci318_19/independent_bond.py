"""A scalar calculation of bond and of earthquake by ACI 318-19 chapter 17, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. It catches what the arrays get wrong (masks, axes,
branches), not what both have misread. Units: in, in2, psi, lbf.
"""

import math


def reach(*, d, uncracked_bond):
    """17.6.5.1.2b."""
    return math.sqrt(100.0 * d * d * uncracked_bond / 1_100.0)


def characteristic_bond(*, cracked, seismic, bonds, alpha, f_c, tested_at, exponent):
    """17.6.5.2 and 17.10.3; ``bonds`` in cracked and uncracked concrete."""
    if seismic:
        found = alpha * bonds[0]
    elif cracked:
        found = bonds[0]
    else:
        found = bonds[1]
    return found if exponent == 0.0 else found * math.exp(exponent * math.log(f_c / tested_at))


def basic_bond(*, d, depth, bond, light):
    """17.6.5.2.1: bond on the wall of the hole."""
    circumference = math.pi * d
    return circumference * depth * bond * light


def influence(*, edges, c):
    """17.6.5.1: area over that of an anchor far from edges."""
    cut = [edge if edge < c else c for edge in edges]
    return (cut[0] + cut[1]) / (2.0 * c) * ((cut[2] + cut[3]) / (2.0 * c))


def modified(*, basic, edges, c, off_centre, cracked, critical):
    """17.6.5.1 with 17.6.5.3 to 17.6.5.5."""
    nominal = basic * influence(edges=edges, c=c)
    for distance in off_centre:
        nominal *= c / (c + distance)
    nearest = sorted(edges)[0]
    if nearest < c:
        nominal *= 0.7 + 0.3 * nearest / c
    if not cracked and nearest < critical:
        splitting = (nearest if nearest > c else c) / critical
        nominal *= splitting if splitting < 1.0 else 1.0
    return nominal


def sustained(*, basic, phi):
    """17.5.2.2."""
    return basic * phi * 55.0 / 100.0


def much_earthquake(*, category, total, earthquake):
    """17.10.5.1: the letter of the category and the load with its part of earthquake."""
    if category in ("A", "B") or total <= 0.0:
        return False
    return earthquake / total > 0.2


def lacking(*, steel, concrete, d, stretch, ductile, ultimate, yield_, upset):
    """17.10.5.3(a): the conditions that an anchor does not meet; ``stretch`` is None where it isn't stated."""
    found = set()
    if concrete / steel <= 1.2:
        found.add("strength")
    if stretch is None or stretch / d < 8.0:
        found.add("stretch")
    if not ductile:
        found.add("ductility")
    if ultimate / yield_ < 1.3 and not upset:
        found.add("ratio")
    return found
