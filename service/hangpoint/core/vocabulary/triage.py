"""When an answer has to go to an engineer, and what to ask."""

from dataclasses import dataclass

from hangpoint.core.vocabulary.words import Entry, Listed


@dataclass(frozen=True, slots=True, kw_only=True)
class TriageEntry(Entry):
    """Why an answer goes to an engineer, with the question in words fit for a request for information."""

    question: str


def _ask(code: str, text: str, question: str, clause: str = "") -> TriageEntry:
    return TriageEntry(code=code, text=text, question=question, clause=clause)


class Triage(Listed):
    """What a table or this service can't decide; each with the question to the engineer of record."""

    BASE_UNKNOWN = _ask(
        "base-unknown",
        "What carries the anchor is not known.",
        "Please state what the structure is at this place: slab, filled steel deck, hollow-core plank, masonry, steel"
        " or wood, with its thickness and strength.",
        "reading 39",
    )
    BASE_OTHER = _ask(
        "base-steel-or-wood",
        "The load hangs from steel or wood, which is not checked here.",
        "Please confirm that the member carries this load at this place, and how it is to be fastened (clamp, bolt,"
        " weld, screw).",
        "reading 39",
    )
    BASE_BY_TABLES = _ask(
        "base-by-tables",
        "Masonry and hollow-core planks hold by tested tables with limits of place, not by formula.",
        "Please state the units, their strength and whether they are grouted, or the planks with their cores, strands"
        " and topping, and which tested data may be used.",
        "reading 37",
    )
    TOPPING = _ask(
        "topping-bond",
        "The anchor is in a topping.",
        "Please confirm whether the topping is bonded to the member below and may carry this tension, or to what depth"
        " the anchor has to reach below it.",
        "reading 39",
    )
    POST_TENSIONED = _ask(
        "post-tensioned",
        "The member is post-tensioned, or nobody knows.",
        "Please state whether the member is post-tensioned; if so, send the layout and depth of the tendons and the"
        " rule for drilling (scan, most depth, distance to tendons).",
        "reading 39",
    )
    EXISTING_STRENGTH = _ask(
        "existing-strength-unknown",
        "The structure exists and its strength is not known; 2,500 psi (17.2 MPa) is taken.",
        "Please state f'c and whether the concrete is lightweight, or which cores or tests are wanted.",
        "reading 0",
    )
    UNCRACKED = _ask(
        "uncracked-by-decision",
        "The concrete is taken as uncracked by decision of the one named.",
        "Please confirm that the concrete here stays uncracked under service loads, shrinkage and temperature.",
        "17.6.2.5",
    )
    CONCRETE_YOUNG = _ask(
        "concrete-young",
        "The concrete is younger than 28 days.",
        "Please confirm that the concrete has its strength when the anchors are set and when they are loaded, and from"
        " which day.",
        "common practice",
    )
    BEAM_DRILLING = _ask(
        "beam-drilling",
        "The anchor is in the soffit of a beam or joist.",
        "Please confirm that the soffit may be drilled at this place, and where the bottom bars or strands are.",
        "reading 39",
    )
    ADHESIVE_OVERHEAD = _ask(
        "adhesive-sustained-overhead",
        "An adhesive anchor holds tension that stays, overhead or sideways.",
        "Please confirm that an adhesive anchor is accepted for this sustained load, with certified installer,"
        " continuous special inspection and proof loading, or name a mechanical one.",
        "reading 36",
    )
    SEISMIC_OPTION = _ask(
        "seismic-option",
        "Earthquake governs this anchor in seismic design categories C to F, or an option of 17.10 is claimed.",
        "Please state which option of 17.10.5.3 and 17.10.6.3 the design takes, with Omega_0 and whether the attachment"
        " yields.",
        "17.10",
    )
    EN_EARTHQUAKE = _ask(
        "seismic-design-european",
        "An earthquake load is stated for a check by EN 1992-4.",
        "Please state which option of EN 1992-4 9.2 the earthquake load is of, with its amplification or overstrength,"
        " and the seismic performance category by Table C.1, with a_g S and the class of importance.",
        "EN 1992-4 9.2, annex C",
    )
    SPRINKLER = _ask(
        "sprinkler-certification",
        "A sprinkler line hangs here by calculation.",
        "Please certify the hanger for five times the water-filled pipe and 250 lb, or confirm that it is of listed"
        " components.",
        "reading 29",
    )
    STRUCTURAL_LIMIT = _ask(
        "structural-limit",
        "The load exceeds what the structural notes allow at one point.",
        "Please approve the service load at this place, or state how it is to be spread.",
        "structural notes",
    )
    CORROSION = _ask(
        "corrosive-exposure",
        "Chlorides or pool air attack the anchor.",
        "Please state the exposure class and the steel grade wanted for anchors, rods and attachments.",
        "reading 40",
    )
    FIRE = _ask(
        "fire-rating",
        "A fire rating is asked for.",
        "Please state the rated assembly or the temperature and time that the hangers have to withstand.",
        "common practice",
    )
    EN_FIRE = _ask(
        "fire-by-annex-d",
        "A fire rating is asked for; the fasteners are checked by EN 1992-4 annex D, and nothing else in fire.",
        "Please confirm the class R and the sides of the member that are exposed, that the member itself has that class"
        " and does not spall, and state what fixtures, rods and hangers have to withstand. Where the product has an"
        " assessment for fire, please say whether its resistances stand in place of those of annex D.",
        "EN 1992-4 annex D, from memory",
    )
