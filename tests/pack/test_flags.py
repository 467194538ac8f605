"""Flags of points: each has a bit of its own, however many there are."""

import pytest

from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.flags import Flags

OF_REQUESTS = {
    Assumption.DESIGN_CODE,
    Assumption.COMBINATIONS,
    Assumption.LOAD_STANDARD,
    Assumption.EN_FACTORS,
    Assumption.EN_RESISTANCES,
    Assumption.NEIGHBOURS_OF_REQUEST,
    Assumption.INVALID_NOT_NEAR,
}


@pytest.mark.parametrize("vocabulary", [Assumption, NotChecked])
def test_every_flag_of_a_point_has_a_bit(vocabulary):
    for member in vocabulary:
        flags = Flags(vocabulary, 2)
        flags.set(member, [False, True])
        assert [flags.codes(bits) for bits in flags.of_points()] == [(), (member.value.code,)]


def test_assumptions_of_a_request_as_a_whole_stand_behind_all_others():
    assert set(list(Assumption)[-len(OF_REQUESTS) :]) == OF_REQUESTS
