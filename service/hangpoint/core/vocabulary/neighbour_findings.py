"""What is seen of points that are near each other."""

from hangpoint.core.clauses import Clause
from hangpoint.core.vocabulary.words import Severity, finding

MIXED_GROUP = finding(
    "mixed-group",
    Severity.CAUTION,
    "A neighbouring anchor is of another family, or its h_ef differs by more than a tenth: the code doesn't cover"
    " such a mix. Each is checked alone, its area in tension cut at the boundary between the two.",
    "reading 30",
)
MIXED_AT_EDGE = finding(
    "mixed-group-at-edge",
    Severity.VIOLATION,
    "A neighbour of another family or depth may break out of the same edge in shear, or burst the same side face, and"
    " its load is not counted there.",
    Clause("Table 17.5.1.3.1; 17.6.4.2; reading 30", en="reading 30"),
)
NEIGHBOUR_NOT_COUNTED = finding(
    "neighbour-not-counted",
    Severity.CAUTION,
    "A neighbouring point is refused or not in balance: its load is not in this check.",
    "reading 30",
)
EDGES_DISAGREE = finding(
    "edges-disagree",
    Severity.CAUTION,
    "A neighbouring point states an edge of the member in another place, more than 1 in off: the nearer one is"
    " taken where it lies beyond the anchors. Measure it, or name another member.",
    "reading 30",
)
BASES_DISAGREE = finding(
    "bases-disagree",
    Severity.CAUTION,
    "A neighbouring point that shares the concrete states another thickness, strength, density, state or reinforcement"
    " of it, or another seismic design category: each is checked with its own. Correct them, or name the members.",
    "reading 30",
)
ALTERNATIVES_TOGETHER = finding(
    "alternatives-together",
    Severity.CAUTION,
    "Loads of one set of anchors that act one at a time are taken to act together, with those of a point that shares"
    " the concrete: the check is on the safe side. For the number itself ask with one of the alternatives at a time.",
    "reading 30",
)
BARS_OF_NEIGHBOURS = finding(
    "bars-of-neighbours",
    Severity.CAUTION,
    "A neighbouring point states anchor reinforcement too. Each is checked with all of its own, as if no bar of one"
    " stood for the other: bars that both count hold the sum of their loads. See that they are not the same.",
    "17.5.2.1",
)
LOADS_IN_PATTERN = finding(
    "loads-in-pattern",
    Severity.VIOLATION,
    "Contents and other loads that come and go may act at some of the points that share concrete and be absent at"
    " others; the modes have all of them at one time. In the worst pattern the point is used beyond its strength.",
    "reading 30",
    "ratio",
)
LOADS_IN_PATTERN_HOLDS = finding(
    "loads-in-pattern-holds",
    Severity.NOTE,
    "Contents and other loads that come and go may act at some of the points that share concrete and be absent at"
    " others; the modes have all of them at one time. In the worst pattern the point is used by as much as this.",
    "reading 30",
    "ratio",
)
LOADS_TOGETHER = finding(
    "loads-of-neighbours-together",
    Severity.CAUTION,
    "Not every pattern of contents and other loads that come and go is checked at the points that share concrete here:"
    " some of these loads are taken to come and go together, or a point can't be checked without them. Another pattern"
    " might be worse: state such load cases as given.",
    "reading 30",
)
LEVELS_DISAGREE = finding(
    "levels-disagree",
    Severity.CAUTION,
    "A neighbouring point of the same member names another level. A member is one piece of concrete, so they act"
    " together here: give the members of each level names of their own if they are not one.",
    "reading 30",
)
NEIGHBOUR_CASE_BORROWED = finding(
    "neighbour-case-borrowed",
    Severity.NOTE,
    "Points that share concrete don't all state load cases of the same names: in a case that one of them lacks it is"
    " taken with its largest tension.",
    "reading 30",
)
NEIGHBOUR_CASES_DIFFER = finding(
    "neighbour-cases-differ",
    Severity.VIOLATION,
    "Points that share concrete don't all state load cases of the same names, and one of them has in its cases other"
    " shear or other moments than in that of its largest tension: they are not combined with the load of the others."
    " State the same load cases for all of them.",
    "reading 30",
)
NEIGHBOUR_BELOW_SPACING = finding(
    "neighbour-below-minimum-spacing",
    Severity.VIOLATION,
    "An anchor of a neighbouring point is nearer than the least spacing of this anchor.",
    Clause(
        "17.9.2",
        en="EN 1992-4 7.2.1.7(1)",
        table="table of the product",
        strength="product data; TMS 402 6.2.1, from memory",
        service="product data; TMS 402 6.2.1, from memory",
    ),
    "length",
)
NEIGHBOUR_BOLTS = finding(
    "neighbouring-bolts-overlap",
    Severity.VIOLATION,
    "The projected area of a bolt or anchor of a neighbouring point overlaps that of this bolt, and what they share is"
    " not taken off: state bolts of one product as one layout, and keep other anchors farther away.",
    "TMS 402 6.2",
    "length",
)
EARTHQUAKE_OTHER_SENSE = finding(
    "earthquake-in-other-sense",
    Severity.VIOLATION,
    "Earthquake may act at this point in another sense beside those that share its concrete than the modes have it,"
    " which is the way of the largest shear. In the worst sense the point is used beyond its strength.",
    Clause("17.10", en="EN 1992-4 9"),
    "ratio",
)
EARTHQUAKE_OTHER_SENSE_HOLDS = finding(
    "earthquake-in-other-sense-holds",
    Severity.NOTE,
    "Earthquake may act at this point in another sense beside those that share its concrete than the modes have it,"
    " which is the way of the largest shear. In the worst sense the point is used by as much as this.",
    Clause("17.10", en="EN 1992-4 9"),
    "ratio",
)
EARTHQUAKE_SENSES_NOT_ALL = finding(
    "earthquake-senses-not-all",
    Severity.CAUTION,
    "More points that share concrete have an earthquake than are checked in every sense of it one beside another:"
    " of these some keep one sense among themselves, and another might be worse. Brace points that are farther apart,"
    " or let an engineer say which senses are possible.",
    Clause("17.10", en="EN 1992-4 9"),
)
