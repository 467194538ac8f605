"""Why a point that is understood is not checked."""

from hangpoint.core.clauses import Clause
from hangpoint.core.vocabulary import fastener_refusals as fasteners
from hangpoint.core.vocabulary.words import Listed, say


class Refusal(Listed):
    """Why a point that is understood is not checked."""

    ALLOWABLE = say(
        "allowable-under-chapter-17",
        "Chapter 17 is strength design, and this product has no table of allowable loads in concrete. Ask for strength"
        " combinations.",
        "readings 0, 31",
    )
    NOT_FACTORED = say(
        "service-load-with-factored-combinations",
        "The request gives factored loads, but this point states a weight or a pipe, which are service loads."
        " Ask for strength combinations, or state factored forces.",
        "reading 0",
    )
    WEIGHT_NOT_PULLING = say(
        "weight-does-not-pull",
        "A weight or a pipe pulls straight out of a soffit only: it acts along a side face and presses on a top."
        " State the forces at the anchor instead: tension, and shear along the face.",
        "statics",
    )
    SHEAR_WITH_GAP = say(
        "shear-with-free-length",
        "The anchor has a free length between base and attachment and carries shear: it bends, and no method for that"
        " is built. Close the gap or fill it with a grout pad, or have the engineer check the bending.",
        "reading 38",
    )
    COMPRESSION = say(
        "compression-not-covered",
        "A load case pushes the anchor towards the base, and no method that is built covers that. State the plate"
        " that bears, if there is one on concrete, or have the engineer check it.",
        Clause("17.2", en="EN 1992-4 6.2.1", strength="reading 22", service="reading 22"),
    )
    FAMILY_BASIS = say(
        "table-only-family",
        "This family is tabulated by allowable loads only and can't be checked by chapter 17. Ask for allowable"
        " combinations of its service loads.",
        "17.1.5",
    )
    OTHER_CODE = say(
        "family-of-another-code",
        "The figures of this family are by European assessment, for en1992_4: chapter 17 can't be worked with them.",
        "17.1.2",
        instead="Take a family whose figures are for ACI 318-19.",
    )
    NOT_UPWARD = say(
        "not-qualified-upward",
        "This adhesive is not qualified for horizontal or upward installation.",
        "17.2.3",
        instead="Take one that is.",
    )
    CONCRETE_AGE = say(
        "concrete-too-young",
        "The concrete is younger than this adhesive anchor needs at installation. Wait, or take an anchor that needs"
        " no such age.",
        "17.2.2",
    )
    ADHESIVE_UNCONFIRMED = say(
        "adhesive-not-confirmed",
        "An adhesive anchor that holds tension that stays, overhead or sideways, needs its temperature range and the"
        " age of the concrete stated, f'_c of at least 2,500 psi (17 MPa), a certified installer and continuous"
        " inspection confirmed.",
        "reading 36",
    )
    NOT_OVERHEAD = say(
        "not-for-tension-overhead",
        "This family is not for tension overhead.",
        "reading 31",
        instead="Take a family that is qualified for it.",
    )
    NOT_QUALIFIED_CRACKED = say(
        "not-qualified-cracked",
        "This product is not qualified in cracked concrete, and the concrete is cracked. Take a product that is, or"
        " have the engineer show that the concrete stays uncracked.",
        "17.6.3.1",
    )
    NOT_QUALIFIED_UNCRACKED = say(
        "not-qualified-uncracked",
        "This product has no pullout strength in uncracked concrete.",
        "17.6.3.1",
        instead="Take one that has.",
    )
    PULLOUT_UNLIMITED = say(
        "pullout-unlimited-behind-bars",
        "Bars stand for breakout in tension, and the data of this product say only that breakout comes before pullout:"
        " without breakout nothing says when it is pulled out. State the base without these bars, or take a product"
        " whose pullout strength is in figures.",
        "17.5.2.1",
    )
    NOT_SEISMIC = say(
        "not-qualified-seismic",
        "In seismic design categories C to F a post-installed anchor must be qualified for earthquake, even for"
        " gravity alone; this product is not.",
        "17.10.3",
        instead="Take one that is.",
    )
    NOT_SEISMIC_SHEAR = say(
        "not-qualified-seismic-shear",
        "In seismic design categories C to F a post-installed anchor that is sheared needs its steel strength in shear"
        " by simulated seismic tests; this product has none. Take one that has, or brace the shear away.",
        "17.10.3",
    )
    SEISMIC_TENSION = say(
        "seismic-tension-option",
        "More than 20 % of the tension is earthquake in seismic design categories C to F: state which option of"
        " 17.10.5.3 is taken.",
        "17.10.5.1",
    )
    SEISMIC_SHEAR = say(
        "seismic-shear-option",
        "More than 20 % of the shear is earthquake in seismic design categories C to F: state which option of"
        " 17.10.6.3 is taken.",
        "17.10.6.1",
    )
    WRONG_BASE = say("base-not-allowed", "This family is not made for this base.", instead="Take one that is.")
    NO_LIGHTWEIGHT = say(
        "not-for-lightweight",
        "This product is not for lightweight concrete by its data.",
        "17.2.4",
        instead="Take one that is.",
    )
    DIAMETER = say(
        "diameter-beyond-scope",
        "d_a exceeds 4 in, the limit of the breakout equations. Take thinner anchors, or have the engineer check it.",
        "17.3.2",
    )
    NOT_SUSTAINED = say(
        "not-for-sustained-tension",
        "This product is not for tension that stays, by its data.",
        Clause("17.5.2.2", en="assessment of the product", strength="product data", service="product data"),
        instead="Take one that is.",
    )
    NEIGHBOURS = say(
        "too-many-neighbours",
        "The point is in a chain of neighbouring points with more than 64 anchors, or has as many neighbours: such a"
        " group is not checked. Name members by the parts that really hang together, or move points apart; coordinates"
        " of another unit than is meant bring points together too.",
        "reading 30",
    )
    BASE_STEEL = say(
        "base-of-steel",
        "The base is steel: loads and rod are computed, and the point counts; the clamp, bolt or weld on the steel and"
        " the member are for the engineer.",
        "reading 39",
    )
    BASE_WOOD = say(
        "base-of-wood",
        "The base is wood: loads and rod are computed, and the point counts; the screw or bolt in the wood and the"
        " member are for the engineer.",
        "reading 39",
    )
    BASE_UNKNOWN = say(
        "base-unknown",
        "What carries the anchor is not known. Ask what the soffit is: slab, filled deck, hollow-core plank, masonry,"
        " steel or wood.",
        "reading 39",
    )
    TOPPING_BOND = say(
        "topping-bond",
        "The anchor is in a topping, which holds by its bond to what is below. Ask the engineer whether that bond may"
        " carry tension, or anchor below the topping.",
        "reading 39",
    )
    POST_TENSIONED = say(
        "post-tensioned-not-scanned",
        "The member is post-tensioned, or nobody knows, and the place has not been scanned. Ask whether there are"
        " tendons and where, and have the place scanned before anything is drilled.",
        "reading 39",
    )
    NO_DECK_DATA = say(
        "no-deck-data",
        "This product has no tested strength in that flute of a filled deck; breakout by formula never stands in its"
        " place.",
        "reading 37",
        instead="Take a product that was tested there.",
    )
    DECK_FILL = say(
        "deck-fill-not-tested",
        "The strengths in a deck were tested in normalweight or sand-lightweight fill; all-lightweight fill is not"
        " covered. Have the engineer check it.",
        "reading 37",
    )
    NO_DECK_SHEAR = say(
        "no-deck-shear",
        "The anchor is sheared, and this product has no tested shear strength in that flute of a deck. Brace the shear"
        " away, or take a product that was tested for it.",
        "reading 37",
    )
    DECK_NOT_SEISMIC = say(
        "deck-not-seismic",
        "In seismic design categories C to F an anchor in a deck needs its strength there by simulated seismic tests,"
        " in shear too if it is sheared; this product has none.",
        "reading 37",
        instead="Take one that has.",
    )
    POOL_AIR = say(
        "pool-air",
        "In the air of an indoor pool zinc, hot-dip galvanising and grades 304 and 316 crack under load without"
        " warning: only a high-alloy grade proven there may carry load overhead or sideways.",
        "reading 40",
    )
    NO_MODE = say("no-mode-applies", "No failure mode could be checked against the load of this point.")
    TABLE_FACTORED = say(
        "allowable-with-factored-loads",
        "In this base the anchor goes by allowable service loads, which factored loads are never compared with. State"
        " service loads by nature.",
        "readings 0, 31",
    )
    NO_TABLE = say(
        "no-table-for-base",
        "The product has no table of allowable loads for these units, this material or this base.",
        "table of the product",
        instead="Take one that has.",
    )
    NO_TABLE_DIRECTION = say(
        "no-table-in-direction",
        "The anchor is loaded in a direction, tension or shear, that no table of the product has in this base.",
        "table of the product",
        instead="Take one that has.",
    )
    MORTAR_JOINT = say(
        "mortar-joint-not-tested",
        "The anchor is in a mortar joint, and no table of the product was tested there. Move it into a unit.",
        "table of the product",
    )
    LOCATION_NOT_TESTED = say(
        "location-not-tested",
        "No table of the product was tested in this place of the unit or plank, or the place is not known."
        " Find it out, move the anchor, or take a product that was tested there.",
        "table of the product",
    )
    TABLE_UNCRACKED = say(
        "table-for-uncracked-only",
        "The table of the product holds in uncracked concrete only, and the concrete is cracked. Have the engineer show"
        " that it stays uncracked, or take a product that is qualified for cracked concrete.",
        "reading 31",
    )
    PLATE_ON_TABLE_BASE = say(
        "plate-on-table-base",
        "A plate that bears on masonry or on a base that goes by tables is not built. State its support as free, or the"
        " load of each anchor as a point of its own.",
        "reading 22",
    )
    SPRINKLER_BY_TABLE = say(
        "sprinkler-rule-undecided",
        "The sprinkler standard asks a strength for five times the filled pipe and 250 lb, and this anchor has an"
        " allowable load only: half of the check is undecided.",
        "reading 29",
        instead="Take an anchor that has a strength in this base.",
    )
    EARTHQUAKE_NOT_IN_TABLE = say(
        "earthquake-not-in-table",
        "In seismic design categories C to F neither the tables of allowable loads nor the bolts in masonry that are"
        " built here cover earthquake. Anchor in concrete by a product that is qualified for it, or have the engineer"
        " check it.",
        "reading 5",
    )
    TABLE_ADHESIVE = say(
        "adhesive-by-table-not-confirmed",
        "An adhesive anchor that goes by a table and holds tension that stays, overhead or sideways, needs its"
        " temperature range stated, a certified installer and continuous inspection confirmed: a table of short tests"
        " says nothing of creep.",
        "reading 36",
    )
    NOT_IN_GROUT = say(
        "bolt-not-in-grout",
        "A cast-in bolt is set in grout; in a mortar joint and in the web of a unit there is none. Move it into a"
        " grouted cell. Bolts of 1/4 in in bed joints of 1/2 in and more, which the code allows, are not checked here.",
        "TMS 402 6.2.1, from memory",
    )
    NOT_GROUTED = say(
        "bolt-needs-grouted-masonry",
        "A cast-in bolt is set in grout: the units have to be grouted. Have the cells grouted, or take an anchor for"
        " hollow units.",
        "TMS 402 8.1.3",
    )
    EN_BASE = fasteners.EN_BASE
    EN_FAMILY = fasteners.EN_FAMILY
    EN_ALLOWABLE = fasteners.EN_ALLOWABLE
    EN_EARTHQUAKE = fasteners.EN_EARTHQUAKE
    EN_SEISMIC_OPTION = fasteners.EN_SEISMIC_OPTION
    EN_DUCTILE_FAILURE = fasteners.EN_DUCTILE_FAILURE
    EN_NOT_SEISMIC = fasteners.EN_NOT_SEISMIC
    EN_NOT_SEISMIC_SHEAR = fasteners.EN_NOT_SEISMIC_SHEAR
    EN_SPRINKLER = fasteners.EN_SPRINKLER
    EN_REINFORCEMENT = fasteners.EN_REINFORCEMENT
    EN_LEVER_ARM = fasteners.EN_LEVER_ARM
    EN_LEVER_ARM_SHAKEN = fasteners.EN_LEVER_ARM_SHAKEN
    EN_NOT_ASSESSED = fasteners.EN_NOT_ASSESSED
    EN_NOT_UPWARD = fasteners.EN_NOT_UPWARD
    EN_CONCRETE_AGE = fasteners.EN_CONCRETE_AGE
    EN_FIRE_LONG = fasteners.EN_FIRE_LONG
    EN_FIRE_BONDED = fasteners.EN_FIRE_BONDED
    EN_FIRE_UNCRACKED = fasteners.EN_FIRE_UNCRACKED
    EN_FIRE_STEEL = fasteners.EN_FIRE_STEEL
    EN_BOND_UNCONFIRMED = fasteners.EN_BOND_UNCONFIRMED
    EN_WEAK_CONCRETE = fasteners.EN_WEAK_CONCRETE
    EN_NO_SPLITTING_DATA = fasteners.EN_NO_SPLITTING_DATA
    EN_GROUP = fasteners.EN_GROUP
    EN_DIAMETER = fasteners.EN_DIAMETER
