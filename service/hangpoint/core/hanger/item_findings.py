"""What is seen of items and their hangers. Units: ft, in, lbf, psi."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.carried import Carried, Hangers, Section
from hangpoint.core.hanger.exemptions import EXEMPTIONS
from hangpoint.core.hanger.hanger_load import HangerLoad
from hangpoint.core.hanger.items import RUN, TRAPEZE, Items
from hangpoint.core.hanger.pushed import Pushed
from hangpoint.core.hanger.rod_checks import RodChecks
from hangpoint.core.hanger.run_reaction import BY_MODEL, MODELS
from hangpoint.core.hanger.seismic_loads import SeismicLoads
from hangpoint.core.hanger.spacing import LEAST_LIQUID, RULE_NAMES
from hangpoint.core.hanger.sprinkler_bars import SprinklerBars
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.brace import BraceForce
from hangpoint.core.statics.trapeze_bar import TrapezeBar
from hangpoint.core.vocabulary import LoadFinding

ROUNDING = 1e-9
_CONTINUOUS_ALONE = MODELS.index("continuous")
_TRIBUTARY, _CONTINUOUS = BY_MODEL.index("tributary"), BY_MODEL.index("continuous")


@frozen
class FindingRows:
    """One finding wherever it holds: item, part (a hanger, line or tier, -1 for the item), value and limit.

    ``name`` and ``clause`` say which rule, where the finding is one of several rules, ``conditions`` what it asks for.
    """

    finding: LoadFinding
    item: Index
    part: Index
    of: str
    value: Floats
    limit: Floats
    name: str = ""
    clause: str = ""
    conditions: str = ""


def item_findings(
    items: Items,
    hangers: Hangers,
    carried: Carried,
    loads: HangerLoad,
    rods: RodChecks,
    seismic: SeismicLoads | None,
    sprinkler_bars: SprinklerBars,
    sections: Sequence[Section],
) -> list[FindingRows]:
    """Every finding of the batch that holds anywhere."""
    found = [
        *_of_balance(items, hangers, carried),
        *_of_bars(sections),
        *_of_spacing(items),
        *_of_rods(hangers, rods, items),
        *_of_sprinklers(items, hangers, loads),
        *_of_sprinkler_bars(items, sprinkler_bars),
        *(_of_earthquake(items, seismic) if seismic is not None else ()),
    ]
    return [each for each in found if len(each.item)]


def _at_hangers(
    finding: LoadFinding, hangers: Hangers, holds: Bools, value: Floats, limit: Floats | None = None
) -> FindingRows:
    at = np.flatnonzero(holds)
    return FindingRows(
        finding=finding,
        item=hangers.item[at],
        part=hangers.number[at],
        of="hanger",
        value=value[at],
        limit=np.zeros(len(at)) if limit is None else limit[at],
    )


def _of_items(
    finding: LoadFinding, item: Index, value: Floats, limit: Floats | None = None, name: str = ""
) -> FindingRows:
    none = np.full(len(item), -1, dtype=np.intp)
    zero = np.zeros(len(item)) if limit is None else limit
    return FindingRows(finding=finding, item=item, part=none, of="item", value=value, limit=zero, name=name)


def _of_balance(items: Items, hangers: Hangers, carried: Carried) -> list[FindingRows]:
    kind, total = items.kind[hangers.item], carried.dead + carried.fluid + carried.live
    size = np.zeros(items.count)
    np.maximum.at(size, hangers.item, np.abs(total))
    dust = ROUNDING * size[hangers.item]
    continuous, hinged = carried.lift[:, 0], carried.lift[:, 1]
    # A run may lift off a hanger as a continuous one where the other models hold it; a bar and a body have to stay in
    # balance on what pulls, and so has a run that is named continuous.
    named = np.zeros(items.count, dtype=np.bool_)
    named[items.runs.item] = items.runs.model == _CONTINUOUS_ALONE
    least = np.where((kind == RUN) & ~named[hangers.item], hinged, np.minimum(continuous, hinged))
    lifts = least < -dust
    more = carried.models[:, _CONTINUOUS] > carried.models[:, _TRIBUTARY] * (1 + 1e-6) + dust
    loose = np.zeros(items.count, dtype=np.bool_)
    loose[hangers.item[~carried.held]] = True
    return [
        _of_items(LoadFinding.NO_BALANCE, np.flatnonzero(loose), np.zeros(int(loose.sum()))),
        _at_hangers(LoadFinding.UPLIFT, hangers, lifts & carried.held, least),
        _at_hangers(LoadFinding.RUN_LIFTS, hangers, (kind == RUN) & ~lifts & (continuous < -dust), continuous),
        _at_hangers(LoadFinding.UNLOADED, hangers, hangers.there & carried.held & (np.abs(total) <= dust), total),
        _at_hangers(
            LoadFinding.FIRST_INTERIOR,
            hangers,
            (kind == RUN) & more,
            carried.models[:, _CONTINUOUS],
            carried.models[:, _TRIBUTARY],
        ),
    ]


def pushed_hangers(hangers: Hangers, pushes: Pushed, held: Bools) -> list[FindingRows]:
    """Hangers that stated loads push by more than what surely hangs there."""
    by_loads = held & pushes.pushed
    by_earthquake = held & pushes.pushed_shaken & ~by_loads
    made = [
        _at_hangers(LoadFinding.PUSHED, hangers, by_loads, pushes.least),
        _at_hangers(LoadFinding.PUSHED_BY_EARTHQUAKE, hangers, by_earthquake, pushes.shaken),
    ]
    return [each for each in made if len(each.item)]


def _of_bars(sections: Sequence[Section]) -> list[FindingRows]:
    made: list[FindingRows] = []
    for section in sections:
        if isinstance(section.record, TrapezeBar):
            bar = section.record
            for finding, holds, value, limit in (
                (LoadFinding.BAR_STRESS, bar.utilisation > 1 + ROUNDING, bar.sigma, bar.f_b),
                (LoadFinding.BAR_SAG, ~bar.stiff, bar.deflection, bar.deflection_limit),
            ):
                at = np.flatnonzero(holds)
                made.append(
                    FindingRows(
                        finding=finding,
                        item=section.item[at],
                        part=section.part[at],
                        of="tier",
                        value=value[at],
                        limit=limit[at],
                    )
                )
    return made


def _of_spacing(items: Items) -> list[FindingRows]:
    own, runs = items.spacings, items.runs
    item = items.lines.item[own.line]
    run_of_item = np.zeros(items.count, dtype=np.intp)
    run_of_item[runs.item] = np.arange(len(runs.item))
    run = run_of_item[item]
    longest = runs.spans[run].max(axis=1, initial=0.0)
    loaded = np.bincount(items.run_loads.row, minlength=len(runs.item)) > 0
    over = np.maximum(runs.start[run], runs.end[run])
    number = np.arange(len(items.lines.item)) - np.searchsorted(items.lines.item, items.lines.item)

    rho = np.zeros(len(items.lines.item))
    rho[items.pipes.line] = items.pipes.rho_contents

    def at_lines(finding: LoadFinding, holds: Bools, value: Floats, limit: Floats, name: str = "") -> FindingRows:
        at = np.flatnonzero(holds)
        return FindingRows(
            finding=finding,
            item=item[at],
            part=number[own.line[at]],
            of="line",
            value=value[at],
            limit=limit[at],
            name=name,
        )

    zero = np.zeros(len(item))
    return [
        at_lines(LoadFinding.SPACING_EXCEEDED, longest > own.limit * (1 + ROUNDING), longest, own.limit),
        at_lines(LoadFinding.SPACING_NOT_COVERED, ~own.covered, zero, zero),
        *(
            at_lines(LoadFinding.SPACING_RULE_LACKING, own.lacking[:, code], zero, zero, RULE_NAMES[code])
            for code in np.flatnonzero(own.lacking.any(axis=0)).tolist()
        ),
        at_lines(LoadFinding.SPACING_VAPOUR, own.vapour & (rho[own.line] > LEAST_LIQUID), zero, zero),
        at_lines(LoadFinding.SPACING_POINT_LOAD, own.uniform_only & loaded[run], zero, zero),
        at_lines(LoadFinding.OVERHANG, over > own.end_limit * (1 + ROUNDING), over, own.end_limit),
    ]


def _of_rods(hangers: Hangers, rods: RodChecks, items: Items) -> list[FindingRows]:
    d = items.rods.d[hangers.item]
    return [
        _at_hangers(
            LoadFinding.ROD_OVERLOADED,
            hangers,
            rods.applies & (rods.utilisation > 1 + ROUNDING),
            rods.demand,
            rods.strength,
        ),
        _at_hangers(LoadFinding.ROD_BELOW_SIZE, hangers, rods.thin, d, rods.required),
        _at_hangers(LoadFinding.ROD_SIZE_NOT_COVERED, hangers, rods.not_covered, d),
    ]


def _of_sprinklers(items: Items, hangers: Hangers, loads: HangerLoad) -> list[FindingRows]:
    lines = items.lines
    some, every = (np.bincount(item, minlength=items.count) for item in (lines.item[lines.sprinkler], lines.item))
    loaded = np.bincount(items.tiers.item[items.bar_loads.row], minlength=items.count) > 0
    shared = np.flatnonzero((items.kind == TRAPEZE) & (some > 0) & ((some < every) | loaded))
    return [
        _at_hangers(LoadFinding.SPRINKLER_STRUCTURE, hangers, loads.sprinkler, loads.structure),
        _of_items(LoadFinding.SHARED_SUPPORT, shared, np.zeros(len(shared))),
    ]


def _of_sprinkler_bars(items: Items, bars: SprinklerBars) -> list[FindingRows]:
    tiers = items.tiers
    number = np.arange(len(tiers.item)) - np.searchsorted(tiers.item, tiers.item)
    made: list[FindingRows] = []
    for finding, holds in (
        (LoadFinding.BAR_MODULUS, tiers.s_x < bars.z_required * (1 - ROUNDING)),
        (LoadFinding.BAR_NOT_COVERED, bars.asked & ~bars.covered),
    ):
        at = np.flatnonzero(bars.asked & holds)
        made.append(
            FindingRows(
                finding=finding,
                item=tiers.item[at],
                part=number[at],
                of="tier",
                value=tiers.s_x[at],
                limit=bars.z_required[at],
            )
        )
    return made


def _of_earthquake(items: Items, seismic: SeismicLoads) -> list[FindingRows]:
    own = items.seismic
    loose = own.item[~own.braced]
    made = [_of_items(LoadFinding.UNBRACED, loose, np.zeros(len(loose)))]
    if seismic.brace is not None:
        made += _of_pushed_rods(own.item, seismic, seismic.brace)
    if seismic.exemptions is not None:
        for rule in EXEMPTIONS:
            holds = np.flatnonzero(getattr(seismic.exemptions, rule.name))
            item = own.item[seismic.judged[holds]]
            claims = _of_items(LoadFinding.EXEMPT_CLAIM, item, np.zeros(len(item)), name=rule.name)
            made.append(replace(claims, clause=rule.clause, conditions=rule.text))
    return made


def _of_pushed_rods(item: Index, seismic: SeismicLoads, brace: BraceForce) -> list[FindingRows]:
    """Rods that a brace pushes; ``item`` of every seismic row."""
    unknown = np.zeros(len(item), dtype=np.bool_)
    unknown[seismic.braced] = brace.c_rod > 0
    made: list[FindingRows] = []
    if (rod := seismic.rod) is not None:
        known = np.isfinite(rod.l_free)
        unknown[seismic.pushed] = ~known
        for finding, own in (
            (LoadFinding.ROD_SLENDER, np.flatnonzero(known & ~rod.holds)),
            (LoadFinding.ROD_HOLDS_PUSH, np.flatnonzero(rod.holds)),
        ):
            made.append(_of_items(finding, item[seismic.pushed[own]], rod.l_free[own], rod.l_most[own]))
    compression = np.zeros(len(item))
    compression[seismic.braced] = brace.c_rod
    return [_of_items(LoadFinding.ROD_PUSHED, item[unknown], compression[unknown]), *made]
