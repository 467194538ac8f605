"""Choosing products: why a candidate is rejected, what was taken where the request is silent, what would change it."""

from dataclasses import dataclass
from enum import Enum, StrEnum

from hangpoint.core.vocabulary.words import Entry, say


class Objective(StrEnum):
    """What the best candidate has least of; of reserve the most."""

    COST_INDEX = "cost_index"
    MINUTES = "minutes"
    DRILLED_DEPTH = "drilled_depth"
    RESERVE = "reserve"


@dataclass(frozen=True, slots=True, kw_only=True)
class RejectionEntry(Entry):
    """A rejection also says what its value and limit are (a quantity kind, or ``ratio``) and what would lift it."""

    quantity: str = ""
    remedy: str = ""


def _reject(code: str, text: str, clause: str = "", *, quantity: str = "", remedy: str = "") -> RejectionEntry:
    return RejectionEntry(code=code, text=text, clause=clause, quantity=quantity, remedy=remedy)


class Rejection(Enum):
    """Why a candidate is not offered, beside the refusals and the violations of its check.

    Those with a remedy are wishes of the request; the first that holds is told, in this order.
    """

    NOT_STOCKED = _reject(
        "family-not-stocked", "The family is not among those stocked.", remedy="Have this family brought in."
    )
    CAST_IN = _reject(
        "cast-in-anchor", "The anchor is cast in: it can't be set into concrete or masonry that is there."
    )
    POST_INSTALLED = _reject(
        "post-installed-anchor",
        "The anchor is set into hardened concrete, and a cast-in one is wanted.",
        remedy="Set the anchor once the concrete has hardened.",
    )
    NO_OBJECTIVE = _reject(
        "objective-not-stated",
        "The product's data don't state what candidates are ranked by.",
        remedy="Rank by something that the data of this family state.",
    )
    TOOL = _reject(
        "setting-tool-not-at-hand",
        "The anchor needs a setting tool that is not at hand.",
        remedy="Get the setting tool of this anchor.",
    )
    TRAINING = _reject(
        "needs-trained-installer",
        "Only trained or certified people may set this anchor.",
        remedy="Have a trained or certified person set it.",
    )
    EXPOSURE = _reject(
        "protection-below-exposure", "The anchor's protection against corrosion is not made for this exposure."
    )
    VIBRATION = _reject(
        "not-for-vibration",
        "Under vibration this principle does not take hold again: take torque-controlled expansion, undercut, adhesive"
        " or cast-in anchors.",
        "common practice",
    )
    NOT_REMOVABLE = _reject(
        "not-removable", "The anchor can't be taken out.", remedy="Do without an anchor that can be taken out."
    )
    NOT_FLUSH = _reject(
        "not-flush", "The anchor does not end flush with the base.", remedy="Allow an anchor that projects."
    )
    NOT_STUD = _reject(
        "not-a-stud", "The anchor ends flush with the base and has no stud.", remedy="Allow an anchor that ends flush."
    )
    NO_INTERNAL_THREAD = _reject(
        "no-internal-thread",
        "The anchor has no internal thread.",
        remedy="Fix the rod by a coupling or a bracket.",
    )
    INTERNAL_THREAD = _reject(
        "internal-thread", "The anchor has an internal thread.", remedy="Allow an internal thread."
    )
    NO_ROD_THREAD = _reject(
        "takes-no-rod",
        "The anchor has no thread for a rod.",
        remedy="Hang the rod from a bracket that is made for this anchor.",
    )
    OTHER_THREAD = _reject(
        "rod-thread-differs",
        "The anchor's thread is not that of the rod.",
        quantity="length",
        remedy="Join the rod to a stud by a reducing coupling, or take a rod of the stud's thread where that holds.",
    )
    HOLE_SHARE = _reject(
        "hole-beyond-share",
        "The hole is deeper than the share of the member that is allowed.",
        quantity="length",
        remedy="Have the engineer allow the deeper hole.",
    )
    HOLE_DEPTH = _reject(
        "hole-too-deep",
        "The hole is deeper than is allowed.",
        quantity="length",
        remedy="Have the engineer allow the deeper hole once reinforcement and tendons are located.",
    )
    EMBEDMENT_THROUGH = _reject(
        "embedment-through-member",
        "The embedment reaches or passes the far face of the member.",
        quantity="length",
    )
    HOLE_THROUGH = _reject(
        "hole-through-member", "The hole reaches or passes the far face of the member.", quantity="length"
    )
    ANCHORS_COINCIDE = _reject(
        "anchors-coincide", "Two anchors of the layout would stand in each other.", quantity="length"
    )
    NO_CONDITION = _reject(
        "no-such-condition", "The data of this adhesive don't have the stated temperature range or state of the hole."
    )
    JOINT_NOT_STATED = _reject(
        "joint-distance-not-stated",
        "The table limits the distance to a mortar joint: state base.masonry.joint_distance.",
        "product data",
    )
    FACE_SHELL_NOT_STATED = _reject(
        "face-shell-not-stated",
        "The table limits the thickness of the face shell: state base.masonry.face_shell.",
        "product data",
    )
    COVER_NOT_STATED = _reject(
        "cover-not-stated",
        "The table limits the concrete below the core: state base.hollow_core.cover.",
        "product data",
    )
    STRAND_NOT_STATED = _reject(
        "strand-distance-not-stated",
        "The table limits the distance to a strand: state base.hollow_core.strand_distance.",
        "product data",
    )
    F_M_NOT_STATED = _reject(
        "masonry-strength-not-stated", "A cast-in bolt in masonry goes by f'm: state base.masonry.f_m.", "TMS 402"
    )
    ROD_RULE = _reject(
        "rod-rule-is-by-strength",
        "The anchor goes by allowable loads here, and rod.rule by factored ones: name a rule by allowable loads.",
    )
    ROD = _reject("rod-does-not-hold", "The rod does not hold its load; no anchor mends that.", quantity="ratio")
    UTILISATION = _reject("utilisation-above-one", "The anchor is loaded beyond its strength.", quantity="ratio")
    RESERVE = _reject(
        "reserve-not-kept",
        "The anchor holds, but without the reserve that is asked for.",
        "reading 42",
        quantity="ratio",
        remedy="Accept less reserve.",
    )
    SAME_PRODUCT = _reject("same-product", "This is the product that is to be substituted.")
    LESSER_CRACKED = _reject(
        "not-equal-in-cracked",
        "The product named is qualified in cracked concrete, and this one is not.",
        "reading 42",
    )
    LESSER_SEISMIC = _reject(
        "not-equal-for-earthquake",
        "The product named is qualified for earthquake, and this one is not.",
        "reading 42",
    )
    LESSER_SUSTAINED = _reject(
        "not-equal-for-sustained-tension",
        "The product named may carry tension that stays, and this one may not.",
        "reading 42",
    )
    LESSER_OVERHEAD = _reject(
        "not-equal-overhead", "The product named may hang loads from a soffit, and this one may not.", "reading 42"
    )
    LESSER_PROTECTION = _reject(
        "not-equal-in-protection",
        "The product named is made for a harder exposure than this one.",
        "reading 42",
    )
    NO_MODE = _reject("nothing-checked", "Nothing of this anchor was checked against the load.")


class SelectionAssumption(Enum):
    """A default of a choice, taken because the request is silent."""

    OBJECTIVE = say("objective-cost-index", "The best is what has the least cost index.")
    RESERVE = say("reserve-ten-percent", "A reserve of 10 % is kept: utilisation is at most 0.9.", "reading 42")
    ALL_STOCKED = say("every-family-stocked", "Every family of the catalogue is taken to be stocked.")
    POST_INSTALLED = say("concrete-hardened", "The concrete is there: anchors that are cast in are left out.")
    ROD_THREAD = say("rod-thread-matched", "Where a rod is stated the anchor takes a rod of that thread.")
    TOOLS = say("setting-tools-at-hand", "Every setting tool is taken to be at hand.")
    UNTRAINED = say("no-trained-installer", "Nobody with training for the product is taken to be there.")
    DRY = say("exposure-dry", "The place is taken to be indoors and dry where a point's environment states none.")
    HARDER_EXPOSURE = say(
        "harder-exposure",
        "The exposure wanted and that of a point's environment differ: at each point the harder of the two holds.",
    )
    NO_VIBRATION = say("no-vibration", "No vibration is taken to act where a point's environment states none.")
    HOLE_DEPTH = say("hole-depth-by-member", "Only the thickness of the member and the product limit the hole.")
    PROTECTION = say(
        "protection-not-compared",
        "The product named states no steel and coating: whether a substitute is protected as well is not compared.",
        "reading 42",
    )


class Change(Enum):
    """What would let a point be held: each is checked as it is told."""

    WISH = say("wish-given-up", "A candidate holds if a wish of the request is given up.", "reading 42")
    SHARE_LOAD = say(
        "load-shared",
        "Hangers closer together, or more of them: the point then carries this share of its load.",
        "reading 42",
    )
    STATE = say(
        "distance-stated",
        "The point doesn't state a distance that tables limit: if it is at least this limit, the candidate holds.",
        "product data",
    )
    MOVE = say("moved-from-edge", "The point moved so that no edge is nearer than this.", "reading 42")
    LARGER_ROD = say("larger-rod", "A larger rod, of this diameter.", "reading 42")


APPROVAL_TEXT = (
    "A substitute is not equal by this comparison: the design professional approves it in writing before it is set,"
    " by the current evaluation data of both products (reading 42)."
)
PRINCIPLE_TEXT = (
    "The working principle changes: {substitute} instead of {named}. It is drilled, set, inspected and tested"
    " differently, and fails differently."
)
ENGINEER_TEXT = (
    "Strength and density of the base, cracks in concrete, thickness and the seismic design category are not for the"
    " estimator to change: the engineer would have to show other ones."
)
