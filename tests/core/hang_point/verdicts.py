"""Answers of the chain to a few columns, and what tests read from them."""

import numpy as np

from core.builders import SERVICE_LOADS, points
from hangpoint.core.hang_point import chain
from hangpoint.core.hang_point.demand import AnchorDemand
from hangpoint.core.hang_point.points import PIPE
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.vocabulary import Inapplicable, Refusal

REFUSALS, REASONS = tuple(Refusal), tuple(Inapplicable)
SPRINKLER_LINE = {"kind": PIPE, "sprinkler": True}


def checked(basis=SERVICE_LOADS, **tables):
    return chain.check(points(**tables), basis)


def refusal_of(verdicts, row=0):
    code = verdicts.refusal[row]
    return None if code == ACCEPTED else REFUSALS[code]


def mode_of(verdicts, mode):
    return next(found for found in verdicts.modes if found.mode is mode)


def governing_mode(verdicts, row=0):
    return verdicts.modes[verdicts.governing[row]].mode


def found_on(verdicts, row=0):
    return {column.finding for column in verdicts.findings if column.holds[row]}


def value_of(verdicts, finding, row=0):
    column = next(column for column in verdicts.findings if column.finding is finding)
    return float(column.value[row]), float(column.limit[row])


def factored_by_case(verdicts):
    """Factored tension of each load case of a batch of one point, by the name of the case."""
    record = next(section.record for section in verdicts.sections if isinstance(section.record, AnchorDemand))
    factors = np.array([[c.dead, c.contents, c.live, c.sprinkler, c.given] for c in CASES])
    gammas = (record.gamma_dead, record.gamma_contents, record.gamma_live, record.gamma_sprinkler, record.gamma_given)
    rows = np.array(gammas).T
    names = [CASES[int(np.flatnonzero((factors == row).all(axis=1))[0])].name for row in rows]
    return dict(zip(names, record.n_ua.tolist(), strict=True))
