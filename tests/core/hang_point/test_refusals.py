"""Which points are refused, in which order, and what a refused point still has."""

import itertools

import numpy as np
import pytest

from core.builders import HEADED_BOLT, rod
from core.hang_point.verdicts import (
    REFUSALS,
    checked,
    found_on,
    mode_of,
    refusal_of,
)
from hangpoint.core.hang_point import chain
from hangpoint.core.hang_point.points import SIDE, TOP, WEIGHT, Basis
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.outcome import mode_outcome
from hangpoint.core.vocabulary import Mode, Refusal

TRIGGERS = {
    Refusal.DESIGN_CODE: {"basis": {"code_built": False}},
    Refusal.ALLOWABLE: {"basis": {"allowable": True}},
    Refusal.NOT_FACTORED: {"basis": {"factored": True}, "hangs": {"kind": WEIGHT}},
    Refusal.NATURE: {"basis": {"factored": False}, "hangs": {"other_nature": True}},
    Refusal.GROUP: {"layout": {"anchor_count": 2}},
    Refusal.OFFSET: {"layout": {"on_axis": False}},
    Refusal.SHEAR: {"hangs": {"shear": True}},
    Refusal.WRONG_BASE: {"products": {"concrete_allowed": False}},
    Refusal.FAMILY_BASIS: {"products": {"table_only": True}},
    Refusal.ADHESIVE: {"products": {"adhesive": True}},
    Refusal.FACE: {"bases": {"face": TOP}},
    Refusal.NOT_OVERHEAD: {"products": {"tension_overhead": False}},
    Refusal.DIAMETER: {"products": {"d_a": 4.01}},
    Refusal.NO_LIGHTWEIGHT: {"products": {"lightweight_data": 2}, "bases": {"lightweight": True, "lambda_c": 0.85}},
    Refusal.NOT_QUALIFIED_CRACKED: {"products": {"n_p_cr_state": 0, "n_p_cr": 0.0}, "bases": {"cracked": True}},
    Refusal.NOT_QUALIFIED_UNCRACKED: {"products": {"n_p_uncr_state": 0, "n_p_uncr": 0.0}, "bases": {"cracked": False}},
    Refusal.NOT_SEISMIC: {"products": {"seismic_qualified": False}, "bases": {"category": 2}},
    Refusal.SEISMIC_TENSION: {"hangs": {"earthquake_fraction": 0.21}, "bases": {"category": 2}},
    Refusal.COMPRESSION: {"hangs": {"dead": -1.0, "factored": -1.0}},
    Refusal.NOT_SUSTAINED: {"products": {"sustained_tension": False}, "hangs": {"dead": 1.0, "factored": 1.0}},
}
"""What brings about each refusal, in the order in which the first is given."""


def _merged(*triggers):
    """Tables of several triggers together, or None where they ask for different values of a column."""
    merged = {}
    for trigger in triggers:
        for table, changed in trigger.items():
            into = merged.setdefault(table, {})
            if any(name in into and into[name] != value for name, value in changed.items()):
                return None
            into |= changed
    return merged


def _refused(trigger):
    tables = {"hangs": {}, "products": {}, "bases": {}, "basis": {}, "layout": {}} | trigger
    basis = Basis(**({"code_built": True, "factored": False, "allowable": False} | tables["basis"]))
    load = {"factored": 100.0} if basis.factored else {"dead": 100.0}
    verdicts = checked(
        basis=basis,
        hangs=load | tables["hangs"],
        products=tables["products"],
        bases=tables["bases"],
        **tables["layout"],
    )
    return refusal_of(verdicts), verdicts


def test_every_refusal_has_a_trigger():
    """All but the one that no anchor can bring about: its steel is always checked."""
    assert set(REFUSALS) - set(TRIGGERS) == {Refusal.NO_MODE}


def test_nothing_against_the_default_point():
    assert _refused({})[0] is None


@pytest.mark.parametrize("refusal", TRIGGERS, ids=lambda refusal: refusal.value.code)
def test_refusal_alone(refusal):
    """A refused point has its loads but no anchor mode and no finding about its anchor."""
    found, verdicts = _refused(TRIGGERS[refusal])
    assert found is refusal
    assert not any(mode.applies[0] for mode in verdicts.modes)
    assert verdicts.governing[0] == -1
    assert verdicts.utilisation[0] == 0.0
    assert found_on(verdicts) == set()


def test_first_refusal_in_order():
    pairs = 0
    for first, second in itertools.combinations(TRIGGERS, 2):
        both = _merged(TRIGGERS[first], TRIGGERS[second])
        if both is None:
            continue
        pairs += 1
        assert _refused(both)[0] is first, (first, second)
    assert pairs > 150


def test_refusals_just_inside_their_limits():
    for tables in (
        {"products": {"d_a": 4.0}},
        {"products": {"tension_overhead": False}, "bases": {"face": SIDE}},
        {"products": {"seismic_qualified": False}, "bases": {"category": 1}},
        {"hangs": {"earthquake_fraction": 0.20}, "bases": {"category": 5}},
        {"hangs": {"earthquake_fraction": 0.9}, "bases": {"category": 1}},
        {"products": {"lightweight_data": 2}},
        {"products": {"lightweight_data": 1}, "bases": {"lightweight": True, "lambda_c": 0.85}},
        {"products": {"n_p_cr_state": 0}, "bases": {"cracked": False}},
        {"products": {"n_p_uncr_state": 0}, "bases": {"cracked": True}},
        {"products": HEADED_BOLT | {"seismic_qualified": False}, "bases": {"category": 5}},
        {"hangs": {"dead": 0.0}},
    ):
        assert _refused(tables)[0] is None, tables


def test_product_k_of_one_state_only():
    """A product with k in one state isn't qualified in the other, even where its pullout doesn't govern."""
    products = {"n_p_cr_state": 2, "n_p_uncr_state": 2, "k_cr": [0.0, 17.0], "k_uncr": [24.0, 0.0]}
    cracked = checked(hangs={"dead": 100.0}, products=products, bases={"cracked": True})
    assert [refusal_of(cracked, row) for row in (0, 1)] == [Refusal.NOT_QUALIFIED_CRACKED, None]
    uncracked = checked(hangs={"dead": 100.0}, products=products, bases={"cracked": False})
    assert [refusal_of(uncracked, row) for row in (0, 1)] == [None, Refusal.NOT_QUALIFIED_UNCRACKED]


@pytest.mark.parametrize(
    ("dead", "live", "refused"), [(-1, 0, True), (100, -76, True), (100, -74, False), (-10, 20, True)]
)
def test_compression_in_any_load_case(dead, live, refused):
    """1.4D or 1.2D + 1.6L below zero: 120 - 121.6 is compression, 120 - 118.4 is not."""
    verdicts = checked(hangs={"dead": float(dead), "live": float(live)})
    assert (refusal_of(verdicts) is Refusal.COMPRESSION) is refused


def test_a_refused_point_does_not_touch_the_others():
    mixed = checked(hangs={"dead": 500.0}, products={"adhesive": [False, True, False]})
    alone = checked(hangs={"dead": 500.0})
    np.testing.assert_array_equal(mixed.refusal, [ACCEPTED, REFUSALS.index(Refusal.ADHESIVE), ACCEPTED])
    np.testing.assert_array_equal(mixed.utilisation[[0, 2]], np.repeat(alone.utilisation, 2))
    np.testing.assert_array_equal(mixed.demand.dead, np.full(3, 500.0))


def test_a_refused_point_keeps_its_rod():
    verdicts = checked(hangs={"dead": 500.0}, products={"adhesive": True}, rods=rod("sp58_allowable"))
    assert mode_of(verdicts, Mode.ROD_ALLOWABLE).applies[0]
    assert verdicts.utilisation[0] > 0


def test_load_without_a_mode_is_refused(monkeypatch):
    """Were no anchor mode to apply, the point would be refused under load; without a load there is nothing to hold."""
    whole = chain.check_anchors

    def nothing_but_blowout(anchors):
        basis, found = whole(anchors)
        none = np.zeros(0, dtype=np.intp)
        reason = np.zeros(len(anchors.n_ua), dtype=np.intp)
        return basis, [
            outcome
            if outcome.mode is Mode.SIDE_FACE_BLOWOUT
            else mode_outcome(outcome.mode, outcome.record.take(none), case_of_row=none, reason=reason)
            for outcome in found
        ]

    monkeypatch.setattr(chain, "check_anchors", nothing_but_blowout)
    verdicts = checked(hangs={"dead": [100.0, 0.0]}, rods=rod("sp58_allowable"))
    assert [refusal_of(verdicts, row) for row in (0, 1)] == [Refusal.NO_MODE, None]


def test_an_empty_batch():
    verdicts = checked(count=0)
    assert verdicts.count == 0
    assert verdicts.failed.shape == (0,)
    assert all(mode.utilisation.shape == (0,) for mode in verdicts.modes)


def test_a_batch_of_refused_points_only():
    verdicts = checked(hangs={"dead": [1.0, 2.0]}, products={"adhesive": True})
    assert not verdicts.failed.any()
    np.testing.assert_array_equal(verdicts.governing, [-1, -1])
