"""The closed lists of words in an answer: each code with its sentence and, where there is one, its clause.

Clauses are of ACI 318-19 unless they say otherwise; "reading n" is a reading of the standard that this project
takes and documents. The lists are served by the API and a test wants every code documented.
"""

from enum import Enum

from hangpoint.core.vocabulary.as_built import AsBuiltAssumption, AsBuiltDeviation, AsBuiltField, AsBuiltUncompared
from hangpoint.core.vocabulary.assumptions import Assumption
from hangpoint.core.vocabulary.changes import ChangeAssumption, ChangeNotChecked
from hangpoint.core.vocabulary.findings import Finding
from hangpoint.core.vocabulary.fixtures import FixtureAssumption, FixtureFinding, FixtureNotChecked
from hangpoint.core.vocabulary.hanger_loads import LoadAssumption, LoadFinding, LoadNotChecked
from hangpoint.core.vocabulary.interview import Asked, Asking, IfSilent, Question
from hangpoint.core.vocabulary.load_map import LoadMapNote, StructureLoad
from hangpoint.core.vocabulary.modes import (
    BOLT_TENSION_MODES,
    EN_MODES,
    EN_SHEAR_MODES,
    EN_TENSION_MODES,
    MASONRY_MODES,
    MODE_TEXTS,
    SHEAR_MODES,
    TABLE_MODES,
    TENSION_MODES,
    Inapplicable,
    Mode,
)
from hangpoint.core.vocabulary.not_checked import NotChecked
from hangpoint.core.vocabulary.refusals import Refusal
from hangpoint.core.vocabulary.rfis import RfiQuestion
from hangpoint.core.vocabulary.selection import Change, Objective, Rejection, RejectionEntry, SelectionAssumption
from hangpoint.core.vocabulary.submittals import NotTested, SheetReason
from hangpoint.core.vocabulary.take_offs import LineKind, TakeOffAssumption, TakeOffNotCounted
from hangpoint.core.vocabulary.triage import Triage, TriageEntry
from hangpoint.core.vocabulary.words import (
    Entry,
    FindingEntry,
    Link,
    Nature,
    Severity,
    Status,
)

CAUTIONS = (
    "This answer is an aid, not a design: a licensed design professional and the local code decide.",
    "Verify every product with its current evaluation data and installation instructions.",
    "The product families of the built-in catalogue are invented; on invented data nothing may be built.",
    "An overhead anchor that fails can kill. Support, test and inspect accordingly.",
    (
        "Drilling makes silica dust and may hit reinforcement, tendons or live services: locate first, and follow the"
        " rules for dust and for powder-actuated tools."
    ),
)


def position(member: Enum) -> int:
    """Place of a code in its closed list; flags of assumptions are bits at this place."""
    return _POSITIONS[member]


_POSITIONS: dict[Enum, int] = {
    member: place
    for vocabulary in (
        *(Mode, Inapplicable, Assumption, NotChecked, Finding, Refusal),
        *(LoadAssumption, LoadNotChecked, LoadFinding, Triage, RfiQuestion),
        *(FixtureAssumption, FixtureNotChecked, FixtureFinding),
        *(Rejection, SelectionAssumption, Change),
    )
    for place, member in enumerate(vocabulary)
}

__all__ = [
    "BOLT_TENSION_MODES",
    "CAUTIONS",
    "EN_MODES",
    "EN_SHEAR_MODES",
    "EN_TENSION_MODES",
    "MASONRY_MODES",
    "MODE_TEXTS",
    "SHEAR_MODES",
    "TABLE_MODES",
    "TENSION_MODES",
    "AsBuiltAssumption",
    "AsBuiltDeviation",
    "AsBuiltField",
    "AsBuiltUncompared",
    "Asked",
    "Asking",
    "Assumption",
    "Change",
    "ChangeAssumption",
    "ChangeNotChecked",
    "Entry",
    "Finding",
    "FindingEntry",
    "FixtureAssumption",
    "FixtureFinding",
    "FixtureNotChecked",
    "IfSilent",
    "Inapplicable",
    "LineKind",
    "Link",
    "LoadAssumption",
    "LoadFinding",
    "LoadMapNote",
    "LoadNotChecked",
    "Mode",
    "Nature",
    "NotChecked",
    "NotTested",
    "Objective",
    "Question",
    "Refusal",
    "Rejection",
    "RejectionEntry",
    "RfiQuestion",
    "SelectionAssumption",
    "Severity",
    "SheetReason",
    "Status",
    "StructureLoad",
    "TakeOffAssumption",
    "TakeOffNotCounted",
    "Triage",
    "TriageEntry",
    "position",
]
