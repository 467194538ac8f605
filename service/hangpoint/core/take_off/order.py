"""Lines of a pull list: what is used, with waste, in whole pieces and whole packages.

A line that is measured, as adhesive by its volume, isn't rounded to pieces. Waste is a share of what is used, common
practice where the request states none.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record

FORGIVEN, ROUNDING = 1e-9, 1e-14
"""Part of a piece, and share of a sum, that rounding may add without another piece being taken."""


@record
class Order(Record):
    """What is pulled from the shelf for each line; ``used``, ``pack`` and ``left_over`` in the unit of the line."""

    TITLE: ClassVar[str] = "Line of the pull list"
    AXIS: ClassVar[Axis] = Axis.LOAD

    used: Annotated[Floats, given("n_used")]
    waste: Annotated[Floats, given("waste", clause="common practice")]
    counted: Annotated[Bools, given("in pieces")]
    with_waste: Annotated[Floats, formula("n_waste", "", "used * (1 + waste)", clause="common practice")]
    net: Annotated[Floats, procedure("n_net", "", "whole_pieces", clause="count")]
    gross: Annotated[Floats, procedure("n_gross", "", "whole_pieces", clause="count")]
    pack: Annotated[Floats, given("n_pack", clause="product data")]
    packs: Annotated[Floats, procedure("n_packs", "", "whole_pieces", clause="count")]
    left_over: Annotated[Floats, formula("n_left", "", "packs * pack - gross", clause="count")]


def order(*, used: Floats, waste: Floats, counted: Bools, pack: Floats) -> Order:
    """Round every line up; every array is (n,).

    Procedure ``whole_pieces``: the next whole number, what rounding may have added left out; a line that isn't
    ``counted`` keeps its measure but for its packages.
    """
    with_waste = used * (1.0 + waste)
    gross = np.where(counted, whole(with_waste), with_waste)
    packs = whole(gross / pack)
    return Order(
        used=used,
        waste=waste,
        counted=counted,
        with_waste=with_waste,
        net=np.where(counted, whole(used), used),
        gross=gross,
        pack=pack,
        packs=packs,
        left_over=packs * pack - gross,
    )


def whole(parts: Floats) -> Floats:
    """The next whole number."""
    return np.ceil(parts - FORGIVEN - ROUNDING * parts) + 0.0
