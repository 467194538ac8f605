"""Bars of stock against every plan there is, on small jobs; and a bound that no plan falls below.

The reference tries every way of putting pieces into bars, one piece after the other. The job in 120ths of a bar that
first-fit decreasing does not solve best is made by hand.
"""

import random

import pytest

from hangpoint.core.take_off.cutting import FIRST_FIT_DECREASING, INTEGER_PROGRAM, cutting_plan, least_bars


def fewest_bars(pieces, room):
    """By trial of every plan."""
    best = len(pieces)

    def fill(at, bars):
        nonlocal best
        if len(bars) >= best:
            return
        if at == len(pieces):
            best = len(bars)
            return
        for size in {size for size in bars if size + pieces[at] <= room}:
            place = bars.index(size)
            fill(at + 1, [*bars[:place], size + pieces[at], *bars[place + 1 :]])
        fill(at + 1, [*bars, pieces[at]])

    fill(0, [])
    return best


def counted(pieces):
    lengths = sorted(set(pieces), reverse=True)
    return lengths, [pieces.count(length) for length in lengths]


def check(plan, lengths, counts, *, stock, kerf):
    """The plan cuts what was asked for and nothing else, and each bar holds its pieces and the cuts between them."""
    cut = [0] * len(lengths)
    for bars, pattern in plan.patterns:
        number = sum(pattern)
        assert bars > 0
        assert number > 0
        assert sum(n * length for n, length in zip(pattern, lengths, strict=True)) + (number - 1) * kerf <= stock
        cut = [before + bars * n for before, n in zip(cut, pattern, strict=True)]
    assert cut == counts
    assert plan.bars == sum(bars for bars, _ in plan.patterns) >= plan.lower_bound


@pytest.mark.parametrize("kerf", [0, 1, 3])
def test_small_jobs_against_every_plan(kerf):
    chance = random.Random(11 + kerf)
    for _ in range(250):
        pieces = sorted((chance.randint(1, 120) for _ in range(chance.randint(1, 9))), reverse=True)
        lengths, counts = counted(pieces)
        plan = cutting_plan(lengths, counts, stock=120, kerf=kerf)
        check(plan, lengths, counts, stock=120, kerf=kerf)
        best = fewest_bars([piece + kerf for piece in pieces], 120 + kerf)
        assert plan.bars == best == plan.lower_bound
        assert least_bars([length + kerf for length in lengths], counts, 120 + kerf) <= best


def test_what_first_fit_does_not_find():
    """Bars of 120: 60 + 30 + 30, 50 + 40 + 30 and 40 + 40 + 40 are full, so three do for 360 in all.

    First-fit decreasing puts 60 with 50, 40 with 40 and 40, leaves 40 with 30 and 30, and 30 alone: four.
    """
    plan = cutting_plan([60, 50, 40, 30], [1, 1, 4, 3], stock=120, kerf=0)
    check(plan, [60, 50, 40, 30], [1, 1, 4, 3], stock=120, kerf=0)
    assert (plan.bars, plan.lower_bound, plan.method) == (3, 3, INTEGER_PROGRAM)
    many = cutting_plan([60, 50, 40, 30], [1000, 1000, 4000, 3000], stock=120, kerf=0)
    check(many, [60, 50, 40, 30], [1000, 1000, 4000, 3000], stock=120, kerf=0)
    assert (many.bars, many.lower_bound) == (3000, 3000)


def test_the_saw_takes_its_kerf():
    """Four pieces of 30 need three cuts: with a kerf of 1 a bar of 120 holds three of them, one of 123 all four."""
    assert cutting_plan([30], [4], stock=120, kerf=0).bars == 1
    assert cutting_plan([30], [4], stock=120, kerf=1).bars == 2
    assert cutting_plan([30], [4], stock=123, kerf=1).bars == 1


def test_large_jobs_stay_above_the_bound():
    chance = random.Random(5)
    lengths = sorted(chance.sample(range(50, 3000), 1500), reverse=True)
    counts = [chance.randint(1, 200) for _ in lengths]
    plan = cutting_plan(lengths, counts, stock=3000, kerf=3)
    check(plan, lengths, counts, stock=3000, kerf=3)
    assert plan.method == FIRST_FIT_DECREASING
    total = sum((length + 3) * count for length, count in zip(lengths, counts, strict=True))
    assert plan.lower_bound >= total / 3003
    assert plan.bars <= 11 / 9 * plan.lower_bound + 1  # D. S. Johnson's limit of first-fit decreasing
