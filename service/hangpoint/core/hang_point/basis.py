"""What holds for a whole request."""

from hangpoint.core.frozen import frozen
from hangpoint.core.loads.combination_tables import ASCE7_16


@frozen
class Basis:
    """Which combinations of which edition of the load standard."""

    factored: bool
    allowable: bool
    load_standard: str = ASCE7_16
