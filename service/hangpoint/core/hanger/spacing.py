"""Largest distance between hangers of a horizontal line, by named rules, and how near its ends a hanger stands.

The rules disagree by up to a factor of two for the same pipe, so a spacing is always an input and a rule is named by
the request; none is chosen here. Units: ft. Every rule is for straight runs without concentrated loads between the
hangers.

A rule has a value only where its source lists the size or a range of sizes that holds it; nothing is interpolated,
and a size between two listed ones has none (ASME B31.1 lists NPS 1, 2, 3, 4, ...: nothing for 1-1/4). Rules for
standard wall have no value for a thinner one, nor for a wall that no schedule names. No rule here covers stainless
pipe. A rule whose source is partly from memory is marked as from memory.

Conflicts on record: for steel of NPS 1 codes allow 12 ft and the hanger standard 7; of NPS 10 one reprint of SP-58 has
20 ft where two have 22; New Jersey takes 10 ft for steel through NPS 3/4 where the international codes have 12; one
summary of the mechanical code has 8 ft for all copper tube where others have 6 and 10; a text on the uniform code of
2024 has 10 ft for copper of 1-1/2, where 6 is taken here; cast iron in 10 ft lengths may have 10 ft instead of 5, with
a hanger at each length; flexible duct has 5 ft or 4.

Sizes are those of the pipe standards (``pipe_sizes``), of the trade for conduit, and load classes such as "12B" for
cable tray. Duct has none: its size is the empty text. Span tables of duct by half perimeter are not held.
"""

import re
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from hangpoint.core.hanger.tables import size_range, table_rows
from hangpoint.core.loads.pipe_sizes import nominal, outside_diameter, pipe_size, sizes

LEAST_LIQUID = 20.0
"""lb/ft3; what is denser is taken as a liquid: about the density of water at its critical point (from memory)."""

_TRAY = re.compile(r"(8|12|16|20)[ABC]")
_WITHOUT_SIZE = frozenset({"duct", "round_duct", "flexible_duct"})


class SpacingRule(NamedTuple):
    """A named rule, what it holds for, where its figures come from, and whether they are from memory.

    ``standard_wall``: for pipes of standard wall or heavier. ``uniform_only``: not where there are concentrated loads.
    ``vapour``: for steam, gas or air in the pipe, which is lighter than a liquid.
    """

    name: str
    text: str
    source: str
    from_memory: bool
    standard_wall: bool
    uniform_only: bool
    vapour: bool


class EndRule(NamedTuple):
    """How near a box, an end or a fitting a hanger stands: distance in ft, and the sizes that it is for."""

    name: str
    material: str
    first: float
    last: float
    distance: float
    text: str
    source: str
    from_memory: bool


_RULES = tuple(
    SpacingRule(
        row["name"],
        row["text"],
        row["source"],
        from_memory=row["from_memory"] == "yes",
        standard_wall=row["standard_wall"] == "yes",
        uniform_only=row["uniform_only"] == "yes",
        vapour=row["vapour"] == "yes",
    )
    for row in table_rows("spacing_rules.csv")
)

RULE_NAMES: tuple[str, ...] = tuple(rule.name for rule in _RULES)

END_RULES: tuple[EndRule, ...] = tuple(
    EndRule(
        row["name"],
        row["material"],
        *size_range(row),
        float(row["distance"]),
        row["text"],
        row["source"],
        from_memory=row["from_memory"] == "yes",
    )
    for row in table_rows("end_rules.csv")
)


def spacing_rules() -> tuple[SpacingRule, ...]:
    """Every rule with its source, in the order of ``RULE_NAMES``."""
    return _RULES


class _Range(NamedTuple):
    first: float
    last: float
    spacing: float


@cache
def _ranges() -> dict[tuple[str, str], tuple[_Range, ...]]:
    found: dict[tuple[str, str], tuple[_Range, ...]] = {}
    for row in table_rows("spacing.csv"):
        key = row["rule"], row["material"]
        found[key] = (*found.get(key, ()), _Range(*size_range(row), float(row["spacing"])))
    return found


@cache
def _trade_sizes() -> dict[str, frozenset[str]]:
    return {row["material"]: frozenset(row["sizes"].split()) for row in table_rows("trade_sizes.csv")}


@cache
def _standard_wall_rules() -> frozenset[str]:
    return frozenset(rule.name for rule in _RULES if rule.standard_wall)


def _size(material: str, size: str) -> float | None:
    """The size as a number, for a tray the span of its class, 0 for duct; None for a size that the material lacks."""
    if material in _WITHOUT_SIZE:
        return None if size else 0.0
    if sizes(material):
        return None if outside_diameter(material, size) is None else nominal(size)
    if size not in _trade_sizes().get(material, ()):
        return None
    tray = _TRAY.fullmatch(size)
    return float(tray[1]) if tray else nominal(size)


def spacing_sizes(material: str) -> tuple[str, ...]:
    """Sizes of a material that the rules know, smallest first; the empty text for duct, nothing for an unknown one."""
    if material in _WITHOUT_SIZE:
        return ("",)
    known = [
        (number, size) for size in _trade_sizes().get(material, ()) if (number := _size(material, size)) is not None
    ]
    return sizes(material) or tuple(size for _, size in sorted(known))


def largest_spacing(rule: str, material: str, size: str, schedule: str) -> float | None:
    """Largest hanger spacing in ft that a rule allows for a line, or None where the rule has no value for it.

    Names as in ``pipe_sizes`` and `spacing_sizes`; ``schedule`` matters to the rules for standard wall only. Unknown
    names have no value.
    """
    at = _size(material, size)
    if at is None:
        return None
    if rule in _standard_wall_rules():
        pipe, standard = pipe_size(material, size, schedule), pipe_size(material, size, "STD")
        if pipe is None or standard is None or pipe.wall < standard.wall:
            return None
    for first, last, spacing in _ranges().get((rule, material), ()):
        if first <= at <= last:
            return spacing
    return None


def lacks_size(rule: str, material: str, size: str, schedule: str) -> bool:
    """Whether a rule has values for lines of a material and none for this one. Names as above."""
    return (rule, material) in _ranges() and largest_spacing(rule, material, size, schedule) is None


def rules_for(material: str, size: str, schedule: str) -> dict[str, float]:
    """Every rule that has a value for a line, with it in ft, in the order of ``RULE_NAMES``. Names as above.

    Rules for water, vapour and sprinklers stand beside each other: which of them holds is not known here.
    """
    found = {rule: largest_spacing(rule, material, size, schedule) for rule in RULE_NAMES}
    return {rule: spacing for rule, spacing in found.items() if spacing is not None}


def strictest(rules: Iterable[str], material: str, size: str, schedule: str) -> tuple[str, float] | None:
    """The least spacing in ft among the named rules and its rule, the first of several; None where none has a value."""
    found = [
        (rule, spacing) for rule in rules if (spacing := largest_spacing(rule, material, size, schedule)) is not None
    ]
    return min(found, key=lambda each: each[1], default=None)
