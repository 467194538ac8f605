"""The closed lists of words in an answer: each code with its sentence and, where there is one, its clause.

Clauses are of ACI 318-19 unless they say otherwise; "reading n" is a reading of the standard that this project
takes and documents. The lists are served by the API and a test wants every code documented.
"""

from dataclasses import dataclass
from enum import Enum, StrEnum


class Status(StrEnum):
    """What became of one hang point."""

    PASSED = "passed"
    FAILED = "failed"
    REFUSED = "refused"
    INVALID = "invalid"


class Severity(StrEnum):
    """How much a finding weighs: a violation fails the point."""

    VIOLATION = "violation"
    CAUTION = "caution"
    NOTE = "note"


class Link(StrEnum):
    """The links of the chain from what hangs to the base, in the order in which the first largest governs."""

    LOAD = "load"
    ROD = "rod"
    ANCHOR = "anchor"
    BASE = "base"


class Nature(StrEnum):
    """Where a load comes from."""

    DEAD = "dead"
    CONTENTS = "contents"
    LIVE = "live"
    ROOF_LIVE = "roof_live"
    SNOW = "snow"
    WIND = "wind"
    EARTHQUAKE = "earthquake"
    TEST = "test"
    THERMAL = "thermal"
    SPRINKLER_RULE = "sprinkler_rule"


NATURES = tuple(Nature)
SUSTAINED_NATURES = frozenset({Nature.DEAD, Nature.CONTENTS})


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A code of a closed list, its sentence and its clause."""

    code: str
    text: str
    clause: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingEntry(Entry):
    """A finding also has a weight and says what its value and limit are (a quantity kind of the units table)."""

    severity: Severity
    quantity: str = ""


def _say(code: str, text: str, clause: str = "") -> Entry:
    return Entry(code=code, text=text, clause=clause)


class Mode(Enum):
    """What is checked, in the order in which the first largest utilisation governs."""

    ROD_ALLOWABLE = _say("rod_allowable", "threaded rod, allowable load against the service load", "named rod rule")
    ROD_STRENGTH = _say("rod_strength", "threaded rod, tensile strength", "named rod rule")
    STEEL_TENSION = _say("steel_tension", "steel of the anchor in tension", "17.6.1")
    PULLOUT = _say("pullout", "pullout of the anchor", "17.6.3")
    CONCRETE_BREAKOUT_TENSION = _say("concrete_breakout_tension", "concrete breakout in tension", "17.6.2")
    SIDE_FACE_BLOWOUT = _say("side_face_blowout", "side-face blowout of the concrete", "17.6.4")

    @property
    def link(self) -> Link:
        """The link of the chain that this mode belongs to."""
        return MODE_LINKS[self]


MODE_LINKS = {
    Mode.ROD_ALLOWABLE: Link.ROD,
    Mode.ROD_STRENGTH: Link.ROD,
    Mode.STEEL_TENSION: Link.ANCHOR,
    Mode.PULLOUT: Link.ANCHOR,
    Mode.CONCRETE_BREAKOUT_TENSION: Link.BASE,
    Mode.SIDE_FACE_BLOWOUT: Link.BASE,
}


class Inapplicable(Enum):
    """Why a mode does not apply to a point."""

    NO_ROD = _say("no-rod", "No rod is stated, so none is checked.")
    OTHER_ROD_RULE = _say("other-rod-rule", "The rod is checked by another rule.")
    FACTORED_LOADS = _say("factored-loads", "Only factored loads are stated; the rule needs the service load.")
    PULLOUT_NOT_GOVERNING = _say(
        "pullout-not-governing", "The product's data state that pullout does not govern in this concrete.", "17.6.3.1"
    )
    NO_SHALLOW_EDGE = _say(
        "no-shallow-edge", "No edge is nearer than 0.4 h_ef, so side-face blowout does not arise.", "17.6.4.1"
    )
    NOT_HEADED = _say("not-headed", "Side-face blowout is a failure of headed anchors only.", "17.6.4.1")
    NO_TENSION_CASE = _say("no-load-case", "No load case acts on this mode.")


class Assumption(Enum):
    """A default taken because the request is silent. Each that was taken is listed with the point."""

    DESIGN_CODE = _say("design-code-defaulted", "The design code is ACI 318-19, chapter 17.")
    COMBINATIONS = _say(
        "combinations-defaulted", "Loads are service loads by nature and are combined by the strength combinations."
    )
    CRACKED = _say("cracked-assumed", "The concrete is taken as cracked.", "reading 0")
    NO_SUPPLEMENTARY = _say(
        "no-supplementary-reinforcement-assumed", "No supplementary reinforcement is taken to be present.", "reading 0"
    )
    SUSTAINED = _say("sustained-assumed", "The whole factored load is taken as sustained.", "reading 0")
    NO_EARTHQUAKE = _say("no-earthquake-share-assumed", "No part of the factored load is taken as earthquake.")
    OVERHEAD = _say("overhead-assumed", "The anchor is taken to hang from a soffit.", "reading 0")
    F_C = _say("f-c-assumed", "The concrete's strength is taken as 2,500 psi (17.2 MPa).", "reading 0")
    LAMBDA = _say("lambda-by-density", "lambda follows from the density class.", "19.2.4")
    RUN_MODEL = _say(
        "larger-run-model",
        "The reaction of the run is the larger of the tributary and the continuous model.",
        "reading 33",
    )
    MEMBER_BY_LEVEL = _say(
        "member-by-level", "Points of one level are taken to be in one member.", "contracts of the request"
    )
    ROD_RULE = _say(
        "rod-rule-defaulted",
        "The rod is checked by the newer allowable of the hanger standard against the service load, on a sprinkler"
        " line by the size table of the sprinkler standard.",
        "reading 34",
    )
    ROD_MATERIAL = _say("rod-material-unknown", "The rod's grade is not stated: F_u is taken as 50 ksi.", "reading 34")
    CONTENTS_WATER = _say("contents-water-assumed", "A sprinkler line is taken as filled with water.", "reading 29")
    NO_INSULATION = _say("no-insulation-assumed", "The pipe is taken as bare.", "")
    NO_ALLOWANCE = _say("no-allowance-assumed", "No allowance for fittings and valves is added.", "")
    SINGLE_ANCHOR = _say("single-anchor-assumed", "The hang point has one anchor.", "")
    RUN_EQUAL_SPANS = _say("straight-run-assumed", "The run is straight, level and prismatic.", "reading 33")


class NotChecked(Enum):
    """What an answer leaves unchecked, said with every point it concerns."""

    ROD = _say("rod", "The rod: none is stated.")
    HARDWARE = _say(
        "hanger-hardware", "Clamp, clevis, coupling, nut and every other part between pipe and anchor.", "reading 34"
    )
    SPACING_RULE = _say("hanger-spacing", "The spacing of hangers: no rule is named.")
    NEIGHBOURS = _say("neighbours", "The effect of neighbouring hang points in the same member.", "reading 30")
    MEMBER = _say("member", "The strength of the slab, beam or wall that carries the anchor.")
    LOSS_OF_SUPPORT = _say("loss-of-a-neighbour", "The loss of a neighbouring hanger.", "reading 32")
    REINFORCEMENT = _say("reinforcement-and-tendons", "Reinforcement, tendons and services in the way.")
    ROD_SERVICE_LOAD = _say("service-rod-load", "The rod against the service load: only factored loads are stated.")
    LISTING = _say(
        "listing", "Whether the hanger is listed, or its design certified by a professional engineer.", "reading 29"
    )
    FIRE = _say("fire-and-fatigue", "Fire, fatigue, impact and corrosion.", "17.1.4")


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
        "The concrete is weaker than that of the product's qualification; its pullout strength is reduced with it.",
        "reading 3",
        "stress",
    )
    UNCRACKED_IN_SEISMIC = _find(
        "uncracked-in-seismic",
        Severity.CAUTION,
        "In seismic design categories C to F concrete is cracked unless it is shown otherwise.",
        "17.10.3",
    )
    NO_LOAD = _find("no-load", Severity.CAUTION, "Nothing pulls on the anchor in any load case.", "17.5.2", "force")
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


class Refusal(Enum):
    """Why a point that is understood is not checked."""

    DESIGN_CODE = _say("design-code-not-built", "Only ACI 318-19 is built; this design code is not.")
    ALLOWABLE = _say(
        "allowable-under-chapter-17",
        "Allowable-load combinations go with allowable-load tables, which are not built; chapter 17 is strength"
        " design. Ask for strength combinations.",
        "reading 0",
    )
    NOT_FACTORED = _say(
        "service-load-with-factored-combinations",
        "The request gives factored loads, but this point states a weight or a pipe, which are service loads.",
        "reading 0",
    )
    NATURE = _say(
        "nature-not-covered",
        "A load nature beyond dead, contents and live: its combinations are not built. Give factored loads.",
    )
    SHEAR = _say("shear-not-built", "Shear on the anchor: its checks are not built.", "17.7")
    COMPRESSION = _say(
        "compression-not-covered",
        "A load case pushes the anchor towards the base; chapter 17 doesn't cover it.",
        "17.2",
    )
    GROUP = _say("group-not-built", "More than one anchor at a point: the checks of groups are not built.", "17.5.1.3")
    OFFSET = _say("anchor-off-axis", "The anchor is not where the load acts: the moment is not built.", "17.5.1")
    FAMILY_BASIS = _say(
        "table-only-family",
        "This family is tabulated by allowable loads only and can't be checked by chapter 17.",
        "17.1.5",
    )
    ADHESIVE = _say("adhesive-not-built", "Adhesive anchors: the bond checks are not built.", "17.6.5")
    NOT_OVERHEAD = _say(
        "not-for-tension-overhead",
        "This family is not for tension overhead. Take a family that is qualified for it.",
        "reading 31",
    )
    NOT_QUALIFIED_CRACKED = _say(
        "not-qualified-cracked",
        "This product is not qualified in cracked concrete, and the concrete is cracked. Take a product that is, or"
        " have the engineer show that the concrete stays uncracked.",
        "17.6.3.1",
    )
    NOT_QUALIFIED_UNCRACKED = _say(
        "not-qualified-uncracked", "This product has no pullout strength in uncracked concrete.", "17.6.3.1"
    )
    NOT_SEISMIC = _say(
        "not-qualified-seismic",
        "In seismic design categories C to F a post-installed anchor must be qualified for earthquake, even for"
        " gravity alone; this product is not.",
        "17.10.3",
    )
    SEISMIC_TENSION = _say(
        "seismic-tension-not-built",
        "More than 20 % of the tension is earthquake in seismic design categories C to F: those rules are not built.",
        "17.10.5",
    )
    WRONG_BASE = _say("base-not-allowed", "This family is not made for this base.")
    NO_LIGHTWEIGHT = _say("not-for-lightweight", "This product is not for lightweight concrete by its data.", "17.2.4")
    FACE = _say("face-not-built", "Anchors in the top of a member are not hangers; that check is not built.")
    DIAMETER = _say("diameter-beyond-scope", "d_a exceeds 4 in, the limit of the breakout equations.", "17.3.2")
    NO_MODE = _say("no-mode-applies", "No failure mode could be checked against the load of this point.")


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
    for vocabulary in (Mode, Inapplicable, Assumption, NotChecked, Finding, Refusal)
    for place, member in enumerate(vocabulary)
}
