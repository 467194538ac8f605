"""What fields of requests hold that are none of hang points, loads and fixtures: for the published schemas."""

from collections.abc import Mapping

from hangpoint.api.schemas.field_texts import field_text
from hangpoint.api.schemas.load_texts import FIXTURE_ITEMS, LOAD_TEXTS

_NAME = "Name of the {}, its own in the request."
_ITEM = "The hang point, as a check takes it."
_MOST = "How many candidates are listed in their order; 5 where not stated."

HEAD: Mapping[str, str] = {
    "units": "Unit system of bare numbers in the request, and of its answer.",
    "project": "What the job is called, for the head of sheets and cards.",
    "design_code": "Design code of the check; aci318_19 where not stated.",
    "combinations": "How loads are combined; by strength where not stated.",
    "load_standard": "Standard whose load combinations hold; asce7_16 where not stated, en1990 with en1992_4 and never"
    " without it.",
    "detail": "How much of the calculation comes back; of one item its trace where not stated.",
    "neighbours": "Whether points near each other are checked together; yes where not stated.",
    "structural_limits": "What the structural notes allow of service load.",
    "defaults": "Values for every item that doesn't give its own, key by key.",
    "items": "The items; the answer has a result each, in this order.",
    "item": _ITEM,
    "rule": "Rule that anchors are tested by.",
    "want": "What is wanted of a product.",
    "most": _MOST,
}
"""What stands at the head of requests, whatever they ask."""

_OF_A_CHECK = ("design_code", "combinations", "load_standard", "detail", "neighbours", "structural_limits")
_UNUSED = "Of a check; it may stand here and is not used."
_WHERE: Mapping[str, str] = {
    "level": "Level of the job that the anchor is on.",
    "area": "Area of the job that the anchor is in.",
    "crew": "Crew that set the anchor.",
    "day": "Day on which the anchor was set.",
}
_PLANNED: Mapping[str, str] = {
    **_WHERE,
    "id": _NAME.format("anchor, or of the anchors of one layout"),
    "use": "What the anchor is used for: rules ask another share of tests of each use.",
    "anchor": "The anchor: a product, and how many of it where.",
    "load": "Load of one anchor, of the basis that is stated.",
    "basis": "What the load is; a rule has a factor for some bases only.",
    "base": "What the anchor is set in: the concrete is compared with the test load where it is stated.",
}
_TEST: Mapping[str, str] = {
    **_WHERE,
    "id": "Name of the anchor that was tested, as the plan's log has it.",
    "group": "Group of the plan that the test stands for; handed back.",
    "product": "Product of the anchor; handed back.",
    "use": _PLANNED["use"],
    "method": "Whether the jack was supported beside the anchor or clear of its concrete; handed back.",
    "test_load": "Load that the plan asks for.",
    "most_load": "Load that no test may exceed, as the plan has it.",
    "hold_seconds": "How long the load has to stay on, in seconds; as the rule says where not stated, never less.",
    "findings": "Findings of the plan's row; handed back.",
    "applied": "Load that was applied; a test without it is open.",
    "held_seconds": "How long the load stayed on, in seconds.",
    "displacement": "Displacement of the anchor under the load, if it was measured.",
    "moved": "Whether anything moved, cracked or came loose.",
    "notes": "Notes of whoever tested; handed back.",
    "inspector": "Who saw the test; handed back.",
    "trace": "Calculation of the plan's row; not read.",
}
_LOG: Mapping[str, str] = {
    "rule": "Rule that the tests are judged by.",
    "displacement_limit": "Displacement above which a test fails; none where not stated.",
}
_FOUND: Mapping[str, str] = {
    **_WHERE,
    "id": _NAME.format("anchor"),
    "type_seen": "What type of anchor it was seen to be.",
    "diameter": "Diameter of the anchor as measured.",
    "thread": "Thread of the anchor as seen, as 3/8-16.",
    "projection": "How far the anchor projects from the base.",
    "embedment": "How deep the anchor is set, and how that is known.",
    "corrosion": "Corrosion that was seen.",
    "damage": "Damage that was seen; an empty list where someone looked and found none.",
    "edges": "Distances to the edges of the member on its four sides.",
    "thickness": "Thickness of the member.",
    "base": "What the anchor was seen to be set in.",
    "face": "Face of the member that the anchor is in; a soffit where not stated.",
    "post_tensioned": "Whether the member is post-tensioned.",
    "steel": "Steel of the anchor, and how it is known.",
    "documents": "Records of the installation that there are.",
    "use": "What the anchor would be used for; structural where not stated.",
    "load": "Load that the anchor would have to carry, of the basis that is stated.",
    "basis": _PLANNED["basis"],
}
_AS_BUILT: Mapping[str, str] = {
    "id": _NAME.format("anchor"),
    "at": "Where the anchor is in the job.",
    "trade": "Trade that the anchor is of, as mechanical.",
    "tags": "Words of your own; handed back.",
    "area": "Area of the job; handed back.",
    "anchor": "The product that was required.",
    "required": "What was required besides the product's data, or in their place.",
    "set": "The anchor as it was set.",
}
_WANT: Mapping[str, str] = {
    "objective": "What the best has least of, of reserve the most; cost_index where not stated.",
    "families": "Families that are stocked, by their names in the catalogue; every one where not stated.",
    "placing": "Whether it is set into concrete that is there or into fresh concrete; post_installed where not stated.",
    "rod_thread": "Whether the anchor takes the thread of the stated rod; match where not stated.",
    "removable": "Whether it has to be removable; no matter where not stated.",
    "seat": "Whether it ends flush with the base or is a stud that projects; no matter where not stated.",
    "internally_threaded": "Whether it has an internal thread; no matter where not stated.",
    "tools": "Setting tools at hand, in the words of the catalogue; every one where not stated.",
    "trained": "Whether people trained for the product set it; no where not stated.",
    "exposure": "What the place is exposed to; dry where not stated.",
    "vibration": "Whether vibration acts there; no where not stated.",
    "deepest_hole": "Depth that no hole may exceed.",
    "hole_share": "Share of the member's thickness that no hole may exceed, from 0 to 1.",
    "reserve": "Share of the strength of anchor and base that is kept, from 0 to 0.9; 0.1 where not stated.",
}
_COUNTED: Mapping[str, str] = {
    **dict.fromkeys(("hangs", "attachment", "seismic", "environment", "options"), _UNUSED),
    "base": "What the anchor is set in; only its member is read, of points with alternative_of.",
}
_SUBMITTAL: Mapping[str, str] = {
    "detail": _UNUSED,
    "sheets": "Which points have calculation sheets; worst where not stated: the most used of each product, base and"
    " face, and points that fail, up to 20 in all.",
    "only": "Ids of the points whose calculation sheets are wanted, in place of sheets.",
    "test_rule": "Rule that the anchors are tested by; without it there is no plan of tests.",
    "test_use": "What the anchors are used for: rules ask another share of tests of each use.",
}
_QUESTION = "Which question it is."
_BARE_QUESTIONS = (
    "LargestLoad",
    "LeastEmbedment",
    "LeastRod",
    "LeastThickness",
    "LeastStrength",
    "LargestHangerSpacing",
)
_FIXED: Mapping[str, str] = {
    "embedment": "Nominal embedment, to which the anchor is driven.",
    "torque": "Torque applied when the anchor is set.",
    "hole_diameter": "Diameter of the hole.",
    "hole_depth": "Depth of the hole.",
}

RESOURCE_TEXTS: Mapping[str, Mapping[str, str]] = {
    "Project": {
        "name": "Name of the job.",
        "number": "Number of the job.",
        "revision": "Revision of the calculation.",
        "date": "Date of the calculation, printed as it stands.",
        "prepared_by": "Who prepared the calculation.",
    },
    "StructuralLimit": {
        "id": _NAME.format("limit"),
        "level": "Level whose points it holds for; any where not stated.",
        "member": "Member whose points it holds for; any where not stated.",
        **{
            f"{axis}_{end}": f"{'Least' if end == 'from' else 'Largest'} {axis} of the points, in the axes of the job;"
            " no bound where not stated."
            for axis in "xy"
            for end in ("from", "to")
        },
        "most_per_point": "Service load that no point may exceed.",
        "most_total": "Service load that all its points together may not exceed.",
        "most_per_area": "Service load per area that all its points together may not exceed; needs all four bounds.",
    },
    "Group": {
        "id": "Name of the group; group where not stated.",
        "loads": "Loads at the anchors: components, or factored load cases.",
        "anchor": "The anchors: a product, and where they stand.",
        "base": "What the anchors are set in.",
        "attachment": "What is fixed to the base by the anchors.",
        "seismic": "What the check asks about earthquake.",
        "options": "Choices that the standard leaves open.",
        "environment": "Where the anchors live and what touches them.",
    },
    "GroupRequest": {"group": "The group of anchors."},
    "BatchRequest": {"detail": "How much of the calculation comes back; modes where not stated."},
    "StreamHeader": {
        "units": "Unit system of bare numbers in the lines, and of the answer; stated here or in the query.",
        "detail": "How much of the calculation comes back; modes where not stated.",
        "neighbours": "Whether points near each other are checked together; no where not stated.",
    },
    "SubmittalRequest": _SUBMITTAL,
    "CardsRequest": {
        "job": "What the job is called, printed on every card.",
        "design_code": "Design code that places are compared by; where not stated that of each product's figures.",
        **dict.fromkeys(("detail", "neighbours", "structural_limits"), _UNUSED),
    },
    "TakeOffRequest": {
        "waste": "Shares that are added to what is used.",
        "stock": "What rods are cut from, and packages.",
        "crews": "Crews with a set of tools each; 1 where not stated.",
        **dict.fromkeys((*_OF_A_CHECK, "project"), _UNUSED),
    },
    **dict.fromkeys(("TakeOffItem", "PartialTakeOffItem"), _COUNTED),
    "Waste": {
        "anchors": "Share of anchors and of holes added; 0.05 where not stated.",
        "rods": "Share of bars of rod added, besides what is left of cut bars; 0.03 where not stated.",
        "hardware": "Share of nuts, washers, couplings and nozzles added; 0.05 where not stated.",
        "adhesive": "Share of adhesive added to what the rings hold; 0.15 where not stated.",
        "charges": "Share of charges added; 0.05 where not stated.",
    },
    "Stock": {
        "rod_length": "Length of the bars that rods are cut from; 10 ft (3.048 m) where not stated.",
        "kerf": "What a cut takes of the bar; 1/8 in (3.2 mm) where not stated, 0 of a bar that is sheared.",
        "shortest_piece": "Least piece of a rod that is longer than the bars; 6 in (152 mm) where not stated.",
        "packs": "Pieces in a package.",
    },
    "Packs": {
        "nuts": "Nuts in a package; 100 where not stated.",
        "washers": "Washers in a package; 100 where not stated.",
        "couplings": "Couplings in a package; 25 where not stated.",
        "nozzles": "Nozzles in a package; 10 where not stated.",
        "rods": "Bars of rod in a bundle; 1 where not stated.",
    },
    "AsBuiltRequest": {
        "torque_tolerance": "Share of the required torque by which the applied one may differ, either way; where not"
        " stated 0.1 below and nothing above.",
    },
    **dict.fromkeys(("AsBuiltItem", "PartialAsBuiltItem"), _AS_BUILT),
    "RequiredOfAnchor": {
        **_FIXED,
        "test_load": "Load of the test that the anchor has to pass.",
        "hold_seconds": "How long the test load has to stay on, in seconds.",
    },
    "AnchorSet": {
        **_FIXED,
        "product": "Product that was set, by its address family/size/h_ef.",
        "torque": "Torque applied when the anchor was set, not a later reading.",
        "date": "Day on which it was set, as 2026-05-31.",
        "installer": "Who set it.",
        "inspector": "Who inspected it.",
        "batch": "Batch of the product.",
        "expiry": "Day on which the batch expires, as 2026-05-31.",
        "deviation": "Remark of whoever set it on what went otherwise.",
        "test": "The test of the anchor.",
    },
    "AnchorTest": {
        "load": "Load of the test.",
        "hold_seconds": "How long the load stayed on, in seconds.",
        "held": "Whether the anchor held it.",
    },
    **dict.fromkeys(("PlanItem", "PartialPlanItem", "WhereAndWho"), _PLANNED),
    **dict.fromkeys(("TestRow", "PartialTest"), _TEST),
    "NotedFinding": {"code": "Code of the finding.", "text": "The finding in words."},
    "LogRequest": _LOG,
    **dict.fromkeys(("FoundAnchor", "PartialFound"), _FOUND),
    "FoundDepth": {"depth": "Embedment of the anchor.", "by": "How it is known."},
    "FoundSteel": {
        "a_se": "Smallest area of the steel in tension.",
        "f_ya": "Yield strength of the steel.",
        "by": "How both are known.",
    },
    "OpenAnchor": {
        "layout": "Where the anchors stand; without it one anchor stands at the origin.",
        "adhesive": "How an adhesive anchor would be set.",
    },
    **dict.fromkeys(("Want", "JobWant"), _WANT),
    "JobSelectionsRequest": {
        "limits": "How many different products, bits and families the plan may have.",
        "most_products": "How many products the list of what each further one saves goes to; 5 where not stated.",
        "neighbours": "Whether the chosen points are checked once more with their neighbours; yes where not stated.",
    },
    "JobLimits": {
        "products": "Most different products; no limit where not stated.",
        "bits": "Most different diameters of bits; no limit where not stated.",
        "families": "Most different families; no limit where not stated.",
    },
    "SubstitutionsRequest": {"item": "The hang point with the product that is named for it."},
    "BaseInterviewRequest": {"item": "The hang point as far as it is known; it may be empty."},
    "RelocationRequest": {
        "item": "The hang point at its old place, as a check takes it.",
        "old_hole": "The hole that was given up.",
        "move": "Where the point goes; without it places near by are looked for.",
        "within": "How far places are looked for; 24 in (600 mm) where not stated.",
        "rod_length": "Length of the rod where what hangs stays and the rod leans; it stays plumb where not stated.",
        "scanned_by": "Who scanned the new place for tendons.",
        "neighbours": "Other points of the member, as a check takes them.",
    },
    "OldHole": {
        "depth": "Depth of the old hole.",
        "filled": "Whether it is filled with high-strength mortar; no where not stated.",
        "x": "Along x, from the origin of the layout; 0 where not stated.",
        "y": "Along y, from the origin of the layout; 0 where not stated.",
    },
    "Move": {"dx": "Move along x in the face of the base.", "dy": "Move along y in the face of the base."},
    "RemediesRequest": {"reserve": "Share of the utilisation that a remedy has to leave; 0.1 where not stated."},
    "ReverseCheckRequest": {"question": "What is asked about the hang point."},
    **{name: {"kind": _QUESTION} for name in _BARE_QUESTIONS},
    "LeastEdge": {"kind": _QUESTION, "side": "Side whose edge is asked about, or the one stated nearest."},
    "LeastSpacing": {
        "kind": _QUESTION,
        "along": "Axis along which the layout is drawn together; about its middle where not stated.",
        "neighbour": "Another point whose least distance is asked for, in place of the spacing of the layout.",
        "towards": "Side on which the neighbour stands.",
    },
    "Envelope": {
        "kind": _QUESTION,
        "shear_angle": "Direction of the shear, from x towards y, in degrees.",
        "points": "Number of points of the boundary; 13 where not stated.",
    },
    "SensitivitiesRequest": {"changes": "Changes of the item, side by side; the usual ones where not stated."},
    "NamedChange": {
        "name": "Name of the change, of your own.",
        "patch": "The change as a JSON Merge Patch (RFC 7396) of the item.",
    },
    "InlineProduct": {
        "traits": "What the product is for and how it is set.",
        "size": "Steel of the product.",
        "embedment": "Figures of the product at its embedment.",
    },
}
"""By the name of an object and of its field; before those of `HEAD`."""

ALIKE: Mapping[str, str] = dict.fromkeys(("OpenPoint", "PartialOpenPoint", "OpenItem"), "Item")
"""Objects whose fields have the sentences of a hang point."""


def request_text(name: str, field: str) -> str:
    """The sentence of a field of an object of a request; empty where it has none."""
    own = {**LOAD_TEXTS, **FIXTURE_ITEMS, **RESOURCE_TEXTS}.get(name, {}).get(field)
    head = HEAD.get(field, "") if name.endswith(("Request", "Header")) else ""
    return own or field_text(ALIKE.get(name, name), field) or head
