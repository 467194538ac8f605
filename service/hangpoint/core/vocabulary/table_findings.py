"""Findings of tables of allowable loads and of bolts in masonry."""

from hangpoint.core.vocabulary.words import Severity, finding

MASONRY_EMBEDMENT = finding(
    "masonry-embedment-below-minimum",
    Severity.VIOLATION,
    "A bolt in masonry is embedded by four diameters and 2 in at least.",
    "TMS 402 6.2.6, from memory",
    "length",
)
TABLE_EDGE = finding(
    "edge-below-table",
    Severity.VIOLATION,
    "An edge is nearer than the tests of the table.",
    "table of the product",
    "length",
)
TABLE_SPACING = finding(
    "spacing-below-table",
    Severity.VIOLATION,
    "Two anchors are nearer to each other than the tests of the table.",
    "table of the product",
    "length",
)
ONE_A_CELL = finding(
    "more-than-one-a-cell",
    Severity.VIOLATION,
    "The table allows one anchor a cell: two are nearer than the width of a cell.",
    "table of the product",
    "length",
)
TABLE_THICKNESS = finding(
    "thickness-below-table",
    Severity.VIOLATION,
    "The member is thinner than that of the tests.",
    "table of the product",
    "length",
)
TABLE_FACE_SHELL = finding(
    "face-shell-below-table",
    Severity.VIOLATION,
    "The face shell of the unit is thinner than that of the tests.",
    "table of the product",
    "length",
)
TABLE_STRENGTH = finding(
    "strength-below-table",
    Severity.VIOLATION,
    "The base is weaker than the table covers.",
    "table of the product",
    "stress",
)
TABLE_JOINT = finding(
    "joint-below-table",
    Severity.VIOLATION,
    "A mortar joint is nearer than in the tests of the table.",
    "table of the product",
    "length",
)
TABLE_COVER = finding(
    "cover-below-table",
    Severity.VIOLATION,
    "The concrete below or beside the core of the plank is thinner than in the tests of the table.",
    "table of the product",
    "length",
)
TABLE_STRAND = finding(
    "strand-below-table",
    Severity.VIOLATION,
    "A strand of the plank is nearer than the table allows.",
    "table of the product",
    "length",
)
