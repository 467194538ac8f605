"""Random anchors of many cases on the flat axis, with coordinates in whole tenths so that spacings tie exactly."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, kw_only=True)
class Layout:
    """``tenths_x``, ``tenths_y`` and ``tenths_limit`` are integers; the columns for the core are a tenth of them."""

    case_of_anchor: np.ndarray
    tenths_x: np.ndarray
    tenths_y: np.ndarray
    tenths_limit: np.ndarray
    counts: np.ndarray

    def columns(self, **changed):
        given = {
            "x": self.tenths_x / 10,
            "y": self.tenths_y / 10,
            "case_of_anchor": self.case_of_anchor,
            "limit": self.tenths_limit[self.case_of_anchor] / 10,
            "counts": self.counts,
        }
        return given | changed

    def near(self, i, j):
        """In whole numbers: whether two anchors are of one case, count and are closer than its limit."""
        dx = int(self.tenths_x[i]) - int(self.tenths_x[j])
        dy = int(self.tenths_y[i]) - int(self.tenths_y[j])
        case = self.case_of_anchor[i]
        return (
            case == self.case_of_anchor[j]
            and self.counts[i]
            and self.counts[j]
            and dx * dx + dy * dy < int(self.tenths_limit[case]) ** 2
        )


def layout(seed, *, cases=300, most=9, span=40, shift=0):
    """Cases of 0 to ``most`` anchors within ``span`` tenths; every fourth anchor stands on the one before."""
    rng = np.random.default_rng(seed)
    case_of_anchor = np.repeat(np.arange(cases), rng.integers(0, most + 1, cases))
    count = len(case_of_anchor)
    tenths_x, tenths_y = rng.integers(0, span, count) + shift, rng.integers(0, span, count) - shift
    again = np.flatnonzero((rng.random(count) < 0.25)[1:]) + 1
    tenths_x[again], tenths_y[again] = tenths_x[again - 1], tenths_y[again - 1]
    return Layout(
        case_of_anchor=case_of_anchor,
        tenths_x=tenths_x,
        tenths_y=tenths_y,
        tenths_limit=5 * rng.integers(1, 5, cases),
        counts=rng.random(count) < 0.8,
    )
