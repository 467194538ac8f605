"""What is seen while checking."""

from hangpoint.core.clauses import Clause
from hangpoint.core.vocabulary import fastener_findings as fasteners
from hangpoint.core.vocabulary import light_duty_findings as light_duty
from hangpoint.core.vocabulary import load_findings as load
from hangpoint.core.vocabulary import neighbour_findings as near
from hangpoint.core.vocabulary import opposed_findings as opposed
from hangpoint.core.vocabulary import plate_findings as plates
from hangpoint.core.vocabulary import surroundings_findings as surroundings
from hangpoint.core.vocabulary import table_findings as tables
from hangpoint.core.vocabulary.words import Listed, Severity
from hangpoint.core.vocabulary.words import finding as _find

_INSTRUCTIONS, _PRACTICE = "instructions of the product", "common practice"


class Finding(Listed):
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
        "h_ef exceeds the larger of 2/3 of the member and the member less 4 in (101.6 mm).",
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
    BAR_YIELD_LIMITED = _find(
        "bar-yield-limited",
        Severity.NOTE,
        "The yield strength of the anchor reinforcement counts to 80,000 psi (552 MPa).",
        "Table 20.2.2.4(a), from memory",
        "stress",
    )
    F_C_BELOW_QUALIFICATION = _find(
        "f-c-below-qualification",
        Severity.CAUTION,
        "The concrete is weaker than the 2,500 psi (17 MPa) that post-installed anchors are qualified for; a pullout"
        " strength in figures is reduced with it.",
        "reading 3",
        "stress",
    )
    F_C_BELOW_STRUCTURAL = surroundings.F_C_BELOW_STRUCTURAL
    F_C_UNUSUAL = _find(
        "f-c-unusual",
        Severity.CAUTION,
        "The strength of the concrete is beyond what is cast: look whether its unit is the one that was meant.",
        "common practice",
        "stress",
    )
    THICKNESS_UNUSUAL = _find(
        "thickness-unusual",
        Severity.CAUTION,
        "The member is thicker than most that are cast: look whether the unit is the one that was meant.",
        "common practice",
        "length",
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
    NO_LOAD = load.NO_LOAD
    EDGE_BELOW_CODE = _find(
        "edge-below-code",
        Severity.VIOLATION,
        "An edge is nearer than the code allows without tests of the product for less.",
        "17.9.2",
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
    SPACING_VAPOUR = _find(
        "spacing-rule-for-vapour",
        Severity.CAUTION,
        "The named spacing rule is for steam, gas or air in the pipe, and the pipe holds a liquid.",
        "named spacing rule",
    )
    SPACING_POINT_LOAD = _find(
        "spacing-rule-with-point-load",
        Severity.CAUTION,
        "The named spacing rule doesn't hold where there are concentrated loads, and the run has one.",
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
    SPRINKLER_CERTIFICATION = load.SPRINKLER_CERTIFICATION
    SPRINKLER_STRUCTURE = load.SPRINKLER_STRUCTURE
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
        Clause("17.1.3", en=_INSTRUCTIONS, strength=_INSTRUCTIONS, service=_INSTRUCTIONS),
    )
    ADHESIVE_EMBEDMENT = _find(
        "adhesive-embedment-range",
        Severity.VIOLATION,
        "An adhesive anchor needs 4 d_a <= h_ef <= 20 d_a.",
        "17.3.3",
        "length",
    )
    WELDED_STEEL_THIN = _find(
        "welded-steel-thin",
        Severity.NOTE,
        "The steel that the anchor is welded to is thinner than 3/8 in or d_a / 2, or its thickness is not stated: 7 is"
        " taken in V_b, not 8.",
        "17.7.2.2.2",
        "length",
    )
    WELDED_POST_INSTALLED = _find(
        "welded-not-cast-in",
        Severity.NOTE,
        "A post-installed anchor is welded to no attachment: what is stated of a weld is not taken.",
        Clause("17.7.2.2.2", en=_PRACTICE, strength=_PRACTICE, service=_PRACTICE),
    )
    WELDED_NEAR_CORNER = _find(
        "welded-near-corner",
        Severity.NOTE,
        "At a corner an edge is within 1.5 h_ef of the welded anchor, and no reinforcement of the corner is known: 7 is"
        " taken in V_b, not 8.",
        "17.7.2.2.2",
        "length",
    )
    SEISMIC_STEEL_NOT_GOVERNING = _find(
        "seismic-steel-not-governing",
        Severity.VIOLATION,
        "Ductile steel is to govern under earthquake: the nominal strength of the concrete must exceed 1.2 times that"
        " of the steel.",
        "17.10.5.3(a)",
        "force",
    )
    SEISMIC_STRETCH_LENGTH = _find(
        "seismic-stretch-length",
        Severity.VIOLATION,
        "Ductile steel that is to govern under earthquake needs a stated stretch length of at least 8 d_a.",
        "17.10.5.3(a)",
        "length",
    )
    SEISMIC_NOT_DUCTILE = _find(
        "seismic-not-ductile",
        Severity.VIOLATION,
        "Ductile steel is to govern under earthquake, and the steel of this anchor is brittle or not shown to be"
        " ductile.",
        "17.10.5.3(a)",
    )
    SEISMIC_STRENGTH_RATIO = _find(
        "seismic-strength-ratio",
        Severity.VIOLATION,
        "Threaded steel that is to govern under earthquake needs f_uta of at least 1.3 f_ya, unless its threaded"
        " portions are upset or it is threaded over its entire length.",
        "17.10.5.3(a)",
    )
    SEISMIC_BUCKLING = _find(
        "seismic-buckling",
        Severity.CAUTION,
        "Where the load reverses, ductile steel that is to govern must be kept from buckling: the engineer shows it.",
        "17.10.5.3(a)",
    )
    SEISMIC_ATTACHMENT_OPTION = _find(
        "seismic-attachment-option",
        Severity.CAUTION,
        "The engineer shows that the attachment yields at the force taken, or cannot bring more than it to the anchor.",
        "17.10.5.3(b), (c), 17.10.6.3(a), (b)",
    )
    SEISMIC_OVERSTRENGTH = _find(
        "seismic-overstrength",
        Severity.CAUTION,
        "The earthquake load stated must already hold the overstrength factor Omega_0: it is not multiplied here.",
        "17.10.5.3(d), 17.10.6.3(c)",
    )
    SPACING_BELOW_MINIMUM = _find(
        "spacing-below-minimum",
        Severity.VIOLATION,
        "Two anchors of the layout are nearer to each other than the least spacing of this anchor.",
        "17.9.2",
        "length",
    )
    SPACING_BELOW_CODE = _find(
        "spacing-below-code",
        Severity.VIOLATION,
        "Two anchors of the layout are nearer than the code's least spacing, and the product's smaller one does not"
        " rest on tests.",
        "17.9.2",
        "length",
    )
    NO_EQUILIBRIUM = _find(
        "no-equilibrium",
        Severity.VIOLATION,
        "The anchors, and the plate if it bears on the concrete, can't hold this load in balance: nothing was checked"
        " of them. Add anchors, or a plate that bears.",
        Clause("17.2.1", en="EN 1992-4 6.2.1", strength="statics", service="statics"),
    )
    ANCHOR_PUSHED = _find(
        "anchor-pushed",
        Severity.VIOLATION,
        "Without contact an anchor is pushed towards the base; no check for that is built, the engineer shows that it"
        " holds.",
        "reading 22",
        "force",
    )
    EARTHQUAKE_PUSHES = load.EARTHQUAKE_PUSHES
    PLATE_PRESSES = _find(
        "plate-presses-only",
        Severity.CAUTION,
        "The load presses the plate on the base and pulls at no anchor: of what it presses on only the bearing under"
        " the plate is looked at.",
        Clause("22.8", en="EN 1992-1-1 6.7, from memory"),
    )
    PLATE_BEARING = _find(
        "plate-bearing-exceeded",
        Severity.CAUTION,
        "At its pressed edge the plate bears on the concrete with more than 0.65 x 0.85 f'c. Concrete that yields there"
        " takes from the lever, and anchors are pulled by more than computed: enlarge the plate, or have the engineer"
        " show the bearing and the forces.",
        "17.2.1; 22.8.3.2, from memory",
        "stress",
    )
    PLATE_CRUSHES = _find(
        "plate-crushes-concrete",
        Severity.VIOLATION,
        "The plate is pressed on the concrete by more than all of it can bear, 0.65 x 0.85 f'c twice over its area"
        " where the support is wide on all sides.",
        "22.8.3.2, from memory",
        "force",
    )
    PLATE_THICKNESS_UNKNOWN = plates.PLATE_THICKNESS_UNKNOWN
    PLATE_BENDS = plates.PLATE_BENDS
    PIN_ALONE = light_duty.PIN_ALONE
    CEILING_ONLY = light_duty.CEILING_ONLY
    DEAD_RELIEVES_LIVE = load.DEAD_RELIEVES_LIVE
    MIXED_GROUP = near.MIXED_GROUP
    MIXED_AT_EDGE = near.MIXED_AT_EDGE
    NEIGHBOUR_NOT_COUNTED = near.NEIGHBOUR_NOT_COUNTED
    EDGES_DISAGREE = near.EDGES_DISAGREE
    BASES_DISAGREE = near.BASES_DISAGREE
    ALTERNATIVES_TOGETHER = near.ALTERNATIVES_TOGETHER
    BARS_OF_NEIGHBOURS = near.BARS_OF_NEIGHBOURS
    LOADS_IN_PATTERN = near.LOADS_IN_PATTERN
    LOADS_IN_PATTERN_HOLDS = near.LOADS_IN_PATTERN_HOLDS
    LOADS_TOGETHER = near.LOADS_TOGETHER
    LEVELS_DISAGREE = near.LEVELS_DISAGREE
    NEIGHBOUR_CASE_BORROWED = near.NEIGHBOUR_CASE_BORROWED
    NEIGHBOUR_CASES_DIFFER = near.NEIGHBOUR_CASES_DIFFER
    EARTHQUAKE_OTHER_SENSE = near.EARTHQUAKE_OTHER_SENSE
    EARTHQUAKE_OTHER_SENSE_HOLDS = near.EARTHQUAKE_OTHER_SENSE_HOLDS
    EARTHQUAKE_SENSES_NOT_ALL = near.EARTHQUAKE_SENSES_NOT_ALL
    NEIGHBOUR_BELOW_SPACING = near.NEIGHBOUR_BELOW_SPACING
    NEIGHBOUR_BOLTS = near.NEIGHBOUR_BOLTS
    FASTENER_EDGE = fasteners.FASTENER_EDGE
    FASTENER_SPACING = fasteners.FASTENER_SPACING
    FASTENER_THICKNESS = fasteners.FASTENER_THICKNESS
    FASTENER_EMBEDMENT = fasteners.FASTENER_EMBEDMENT
    FASTENER_STEEL = fasteners.FASTENER_STEEL
    FASTENER_F_CK = fasteners.FASTENER_F_CK
    FASTENER_ASSESSED_IN = fasteners.FASTENER_ASSESSED_IN
    FASTENER_ROW_SPACING = fasteners.FASTENER_ROW_SPACING
    FASTENER_GROUP_AT_EDGE = fasteners.FASTENER_GROUP_AT_EDGE
    FASTENER_PLATE_BEARING = fasteners.FASTENER_PLATE_BEARING
    FASTENER_PLATE_CRUSHES = fasteners.FASTENER_PLATE_CRUSHES
    FASTENER_HOLE_CLEARANCE = fasteners.FASTENER_HOLE_CLEARANCE
    FASTENER_GROUT = fasteners.FASTENER_GROUT
    FASTENER_C2_TAKEN = fasteners.FASTENER_C2_TAKEN
    FASTENER_CATEGORY_BY_TABLE = fasteners.FASTENER_CATEGORY_BY_TABLE
    FASTENER_CATEGORY_WEAK = fasteners.FASTENER_CATEGORY_WEAK
    FASTENER_VERY_LOW = fasteners.FASTENER_VERY_LOW
    FASTENER_ELASTIC_DESIGN = fasteners.FASTENER_ELASTIC_DESIGN
    FASTENER_CAPACITY_DESIGN = fasteners.FASTENER_CAPACITY_DESIGN
    FASTENER_SHAKEN_BESIDE = fasteners.FASTENER_SHAKEN_BESIDE
    FASTENER_CRACKED_BY_EARTHQUAKE = fasteners.FASTENER_CRACKED_BY_EARTHQUAKE
    FASTENER_DISPLACEMENT = fasteners.FASTENER_DISPLACEMENT
    FASTENER_FIRE = fasteners.FASTENER_FIRE
    FASTENER_FIRE_BESIDE = fasteners.FASTENER_FIRE_BESIDE
    FASTENER_FIRE_CLASS = fasteners.FASTENER_FIRE_CLASS
    FASTENER_FIRE_EDGE = fasteners.FASTENER_FIRE_EDGE
    FASTENER_FIRE_CARBON = fasteners.FASTENER_FIRE_CARBON
    FASTENER_FIRE_PULL_OUT = fasteners.FASTENER_FIRE_PULL_OUT
    MASONRY_EMBEDMENT = tables.MASONRY_EMBEDMENT
    MASONRY_EDGE = tables.MASONRY_EDGE
    MASONRY_SPACING = tables.MASONRY_SPACING
    MASONRY_THICKNESS = tables.MASONRY_THICKNESS
    MASONRY_STRENGTH_LOW = tables.MASONRY_STRENGTH_LOW
    MASONRY_STRENGTH_LIMITED = tables.MASONRY_STRENGTH_LIMITED
    TABLE_EDGE = tables.TABLE_EDGE
    TABLE_SPACING = tables.TABLE_SPACING
    ONE_A_CELL = tables.ONE_A_CELL
    TABLE_THICKNESS = tables.TABLE_THICKNESS
    TABLE_FACE_SHELL = tables.TABLE_FACE_SHELL
    TABLE_STRENGTH = tables.TABLE_STRENGTH
    TABLE_JOINT = tables.TABLE_JOINT
    TABLE_COVER = tables.TABLE_COVER
    TABLE_STRAND = tables.TABLE_STRAND
    DECK_FLUTE_NARROW = surroundings.DECK_FLUTE_NARROW
    DECK_OFFSET = surroundings.DECK_OFFSET
    DECK_COVER = surroundings.DECK_COVER
    DECK_SHEET = surroundings.DECK_SHEET
    DECK_SHEET_UNKNOWN = surroundings.DECK_SHEET_UNKNOWN
    DECK_F_C_BELOW_TESTS = surroundings.DECK_F_C_BELOW_TESTS
    DRILLED_TO_TENDON = surroundings.DRILLED_TO_TENDON
    DRILLED_BEYOND_COVER = surroundings.DRILLED_BEYOND_COVER
    DRILLED_BEYOND_HALF = surroundings.DRILLED_BEYOND_HALF
    TENDONS_SCANNED = surroundings.TENDONS_SCANNED
    BEAM_SOFFIT = surroundings.BEAM_SOFFIT
    STRUCTURAL_LIMIT = surroundings.STRUCTURAL_LIMIT
    EXPOSURE_CORROSION = surroundings.EXPOSURE_CORROSION
    CHLORIDES_304 = surroundings.CHLORIDES_304
    FOOD_CARBON = surroundings.FOOD_CARBON
    MATERIAL_UNKNOWN = surroundings.MATERIAL_UNKNOWN
    GALVANIC_COUPLE = surroundings.GALVANIC_COUPLE
    DISSIMILAR_METALS = surroundings.DISSIMILAR_METALS
    ATTACHMENT_CORRODES = surroundings.ATTACHMENT_CORRODES
    HYDROGEN = surroundings.HYDROGEN
    VIBRATION = surroundings.VIBRATION
    FIRE_RATED = surroundings.FIRE_RATED
    NATURE_APART = opposed.NATURE_APART
    NATURE_APART_UNSOUND = opposed.NATURE_APART_UNSOUND
    NATURE_APART_HOLDS = opposed.NATURE_APART_HOLDS
    END_OF_RUN = load.END_OF_RUN
