"""The grids of sweeps, in the units of the request, and how they are said in words."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.quantity import Floats
from hangpoint.report.printable import plain_number
from hangpoint.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class GridValues:
    """Rising values and how they lie."""

    values: Floats
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Steps:
    """A step up to a value and a wider one from there."""

    step: float
    until: float
    wide: float
    last: float
    first: float = 0.0


LEAST_STRENGTH = "The grid begins at the least strength of structural concrete."
LEAST_F_M = "The grid begins below any masonry that anchors are tested in; only tests of prisms or units show f'm."

_STEPS: dict[str, dict[System, _Steps]] = {
    "edge": {
        "us": _Steps(step=0.125, until=24.0, wide=1.0, last=120.0),
        "si": _Steps(step=3.0, until=600.0, wide=25.0, last=3000.0),
    },
    "spacing": {
        "us": _Steps(step=0.125, until=24.0, wide=1.0, last=120.0),
        "si": _Steps(step=3.0, until=600.0, wide=25.0, last=3000.0),
    },
    "thickness": {
        "us": _Steps(step=0.25, until=40.0, wide=2.0, last=120.0),
        "si": _Steps(step=5.0, until=1000.0, wide=50.0, last=3000.0),
    },
    "strength": {
        "us": _Steps(first=2500.0, step=100.0, until=15_000.0, wide=100.0, last=15_000.0),
        "si": _Steps(first=17.5, step=0.5, until=100.0, wide=0.5, last=100.0),
    },
    "masonry_strength": {
        "us": _Steps(first=500.0, step=50.0, until=6000.0, wide=50.0, last=6000.0),
        "si": _Steps(first=3.5, step=0.25, until=40.0, wide=0.25, last=40.0),
    },
    "span": {
        "us": _Steps(step=0.25, until=40.0, wide=1.0, last=60.0),
        "si": _Steps(step=0.1, until=12.0, wide=0.25, last=18.0),
    },
}
_UNITS: dict[str, dict[System, str]] = {
    "edge": {"us": "in", "si": "mm"},
    "spacing": {"us": "in", "si": "mm"},
    "thickness": {"us": "in", "si": "mm"},
    "strength": {"us": "psi", "si": "MPa"},
    "masonry_strength": {"us": "psi", "si": "MPa"},
    "span": {"us": "ft", "si": "m"},
}


def even_grid(name: str, system: System) -> GridValues:
    """The grid of a dimension: even steps, wider ones beyond where the first matter."""
    own, unit = _STEPS[name][system], _UNITS[name][system]
    least = own.first or own.step
    fine = least + np.arange(round((own.until - least) / own.step) + 1) * own.step
    coarse = own.until + np.arange(1, round((own.last - own.until) / own.wide) + 1) * own.wide
    text = f"every {own.step:g} {unit} from {least:g} to {own.until:g} {unit}"
    if len(coarse):
        text += f", then every {own.wide:g} {unit} to {own.last:g} {unit}"
    values: Floats = np.concatenate([fine, coarse]).astype(np.float64)
    return GridValues(values=values, text=text)


def decades(first: float, last: float, *, a_decade: int = 10) -> GridValues:
    """Values in one ratio, so many a decade."""
    count = round(np.log10(last / first) * a_decade) + 1
    return GridValues(
        values=np.geomspace(first, last, count),
        text=f"{a_decade} values a decade from {first:g} to {plain_number(last, 6)}",
    )


def up_to(last: float, *, count: int = 200) -> GridValues:
    """Even steps from the first above 0 to a value."""
    return GridValues(
        values=np.linspace(0.0, last, count + 1)[1:],
        text=f"{count} even steps to {plain_number(last, 4)}, beyond the largest that passed on a grid of 10 a decade",
    )
