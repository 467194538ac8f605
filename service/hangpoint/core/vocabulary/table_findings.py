"""Findings of tables of allowable loads and of bolts in masonry."""

from hangpoint.core.vocabulary.words import Severity, finding

MASONRY_EMBEDMENT = finding(
    "masonry-embedment-below-minimum",
    Severity.VIOLATION,
    "A bolt in masonry is embedded by four diameters and 2 in at least.",
    "TMS 402 6.2.6, from memory",
    "length",
)
MASONRY_EDGE = finding(
    "masonry-edge-below-minimum",
    Severity.VIOLATION,
    "An edge of the masonry or an open cell is nearer to a bolt than the least edge distance of the product, or than"
    " half of the bolt, 1/4 in of grout beside it and, in the top or the soffit of concrete units, their face shell (as"
    " stated, else 1-1/4 in, by ASTM C90, from memory).",
    "product data; TMS 402 6.2.1, from memory",
    "length",
)
MASONRY_SPACING = finding(
    "masonry-spacing-below-minimum",
    Severity.VIOLATION,
    "Two bolts are nearer to each other than the least spacing of the product, or with less than their diameter or"
    " 1 in clear between them.",
    "product data; TMS 402 6.2.1, from memory",
    "length",
)
MASONRY_THICKNESS = finding(
    "masonry-thickness-below-minimum",
    Severity.VIOLATION,
    "The end of the bolt is not in grout: behind its embedment there have to be its head (5/8 of its diameter, from"
    " memory), 1/4 in of grout and, in a side of concrete units, the far face shell (as stated, else 1-1/4 in, the"
    " shell of units of 8 in and more by ASTM C90, from memory).",
    "TMS 402 6.2.1, from memory",
    "length",
)
MASONRY_STRENGTH_LOW = finding(
    "masonry-strength-below-design",
    Severity.VIOLATION,
    "Strength design of masonry asks for an f'_m of 1,500 psi (10.34 MPa) at least.",
    "TMS 402 9.1.9.1, from memory",
    "stress",
)
MASONRY_STRENGTH_LIMITED = finding(
    "masonry-strength-limited",
    Severity.NOTE,
    "Strength design takes f'_m for no more than 4,000 psi (27.6 MPa) of concrete units and 6,000 psi (41.4 MPa) of"
    " clay units.",
    "TMS 402 9.1.9.1, from memory",
    "stress",
)
TABLE_EDGE = finding(
    "edge-below-table",
    Severity.VIOLATION,
    "An edge, or an open cell beside grouted ones, is nearer than the tests of the table.",
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
