"""What is seen while checking."""

from enum import Enum

from hangpoint.core.vocabulary.words import FindingEntry, Severity


def _find(code: str, severity: Severity, text: str, clause: str, quantity: str = "") -> FindingEntry:
    return FindingEntry(code=code, text=text, clause=clause, severity=severity, quantity=quantity)


class Finding(Enum):
    """Something seen while checking; a violation fails the point."""

    EDGE_BELOW_MINIMUM = _find(
        "edge-below-minimum",
        Severity.VIOLATION,
        "An edge is nearer than the least edge distance of this anchor.",
        "17.9.2",
        "length",
    )
    THICKNESS_BELOW_MINIMUM = _find(
        "thickness-below-minimum",
        Severity.VIOLATION,
        "The member is thinner than the least thickness of this anchor.",
        "17.9.4",
        "length",
    )
    EMBEDMENT_TOO_DEEP = _find(
        "embedment-too-deep",
        Severity.VIOLATION,
        "h_ef exceeds the larger of 2/3 of the member and the member less 4 in.",
        "17.9.4",
        "length",
    )
    SCREW_EMBEDMENT = _find(
        "screw-embedment-range",
        Severity.VIOLATION,
        "A screw anchor needs 5 d_a <= h_ef <= 10 d_a and h_ef of at least 1.5 in.",
        "17.3.4",
        "length",
    )
    HOOK_LENGTH = _find(
        "hook-length-range", Severity.VIOLATION, "A hook needs 3 d_a <= e_h <= 4.5 d_a.", "17.6.3.2.2", "length"
    )
    F_C_LIMITED = _find(
        "f-c-limited", Severity.NOTE, "The strength of the concrete used is limited by the code.", "17.3.1", "stress"
    )
    F_C_BELOW_QUALIFICATION = _find(
        "f-c-below-qualification",
        Severity.CAUTION,
        "The concrete is weaker than the 2,500 psi that post-installed anchors are qualified for; a pullout strength in"
        " figures is reduced with it.",
        "reading 3",
        "stress",
    )
    F_C_BELOW_STRUCTURAL = _find(
        "f-c-below-structural",
        Severity.CAUTION,
        "The concrete is weaker than 2,500 psi, the least of structural concrete.",
        "19.2.1.1, from memory",
        "stress",
    )
    RUN_UPLIFT = _find(
        "run-uplift",
        Severity.CAUTION,
        "As a continuous beam the run lifts off this hanger; the reaction of the tributary model is taken.",
        "reading 33",
        "force",
    )
    UNCRACKED_IN_SEISMIC = _find(
        "uncracked-in-seismic",
        Severity.CAUTION,
        "In seismic design categories C to F concrete is cracked unless it is shown otherwise.",
        "17.10.3",
    )
    NO_LOAD = _find("no-load", Severity.CAUTION, "Nothing pulls on the anchor in any load case.", "17.5.2", "force")
    EDGE_BELOW_CODE = _find(
        "edge-below-code",
        Severity.VIOLATION,
        "An edge is nearer than the code allows without tests of the product for less.",
        "17.9.2(b)",
        "length",
    )
    SPACING_EXCEEDED = _find(
        "hanger-spacing-exceeded",
        Severity.VIOLATION,
        "A span beside this hanger is longer than the named spacing rule allows.",
        "named spacing rule",
        "distance",
    )
    SPACING_NOT_COVERED = _find(
        "hanger-spacing-not-covered",
        Severity.CAUTION,
        "The named spacing rule has no value for this pipe.",
        "named spacing rule",
    )
    ROD_BELOW_SIZE_TABLE = _find(
        "rod-below-size-table",
        Severity.VIOLATION,
        "The rod is thinner than the size table of the sprinkler standard asks for this pipe.",
        "named rod rule",
        "length",
    )
    ROD_SIZE_NOT_COVERED = _find(
        "rod-size-not-covered",
        Severity.VIOLATION,
        "The rod size table of the sprinkler standard has no row for this pipe; a design by an engineer is needed.",
        "named rod rule",
    )
    ROD_THREAD = _find(
        "rod-thread-mismatch",
        Severity.VIOLATION,
        "The rod's thread does not fit the internal thread of the anchor.",
        "common practice",
        "length",
    )
    SPRINKLER_CERTIFICATION = _find(
        "sprinkler-calculated-route",
        Severity.NOTE,
        "The calculated route of the sprinkler standard needs certification by a professional engineer; otherwise the"
        " parts are to be listed.",
        "reading 29",
    )
    SPRINKLER_STRUCTURE = _find(
        "sprinkler-structure-load",
        Severity.NOTE,
        "Load on the structure by the sprinkler standard: 1 x water-filled pipe + 250 lb.",
        "reading 29",
        "force",
    )
    SUPPLIED_WITHOUT_SOURCE = _find(
        "supplied-without-source",
        Severity.VIOLATION,
        "Product data are supplied without naming their document and its date.",
        "reading 43",
    )
    NOT_FOR_REUSE = _find(
        "not-for-reuse",
        Severity.NOTE,
        "This anchor can be taken out but must not be set again.",
        "17.1.3",
    )
