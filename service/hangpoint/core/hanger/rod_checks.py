"""The rods of all hangers by their rules for the load, and those of sprinkler lines by the size table too.

The table is for hangers of horizontal pipe at the spacing of the sprinkler standard: a rod that it finds thick enough
still has to hold its load. Units: in, lbf.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.carried import Section
from hangpoint.core.hanger.items import Items
from hangpoint.core.hanger.rod import (
    ALLOWABLE_BASES,
    PHI_TENSION,
    RULES,
    RodAllowable,
    RodSize,
    RodStrength,
    rod_allowable,
    rod_size,
    rod_strength,
)
from hangpoint.core.quantity import Bools, Floats, Index, Record

ROD_RULES: tuple[str, ...] = tuple(RULES)
NO_ROD = -1
_BASES = np.array([ALLOWABLE_BASES.get(name, (1.0, 1.0, 1.0)) for name in ROD_RULES])
_BY_LOAD = np.array([*(name in ALLOWABLE_BASES for name in ROD_RULES), False])
_STRENGTH = ROD_RULES.index("tensile_strength")


@frozen
class RodChecks:
    """Rods of all hangers.

    ``applies`` (hangers,) where a load is compared: ``strength``, ``demand``, ``utilisation`` there. ``by_size``
    (hangers,) of sprinkler lines, where ``thin`` and ``not_covered`` are by the size table, whose diameter is
    ``required``. ``service`` (hangers,) is the service load along the rod, 0 where it is pushed.
    """

    service: Floats
    applies: Bools
    strength: Floats
    demand: Floats
    utilisation: Floats
    by_size: Bools
    thin: Bools
    not_covered: Bools
    required: Floats
    records: list[tuple[Record, Index]]

    def sections(self, item: Index, number: Index) -> list[Section]:
        """The records with the item and the number of each hanger."""
        return [
            Section(record=record, item=item[rows], part=number[rows], of="hanger") for record, rows in self.records
        ]


def rod_checks(items: Items, item: Index, *, service: Floats, factored: Floats) -> RodChecks:
    """Check the rod of every hanger.

    Args:
        items: the batch.
        item: (hangers,) of each hanger.
        service, factored: (hangers,) tension along the rod.
    """
    count, rods = len(item), items.rods
    rule = rods.rule[item]
    strength, demand, utilisation, required = (np.zeros(count) for _ in range(4))
    thin, not_covered = np.zeros(count, dtype=np.bool_), np.zeros(count, dtype=np.bool_)
    records: list[tuple[Record, Index]] = []
    sized = _with_sprinkler_line(items)[item] & (rule != NO_ROD)
    by_load, by_strength, by_size = (np.flatnonzero(holds) for holds in (_BY_LOAD[rule], rule == _STRENGTH, sized))
    checked = (_by_allowable(items, item, by_load, service), _by_strength(items, item, by_strength, factored))
    for rows, check in zip((by_load, by_strength), checked, strict=True):
        if len(rows):
            strength[rows], demand[rows], utilisation[rows] = check.design_strength, check.demand, check.utilisation
            records.append((check, rows))
    if len(by_size):
        size = _by_size(items, item, by_size)
        required[by_size], thin[by_size], not_covered[by_size] = size.d_required, ~size.suffices, ~size.covered
        records.append((size, by_size))
    return RodChecks(
        service=np.maximum(service, 0.0),
        applies=_BY_LOAD[rule] | (rule == _STRENGTH),
        strength=strength,
        demand=demand,
        utilisation=utilisation,
        by_size=sized,
        thin=thin,
        not_covered=not_covered,
        required=required,
        records=records,
    )


def _by_allowable(items: Items, item: Index, rows: Index, service: Floats) -> RodAllowable:
    own, rods = item[rows], items.rods
    f_basis, safety, k_thread = _BASES[rods.rule[own]].T.copy()
    return rod_allowable(
        d=rods.d[own],
        pitch=rods.pitch[own],
        k_root=rods.k_root[own],
        f_basis=f_basis,
        safety=safety,
        k_thread=k_thread,
        demand=np.maximum(service[rows], 0.0),
    )


def _by_strength(items: Items, item: Index, rows: Index, factored: Floats) -> RodStrength:
    own, rods = item[rows], items.rods
    return rod_strength(
        d=rods.d[own],
        pitch=rods.pitch[own],
        k_stress=rods.k_stress[own],
        f_u=rods.f_u[own],
        phi=np.full(len(rows), PHI_TENSION),
        demand=np.maximum(factored[rows], 0.0),
    )


def _with_sprinkler_line(items: Items) -> Bools:
    """(items,) where a sprinkler line hangs."""
    return np.bincount(items.lines.item[items.lines.sprinkler], minlength=items.count) > 0


def _by_size(items: Items, item: Index, rows: Index) -> RodSize:
    """The rods against the largest sprinkler pipe of their items."""
    largest, pipes = np.zeros(items.count), items.pipes
    nominal = np.where(items.lines.sprinkler[pipes.line], pipes.nominal, 0.0)
    np.maximum.at(largest, items.lines.item[pipes.line], nominal)
    return rod_size(nominal=largest[item[rows]], d=items.rods.d[item[rows]])
