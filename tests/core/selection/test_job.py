"""The plan of a job against brute force over all sets of products, on small random jobs."""

import itertools

import numpy as np
import pytest

from hangpoint.core.selection.job import NO_HOLE, Limits, fewest, plan

ROUNDS = 120
SECONDS = 10.0


def small_job(seed):
    """A few points, products, bits and families; no product of the first point in some jobs."""
    draw = np.random.default_rng(seed)
    points, products = int(draw.integers(1, 9)), int(draw.integers(2, 8))
    holds = draw.random((points, products)) < draw.uniform(0.2, 0.9)
    if seed % 3:
        holds[np.arange(points), draw.integers(0, products, points)] = True
    cost = np.round(draw.uniform(0.1, 5, products), 1)
    return {
        "holds": holds,
        "anchors": draw.integers(1, 5, points).astype(float),
        "cost": cost,
        "order": np.lexsort((np.arange(products), cost)),
        "bit": draw.integers(NO_HOLE, 3, products),
        "family": draw.integers(0, 3, products),
    }


def limits_of(seed):
    draw = np.random.default_rng(seed + 1000)
    return Limits(
        **{name: int(draw.integers(1, 4)) for name in ("products", "bits", "families") if draw.random() < 0.5}
    )


def within(chosen, made, limits):
    bits = {int(made["bit"][own]) for own in chosen if made["bit"][own] != NO_HOLE}
    families = {int(made["family"][own]) for own in chosen}
    counted = ((chosen, limits.products), (bits, limits.bits), (families, limits.families))
    return all(most is None or len(own) <= most for own, most in counted)


def brute_force(made, limits):
    """Least cost, and least number of products, over every set of products; None where no set will do."""
    holds, held = made["holds"], made["holds"].any(axis=1)
    best = least = None
    for size in range(holds.shape[1] + 1):
        for chosen in itertools.combinations(range(holds.shape[1]), size):
            own = holds[held][:, list(chosen)]
            if not own.any(axis=1).all():
                continue
            if within(chosen, made, Limits(bits=limits.bits, families=limits.families)):
                least = size if least is None else least
            if within(chosen, made, limits):
                costs = np.where(own, made["cost"][list(chosen)], np.inf).min(axis=1) if size else np.zeros(held.sum())
                total = float((costs * made["anchors"][held]).sum())
                best = total if best is None else min(best, total)
    return best, least


@pytest.mark.parametrize("seed", range(ROUNDS))
def test_the_plan_is_the_best_of_all_sets(seed):
    made, limits = small_job(seed), limits_of(seed)
    best, least = brute_force(made, limits)
    got = plan(**made, limits=limits, seconds=SECONDS)
    rest = {name: made[name] for name in ("holds", "order", "bit", "family")}
    assert fewest(**rest, limits=limits, seconds=SECONDS) == least
    if best is None:
        assert got is None
        return
    assert got.cost == pytest.approx(best, rel=1e-9)
    assert got.gap == 0
    held = made["holds"].any(axis=1)
    assert ((got.candidate >= 0) == held).all()
    assert made["holds"][np.flatnonzero(held), got.candidate[held]].all()
    used = set(got.candidate[held].tolist())
    assert within(used, made, limits)
    assert (made["anchors"][held] * made["cost"][got.candidate[held]]).sum() == pytest.approx(best, rel=1e-9)


def test_both_answers_of_brute_force_are_met():
    """Jobs that some limit forbids, and jobs in which it costs something, are among the random ones."""
    found = [brute_force(small_job(seed), limits_of(seed))[0] for seed in range(ROUNDS)]
    free = [brute_force(small_job(seed), Limits())[0] for seed in range(ROUNDS)]
    assert found.count(None) > 5
    assert sum(own is not None and own > least + 1e-9 for own, least in zip(found, free, strict=True)) > 5


@pytest.mark.parametrize("seed", range(30))
def test_more_products_never_cost_more(seed):
    made = small_job(seed)
    plans = [plan(**made, limits=Limits(products=most), seconds=SECONDS) for most in range(1, 7)]
    costs = [np.inf if own is None else own.cost for own in plans]
    assert all(later <= sooner + 1e-9 for sooner, later in itertools.pairwise(costs))


@pytest.mark.parametrize("seed", range(30))
def test_a_further_product_on_the_shelf_never_costs_more(seed):
    """The points that the smaller shelf holds; the last product is the further one."""
    made = small_job(seed)
    made["holds"][0, 0] = True
    held = made["holds"][:, :-1].any(axis=1)
    larger = made | {"holds": made["holds"][held], "anchors": made["anchors"][held]}
    smaller = {name: larger[name][..., :-1] for name in ("holds", "cost", "bit", "family")}
    smaller |= {"anchors": larger["anchors"], "order": np.argsort(smaller["cost"], kind="stable")}
    costs = [plan(**own, limits=Limits(products=3), seconds=SECONDS) for own in (smaller, larger)]
    if costs[0] is not None:
        assert costs[1].cost <= costs[0].cost + 1e-9


def test_hand_made_job():
    """Two dear points that only B holds, six that A and B hold; A costs 1, B 3.

    One product: B everywhere, 8 x 3 = 24. Two: 2 x 3 + 6 x 1 = 12. By hand.
    """
    holds = np.array([[False, True]] * 2 + [[True, True]] * 6)
    made = {
        "holds": holds,
        "anchors": np.ones(8),
        "cost": np.array([1.0, 3.0]),
        "order": np.array([0, 1]),
        "bit": np.array([1, 1]),
        "family": np.array([0, 1]),
    }
    assert plan(**made, limits=Limits(products=1), seconds=SECONDS).cost == 24
    assert plan(**made, limits=Limits(products=2), seconds=SECONDS).cost == 12
    assert plan(**made, limits=Limits(families=1), seconds=SECONDS).cost == 24
    assert plan(**made, limits=Limits(bits=1), seconds=SECONDS).cost == 12
