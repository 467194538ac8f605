"""Every candidate at every situation: why it is rejected, or that it holds; and the order in which those are taken."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.selection.candidates import Candidates, Offer, Wishes
from hangpoint.core.selection.pairs import NONE, PairChecks, check_pairs, standing_refusals
from hangpoint.core.selection.places import place_columns
from hangpoint.core.selection.traits import ACCEPTED, TraitColumn, first_rejection, trait_columns
from hangpoint.core.vocabulary import Objective, Rejection, position


@frozen
class Choice:
    """Candidates at situations, (situations, candidates) but for ``checks``.

    ``rejection`` is a place in `Rejection`, ``refusal`` one in `Refusal`, both found without a check, `NONE` where
    there is none. ``pair`` is the row of ``checks``, `NONE` where nothing was checked. ``holds`` are those that may be
    taken.
    """

    points: Points
    condition: Index
    traits: list[TraitColumn]
    rejection: Codes
    refusal: Codes
    pair: Index
    checks: PairChecks
    holds: Bools

    @property
    def checkable(self) -> bool:
        """Whether there is a candidate that nothing stands against but what a check may say."""
        return bool(((self.rejection == ACCEPTED) & (self.refusal == NONE)).any())


@frozen
class Known:
    """What earlier checks say of pairs of the situations, (situations, candidates).

    ``lost`` can't hold and are not checked. ``pair`` is the row of ``checks`` of those that were checked as they are,
    `NONE` for all others.
    """

    lost: Bools
    pair: Index | None = None
    checks: PairChecks | None = None


def choose(
    points: Points,
    condition: Index,
    candidates: Candidates,
    offer: Offer,
    wishes: Wishes,
    basis: Basis,
    more: Sequence[TraitColumn] = (),
    known: Known | None = None,
) -> Choice:
    """Check every candidate at every situation that nothing stands against beforehand.

    Args:
        points: situations; their products are not read.
        condition: (situations,) condition of the hole that each states.
        candidates, offer: products and their strengths.
        wishes: of the request.
        basis: what holds for the whole request.
        more: rejections beyond those of the wishes, told first.
        known: of earlier checks.
    """
    shape = points.count, offer.count
    fits = offer.fits.reshape(-1, offer.count)[condition]
    traits = [
        *more,
        *trait_columns(points, candidates, wishes, fits=fits),
        *place_columns(points, offer, condition=condition),
    ]
    rejection = first_rejection(traits, shape)
    refusal = standing_refusals(points, offer, basis, condition=condition)
    wanted = (rejection == ACCEPTED) & (refusal == NONE)
    pair = np.full(shape, NONE, dtype=np.intp)
    if known is not None:
        wanted &= ~known.lost
        if known.pair is not None:
            pair = np.where(wanted, known.pair, NONE)
    point, candidate = np.nonzero(wanted & (pair == NONE))
    checks = check_pairs(points, offer, basis, point=point, candidate=candidate, condition=condition)
    if known is not None and known.checks is not None:
        checks = known.checks.followed_by(checks)
    pair[point, candidate] = len(checks.mode) - len(point) + np.arange(len(point))
    holds = np.zeros(shape, dtype=np.bool_)
    holds[wanted] = checks.holds(wishes.reserve)[pair[wanted]]
    return Choice(
        points=points,
        condition=condition,
        traits=traits,
        rejection=rejection,
        refusal=refusal,
        pair=pair,
        checks=checks,
        holds=holds,
    )


def strength_rejections(checks: PairChecks, reserve: float) -> Codes:
    """Why checked pairs that nothing else stands against are not taken: places in `Rejection`, `NONE` where they are.

    A refusal or a violation of the chain is told in place of these.
    """
    found = np.full(len(checks.mode), NONE, dtype=np.int8)
    left = ~checks.holds(reserve) & (checks.refusal == NONE) & (checks.violation == NONE)
    exceeded, beyond = ~checks.holds(0.0), checks.utilisation > 1.0
    found[left] = position(Rejection.RESERVE)
    found[left & exceeded & (checks.mode == NONE)] = position(Rejection.NO_MODE)
    found[left & exceeded & (checks.mode != NONE)] = position(Rejection.ROD)
    found[left & exceeded & beyond & (checks.mode != NONE)] = position(Rejection.UTILISATION)
    return found


def measure(candidates: Candidates, objective: Objective) -> Floats:
    """(candidates,) what one anchor of each takes of the objective; nothing of the reserve, which is the point's."""
    by_objective = {
        Objective.COST_INDEX: candidates.cost_index,
        Objective.MINUTES: candidates.minutes,
        Objective.DRILLED_DEPTH: candidates.hole_depth,
    }
    return by_objective.get(objective, np.zeros(len(candidates.family)))


def order(candidates: Candidates, objective: Objective, utilisation: Floats | None = None) -> Index:
    """Candidates from the best on: by the objective, then cost, minutes, drilled depth, diameter.

    Args:
        candidates: products.
        objective: what the best has least of.
        utilisation: (candidates,) that the reserve is ranked by.
    """
    leads = measure(candidates, objective)
    if objective is Objective.RESERVE and utilisation is not None:
        leads = utilisation
    own = candidates
    return np.lexsort((own.d_a, own.hole_depth, own.minutes, own.cost_index, leads))
