"""JSON made from columns is the JSON of the objects; the expected texts are the json module's."""

import json
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hangpoint.core.errors import NonFiniteError
from hangpoint.pack.json_text import ABSENT, RowText, sparse


def read(text, count):
    return [json.loads(row) for row in text.rows(count)]


@given(st.lists(st.tuples(st.text(), st.floats(allow_nan=False, allow_infinity=False), st.booleans()), min_size=1))
def test_rows_are_the_objects_of_their_columns(rows):
    names, numbers, choices = zip(*rows, strict=True)
    text = RowText.object(
        {
            "a": RowText.values(names),
            "b": RowText.strings(names),
            "100 %": RowText.numbers(np.array(numbers)),
            "c": RowText.choice(("%b", "no"), np.array(choices, dtype=np.intp)),
            "d": RowText.constant({"%": ["%s", None]}),
            "e": RowText.array([RowText.constant(1), RowText.values(names)]),
        }
    )
    assert read(text, len(rows)) == [
        {"a": name, "b": name, "100 %": number}
        | {"c": ("%b", "no")[int(chosen)], "d": {"%": ["%s", None]}, "e": [1, name]}
        for name, number, chosen in rows
    ]


def test_optional_members_stand_where_they_are():
    text = RowText.object({"a": RowText.constant(1)}, {"b": sparse(3, [1], ["x"]), "c": [b"1", b"2", ABSENT]})
    assert read(text, 3) == [{"a": 1, "c": 1}, {"a": 1, "b": "x", "c": 2}, {"a": 1}]


@pytest.mark.parametrize("holds", [[True, False, True], [True] * 3, [False] * 3])
def test_one_of_two_texts_a_row(holds):
    text = RowText.where(np.array(holds), RowText.values([1, 2, 3]), RowText.constant("100 %"))
    assert read(text, 3) == [own if held else "100 %" for held, own in zip(holds, [1, 2, 3], strict=True)]


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_only_finite_numbers_are_written(value):
    with pytest.raises(NonFiniteError):
        RowText.numbers(np.array([1.0, value]))


def test_numbers_of_a_strided_column_are_its_own():
    table = np.arange(6.0).reshape(3, 2)
    assert read(RowText.numbers(table[:, 1]), 3) == [1.0, 3.0, 5.0]


def test_columns_of_numbers_are_each_their_own():
    """One that doesn't vary is written once; 0.0 and -0.0 are equal and differ as texts."""
    table = np.array([[1.0, 2.0], [3.0, 3.0], [0.0, -0.0], [5.0, 4.0]])
    texts = RowText.number_columns(table)
    assert [text.rows(2) for text in texts] == [[b"1.0", b"2.0"], [b"3.0"] * 2, [b"0.0", b"-0.0"], [b"5.0", b"4.0"]]
    assert [len(text.columns) for text in texts] == [1, 0, 1, 1]


@pytest.mark.parametrize("place", [(0, 1), (1, 0)])
def test_a_table_of_numbers_is_finite(place):
    table = np.array([[1.0, 2.0], [3.0, 3.0]])
    table[place] = math.nan
    with pytest.raises(NonFiniteError):
        RowText.number_columns(table)


@pytest.mark.parametrize("holds", [[True, False, True], [True] * 3, [False] * 3])
def test_an_optional_member_of_the_rows_where_it_holds(holds):
    text = RowText.object({"a": RowText.integers([1, 2, 3])}).only(np.array(holds))
    assert text.rows(3) == [b'{"a":%d}' % row if held else ABSENT for row, held in enumerate(holds, 1)]
    has = RowText.object({"b": RowText.constant(0)}, {"c": text})
    assert read(has, 3) == [{"b": 0} | ({"c": {"a": row}} if held else {}) for row, held in enumerate(holds, 1)]


@pytest.mark.parametrize("count", [1, 2, 3])
def test_numbers_of_a_strided_table_are_its_own(count):
    table = np.arange(12.0).reshape(3, 4)[:, :count]
    texts = RowText.number_columns(table)
    assert [read(text, count) for text in texts] == table.tolist()
    assert [read(text, 3) for text in RowText.number_columns(table.T)] == table.T.tolist()


@pytest.mark.parametrize("table", [[[0], [1]], [[0, 0], [1, 0]], [[1, 1], [0, 0]]])
def test_columns_of_texts_by_index_have_texts_of_their_own(table):
    texts = RowText.fragments([(b'"a"', b'"b"'), (b"1", b"2")], np.array(table))
    assert [read(text, len(table[0])) for text in texts] == [["ab"[at] for at in table[0]], [at + 1 for at in table[1]]]


def test_a_text_is_made_once_a_key():
    made = []
    text = RowText.by_key(["a", "b", "a"], lambda key: (made.append(key), b'"%b"' % key.encode())[1])
    assert text.rows(3) == [b'"a"', b'"b"', b'"a"']
    assert sorted(made) == ["a", "b"]


def test_the_last_text_by_index_is_that_of_none():
    texts = (b"1", b"2", ABSENT)
    assert RowText.fragment(texts, np.array([1, -1, 0])).rows(3) == [b"2", ABSENT, b"1"]
    never = RowText.object({"a": RowText.constant(0)}, {"b": RowText.fragment(texts, np.array([-1, -1]))})
    assert read(never, 2) == [{"a": 0}] * 2


def test_columns_of_different_length_are_refused():
    with pytest.raises(ValueError, match="shorter than"):
        RowText.array([RowText.texts([b"1", b"2"]), RowText.texts([b"1"])]).rows(2)
    with pytest.raises(ValueError, match="shorter than"):
        RowText.texts([b"1", b"2", b"3"]).only(np.array([True, False]))


def test_nothing_makes_nothing():
    empty = np.array([])
    assert RowText.array([RowText.integers([]), RowText.values([]), RowText.strings([])]).rows(0) == []
    assert RowText.object({"a": RowText.numbers(empty)}).rows(0) == []
    assert RowText.choice(("x",), empty.astype(np.intp)).rows(0) == []
