"""What holds for every deck and every limit of structural notes."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from core.builders import FACTORED_LOADS, IN_FLUTE, SERVICE_LOADS
from core.hang_point.test_deck import TESTED
from core.hang_point.verdicts import checked, found_on, mode_of
from hangpoint.core.hang_point import chain
from hangpoint.core.hang_point.surroundings import DECK
from hangpoint.core.vocabulary import Finding, Mode
from hangpoint.pack.structural_limits import LimitSums, read_limits
from pack.packing import sound

f_c = st.floats(1_000, 12_000)
SOMEWHERE = {
    "anchor": {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5},
    "base": {
        "kind": "concrete",
        "density": "normalweight",
        "thickness": 8,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "B"},
}


@given(st.lists(f_c, min_size=2, max_size=2), st.booleans(), st.booleans())
def test_a_stronger_fill_holds_no_less(strengths, cracked, lightweight):
    low, high = sorted(strengths)
    verdicts = checked(
        FACTORED_LOADS,
        hangs={"factored": 500.0},
        products=TESTED,
        decks=IN_FLUTE,
        surroundings={"kind": DECK},
        bases={"f_c": [low, high], "cracked": cracked, "lightweight": lightweight, "lambda_c": 0.85},
    )
    strength = mode_of(verdicts, Mode.PULLOUT).design_strength
    assert strength[0] <= strength[1]


@given(st.floats(2, 9), st.floats(0, 2), st.floats(1, 6), st.floats(0.02, 0.06), st.floats(0.98, 1.02), st.booleans())
def test_less_of_the_geometry_of_the_tests_never_mends_it(width, offset, cover, sheet, worse, lower):
    """Narrower, farther from the centre, thinner: every violation of the better deck is one of the worse."""
    shrink, grow = min(worse, 1 / worse), max(worse, 1 / worse)
    better = IN_FLUTE | {"width": width, "offset": offset, "cover": cover, "sheet": sheet, "flute": int(not lower)}
    poorer = better | {
        "width": width * shrink,
        "offset": offset * grow,
        "cover": cover * shrink,
        "sheet": sheet * shrink,
    }
    geometry = {Finding.DECK_FLUTE_NARROW, Finding.DECK_OFFSET, Finding.DECK_COVER, Finding.DECK_SHEET}
    one, other = (
        found_on(checked(hangs={"dead": 10.0}, decks=decks, surroundings={"kind": DECK})) & geometry
        for decks in (better, poorer)
    )
    assert one <= other


places = st.lists(
    st.tuples(st.integers(0, 40), st.integers(0, 40), st.integers(1, 500)),
    min_size=1,
    max_size=8,
    unique_by=lambda p: p[:2],
)


def summed(stated, limits):
    """Results of limits over points at these places, ft, with these loads, lbf."""
    items = [
        SOMEWHERE
        | {
            "id": f"P{x}-{y}",
            "at": {"x": x, "y": y},
            "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": load}]},
        }
        for x, y, load in stated
    ]
    found, flaws = read_limits(limits, "us")
    assert not flaws
    sums = LimitSums(found, factored=False, system="us")
    packed = sound(*items)
    sums.add(packed, chain.check(packed.points, SERVICE_LOADS).demand, invalid=0)
    return sums.as_json()


@given(places, st.integers(1, 40), st.randoms(use_true_random=False))
def test_parts_of_a_floor_add_up_whatever_the_order(stated, cut, random):
    """Left and right of a line that no point stands on: their sums are that of the floor."""
    limits = [
        {"id": "LEFT", "most_total": 1000, "x_to": cut - 0.5},
        {"id": "RIGHT", "most_total": 1000, "x_from": cut - 0.5},
        {"id": "ALL", "most_total": 1000},
    ]
    left, right, whole = summed(stated, limits)
    assert np.isclose(left["total"] + right["total"], whole["total"], rtol=1e-12)
    assert set(left["points"]) | set(right["points"]) == set(whole["points"])
    shuffled = random.sample(stated, len(stated))
    again = summed(shuffled, limits)
    for one, other in zip((left, right, whole), again, strict=True):
        assert one["status"] == other["status"]
        assert np.isclose(one["total"], other["total"], rtol=1e-12)


@given(places, st.integers(1, 2000), st.integers(1, 2000))
def test_a_wider_limit_is_never_exceeded_where_a_closer_one_is_not(stated, one, other):
    close, wide = sorted((one, other))
    limits = [{"id": "CLOSE", "most_total": close}, {"id": "WIDE", "most_total": wide}]
    closer, wider = summed(stated, limits)
    assert not (wider["status"] == "exceeded" and closer["status"] == "within")
