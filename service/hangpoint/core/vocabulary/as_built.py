"""Closed lists of an as-built list: deviations, what was not recorded, and how the required values were found."""

from enum import Enum

from hangpoint.core.vocabulary.words import FindingEntry, Severity, say


def _deviates(code: str, text: str, quantity: str = "") -> FindingEntry:
    return FindingEntry(code=code, text=text, severity=Severity.VIOLATION, quantity=quantity)


class AsBuiltDeviation(Enum):
    """How an anchor as set differs from what was required. Whoever designed it decides what follows."""

    PRODUCT = _deviates("product-differs", "Another product was set than the one required.")
    EMBEDMENT = _deviates("embedment-short", "It is set less deep than required.", "length")
    TOO_DEEP = _deviates(
        "embedment-too-deep",
        "It is set deeper than its hole, or than an anchor may be that needs its exact depth (common practice).",
        "length",
    )
    TORQUE_LOW = _deviates(
        "torque-low", "The torque applied is below the required one by more than the tolerance.", "torque"
    )
    TORQUE_HIGH = _deviates(
        "torque-high", "The torque applied is above the required one by more than the tolerance.", "torque"
    )
    HOLE_DIAMETER = _deviates("hole-diameter-differs", "The hole was drilled with a bit of another diameter.", "length")
    HOLE_DEPTH = _deviates("hole-too-shallow", "The hole is less deep than required.", "length")
    HOLE_TOO_DEEP = _deviates(
        "hole-too-deep",
        "The hole is deeper than required: this anchor, displacement-controlled or undercut, needs its exact depth"
        " (common practice).",
        "length",
    )
    EXPIRED = _deviates("expired", "It was set after the date of expiry.")
    TEST_LOAD = _deviates("test-load-low", "The test load is below the required one.", "force")
    TEST_HIGH = _deviates(
        "test-load-high",
        "The test load is above 0.8 A_se f_ya of the product's data: its steel may have yielded, and whoever designed"
        " it decides whether it stays (common practice).",
        "force",
    )
    TEST_HOLD = _deviates("test-held-too-short", "The test load stayed on for less than the required time.")
    TEST_FAILED = _deviates("test-not-held", "The anchor did not hold its test load.", "force")
    REQUIRED_BELOW = _deviates(
        "required-below-product",
        "The embedment or torque that is required is below that of the product's data: the engineer has to confirm it.",
    )
    REQUIRED_OTHER = _deviates(
        "required-beyond-product",
        "The torque that is required is above that of the product's data, or the hole another one: the engineer has to"
        " confirm it.",
    )
    NOTED = _deviates("deviation-noted", "The installer noted a deviation: see the remark.")


class AsBuiltField(Enum):
    """What should have been recorded and was not."""

    PRODUCT = say("product", "The product that was set.")
    EMBEDMENT = say("embedment", "The embedment.")
    TORQUE = say("torque", "The torque, of a product that has an installation torque.")
    DATE = say("date", "The date.")
    INSTALLER = say("installer", "Who set it.")
    BATCH = say("batch", "The batch, of an adhesive.")
    EXPIRY = say("expiry", "The date of expiry, of an adhesive.")
    TEST = say(
        "test",
        "The test: its load and whether the anchor held it, where one is required or recorded; its time where one is"
        " required.",
    )
    HOLE_DIAMETER = say(
        "hole_diameter", "The diameter of the bit, of an adhesive and of an anchor that needs its exact depth."
    )
    HOLE_DEPTH = say("hole_depth", "The depth of the hole, of an adhesive and of an anchor that needs its exact depth.")


class AsBuiltUncompared(Enum):
    """What was recorded and compared with nothing, because neither the item nor the data of its product require it."""

    EMBEDMENT = say("embedment", "The embedment: the data of the product state h_ef only, which it is not less than.")
    TORQUE = say("torque", "The torque.")
    HOLE_DIAMETER = say("hole_diameter", "The diameter of the bit.")
    HOLE_DEPTH = say("hole_depth", "The depth of the hole.")


class AsBuiltAssumption(Enum):
    """How the required values were found where the request is silent."""

    TOLERANCE = say(
        "torque-tolerance-assumed",
        "The torque may be below the required one by 10 %, and not above it.",
        "common practice",
    )
    NOT_COMPARED = say(
        "inline-product-not-compared",
        "A product stated inline has no address: whether it is the one that was set is not compared.",
    )
    BY_PRODUCT = say(
        "required-by-product",
        "Embedment, torque and hole that an item doesn't require itself are those of its product's data.",
    )
    BY_SET_PRODUCT = say(
        "torque-and-hole-by-set-product",
        "Where another product of the catalogue was set than the one required, torque and hole that the item doesn't"
        " require itself, and the most that a test may pull, are those of the data of the one that was set.",
    )
    LEAST_EMBEDMENT = say(
        "embedment-not-below-h-ef",
        "An embedment that neither an item nor its product's data require is not less than h_ef; how much deeper it has"
        " to be is not known.",
    )
