"""Straight beams and suspended bodies by other methods than the service's, in plain floats: no array, no import.

Continuous beams by slope deflection (rotations at the supports, fixed-end moments), hinged ones piece by piece from
statics; bending by cutting the beam; bodies by the least squares of the rods' forces and by brute force over triples.
"""

from itertools import combinations, pairwise
from math import hypot

MODELS = ("tributary", "continuous", "hinged")
PICKED = {
    "larger": MODELS,
    "tributary": MODELS[:1],
    "continuous": MODELS[1:2],
    "hinged": MODELS[2:],
    "bar": ("continuous", "hinged"),
}


def solve(a, b):
    """Gauss with pivots, both overwritten."""
    n = len(b)
    for i in range(n):
        p = max(range(i, n), key=lambda r: abs(a[r][i]))
        a[i], a[p], b[i], b[p] = a[p], a[i], b[p], b[i]
        for r in range(i + 1, n):
            f = a[r][i] / a[i][i]
            if f:
                for c in range(i, n):
                    a[r][c] -= f * a[i][c]
                b[r] -= f * b[i]
    x = [0.0] * n
    for i in range(n - 1, -1, -1):
        x[i] = (b[i] - sum(a[i][c] * x[c] for c in range(i + 1, n))) / a[i][i]
    return x


class Beam:
    """A beam on supports; reactions to a uniform load of 1 and to a point load of 1, by model."""

    def __init__(self, spans, start=0.0, end=0.0):
        self.spans, self.start, self.end = list(spans), start, end
        self.at = [0.0]
        for span in spans:
            self.at.append(self.at[-1] + span)
        self.uniform = {
            "tributary": self._tributary_uniform(),
            "hinged": self._hinged_uniform(),
            "continuous": self._continuous(None),
        }

    def point(self, x):
        return {"tributary": self._lever(x), "hinged": self._hinged(x), "continuous": self._continuous(x)}

    def _span_of(self, x):
        for j in range(len(self.spans)):
            if x <= self.at[j + 1]:
                return j
        return len(self.spans) - 1

    def _tributary_uniform(self):
        r = [0.0] * len(self.at)
        for j, span in enumerate(self.spans):
            r[j] += span / 2
            r[j + 1] += span / 2
        r[0] += self.start
        r[-1] += self.end
        return r

    def _hinged_uniform(self):
        """Every piece from hinge to hinge, the end ones with their overhangs: its middle between its two supports."""
        r, last = [0.0] * len(self.at), len(self.spans) - 1
        for j, span in enumerate(self.spans):
            left = self.at[j] - (self.start if j == 0 else 0.0)
            right = self.at[j + 1] + (self.end if j == last else 0.0)
            over = ((left + right) / 2 - self.at[j]) / span
            r[j] += (right - left) * (1 - over)
            r[j + 1] += (right - left) * over
        return r

    def _hinged(self, x):
        r, j = [0.0] * len(self.at), self._span_of(x)
        over = (x - self.at[j]) / self.spans[j]
        r[j], r[j + 1] = 1 - over, over
        return r

    def _lever(self, x):
        return self._hinged(min(max(x, 0.0), self.at[-1]))

    def _continuous(self, x):
        """Slope deflection: end moments of members clockwise, E I = 1; a point load of 1 at ``x``, or w = 1."""
        n = len(self.spans)
        fixed, simple, ends, tips = [], [], [0.0, 0.0], [0.0, 0.0]
        inside = x is not None and 0.0 <= x <= self.at[-1]
        loaded = self._span_of(x) if inside else -1
        for j, length in enumerate(self.spans):
            if x is None:
                fixed.append((-(length**2) / 12, length**2 / 12))
                simple.append((length / 2, length / 2))
            elif j == loaded:
                a = x - self.at[j]
                b = length - a
                fixed.append((-a * b * b / length**2, a * a * b / length**2))
                simple.append((b / length, a / length))
            else:
                fixed.append((0.0, 0.0))
                simple.append((0.0, 0.0))
        if x is None:
            ends, tips = [-(self.start**2) / 2, self.end**2 / 2], [self.start, self.end]
        elif x < 0.0:
            ends[0], tips[0] = x, 1.0
        elif not inside:
            ends[1], tips[1] = x - self.at[-1], 1.0
        stiff, pull = [0.0] * (n + 1), [0.0] * (n + 1)
        pull[0], pull[-1] = ends
        for j, length in enumerate(self.spans):
            stiff[j] += 4 / length
            stiff[j + 1] += 4 / length
            pull[j] -= fixed[j][0]
            pull[j + 1] -= fixed[j][1]
        for j, length in enumerate(self.spans):
            part = 2 / length / stiff[j]
            stiff[j + 1] -= part * 2 / length
            pull[j + 1] -= part * pull[j]
        turn = [0.0] * (n + 1)
        turn[n] = pull[n] / stiff[n]
        for j in range(n - 1, -1, -1):
            turn[j] = (pull[j] - 2 / self.spans[j] * turn[j + 1]) / stiff[j]
        r = [0.0] * (n + 1)
        for j, length in enumerate(self.spans):
            couple = 6 / length * (turn[j] + turn[j + 1]) + sum(fixed[j])
            r[j] += simple[j][0] - couple / length
            r[j + 1] += simple[j][1] + couple / length
        r[0] += tips[0]
        r[-1] += tips[1]
        return r


def without(spans, lost):
    """Spans with a support taken away."""
    return [*spans[: lost - 1], spans[lost - 1] + spans[lost], *spans[lost + 1 :]]


class Bent:
    """Largest moment and deflections of a beam under known reactions, w in lbf/ft and point loads (place, weight)."""

    def __init__(self, beam, reactions, w, loads, e_i):
        at, tip, end = beam.at, -beam.start, beam.at[-1] + beam.end
        forces = [*zip(at, reactions, strict=True), *((x, -p) for x, p in loads)]
        places = sorted({tip, end, *(x for x, _ in forces)})
        self.pieces, shear, moment, slope, bow = [], 0.0, 0.0, 0.0, 0.0
        bows = {}
        for x, following in zip(places, [*places[1:], end], strict=True):
            shear += sum(force for place, force in forces if place == x)
            bows[x] = bow
            d = following - x
            self.pieces.append((x, d, shear, moment, slope, bow))
            bow += d * slope + d**2 / 2 * moment + d**3 / 6 * shear - d**4 / 24 * w
            slope += d * moment + d**2 / 2 * shear - d**3 / 6 * w
            moment += d * shear - d**2 / 2 * w
            shear -= d * w
        self.w, self.beam = w, beam
        self.tilt = (bows[at[-1]] - bows[0.0]) / at[-1]
        self.low, self.inches = bows[0.0], 1728 / e_i

    def largest_moment(self):
        found = 0.0
        for _, d, shear, moment, _, _ in self.pieces:
            found = max(found, abs(moment))
            if self.w and 0 < shear / self.w < d:
                found = max(found, abs(moment + shear**2 / (2 * self.w)))
        return found

    def parts(self):
        """(deflection in in, length that its limit counts) of every span, then of both overhangs."""
        beam = self.beam
        most = [0.0] * (len(beam.spans) + 2)
        for piece in self.pieces:
            x, d = piece[:2]
            if d <= 0:
                continue
            middle = x + d / 2
            part = 0 if middle < 0 else len(beam.spans) + 1 if middle > beam.at[-1] else beam._span_of(middle) + 1
            most[part] = max(most[part], self._most(*piece))
        lengths = [max(2 * beam.start, beam.spans[0]), *beam.spans, max(2 * beam.end, beam.spans[-1])]
        every = [(self.inches * bow, length) for bow, length in zip(most, lengths, strict=True)]
        return [*every[1:-1], every[0], every[-1]]

    def _most(self, x, d, shear, moment, slope, bow):
        """Largest |y| of a piece: at its ends or where the slope is 0, sought between the zeros of the moment."""
        w = self.w
        slope, bow = slope - self.tilt, bow - self.low - self.tilt * x

        def steep(t):
            return slope + t * (moment + t * (shear / 2 - t * w / 6))

        def y(t):
            return abs(bow + t * (slope + t * (moment / 2 + t * (shear / 6 - t * w / 24))))

        marks = [0.0, d]
        if w:
            under = shear**2 + 2 * w * moment
            marks += [(shear - s) / w for s in (under**0.5, -(under**0.5))] if under > 0 else []
        elif shear:
            marks.append(-moment / shear)
        marks = sorted(t for t in marks if 0 <= t <= d)
        found = max(y(0.0), y(d))
        for low, high in pairwise(marks):
            if steep(low) * steep(high) < 0:
                rising = steep(high) > 0
                for _ in range(60):
                    half = (low + high) / 2
                    low, high = (low, half) if (steep(half) > 0) == rising else (half, high)
                found = max(found, y((low + high) / 2))
        return found


def springs(rods, x_g, y_g):
    """Shares of the least sum of squares in balance (rods stretch alike); places from the weight."""
    arms = [(x - x_g, y - y_g) for x, y in rods]
    rows = [[1.0] * len(arms), [a for a, _ in arms], [b for _, b in arms]]
    line = direction(rods)
    if line is not None:
        rows = [rows[0], [a * line[0] + b * line[1] for a, b in arms]]
    size = max(hypot(*arm) for arm in arms)
    rows[1:] = [[value / size for value in row] for row in rows[1:]]
    normal = [[sum(p * q for p, q in zip(one, two, strict=True)) for two in rows] for one in rows]
    factors = solve(normal, [1.0] + [0.0] * (len(rows) - 1))
    return [sum(f * row[i] for f, row in zip(factors, rows, strict=True)) for i in range(len(arms))]


def direction(rods):
    """Unit vector of the line that all rods stand in, or None."""
    far = max(rods, key=lambda rod: hypot(rod[0] - rods[0][0], rod[1] - rods[0][1]))
    dx, dy = far[0] - rods[0][0], far[1] - rods[0][1]
    size = hypot(dx, dy)
    off = max(abs((x - rods[0][0]) * dy - (y - rods[0][1]) * dx) / size for x, y in rods)
    return (dx / size, dy / size) if off < 1e-6 * size else None


def any_three(rods, x_g, y_g):
    """Largest share of each rod over all that can carry by pulling alone, or None where none can."""
    arms = [(x - x_g, y - y_g) for x, y in rods]
    most, held = [0.0] * len(rods), False
    size = max(hypot(*arm) for arm in arms)
    if direction(rods) is not None:
        for i, j in combinations(range(len(rods)), 2):
            (a, b), (c, d) = arms[i], arms[j]
            apart = hypot(c - a, d - b)
            if abs(a * d - b * c) / apart > 1e-6 * size:
                continue
            share = (c * (c - a) + d * (d - b)) / apart**2
            held |= _keep(most, (i, j), (share, 1 - share))
        return most if held else None
    for three in combinations(range(len(rods)), 3):
        (a, b), (c, d), (e, f) = (arms[i] for i in three)
        double = a * (d - f) + c * (f - b) + e * (b - d)
        if abs(double) > 1e-9 * size**2:
            held |= _keep(most, three, ((c * f - e * d) / double, (e * b - a * f) / double, (a * d - c * b) / double))
    return most if held else None


def _keep(most, places, shares):
    if min(shares) < -1e-9:
        return False
    for place, share in zip(places, shares, strict=True):
        most[place] = max(most[place], min(max(share, 0.0), 1.0))
    return True
