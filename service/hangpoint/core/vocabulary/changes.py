"""What is assumed and what is not checked where an answer proposes a change of a hang point."""

from enum import Enum

from hangpoint.core.vocabulary.words import say


class ChangeAssumption(Enum):
    """Something that was not stated and was taken for a proposed change."""

    RESERVE = say("reserve-of-a-tenth-assumed", "A tenth of the utilisation is kept as a reserve.", "reading 42")
    STIFF_ATTACHMENT = say(
        "stiff-attachment-assumed",
        "Anchors that are added are under one attachment that is stiff enough to load all of them.",
        "17.2.1",
    )
    PLUMB = say(
        "rod-plumb-assumed", "The rod is plumb at the new place too: what hangs goes with it.", "common practice"
    )
    MOST_LEAN = say(
        "lean-of-four-degrees-at-most",
        "A hanger rod may lean by 4 degrees from the vertical, not more.",
        "common practice, from memory",
    )
    SPANS_UNCHANGED = say("spans-unchanged-assumed", "The spans of the run stay as stated when its hanger moves.")
    PLACE_IN_BASE = say(
        "joints-and-flutes-at-worst-assumed",
        "At a new place joints and strands are as near, and the centre of an undirected flute as far, as the move can"
        " bring them; cells, webs, cores and covers are as stated.",
    )
    COORDINATES_STAY = say(
        "coordinates-left-as-stated",
        "Which way the side face looks (`base.facing`) is not stated: what has moved keeps its coordinates in the job.",
    )
    NO_EDGE = say(
        "no-edge-comes-near-assumed",
        "A side that is stated to have no edge within reach has none at a new place either.",
    )
    BARS_STAY = say(
        "anchor-reinforcement-left-behind",
        "Anchor reinforcement stays where it is: at a new place breakout of the concrete is checked without it.",
        "17.5.2.1",
    )
    OLD_HOLE_OPEN = say("old-hole-open-assumed", "The old hole is not filled with high-strength mortar.", "reading 45")


class ChangeNotChecked(Enum):
    """What is not checked of a proposed change."""

    NEW_PLACE = say(
        "reinforcement-at-the-new-place", "Reinforcement, tendons and services at a new place: scan before drilling."
    )
    CUT_REINFORCEMENT = say(
        "cut-reinforcement", "Whether a bar that was hit is damaged, and what the member has lost by it."
    )
    OLD_HOLE = say(
        "old-hole-in-the-concrete",
        "The old hole within the concrete that the new anchor relies on: only the distance rule stands for it.",
        "reading 45",
    )
    OTHER_HOLES = say(
        "other-old-holes",
        "Holes of the layout beside the one that is stated: the others that were drilled are looked at by nobody.",
        "reading 45",
    )
    NEIGHBOURS_UNSTATED = say("unstated-neighbours", "Points near a new place that the request doesn't state.")
    OTHER_HANGERS = say("other-hangers", "The other hangers of the run after its spans have changed.")
    SIDEWAYS = say("sideways-restraint", "What holds the lower end of a rod out of plumb sideways.", "statics")
    ROD_LEANS = say(
        "rod-out-of-plumb",
        "Bending of a rod that leans, where a thread or a nut holds it; its tension is checked at its angle.",
        "statics",
    )
