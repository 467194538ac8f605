"""Closed list of what a load map says of its numbers: what is in them, and what is not."""

from enum import Enum

from hangpoint.core.vocabulary.words import say

_PRACTICE = "common practice"


class LoadMapNote(Enum):
    """What holds for the loads of a map, each where it applies."""

    SERVICE = say(
        "service-loads-unfactored",
        "Loads on the structure are service loads, unfactored: dead load, contents, live load and the 250 lb of"
        " sprinkler lines. Contents and live load that push take nothing off, because they may be absent; the"
        " most that the loads may push with is listed by itself.",
        _PRACTICE,
    )
    FACTORED_ONLY = say(
        "factored-loads-only",
        "The request states factored loads only: no service load is known, and none is on the map. The tensions and"
        " shears are as given.",
    )
    DIRECTION = say(
        "loads-normal-to-the-face",
        "A load is positive away from the face that it hangs from: down from a soffit, sideways from a side, up from a"
        " top. Points of different faces stand in maps of their own, and pulls are never set off against pushes.",
    )
    SPRINKLER = say(
        "sprinkler-load-on-the-structure",
        "At sprinkler points the load on the structure is the water-filled weight once and 250 lb, not the 5 x weight"
        " + 250 lb that the anchor is checked with.",
        "reading 29",
    )
    BESIDE = say(
        "natures-beside-the-load-on-the-structure",
        "Roof live load, snow, wind, test, thermal load and earthquake stand beside the load on the structure and are"
        " not in it; the engineer combines them.",
        _PRACTICE,
    )
    EARTHQUAKE = say(
        "earthquake-at-strength-level",
        "Earthquake is listed as stated, at the level of strength design, and may act either way; hang points that come"
        " from hanger loads or fixtures hold Omega_0 in it. Its vertical effect on what hangs is in no load of the map"
        " but the largest tension.",
        "ASCE 7 chapter 13",
    )
    SHEAR = say(
        "shears-in-no-sum",
        "Service shears are those of dead load, contents and live load along the axes of each face, contents and live"
        " load only where they add; the largest shear of all load cases stands beside them, without its direction."
        " Moments and torsion are not on the map, and no sum has a shear.",
    )
    ALLOWABLE = say(
        "tension-at-allowable-level",
        "Where a point goes by allowable loads, its tension and shear are those of the allowable-stress combinations,"
        " not factored.",
    )
    ALTERNATIVES = say(
        "alternatives-counted-once",
        "Points that name one set of anchors as theirs, such as the directions of a fixture, are one point in the sums,"
        " with the largest load of each nature that any of them has; the list has each of them.",
    )
    NOT_PLACED = say(
        "points-not-placed",
        "Points that state less than both coordinates are listed and in the sums of their level, and on no drawing.",
    )
    NOT_HELD = say(
        "loads-of-points-that-do-not-pass",
        "Points that failed or were refused are in the sums: what hangs there hangs from the structure.",
    )
    INVALID = say(
        "invalid-points-left-out",
        "Invalid items of the request are listed with their problems; their loads are in no sum and on no drawing.",
    )
    STRUCTURE = say(
        "structure-not-checked",
        "Whether the structure carries these loads is not checked: that is for the engineer of record.",
    )


class StructureLoad(Enum):
    """What the load on the structure of a point is."""

    SERVICE = say("service", "Dead load, contents and live load, unfactored.")
    SPRINKLER = say(
        "sprinkler_standard",
        "The same by the sprinkler standard: the water-filled weight once and 250 lb, with live load beside it.",
        "reading 29",
    )
