"""What is checked, in the order in which the first largest utilisation governs, and why a mode may not apply."""

from enum import Enum

from hangpoint.core.vocabulary.words import Link, say


class Mode(Enum):
    """What is checked, in the order in which the first largest utilisation governs."""

    ROD_ALLOWABLE = say("rod_allowable", "threaded rod, allowable load against the service load", "named rod rule")
    ROD_STRENGTH = say("rod_strength", "threaded rod, tensile strength", "named rod rule")
    STEEL_TENSION = say("steel_tension", "steel of the anchor in tension", "17.6.1")
    PULLOUT = say("pullout", "pullout of the anchor", "17.6.3")
    CONCRETE_BREAKOUT_TENSION = say("concrete_breakout_tension", "concrete breakout in tension", "17.6.2")
    SIDE_FACE_BLOWOUT = say("side_face_blowout", "side-face blowout of the concrete", "17.6.4")

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

    NO_ROD = say("no-rod", "No rod is stated, so none is checked.")
    OTHER_ROD_RULE = say("other-rod-rule", "The rod is checked by another rule.")
    FACTORED_LOADS = say("factored-loads", "Only factored loads are stated; the rule needs the service load.")
    PULLOUT_NOT_GOVERNING = say(
        "pullout-not-governing", "The product's data state that pullout does not govern in this concrete.", "17.6.3.1"
    )
    NO_SHALLOW_EDGE = say(
        "no-shallow-edge", "No edge is nearer than 0.4 h_ef, so side-face blowout does not arise.", "17.6.4.1"
    )
    NOT_HEADED = say("not-headed", "Side-face blowout is a failure of headed anchors only.", "17.6.4.1")
    PUSHED = say("rod-in-compression", "The load pushes on the rod; its rules are for tension.")
