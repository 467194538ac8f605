"""Rods of an item and what ends them: nuts, washers, couplings at their ends and at the joints of long rods.

Counts are of the item with its quantity, without any waste. Units: ft.
"""

from typing import Annotated, ClassVar

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


@record
class RodQuantities(Record):
    """What the rods of an item need."""

    TITLE: ClassVar[str] = "Rods of an item"
    AXIS: ClassVar[Axis] = Axis.LOAD

    quantity: Annotated[Floats, given("n_item")]
    n_rod: Annotated[Floats, given("n_rod")]
    rods: Annotated[Floats, formula("n_rods", "", "quantity * n_rod", clause="count")]
    l_rod: Annotated[Floats, given("l_rod", "ft")]
    l_rods: Annotated[Floats, formula("l_rods", "ft", "rods * l_rod", clause="count")]
    n_nut: Annotated[Floats, given("n_nut")]
    nuts: Annotated[Floats, formula("n_nuts", "", "rods * n_nut", clause="count")]
    n_washer: Annotated[Floats, given("n_washer")]
    washers: Annotated[Floats, formula("n_washers", "", "rods * n_washer", clause="count")]
    n_coupling: Annotated[Floats, given("n_coupling")]
    splices: Annotated[Floats, given("n_splice")]
    couplings: Annotated[Floats, formula("n_couplings", "", "rods * (n_coupling + splices)", clause="count")]


def rod_quantities(
    *,
    quantity: Floats,
    n_rod: Floats,
    l_rod: Floats,
    n_nut: Floats,
    n_washer: Floats,
    n_coupling: Floats,
    splices: Floats,
) -> RodQuantities:
    """Count what the rods of each item need; every array is (n,), the ends those of one rod."""
    rods = quantity * n_rod
    return RodQuantities(
        quantity=quantity,
        n_rod=n_rod,
        rods=rods,
        l_rod=l_rod,
        l_rods=rods * l_rod,
        n_nut=n_nut,
        nuts=rods * n_nut,
        n_washer=n_washer,
        washers=rods * n_washer,
        n_coupling=n_coupling,
        splices=splices,
        couplings=rods * (n_coupling + splices),
    )
