"""Closed lists of the loads on hangers: defaults that were taken, what stays unchecked, what was seen."""

from enum import Enum

from hangpoint.core.vocabulary.assumptions import Assumption
from hangpoint.core.vocabulary.not_checked import NotChecked
from hangpoint.core.vocabulary.words import FindingEntry, Severity, say


class LoadAssumption(Enum):
    """A default taken because the request is silent, or how something was read; listed with the item."""

    LOAD_STANDARD = say("load-standard-defaulted", "Load combinations and component seismic forces are by ASCE 7-16.")
    LARGER_MODEL = say(
        "larger-model",
        "Each hanger takes the largest of the models of the run: tributary, hinged at every hanger and continuous.",
        "reading 33",
    )
    RODS_OF_BAR = say(
        "bar-by-statics",
        "Rods of a bar take the larger of the hinged and the continuous beam; two rods what statics says.",
        "statics",
    )
    LINES_ALL_HANG = say(
        "lines-all-hang",
        "All lines and dead loads of the trapeze hang there at once. One outside the rods, or on another span of the"
        " bar, may relieve a rod: until it hangs, or once it is taken away, that rod has more, and with it alone the"
        " bar may tip.",
        "statics",
    )
    ONE_SPACING = say(
        "one-spacing",
        "Lines of a trapeze run on at the same spacing on both sides, and each brings one spacing of its weight; beside"
        " the end of a continuous line it would be up to 1.25 of it.",
        "reading 33",
    )
    LARGER_BODY = say(
        "larger-body-model",
        "Each rod of equipment takes the larger of equal springs and of any three rods that carry alone.",
        "common practice",
    )
    SHEAR_TOGETHER = say(
        "one-nature-together",
        "Of shears of one nature that are stated against each other at a hanger its numbers have the larger, and its"
        " hang point has both, each by itself. Those of earthquake act together.",
    )
    SAME_CENTRE = say(
        "empty-at-the-same-centre",
        "Empty equipment has its centre of gravity where it has it full: where it moves, state the empty body as an"
        " item of its own.",
        "statics",
    )
    STRAIGHT_RUN = say("straight-run-assumed", "Runs are straight, level and prismatic.", "reading 33")
    RISER_ONE = say("one-support-carries-the-riser", "One support of a riser carries all of it.", "common practice")
    NO_INSULATION = say("no-insulation-assumed", "The pipe or duct is taken as bare.")
    NO_SPRINKLER = say(
        "no-sprinkler-line-assumed",
        "A pipe of which nothing is said is no sprinkler line: neither its 250 lb nor five times its weight count.",
        "reading 29",
    )
    NO_ALLOWANCE = Assumption.NO_ALLOWANCE.value
    BARE_SHEET = say(
        "sheet-without-zinc",
        "Sheet that is stated by its thickness is weighed as bare steel, some 2 % lighter than by the gauge of"
        " galvanised sheet: name that, or add the zinc to the reinforcement.",
    )
    REINFORCEMENT = say(
        "duct-reinforcement-assumed",
        "A quarter of the sheet's weight is added for seams, joints and stiffeners.",
        "common practice",
    )
    CONTENTS_WATER = Assumption.CONTENTS_WATER.value
    PIPE_SHORT = Assumption.PIPE_SHORT.value
    EMPTY_UNTESTED = Assumption.EMPTY_UNTESTED.value
    CONTENTS_AS_DEAD = say("contents-factored-as-dead", "Contents have the factor of dead load.", "common practice")
    CABLES_BY_FILL = say(
        "cables-by-fill", "The weight of cables is that of copper conductors that fill the stated share of the bore."
    )
    POINT_LOAD_DEAD = Assumption.POINT_LOAD_DEAD.value
    MASS_BY_GRAVITY = Assumption.MASS_BY_GRAVITY.value
    NO_ERECTION = say("no-erection-load", "No person or erection load is added; 250 lb at sprinkler hangers only.")
    PLUMB = say("rods-plumb", "The rods are taken as plumb.")
    NO_ROD_WEIGHT = say("no-rod-weight", "The rods have no length stated: their own weight is in no load.")
    ROD_RULE = Assumption.ROD_RULE.value
    ROD_MATERIAL = Assumption.ROD_MATERIAL.value
    BAR_STEEL = say("bar-modulus-assumed", "The bar is taken as steel, E 29,000,000 psi (200 GPa).")
    BAR_RADIUS = say("bar-radius-assumed", "The corners of the strut have the wall's thickness as inner radius.")
    BAR_DEFLECTION = say("bar-deflection-limit-assumed", "A bar may sag by 1/240 of its span.", "common practice")
    NO_SPARE = say("no-spare-assumed", "No capacity of the trapeze is kept free.")
    ROD_AS_COLUMN = say(
        "rod-as-column",
        "A rod that a brace pushes is a straight column with pinned ends, of steel that yields at 30,000 psi.",
        "AISC 360 E3",
    )
    BUILDING_UNKNOWN = say(
        "building-unknown", "The building's period or seismic system is not stated: the unknown case of 7-22 is taken."
    )
    BUILDING_NOT_READ = say(
        "building-not-read", "The force is that of ASCE 7-16: the building's period and system, of 7-22, aren't in it."
    )
    COEFFICIENTS = say(
        "component-coefficients-from-memory",
        "The coefficients of the component are those of ASCE 7-16 table 13.6-1, from memory: verify them.",
        "ASCE 7-16 13.6",
    )
    COEFFICIENTS_LOW = say(
        "component-coefficients-below-tables",
        "A stated coefficient makes the force smaller than any of the tables: a_p or C_AR below 1, or R_p above 12,"
        " from memory. The standard has no a_p below 1, nor one below its table without a dynamic analysis.",
        "ASCE 7-16 table 13.6-1",
    )
    EVERY_HANGER_BRACED = say(
        "brace-at-any-hanger",
        "Which hanger has the brace is not known: its pull is added at every hanger of the item.",
        "reading 35",
    )
    BRACES_SHARE = say(
        "braces-share-equally",
        "Braces of equipment share its force equally: one that is nearer to the centre of gravity has more, by the"
        " lever between them.",
        "statics",
    )
    STATED_NOT_SHAKEN = say(
        "stated-weight-not-shaken",
        "Dead load and contents that are stated at a hanger are in no seismic weight: state them as point loads, lines"
        " or equipment.",
        "reading 35",
    )
    BRACE_ALONG_X = say(
        "brace-along-x-assumed",
        "The direction of the brace in plan is not known: its force is laid along x of the hang point of its anchor."
        " State the bearing of run or bar, or look at the edges along y too.",
        "reading 35",
    )
    BRACE_ACROSS = say(
        "brace-across-assumed", "The brace stands across the run: its direction is not stated.", "reading 35"
    )
    LEAN_ALONG_SHEAR = say(
        "lean-along-shear",
        "The lean of a rod is laid along what is stated as shear at its hanger in the load case of the largest shear,"
        " along x where none is.",
        "statics",
    )
    EARTHQUAKE_REVERSES = say("earthquake-reverses", "The seismic force acts either way.", "ASCE 7 13.3.1")
    WIND_AS_GIVEN = say("wind-as-given", "Wind acts as stated only: state the other way as another item.")
    THERMAL_STAYS = Assumption.THERMAL_STAYS.value
    SPRINKLER_SHARED = say(
        "shared-support-option-1",
        "On a trapeze with a sprinkler line, five times everything that hangs there and 250 lb count for the anchors.",
        "reading 29",
    )


class LoadNotChecked(Enum):
    """What the answer leaves unchecked, said with every item it concerns."""

    ANCHORS = say("anchors", "The anchors: send the hang points of this answer to be checked.")
    HARDWARE = say("hanger-hardware", "Clamps, clevises, couplings, nuts and beam clamps.", "reading 34")
    SPACING = NotChecked.SPACING_RULE.value
    LOSS_OF_HANGER = say("loss-of-a-hanger", "The loss of a hanger.", "reading 32")
    ROD = say("rod", "The rods: none is stated.")
    ROD_SPRINKLER_RULE = say(
        "rod-under-sprinkler-rule",
        "The rods under five times the weight and 250 lb, of which they have the weight once and 250 lb: the size table"
        " that stands for that check is for the hanger of one pipe.",
        "reading 29",
    )
    ROD_SIZE = NotChecked.ROD_SIZE.value
    BAR = say("trapeze-bar", "The strength of the bar: its section is not stated.")
    BAR_SPRINKLER_RULE = say(
        "bar-under-sprinkler-rule",
        "The bar under five times everything that hangs there and 250 lb, the rule for shared supports: it has the"
        " service loads, and the section modulus for its sprinkler lines alone.",
        "reading 29",
    )
    BAR_ERECTION = say("erection-load-on-bar", "The bar under the erection load: it is taken to hang at a rod.")
    EARTHQUAKE = say("earthquake", "Earthquake: nothing is stated of it.")
    BRACING = say("unbraced", "Bracing: no brace is stated, so no seismic force reaches a hanger.", "reading 35")
    ROD_BUCKLING = say(
        "rod-buckling", "Rods that a brace pushes, for buckling: no size or no length of them is stated.", "reading 35"
    )
    PUSHED_ANCHOR = say("push-at-the-anchor", "What a rod that a brace pushes does to hanger and anchor.", "reading 35")
    OTHER_DIRECTION = say(
        "other-direction-of-earthquake",
        "The seismic force at right angles to the brace: a brace holds one direction in plan, and an item states one.",
        "reading 35",
    )
    COUPLE = say(
        "couple-of-the-horizontal-force",
        "The couple of the seismic force about the level of the brace, where the centre of gravity is above or below"
        " it: it pulls some rods and pushes others.",
        "statics",
    )
    SPRINKLER_BRACE = say(
        "brace-by-sprinkler-standard",
        "The brace of a sprinkler line by the sprinkler standard's own rules, which count 1.15 times the filled pipe"
        " for fittings, from memory: its force here is that of ASCE 7 for the stated weight.",
        "NFPA 13, from memory",
    )
    LISTING = say(
        "listing", "Whether hangers are listed, or their design certified by a professional engineer.", "reading 29"
    )
    STRUCTURE = say("structure", "The slab, beam or wall that carries the hangers.")


def _find(code: str, severity: Severity, text: str, clause: str, quantity: str = "") -> FindingEntry:
    return FindingEntry(code=code, text=text, clause=clause, severity=severity, quantity=quantity)


class LoadFinding(Enum):
    """What is seen of an item or one of its hangers; a violation fails the item."""

    UPLIFT = _find(
        "hanger-uplift",
        Severity.VIOLATION,
        "A hanger would have to push to balance the load: a rod can't. Its reaction is negative.",
        "statics",
        "force",
    )
    PUSHED = _find(
        "hanger-pushed",
        Severity.VIOLATION,
        "What is stated at the hanger pushes it by more than what surely hangs there: a rod can't push.",
        "statics",
        "force",
    )
    NO_BALANCE = _find(
        "no-balance",
        Severity.VIOLATION,
        "The centre of gravity is outside the rods: no set of rods that only pull holds it, one would lift.",
        "statics",
    )
    RUN_LIFTS = _find(
        "run-lifts-off",
        Severity.CAUTION,
        "As a continuous run the line lifts off this hanger: others take more than the models say.",
        "reading 33",
        "force",
    )
    UNLOADED = _find("hanger-unloaded", Severity.NOTE, "A hanger takes no load.", "statics")
    BAR_STRESS = _find(
        "bar-overstressed", Severity.VIOLATION, "The bar exceeds its allowable stress.", "statics", "stress"
    )
    BAR_SAG = _find("bar-deflection", Severity.CAUTION, "The bar sags by more than its limit.", "named limit", "length")
    BAR_MODULUS = _find(
        "bar-below-sprinkler-modulus",
        Severity.VIOLATION,
        "The bar's section modulus is below what the sprinkler standard asks for 15 ft of filled pipe and 250 lb.",
        "reading 29",
        "section_modulus",
    )
    BAR_NOT_COVERED = _find(
        "bar-modulus-not-covered",
        Severity.CAUTION,
        "The sprinkler standard's section modulus is for lines between two rods: this bar is not compared with it.",
        "reading 29",
    )
    SPACING_EXCEEDED = _find(
        "spacing-exceeded",
        Severity.VIOLATION,
        "The distance between hangers exceeds the strictest of the named rules.",
        "named rule",
        "distance",
    )
    SPACING_NOT_COVERED = _find(
        "spacing-not-covered", Severity.CAUTION, "None of the named rules has a value for this line.", "named rule"
    )
    SPACING_RULE_LACKING = _find(
        "spacing-rule-without-value",
        Severity.CAUTION,
        "A named rule is for such lines but has no value for this one: the others were compared.",
        "named rule",
    )
    SPACING_VAPOUR = _find(
        "spacing-rule-for-vapour",
        Severity.CAUTION,
        "A named spacing rule is for steam, gas or air in the pipe, and the line holds a liquid.",
        "named rule",
    )
    SPACING_POINT_LOAD = _find(
        "spacing-rule-with-point-load",
        Severity.CAUTION,
        "A named spacing rule doesn't hold where there are concentrated loads, and the run has one.",
        "named rule",
    )
    OVERHANG = _find(
        "overhang-exceeded",
        Severity.CAUTION,
        "The line reaches further beyond its last hanger than the rule for its end allows.",
        "named rule",
        "distance",
    )
    ROD_OVERLOADED = _find(
        "rod-overloaded", Severity.VIOLATION, "The rod's load exceeds its rule.", "named rod rule", "force"
    )
    ROD_BELOW_SIZE = _find(
        "rod-below-size-table",
        Severity.VIOLATION,
        "The rod is thinner than the size table of the sprinkler standard asks for its pipe.",
        "reading 29",
        "length",
    )
    ROD_SIZE_NOT_COVERED = _find(
        "rod-size-not-covered",
        Severity.CAUTION,
        "The size table of sprinkler rods has no row for the pipe.",
        "reading 29",
    )
    FIRST_INTERIOR = _find(
        "first-interior-hanger",
        Severity.NOTE,
        "As a continuous run this hanger takes more than the spans beside it say.",
        "reading 33",
        "force",
    )
    SPRINKLER_STRUCTURE = _find(
        "sprinkler-structure-load",
        Severity.NOTE,
        "The structure carries the water-filled weight and 250 lb of a sprinkler hanger.",
        "reading 29",
        "force",
    )
    SHARED_SUPPORT = _find(
        "shared-sprinkler-support",
        Severity.NOTE,
        "A sprinkler line shares the trapeze: the anchors go by the rule for shared supports, the rods by their service"
        " load and the size table for the largest sprinkler pipe.",
        "reading 29",
    )
    EXEMPT_CLAIM = _find(
        "bracing-exemption",
        Severity.NOTE,
        "By the edition that the clause names an exemption from bracing may be claimed, never from gravity; the"
        " engineer looks at the edition in force and confirms it.",
        "ASCE 7 13.6",
    )
    ROD_PUSHED = _find(
        "rod-pushed-by-brace",
        Severity.CAUTION,
        "The brace pushes the rod by more than what surely hangs there: state size and length of the rod, and where it"
        " is stiffened its free length, to have it checked.",
        "reading 35",
        "force",
    )
    ROD_SLENDER = _find(
        "rod-buckles",
        Severity.VIOLATION,
        "The brace pushes the rod, whose free length is above that at which it holds as a column: stiffen it at shorter"
        " distances, or take a thicker one.",
        "AISC 360 E3",
        "length",
    )
    ROD_HOLDS_PUSH = _find(
        "rod-pushed",
        Severity.NOTE,
        "The brace pushes the rod by more than what surely hangs there. At its free length it holds as a column; the"
        " hanger and the anchor have to take the push too.",
        "AISC 360 E3",
        "length",
    )
    PUSHED_BY_EARTHQUAKE = _find(
        "rod-pushed-by-earthquake",
        Severity.CAUTION,
        "The stated earthquake load may push the rod by more than what surely hangs there: it needs a stiffener or a"
        " check.",
        "ASCE 7 13.3.1",
        "force",
    )
    UNBRACED = _find(
        "seismic-unbraced",
        Severity.CAUTION,
        "A seismic force is stated but no brace: nothing carries it.",
        "reading 35",
    )
