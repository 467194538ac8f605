"""Numbers in sentences: to so many figures, never with a power of ten."""

import pytest

from hangpoint.report.printable import plain_number, told_apart


@pytest.mark.parametrize(
    ("value", "figures", "said"),
    [
        (1e8, 6, "100000000"),
        (-444822.16152605, 6, "-444822"),
        (12345.6, 4, "12346"),
        (9999.6, 4, "10000"),
        (1234.56, 4, "1235"),
        (0.000039370079, 6, "0.0000393701"),
        (32036.92674, 6, "32036.9"),
        (0.0, 4, "0"),
        (2.5, 4, "2.5"),
    ],
)
def test_a_number_has_its_figures_and_all_before_its_point(value, figures, said):
    assert plain_number(value, figures) == said


@pytest.mark.parametrize(
    ("value", "limit", "said"),
    [
        (1346.92, 1346.8951, ("1346.92", "1346.9")),
        (1350.0, 1346.895, ("1350", "1347")),
        (2.99999, 3.0, ("2.99999", "3")),
        (101.59, 101.6, ("101.59", "101.6")),
        (3.0, 3.0, ("3", "3")),
    ],
)
def test_a_value_beyond_its_limit_does_not_read_as_the_limit(value, limit, said):
    assert told_apart(value, limit, 4) == said
