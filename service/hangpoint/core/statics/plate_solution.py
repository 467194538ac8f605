"""The stress plane under a rigid plate that holds a load in balance: with contact by iteration, without in one step.

Any consistent units. Coordinates are those of the centre of the plate. The plane s = p0 + p1 x + p2 y is the stress
that concrete would have (compression positive); concrete carries it where it is positive, over the plate, and an anchor
of stiffness k (its area times E_s/E_c) pulls with -k s. The load (3, cases) is what the stresses have to add up to:
integrals of s, s x, s y less the sums of T, T x, T y.
"""

from collections.abc import Iterator
from typing import Self

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.plate_contact import contact

LIFT = 0.4
"""Share of the lesser of its extreme stresses, tension and compression, by which the plane of the whole plate is lifted
for a start: a plate that pulls at its anchors bears on less than that plane has it. It saves up to one step of six."""
BALANCED = 1e-11
"""Residual, as a share of the load, at which the iteration stops; what counts as equilibrium is the caller's."""
TRIALS = 300
"""Most take 6; a plate that barely touches at a corner takes up to about 150."""
WORTH_LEAVING = 0.8
"""Share of open cases below which those in balance are left behind; until then they stay as they are."""
LEAST_DAMPING, FIRST_DAMPING, MOST_DAMPING = 1e-13, 1e-4, 1e6
"""At the most of it steps are lost in the rounding of the plane: a case there is as balanced as it gets."""
LESS, MORE = 10.0, 4.0
"""Divisor of the damping after a step that was taken, factor after one that was not."""
_DIAGONAL: Index = np.array([0, 3, 5])
"""Rows of the basis that are squares: the diagonal of a stiffness."""
COLLINEAR = 1e-12
"""Second moment of the anchors, as a share of their stiffness times the squared half side, that counts as none."""


@frozen
class Supports:
    """What holds the plates of some cases: half sides (cases,), anchors (width, cases); padding has no stiffness.

    ``basis`` (6, width, cases) is 1, x, y, x**2, x*y, y**2 at the anchors.
    """

    half_x: Floats
    half_y: Floats
    stiffness: Floats
    basis: Floats

    def take(self, cases: Index) -> Self:
        """The supports of some of the cases."""
        return type(self)(
            half_x=self.half_x[cases],
            half_y=self.half_y[cases],
            stiffness=self.stiffness.take(cases, axis=1),
            basis=self.basis.take(cases, axis=2),
        )

    def anchor_sums(self, weight: Floats, terms: int) -> Floats:
        """Sums of the first terms of the basis over the anchors, weighted: (terms, cases)."""
        return np.einsum("wn,kwn->kn", weight, self.basis[:terms])


def _supports(
    cases: Index,
    *,
    length: Floats,
    half_x: Floats,
    half_y: Floats,
    x: Floats,
    y: Floats,
    stiffness: Floats,
    case_of_anchor: Index,
    place: Index,
) -> Supports:
    """The supports of some cases, in units of a length of each, from all cases and their anchors.

    Args:
        cases: which cases, each with an anchor or none.
        length, half_x, half_y: (all cases,).
        x, y, stiffness, case_of_anchor: (all anchors,).
        place: (all anchors,) number of the anchor within its case, from 0.
    """
    column = np.full(len(length), -1, dtype=np.intp)
    column[cases] = np.arange(len(cases))
    own = column[case_of_anchor]
    here = np.flatnonzero(own >= 0)
    width = 1 + int(np.max(place[here], initial=0))
    at = place[here] * len(cases) + own[here]
    own_length = length[cases]
    padded = np.zeros((3, width * len(cases)))
    for row, values in zip(padded, (x, y, stiffness), strict=True):
        row[at] = values[here]
    x_1, y_1, k_1 = padded.reshape(3, width, len(cases))
    basis = np.empty((6, width, len(cases)))
    basis[0] = 1.0
    np.divide(x_1, own_length, out=basis[1])
    np.divide(y_1, own_length, out=basis[2])
    np.multiply(basis[1], basis[1:3], out=basis[3:5])
    np.multiply(basis[2], basis[2], out=basis[5])
    return Supports(
        half_x=half_x[cases] / own_length,
        half_y=half_y[cases] / own_length,
        stiffness=k_1 / own_length**2,
        basis=basis,
    )


@frozen
class _State:
    """Trial planes (3, cases), their energy, residual (3, cases), the largest of it, and stiffness (6, cases)."""

    plane: Floats
    energy: Floats
    residual: Floats
    largest: Floats
    stiffness: Floats

    def take(self, cases: Index) -> Self:
        return type(self)(**{name: column.take(cases, axis=-1) for name, column in vars(self).items()})

    def put(self, cases: Index, other: Self) -> None:
        """These cases as they are in the other."""
        for name, column in vars(self).items():
            column[..., cases] = getattr(other, name).take(cases, axis=-1)


def _state(supports: Supports, load: Floats, plane: Floats) -> _State:
    concrete = contact(half_x=supports.half_x, half_y=supports.half_y, plane=plane)
    stress = np.einsum("kn,kwn->wn", plane, supports.basis[:3])
    pulled = np.multiply(stress < 0.0, supports.stiffness)
    force = concrete.force + supports.anchor_sums(pulled * stress, 3)
    residual = force - load
    return _State(
        plane=plane,
        energy=np.einsum("in,in->n", plane, 0.5 * force - load),
        residual=residual,
        largest=np.maximum.reduce(np.abs(residual), axis=0),
        stiffness=concrete.area + supports.anchor_sums(pulled, 6),
    )


def _solved(stiffness: Floats, damping: Floats, right: Floats) -> Floats:
    """Solution (3, cases) of symmetric systems, by elimination; ``damping`` (3, cases) is added to the diagonal."""
    d0, d1, d2 = stiffness[_DIAGONAL] + damping
    across, k12 = stiffness[1:3], stiffness[4]
    share = across / d0
    lost = share[0] * across
    d1 -= lost[0]
    u12 = k12 - lost[1]
    share_12 = u12 / d1
    d2 -= share[1] * across[1]  # alone: where a plate barely touches, nearly nothing is left, and a sum would round it
    d2 -= share_12 * u12
    b1, b2 = right[1:] - share * right[0]
    solution = np.empty_like(right)
    np.divide(b2 - share_12 * b1, d2, out=solution[2])
    np.subtract(b1 / d1, share_12 * solution[2], out=solution[1])
    np.subtract(right[0] / d0, np.add.reduce(share * solution[1:], axis=0), out=solution[0])
    return solution


def _whole(supports: Supports) -> Floats:
    """Stiffness of the whole plate and all anchors, both ways: (6, cases)."""
    a = 4.0 * supports.half_x * supports.half_y
    none = np.zeros_like(a)
    concrete = np.stack((a, none, none, a * supports.half_x**2 / 3.0, none, a * supports.half_y**2 / 3.0))
    return concrete + supports.anchor_sums(supports.stiffness, 6)


def _start(supports: Supports, whole: Floats, load: Floats) -> Floats:
    """Plane (3, cases) of the whole plate and all anchors, lifted where its line of zero stress is under the plate."""
    plane = _solved(whole, np.zeros_like(load), load)
    rise = np.abs(plane[1]) * supports.half_x + np.abs(plane[2]) * supports.half_y
    plane[0] -= LIFT * np.maximum(rise - np.abs(plane[0]), 0.0)
    return plane


def _with_contact(supports: Supports, load: Floats) -> Floats:
    """Plane (3, cases) by damped Newton steps on the energy, which is convex, all cases at once.

    A step that neither lowers the energy enough nor halves the residual is taken back and tried again with more
    damping, a share of the stiffness of the whole plate and all anchors. Sides and load are about 1.
    """
    whole = _whole(supports)
    scale = whole[_DIAGONAL]
    state = _state(supports, load, _start(supports, whole, load))
    result = np.empty_like(load)
    damping = np.full(load.shape[1], LEAST_DAMPING)
    left: Index = np.arange(load.shape[1], dtype=np.intp)
    for _ in range(TRIALS):
        open_ = (state.largest > BALANCED) & (damping < MOST_DAMPING)
        rows = np.flatnonzero(open_)
        if not len(rows):
            break
        if len(rows) <= WORTH_LEAVING * len(left):
            result[:, left] = state.plane
            supports, state, load = supports.take(rows), state.take(rows), load.take(rows, axis=1)
            left, damping, scale, open_ = left[rows], damping[rows], scale.take(rows, axis=1), open_[rows]
        step = _solved(state.stiffness, damping * scale, -state.residual)
        tried = _state(supports, load, state.plane + step)
        lower = tried.energy <= state.energy + 1e-4 * np.einsum("in,in->n", step, state.residual)
        better = open_ & (lower | (tried.largest < 0.5 * state.largest))
        more = np.where(damping > LEAST_DAMPING, damping * MORE, FIRST_DAMPING)
        damping = np.where(better, np.maximum(damping / LESS, LEAST_DAMPING), more)
        back = np.flatnonzero(~better)
        if len(back):
            tried.put(back, state)
        state = tried
    result[:, left] = state.plane
    return result


def _without_contact(supports: Supports, load: Floats) -> Floats:
    """Plane (3, cases) of anchors that pull and push, through their centroid; of least slope where they are in a line.

    The load of a case that its anchors can't hold leaves a residual.
    """
    k, k_x, k_y, _, _, _ = supports.anchor_sums(supports.stiffness, 6)
    held = k > 0.0
    k_safe = np.where(held, k, 1.0)
    x_g, y_g = k_x / k_safe, k_y / k_safe
    x, y = supports.basis[1] - x_g, supports.basis[2] - y_g
    second = np.empty((len(k), 2, 2))
    second[:, 0, 0] = np.sum(supports.stiffness * x * x, axis=0)
    second[:, 1, 1] = np.sum(supports.stiffness * y * y, axis=0)
    second[:, 0, 1] = second[:, 1, 0] = np.sum(supports.stiffness * x * y, axis=0)
    roots, axes = np.linalg.eigh(second)
    stiff = roots > COLLINEAR * k_safe[:, None]
    inverse = np.where(stiff, 1.0, 0.0) / np.where(stiff, roots, 1.0)
    moment = np.stack((load[1] - x_g * load[0], load[2] - y_g * load[0]), axis=1)
    slope = np.einsum("nij,nj,nkj,nk->ni", axes, inverse, axes, moment)
    level = np.where(held, load[0] / k_safe, 0.0)
    return np.stack((level - slope[:, 0] * x_g - slope[:, 1] * y_g, slope[:, 0], slope[:, 1]))


def _buckets(count: Index, which: Bools) -> Iterator[Index]:
    """Those cases with the same number of places for anchors: up to 8, 16, 32, ..."""
    largest = np.max(count, initial=0)
    least, most = 0, 8
    while least <= largest:
        cases = np.flatnonzero(which & (count >= least) & (count <= most))
        if len(cases):
            yield cases
        least, most = most + 1, 2 * most


def stress_plane(
    *,
    half_x: Floats,
    half_y: Floats,
    load: Floats,
    on_concrete: Bools,
    x: Floats,
    y: Floats,
    stiffness: Floats,
    case_of_anchor: Index,
) -> tuple[Floats, Floats, Floats]:
    """The stress plane of each plate, what the concrete carries of it, and what it leaves unbalanced.

    Args:
        half_x, half_y: (cases,) half sides, above zero.
        load: (3, cases).
        on_concrete: (cases,) boolean; elsewhere the anchors push as well as pull, and nothing else does.
        x, y, stiffness: (anchors,) place from the centre of the plate, and area times E_s/E_c, above zero.
        case_of_anchor: (anchors,) in rising order.

    Returns:
        The plane and the integrals of the concrete's stress times 1, x, y, (3, cases) each, and the residual (cases,):
        the largest of the unbalanced force and moments, these over the longer half side, as a share of the largest of
        the load. Where nothing balances the load it isn't small.
    """
    length = np.maximum(half_x, half_y)
    per_length = np.ones_like(load)
    per_length[1:] = 1.0 / length
    force = np.max(np.abs(load) * per_length, axis=0)
    force = np.where(force > 0.0, force, 1.0)
    load_1 = load * per_length / force
    plane = np.zeros_like(load)
    count = np.bincount(case_of_anchor, minlength=len(length))
    place = np.arange(len(case_of_anchor)) - (np.cumsum(count) - count)[case_of_anchor]
    for solve, which in ((_with_contact, on_concrete), (_without_contact, ~on_concrete)):
        for cases in _buckets(count, which):
            supports = _supports(
                cases,
                length=length,
                half_x=half_x,
                half_y=half_y,
                x=x,
                y=y,
                stiffness=stiffness,
                case_of_anchor=case_of_anchor,
                place=place,
            )
            plane[:, cases] = solve(supports, load_1.take(cases, axis=1))
    plane *= (force / length**2) * per_length
    under = np.where(on_concrete, contact(half_x=half_x, half_y=half_y, plane=plane).force, 0.0)
    level, slope_x, slope_y = (each[case_of_anchor] for each in plane)
    stress: Floats = level + slope_x * x + slope_y * y
    pull: Floats = stiffness * np.where(on_concrete[case_of_anchor], np.minimum(stress, 0.0), stress)
    sums = [np.bincount(case_of_anchor, pull * arm, len(length)) for arm in (1.0, x, y)]
    unbalanced = np.abs(under + np.stack(sums) - load) * per_length
    return plane, under, np.max(unbalanced, axis=0) / force
