"""The checks of cast-in bolts in grouted masonry: each bolt in tension, in shear and in both. in, in2, lbf, psi."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.allowable.cases import LoadedAnchors
from hangpoint.core.allowable.check import together
from hangpoint.core.allowable.masonry_bolt import (
    MasonryBreakout,
    MasonryPryout,
    MasonryShearBreakout,
    MasonryShearSteel,
    MasonrySteel,
    masonry_breakout,
    masonry_crushing,
    masonry_pullout,
    masonry_steel,
)
from hangpoint.core.allowable.masonry_coefficients import (
    BEARING,
    BOND,
    BREAKOUT,
    CRUSHING,
    PRYOUT,
    STEEL_SHEAR,
    STEEL_TENSION,
    Coefficients,
    coefficients,
)
from hangpoint.core.geometry.circle_area import cut_circle, segment
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, StrengthRecord
from hangpoint.core.vocabulary import Inapplicable, Mode, position

_LEAST_AREA = 1e-6
"""in2: a projected area that edges and neighbours leave nothing of."""


@dataclass(frozen=True, kw_only=True)
class BoltCases:
    """Columns of the bolts, a row a case; ``e_b`` is 0 for headed bolts."""

    f_m: Floats
    l_b: Floats
    d_b: Floats
    a_b: Floats
    f_y: Floats
    e_b: Floats
    by_strength: Bools
    older: Bools


@dataclass(frozen=True, kw_only=True)
class BoltPairs:
    """Neighbouring bolts of one point, each pair from both sides: ``one`` on the axis of anchors, and its spacing."""

    one: Index
    spacing: Floats


def check_bolts(cases: BoltCases, anchors: LoadedAnchors, pairs: BoltPairs) -> list[ModeOutcome]:
    """The modes of all cases, in the order in which the first largest governs."""
    at = anchors.case
    bolt = _Bolts(cases, anchors, pairs)
    pulled, slid = np.flatnonzero(anchors.n > 0), np.flatnonzero(anchors.v > 0)
    bent = pulled[cases.e_b[at[pulled]] > 0]
    l_be, along_x = _towards(anchors)
    edged = slid[np.isfinite(l_be[slid])]
    no_tension, no_shear = Inapplicable.NO_TENSION, Inapplicable.NO_SHEAR
    tension = [
        bolt.outcome(Mode.MASONRY_STEEL_TENSION, pulled, bolt.steel(MasonrySteel, STEEL_TENSION, pulled), no_tension),
        bolt.outcome(Mode.MASONRY_PULLOUT, bent, bolt.pullout(bent), Inapplicable.NOT_BENT),
        bolt.outcome(Mode.MASONRY_BREAKOUT_TENSION, pulled, bolt.breakout(MasonryBreakout, pulled), no_tension),
    ]
    shear = [
        bolt.outcome(Mode.MASONRY_STEEL_SHEAR, slid, bolt.steel(MasonryShearSteel, STEEL_SHEAR, slid), no_shear),
        bolt.outcome(
            Mode.MASONRY_BREAKOUT_SHEAR,
            edged,
            bolt.shear_breakout(edged, l_be[edged], along_x[edged]),
            Inapplicable.NO_EDGE_SHEARED,
        ),
        bolt.outcome(Mode.MASONRY_CRUSHING, slid, bolt.crushing(slid), no_shear),
        bolt.outcome(Mode.MASONRY_PRYOUT, slid, bolt.breakout(MasonryPryout, slid), no_shear),
    ]
    ratios = [_peak(several, len(at)) for several in (tension, shear)]
    return [*tension, *shear, together(Mode.MASONRY_INTERACTION, at, ratios, power=~cases.older)]


def _peak(outcomes: list[ModeOutcome], count: int) -> Floats:
    """Largest ratio of every anchor."""
    peak = np.zeros(count)
    for outcome in outcomes:
        if outcome.anchor_of_row is not None:
            np.maximum.at(peak, outcome.anchor_of_row, outcome.utilisation)
    return peak


def _towards(anchors: LoadedAnchors) -> tuple[Floats, Bools]:
    """Nearest edge that each anchor is sheared towards, infinite where there is none, and whether it lies along x."""
    pushes = np.stack((anchors.v_x < 0, anchors.v_x > 0, anchors.v_y < 0, anchors.v_y > 0), axis=1)
    distance = np.where(pushes, anchors.c_a, np.inf)
    return distance.min(axis=1), distance.argmin(axis=1) < 2


class _Bolts:
    """Strengths of the bolts of some rows of the axis of anchors."""

    def __init__(self, cases: BoltCases, anchors: LoadedAnchors, pairs: BoltPairs) -> None:
        self._cases, self._anchors, self._pairs = cases, anchors, pairs
        radius = cases.l_b[anchors.case]
        area = cut_circle(radius=radius, c_a=anchors.c_a, one=pairs.one, spacing=pairs.spacing)
        self._a_pt = np.maximum(area, _LEAST_AREA)

    def outcome(self, mode: Mode, rows: Index, made: StrengthRecord, why: Inapplicable) -> ModeOutcome:
        """The mode, absent where no row has it."""
        reason = np.full(self._anchors.count, position(why))
        if not len(rows):
            return absent_outcome(mode, reason)
        return mode_outcome(mode, made, case_of_row=self._anchors.case[rows], reason=reason, anchor_of_row=rows)

    def _k(self, table: Coefficients, at: Index) -> tuple[Floats, Floats]:
        return coefficients(table, by_strength=self._cases.by_strength[at], older=self._cases.older[at])

    def steel(self, kind: type[MasonrySteel], table: Coefficients, rows: Index) -> MasonrySteel:
        """Steel in tension or in shear."""
        at = self._anchors.case[rows]
        k_m, phi = self._k(table, at)
        load = self._anchors.v if kind is MasonryShearSteel else self._anchors.n
        return masonry_steel(
            kind, a_b=self._cases.a_b[at], f_y=self._cases.f_y[at], k_m=k_m, phi=phi, demand=load[rows]
        )

    def pullout(self, rows: Index) -> StrengthRecord:
        """Pullout of bent bars."""
        cases, at = self._cases, self._anchors.case[rows]
        k_m, phi = self._k(BEARING, at)
        return masonry_pullout(
            f_m=cases.f_m[at],
            l_b=cases.l_b[at],
            e_b=cases.e_b[at],
            d_b=cases.d_b[at],
            k_m=k_m,
            tau=self._k(BOND, at)[0],
            phi=phi,
            demand=self._anchors.n[rows],
        )

    def breakout(self, kind: type[MasonryBreakout], rows: Index) -> MasonryBreakout:
        """Breakout in tension, or pryout in shear, by the same area."""
        at = self._anchors.case[rows]
        pry = kind is MasonryPryout
        k_m, phi = self._k(PRYOUT if pry else BREAKOUT, at)
        return masonry_breakout(
            kind,
            f_m=self._cases.f_m[at],
            radius=self._cases.l_b[at],
            a_p=self._a_pt[rows],
            k_m=k_m,
            phi=phi,
            demand=(self._anchors.v if pry else self._anchors.n)[rows],
        )

    def shear_breakout(self, rows: Index, l_be: Floats, along_x: Bools) -> MasonryBreakout:
        """Breakout towards the nearest edge that the shear acts towards: half a circle, cut at the sides.

        ``l_be`` (rows,) is its distance, and ``along_x`` says that it lies along x.
        """
        at = self._anchors.case[rows]
        k_m, phi = self._k(BREAKOUT, at)
        return masonry_breakout(
            MasonryShearBreakout,
            f_m=self._cases.f_m[at],
            radius=l_be,
            a_p=np.maximum(self._half_circle(rows, l_be, along_x), _LEAST_AREA),
            k_m=k_m,
            phi=phi,
            demand=self._anchors.v[rows],
        )

    def _half_circle(self, rows: Index, radius: Floats, along_x: Bools) -> Floats:
        c_a = self._anchors.c_a[rows]
        sides = np.where(along_x[:, None], c_a[:, 2:], c_a[:, :2])
        cut = segment(radius=np.broadcast_to(radius[:, None], sides.shape), distance=sides).sum(axis=1)
        place = np.full(len(self._anchors.case), -1, dtype=np.intp)
        place[rows] = np.arange(len(rows))
        own = place[self._pairs.one]
        has = own >= 0
        shared = segment(radius=radius[own[has]], distance=self._pairs.spacing[has] / 2)
        cut += np.bincount(own[has], weights=shared, minlength=len(rows))
        return (np.pi * radius**2 - cut) / 2

    def crushing(self, rows: Index) -> StrengthRecord:
        """Crushing of the masonry."""
        at = self._anchors.case[rows]
        k_m, phi = self._k(CRUSHING, at)
        return masonry_crushing(
            f_m=self._cases.f_m[at], a_b=self._cases.a_b[at], k_m=k_m, phi=phi, demand=self._anchors.v[rows]
        )
