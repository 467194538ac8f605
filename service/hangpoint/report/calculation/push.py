"""The shear on the anchors of a point as a sketch shows it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hangpoint.report.calculation.subject import values_of

_SHEAR = "AnchorShear"
_LAYOUT = "LayoutLoad"


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """Factored shear along x and y, lbf, in one load case, and where it acts from the origin of the layout, in."""

    v_x: float
    v_y: float
    load_case: str
    x: float = 0.0
    y: float = 0.0


def push_of(result: Mapping[str, Any]) -> Push | None:
    """The shear that the trace of a result shows first; None where it shows none.

    That is the load case in which the anchors are used most, or another in which a mode is worst where it has no shear.
    """
    trace = result.get("trace", ())
    shear = next((each for each in trace if each["record"] == _SHEAR), None)
    if shear is None:
        return None
    case, values = shear["load_case"], values_of(shear)
    same = (each for each in trace if each["record"] == _LAYOUT and each["load_case"] == case)
    layout = next(same, None)
    at = {} if layout is None else values_of(layout)
    return Push(
        v_x=values["v_ua_x"],
        v_y=values["v_ua_y"],
        load_case=case,
        x=at.get("x_v", 0.0),
        y=at.get("y_v", 0.0),
    )
