"""Bars of stock that the pieces of one rod are cut from, and what is left of them. Units: ft; kerf in."""

from collections.abc import Sequence
from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, procedure, record
from hangpoint.core.take_off.cutting import CuttingPlan


@record
class StockBars(Record):
    """A row a kind of rod."""

    TITLE: ClassVar[str] = "Bars of a rod"
    AXIS: ClassVar[Axis] = Axis.LOAD

    l_stock: Annotated[Floats, given("l_stock", "ft")]
    kerf: Annotated[Floats, given("kerf", "in")]
    l_pieces: Annotated[Floats, given("l_pieces", "ft")]
    bars: Annotated[Floats, procedure("n_bar", "", "cutting_plan", clause="bin packing")]
    lower_bound: Annotated[Floats, procedure("n_bound", "", "least_bars", clause="bin packing")]
    gap: Annotated[Floats, formula("n_gap", "", "bars - lower_bound", clause="bin packing")]
    l_bars: Annotated[Floats, formula("l_bars", "ft", "bars * l_stock", clause="count")]
    l_waste: Annotated[Floats, formula("l_waste", "ft", "l_bars - l_pieces", clause="count")]
    waste_share: Annotated[Floats, formula("l_waste/l_bars", "", "l_waste / l_bars", clause="count")]


def stock_bars(*, l_stock: Floats, kerf: Floats, l_pieces: Floats, plans: Sequence[CuttingPlan]) -> StockBars:
    """Lengths of each plan; arrays and plans are (n,).

    Procedures ``cutting_plan`` and ``least_bars`` are those of `cutting`.
    """
    bars = np.array([plan.bars for plan in plans], dtype=np.float64)
    lower_bound = np.array([plan.lower_bound for plan in plans], dtype=np.float64)
    l_bars = bars * l_stock
    l_waste = l_bars - l_pieces
    return StockBars(
        l_stock=l_stock,
        kerf=kerf,
        l_pieces=l_pieces,
        bars=bars,
        lower_bound=lower_bound,
        gap=bars - lower_bound,
        l_bars=l_bars,
        l_waste=l_waste,
        waste_share=l_waste / l_bars,
    )
