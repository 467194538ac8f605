"""Closed lists of a submittal: why a point has a calculation sheet, and why a point has no proof test."""

from enum import Enum

from hangpoint.core.vocabulary.words import say


class SheetReason(Enum):
    """Why a point has a calculation sheet; the first that holds is said."""

    ASKED = say("asked-for", "The request asks for its sheet.")
    FAILS = say("fails", "It fails.")
    MOST_USED = say("most-used", "No other point with its product, base and face is used more.")


class NotTested(Enum):
    """Why the plan of a submittal has no test of a point; the first that holds is said."""

    NOT_PASSED = say("not-passed", "It does not pass: it is changed and checked again before anything is tested.")
    ALTERNATIVE = say(
        "same-anchors-as-another",
        "Its anchor is that of another point of the request under other loads, which is tested with more load.",
    )
    SEVERAL_ANCHORS = say(
        "several-anchors",
        "It has a layout of anchors: state the load of each anchor in a request for a test plan of its own.",
    )
    NO_BASIS = say(
        "no-basis",
        "The rule has no factor for what the check knows of it: strength by ACI 318, by EN 1992-4, or allowable load.",
    )
    SHARED_CONCRETE = say(
        "shared-concrete",
        "Points near it share its concrete: the strength is that of all of them, not of one anchor.",
    )
    OTHER_LOADS = say(
        "other-loads",
        "Loads beside dead load, contents and live load may pull at it, so its working load is not what hangs there.",
    )
    NO_TENSION = say("no-tension", "No tension of it is known, or none acts.")
