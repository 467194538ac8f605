"""Generators of the records of take-offs and as-built lists."""

import numpy as np

from hangpoint.core.as_built import SetAnchor, set_anchor
from hangpoint.core.take_off.anchor_quantities import (
    AdhesiveVolume,
    AnchorQuantities,
    adhesive_volume,
    anchor_quantities,
)
from hangpoint.core.take_off.cutting import CuttingPlan
from hangpoint.core.take_off.order import Order, order
from hangpoint.core.take_off.rod_pieces import RodPieces, rod_pieces
from hangpoint.core.take_off.rod_quantities import RodQuantities, rod_quantities
from hangpoint.core.take_off.stock_bars import StockBars, stock_bars


def _number(random, least=0, most=50):
    return random.rng.integers(least, most + 1, random.rows).astype(np.float64)


def _anchor_quantities(random):
    return anchor_quantities(
        quantity=_number(random, 1),
        n_layout=_number(random, 1, 8),
        drilled=random.coin(),
        h_hole=random.wide(0.5, 20),
        bit_life=random.of(80, 200, 250),
        charged=random.coin(),
        fastenings=random.of(1, 900),
        t_anchor=random.wide(0.3, 12),
        c_anchor=random.wide(0.07, 13),
    )


def _adhesive_volume(random):
    d_a = random.wide(0.25, 1.25)
    return adhesive_volume(
        glued=random.coin(),
        d_hole=d_a * random.flat(1.05, 1.3),
        d_a=d_a,
        a_se=np.pi / 4 * d_a**2 * random.flat(0.6, 1.1),
        h_hole=random.wide(1, 20),
        holes=_number(random),
    )


def _rod_pieces(random):
    """Half of the rods are whole numbers of bars, a tenth is none."""
    l_stock = random.of(3, 6, 10, 12)
    l_rod = np.where(random.coin(), l_stock * _number(random, 1, 4), random.flat(0.2, 40))
    return rod_pieces(
        l_rod=np.where(random.coin(0.1), 0.0, l_rod), l_stock=l_stock, l_least=l_stock * random.flat(0.1, 0.5)
    )


def _rod_quantities(random):
    return rod_quantities(
        quantity=_number(random, 1),
        n_rod=_number(random, 0, 4),
        l_rod=random.flat(0, 30),
        n_nut=_number(random, 0, 6),
        n_washer=_number(random, 0, 6),
        n_coupling=_number(random, 0, 2),
        splices=_number(random, 0, 3),
    )


def _order(random):
    return order(
        used=random.wide(0.01, 1e4),
        waste=random.of(0, 0.03, 0.05, 0.2),
        counted=random.coin(),
        pack=random.of(1, 10, 25, 100),
    )


def _stock_bars(random):
    bars, l_stock = _number(random, 1), random.of(3, 10, 12)
    gap = _number(random, 0, 1)
    plans = [
        CuttingPlan(patterns=(), bars=int(number), lower_bound=int(number - less), method="first_fit_decreasing")
        for number, less in zip(bars, gap, strict=True)
    ]
    return stock_bars(
        l_stock=l_stock, kerf=random.flat(0, 0.25), l_pieces=bars * l_stock * random.flat(0.5, 1), plans=plans
    )


def _set_anchor(random):
    return set_anchor(
        h_required=random.flat(1, 8),
        h_set=random.flat(1, 8),
        h_known=random.coin(),
        h_most=random.flat(1, 8),
        t_required=random.flat(5, 200),
        t_set=random.flat(5, 200),
        below=random.of(0, 0.05, 0.1),
        above=random.of(0, 0.05, 0.1),
        t_known=random.coin(),
        p_required=random.flat(100, 5_000),
        p_test=random.flat(100, 5_000),
        p_known=random.coin(),
        p_most=random.flat(100, 5_000),
        hold_required=random.flat(5, 300),
        held_for=random.flat(5, 300),
        hold_known=random.coin(),
    )


GENERATORS = {
    AdhesiveVolume: _adhesive_volume,
    AnchorQuantities: _anchor_quantities,
    Order: _order,
    RodPieces: _rod_pieces,
    RodQuantities: _rod_quantities,
    SetAnchor: _set_anchor,
    StockBars: _stock_bars,
}
