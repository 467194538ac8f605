"""The loads side for a batch of items: `hanger_loads` is the only entry.

From lines to their weights, over runs and bars to hangers, there by nature, combined, brought to the rod and by braces
to anchors. Units: ft, in, lbf.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.anchor_loads import anchor_loads
from hangpoint.core.hanger.carried import (
    Carried,
    Hangers,
    Section,
    hangers_of,
    of_equipment,
    of_risers,
    of_runs,
    of_trapezes,
)
from hangpoint.core.hanger.hanger_cases import (
    CONTENTS,
    DEAD,
    EARTHQUAKE,
    LIVE,
    NATURES,
    SPRINKLER_RULE,
    THERMAL,
    Combined,
    combine,
)
from hangpoint.core.hanger.hanger_load import HangerLoad, hanger_load
from hangpoint.core.hanger.item_findings import FindingRows, item_findings, pushed_hangers
from hangpoint.core.hanger.items import TRAPEZE, Items
from hangpoint.core.hanger.line_weights import LineWeights, line_weights
from hangpoint.core.hanger.pushed import pushed
from hangpoint.core.hanger.rod_checks import RodChecks, rod_checks
from hangpoint.core.hanger.rod_weight import rod_weight
from hangpoint.core.hanger.seismic_loads import SeismicLoads, seismic_loads
from hangpoint.core.hanger.sprinkler_bars import SprinklerBars, sprinkler_bars
from hangpoint.core.loads.combinations import structure_in_rule
from hangpoint.core.quantity import Bools, Floats, Index, Record
from hangpoint.core.statics.out_of_plumb import out_of_plumb

TEST = NATURES.index("test")


@frozen
class HangerLoads:
    """Answer for a batch.

    ``tension`` (hangers, natures) and ``shear`` (hangers, natures, 2) are service loads by nature, earthquake without
    Omega_0; ``against`` (hangers, natures, 2) are the shears that a nature has the other way beside the larger ones in
    ``shear``; ``at_anchors`` are tension and shear by `anchor_loads`. ``models`` (hangers, 3) are sums by model of runs
    and bars. ``loads`` is the record of every hanger. ``lines`` are the weights of the lines.
    """

    items: Items
    hangers: Hangers
    lines: LineWeights
    loads: HangerLoad
    models: Floats
    held: Bools
    tension: Floats
    shear: Floats
    against: Floats
    at_anchors: tuple[Floats, Floats]
    s_ds: Floats
    strength: Combined
    allowable: Combined
    rods: RodChecks
    seismic: SeismicLoads | None
    sections: list[Section]
    findings: list[FindingRows]


def hanger_loads(items: Items, *, load_standard: str) -> HangerLoads:
    """Loads of every hanger of every item.

    Args:
        items: the batch in core units.
        load_standard: edition of the load standard.
    """
    weights, hangers = line_weights(items), hangers_of(items)
    carried = _together(
        [
            of_runs(items, weights, hangers),
            of_trapezes(items, weights, hangers),
            of_equipment(items, hangers),
            of_risers(items, weights, hangers),
        ],
        len(hangers.item),
    )
    item = hangers.item
    rods = rod_weight(d=items.rods.d, pitch=items.rods.pitch, l_rod=items.rods.l_rod)
    sprinkler = np.zeros(items.count, dtype=np.bool_)
    sprinkler[items.lines.item[items.lines.sprinkler]] = True
    loads = hanger_load(
        r_dead=carried.dead,
        r_contents=carried.fluid,
        r_live=carried.live,
        impact=items.impact[item],
        p_rod=np.where(hangers.there, rods.p_rod[item], 0.0),
        erection=np.where(hangers.there, items.erection[item], 0.0),
        sprinkler=sprinkler[item] & hangers.there,
        stated=_stated(items, hangers),
    )
    tension, shear, against = _by_nature(items, weights, hangers, carried, loads)
    seismic = _seismic(items, weights, hangers, carried, loads)
    s_ds = _with_earthquake(items, seismic, hangers, tension)
    plumb = out_of_plumb(p=tension[:, [DEAD, CONTENTS, LIVE]].sum(axis=1), alpha=items.rods.angle[item])
    strength, allowable = (
        combine(
            tension=tension,
            shear=shear,
            tan_alpha=plumb.tan_alpha,
            s_ds=s_ds,
            load_standard=load_standard,
            allowable=each,
        )
        for each in (False, True)
    )
    omega_0, tan_alpha = _omega_0(items, seismic)[item], plumb.tan_alpha
    at_anchors = anchor_loads(
        tension=tension, shear=shear, omega_0=omega_0, tan_alpha=tan_alpha, s_ds=s_ds, load_standard=load_standard
    )
    slope = np.sqrt(1.0 + plumb.tan_alpha**2)
    service = np.maximum(allowable.worst, structure_in_rule(tension[:, SPRINKLER_RULE]))
    checks = rod_checks(items, item, service=service * slope, factored=strength.worst * slope)
    bars = sprinkler_bars(items, weights)
    sections = [
        *(
            Section(record=record, item=items.lines.item[line], part=_number(items.lines.item)[line], of="line")
            for record, line in weights.records
        ),
        *carried.sections,
        Section(record=rods, item=np.arange(items.count), part=np.zeros(items.count, dtype=np.intp), of="item"),
        Section(record=loads, item=item, part=hangers.number, of="hanger"),
        *([Section(record=plumb, item=item, part=hangers.number, of="hanger")] if items.rods.angle.any() else []),
        *checks.sections(item, hangers.number),
        *_sprinkler_sections(items, bars),
        *_seismic_sections(items, seismic),
    ]
    return HangerLoads(
        items=items,
        hangers=hangers,
        lines=weights,
        loads=loads,
        models=carried.models,
        held=carried.held,
        tension=tension,
        shear=shear,
        against=against,
        at_anchors=at_anchors,
        s_ds=s_ds,
        strength=strength,
        allowable=allowable,
        rods=checks,
        seismic=seismic,
        sections=sections,
        findings=[
            *item_findings(items, hangers, carried, loads, checks, seismic, bars, sections),
            *_pushed(items, hangers, carried, tension, s_ds, strength),
        ],
    )


def _pushed(
    items: Items, hangers: Hangers, carried: Carried, tension: Floats, s_ds: Floats, strength: Combined
) -> list[FindingRows]:
    at = hangers.start[items.given.item] + items.given.hanger
    pushes = pushed(items.given, at, sure=carried.sure, tension=tension, s_ds=s_ds, strength=strength)
    return pushed_hangers(hangers, pushes, carried.held)


def _sprinkler_sections(items: Items, bars: SprinklerBars) -> list[Section]:
    if bars.record is None:
        return []
    item = items.lines.item
    return [Section(record=bars.record, item=item[bars.lines], part=_number(item)[bars.lines], of="line")]


def _number(item: Index) -> Index:
    """Number of each row within its item, of rows that rise by item."""
    return np.arange(len(item)) - np.searchsorted(item, item)


def _together(parts: list[Carried], count: int) -> Carried:
    """What all kinds carry, a row a hanger."""
    columns = {name: np.zeros(count) for name in ("dead", "fluid", "live", "test", "sure")}
    models, lift, held = np.zeros((count, 3)), np.zeros((count, 2)), np.ones(count, dtype=np.bool_)
    for part in parts:
        for name, column in columns.items():
            column[part.hanger] = getattr(part, name)
        models[part.hanger], lift[part.hanger], held[part.hanger] = part.models, part.lift, part.held
    return Carried(
        hanger=np.arange(count),
        **columns,
        models=models,
        lift=lift,
        held=held,
        sections=[section for part in parts for section in part.sections if len(section.item)],
    )


def _by_nature(
    items: Items, weights: LineWeights, hangers: Hangers, carried: Carried, loads: HangerLoad
) -> tuple[Floats, Floats, Floats]:
    """Service loads by nature: (hangers, natures), the shears, (hangers, natures, 2), and those that are against them.

    A test fills what the lines of the item hold; contents that are stated at a hanger are something else and stay. Of
    several loads of one nature at a hanger each may be absent: those that push take nothing from those that pull, and
    all of an earthquake may pull at once. Shears either way along an axis are kept apart, the larger sum first. Dead
    loads act together, as do all shears of earthquake.
    """
    count = len(hangers.item)
    tension, shear = np.zeros((count, len(NATURES))), np.zeros((count, len(NATURES), 2))
    tension[:, DEAD], tension[:, CONTENTS], tension[:, LIVE] = loads.dead, loads.contents, loads.live
    tested = np.zeros(items.count, dtype=np.bool_)
    tested[items.lines.item[weights.tested]] = True
    tension[:, TEST] = np.where(tested[hangers.item], carried.test, 0.0)
    tension[:, SPRINKLER_RULE] = np.where(loads.sprinkler, loads.components, 0.0)
    given = items.given
    at = hangers.start[given.item] + given.hanger
    pulls, pushes = np.maximum(tension, 0.0), np.minimum(tension, 0.0)
    np.add.at(pulls, (at, given.nature), np.maximum(given.n, 0.0))
    np.add.at(pushes, (at, given.nature), np.minimum(given.n, 0.0))
    against = shear.copy()
    np.add.at(shear, (at, given.nature), np.maximum(given.v, 0.0))
    np.add.at(against, (at, given.nature), np.minimum(given.v, 0.0))
    tension = pulls + pushes
    opposed = (pulls > 0.0) & (pushes < 0.0)
    opposed[:, DEAD] = False
    both = pulls.copy()
    both[:, EARTHQUAKE] -= pushes[:, EARTHQUAKE]
    tension = np.where(opposed, both, tension)
    wet = np.flatnonzero((given.nature == CONTENTS) & tested[given.item])
    np.add.at(tension[:, TEST], at[wet], np.maximum(given.n[wet], 0.0))
    np.add.at(shear[:, TEST], at[wet], np.maximum(given.v[wet], 0.0))
    np.add.at(against[:, TEST], at[wet], np.minimum(given.v[wet], 0.0))
    sheared = np.unique(at)
    shear[sheared], against[sheared] = _either_way(shear[sheared], against[sheared])
    return tension, shear, against


def _either_way(one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """The larger of shears either way along an axis, and the smaller; the sum and nothing where they act together."""
    first = one >= -other
    together = (one == 0.0) | (other == 0.0)
    together[:, [DEAD, EARTHQUAKE]] = True
    larger, smaller = np.where(first, one, other), np.where(first, other, one)
    return np.where(together, one + other, larger), np.where(together, 0.0, smaller)


def _stated(items: Items, hangers: Hangers) -> Floats:
    """Dead load and contents that the request states at each hanger, what pulls of them, lbf."""
    given, found = items.given, np.zeros(len(hangers.item))
    weighs = (given.nature == DEAD) | (given.nature == CONTENTS)
    np.add.at(found, hangers.start[given.item] + given.hanger, np.where(weighs, np.maximum(given.n, 0.0), 0.0))
    return found


def _seismic(
    items: Items, weights: LineWeights, hangers: Hangers, carried: Carried, loads: HangerLoad
) -> SeismicLoads | None:
    service = loads.dead + loads.contents + loads.stated
    least = np.full(items.count, np.inf)
    largest, whole, stated, stated_most = np.zeros((4, items.count))
    np.minimum.at(least, hangers.item, np.where(hangers.there, _held_down(items, hangers, carried.sure), np.inf))
    np.maximum.at(largest, hangers.item, service)
    np.add.at(whole, hangers.item, service)
    np.add.at(stated, hangers.item, loads.stated)
    np.maximum.at(stated_most, hangers.item, loads.stated)
    return seismic_loads(
        items,
        weights,
        n_sure=np.where(np.isfinite(least), least, 0.0),
        largest_load=np.where(items.kind == TRAPEZE, whole, largest),
        stated=stated,
        stated_most=stated_most,
    )


def _held_down(items: Items, hangers: Hangers, sure: Floats) -> Floats:
    """(hangers,) what surely holds rods down in 0.9D - E_v + E_h + 1.0T, negative where stated loads push; lbf.

    Of stated loads what lifts counts, of earthquake either way, as it adds to a brace whatever its sign.
    """
    given, sure, push = items.given, sure.copy(), np.zeros(len(sure))
    at = hangers.start[given.item] + given.hanger
    np.add.at(sure, at, np.where(np.isin(given.nature, (DEAD, CONTENTS)), np.minimum(given.n, 0.0), 0.0))
    np.add.at(push, at, np.where(given.nature == THERMAL, np.maximum(-given.n, 0.0), 0.0))
    np.add.at(push, at, np.where(given.nature == EARTHQUAKE, np.abs(given.n), 0.0))
    s_ds = np.zeros(items.count)
    s_ds[items.seismic.item] = items.seismic.s_ds
    return np.maximum(0.9 - 0.2 * s_ds[hangers.item], 0.0) * np.maximum(sure, 0.0) - push


def _with_earthquake(items: Items, seismic: SeismicLoads | None, hangers: Hangers, tension: Floats) -> Floats:
    """Add the pull of a brace to every hanger of its item, and return S_DS of each hanger.

    Both a brace and an earthquake load that is stated act either way, so they add up whatever the sign of the latter.
    """
    s_ds, pull = np.zeros(items.count), np.zeros(items.count)
    if seismic is not None:
        s_ds[items.seismic.item] = items.seismic.s_ds
        if seismic.brace is not None:
            pull[items.seismic.item[seismic.braced]] = seismic.brace.v
    item, pulled = hangers.item, (pull > 0)[hangers.item] & hangers.there
    stated = np.where(pulled, np.abs(tension[:, EARTHQUAKE]), tension[:, EARTHQUAKE])
    tension[:, EARTHQUAKE] = stated + np.where(pulled, pull[item], 0.0)
    return s_ds[item]


def _omega_0(items: Items, seismic: SeismicLoads | None) -> Floats:
    """(items,) 1 where there is no earthquake of a component."""
    omega_0 = np.ones(items.count)
    if seismic is not None:
        omega_0[items.seismic.item] = seismic.omega_0
    return omega_0


def _seismic_sections(items: Items, seismic: SeismicLoads | None) -> list[Section]:
    if seismic is None:
        return []
    own = items.seismic.item
    made: list[tuple[Record, Index]] = [each for each in (seismic.older, seismic.newer) if each is not None]
    made += [(record, seismic.braced) for record in (seismic.brace, seismic.anchor) if record is not None]
    if seismic.rod is not None:
        made.append((seismic.rod, seismic.pushed))
    if seismic.exemptions is not None:
        made.append((seismic.exemptions, seismic.judged))
    return [
        Section(record=record, item=own[rows], part=np.zeros(len(rows), dtype=np.intp), of="item")
        for record, rows in made
    ]
