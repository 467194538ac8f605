"""The sample of anchors: counts by hand, every stratum, nothing but the ids decides."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from hangpoint.core.site.sampling import sampled


def test_nineteen_of_thirty_seven_over_three_levels():
    """20, 10 and 7 anchors: one each, and 16 of the 34 left, 8.94, 4.24, 2.82 by level; whole parts 8, 4, 2 and one for
    each of the two largest remainders."""
    levels = ["L1"] * 20 + ["L2"] * 10 + ["L3"] * 7
    chosen = sampled([f"A{at}" for at in range(37)], levels, 19)
    assert Counter(levels[at] for at in chosen) == {"L1": 10, "L2": 5, "L3": 4}
    assert len(set(chosen)) == 19


def test_a_small_level_is_not_forgotten():
    levels = ["L1"] * 97 + ["L2", "L3", "L4"]
    chosen = sampled([f"A{at}" for at in range(100)], levels, 10)
    assert Counter(levels[at] for at in chosen) == {"L1": 7, "L2": 1, "L3": 1, "L4": 1}


@given(st.lists(st.integers(0, 6), min_size=1, max_size=80), st.data())
def test_properties(levels, data):
    """As many as asked, each once; each level has one where the number allows; the order of anchors plays no part."""
    ids = [f"A{at}" for at in range(len(levels))]
    tests = data.draw(st.integers(1, len(levels)))
    chosen = sampled(ids, levels, tests)
    assert chosen == sorted(set(chosen))
    assert len(chosen) == tests
    if tests >= len(set(levels)):
        assert {levels[at] for at in chosen} == set(levels)
    order = data.draw(st.permutations(range(len(levels))))
    again = sampled([ids[at] for at in order], [levels[at] for at in order], tests)
    assert {ids[order[at]] for at in again} == {ids[at] for at in chosen}
