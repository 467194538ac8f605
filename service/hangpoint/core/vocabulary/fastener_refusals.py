"""Why a point that goes by EN 1992-4 is not checked; members of `refusals.Refusal`."""

from hangpoint.core.vocabulary.words import say

EN_BASE = say(
    "base-outside-en-1992-4",
    "EN 1992-4 covers normal-weight concrete: neither lightweight concrete, decks and hollow-core planks nor"
    " masonry. Ask for aci318_19, or have the engineer check it.",
    "EN 1992-4 1.2",
)
EN_FAMILY = say(
    "family-without-european-data",
    "The figures of this family are not by European assessment, so en1992_4 can't be checked with them.",
    "EN 1992-4 1.2",
    instead="Take a family of the basis en.",
)
EN_ALLOWABLE = say(
    "allowable-under-en-1992-4",
    "EN 1992-4 is design by partial factors. Ask for strength combinations.",
    "EN 1992-4 4.1",
)
EN_EARTHQUAKE = say(
    "earthquake-under-en-1992-4",
    "S_DS and seismic design categories are of American standards, whose loads don't go with EN 1992-4. Leave them"
    " out; where earthquake acts, state its design value A_Ed as a load of nature earthquake.",
    "EN 1992-4 9",
)
EN_SEISMIC_OPTION = say(
    "seismic-design-option",
    "An earthquake load is stated without the option of 9.2 that it is of. State seismic.design_option:"
    " capacity_design or elastic_design.",
    "EN 1992-4 9.2",
)
EN_DUCTILE_FAILURE = say(
    "ductile-failure-under-en-1992-4",
    "Design for ductile failure of the fastener isn't built: what it asks of stretch length, steel and category C2"
    " isn't checked. State a load of capacity design or of elastic design, or have the engineer check it.",
    "EN 1992-4 9.2",
)
EN_NOT_SEISMIC = say(
    "not-qualified-seismic-category",
    "Under earthquake a fastener needs resistances of the seismic performance category that is asked for, C2"
    " unless seismic.performance_category says C1; this one has none. So does one whose cones meet those of a"
    " fastener under earthquake.",
    "EN 1992-4 9.1, annex C",
    instead="Take one that is qualified.",
)
EN_NOT_SEISMIC_SHEAR = say(
    "not-qualified-seismic-category-shear",
    "The fastener is sheared under earthquake, and its data have no V0_Rk,s,eq of the category that is asked for."
    " Brace the shear away, or take one that has.",
    "EN 1992-4 annex C",
)
EN_SPRINKLER = say(
    "sprinkler-rule-under-en-1992-4",
    "The rule for sprinkler lines that is built, five times the filled weight and 250 lb, is of another standard."
    " State the load that your rule asks for as a force, or ask for aci318_19.",
    "reading 29",
)
EN_REINFORCEMENT = say(
    "supplementary-reinforcement-under-en-1992-4",
    "Reinforcement in place of the concrete isn't built for EN 1992-4. Leave it out to have the concrete checked"
    " without it, or have the engineer check it.",
    "EN 1992-4 7.2.1.9, 7.2.2.6",
)
EN_LEVER_ARM = say(
    "lever-arm-unstated",
    "The fastener is sheared with a lever arm: across a free length, through grout or under a plate that is free."
    " State how long it is: attachment.gap of the free length, attachment.grout_thickness of a pad, and"
    " attachment.thickness of the fixture. There is none where grout of 30 N/mm2 (attachment.grout_strength) is no"
    " thicker than half of the diameter.",
    "EN 1992-4 6.2.2.3",
)
EN_LEVER_ARM_SHAKEN = say(
    "lever-arm-under-earthquake",
    "The fastener is sheared with a lever arm under earthquake, which annex C doesn't cover. Have the fixture bear"
    " on the concrete, or have the engineer check it.",
    "EN 1992-4 annex C, from memory",
)
EN_NOT_ASSESSED = say(
    "not-assessed-in-state",
    "The data of this fastener have no resistance to pull-out, or of its bond, in this state of the concrete, cracked"
    " or uncracked.",
    "EN 1992-4 7.2.1.5, 7.2.1.6",
    instead="Take a fastener that is assessed there.",
)
EN_WEAK_CONCRETE = say(
    "concrete-below-assessment",
    "The figures of post-installed fasteners are for C20/25 and more: in weaker concrete they don't hold.",
    "EN 1992-4 7.2.1.5; assessments from memory",
    instead="Take a headed fastener, or have the engineer check it.",
)
EN_NO_SPLITTING_DATA = say(
    "no-splitting-data",
    "There is an edge, and the data of this fastener have no c_cr,sp, without which splitting can't be judged.",
    "EN 1992-4 7.2.1.7",
    instead="Take a fastener that has it, or state base.splitting_reinforcement where reinforcement in cracked"
    " concrete takes the splitting forces and keeps cracks to 0.3 mm.",
)
EN_GROUP = say(
    "fastener-group-beyond-scope",
    "EN 1992-4 covers groups of up to nine fasteners. Have the engineer check it.",
    "EN 1992-4 1.2",
)
EN_DIAMETER = say(
    "fastener-diameter-beyond-scope",
    "In shear EN 1992-4 covers fasteners of up to 60 mm. Have the engineer check it.",
    "EN 1992-4 7.2.2.5, from memory",
)
EN_NOT_UPWARD = say(
    "not-assessed-upward",
    "This bonded fastener is not assessed for installation sideways or upwards.",
    "assessment of the product",
    instead="Take one that is.",
)
EN_CONCRETE_AGE = say(
    "concrete-too-young-for-bond",
    "The concrete is younger than this bonded fastener needs at installation. Wait, or take a fastener that needs no"
    " such age.",
    "assessment of the product",
)
EN_BOND_UNCONFIRMED = say(
    "bond-not-confirmed",
    "A bonded fastener that holds tension that stays, overhead or sideways, needs its temperature range and the age of"
    " the concrete stated, a certified installer and continuous inspection confirmed.",
    "reading 36",
)
EN_FIRE_LONG = say(
    "fire-beyond-annex-d",
    "Annex D has resistances for fires of up to two hours (R120). Ask for two hours or less, or have the engineer check"
    " it.",
    "EN 1992-4 annex D, from memory",
)
EN_FIRE_BONDED = say(
    "bond-in-fire",
    "Annex D has no resistance of a bond in fire: it is that of the product's own assessment, which isn't read. So is"
    " a bonded fastener refused whose cones meet those of one in fire.",
    "EN 1992-4 annex D, from memory",
    instead="Take a mechanical or a headed fastener, or have the engineer check it.",
)
EN_FIRE_UNCRACKED = say(
    "uncracked-only-in-fire",
    "In fire the concrete cracks, and the data of this fastener have no resistance to pull-out in cracked concrete.",
    "EN 1992-4 annex D, from memory",
    instead="Take a fastener that is assessed there.",
)
EN_FIRE_STEEL = say(
    "steel-outside-annex-d",
    "Annex D has stresses of steel from a diameter of 6 mm and a depth of 30 mm on; this fastener is smaller.",
    "EN 1992-4 annex D, from memory",
    instead="Take a larger one, or have the engineer check it.",
)
