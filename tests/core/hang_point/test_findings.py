"""Findings beside the numbers: violations fail the point, the others don't."""

import pytest

from core.builders import HEADED_BOLT, INF, RUN, rod
from core.hang_point.verdicts import (
    SPRINKLER_LINE,
    checked,
    found_on,
    value_of,
)
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.hang_point.points import PIPE
from hangpoint.core.vocabulary import Finding, Severity

HOOK = HEADED_BOLT | {"pullout_method": HOOKED, "d_a": 0.5, "a_brg": 0.0}
SCREW = {"screw": True, "d_a": 0.5, "thickness_tested": True, "h_min": 3.0}
VIOLATIONS = {
    Finding.EDGE_BELOW_MINIMUM: (
        {"bases": {"c_a": [[2.74, INF, INF, INF]]}},
        {"bases": {"c_a": [[2.75, INF, INF, INF]]}},
        (2.74, 2.75),
    ),
    Finding.EDGE_BELOW_CODE: (  # 8 x 1/2 in, Table 17.9.2(b) for torque-controlled anchors
        {"products": {"c_min": 0.5, "c_min_code": 4.0}, "bases": {"c_a": [[3.99, INF, INF, INF]]}},
        {"products": {"c_min": 0.5, "c_min_code": 4.0}, "bases": {"c_a": [[4.0, INF, INF, INF]]}},
        (3.99, 4.0),
    ),
    Finding.THICKNESS_BELOW_MINIMUM: (
        {"bases": {"thickness": 5.9}},
        {"bases": {"thickness": 6.0}},
        (5.9, 6.0),
    ),
    Finding.EMBEDMENT_TOO_DEEP: (  # max(2/3 x 6, 6 - 4) = 4 in
        {"bases": {"thickness": 6.0}, "products": {"h_ef": 4.01}},
        {"bases": {"thickness": 6.0}, "products": {"h_ef": 3.99}},
        (4.01, 4.0),
    ),
    Finding.SCREW_EMBEDMENT: (  # 5 x 0.5 = 2.5 to 10 x 0.5 = 5 in
        {"products": SCREW | {"h_ef": 2.49}},
        {"products": SCREW | {"h_ef": 2.5}},
        (2.49, 2.5),
    ),
    Finding.HOOK_LENGTH: (  # 3 x 0.5 = 1.5 to 4.5 x 0.5 = 2.25 in
        {"products": HOOK | {"e_h": 2.26}},
        {"products": HOOK | {"e_h": 2.25}},
        (2.26, 2.25),
    ),
    Finding.SPACING_EXCEEDED: (
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_limit": 11.9}]},
        {"hangs": {"kind": PIPE}, "runs": [RUN | {"spacing_limit": 12.0}]},
        (12.0, 11.9),
    ),
    Finding.ROD_BELOW_SIZE_TABLE: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN | {"nominal": 6.0}], "rods": rod("sprinkler_size_table")},
        {"hangs": SPRINKLER_LINE, "runs": [RUN], "rods": rod("sprinkler_size_table")},
        (0.375, 0.5),
    ),
    Finding.ROD_SIZE_NOT_COVERED: (
        {"hangs": SPRINKLER_LINE, "runs": [RUN | {"nominal": 14.0}], "rods": rod("sprinkler_size_table")},
        {"hangs": SPRINKLER_LINE, "runs": [RUN], "rods": rod("sprinkler_size_table")},
        (0.375, 0.0),
    ),
    Finding.ROD_THREAD: (
        {"rods": rod("sp58_allowable"), "products": {"thread_d": 0.5}},
        {"rods": rod("sp58_allowable"), "products": {"thread_d": 0.375}},
        (0.375, 0.5),
    ),
    Finding.SUPPLIED_WITHOUT_SOURCE: (
        {"products": {"invented": False, "has_source": False}},
        {"products": {"invented": False, "has_source": True}},
        (0.0, 0.0),
    ),
}


def test_every_violation_is_tried():
    assert set(VIOLATIONS) == {finding for finding in Finding if finding.value.severity is Severity.VIOLATION}


@pytest.mark.parametrize("finding", VIOLATIONS, ids=lambda finding: finding.value.code)
def test_violation_fails_the_point(finding):
    """17.9.2, 17.9.4, 17.3.4, 17.6.3.2.2 and the rules named: beyond the limit, and just within it."""
    beyond, within, shown = VIOLATIONS[finding]
    load = {"dead": 10.0}
    failed = checked(**({"hangs": load} | beyond))
    assert found_on(failed) & set(VIOLATIONS) == {finding}
    assert failed.failed[0]
    assert failed.utilisation[0] <= 1.0
    assert value_of(failed, finding) == pytest.approx(shown)
    passed = checked(**({"hangs": load} | within))
    assert found_on(passed) & set(VIOLATIONS) == set()
    assert not passed.failed[0]


@pytest.mark.parametrize(
    ("thickness", "deepest"),
    [(6.0, 4.0), (12.0, 8.0), (18.0, 14.0)],
)
def test_deepest_embedment(thickness, deepest):
    """17.9.4: the larger of 2/3 of the member and the member less 4 in; not for cast-in anchors, nor where tested."""
    products = {"h_ef": deepest + 0.01, "h_min": 1.0}
    found = checked(hangs={"dead": 1.0}, products=products, bases={"thickness": thickness})
    assert value_of(found, Finding.EMBEDMENT_TOO_DEEP) == pytest.approx((deepest + 0.01, deepest))
    assert Finding.EMBEDMENT_TOO_DEEP in found_on(found)
    for exempt in (products | {"thickness_tested": True}, HEADED_BOLT | products | {"thickness_tested": False}):
        verdicts = checked(hangs={"dead": 1.0}, products=exempt, bases={"thickness": thickness})
        assert Finding.EMBEDMENT_TOO_DEEP not in found_on(verdicts)


@pytest.mark.parametrize(("d_a", "h_ef", "limit"), [(0.25, 1.4, 1.5), (0.5, 2.4, 2.5), (0.25, 2.6, 2.5)])
def test_screw_embedment(d_a, h_ef, limit):
    """17.3.4: 5 d_a to 10 d_a and at least 1.5 in."""
    verdicts = checked(hangs={"dead": 1.0}, products=SCREW | {"d_a": d_a, "h_ef": h_ef})
    assert Finding.SCREW_EMBEDMENT in found_on(verdicts)
    assert value_of(verdicts, Finding.SCREW_EMBEDMENT) == pytest.approx((h_ef, limit))


def test_short_hook():
    verdicts = checked(hangs={"dead": 1.0}, products=HOOK | {"e_h": 1.49})
    assert value_of(verdicts, Finding.HOOK_LENGTH) == pytest.approx((1.49, 1.5))
    assert verdicts.failed[0]


def test_findings_that_do_not_fail():
    """f'c above the limit of 17.3.1 and below the tests; uncracked in category C; an anchor not for reuse."""
    verdicts = checked(
        hangs={"dead": 1.0},
        bases={"f_c": [8_001.0, 2_400.0, 4_000.0, 4_000.0], "cracked": [True, True, False, True], "category": 2},
        products={"removable": [False, False, False, True]},
    )
    expected = (
        Finding.F_C_LIMITED,
        Finding.F_C_BELOW_QUALIFICATION,
        Finding.UNCRACKED_IN_SEISMIC,
        Finding.NOT_FOR_REUSE,
    )
    assert [found_on(verdicts, row) for row in range(4)] == [{finding} for finding in expected]
    assert not verdicts.failed.any()
    assert value_of(verdicts, Finding.F_C_LIMITED) == (8_001.0, 8_000.0)
    assert value_of(verdicts, Finding.F_C_BELOW_QUALIFICATION, 1) == (2_400.0, 2_500.0)


def test_spacing_looks_at_the_spans_beside_the_hanger():
    """Spans of 8, 14 and 15 ft, limit 12 ft: the hangers at the long ones exceed it, the first does not."""
    runs = [
        RUN | {"point": i, "spans": (8.0, 14.0, 15.0), "span_count": 3, "support": i, "spacing_limit": 12.0}
        for i in range(4)
    ]
    verdicts = checked(hangs={"kind": PIPE}, runs=runs)
    found = [Finding.SPACING_EXCEEDED in found_on(verdicts, row) for row in range(4)]
    assert found == [False, True, True, True]
    longest = [value_of(verdicts, Finding.SPACING_EXCEEDED, row)[0] for row in range(4)]
    assert longest == [8.0, 14.0, 15.0, 15.0]


def test_spacing_rule_without_a_value():
    verdicts = checked(hangs={"kind": PIPE}, runs=[RUN | {"spacing_covered": False}])
    assert Finding.SPACING_NOT_COVERED in found_on(verdicts)
    assert not verdicts.failed[0]
