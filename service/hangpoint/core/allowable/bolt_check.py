"""The checks of cast-in bolts in grouted masonry: each bolt in tension, in shear and in both. in, in2, lbf, psi."""

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
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.circle_area import cut_circle, cut_half_circle
from hangpoint.core.outcome import ModeOutcome, absent_outcome, mode_outcome
from hangpoint.core.quantity import Bools, Floats, Index, StrengthRecord
from hangpoint.core.vocabulary import Inapplicable, Mode, position

_LEAST_AREA = 1e-6
"""in2: a projected area that edges leave nothing of."""

_NOISE = 1e-9
"""A component of less than this share of the shear is a rounding error and no direction."""


@frozen
class BoltCases:
    """Columns of the bolts, a row a case; ``e_b`` is 0 for headed bolts, ``h`` the thickness of the member."""

    f_m: Floats
    h: Floats
    l_b: Floats
    d_b: Floats
    a_b: Floats
    f_y: Floats
    e_b: Floats
    by_strength: Bools
    older: Bools


@frozen
class BoltPairs:
    """Neighbouring bolts of one point, each pair from both sides: ``one`` and ``other`` on the axis of anchors.

    ``off_x`` and ``off_y`` are from the one to the other along x and along y.
    """

    one: Index
    other: Index
    off_x: Floats
    off_y: Floats


def check_bolts(cases: BoltCases, anchors: LoadedAnchors, pairs: BoltPairs) -> list[ModeOutcome]:
    """The modes of all cases, in the order in which the first largest governs."""
    at = anchors.case
    bolt = _Bolts(cases, anchors, pairs)
    pulled, slid = np.flatnonzero(anchors.n > 0), np.flatnonzero(anchors.v > 0)
    bent = pulled[cases.e_b[at[pulled]] > 0]
    edged, edge = np.nonzero(_towards(anchors))
    no_tension, no_shear = Inapplicable.NO_TENSION, Inapplicable.NO_SHEAR
    tension = [
        bolt.outcome(Mode.MASONRY_STEEL_TENSION, pulled, bolt.steel(MasonrySteel, STEEL_TENSION, pulled), no_tension),
        bolt.outcome(Mode.MASONRY_PULLOUT, bent, bolt.pullout(bent), Inapplicable.NOT_BENT, why_bent=no_tension),
        bolt.outcome(Mode.MASONRY_BREAKOUT_TENSION, pulled, bolt.breakout(MasonryBreakout, pulled), no_tension),
    ]
    shear = [
        bolt.outcome(Mode.MASONRY_STEEL_SHEAR, slid, bolt.steel(MasonryShearSteel, STEEL_SHEAR, slid), no_shear),
        bolt.outcome(
            Mode.MASONRY_BREAKOUT_SHEAR,
            edged,
            bolt.shear_breakout(edged, edge),
            Inapplicable.NO_EDGE_SHEARED,
            edge=edge,
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


def _towards(anchors: LoadedAnchors) -> Bools:
    """(anchors, 4) whether there is an edge on that side and the shear has a component towards it."""
    least = _NOISE * anchors.v
    pushes = np.stack((anchors.v_x < -least, anchors.v_x > least, anchors.v_y < -least, anchors.v_y > least), axis=1)
    return pushes & np.isfinite(anchors.c_a)


class _Bolts:
    """Strengths of the bolts of some rows of the axis of anchors."""

    def __init__(self, cases: BoltCases, anchors: LoadedAnchors, pairs: BoltPairs) -> None:
        self._cases, self._anchors, self._pairs = cases, anchors, pairs
        area = cut_circle(
            radius=cases.l_b[anchors.case],
            c_a=anchors.c_a,
            one=pairs.one,
            other=pairs.other,
            off_x=pairs.off_x,
            off_y=pairs.off_y,
        )
        self._a_pt = np.maximum(area, _LEAST_AREA)

    def outcome(
        self,
        mode: Mode,
        rows: Index,
        made: StrengthRecord,
        why: Inapplicable,
        *,
        why_bent: Inapplicable | None = None,
        edge: Index | None = None,
    ) -> ModeOutcome:
        """The mode, absent where no row has it; ``why_bent`` is the reason of a bent bar, where it differs."""
        reason = np.full(self._anchors.count, position(why))
        if why_bent is not None:
            reason[self._cases.e_b > 0] = position(why_bent)
        if not len(rows):
            return absent_outcome(mode, reason)
        return mode_outcome(
            mode,
            made,
            case_of_row=self._anchors.case[rows],
            reason=reason,
            anchor_of_row=rows,
            edge_of_row=edge,
        )

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

    def shear_breakout(self, rows: Index, edge: Index) -> MasonryBreakout:
        """Breakout towards each edge that the shear has a component towards, by the whole shear."""
        anchors, pairs, at = self._anchors, self._pairs, self._anchors.case[rows]
        k_m, phi = self._k(BREAKOUT, at)
        area = cut_half_circle(
            c_a=anchors.c_a,
            depth=self._cases.h[anchors.case],
            one=pairs.one,
            other=pairs.other,
            off_x=pairs.off_x,
            off_y=pairs.off_y,
        )
        return masonry_breakout(
            MasonryShearBreakout,
            f_m=self._cases.f_m[at],
            radius=anchors.c_a[rows, edge],
            a_p=np.maximum(area[rows, edge], _LEAST_AREA),
            k_m=k_m,
            phi=phi,
            demand=anchors.v[rows],
        )

    def crushing(self, rows: Index) -> StrengthRecord:
        """Crushing of the masonry."""
        at = self._anchors.case[rows]
        k_m, phi = self._k(CRUSHING, at)
        return masonry_crushing(
            f_m=self._cases.f_m[at], a_b=self._cases.a_b[at], k_m=k_m, phi=phi, demand=self._anchors.v[rows]
        )
