"""A scalar calculation of shear and of tension with shear by ACI 318-19 chapter 17, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. It catches what the arrays get wrong (masks, axes,
branches), not what both have misread. Units: in, in2, psi, lbf.
"""

import math


def steel(*, area, ultimate, yield_, ductile, stud, test_value, pad):
    """17.7.1: design strength; ``test_value`` is None where the formula holds."""
    if test_value is not None:
        nominal = test_value
    else:
        usable = sorted([ultimate, 1.9 * yield_, 125_000.0])[0]
        nominal = usable * area * (1.0 if stud else 0.6)
    if pad:
        nominal *= 0.8
    return nominal * (0.65 if ductile else 0.6)


def basic_edge_strength(*, c, h_ef, d, sleeve, welded, light, f_c):
    """17.7.2.2."""
    length = h_ef if h_ef < 8.0 * d else 8.0 * d
    if sleeve:
        length = d + d
    root = light * math.sqrt(f_c) * c * math.sqrt(c)
    by_stiffness = (8.0 if welded else 7.0) * math.exp(0.2 * math.log(length / d)) * math.sqrt(d) * root
    return by_stiffness if by_stiffness < 9.0 * root else 9.0 * root


def distance_used(*, c1, across, thickness, gap):
    """17.7.2.1.2, which limits the distance from above."""
    limit = 1.5 * c1
    if across[0] < limit and across[1] < limit and thickness < limit:
        greatest = sorted([across[0] / 1.5, across[1] / 1.5, thickness / 1.5, gap / 3.0])[-1]
        return greatest if greatest < c1 else c1
    return c1


def edge(
    *, c1, across, thickness, gap, extent, n, eccentricity, cracked, reinforcement, h_ef, d, sleeve, welded, light, f_c
):
    """17.7.2.1: nominal strength towards the edge and along it."""
    c = distance_used(c1=c1, across=across, thickness=thickness, gap=gap)
    spread = 1.5 * c
    width = extent + sum(side if side < spread else spread for side in across)
    area = width * (thickness if thickness < spread else spread)
    whole = 3.0 * c * 1.5 * c
    if area > n * whole:
        area = n * whole
    common = basic_edge_strength(c=c, h_ef=h_ef, d=d, sleeve=sleeve, welded=welded, light=light, f_c=f_c)
    common *= area / whole
    common /= 1.0 + eccentricity / spread
    if not cracked:
        common *= 1.4
    else:
        common *= {"none": 1.0, "bar": 1.2, "stirrups": 1.4}[reinforcement]
    if thickness < spread:
        common *= math.sqrt(spread / thickness)
    nearest = across[0] if across[0] < across[1] else across[1]
    corner = 1.0 if nearest >= spread else 0.7 + 0.3 * nearest / spread
    return common * corner, 2.0 * common


def edge_ratio(*, towards, along, strengths, phi, way):
    """Both ratios in one: "vector", "separate" or "linear"."""
    first, second = towards / (phi * strengths[0]), along / (phi * strengths[1])
    if way == "linear":
        return first + second
    if way == "separate":
        return first if first > second else second
    return math.sqrt(first * first + second * second)


def pryout(*, h_ef, breakout, bond):
    """17.7.3.1: nominal strength; ``bond`` is None without adhesive."""
    tension = breakout if bond is None or breakout < bond else bond
    return tension if h_ef < 2.5 else tension + tension


def reinforcement(*, area, yield_):
    """17.5.2.1: design strength."""
    return 0.75 * area * yield_


def together(*, tension, shear, curve):
    """17.8: utilisation."""
    if curve:
        if tension == shear == 0.0:
            return 0.0
        return math.exp(0.6 * math.log(_power(tension) + _power(shear)))
    worst = tension if tension > shear else shear
    if tension > 0.2 and shear > 0.2:
        total = (tension + shear) / 1.2
        return total if total > worst else worst
    return worst


def _power(ratio):
    return 0.0 if ratio == 0.0 else math.exp(5.0 / 3.0 * math.log(ratio))
