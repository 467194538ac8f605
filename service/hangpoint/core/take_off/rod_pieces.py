"""The pieces of a rod that is longer than the stock: whole stock lengths, the rest, and a coupling at every joint.

Where the rest would be shorter than the shortest piece that is to be cut, it and the last stock length are halved
between them. Common practice, no source. Units: ft. Limits: a rod that the stock length holds is one piece; the thread
that a coupling takes up is not deducted.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, procedure, record

SAME = 1e-9
"""Share of a stock length below which a rest is the rounding of a conversion."""


@record
class RodPieces(Record):
    """One rod of an item in pieces: ``n_whole`` of the stock length and ``n_cut`` of the length ``l_cut``."""

    TITLE: ClassVar[str] = "Pieces of the rod"
    AXIS: ClassVar[Axis] = Axis.LOAD

    l_rod: Annotated[Floats, given("l_rod", "ft")]
    l_stock: Annotated[Floats, given("l_stock", "ft")]
    l_least: Annotated[Floats, given("l_least", "ft")]
    ratio: Annotated[Floats, formula("l_rod/l_stock", "", "l_rod / l_stock", clause="common practice")]
    full: Annotated[Floats, procedure("n_full", "", "whole_lengths", clause="common practice")]
    broken: Annotated[Bools, formula("rest left", "", "ratio - full > 0.000000001", clause="common practice")]
    rest: Annotated[
        Floats, formula("l_rest", "ft", "where(broken, l_rod - full * l_stock, 0)", clause="common practice")
    ]
    short: Annotated[
        Bools,
        formula(
            "rest too short",
            "",
            "where(full > 0, rest, l_least) < where(broken, l_least, 0)",
            clause="common practice",
        ),
    ]
    n_whole: Annotated[Floats, formula("n_whole", "", "where(short, full - 1, full)", clause="common practice")]
    n_cut: Annotated[Floats, formula("n_cut", "", "where(short, 2, where(broken, 1, 0))", clause="common practice")]
    l_cut: Annotated[
        Floats, formula("l_cut", "ft", "where(short, (l_stock + rest) / 2, rest)", clause="common practice")
    ]
    splices: Annotated[
        Floats, formula("n_splice", "", "where(l_rod > 0, n_whole + n_cut - 1, 0)", clause="common practice")
    ]


def rod_pieces(*, l_rod: Floats, l_stock: Floats, l_least: Floats) -> RodPieces:
    """Cut each rod into pieces; every array is (n,), in ft, ``l_rod`` 0 where there is no rod.

    Procedure ``whole_lengths``: how often the stock length goes into the rod, a rounding of `SAME` forgiven.
    """
    ratio = l_rod / l_stock
    full = np.floor(ratio + SAME)
    broken = ratio - full > SAME
    rest = np.where(broken, l_rod - full * l_stock, 0.0)
    short = np.where(full > 0, rest, l_least) < np.where(broken, l_least, 0.0)
    n_whole = np.where(short, full - 1, full)
    n_cut = np.where(short, 2.0, np.where(broken, 1.0, 0.0))
    return RodPieces(
        l_rod=l_rod,
        l_stock=l_stock,
        l_least=l_least,
        ratio=ratio,
        full=full,
        broken=broken,
        rest=rest,
        short=short,
        n_whole=n_whole,
        n_cut=n_cut,
        l_cut=np.where(short, (l_stock + rest) / 2, rest),
        splices=np.where(l_rod > 0, n_whole + n_cut - 1, 0.0),
    )
