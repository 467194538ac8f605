"""What is checked, in the order in which the first largest utilisation governs, and why a mode may not apply."""

from hangpoint.core.clauses import BOLT_STRENGTH as _BOLT
from hangpoint.core.vocabulary.words import Link, Listed, say


class Mode(Listed):
    """What is checked, in the order in which the first largest utilisation governs."""

    ROD_ALLOWABLE = say("rod_allowable", "threaded rod, allowable load against the service load", "named rod rule")
    ROD_STRENGTH = say("rod_strength", "threaded rod, tensile strength", "named rod rule")
    STEEL_TENSION = say("steel_tension", "steel of the anchor in tension", "17.6.1")
    PULLOUT = say("pullout", "pullout of the anchor", "17.6.3")
    ADHESIVE_BOND = say("adhesive_bond", "bond of the adhesive anchor", "17.6.5")
    SUSTAINED_BOND = say("sustained_bond", "bond of the adhesive anchor under sustained tension", "17.5.2.2")
    STEEL_SHEAR = say("steel_shear", "steel of the anchor in shear", "17.7.1")
    CONCRETE_BREAKOUT_TENSION = say("concrete_breakout_tension", "concrete breakout in tension", "17.6.2")
    SIDE_FACE_BLOWOUT = say("side_face_blowout", "side-face blowout of the concrete", "17.6.4")
    REINFORCEMENT_TENSION = say("anchor_reinforcement_tension", "anchor reinforcement in tension", "17.5.2.1")
    CONCRETE_BREAKOUT_SHEAR = say("concrete_breakout_shear", "concrete breakout in shear", "17.7.2")
    PRYOUT = say("pryout", "pryout of the concrete", "17.7.3")
    REINFORCEMENT_SHEAR = say("anchor_reinforcement_shear", "anchor reinforcement in shear", "17.5.2.1")
    INTERACTION = say("tension_shear_interaction", "tension and shear together", "17.8")
    TABLE_TENSION = say("table_tension", "allowable tension by the table of the product", "table of the product")
    TABLE_SHEAR = say("table_shear", "allowable shear by the table of the product", "table of the product")
    TABLE_INTERACTION = say(
        "table_interaction", "allowable tension and shear together by the table of the product", "table of the product"
    )
    MASONRY_STEEL_TENSION = say("masonry_steel_tension", "steel of the bolt in masonry in tension", _BOLT)
    MASONRY_PULLOUT = say("masonry_pullout", "pullout of the bent-bar bolt from masonry", _BOLT)
    MASONRY_BREAKOUT_TENSION = say("masonry_breakout_tension", "masonry breakout in tension", _BOLT)
    MASONRY_STEEL_SHEAR = say("masonry_steel_shear", "steel of the bolt in masonry in shear", _BOLT)
    MASONRY_BREAKOUT_SHEAR = say("masonry_breakout_shear", "masonry breakout in shear", _BOLT)
    MASONRY_CRUSHING = say("masonry_crushing", "masonry crushing in shear", _BOLT)
    MASONRY_PRYOUT = say("masonry_pryout", "pryout of the masonry", _BOLT)
    MASONRY_INTERACTION = say("masonry_interaction", "tension and shear of the bolt in masonry together", _BOLT)

    EN_STEEL_TENSION = say("en_steel_tension", "steel failure of the fastener in tension", "EN 1992-4 7.2.1.3")
    EN_PULL_OUT = say("en_pull_out", "pull-out failure of the fastener", "EN 1992-4 7.2.1.5")
    EN_COMBINED = say(
        "en_combined_failure", "combined pull-out and concrete failure of the bonded fastener", "EN 1992-4 7.2.1.6"
    )
    EN_STEEL_SHEAR = say("en_steel_shear", "steel failure of the fastener in shear", "EN 1992-4 7.2.2.3")
    EN_LEVER_ARM = say(
        "en_steel_lever_arm", "steel failure of the fastener in shear with lever arm", "EN 1992-4 7.2.2.3.2"
    )
    EN_STEEL_INTERACTION = say(
        "en_steel_interaction", "tension and shear together on the steel of the fastener", "EN 1992-4 7.2.3"
    )
    EN_CONE = say("en_concrete_cone", "concrete cone failure", "EN 1992-4 7.2.1.4")
    EN_SPLITTING = say("en_splitting", "splitting failure of the concrete", "EN 1992-4 7.2.1.7")
    EN_BLOW_OUT = say("en_blow_out", "blow-out failure of the concrete", "EN 1992-4 7.2.1.8")
    EN_PRY_OUT = say("en_pry_out", "pry-out failure of the concrete", "EN 1992-4 7.2.2.4")
    EN_EDGE = say("en_concrete_edge", "concrete edge failure", "EN 1992-4 7.2.2.5")
    EN_CONCRETE_INTERACTION = say(
        "en_concrete_interaction", "tension and shear together, all modes but steel", "EN 1992-4 7.2.3"
    )
    EN_SEISMIC_INTERACTION = say(
        "en_seismic_interaction",
        "tension and shear together under earthquake, all modes",
        "EN 1992-4 Eq. C.9, from memory",
    )

    @property
    def link(self) -> Link:
        """The link of the chain that this mode belongs to."""
        return MODE_LINKS[self]

    @property
    def is_ratio(self) -> bool:
        """Whether strength and demand are ratios and not forces."""
        return self in _RATIOS


_RATIOS = frozenset(
    {
        Mode.INTERACTION,
        Mode.TABLE_INTERACTION,
        Mode.MASONRY_INTERACTION,
        Mode.EN_STEEL_INTERACTION,
        Mode.EN_CONCRETE_INTERACTION,
        Mode.EN_SEISMIC_INTERACTION,
    }
)

MODE_LINKS = {
    Mode.ROD_ALLOWABLE: Link.ROD,
    Mode.ROD_STRENGTH: Link.ROD,
    Mode.STEEL_TENSION: Link.ANCHOR,
    Mode.PULLOUT: Link.ANCHOR,
    Mode.ADHESIVE_BOND: Link.ANCHOR,
    Mode.SUSTAINED_BOND: Link.ANCHOR,
    Mode.STEEL_SHEAR: Link.ANCHOR,
    Mode.CONCRETE_BREAKOUT_TENSION: Link.BASE,
    Mode.SIDE_FACE_BLOWOUT: Link.BASE,
    Mode.REINFORCEMENT_TENSION: Link.BASE,
    Mode.CONCRETE_BREAKOUT_SHEAR: Link.BASE,
    Mode.PRYOUT: Link.BASE,
    Mode.REINFORCEMENT_SHEAR: Link.BASE,
    Mode.INTERACTION: Link.BASE,
    Mode.TABLE_TENSION: Link.BASE,
    Mode.TABLE_SHEAR: Link.BASE,
    Mode.TABLE_INTERACTION: Link.BASE,
    Mode.MASONRY_STEEL_TENSION: Link.ANCHOR,
    Mode.MASONRY_PULLOUT: Link.ANCHOR,
    Mode.MASONRY_BREAKOUT_TENSION: Link.BASE,
    Mode.MASONRY_STEEL_SHEAR: Link.ANCHOR,
    Mode.MASONRY_BREAKOUT_SHEAR: Link.BASE,
    Mode.MASONRY_CRUSHING: Link.BASE,
    Mode.MASONRY_PRYOUT: Link.BASE,
    Mode.MASONRY_INTERACTION: Link.BASE,
    Mode.EN_STEEL_TENSION: Link.ANCHOR,
    Mode.EN_PULL_OUT: Link.ANCHOR,
    Mode.EN_COMBINED: Link.ANCHOR,
    Mode.EN_STEEL_SHEAR: Link.ANCHOR,
    Mode.EN_LEVER_ARM: Link.ANCHOR,
    Mode.EN_STEEL_INTERACTION: Link.ANCHOR,
    Mode.EN_CONE: Link.BASE,
    Mode.EN_SPLITTING: Link.BASE,
    Mode.EN_BLOW_OUT: Link.BASE,
    Mode.EN_PRY_OUT: Link.BASE,
    Mode.EN_EDGE: Link.BASE,
    Mode.EN_CONCRETE_INTERACTION: Link.BASE,
    Mode.EN_SEISMIC_INTERACTION: Link.BASE,
}


TENSION_MODES = frozenset(
    {
        Mode.STEEL_TENSION,
        Mode.PULLOUT,
        Mode.ADHESIVE_BOND,
        Mode.CONCRETE_BREAKOUT_TENSION,
        Mode.SIDE_FACE_BLOWOUT,
        Mode.REINFORCEMENT_TENSION,
    }
)
"""Modes of chapter 17 in tension, but for sustained tension, which is a check of its own."""

SHEAR_MODES = frozenset({Mode.STEEL_SHEAR, Mode.CONCRETE_BREAKOUT_SHEAR, Mode.PRYOUT, Mode.REINFORCEMENT_SHEAR})
"""Modes of chapter 17 in shear."""


BOLT_TENSION_MODES = (Mode.MASONRY_STEEL_TENSION, Mode.MASONRY_PULLOUT, Mode.MASONRY_BREAKOUT_TENSION)
"""Modes of cast-in bolts in masonry in tension."""

TABLE_MODES = frozenset({Mode.TABLE_TENSION, Mode.TABLE_SHEAR, Mode.TABLE_INTERACTION})
"""Modes of anchors that go by tables of allowable loads."""

MASONRY_MODES = frozenset(mode for mode in Mode if mode.value.code.startswith("masonry_"))
"""Modes of cast-in bolts in masonry."""


EN_TENSION_MODES = frozenset(
    {Mode.EN_STEEL_TENSION, Mode.EN_PULL_OUT, Mode.EN_COMBINED, Mode.EN_CONE, Mode.EN_SPLITTING, Mode.EN_BLOW_OUT}
)
"""Modes of EN 1992-4 in tension."""

EN_SHEAR_MODES = frozenset({Mode.EN_STEEL_SHEAR, Mode.EN_LEVER_ARM, Mode.EN_PRY_OUT, Mode.EN_EDGE})
"""Modes of EN 1992-4 in shear."""

EN_MODES = (
    EN_TENSION_MODES
    | EN_SHEAR_MODES
    | {Mode.EN_STEEL_INTERACTION, Mode.EN_CONCRETE_INTERACTION, Mode.EN_SEISMIC_INTERACTION}
)
"""Modes of EN 1992-4."""


class Inapplicable(Listed):
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
    ADHESIVE = say("adhesive-by-bond", "An adhesive anchor pulls out by its bond.", "17.6.5")
    NOT_ADHESIVE = say("not-adhesive", "Bond is a failure of adhesive anchors only.", "17.6.5")
    NOT_SUSTAINED = say("no-sustained-tension", "No tension stays on the anchor.", "17.5.2.2")
    NO_TENSION = say("no-tension", "No anchor is in tension.", "17.6")
    NO_SHEAR = say("no-shear", "No shear acts on the anchor.", "17.7")
    NO_EDGE_SHEARED = say(
        "no-edge-sheared", "The shear acts neither towards nor along an edge within reach.", "17.7.2.1"
    )
    REINFORCED = say(
        "anchor-reinforcement-stated", "Anchor reinforcement is stated in place of concrete breakout.", "17.5.2.1"
    )
    NOT_REINFORCED = say("no-anchor-reinforcement", "No anchor reinforcement is stated.", "17.5.2.1")
    ONE_DIRECTION = say("tension-or-shear-only", "Tension and shear don't act together.", "17.8")
    NO_BALANCE = say("no-equilibrium", "The anchors and the plate can't hold this load in balance.", "17.2.1")
    IN_DECK = say(
        "tested-in-deck",
        "In the flute of a deck concrete breakout isn't calculated: the tested strength has it within.",
        "reading 37",
    )
    PUSHED = say("rod-in-compression", "The load pushes on the rod; its rules are for tension.")
    NOT_BENT = say("not-a-bent-bar", "Only a bent-bar bolt pulls out of masonry.", _BOLT)
    EN_PULL_OUT = say(
        "pull-out-not-governing",
        "The product's data state that pull-out does not govern in this concrete.",
        "EN 1992-4 7.2.1.5",
    )
    EN_BONDED = say(
        "bonded-fastener", "A bonded fastener pulls out by its bond, in combined failure.", "EN 1992-4 7.2.1.6"
    )
    EN_NOT_BONDED = say("not-bonded", "Combined failure is one of bonded fasteners only.", "EN 1992-4 7.2.1.6")
    EN_NO_TENSION = say("no-tension-on-fasteners", "No fastener is in tension.", "EN 1992-4 7.2.1")
    EN_NO_SPLITTING = say(
        "no-splitting",
        "Every edge is at least c_cr,sp away, 1.2 c_cr,sp from a group, so splitting does not arise.",
        "EN 1992-4 7.2.1.7",
    )
    EN_SPLITTING_BARS = say(
        "splitting-reinforced",
        "Reinforcement is stated that takes the splitting forces and keeps cracks to 0.3 mm.",
        "EN 1992-4 7.2.1.7(2)",
    )
    EN_NOT_HEADED = say("no-head", "Blow-out is a failure of headed fasteners only.", "EN 1992-4 7.2.1.8")
    EN_NO_BLOW_OUT = say(
        "no-near-edge", "No edge is nearer than half of h_ef, so blow-out does not arise.", "EN 1992-4 7.2.1.8"
    )
    EN_NO_SHEAR = say("no-shear-on-fasteners", "No shear acts on the fasteners.", "EN 1992-4 7.2.2")
    EN_LEVER_ARM = say(
        "with-lever-arm",
        "The shear acts with a lever arm: the steel is judged by the moment, which tension reduces.",
        "EN 1992-4 7.2.2.3",
    )
    EN_NO_LEVER_ARM = say("no-lever-arm", "The shear acts without a lever arm.", "EN 1992-4 6.2.2.3")
    EN_NO_EDGE = say(
        "no-edge-near",
        "The shear acts neither towards nor along an edge within the larger of 10 h_ef and 60 d_nom.",
        "EN 1992-4 7.2.2.5",
    )
    EN_NO_EARTHQUAKE = say("no-earthquake", "No earthquake acts.", "EN 1992-4 9.1")
    EN_ONE_DIRECTION = say(
        "one-direction-only", "Tension and shear don't act together on these modes.", "EN 1992-4 7.2.3"
    )
    EN_BY_EARTHQUAKE = say(
        "together-by-earthquake",
        "Earthquake acts in every load case with both: tension and shear are judged together by (C.9).",
        "EN 1992-4 Eq. C.9",
    )
    OTHER_METHOD = say("other-method", "The point is checked by another method.")


MODE_TEXTS = {mode.value.code: mode.value.text for mode in Mode}
"""Sentence of each mode by its code."""
