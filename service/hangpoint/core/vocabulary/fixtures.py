"""Closed lists of fixtures that don't hang: what was taken, what stays unchecked, what was seen."""

from enum import Enum

from hangpoint.core.vocabulary.words import FindingEntry, Severity, say


class FixtureAssumption(Enum):
    """How a fixture was read; listed with the item."""

    RIGID = say("rigid-fixture", "The fixture and its plate are rigid, and so is the base under them.", "statics")
    ANY_DIRECTION = say(
        "any-direction",
        "Horizontal loads without a direction of their own act all in one direction, evenly from x: 4 are looked at, of"
        " a post 8, or as many as stated. Between two of them it may be worse, with 4 by up to 1.41: state 8 or 16.",
        "ASCE 7 13.3.1",
    )
    FEET_AT_ANCHORS = say(
        "feet-at-anchors",
        "The supports of floor equipment bear and pull at its anchors, all equally stiff.",
        "common practice",
    )
    TIPS_OVER_ANCHORS = say(
        "tips-over-outer-anchor",
        "No base is stated: the equipment tips over its outermost anchors.",
        "common practice",
    )
    WITH_OMEGA_0 = say(
        "earthquake-with-omega-0",
        "The earthquake force of the component is multiplied by Omega_0, for anchorage in concrete.",
        "ASCE 7 13.4.2",
    )
    EARTHQUAKE_AS_STATED = say(
        "earthquake-as-stated",
        "A stated earthquake force is handed on as it stands: S_DS and the option of 17.10 go to the check of anchors.",
        "17.10",
    )
    STATED_NOT_SHAKEN = say(
        "stated-force-not-shaken",
        "Dead load and contents that are stated as forces are in no seismic weight: state them as weights.",
        "ASCE 7 13.3.1",
    )
    NATURE_TOGETHER = say(
        "one-nature-summed",
        "Loads of one nature that are stated against each other act together in the sums, in the supports and in"
        " overturning: state another item for the ones without the others. The bodies for the check of anchors have"
        " each by itself. Those of dead load and of earthquake act together there too.",
    )
    GUARD_LOAD = say(
        "guard-load-from-memory",
        "The named guard load is that of IBC 1607, from memory: verify it with the code in force.",
        "IBC 1607",
    )


class FixtureNotChecked(Enum):
    """What stays unchecked, said with every item it concerns."""

    ANCHORS = say(
        "anchors", "The anchors: send the bodies of this answer to be checked, with anchor, base and seismic."
    )
    FIXTURE = say("fixture", "The fixture itself: its arms, posts, welds, its plate and what is bolted to it.")
    STRUCTURE = say("structure", "The slab or wall that carries the fixture.")
    FRICTION = say("friction", "Friction under the plate: it is not counted.", "common practice")
    BEARING = say("bearing", "The pressure of the feet on the floor.")
    EARTHQUAKE = say("earthquake", "Earthquake: nothing is stated of it.")
    VERTICAL_EARTHQUAKE = say(
        "vertical-earthquake",
        "The vertical effect of a stated earthquake force on overturning: no S_DS is stated.",
        "ASCE 7 13.3.1",
    )


def _find(code: str, severity: Severity, text: str, clause: str) -> FindingEntry:
    return FindingEntry(code=code, text=text, clause=clause, severity=severity, quantity="moment")


class FixtureFinding(Enum):
    """What is seen of an item; a violation fails it."""

    TIPS = _find(
        "tips-without-anchors",
        Severity.CAUTION,
        "Without anchors it would tip: the overturning moment exceeds the righting moment of the least weight.",
        "statics",
    )
    UNHELD = _find(
        "nothing-holds",
        Severity.VIOLATION,
        "It tips, and no anchor stands behind the edge that it tips over, or none holds it over a corner there.",
        "statics",
    )
