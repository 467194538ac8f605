"""A scalar calculation of the forces of the anchors of a fixture, in plain Python: plate, moments, torsion.

Own code, independent of the service, and *not* an outside check: it shares no line with it. The fixture is that of
`independent_group`. Units: in, in2, psi, lbf, lbf*in.
"""

import math
from itertools import pairwise

COUNTED_AS_ZERO = 1e-10  # share of the terms that cancel
SAME = 1e-6  # in


class UnbalancedError(ValueError):
    """The anchors cannot hold the load in equilibrium."""


def tensions(f):
    """Force out of the base of each anchor; a push is negative, and only where no plate bears on the concrete."""
    if f["plate"] is None or not f["plate"][4]:
        return _shared(f["anchors"], f["n"], f["m_x"], f["m_y"])
    stiffness = 29e6 / (57_000.0 * math.sqrt(f["f_c"])) * f["a_se"]
    opening = plane(f["plate"][:4], f["anchors"], stiffness, (f["n"], f["m_x"], f["m_y"]))
    return [stiffness * max(opening(x, y), 0.0) for x, y in f["anchors"]]


def _shared(anchors, n, m_x, m_y):
    count = len(anchors)
    x_c, y_c = sum(x for x, _ in anchors) / count, sum(y for _, y in anchors) / count
    arms = [(x - x_c, y - y_c) for x, y in anchors]
    g_x, g_y = -m_y - n * x_c, m_x - n * y_c  # sums of T x and T y about the centroid
    s_xx, s_yy = sum(x * x for x, _ in arms), sum(y * y for _, y in arms)
    s_xy = sum(x * y for x, y in arms)
    determinant = s_xx * s_yy - s_xy * s_xy
    if determinant > 1e-10 * (s_xx + s_yy) ** 2:
        b, c = (g_x * s_yy - g_y * s_xy) / determinant, (g_y * s_xx - g_x * s_xy) / determinant
        return [n / count + b * x + c * y for x, y in arms]
    outer = max(arms, key=lambda arm: math.hypot(*arm))
    length = math.hypot(*outer)
    u_x, u_y = (outer[0] / length, outer[1] / length) if length > SAME else (0.0, 0.0)
    along = g_x * u_x + g_y * u_y
    left_over = math.hypot(g_x - along * u_x, g_y - along * u_y)
    if left_over > 1e-9 * (abs(m_x) + abs(m_y) + abs(n) * (abs(x_c) + abs(y_c) + length)):
        raise UnbalancedError("a moment about the line of the anchors")
    if length <= SAME:
        return [n / count] * count
    return [n / count + along * (x * u_x + y * u_y) / (s_xx + s_yy) for x, y in arms]


def plane(sides, anchors, stiffness, load):
    """Opening times E_c under a rigid plate, as a function of x and y: Newton, each step cut where it overshoots.

    The concrete takes only pressure, the anchors (``stiffness`` E_s A / E_c each) only tension; ``load`` is (n, m_x,
    m_y).
    """
    x_c, y_c = (sides[0] + sides[1]) / 2.0, (sides[2] + sides[3]) / 2.0
    unit = math.hypot(sides[1] - sides[0], sides[3] - sides[2]) / 2.0
    corners = [(1.0, (sides[i] - x_c) / unit, (sides[j] - y_c) / unit) for i, j in ((0, 2), (1, 2), (1, 3), (0, 3))]
    bolts = [(1.0, (x - x_c) / unit, (y - y_c) / unit) for x, y in anchors]
    n, m_x, m_y = load
    wanted = [n, (-m_y - n * x_c) / unit, (m_x - n * y_c) / unit]
    size = _norm(wanted)

    def supports(p):
        """Stiffness of what acts: the pressed part of the plate, the pulled anchors."""
        k = [[0.0] * 3 for _ in range(3)]
        pressed = _pressed(corners, p)
        for a, b in pairwise(pressed[1:]):
            _add_triangle(k, pressed[0], a, b, unit * unit)
        for bolt in bolts:
            if _dot(bolt, p) > 0.0:
                _add(k, bolt, stiffness)
        return k

    def unmet(p, k):
        return [w - _dot(row, p) for w, row in zip(wanted, k, strict=True)]

    k = [[0.0] * 3 for _ in range(3)]
    for a, b in ((corners[1], corners[2]), (corners[2], corners[3])):
        _add_triangle(k, corners[0], a, b, unit * unit)
    for bolt in bolts:
        _add(k, bolt, stiffness)
    p = _solve(k, wanted)
    k = supports(p)
    missing = unmet(p, k)
    for _ in range(300):
        before = _norm(missing)
        if before <= 1e-13 * size:
            break
        step, share = _solve(k, missing), 1.0
        slope = _dot(missing, step)
        while share > 1e-9:
            tried = [a + share * b for a, b in zip(p, step, strict=True)]
            k = supports(tried)
            missing = unmet(tried, k)
            if _norm(missing) < 0.5 * before or _dot(missing, step) > -1e-3 * slope:
                break
            share /= 2.0
        p = tried
    if _norm(missing) > 1e-10 * size:
        raise RuntimeError("no equilibrium found under the plate")
    return lambda x, y: p[0] + p[1] * (x - x_c) / unit + p[2] * (y - y_c) / unit


def _dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _norm(a):
    return math.sqrt(_dot(a, a))


def _pressed(corners, p):
    """Polygon of the part of the plate that presses on the concrete."""
    found = []
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        a, b = _dot(here, p), _dot(there, p)
        if a <= 0.0:
            found.append(here)
        if a * b < 0.0:
            t = a / (a - b)
            found.append(tuple(h + t * (e - h) for h, e in zip(here, there, strict=True)))
    return found


def _add(k, at, weight):
    for i in range(3):
        for j in range(3):
            k[i][j] += weight * at[i] * at[j]


def _add_triangle(k, a, b, c, scale):
    """Integral of products of 1, x, y over a triangle."""
    area = abs((b[1] - a[1]) * (c[2] - a[2]) - (c[1] - a[1]) * (b[2] - a[2])) / 2.0 * scale
    middle = tuple((u + v + w) / 3.0 for u, v, w in zip(a, b, c, strict=True))
    _add(k, middle, 0.75 * area)
    for corner in (a, b, c):
        _add(k, corner, area / 12.0)


def _solve(k, right):
    """Cholesky; what has no support is given the least one, so that the step stays finite."""
    floor = 1e-15 * (k[0][0] + k[1][1] + k[2][2]) or 1.0
    lower = [[0.0] * 3 for _ in range(3)]
    for j in range(3):
        rest = k[j][j] - sum(lower[j][m] ** 2 for m in range(j))
        lower[j][j] = math.sqrt(max(rest, floor))
        for i in range(j + 1, 3):
            lower[i][j] = (k[i][j] - sum(lower[i][m] * lower[j][m] for m in range(j))) / lower[j][j]
    y = [0.0] * 3
    for i in range(3):
        y[i] = (right[i] - sum(lower[i][m] * y[m] for m in range(i))) / lower[i][i]
    x = [0.0] * 3
    for i in (2, 1, 0):
        x[i] = (y[i] - sum(lower[m][i] * x[m] for m in range(i + 1, 3))) / lower[i][i]
    return x


def shears(f):
    """Shear (v_x, v_y) of each anchor: elastic, with torsion about the centre of what resists."""
    at_x = [y for (_, y), (along_x, _) in zip(f["anchors"], f["resists"], strict=True) if along_x]
    at_y = [x for (x, _), (_, along_y) in zip(f["anchors"], f["resists"], strict=True) if along_y]
    if (f["v_x"] and not at_x) or (f["v_y"] and not at_y):
        raise UnbalancedError("no anchor resists the shear")
    y_r = sum(at_x) / len(at_x) if at_x else 0.0
    x_r = sum(at_y) / len(at_y) if at_y else 0.0
    torsion = f["m_z"] + y_r * f["v_x"] - x_r * f["v_y"]
    polar = sum((y - y_r) ** 2 for y in at_x) + sum((x - x_r) ** 2 for x in at_y)
    twist = 0.0
    if abs(torsion) > COUNTED_AS_ZERO * (abs(f["m_z"]) + abs(y_r * f["v_x"]) + abs(x_r * f["v_y"])):
        if polar <= SAME * SAME:
            raise UnbalancedError("no anchors resist the torsion")
        twist = torsion / polar
    return [
        (
            f["v_x"] / len(at_x) - twist * (y - y_r) if along_x else 0.0,
            f["v_y"] / len(at_y) + twist * (x - x_r) if along_y else 0.0,
        )
        for (x, y), (along_x, along_y) in zip(f["anchors"], f["resists"], strict=True)
    ]
