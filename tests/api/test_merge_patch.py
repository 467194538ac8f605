"""Merge patches against RFC 7396, appendix A, whose test cases are here whole."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hangpoint.api.reverse.merge_patch import difference, merged

RFC = [
    ({"a": "b"}, {"a": "c"}, {"a": "c"}),
    ({"a": "b"}, {"b": "c"}, {"a": "b", "b": "c"}),
    ({"a": "b"}, {"a": None}, {}),
    ({"a": "b", "b": "c"}, {"a": None}, {"b": "c"}),
    ({"a": ["b"]}, {"a": "c"}, {"a": "c"}),
    ({"a": "c"}, {"a": ["b"]}, {"a": ["b"]}),
    ({"a": {"b": "c"}}, {"a": {"b": "d", "c": None}}, {"a": {"b": "d"}}),
    ({"a": [{"b": "c"}]}, {"a": [1]}, {"a": [1]}),
    (["a", "b"], ["c", "d"], ["c", "d"]),
    ({"a": "b"}, ["c"], ["c"]),
    ({"a": "foo"}, None, None),
    ({"a": "foo"}, "bar", "bar"),
    ({"e": None}, {"a": 1}, {"e": None, "a": 1}),
    ([1, 2], {"a": "b", "c": None}, {"a": "b"}),
    ({}, {"a": {"bb": {"ccc": None}}}, {"a": {"bb": {}}}),
]


@pytest.mark.parametrize(("target", "patch", "result"), RFC)
def test_the_cases_of_the_rfc(target, patch, result):
    assert merged(target, patch) == result


values = st.recursive(
    st.booleans() | st.integers(0, 2) | st.text(max_size=2) | st.lists(st.integers(0, 2), max_size=2),
    lambda inner: st.dictionaries(st.sampled_from("abc"), inner, max_size=3),
    max_leaves=8,
)
objects = st.dictionaries(st.sampled_from("abc"), values, max_size=3)


quick = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])


@quick
@given(objects, objects)
def test_a_difference_makes_the_one_of_the_other(old, new):
    made = merged(old, difference(old, new))
    assert made == new
    assert all(type(made[key]) is type(new[key]) for key in new)


@quick
@given(objects)
def test_no_difference_of_what_is_the_same(own):
    assert difference(own, own) == {}
