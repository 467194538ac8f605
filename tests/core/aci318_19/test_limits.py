"""Limits of dimensions at their very ends, in millimetres: a conversion's rounding fails nobody."""

import numpy as np
import pytest

from hangpoint.core.aci318_19.limits import dimension_findings
from hangpoint.core.vocabulary import Finding

INCH = 25.4
MILLIMETRES = np.arange(60.0, 303.0, 3.0)


def failing(finding, *, over=0.0, **changed):
    """Where a finding holds; the changed columns are in mm, ``over`` is the share by which h_ef and e_h exceed them."""
    count = len(next(iter(changed.values())))
    millimetres = {"thickness": np.full(count, 1e3), "h_ef": np.full(count, 100.0), "d_a": np.full(count, 12.0)}
    millimetres |= {"e_h": np.full(count, 0.0)} | changed
    columns = {name: values / INCH for name, values in millimetres.items()}
    columns["h_ef"] *= 1 + over
    columns["e_h"] *= 1 + over
    zero = np.zeros(count)
    kinds = {
        "limited_depth": finding is Finding.EMBEDMENT_TOO_DEEP,
        "screw": finding is Finding.SCREW_EMBEDMENT,
        "hooked": finding is Finding.HOOK_LENGTH,
    }
    found = dimension_findings(
        c_a=np.full((count, 4), np.inf),
        c_min=zero,
        c_min_code=zero,
        h_min=zero,
        **columns,
        **{name: np.full(count, own) for name, own in kinds.items()},
    )
    return next(column.holds for column in found if column.finding is finding)


@pytest.mark.parametrize(
    ("finding", "columns"),
    [
        (Finding.EMBEDMENT_TOO_DEEP, {"thickness": MILLIMETRES, "h_ef": MILLIMETRES * 2 / 3}),
        (Finding.SCREW_EMBEDMENT, {"d_a": MILLIMETRES / 3, "h_ef": MILLIMETRES * 10 / 3}),
        (Finding.HOOK_LENGTH, {"d_a": MILLIMETRES / 3, "e_h": MILLIMETRES * 1.5}),
    ],
)
def test_the_end_of_a_range_is_within_it(finding, columns):
    """17.9.4, 17.3.4 and 17.6.3.2.2b: h_ef of 2/3 h_a and of 10 d_a, e_h of 4.5 d_a; a millionth more is not."""
    assert not failing(finding, **columns).any()
    assert failing(finding, over=1e-6, **columns).all()


def test_the_lower_end_of_a_range_is_within_it():
    d_a = MILLIMETRES / 3
    for finding, columns in (
        (Finding.SCREW_EMBEDMENT, {"d_a": d_a, "h_ef": np.maximum(5 * d_a, 1.5 * INCH)}),
        (Finding.HOOK_LENGTH, {"d_a": d_a, "e_h": 3 * d_a}),
    ):
        assert not failing(finding, **columns).any()
        assert failing(finding, over=-1e-6, **columns).all()
