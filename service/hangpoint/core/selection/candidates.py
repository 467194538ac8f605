"""What a choice reads of each product beside its strengths, and what the request wishes. Units: in, minutes."""

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowables import TableData
from hangpoint.core.hang_point.fasteners import FastenerData
from hangpoint.core.hang_point.points import Bonds, Columns, Products
from hangpoint.core.hang_point.surroundings import DeckTests
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary.selection import Objective

NO_TOOL = -1
DRY, DAMP, OUTDOOR = 0, 1, 2
"""Exposures, the harder the higher."""


@frozen
class Candidates(Columns):
    """Products on offer, one row each.

    ``family`` codes the families; ``cost_index`` and ``minutes`` are of one anchor, infinite where the data state none.
    ``hole_diameter`` and ``hole_depth`` are 0 without a drilled hole. ``tool`` codes the setting tool, `NO_TOOL`
    without one. ``thread_d`` is the nominal thread for a rod, 0 without one; ``h_ef`` and ``d_a`` as in `Products`.
    """

    family: Index
    cost_index: Floats
    minutes: Floats
    hole_diameter: Floats
    hole_depth: Floats
    h_ef: Floats
    d_a: Floats
    thread_d: Floats
    cast_in: Bools
    flush: Bools
    internally_threaded: Bools
    removable: Bools
    training: Bools
    holds_again: Bools
    tool: Index
    exposure: Codes


@frozen
class Offer:
    """Strengths of the candidates in every condition that the points state: of the hole, and of the place.

    Row ``condition * count + candidate`` of all columns. ``fits`` is False where the data of an adhesive don't have the
    condition. ``tables`` has no rows of a ``bolt``, which is cast into grouted masonry and goes by formula there.
    """

    count: int
    products: Products
    bonds: Bonds
    decks: DeckTests
    tables: TableData
    fasteners: FastenerData
    bolt: Bools
    fits: Bools
    steel: Codes
    coating: Codes
    follow_up: Bools
    drilled: Floats


@frozen
class Wishes:
    """What the request wants of a product; None and infinite where it wants nothing.

    ``stocked`` (families,) and ``tools`` (setting tools,) are at hand. ``flush`` True wants no projection, False a
    stud. ``hole_share`` is of the thickness of the member.
    """

    objective: Objective
    reserve: float
    stocked: Bools
    tools: Bools
    post_installed: bool | None = None
    match_thread: bool = False
    removable: bool = False
    flush: bool | None = None
    internally_threaded: bool | None = None
    trained: bool = False
    exposure: int = DRY
    vibration: bool = False
    deepest_hole: float = float("inf")
    hole_share: float = float("inf")
