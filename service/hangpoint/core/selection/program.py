"""Mixed-integer programs over variables from 0 to 1, solved by HiGHS through scipy, which is imported when used."""

from importlib import import_module
from typing import Any

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Floats, Index

_INFEASIBLE = 2
"""Status of the solver."""


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
        seconds: time limit.

    Raises:
        TimeoutError: no point was found in time.
    """
    optimize: Any = import_module("scipy.optimize")
    sparse: Any = import_module("scipy.sparse")
    matrix = sparse.coo_array((values, (rows, columns)), shape=(len(low), len(objective))).tocsr()
    found = optimize.milp(
        objective,
        integrality=integral,
        bounds=optimize.Bounds(0, 1),
        constraints=optimize.LinearConstraint(matrix, low, high),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    if found.status == _INFEASIBLE:
        return None
    if found.x is None:
        raise TimeoutError(f"no plan was found in {seconds:g} s")
    return Solution(x=found.x, bound=float(found.fun if found.mip_dual_bound is None else found.mip_dual_bound))
