"""The load of a proof test, its cap by the steel, and how many anchors of a group are tested.

Rules in `proof_rules`. Yield unknown: the load has no cap and the plan says that the engineer states f_ya first.
Units: lbf, in2, psi.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record


@record
class ProofLoad(Record):
    """Test load of each anchor. One cut below the load itself, where the rule asks for no less, shows nothing of it."""

    TITLE: ClassVar[str] = "Load of the proof test"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    reference: Annotated[Floats, given("load on the rule's basis", "lbf")]
    factor: Annotated[Floats, given("factor of the rule")]
    least_load: Annotated[Floats, given("least load of the rule", "lbf")]
    by_rule: Annotated[Floats, formula("by the rule", "lbf", "max(factor*reference, least_load)", clause="named rule")]
    yield_known: Annotated[Bools, given("A_se and f_ya known")]
    a_se_n: Annotated[Floats, given("A_se,N", "in**2", clause="17.6.1.2", when="yield_known")]
    f_ya: Annotated[Floats, given("f_ya", "psi", clause="17.6.1.2", when="yield_known")]
    yield_share: Annotated[Floats, given("share of the yield load", when="yield_known")]
    most: Annotated[
        Floats,
        formula("most", "lbf", "yield_share*a_se_n*f_ya", clause="CBC 2022 1910A.5", when="yield_known"),
    ]
    test_load: Annotated[
        Floats,
        formula("test load", "lbf", "where(yield_known, min(by_rule, most), by_rule)", clause="named rule"),
    ]
    capped: Annotated[Bools, formula("capped by the steel", "", "test_load < by_rule", clause="CBC 2022 1910A.5")]
    below_load: Annotated[
        Bools,
        formula("below the load", "", "where(factor >= 1, test_load, reference) < reference", clause="common practice"),
    ]


@record
class ProofCount(Record):
    """How many anchors of each group are tested."""

    TITLE: ClassVar[str] = "Number of proof tests"
    AXIS: ClassVar[Axis] = Axis.GROUP

    installed: Annotated[Floats, given("anchors installed")]
    percent: Annotated[Floats, given("percentage of the rule")]
    strata: Annotated[Floats, given("combinations of level, area, crew and day")]
    share: Annotated[Floats, formula("share", "", "installed*percent/100", clause="named rule")]
    by_rule: Annotated[Floats, procedure("tests by the rule", "", "rounded_up", clause="named rule")]
    tests: Annotated[Floats, formula("tests", "", "min(max(by_rule, strata), installed)", clause="common practice")]


@record
class SupportDistance(Record):
    """Where the supports of the jack stand, so that they do not press on the cone of the concrete."""

    TITLE: ClassVar[str] = "Clear distance of the supports"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    h_ef: Annotated[Floats, given("h_ef", "in")]
    clear: Annotated[Floats, formula("clear distance", "in", "2*h_ef", clause="ASTM E488/E488M, from memory")]


def support_distance(*, h_ef: Floats) -> SupportDistance:
    """Least distance of any support from an anchor tested unconfined, every array of shape (n,), in."""
    return SupportDistance(h_ef=h_ef, clear=2.0 * h_ef)


def proof_load(
    *,
    reference: Floats,
    factor: Floats,
    least_load: Floats,
    yield_known: Bools,
    a_se_n: Floats,
    f_ya: Floats,
    yield_share: Floats,
) -> ProofLoad:
    """Test load of each anchor, every array of shape (n,).

    ``reference`` in lbf on the basis that ``factor`` is for; ``a_se_n`` in2 and ``f_ya`` psi are read where
    ``yield_known``; ``yield_share`` at most 0.8.
    """
    by_rule = np.maximum(factor * reference, least_load)
    most = yield_share * a_se_n * f_ya
    test_load = np.where(yield_known, np.minimum(by_rule, most), by_rule)
    return ProofLoad(
        reference=reference,
        factor=factor,
        least_load=least_load,
        by_rule=by_rule,
        yield_known=yield_known,
        a_se_n=a_se_n,
        f_ya=f_ya,
        yield_share=yield_share,
        most=most,
        test_load=test_load,
        capped=test_load < by_rule,
        below_load=np.where(factor >= 1.0, test_load, reference) < reference,
    )


def proof_count(*, installed: Floats, percent: Floats, strata: Floats) -> ProofCount:
    """Tests of each group, every array of shape (n,): the percentage rounded up, and one of each stratum at least."""
    by_rule = rounded_up(installed=installed, percent=percent)
    return ProofCount(
        installed=installed,
        percent=percent,
        strata=strata,
        share=installed * percent / 100.0,
        by_rule=by_rule,
        tests=np.minimum(np.maximum(by_rule, strata), installed),
    )


def rounded_up(*, installed: Floats, percent: Floats) -> Floats:
    """The percentage of whole numbers rounded up, in whole numbers: 10 % of 30 is 3, whatever 0.1 is in binary."""
    whole = installed.astype(np.int64) * percent.astype(np.int64)
    return -(-whole // 100).astype(np.float64)
