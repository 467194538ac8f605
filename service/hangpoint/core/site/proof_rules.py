"""Rules of proof tests on site, by name: how many anchors, what load, how long; each with where it comes from.

A rule multiplies a load that the request states on one of the rule's bases. Whatever the rule, the test load never
exceeds 0.8 A_se f_ya (`MOST_OF_YIELD`). Units: lbf, s.
"""

from collections.abc import Mapping
from typing import NamedTuple

MOST_OF_YIELD = 0.8
"""Largest share of the yield load A_se f_ya in any test (common practice; CBC 2022 1910A.5 by a secondary text)."""

BASES: Mapping[str, str] = {
    "allowable": "allowable tension of the anchor (service level)",
    "design_strength": "design strength of the anchor in tension, phi N_n",
    "design": "tension that the anchor is designed for",
    "working": "working load, as it hangs",
}
"""What the load of an item may be, by word."""

USES: tuple[str, ...] = ("structural", "nonstructural", "sill_bolt")


class ProofRule(NamedTuple):
    """One rule.

    ``factors`` by basis; ``least_load`` where the rule has one; ``yield_share`` of A_se f_ya; ``hold`` in seconds;
    ``percent`` of the anchors by use; ``passes_in_a_row`` ends the retests of a crew's day. ``torque``: anchors that
    are torque-controlled may be tested by torque instead. ``supports`` says where those of the jack stand, by a rule
    that has every anchor pulled unconfined; empty where the anchor decides. ``post_installed``: it is for anchors in
    hardened concrete only (from memory). ``masonry``: it is for anchors in walls of masonry only.
    """

    title: str
    source: str
    from_memory: bool
    factors: Mapping[str, float]
    least_load: float
    yield_share: float
    hold: float
    percent: Mapping[str, int]
    passes_in_a_row: int
    torque: bool
    acceptance: str
    supports: str = ""
    post_installed: bool = False
    masonry: bool = False


_ALL: Mapping[str, int] = dict.fromkeys(USES, 100)

PROOF_RULES: Mapping[str, ProofRule] = {
    "cbc_1910a_5": ProofRule(
        "Twice the allowable tension, or 1.25 times the design strength",
        "CBC 2022 1910A.5, from a secondary text; retests from memory",
        False,
        {"allowable": 2.0, "design_strength": 1.25},
        0.0,
        MOST_OF_YIELD,
        15.0,
        {"structural": 100, "nonstructural": 50, "sill_bolt": 10},
        20,
        True,
        "No discernible movement during the hold: none of the ram, no crack, no loosening.",
        post_installed=True,
    ),
    "iebc_urm": ProofRule(
        "New tension anchors in walls of unreinforced masonry",
        "IEBC A107.5, from a secondary text; number of tests by the engineer, all where none is stated",
        False,
        {"design": 2.5},
        1500.0,
        MOST_OF_YIELD,
        300.0,
        _ALL,
        20,
        False,
        "The load is held for the whole time without loss.",
        "The apparatus stands on the wall, no support nearer to the anchor than 75 % of its embedment (IEBC A107.5.1,"
        " from memory).",
        masonry=True,
    ),
    "one_and_a_half_working_load": ProofRule(
        "One and a half times the working load",
        "common practice, no source",
        False,
        {"working": 1.5},
        0.0,
        MOST_OF_YIELD,
        60.0,
        {"structural": 100, "nonstructural": 10, "sill_bolt": 10},
        20,
        False,
        "No discernible movement during the hold, no crack, no loosening.",
    ),
    "three_quarters_of_design_strength": ProofRule(
        "Three quarters of the design strength, seven tenths of the yield load",
        "style of a published Australian technical note, from memory; number of tests common practice, no source",
        True,
        {"design_strength": 0.75},
        0.0,
        0.7,
        30.0,
        {"structural": 100, "nonstructural": 10, "sill_bolt": 10},
        20,
        False,
        "The load is held without a drop, no movement that can be seen.",
    ),
}
"""By the word of a request."""
