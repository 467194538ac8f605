"""Lengths of a cut list as who cuts reads them."""

import pytest

from hangpoint.report.take_off_tables import cut_table, length_text, pieces_text


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (3.333333333333333, "ft", "3'-4\""),
        (10, "ft", "10'-0\""),
        (0.21875, "ft", "0'-2 5/8\""),
        (5 / 192, "ft", "0'-0 5/16\""),
        (11.999999999, "ft", "12'-0\""),
        (3.3333, "ft", "3.3333 ft"),
        (1.25, "m", "1.25 m"),
    ],
)
def test_a_length_of_feet_is_in_feet_and_inches_where_it_is_in_sixteenths(length, unit, text):
    assert length_text(length, unit) == text


def test_pieces_and_what_is_left_of_a_bar():
    pieces = [{"count": 2, "length": 10 / 3}, {"count": 1, "length": 3.0}]
    assert pieces_text(pieces, "ft") == "2 x 3'-4\", 1 x 3'-0\""
    own = {
        "description": "rod",
        "stock_length": 10,
        "bars": 1,
        "lower_bound": 1,
        "method": "exact",
        "waste_share": 0.03,
    }
    answer = {
        "units": {"distance": "ft"},
        "cut_list": [{**own, "waste_length": 0.333333, "patterns": [{"bars": 1, "pieces": pieces}]}],
    }
    table = cut_table(answer)
    row = dict(zip(table.names, table.rows[0], strict=True))
    assert (row["pieces"], row["left"]) == ("2 x 3'-4\", 1 x 3'-0\"", 0.333333)
