"""Mixed-integer programs over variables from 0 to 1, solved by HiGHS through scipy, which is imported when used."""

from importlib import import_module
from typing import Any

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Floats, Index

_OUT_OF_TIME, _INFEASIBLE = 1, 2
"""Statuses of the solver."""

_WORK = 20_000
"""Variables times nodes of the search: a limit that counts no time, so that the same job has the same plan."""


@frozen
class Solution:
    """The best point found, and what no point can be below."""

    x: Floats
    bound: float


def least_of(
    objective: Floats,
    *,
    integral: Floats,
    rows: Index,
    columns: Index,
    values: Floats,
    low: Floats,
    high: Floats,
    seconds: float,
) -> Solution | None:
    """The point of least objective; None if no point meets the constraints.

    Args:
        objective: (variables,) coefficients.
        integral: (variables,) 1 where a variable is 0 or 1.
        rows, columns, values: (entries,) of the matrix of constraints.
        low, high: (constraints,) bounds of each.
        seconds: time limit; what was found by then is not used, because it depends on what else the machine does.

    Raises:
        TimeoutError: the search did not end in time, or found no point.
    """
    optimize: Any = import_module("scipy.optimize")
    sparse: Any = import_module("scipy.sparse")
    matrix = sparse.coo_array((values, (rows, columns)), shape=(len(low), len(objective))).tocsr()
    found = optimize.milp(
        objective,
        integrality=integral,
        bounds=optimize.Bounds(0, 1),
        constraints=optimize.LinearConstraint(matrix, low, high),
        options={"time_limit": seconds, "node_limit": max(1, _WORK // len(objective)), "mip_rel_gap": 0.0},
    )
    if found.status == _INFEASIBLE:
        return None
    if found.status == _OUT_OF_TIME or found.x is None:
        raise TimeoutError("no plan was found within the limits of the search")
    return Solution(x=found.x, bound=float(found.fun if found.mip_dual_bound is None else found.mip_dual_bound))
