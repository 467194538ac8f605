"""Flags of points: as many as one integer has bits."""

from hangpoint.core.vocabulary import Assumption, NotChecked, position

OF_REQUESTS = {
    Assumption.DESIGN_CODE,
    Assumption.COMBINATIONS,
    Assumption.LOAD_STANDARD,
    Assumption.EN_FACTORS,
    Assumption.EN_RESISTANCES,
    Assumption.NEIGHBOURS_OF_REQUEST,
    Assumption.INVALID_NOT_NEAR,
}


def test_every_flag_of_a_point_has_a_bit():
    """Assumptions of a request as a whole have none, and stand behind all others."""
    assert [each for each in Assumption if position(each) >= 64 and each not in OF_REQUESTS] == []
    assert set(list(Assumption)[-len(OF_REQUESTS) :]) == OF_REQUESTS
    assert len(NotChecked) <= 64
