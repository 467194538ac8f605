"""What the items of a take-off need: the records of the core over their columns, and the plans of the bars."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hangpoint.core.hanger.rod import THREADS
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.take_off.anchor_quantities import (
    AdhesiveVolume,
    AnchorQuantities,
    adhesive_volume,
    anchor_quantities,
)
from hangpoint.core.take_off.cutting import CuttingPlan, cutting_plan
from hangpoint.core.take_off.rod_pieces import RodPieces, rod_pieces
from hangpoint.core.take_off.rod_quantities import RodQuantities, rod_quantities
from hangpoint.core.take_off.stock_bars import StockBars, stock_bars
from hangpoint.pack.take_off.items import TakeOffItems
from hangpoint.pack.take_off.rates import Rates

_NM_PER_FT, _NM_PER_IN = 304_800_000, 25_400_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """The cut list of one kind of rod: ``lengths`` falling, in nm, and how many ``pieces`` of each."""

    rod: int
    lengths: Sequence[int]
    pieces: Sequence[int]
    plan: CuttingPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """Records with a row an item, and the bars with a row a kind of rod that has a length."""

    anchors: AnchorQuantities
    adhesive: AdhesiveVolume
    pieces: RodPieces
    rods: RodQuantities
    bars: Sequence[Bars]
    stock: StockBars


def count_items(items: TakeOffItems, rates: Rates) -> Counts:
    """Count what every item needs and cut the rods."""
    products = items.products
    anchors = anchor_quantities(
        quantity=items.quantity,
        n_layout=items.n_layout,
        drilled=_true([own.drilled for own in products])[items.product],
        h_hole=_column([own.hole_depth for own in products])[items.product],
        bit_life=_column([own.bit_life for own in products])[items.product],
        charged=_true([own.charge is not None for own in products])[items.product],
        fastenings=_column([1 if own.charge is None else own.charge.fastenings for own in products])[items.product],
        t_anchor=_column([own.minutes for own in products])[items.product],
        c_anchor=_column([own.cost_index for own in products])[items.product],
    )
    adhesive = adhesive_volume(
        glued=_true([own.adhesive for own in products])[items.product],
        d_hole=_column([own.hole_diameter for own in products])[items.product],
        d_a=_column([own.d_a for own in products])[items.product],
        a_se=_column([own.a_se for own in products])[items.product],
        h_hole=anchors.h_hole,
        holes=anchors.holes,
    )
    count = items.count
    pieces = rod_pieces(
        l_rod=items.l_rod, l_stock=np.full(count, rates.rod_length), l_least=np.full(count, rates.shortest)
    )
    rods = rod_quantities(
        quantity=items.quantity,
        n_rod=items.n_rod,
        l_rod=items.l_rod,
        n_nut=items.n_nut,
        n_washer=items.n_washer,
        n_coupling=items.n_coupling,
        splices=pieces.splices,
    )
    bars = _bars(items, pieces, rods, rates)
    stock = stock_bars(
        l_stock=np.full(len(bars), rates.rod_length),
        kerf=np.full(len(bars), rates.kerf),
        l_pieces=_column([_total(each) / _NM_PER_FT for each in bars]),
        plans=[each.plan for each in bars],
    )
    return Counts(anchors=anchors, adhesive=adhesive, pieces=pieces, rods=rods, bars=bars, stock=stock)


def feet(length: int) -> float:
    """A length of a cut list in ft."""
    return length / _NM_PER_FT


def _total(bars: Bars) -> int:
    return sum(length * pieces for length, pieces in zip(bars.lengths, bars.pieces, strict=True))


def _bars(items: TakeOffItems, pieces: RodPieces, rods: RodQuantities, rates: Rates) -> list[Bars]:
    stock, kerf = round(rates.rod_length * _NM_PER_FT), round(rates.kerf * _NM_PER_IN)
    rod = np.concatenate([items.rod, items.rod])
    number = np.concatenate([rods.rods * pieces.n_whole, rods.rods * pieces.n_cut])
    length = np.concatenate([pieces.l_stock, pieces.l_cut])
    there = (rod >= 0) & (number > 0)
    made: list[Bars] = []
    for kind in sorted(range(len(items.rods)), key=lambda kind: THREADS[items.rods[kind][0]].d):
        own = there & (rod == kind)
        if own.any():
            lengths, totals = _by_length(np.rint(length[own] * _NM_PER_FT).astype(np.int64), number[own])
            lengths = [min(each, stock) for each in lengths]
            plan = cutting_plan(lengths, totals, stock=stock, kerf=kerf)
            made.append(Bars(rod=kind, lengths=lengths, pieces=totals, plan=plan))
    return made


def _by_length(length: Index, number: Floats) -> tuple[list[int], list[int]]:
    """Distinct lengths, falling, and the pieces of each."""
    distinct, at = np.unique(length, return_inverse=True)
    totals = np.bincount(at, weights=number, minlength=len(distinct))
    return distinct[::-1].tolist(), np.rint(totals[::-1]).astype(np.int64).tolist()


def _column(values: Sequence[float]) -> Floats:
    return np.array(values, dtype=np.float64)


def _true(values: Sequence[bool]) -> Bools:
    return np.array(values, dtype=np.bool_)
