"""What an answer leaves unchecked."""

from hangpoint.core.vocabulary.words import Listed, say


class NotChecked(Listed):
    """What an answer leaves unchecked, said with every point it concerns."""

    ROD = say("rod", "The rod: none is stated.")
    HARDWARE = say(
        "hanger-hardware", "Clamp, clevis, coupling, nut and every other part between pipe and anchor.", "reading 34"
    )
    SPACING_RULE = say("hanger-spacing", "The spacing of hangers: no rule is named.")
    NEIGHBOURS = say("neighbours", "The effect of neighbouring hang points in the same member.", "reading 30")
    NEAR_IN_SIDE = say(
        "near-in-side-face",
        "What the anchors share with those of another point of the request in a side face of the same member: as their"
        " coordinates are, they may stand nearer to each other than 1.5 (h_ef,1 + h_ef,2), or what bond, an edge or a"
        " table asks for. Points of one plane are compared where each states which way it looks, `facing`, and z; else"
        " state anchors that stand near as one layout.",
        "reading 30",
    )
    MEMBER = say(
        "member",
        "The strength of the slab, beam or wall that carries the anchor, and that no plastic hinge forms there under"
        " earthquake.",
    )
    LOSS_OF_SUPPORT = say("loss-of-a-neighbour", "The loss of a neighbouring hanger.", "reading 32")
    REINFORCEMENT = say(
        "reinforcement-and-tendons",
        "Reinforcement, tendons and services in the way; the cover of an anchor, and in concrete the least edge"
        " distance that the size of the aggregate asks for.",
        "17.9.2",
    )
    BARS_OF_ANCHOR = say(
        "anchor-reinforcement-details",
        "The bars that stand for breakout: that they are near enough to the anchor, enclose it, are developed on both"
        " sides of the surface that breaks, and in shear lie along it, at every edge that it pushes to.",
        "17.5.2.1",
    )
    OWN_WEIGHT = say("own-weight", "The weight of the rod and of the hanger: it is in no load.")
    ERECTION = say("erection-load", "A person or another erection load on what hangs: no live load is stated.")
    SIDEWAYS = say(
        "sideways-force",
        "A force across the rod: of a rod out of plumb, of thermal movement, of what swings or is pushed. None is"
        " stated, and the rod is taken as plumb.",
        "common practice",
    )
    EARTHQUAKE = say(
        "earthquake",
        "Earthquake, though the seismic design category is C or higher: nothing is stated of it, neither S_DS for the"
        " vertical effect nor the force of a brace.",
        "ASCE 7 13.3.1",
    )
    BRACING = say(
        "unbraced",
        "The horizontal force of earthquake and what a brace makes of it at this anchor: only S_DS is stated, for the"
        " vertical effect.",
        "reading 35",
    )
    ROD_SPRINKLER_RULE = say(
        "rod-under-sprinkler-rule",
        "The rod under five times the weight and 250 lb, of which it has the weight once and 250 lb: the size table"
        " that stands for that check goes by the pipe, which stated forces don't name.",
        "reading 29",
    )
    ROD_SIZE = say(
        "rod-size-by-pipe",
        "The least diameter of the rod for the size of the pipe: specifications for piping often ask for one beside the"
        " load.",
        "common practice",
    )
    ROD_SERVICE_LOAD = say("service-rod-load", "The rod against the service load: only factored loads are stated.")
    LISTING = say(
        "listing", "Whether the hanger is listed, or its design certified by a professional engineer.", "reading 29"
    )
    PLATE = say(
        "plate",
        "The strength of the plate, and what it presses on but for the findings on its bearing.",
        "22.8",
    )
    FIRE = say("fire-and-fatigue", "Fire, fatigue, impact and corrosion.", "17.1.4")
    FATIGUE = say(
        "fatigue-and-rest-of-fire",
        "Fatigue, impact and corrosion; of fire the product's own assessment, spalling, the rod, the fixture and the"
        " member.",
        "EN 1992-4 Annex D",
    )
