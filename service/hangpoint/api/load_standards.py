"""Which load standard combines loads for which design code: the one that holds, and those that don't go together."""

from collections.abc import Mapping
from typing import Any

from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.core.loads.combination_tables import EDITIONS, EN1990
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags

ACI318_19, EN1992_4 = "aci318_19", "en1992_4"
GOES_WITH: Mapping[str, tuple[str, ...]] = {ACI318_19: EDITIONS, EN1992_4: (EN1990,)}
"""Load standards by design code, first the one that holds where none is stated."""

OF_QUERY: Mapping[str, Any] = {"place": "?load_standard"}
"""Where a query states it, or an option of a command."""
_PLACE = pointer("load_standard")
_PAIRS = "; ".join(f"{code} goes with {' or '.join(standards)}" for code, standards in GOES_WITH.items()) + "."


def load_standard_of(design_code: str | None, load_standard: str | None) -> str:
    """The load standard that holds for a request, of what it states."""
    return load_standard or GOES_WITH[design_code or ACI318_19][0]


def say_by_en(assumptions: Flags) -> None:
    """Lower what is said of factors of ASCE 7, where the combinations are those of EN 1990.

    That contents are variable is said of the request as a whole.
    """
    assumptions.exchange(Assumption.THERMAL_STAYS, Assumption.THERMAL_STAYS_EN)
    assumptions.clear(Assumption.CONTENTS_AS_DEAD)


def refuse_mixed(
    design_code: str | None, load_standard: str | None, *, place: str = _PLACE, line: int | None = None
) -> None:
    """Refuse a load standard that doesn't go with the design code.

    Args:
        design_code, load_standard: as the request states them.
        place, line: where the load standard stands.

    Raises:
        ProblemError: load factors of one standard and strengths of another.
    """
    allowed = GOES_WITH[design_code or ACI318_19]
    if load_standard is None or load_standard in allowed:
        return
    taken = "" if design_code else ", which holds where none is stated"
    detail = (
        f"{load_standard} doesn't go with the design code {design_code or ACI318_19}{taken}: load factors and strengths"
        f" of one standard belong together. {_PAIRS}"
    )
    error = FieldError(pointer=place, code="contradiction", detail=detail, allowed=allowed, line=line)
    raise ProblemError("validation", f"{place}: {detail}", errors=[error])
