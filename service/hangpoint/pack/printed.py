"""What results and traces print alike: the names of load cases, and numbers in the units of the request."""

from collections.abc import Sequence

import numpy as np
import orjson

from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.cases import case_names
from hangpoint.core.loads.combinations import CASES, GIVEN
from hangpoint.core.quantity import Floats
from hangpoint.units import QuantityKind, System, bare_factor

SERVICE_NAME = "service"
"""Name of the load case of a service load, whose index is -1 (`verdict.SERVICE`): the last of all names."""

_BY_NATURE = case_names((CASES[GIVEN].name,))
CASE_NAMES: tuple[str, ...] = (*_BY_NATURE, SERVICE_NAME)
"""Names of the load cases of a request that names none of its own."""

_CASE_TEXTS = tuple(orjson.dumps(name) for name in CASE_NAMES)


def printed_cases(names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of the load cases by index, the service load last.

    Those of a request that names none are `CASE_NAMES`, so that their texts are written once.
    """
    return CASE_NAMES if names == _BY_NATURE else (*names, SERVICE_NAME)


def case_texts(printed: tuple[str, ...]) -> Sequence[bytes]:
    """The names of `printed_cases` as JSON."""
    return _CASE_TEXTS if printed is CASE_NAMES else [orjson.dumps(name) for name in printed]


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
    if np.count_nonzero(np.isfinite(column)) < column.size:
        raise NonFiniteError("a result is not a finite number")
    return column
