"""What results and traces print alike: the names of load cases, and numbers in the units of the request."""

import numpy as np

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.quantity import Floats
from hangpoint.units import QuantityKind, System, bare_factor

SERVICE_NAME = "service"
CASE_NAMES = (*(case.value.name for case in CASES), SERVICE_NAME)
"""Names of the load cases by index; the last is that of a service load (`verdict.SERVICE` is -1)."""


def in_request_units(column: Floats, kind: QuantityKind, system: System) -> Floats:
    """A column in the bare unit of the request's system.

    Raises:
        NonFiniteError: a number is not finite.
    """
    factor = bare_factor(kind, system)
    return finite(column if factor == 1.0 else column / factor)


def finite(column: Floats) -> Floats:
    """The column itself.

    Raises:
        NonFiniteError: a number is not finite.
    """
    if not np.isfinite(column).all():
        raise NonFiniteError("a result is not a finite number")
    return column
