"""The cases and edges of the rows of a mode, also where an outcome leaves them out because they are plain."""

import numpy as np


def cases_of_rows(outcome):
    """Case of each row."""
    return np.arange(len(outcome.utilisation)) if outcome.case_of_row is None else outcome.case_of_row


def edges_of_rows(outcome):
    """Edge of each row, -1 for a mode without edges."""
    return np.full(len(outcome.utilisation), -1) if outcome.edge_of_row is None else outcome.edge_of_row


def reasons_without_rows(outcome, count):
    """Reason of each case that has no row, by case."""
    lacking = sorted(set(range(count)) - set(cases_of_rows(outcome).tolist()))
    return {case: int(outcome.reason[case]) for case in lacking}
