"""What is seen of decks, of drilling into members, of structural limits and of the environment."""

from hangpoint.core.vocabulary.words import Severity, finding

DECK_FLUTE_NARROW = finding(
    "deck-flute-narrow",
    Severity.VIOLATION,
    "The flute is narrower than that of the tests.",
    "reading 37",
    "length",
)
DECK_OFFSET = finding(
    "deck-offset",
    Severity.VIOLATION,
    "The anchor is farther from the centre of the flute than in the tests.",
    "reading 37",
    "length",
)
DECK_COVER = finding(
    "deck-cover",
    Severity.VIOLATION,
    "The fill above the deck is thinner than in the tests.",
    "reading 37",
    "length",
)
DECK_SHEET = finding(
    "deck-sheet", Severity.VIOLATION, "The sheet of the deck is thinner than in the tests.", "reading 37", "length"
)
DECK_SHEET_UNKNOWN = finding(
    "deck-sheet-unknown",
    Severity.CAUTION,
    "The sheet of the deck is not stated: the tests ask for the thickness named here.",
    "reading 37",
    "length",
)
DECK_F_C_BELOW_TESTS = finding(
    "deck-f-c-below-tests",
    Severity.CAUTION,
    "The fill is weaker than in the tests: the tested strength is reduced with it.",
    "reading 37",
    "stress",
)
DRILLED_TO_TENDON = finding(
    "drilled-to-tendon",
    Severity.VIOLATION,
    "The hole reaches the depth of the nearest tendon or strand.",
    "reading 39",
    "length",
)
DRILLED_BEYOND_COVER = finding(
    "drilled-beyond-cover",
    Severity.CAUTION,
    "The hole is deeper than the nearest reinforcement: locate the bars before drilling.",
    "reading 39",
    "length",
)
DRILLED_BEYOND_HALF = finding(
    "drilled-beyond-half",
    Severity.NOTE,
    "The hole is deeper than half of the member: it may reach the reinforcement of the far face, and spall it.",
    "common practice",
    "length",
)
TENDONS_SCANNED = finding(
    "tendons-scanned",
    Severity.CAUTION,
    "The member is or may be post-tensioned: drill only where the scan shows it clear, and no deeper.",
    "reading 39",
)
BEAM_SOFFIT = finding(
    "beam-soffit",
    Severity.CAUTION,
    "The soffit of a beam or joist has its main reinforcement near the face, and its sides are edges: locate the"
    " bars, and state the sides.",
    "reading 39",
)
STRUCTURAL_LIMIT = finding(
    "structural-limit",
    Severity.VIOLATION,
    "The service load exceeds what the structural notes allow at one point.",
    "structural notes",
    "force",
)
EXPOSURE_CORROSION = finding(
    "exposure-corrosion",
    Severity.VIOLATION,
    "The steel or its coating is not for this exposure: zinc plating is for dry air, hot-dip galvanising for damp air"
    " and outdoors, stainless steel for chlorides.",
    "common practice",
)
CHLORIDES_304 = finding(
    "chlorides-304",
    Severity.CAUTION,
    "Grade 304 pits in chlorides: 316 or better is customary there.",
    "common practice",
)
FOOD_CARBON = finding(
    "food-carbon-steel",
    Severity.CAUTION,
    "Where food is made stainless steel is customary: coated carbon steel flakes and can't be washed down.",
    "common practice",
)
MATERIAL_UNKNOWN = finding(
    "material-unknown",
    Severity.CAUTION,
    "The product's data don't say its steel and coating, so the exposure can't be judged.",
    "common practice",
)
GALVANIC_COUPLE = finding(
    "galvanic-couple",
    Severity.VIOLATION,
    "A carbon steel anchor, zinc or not, touches stainless steel or copper where it is wet: the small anchor is eaten"
    " first. Take one metal, or isolate them.",
    "common practice",
)
DISSIMILAR_METALS = finding(
    "dissimilar-metals",
    Severity.CAUTION,
    "A carbon steel anchor, zinc or not, touches stainless steel or copper: harmless only while it stays dry.",
    "common practice",
)
ATTACHMENT_CORRODES = finding(
    "attachment-corrodes",
    Severity.CAUTION,
    "Beside this anchor the less noble metal of attachment or rod corrodes where it is wet: isolate them.",
    "common practice",
)
HYDROGEN = finding(
    "hydrogen-embrittlement",
    Severity.CAUTION,
    "A hardened carbon steel screw can break without warning where it is damp (hydrogen embrittlement): take"
    " stainless steel or another family.",
    "common practice",
)
VIBRATION = finding(
    "vibration-without-follow-up",
    Severity.CAUTION,
    "Under vibration an anchor that tightens itself is wanted: torque-controlled expansion, undercut or cast-in,"
    " with a locknut and an isolator.",
    "common practice",
)
FIRE_RATED = finding(
    "fire-rating-asked",
    Severity.CAUTION,
    "A fire rating is asked for: nothing here is checked in fire, and adhesive loses its bond when it is warm.",
    "common practice",
)
F_C_BELOW_STRUCTURAL = finding(
    "f-c-below-structural",
    Severity.CAUTION,
    "The concrete is weaker than 2,500 psi (17 MPa), the least of structural concrete.",
    "19.2.1.1, from memory",
    "stress",
)
