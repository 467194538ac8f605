"""What to ask of a base and a hang point, in the order in which it matters, and what is taken if nobody answers."""

from dataclasses import dataclass
from enum import Enum, StrEnum

from hangpoint.core.vocabulary.assumptions import Assumption
from hangpoint.core.vocabulary.not_checked import NotChecked
from hangpoint.core.vocabulary.refusals import Refusal


class IfSilent(StrEnum):
    """What becomes of a point whose request doesn't say."""

    INVALID = "invalid"
    REFUSED = "refused"
    ASSUMED = "assumed"
    NOT_CHECKED = "not_checked"


class Asked(StrEnum):
    """Which points a question is for, by what they state.

    ``GROUTED`` is for masonry of grouted units, ``BOLT`` for bolts that go by formula there, ``TABLES`` for what a
    table of the product limits, or of any product while that is open. ``SIDE`` is for the side of a member, stated or
    taken.
    """

    ALWAYS = "always"
    ANCHORED = "anchored"
    IN_CONCRETE = "in_concrete"
    CONCRETE = "concrete"
    DECK = "deck"
    MASONRY = "masonry"
    GROUTED = "grouted"
    HOLLOW_CORE = "hollow_core"
    BOLT = "bolt"
    TABLES = "tables"
    TENSIONED = "tensioned"
    SCANNED = "scanned"
    UNCRACKED = "uncracked"
    PIPE = "pipe"
    SIDE = "side"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """One question: the field that answers it, why it matters, and what is taken if nobody does.

    ``taken`` is a code of the closed lists where one says what is taken; otherwise ``text`` says it.
    """

    field: str
    asked: Asked
    question: str
    why: str
    if_silent: IfSilent
    taken: Assumption | Refusal | NotChecked | None = None
    text: str = ""


def _needed(
    field: str, asked: Asked, question: str, why: str, *, text: str = "The point is invalid: there is no default."
) -> Asking:
    return Asking(field=field, asked=asked, question=question, why=why, if_silent=IfSilent.INVALID, text=text)


def _assumed(
    field: str, asked: Asked, question: str, why: str, taken: Assumption | None = None, *, text: str = ""
) -> Asking:
    silent = IfSilent.ASSUMED
    return Asking(field=field, asked=asked, question=question, why=why, if_silent=silent, taken=taken, text=text)


def _open(
    field: str, asked: Asked, question: str, why: str, taken: NotChecked | None = None, *, text: str = ""
) -> Asking:
    silent = IfSilent.NOT_CHECKED
    return Asking(field=field, asked=asked, question=question, why=why, if_silent=silent, taken=taken, text=text)


def _limited(field: str, question: str, why: str) -> Asking:
    """A distance that tables of allowable loads limit."""
    text = "The point is invalid where the table of its product limits this: there is no default."
    return _needed(field, Asked.TABLES, question, why, text=text)


class Question(Enum):
    """The questions, the weightiest first."""

    KIND = _needed(
        "base.kind",
        Asked.ALWAYS,
        "What does the anchor go into: concrete slab, filled steel deck, hollow-core plank, masonry, steel, wood?",
        "Everything else depends on it; a deck is often taken for a slab. Nobody knows is an answer: unknown.",
    )
    POST_TENSIONED = _assumed(
        "base.post_tensioned",
        Asked.CONCRETE,
        "Is the member post-tensioned?",
        "A drilled tendon can kill and brings down a bay; at mid-span it lies nearest to the soffit.",
        Assumption.NOT_POST_TENSIONED,
    )
    SCANNED = Asking(
        field="base.scanned",
        asked=Asked.TENSIONED,
        question="Has the place been scanned?",
        why="In a member that is or may be post-tensioned nothing is drilled without a scan.",
        if_silent=IfSilent.REFUSED,
        taken=Refusal.POST_TENSIONED,
    )
    SCANNED_BY = _needed(
        "base.scanned_by", Asked.SCANNED, "Who scanned the place?", "The answer prints who vouches for it."
    )
    PART = _assumed(
        "base.part",
        Asked.ANCHORED,
        "Which part is it: slab, beam, joist, wall, column, or a topping?",
        "A topping holds only by its bond and is refused; beams and joists have bars near the soffit.",
        text="A slab: nothing is said of bars near the face, and a topping is not noticed.",
    )
    THICKNESS = _needed(
        "base.thickness",
        Asked.ANCHORED,
        "How thick is the concrete, in a deck from the lowest flute to the top of the fill?",
        "It decides whether the embedment fits and how far the edges weaken it.",
    )
    FLUTE = _needed(
        "base.deck.flute", Asked.DECK, "Upper or lower flute?", "The tested strengths of the two differ by half."
    )
    FLUTE_WIDTH = _needed(
        "base.deck.flute_width", Asked.DECK, "How wide is the flute?", "The tests hold from a least width on."
    )
    OFFSET = _needed(
        "base.deck.offset",
        Asked.DECK,
        "How far is the anchor from the centre of the flute?",
        "Beside the centre the side of the flute breaks out first.",
    )
    COVER = _needed(
        "base.deck.cover",
        Asked.DECK,
        "How much fill is above the top of the deck?",
        "The tests hold from a least fill on.",
    )
    SHEET = _open(
        "base.deck.sheet",
        Asked.DECK,
        "How thick is the sheet of the deck (20 gauge is 0.0359 in or 0.91 mm, from memory)?",
        "The tests hold from a least thickness on.",
        text="Not compared; a caution says so.",
    )
    UNITS = _needed(
        "base.masonry.units",
        Asked.MASONRY,
        "Are the units hollow, grouted or solid?",
        "Tables hold for one of them; in a hollow unit only the shell carries.",
    )
    MATERIAL = _needed(
        "base.masonry.material", Asked.MASONRY, "Concrete block or clay brick?", "Tables hold for one of them."
    )
    BOLT_F_M = _needed(
        "base.masonry.f_m",
        Asked.BOLT,
        "What is f'm of the masonry?",
        "A bolt in grouted masonry goes by formula: its breakout grows with the root of f'm.",
    )
    F_M = _assumed(
        "base.masonry.f_m",
        Asked.MASONRY,
        "What is f'm of the masonry?",
        "Below the strength of the tests the table does not hold.",
        Assumption.MASONRY_STRENGTH,
    )
    MASONRY_LOCATION = _assumed(
        "base.masonry.location",
        Asked.MASONRY,
        "Where in the units: face, cell, web, or a joint?",
        "A mortar joint holds little, and most tables exclude it.",
        Assumption.MASONRY_FACE,
    )
    OPEN_X_MINUS = _assumed(
        "base.masonry.open_x_minus",
        Asked.GROUTED,
        "How far is the nearest cell towards -x that is not grouted, or an open head joint, or none within reach?",
        "In a partly grouted wall what breaks out ends there: it counts as an edge. In that cell itself, and in its"
        " shell, units are hollow.",
        Assumption.CELLS_GROUTED,
    )
    OPEN_X_PLUS = _assumed(
        "base.masonry.open_x_plus",
        Asked.GROUTED,
        "How far is the nearest open cell or head joint towards +x?",
        "As above.",
        Assumption.CELLS_GROUTED,
    )
    OPEN_Y_MINUS = _assumed(
        "base.masonry.open_y_minus",
        Asked.GROUTED,
        "How far is the nearest open cell or head joint towards -y?",
        "As above.",
        Assumption.CELLS_GROUTED,
    )
    OPEN_Y_PLUS = _assumed(
        "base.masonry.open_y_plus",
        Asked.GROUTED,
        "How far is the nearest open cell or head joint towards +y?",
        "As above.",
        Assumption.CELLS_GROUTED,
    )
    JOINT_DISTANCE = _limited(
        "base.masonry.joint_distance",
        "How far is the nearest mortar joint, head or bed, or none within reach?",
        "Tables hold from a least distance on: beside a joint the unit splits off.",
    )
    FACE_SHELL = _limited(
        "base.masonry.face_shell",
        "How thick is the face shell of the hollow unit?",
        "The anchor holds in the shell alone, and the tests were made in one of a least thickness.",
    )
    PLANK_LOCATION = _needed(
        "base.hollow_core.location",
        Asked.HOLLOW_CORE,
        "Under a core or in a web of the plank?",
        "Strands run in the webs; under a core there is an inch or so of concrete.",
    )
    COVER_BELOW_CORE = _limited(
        "base.hollow_core.cover",
        "How much concrete is between the face and the core?",
        "Under a core that is all that the anchor holds in; tables hold from a least cover on.",
    )
    STRAND_DISTANCE = _limited(
        "base.hollow_core.strand_distance",
        "How far is the nearest strand, or none within reach?",
        "A strand that is hit weakens the plank and may kill; tables hold from a least distance on.",
    )
    F_C = _assumed(
        "base.strength.f_c",
        Asked.IN_CONCRETE,
        "What is f'c of the concrete or fill?",
        "Strength grows with its root: 4,000 psi (28 MPa) holds a quarter more than 2,500 psi (17 MPa).",
        Assumption.F_C,
    )
    DENSITY = _needed(
        "base.density",
        Asked.IN_CONCRETE,
        "Is the concrete normalweight, sand-lightweight or all-lightweight?",
        "Lightweight takes up to half off. Fill of decks is often lightweight.",
    )
    STATE = _assumed(
        "base.state",
        Asked.IN_CONCRETE,
        "Has anybody shown that the concrete stays uncracked at this place?",
        "At mid-span the soffit is the tension face: without that it is cracked.",
        Assumption.CRACKED,
    )
    STATE_DECIDED_BY = _needed(
        "base.state_decided_by",
        Asked.UNCRACKED,
        "Who decided that the concrete stays uncracked?",
        "It is a decision of the engineer, and the answer prints whose.",
    )
    EDGE_X_MINUS = _needed(
        "base.edges.x_minus",
        Asked.ANCHORED,
        "How far is the edge towards -x, or none within reach?",
        "A near edge halves the strength; a forgotten one is no edge at all.",
    )
    EDGE_X_PLUS = _needed(
        "base.edges.x_plus", Asked.ANCHORED, "How far is the edge towards +x?", "As above; openings are edges too."
    )
    EDGE_Y_MINUS = _needed(
        "base.edges.y_minus", Asked.ANCHORED, "How far is the edge towards -y?", "As above; openings are edges too."
    )
    EDGE_Y_PLUS = _needed(
        "base.edges.y_plus", Asked.ANCHORED, "How far is the edge towards +y?", "As above; openings are edges too."
    )
    SEISMIC_CATEGORY = _needed(
        "seismic.category",
        Asked.ANCHORED,
        "Which seismic design category has the building?",
        "From C on the product must be qualified for earthquake, even for gravity alone.",
    )
    HANGS = _needed("hangs.kind", Asked.ALWAYS, "What hangs: forces, a weight, a pipe?", "It is the load.")
    SPRINKLER = _needed(
        "hangs.sprinkler", Asked.PIPE, "Is it a sprinkler line?", "Its hangers hold five times the pipe and 250 lb."
    )
    FAMILY = _needed(
        "anchor.family",
        Asked.ANCHORED,
        "Which anchor: family, size and embedment, or its data?",
        "Families differ in what base, crack and direction they were tested for.",
    )
    EXPOSURE = _assumed(
        "environment.exposure",
        Asked.ANCHORED,
        "Where is it: dry, damp, outdoors, chlorides, an indoor pool, treated wood, food?",
        "Zinc plating is for dry air only; over a pool it cracks without warning.",
        Assumption.DRY_INDOORS,
    )
    FACE = _assumed(
        "base.face", Asked.ANCHORED, "Soffit, side or top?", "What hangs overhead falls.", Assumption.OVERHEAD
    )
    MASONRY_FACE = _assumed(
        "base.face",
        Asked.MASONRY,
        "Side, soffit or top?",
        "What hangs overhead falls; most tables were tested in the side of a wall.",
        Assumption.MASONRY_FACE,
    )
    EXISTING = _assumed(
        "base.existing",
        Asked.ANCHORED,
        "Does the structure stand already?",
        "Then drawings or cores say f'c, and nobody pours an insert.",
        text="A new structure, as the drawings say.",
    )
    AGE = _open(
        "base.age_days",
        Asked.IN_CONCRETE,
        "How old is the concrete when the anchor is set, in days?",
        "Young concrete hasn't reached f'c; adhesives need 21 days.",
        text="Not compared; adhesive anchors overhead are refused without it.",
    )
    CLEAR_COVER = _open(
        "base.clear_cover",
        Asked.IN_CONCRETE,
        "How deep is the nearest reinforcement?",
        "A hole beyond it may hit a bar.",
        NotChecked.REINFORCEMENT,
    )
    TENDON_DEPTH = _open(
        "base.tendon_depth",
        Asked.TENSIONED,
        "How deep is the nearest tendon?",
        "A hole that reaches it is a violation.",
        NotChecked.REINFORCEMENT,
    )
    SUPPLEMENTARY = _assumed(
        "base.supplementary",
        Asked.CONCRETE,
        "Is there reinforcement that ties the failure surface to the member?",
        "It allows a larger strength reduction factor.",
        Assumption.NO_SUPPLEMENTARY,
    )
    LEVEL = _open(
        "at.level",
        Asked.ANCHORED,
        "On which level, or in which member?",
        "Near points share the concrete, and structural notes limit loads by bay.",
        NotChecked.NEIGHBOURS,
    )
    AT_X = _open(
        "at.x",
        Asked.ANCHORED,
        "Where on plan, along x in the axes of the job?",
        "Near points are found by their coordinates.",
        NotChecked.NEIGHBOURS,
    )
    AT_Y = _open(
        "at.y", Asked.ANCHORED, "Where on plan, along y in the axes of the job?", "As above.", NotChecked.NEIGHBOURS
    )
    AT_Z = _open(
        "at.z",
        Asked.SIDE,
        "How high, along z in the axes of the job?",
        "On a wall near points are found by their height too.",
        NotChecked.NEIGHBOURS,
    )
    FACING = _open(
        "base.facing",
        Asked.SIDE,
        "Which way on plan does the face look?",
        "Points of two sides of a wall do not share the concrete in front of them.",
        NotChecked.NEIGHBOURS,
    )
    ROD = _open("rod.size", Asked.ALWAYS, "Which rod?", "It may be the weakest link.", NotChecked.ROD)
