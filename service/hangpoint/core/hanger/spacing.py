"""Largest distance between hangers of a horizontal pipe, by named rules.

The rules disagree by up to a factor of two for the same pipe, so a spacing is always an input and a rule is named by
the request; none is chosen here. Units: ft. Every rule is for straight runs without concentrated loads between the
hangers.

A rule has a value only where its source lists the size or a range of sizes that holds it; nothing is interpolated,
and a size between two listed ones has none (ASME B31.1 lists NPS 1, 2, 3, 4, ...: nothing for 1-1/4). Rules for
standard wall have no value for a thinner one, nor for a wall that no schedule names. No rule here covers stainless
pipe. Conflicts on record: for steel of NPS 10 one reprint of SP-58 has 20 ft where two have 22; the plumbing
code of New Jersey takes 10 ft for steel through NPS 3/4 where the international codes have 12; one summary of the
mechanical code has 8 ft for all copper tube where others have 6 and 10.
"""

import csv
from functools import cache
from importlib.resources import files
from typing import NamedTuple

from hangpoint.core.loads.pipe_sizes import nominal, outside_diameter, pipe_size


class SpacingRule(NamedTuple):
    """A named rule, what it holds for, where its figures come from, and whether they are from memory."""

    name: str
    text: str
    source: str
    from_memory: bool
    standard_wall: bool


_RULES = (
    SpacingRule(
        "b31_1_water",
        "Steel pipe of standard wall or heavier, filled with water, to 750 F.",
        "ASME B31.1-2016, table 121.5, water service",
        from_memory=False,
        standard_wall=True,
    ),
    SpacingRule(
        "b31_1_gas",
        "Steel pipe of standard wall or heavier, steam, gas or air, to 750 F.",
        "ASME B31.1-2016, table 121.5, steam, gas or air service",
        from_memory=False,
        standard_wall=True,
    ),
    SpacingRule(
        "sp58_water",
        "Steel pipe of standard wall or heavier, filled with water.",
        "MSS SP-58 (before: SP-69), table of hanger spacing, as reprinted in specifications",
        from_memory=False,
        standard_wall=True,
    ),
    SpacingRule(
        "sp58_copper_water",
        "Copper tube filled with water.",
        "MSS SP-58 (before: SP-69), table of hanger spacing, as reprinted in specifications",
        from_memory=False,
        standard_wall=False,
    ),
    SpacingRule(
        "plumbing_code",
        "Steel pipe and copper tube, horizontal.",
        "International Mechanical Code, table 305.4, and International Plumbing Code, table 308.5, by summaries",
        from_memory=False,
        standard_wall=False,
    ),
    SpacingRule(
        "sprinkler_standard",
        "Steel sprinkler pipe that is not threaded light-wall (12 ft at every size then), and copper tube.",
        "NFPA 13, table of maximum distance between hangers",
        from_memory=True,
        standard_wall=False,
    ),
)

RULE_NAMES: tuple[str, ...] = tuple(rule.name for rule in _RULES)


def spacing_rules() -> tuple[SpacingRule, ...]:
    """Every rule with its source, in the order of ``RULE_NAMES``."""
    return _RULES


class _Range(NamedTuple):
    first: float
    last: float
    spacing: float


@cache
def _ranges() -> dict[tuple[str, str], tuple[_Range, ...]]:
    text = files("hangpoint.core.hanger").joinpath("data", "spacing.csv").read_text(encoding="utf-8")
    found: dict[tuple[str, str], tuple[_Range, ...]] = {}
    for line in csv.DictReader(text.splitlines()):
        first = nominal(line["from"]) if line["from"] else 0.0
        last = nominal(line["to"]) if line["to"] else float("inf")
        key = line["rule"], line["material"]
        found[key] = (*found.get(key, ()), _Range(first, last, float(line["spacing"])))
    return found


@cache
def _standard_wall_rules() -> frozenset[str]:
    return frozenset(rule.name for rule in _RULES if rule.standard_wall)


def largest_spacing(rule: str, material: str, size: str, schedule: str) -> float | None:
    """Largest hanger spacing in ft that a rule allows for a pipe, or None where the rule has no value for it.

    Names as in ``pipe_sizes``; ``schedule`` matters to the rules for standard wall only. Unknown names have no value.
    """
    if outside_diameter(material, size) is None:
        return None
    if rule in _standard_wall_rules():
        pipe, standard = pipe_size(material, size, schedule), pipe_size(material, size, "STD")
        if pipe is None or standard is None or pipe.wall < standard.wall:
            return None
    at = nominal(size)
    for first, last, spacing in _ranges().get((rule, material), ()):
        if first <= at <= last:
            return spacing
    return None
