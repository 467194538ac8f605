"""What each field of a hang point holds, in a sentence: for the published schemas and the list of CSV columns."""

from collections.abc import Mapping

_NATURE = "Nature of the load, which says its factors in combinations."
_AXIS = "axis of the layout in the face of the base"
_ALONG_X, _ALONG_Y = (f"Along the {axis} {_AXIS}." for axis in "xy")
_POINT: Mapping[str, str] = {
    "id": "Name of the hang point, its own in the request.",
    "alternative_of": "Name that points share which are one set of anchors under loads that act one at a time.",
    "at": "Where the point is in the job.",
    "trade": "Trade that the point is of, as mechanical; for whoever reads the answer.",
    "tags": "Words of your own, by which a take-off also counts.",
    "hangs": "What hangs from the point.",
    "rod": "The rod between what hangs and the anchor.",
    "anchor": "The anchor: a product, and how many of it where.",
    "base": "What the anchor is set in.",
    "attachment": "What is fixed to the base by the anchors.",
    "seismic": "What the check asks about earthquake.",
    "options": "Choices that the standard leaves open.",
    "environment": "Where the anchor lives and what touches it.",
    "area": "Area of the job, by which a take-off counts.",
    "quantity": "How many points are alike.",
}
_FACTORED: Mapping[str, str] = {
    "components": "Loads, each of one nature.",
    "sustained_fraction": "Share of factored tension that stays, from 0 to 1.",
    "earthquake_fraction": "Share of factored loads that earthquake makes, from 0 to 1.",
}
_HANGS: Mapping[str, str] = {
    "kind": "What hangs: a pipe, a weight, or loads stated as forces at the anchor.",
    "weight": "Weight that hangs from the point.",
    "nature": _NATURE,
    "material": "Material of the pipe.",
    "size": "Nominal size of the pipe, as 4 or 1-1/4.",
    "schedule": "Schedule or type of the pipe, as 40 or STD.",
    "wall": "Thickness of the wall, in place of a schedule.",
    "contents": "What the pipe is filled with.",
    "sprinkler": "Whether the pipe is a sprinkler line.",
    "hydrotest": "Whether the line is tested filled with water, in place of its contents.",
    "insulation": "Insulation around the pipe.",
    "allowance": "Share added to the weight for fittings and valves, from 0 to 1: 0.1 is ten per cent.",
    "run": "The hangers of the run that the pipe hangs from.",
    "at": "Where the forces act, from the origin of the layout; without it at the origin.",
    "load_cases": "Factored loads, each case checked by itself.",
    **_FACTORED,
}
_SIDE = "Distance from the anchor, or the origin of its layout, to the edge on the side of {} {}, or none."
_OPEN = "Distance to the nearest cell that is not grouted, or open head joint, on the side of {} {}, or none."
_CENTER: Mapping[str, str] = {axis: f"Coordinate {axis} of the middle, from the origin of the layout." for axis in "xy"}
_PATTERN: Mapping[str, str] = {
    "pattern": "Pattern in which the anchors stand.",
    "count": "Number of anchors of a row or circle.",
    "spacing": "Distance of the anchors of a row.",
    "angle": "Angle of the row, or of the first anchor of a circle, from x towards y, in degrees.",
    "center": "Middle of the pattern, from the origin of the layout.",
    "columns": "Number of anchors along x of a rectangle.",
    "rows": "Number of anchors along y of a rectangle.",
    "spacing_x": "Distance of the columns of a rectangle.",
    "spacing_y": "Distance of the rows of a rectangle.",
    "diameter": "Diameter of the circle.",
}
_REINFORCEMENT = "Reinforcement that takes the anchors' {} in place of concrete breakout."

FIELD_TEXTS: Mapping[str, Mapping[str, str]] = {
    "Item": _POINT,
    "At": {
        "level": "Level of the job; without a member points of one level are taken to share its slab.",
        **{axis: f"Coordinate {axis} in the axes of the job, by which near points are found." for axis in "xyz"},
    },
    "Component": {
        "nature": _NATURE,
        "tension": "Force away from the base.",
        "shear_x": f"Force along x, an {_AXIS}.",
        "shear_y": f"Force along y, an {_AXIS}.",
        "moment_x": "Moment about x, right-handed: a positive one pulls at +y.",
        "moment_y": "Moment about y, right-handed: a positive one pulls at -x.",
        "torsion": "Moment about z, out of the base: a positive one turns x towards y.",
    },
    "LoadCase": {"name": "Name of the load case.", **_FACTORED},
    "LoadPlace": {
        "x": _ALONG_X,
        "y": _ALONG_Y,
        "z": "Out of the base: shear that acts at a z makes a moment.",
    },
    "Hangs": _HANGS,
    "Insulation": {"thickness": "Thickness of the insulation.", "density": "Density of the insulation."},
    "PointLoad": {
        "at": "Distance from the first hanger of the run.",
        "weight": "Weight of the load on the run.",
        "nature": _NATURE,
    },
    "Run": {
        "spans": "Distances between the hangers of the run, in order; two for a hanger with pipe on both sides.",
        "support": "Which hanger of the run this point is; the first is 0, that between two spans 1.",
        "model": "How the run is brought to its hangers; without it the larger result.",
        "point_loads": "Valves and other loads on the run.",
        "missing_support": "Hanger that is taken to be lost; the first is 0.",
        "spacing_rule": "Rule of hanger spacing that the spans are compared with.",
    },
    "Rod": {
        "size": "Size of the rod, as 3/8 or M10.",
        "material": "Grade of the rod.",
        "f_u": "Tensile strength of the rod, of a stated grade.",
        "rule": "Rule by which the rod's load is checked.",
        "length": "Length of the rod, for a take-off.",
        "number": "Rods at the point, for a take-off; 1 where not stated.",
        "ends": "Hardware that ends each rod, for a take-off.",
    },
    "RodEnds": {
        "nuts": "Nuts of a rod.",
        "washers": "Washers of a rod.",
        "couplings": "Couplings of a rod besides those at the joints of bars.",
    },
    "Anchor": {
        "family": "Family of the product, by its name in the catalogue.",
        "size": "Size of the product, as 3/8 or M10.",
        "h_ef": "Effective embedment depth of the product.",
        "product": "Data of a product that the catalogue hasn't.",
        "layout": "Where the anchors stand; without it one anchor stands at the origin.",
        "adhesive": "How an adhesive anchor is set.",
    },
    "AdhesiveConditions": {
        "temperature": "Temperature range of the product's data, by its name.",
        "hole": "Whether the hole is dry or water-saturated when the anchor is set.",
        "concrete_age": "Age of the concrete at installation, in days.",
        "certified_installer": "Whether a certified installer sets it.",
        "continuous_inspection": "Whether it is set under continuous inspection.",
    },
    "AnchorPosition": {
        "x": _ALONG_X,
        "y": _ALONG_Y,
        "resists": "Axes along which this anchor takes shear; a slotted hole leaves one out.",
    },
    "Pattern": _PATTERN,
    "Center": _CENTER,
    "Base": {
        "kind": "What the base is of.",
        "masonry": "The masonry, of a base of that kind.",
        "hollow_core": "The plank, of a base of that kind.",
        "strength": "Strength of the concrete.",
        "density": "Density class of the concrete.",
        "lambda": "Factor for lightweight concrete, where it is known better than by its class.",
        "state": "Whether the concrete is taken as cracked, which it is where not stated.",
        "state_decided_by": "Who decided that the concrete stays uncracked.",
        "thickness": "Thickness of the member that the anchor is set in.",
        "member": "Name of the member: points of one member may share its concrete.",
        "edges": "Distances to the edges of the member on its four sides.",
        "supplementary": "Whether supplementary reinforcement is present.",
        "edge_reinforcement": "Reinforcement along the edge, for breakout in shear.",
        "bar_spacing": "Bars around the fastener for psi_re,N of EN 1992-4: wide is 150 mm apart or more, or bars of up"
        " to 10 mm 100 mm apart or more; close where not stated.",
        "splitting_reinforcement": "By EN 1992-4, in cracked concrete: reinforcement takes the splitting forces and"
        " keeps cracks to 0.3 mm, so that splitting isn't checked.",
        "anchor_reinforcement": "Reinforcement in place of concrete breakout.",
        "face": "Face of the member that the anchor is set in.",
        "facing": "Direction on plan that a side face looks to, from x towards y of the job, in degrees.",
        "deck": "The flute, of a base that is a filled deck.",
        "part": "What part of the building the member is.",
        "post_tensioned": "Whether the member is post-tensioned.",
        "scanned": "Whether the place was scanned for tendons.",
        "scanned_by": "Who scanned the place.",
        "existing": "Whether the member stood before this job.",
        "age_days": "Age of the concrete when the anchor is set, in days, as `adhesive.concrete_age` is.",
        "clear_cover": "Depth of the nearest reinforcement below the face that is drilled.",
        "tendon_depth": "Depth of the nearest tendon or strand below the face that is drilled.",
    },
    "Masonry": {
        "units": "How the units are filled.",
        "material": "What the units are made of.",
        "f_m": "Compressive strength of the masonry.",
        "joint_distance": "Distance from the anchor to the nearest mortar joint, or none.",
        "location": "Where in the unit the anchor stands.",
        "face_shell": "Thickness of the face shell of a hollow unit, or none.",
        "open_x_minus": _OPEN.format("negative", "x"),
        "open_x_plus": _OPEN.format("positive", "x"),
        "open_y_minus": _OPEN.format("negative", "y"),
        "open_y_plus": _OPEN.format("positive", "y"),
    },
    "HollowCore": {
        "location": "Where in the plank the anchor stands.",
        "cover": "Concrete below the core, or none.",
        "strand_distance": "Distance from the anchor to the nearest strand, or none.",
    },
    "Strength": {
        "f_c": "Compressive strength of the concrete, f'c.",
        "class": "Name of a strength class, in place of f'c.",
    },
    "Edges": {
        "x_minus": _SIDE.format("negative", "x"),
        "x_plus": _SIDE.format("positive", "x"),
        "y_minus": _SIDE.format("negative", "y"),
        "y_plus": _SIDE.format("positive", "y"),
    },
    "AnchorReinforcement": {
        "tension": _REINFORCEMENT.format("tension"),
        "shear": _REINFORCEMENT.format("shear"),
    },
    "Reinforcement": {"area": "Area of the bars.", "f_y": "Yield strength of the bars."},
    "Deck": {
        "flute": "Whether the anchor is in a lower or upper flute.",
        "flute_width": "Width of the flute.",
        "offset": "Distance of the anchor from the centre of the flute.",
        "cover": "Fill above the top of the deck.",
        "sheet": "Thickness of the steel of the deck.",
        "direction": "Axis that the flutes run along.",
    },
    "Attachment": {
        "plate": "Rigid plate over the anchors.",
        "welded": "Whether studs are welded to it.",
        "thickness": "Thickness of its steel.",
        "grout_pad": "Whether it stands on a grout pad.",
        "gap": "Free length of the anchor between base and attachment.",
        "annular_gap": "By EN 1992-4 under earthquake: holes of the fixture with clearance, or filled.",
        "grout_thickness": "By EN 1992-4: thickness of the grout pad; it is free length of a lever arm.",
        "grout_strength": "By EN 1992-4: compressive strength of the grout; below 30 N/mm2 a pad is a lever arm.",
        "grout_fills": "By EN 1992-4: whether the grout is known to fill all of the space below the fixture.",
        "clamped": "By EN 1992-4: whether nuts with washers clamp the fasteners to the concrete, below a lever arm.",
        "turning": "By EN 1992-4: whether what is fixed is free to turn or held, at a lever arm.",
        "survives_loss": "Whether the engineer has shown that what hangs stays up without this point.",
    },
    "Plate": {
        "width_x": "Width of the plate along x.",
        "width_y": "Width of the plate along y.",
        "center": "Middle of the plate, from the origin of the layout.",
        "support": "What the plate bears on; free, it hangs on its anchors alone.",
    },
    "Seismic": {
        "category": "Seismic design category of the building.",
        "s_ds": "Design spectral acceleration at short periods, S_DS, in g.",
        "tension_option": "Option of 17.10.5.3 for tension under earthquake.",
        "shear_option": "Option of 17.10.6.3 for shear under earthquake.",
        "stretch_length": "Length over which the anchor can stretch.",
        "upset_threads": "Whether the threads are upset.",
        "fully_threaded": "Whether the anchor is threaded over its entire length.",
        "performance_category": "By EN 1992-4: seismic performance category; else by Table C.1, or C2.",
        "a_g_s": "By EN 1992-4: a_g S of Table C.1 as a share of g; a_g has the factor of importance in it.",
        "importance_class": "By EN 1992-4: class of importance of the building, EN 1998-1, for Table C.1.",
        "connection": "By EN 1992-4: whether what is connected is structural, for Table C.1; so taken if not stated.",
        "design_option": "By EN 1992-4: option of 9.2 that the stated earthquake load belongs to.",
    },
    "Environment": {
        "exposure": "What the anchor is exposed to.",
        "attached_metal": "Metal of what is fixed to the anchor.",
        "rod_metal": "Metal of the rod.",
        "vibration": "Whether what hangs vibrates.",
        "fire_rating": "Fire rating that is asked for, in hours; by EN 1992-4 checked up to 2.",
        "fire_sides": "By EN 1992-4: whether one side of the member is exposed to fire, or several.",
    },
    "Options": {
        "oblique_shear": "How shear oblique to an edge is combined.",
        "interaction": "How tension and shear are combined.",
        "group_area": "Which projected area a group has.",
        "near_row": "By EN 1992-4: the row nearest to an edge takes the whole shear there, or its own share.",
        "masonry_edition": "Edition of TMS 402 that bolts in masonry go by.",
    },
}
"""By the name of an object and of its field."""

ALIKE: Mapping[str, str] = {
    **dict.fromkeys(("PartialItem", "PartialTakeOffItem", "TakeOffItem"), "Item"),
    **dict.fromkeys(("Loads", "ForcesHangs", "WeightHangs", "PipeHangs"), "Hangs"),
    **dict.fromkeys(("RowPattern", "RectanglePattern", "CirclePattern"), "Pattern"),
    "TakeOffRod": "Rod",
}
"""Objects whose fields have the sentences of another."""


def field_text(name: str, field: str) -> str:
    """The sentence of a field of an object; empty where it has none."""
    return FIELD_TEXTS.get(ALIKE.get(name, name), {}).get(field, "")
