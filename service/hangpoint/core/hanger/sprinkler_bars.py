"""Bars of trapezes that carry sprinkler lines, by the section modulus that the sprinkler standard asks for.

Each line asks for its own, 15 ft of the pipe filled with water and 250 lb between two rods at 15,000 psi; several lines
on a bar ask for the sum (sprinkler standard, annex, from memory). Units: ft, lbf/ft, in3. Limits: two rods and lines
between them; other bars are not covered.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.items import Items
from hangpoint.core.hanger.line_weights import LineWeights
from hangpoint.core.hanger.sprinkler_trapeze import SprinklerTrapeze, sprinkler_trapeze
from hangpoint.core.quantity import Bools, Floats, Index


@frozen
class SprinklerBars:
    """``record`` has a row a line in ``lines``; ``z_required`` (tiers,) is the sum, in3, where ``covered`` (tiers,).

    ``asked`` (tiers,) carry a sprinkler line and have a section.
    """

    record: SprinklerTrapeze | None
    lines: Index
    z_required: Floats
    asked: Bools
    covered: Bools


def sprinkler_bars(items: Items, weights: LineWeights) -> SprinklerBars:
    """What the bars with a stated section need for their sprinkler lines."""
    lines, tiers = items.lines, items.tiers
    count = len(tiers.item)
    on_bar = np.flatnonzero(lines.sprinkler & (lines.tier >= 0))
    on_bar = on_bar[tiers.checked[lines.tier[on_bar]]]
    tier = lines.tier[on_bar]
    asked, covered = np.zeros(count, dtype=np.bool_), np.ones(count, dtype=np.bool_)
    asked[tier] = True
    length = tiers.spans[:, 0] if count else np.zeros(0)
    between = (tiers.span_count[tier] == 1) & (lines.at[on_bar] > 0) & (lines.at[on_bar] < length[tier])
    covered[tier[~between]] = False
    own, of = on_bar[between], tier[between]
    if not len(own):
        return SprinklerBars(record=None, lines=own, z_required=np.zeros(count), asked=asked, covered=covered)
    filled = (weights.dead + weights.fluid)[own]
    record = sprinkler_trapeze(number=lines.number[own], w_filled=filled, a=lines.at[own], b=length[of] - lines.at[own])
    needed = np.asarray(np.bincount(of, weights=record.z_required, minlength=count), dtype=np.float64)
    return SprinklerBars(record=record, lines=own, z_required=needed, asked=asked, covered=covered)
