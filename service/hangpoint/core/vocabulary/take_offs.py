"""Closed lists of a take-off: kinds of lines, defaults that were taken, what is in no count."""

from enum import Enum

from hangpoint.core.vocabulary.words import say

_DUST = "29 CFR 1926.1153 Table 1 (vii)"


class LineKind(Enum):
    """What a line of the pull list is, in the order of the list."""

    ANCHOR = say("anchor", "An anchor by its product.")
    ADHESIVE = say("adhesive", "Adhesive by volume; its packages are cartridges.", "geometry")
    CARTRIDGE = say("cartridge", "Cartridges of an adhesive, in the packages that they are ordered in.")
    NOZZLE = say("nozzle", "A mixing nozzle for each cartridge, besides the one that may come with it.")
    CHARGE = say("charge", "What drives fasteners besides the tool: powder charges, cans of gas.")
    ROD = say("rod", "Bars of threaded rod, of the stock length, that the cut list is cut from.")
    COUPLING = say("coupling", "Couplings at joints of long rods and below anchors with an external thread.")
    NUT = say("nut", "Hexagon nuts of the rods.")
    WASHER = say("washer", "Washers of the rods.")
    BIT = say("bit", "Bits by diameter, those with a stop by depth too, as many as wear out.")
    SETTING_TOOL = say("setting_tool", "The tool without which a product can't be set.")
    TORQUE_WRENCH = say("torque_wrench", "A calibrated torque wrench, where a product has an installation torque.")
    BRUSH = say("brush", "A brush by the diameter of the hole, for adhesive anchors.")
    PUMP = say("pump", "A hand pump or oil-free compressed air, for holes of adhesive anchors.")
    SHROUD = say("shroud", "A shroud with dust collector for each rotary hammer.", _DUST)
    VACUUM = say("vacuum", "A HEPA-filtered vacuum for the cleaning of holes.", _DUST)


class TakeOffAssumption(Enum):
    """A default taken because the request is silent, or how something was counted."""

    QUANTITY = say("quantity-one-assumed", "An item that states no quantity is one point.")
    AS_STATED = say(
        "counted-as-stated",
        "Points are counted with the products that they state. Whether one holds or may be set there is not checked.",
    )
    ONE_ROD = say("one-rod-assumed", "A point with a rod that states no number has one rod.")
    ENDS = say("rod-ends-assumed", "A rod has two nuts and two washers.", "common practice")
    ANCHOR_COUPLING = say(
        "coupling-at-anchor-assumed",
        "A rod below an anchor of its own with the same thread is joined to it by a coupling, and screwed into an"
        " internal one.",
        "common practice",
    )
    OWN_HARDWARE = say("anchor-brings-its-hardware", "Nuts and washers of an anchor are in its package.")
    WASTE_ANCHORS = say("waste-of-anchors-assumed", "5 % more anchors, and 5 % more holes to drill.", "common practice")
    WASTE_RODS = say(
        "waste-of-rods-assumed", "3 % more bars of rod, besides what is left of the cut bars.", "common practice"
    )
    WASTE_HARDWARE = say("waste-of-hardware-assumed", "5 % more nuts, washers, couplings, nozzles.", "common practice")
    WASTE_ADHESIVE = say(
        "waste-of-adhesive-assumed",
        "15 % more adhesive than the rings hold, for first strokes and overfilling.",
        "common practice",
    )
    WASTE_CHARGES = say("waste-of-charges-assumed", "5 % more charges.", "common practice")
    STOCK_LENGTH = say("stock-length-assumed", "Rod comes in bars of 10 ft (3.048 m).", "common practice")
    KERF = say("kerf-assumed", "Every cut takes 1/8 in (3.2 mm) of the bar.", "common practice")
    SHORTEST = say(
        "shortest-piece-assumed",
        "A long rod has no piece under 6 in (152 mm): its last two pieces are then alike.",
        "common practice",
    )
    PACKS = say(
        "hardware-packs-assumed",
        "Nuts and washers come in packages of 100, couplings of 25, nozzles of 10, rod by the bar.",
        "common practice",
    )
    BIT_LIFE = say("bit-life-assumed", "A bit of a product that says nothing lasts 200 holes.", "common practice")
    CARTRIDGE = say(
        "cartridge-assumed", "A cartridge of an adhesive that says nothing holds 17 in3 (279 mL).", "common practice"
    )
    RING = say(
        "adhesive-fills-the-ring",
        "Adhesive fills the space between hole and thread over the depth of the hole. What comes out of a hole that is"
        " filled by two thirds before the rod goes in, as cards ask, is not in it: up to as much again, which the waste"
        " has to cover.",
    )
    CREWS = say("one-crew-assumed", "One crew: one of each tool.", "common practice")
    DUST = say(
        "dust-by-table-1",
        "Holes are drilled with a shroud or cowling and a dust collector with the airflow that the maker of the tool"
        " recommends and a filter of 99 % or more with its cleaning; holes are cleaned with a HEPA-filtered vacuum.",
        _DUST,
    )


class TakeOffNotCounted(Enum):
    """What is in no count; those of single items stand with them."""

    INVALID = say("invalid-items", "Items that are invalid: nothing of them is in any count.")
    ALTERNATIVE = say(
        "counted-with-another-item",
        "An item that is the anchors of another item under another load, as the directions of a fixture: it is counted"
        " with the first of them.",
    )
    NO_ROD = say("no-rod", "Rods of an item that states none.")
    ROD_LENGTH = say("rod-without-length", "The length of a rod that states none: it is in no bar and no cut.")
    ROD_JOINT = say(
        "rod-joint-open",
        "What joins a rod to an anchor of another thread or of none, or to what several anchors or rods share.",
    )
    COMMERCIAL = say(
        "no-commercial-data", "Package, minutes and cost index of a product that states none: it is pulled singly."
    )
    HOLE = say(
        "hole-not-stated",
        "Holes of a product whose data name none: drilled length, bits, dust collection, and the adhesive in them.",
    )
    OVERHEAD_ADHESIVE = say(
        "piston-plugs-caps-wedges",
        "Piston plugs, caps and wedges or clips for adhesive anchors that are set overhead or sideways: order them as"
        " their cards say.",
        "common practice",
    )
    HANGERS = say("hangers-and-supports", "Clevises, clamps, struts and beam clamps, and whatever else hangs.")
    LABOUR = say("other-labour", "Labour besides setting anchors: layout, scanning, rods, lifts, tests, remedies.")
    RESERVE = say("tests-and-remedies", "Anchors for tests, and those that stand in for holes that hit reinforcement.")
