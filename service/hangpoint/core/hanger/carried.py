"""What each kind of item brings to its hangers, by nature, before rods, cases and earthquake. Units: ft, in, lbf."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.bars import checked_bars
from hangpoint.core.hanger.beams import NO_SUPPORT, Beams, Loads, StaticLoads, Supports, supports_of
from hangpoint.core.hanger.items import ANY_HANGER, TRAPEZE, Items
from hangpoint.core.hanger.line_on_bar import LineOnBar, line_on_bar
from hangpoint.core.hanger.line_weights import LineWeights
from hangpoint.core.hanger.riser import riser_support
from hangpoint.core.hanger.run_reaction import BAR, by_model
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.statics.continuous_run import span_reactions, uniform_reactions
from hangpoint.core.statics.suspended_equipment import suspended_equipment

BODY_MODELS = ("larger", "equal_springs", "any_three")


@frozen
class Section:
    """A record of the trace: the item of each row, which part of it the row is of, and what kind of part that is."""

    record: Record
    item: Index
    part: Index
    of: str


@frozen
class Hangers:
    """All hangers on one flat axis, rising by item: ``item`` (hangers,), ``number`` within it, ``start`` (items,).

    ``there`` (hangers,) is False where a run is named without the hanger: nothing hangs there.
    """

    item: Index
    number: Index
    start: Index
    there: Bools


@frozen
class Carried:
    """Service loads that hangers take, lbf, a row a hanger in ``hanger``.

    ``models`` (rows, 3) are the sums by model of the run or bar, in the order of `BY_MODEL`, with ``has_models`` where
    there is more than one. ``lift`` (rows, 2) is the least reaction by the continuous and by the hinged beam, ``held``
    False where nothing balances the item. ``sure`` (rows,) is the dead load that hangs there by every model, whichever
    hanger is missing or slack and without impact: all that may hold a rod down.
    """

    hanger: Index
    dead: Floats
    fluid: Floats
    live: Floats
    test: Floats
    sure: Floats
    models: Floats
    lift: Floats
    held: Bools
    sections: Sequence[Section] = ()


def hangers_of(items: Items) -> Hangers:
    """The axis of all hangers: supports of runs and risers, rods of trapezes and equipment."""
    size = np.zeros(items.count, dtype=np.intp)
    alone = items.kind[items.runs.item] != TRAPEZE
    size[items.runs.item[alone]] = items.runs.span_count[alone] + 1
    size[items.tiers.item] = items.tiers.span_count + 1
    size[items.risers.item] = items.risers.supports
    if len(items.equipment.item):
        size[items.equipment.item] = np.bincount(items.equipment_rods.body, minlength=len(items.equipment.item))
    item = np.repeat(np.arange(items.count), size)
    start = np.cumsum(size) - size
    there = np.ones(len(item), dtype=np.bool_)
    lost = alone & (items.runs.missing >= 0)
    there[start[items.runs.item[lost]] + items.runs.missing[lost]] = False
    return Hangers(item=item, number=np.arange(len(item)) - start[item], start=start, there=there)


def of_runs(items: Items, weights: LineWeights, hangers: Hangers) -> Carried:
    """Runs: every support, where asked with each inner hanger lost in turn, the largest of which counts."""
    runs, lines = items.runs, items.lines
    own = np.flatnonzero(items.kind[runs.item] != TRAPEZE)
    each = runs.missing[own] == ANY_HANGER
    copies = np.where(each, runs.span_count[own], 1)
    run = np.repeat(own, copies)
    turn = np.arange(len(run)) - np.repeat(np.cumsum(copies) - copies, copies)
    lost = np.where(runs.missing[run] == ANY_HANGER, np.where(turn > 0, turn, NO_SUPPORT), runs.missing[run])

    def per_run(column: Floats) -> Floats:
        return _per_item(lines.item, column * lines.number, items.count)[runs.item[run]]

    beams = Beams(
        spans=runs.spans[run],
        span_count=runs.span_count[run],
        start=runs.start[run],
        end=runs.end[run],
        missing=lost,
        w_dead=per_run(weights.dead),
        w_fluid=per_run(weights.fluid),
        w_test=per_run(weights.test),
        model=runs.model[run],
    )
    found = supports_of(beams, _run_loads(items, weights, run), _run_statics(items, weights, run))
    hanger = hangers.start[runs.item[run]][found.beam] + found.support
    return _largest(found, hanger, hangers)


def _run_loads(items: Items, weights: LineWeights, run: Index) -> Loads:
    """Point loads of every copy of a run; contents of what stands there stay during a test."""
    loads = items.run_loads
    order = np.argsort(loads.row, kind="stable")
    size = np.bincount(loads.row, minlength=len(items.runs.item))
    first = np.cumsum(size) - size
    count = size[run]
    copy = np.repeat(np.arange(len(run)), count)
    place = order[first[run][copy] + np.arange(len(copy)) - np.repeat(np.cumsum(count) - count, count)]
    dead, contents, live = _parts(loads.weight[place], loads.contents[place], loads.live[place])
    return Loads(
        beam=copy,
        position=loads.position[place],
        dead=dead,
        kept=np.zeros(len(dead)),
        sure=dead,
        fluid=contents,
        live=live,
        test=contents,
    )


def _run_statics(items: Items, weights: LineWeights, run: Index) -> StaticLoads:
    """Static loads of the trays of every copy of a run."""
    line = np.flatnonzero(weights.p_static > 0.0)
    of_line, of_run = items.lines.item[line], items.runs.item[run]
    first = np.searchsorted(of_line, of_run)
    count = np.searchsorted(of_line, of_run, side="right") - first
    beam = np.repeat(np.arange(len(run)), count)
    own = line[np.arange(len(beam)) - np.repeat(np.cumsum(count) - count - first, count)]
    return StaticLoads(beam=beam, p=weights.p_static[own] * items.lines.number[own], span=weights.l_span[own])


def _parts(weight: Floats, contents: Bools, live: Bools) -> tuple[Floats, Floats, Floats]:
    """Dead load, contents and live load of point loads."""
    return np.where(contents | live, 0.0, weight), np.where(contents, weight, 0.0), np.where(live, weight, 0.0)


def _largest(found: Supports, hanger: Index, hangers: Hangers) -> Carried:
    """Of the rows of each hanger the largest by nature, and the row of the largest sum for the trace."""
    own = found.reaction
    total = own.r_dead + own.r_contents + own.r_live
    order = np.lexsort((-np.arange(len(hanger)), total, hanger))
    last = np.flatnonzero(np.append(hanger[order][1:] != hanger[order][:-1], True)) if len(hanger) else order
    row = order[last]
    distinct = hanger[row]
    starts = np.concatenate((np.zeros(min(1, len(last)), dtype=np.intp), last[:-1] + 1))

    def most(values: Floats) -> Floats:
        return np.maximum.reduceat(values[order], starts) if len(starts) else np.zeros(0)

    lift = np.stack([-most(-column) for column in found.lift.T], axis=1)
    return Carried(
        hanger=distinct,
        dead=most(own.r_dead),
        fluid=most(own.r_contents),
        live=most(own.r_live),
        test=most(own.r_test),
        sure=np.minimum(-most(-own.r_dead), lift.min(axis=1)),
        models=own.total[row],
        lift=lift,
        held=np.ones(len(row), dtype=np.bool_),
        sections=[
            Section(record=own.take(row), item=hangers.item[distinct], part=hangers.number[distinct], of="hanger")
        ],
    )


def of_trapezes(items: Items, weights: LineWeights, hangers: Hangers) -> Carried:
    """Trapezes: lines brought to each tier's bar, the bar to its rods, the tiers summed."""
    tiers, lines = items.tiers, items.lines
    at = np.flatnonzero(lines.tier >= 0)
    brought = _lines_on_bars(items, weights, at)
    loads = _bar_loads(items, at, brought)
    zero = np.zeros(len(tiers.item))
    beams = Beams(
        spans=tiers.spans,
        span_count=tiers.span_count,
        start=tiers.start,
        end=tiers.end,
        missing=np.full(len(tiers.item), NO_SUPPORT, dtype=np.intp),
        w_dead=tiers.w_bar,
        w_fluid=zero,
        w_test=zero,
        model=np.full(len(tiers.item), BAR, dtype=np.int8),
    )
    found = supports_of(beams, loads)
    every = hangers.start[tiers.item][found.beam] + found.support
    hanger = np.unique(every)
    place = np.searchsorted(hanger, every)

    def summed(values: Floats) -> Floats:
        return _per_item(place, values, len(hanger))

    own = found.reaction
    bars, which = checked_bars(items, loads)
    total = np.stack([summed(column) for column in found.lift.T], axis=1)
    tier_number = np.arange(len(tiers.item)) - np.searchsorted(tiers.item, tiers.item)
    sections = [
        Section(record=brought, item=lines.item[at], part=_line_numbers(items)[at], of="line"),
        Section(record=own, item=tiers.item[found.beam], part=found.support, of="hanger"),
    ]
    if bars is not None:
        sections.append(Section(record=bars, item=tiers.item[which], part=tier_number[which], of="tier"))
    return Carried(
        hanger=hanger,
        dead=summed(own.r_dead),
        fluid=summed(own.r_contents),
        live=summed(own.r_live),
        test=summed(own.r_test),
        sure=np.minimum(summed(own.r_dead), total.min(axis=1)),
        models=np.stack([summed(column) for column in own.total.T], axis=1),
        lift=_least_lift(found.lift, place, total),
        held=np.ones(len(hanger), dtype=np.bool_),
        sections=sections,
    )


def _least_lift(lift: Floats, place: Index, total: Floats) -> Floats:
    """The least of the sum over the tiers and of each tier, (hangers, 2): a tier can't lift against its own rods."""
    least = total.copy()
    np.minimum.at(least, place, lift)
    return least


def _line_numbers(items: Items) -> Index:
    """Number of each line within its item."""
    item = items.lines.item
    return np.arange(len(item)) - np.searchsorted(item, item)


def _lines_on_bars(items: Items, weights: LineWeights, at: Index) -> LineOnBar:
    runs, lines = items.runs, items.lines
    run_of_item = np.zeros(items.count, dtype=np.intp)
    run_of_item[runs.item] = np.arange(len(runs.item))
    lengths = by_model(uniform_reactions(spans=runs.spans, span_count=runs.span_count, start=runs.start, end=runs.end))
    run = run_of_item[lines.item[at]]
    spans = runs.spans[run]
    each = np.where(spans > 0.0, np.minimum(spans, weights.l_span[at, None]), np.inf)
    on_spans = by_model(
        span_reactions(spans=spans, span_count=runs.span_count[run], w=(weights.p_static[at, None] > 0.0) * 2.0 / each)
    )
    return line_on_bar(
        number=lines.number[at],
        length=lengths[run, runs.support[run]],
        model=runs.model[run],
        spare=items.spare[lines.item[at]],
        w_dead=weights.dead[at],
        w_fluid=weights.fluid[at],
        p_static=weights.p_static[at],
        n_static=on_spans[np.arange(len(at)), runs.support[run]],
        w_test=weights.test[at],
    )


def _bar_loads(items: Items, at: Index, brought: LineOnBar) -> Loads:
    """Lines and stated loads on all bars; stated ones are kept free a share of as well."""
    stated = items.bar_loads
    spare = items.spare[items.tiers.item[stated.row]]
    dead, contents, live = _parts(stated.weight, stated.contents, stated.live)
    contents, live = (1.0 + spare) * contents, (1.0 + spare) * live
    return Loads(
        beam=np.concatenate((items.lines.tier[at], stated.row)),
        position=np.concatenate((items.lines.at[at], stated.position)),
        dead=np.concatenate((brought.p_dead, dead)),
        kept=np.concatenate((brought.p_kept, spare * dead)),
        sure=np.concatenate((brought.p_sure, dead)),
        fluid=np.concatenate((brought.p_fluid, contents)),
        live=np.concatenate((brought.p_live, live)),
        test=np.concatenate((brought.p_test, contents)),
    )


def of_equipment(items: Items, hangers: Hangers) -> Carried:
    """Equipment on its rods: equal springs, any three, or the larger of both."""
    bodies, rods = items.equipment, items.equipment_rods
    weight = bodies.dead + bodies.contents
    solved = suspended_equipment(
        w=weight, x_g=bodies.x_g, y_g=bodies.y_g, x=rods.x, y=rods.y, item_of_support=rods.body
    )
    own, held = solved.supports, solved.held[rods.body]
    model = bodies.model[rods.body]
    springs, three = (np.where(held, share, 0.0) for share in (own.share_springs, own.share_three))
    share = np.where(model == 1, springs, np.where(model == 2, three, np.maximum(springs, three)))
    first = np.searchsorted(rods.body, rods.body)
    hanger = hangers.start[bodies.item[rods.body]] + np.arange(len(rods.body)) - first
    contents = share * bodies.contents[rods.body]
    few = np.where(solved.in_line, 2, 3)[rods.body]
    rigid = (model == 1) | (np.bincount(rods.body, minlength=len(weight))[rods.body] <= few)
    pushed = weight[rods.body] * np.where(model == 2, 0.0, springs)
    return Carried(
        hanger=hanger,
        dead=share * bodies.dead[rods.body],
        fluid=contents,
        live=np.zeros(len(hanger)),
        test=contents,
        sure=np.where(rigid, springs, 0.0) * bodies.dead[rods.body],
        models=np.zeros((len(hanger), 3)),
        lift=np.stack((pushed, pushed), axis=1),
        held=held,
        sections=[Section(record=own, item=bodies.item[rods.body], part=hangers.number[hanger], of="hanger")],
    )


def of_risers(items: Items, weights: LineWeights, hangers: Hangers) -> Carried:
    """Risers: each support takes its share, or all where one must carry."""
    risers, lines = items.risers, items.lines

    def per_riser(column: Floats) -> Floats:
        return _per_item(lines.item, column * lines.number, items.count)[risers.item]

    record = riser_support(
        w_dead=per_riser(weights.dead),
        w_fluid=per_riser(weights.fluid),
        w_test=per_riser(weights.test),
        length=risers.length,
        supports=risers.supports.astype(np.float64),
        one_carries=risers.one_carries,
    )
    row = np.repeat(np.arange(len(risers.item)), risers.supports)
    hanger = hangers.start[risers.item[row]] + np.arange(len(row)) - np.searchsorted(row, row)
    total = record.p_dead + record.p_fluid
    return Carried(
        hanger=hanger,
        dead=record.p_dead[row],
        fluid=record.p_fluid[row],
        live=np.zeros(len(row)),
        test=record.p_test[row],
        sure=np.where(risers.one_carries, 0.0, record.p_dead)[row],
        models=np.zeros((len(row), 3)),
        lift=np.stack((total, total), axis=1)[row],
        held=np.ones(len(row), dtype=np.bool_),
        sections=[Section(record=record, item=risers.item, part=np.zeros(len(risers.item), dtype=np.intp), of="item")],
    )


def _per_item(item: Index, values: Floats, count: int) -> Floats:
    return np.asarray(np.bincount(item, weights=values, minlength=count), dtype=np.float64)
