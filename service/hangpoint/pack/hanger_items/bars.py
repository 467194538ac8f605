"""Bars of trapezes on their rods, with what is on each: lines by place, other loads, the section."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import PointLoads, Tiers
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.bar_sections import BarSections, bar_sections
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.hanger_items.point_loads import point_loads, within
from hangpoint.pack.pull import Rows, convert
from hangpoint.pack.spans import LEAST_SPAN
from hangpoint.units import COORDINATE, DISTANCE, LINE_WEIGHT, STRESS

MODULUS, DEFLECTION_LIMIT = 29_000_000.0, 240.0
"""psi, and span over deflection, where none is stated."""

LEAST_MODULUS, MOST_MODULUS = 1e5, 1e8
"""psi; the bounds of a stress end far below a modulus."""

_GOES_WITH_SECTION = ("allowable_stress", "modulus", "deflection_limit")


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedTiers:
    """Tiers, the loads on their bars, and the lines on them.

    ``on_bar`` are the entries of the lists of lines; ``tier_of_line`` and ``line_at``, ft, one of each. ``rods`` counts
    the rods of each trapeze.
    """

    tiers: Tiers
    loads: PointLoads
    on_bar: Rows
    tier_of_line: Index
    line_at: Floats
    rods: Index


def pack_tiers(trapezes: Rows, notes: Notes) -> PackedTiers:
    """Read rods and tiers of trapezes.

    Flaws: a first rod that isn't at 0, rods that don't rise; weight and section of a bar, or neither; what
    `bar_sections` finds; a section without its allowable stress or that without a section; a line or a load beyond an
    end; a quantity out of range.
    """
    spans, span_count = _rod_spans(trapezes)
    rows, owner = trapezes.entries("tiers")
    item = np.asarray(trapezes.local, dtype=np.intp)[owner]
    bar = rows.child("bar")
    start, end = (bar.quantity(name, DISTANCE, fill=0.0) for name in ("start_overhang", "end_overhang"))
    high = spans.sum(axis=1)[owner] + end
    on_bar, tier_of_line = rows.entries("lines")
    line_at = on_bar.quantity("at", COORDINATE, fill=0.0)
    sections, checked = _sections(bar, item, notes)
    notes.assume(LoadAssumption.RODS_OF_BAR, np.ones(len(item), dtype=np.bool_), item)
    weight = bar.quantity("weight", LINE_WEIGHT, fill=0.0)
    loads = point_loads(rows, "loads", item, notes, low=-start, high=high, what="The load on the bar")
    within_rods = spans.sum(axis=1)[owner]
    for tier, at in ((tier_of_line, line_at), (loads.row, loads.position)):
        relieves = (at < 0) | (at > within_rods[tier]) | (span_count[owner][tier] > 1)
        notes.assume(LoadAssumption.LINES_ALL_HANG, relieves, item[tier])
    return PackedTiers(
        tiers=Tiers(
            item=item,
            spans=spans[owner],
            span_count=span_count[owner],
            start=start,
            end=end,
            w_bar=np.where(checked, sections.w, weight),
            checked=checked,
            s_x=sections.s_x,
            i_x=sections.i_x,
            f_b=bar.quantity("allowable_stress", STRESS, fill=1.0),
            e=_modulus(bar),
            limit=bar.numbers("deflection_limit", DEFLECTION_LIMIT),
        ),
        loads=loads,
        on_bar=on_bar,
        tier_of_line=tier_of_line,
        line_at=within(
            on_bar, line_at, low=-start[tier_of_line], high=high[tier_of_line], name="at", what="The line on the bar"
        ),
        rods=span_count + 1,
    )


def _rod_spans(trapezes: Rows) -> tuple[Floats, Index]:
    """Distances between the rods of each trapeze, ft, zero padded, and how many."""
    lists: Sequence[Sequence[Any]] = trapezes.values("rods_at")
    count = np.array([len(several) for several in lists], dtype=np.intp)
    widest = int(count.max(initial=2))
    there = np.arange(widest)[None, :] < count[:, None]
    at = np.zeros((len(lists), widest))
    at[there] = trapezes.listed("rods_at", lists, DISTANCE)
    slug = "impossible-geometry"
    detail = "The first rod is at 0: places on the bar are measured from it."
    flaw_where(trapezes, at[:, 0] != 0, "rods_at/0", detail, slug=slug)
    spans = np.diff(at, axis=1)
    between = there[:, 1:]
    for row, place in zip(*np.nonzero((spans < LEAST_SPAN) & between), strict=True):
        detail = "Rods follow each other along the bar, at least 0.01 ft (3 mm) apart."
        trapezes.flaw(int(row), f"rods_at/{place + 1}", detail, slug=slug)
    return np.where(between, np.maximum(spans, LEAST_SPAN), 0.0), count - 1


def _sections(bar: Rows, item: Index, notes: Notes) -> tuple[BarSections, Bools]:
    """Sections of the bars, neutral where none is stated, and where one is."""
    weighed, checked = stated(bar, "weight"), stated(bar, "section")
    flaw_where(
        bar,
        weighed & checked,
        "section",
        "Give the weight of the bar or its section, not both.",
        code="contradiction",
    )
    flaw_where(bar, ~weighed & ~checked, "weight", "Give the weight of the bar, or its section.", code="missing")
    for name in _GOES_WITH_SECTION:
        detail = f"{name} goes with a section: without one the bar isn't checked."
        flaw_where(bar, ~checked & stated(bar, name), name, detail, code="contradiction")
    flaw_where(
        bar,
        checked & bar.silent("allowable_stress"),
        "allowable_stress",
        "A section is checked against an allowable stress, which has to be stated.",
        code="missing",
    )
    notes.assume(LoadAssumption.BAR_STEEL, checked & bar.silent("modulus"), item)
    notes.assume(LoadAssumption.BAR_DEFLECTION, checked & bar.silent("deflection_limit"), item)
    notes.leave_unchecked(LoadNotChecked.BAR, ~checked, item)
    notes.masses(bar.values("weight"), LINE_WEIGHT, bar, item)
    sections = bar_sections(bar, checked)
    notes.assume(LoadAssumption.BAR_RADIUS, sections.radius_assumed, item)
    return sections, checked


def _modulus(bar: Rows) -> Floats:
    values = bar.values("modulus")
    e = convert(values, STRESS, bar.system, absent=MODULUS)
    detail = "The modulus of elasticity is out of range: 100,000 to 100,000,000 psi, 700 to 690,000 MPa."
    flaw_where(bar, (e < LEAST_MODULUS) | (e > MOST_MODULUS), "modulus", detail, slug="quantity")
    return e
