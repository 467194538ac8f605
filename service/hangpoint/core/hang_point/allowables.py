"""Bases and products that chapter 17 doesn't cover, as columns: one row a point. Units: in, psi, lbf.

Readings: points in masonry and hollow-core planks go by the tables of the product, with the allowable-stress
combinations of their service loads; so do points in concrete where the request asks for allowable loads. Cast-in bolts
in grouted masonry go by TMS 402.
"""

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.quantity import Bools, Codes, Floats

CHAPTER_17, TABLE, MASONRY_BOLT, FASTENER = 0, 1, 2, 3
"""Methods that a point is checked by; the last is that of EN 1992-4."""

MET, WRONG_BASE, NO_TABLE, NOT_BY_TABLE, AT_JOINT, ELSEWHERE, CRACKED, LIGHTWEIGHT, NOT_IN_UNITS = range(9)
"""Why a point that goes by a table has none: the family isn't for the base, has no table for its units, in concrete
goes by chapter 17 only, stands in a mortar joint or in a place without tests, in cracked or in lightweight concrete;
cast-in bolts stand in units that aren't grouted."""


LOCATIONS = ("face", "cell", "web", "joint", "core", "unknown")
"""Places in a unit of masonry or in a plank, by code."""

F_M_ASSUMED = 1500.0
"""psi, f'm where the request states none."""


@frozen
class TableData(Columns):
    """The rows of a product's tables in one place; ``unmet``: why it has none there.

    Columns of both directions are (rows, 2), tension and shear; ``mean_ultimate`` is 0 without a table, and a limit is
    0 where the table states none.
    """

    unmet: Codes
    mean_ultimate: Floats
    safety_factor: Floats
    f_ref: Floats
    strength_exponent: Floats
    f_least: Floats
    c_least: Floats
    c_full: Floats
    slope_c: Floats
    s_least: Floats
    s_full: Floats
    slope_s: Floats
    h_least: Floats
    shell_least: Floats
    joint_least: Floats
    cover_least: Floats
    strand_least: Floats
    one_a_cell: Bools
    power: Bools


@frozen
class Allowables(TableData):
    """What a point is checked by, and the rows of its product's tables.

    ``units``, ``material`` and ``location`` are codes of the words of the request, -1 where it is
    silent. ``f_base`` is f'c or f'm; ``joint``, ``cover``, ``strand`` and ``face_shell`` (points,) are distances and
    thicknesses as stated, infinite where none matters. Of a point whose product is still to be chosen f'm and distances
    that are not stated are not numbers, since only the product says whether they are needed.

    ``open_cells`` (points, 4) are those beside grouted ones, from the origin of the layout, infinite without any.
    ``older``: bolts in masonry by TMS 402-13 in place of 402-16. ``by_strength``: bolts by strength design.
    """

    method: Codes
    units: Codes
    material: Codes
    location: Codes
    f_base: Floats
    joint: Floats
    cover: Floats
    strand: Floats
    face_shell: Floats
    open_cells: Floats
    older: Bools
    by_strength: Bools
