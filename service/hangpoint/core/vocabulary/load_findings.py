"""Findings of the loads themselves."""

from hangpoint.core.clauses import Clause
from hangpoint.core.vocabulary.words import Severity, finding

_LOAD = Clause("17.5.2", en="EN 1992-4 7.2", strength="statics", service="statics")

NO_LOAD = finding("no-load", Severity.CAUTION, "Nothing pulls on the anchor in any load case.", _LOAD, "force")
SPRINKLER_CERTIFICATION = finding(
    "sprinkler-calculated-route",
    Severity.NOTE,
    "The calculated route of the sprinkler standard needs certification by a professional engineer; otherwise the"
    " parts are to be listed.",
    "reading 29",
)
SPRINKLER_STRUCTURE = finding(
    "sprinkler-structure-load",
    Severity.NOTE,
    "Load on the structure by the sprinkler standard: 1 x water-filled pipe + 250 lb.",
    "reading 29",
    "force",
)
DEAD_RELIEVES_LIVE = finding(
    "dead-relieves-live",
    Severity.NOTE,
    "Dead load acts against live load here and relieves the anchor with its whole factor, because the combinations have"
    " less of it beside wind and earthquake only. Where it may be less than stated, ask again with the least of it that"
    " is sure, in strength design with 0.9 D among factored loads.",
    Clause("ACI 318-19 5.3.1", strength="ASCE 7 2.3", service="ASCE 7 2.4"),
)
EARTHQUAKE_PUSHES = finding(
    "earthquake-pushes",
    Severity.CAUTION,
    "Earthquake is checked as a pull. Acting the other way it pushes by more than what surely hangs there, by as much"
    " as this: a rod needs a stiffener or a brace that takes it, and no check of a push at the anchor is built.",
    "common practice",
    "force",
)
END_OF_RUN = finding(
    "end-of-run",
    Severity.NOTE,
    "The run has one span, so that this hanger is at its end and carries half of it. Where the pipe goes on beyond the"
    " hanger, state the spans of both sides, and 1 as the place of the hanger.",
    "statics",
)
