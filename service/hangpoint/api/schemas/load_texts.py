"""What each field of a request for hanger loads or fixtures holds, in a sentence: for the published schemas."""

from collections.abc import Mapping

_NATURE = "Nature of the load, which says its factors in combinations."
_DESCRIBED = "What it is, for whoever reads the answer."
_NUMBER = "How many alike there are; 1 where not stated."
_LINE_KIND = "What the line is; its other fields go by it."
_ALLOWANCE = "Share added to the weight for fittings and valves, from 0 to 1: 0.1 is ten per cent; 0 where not stated."
_WEIGHT = "Operating weight, contents among it."
_CONTENTS = "Part of the weight that may be absent, as when it is drained; 0 where not stated."
_ISOLATED = "Whether it stands or hangs on vibration isolators; no where not stated."
_HORIZONTAL = "Horizontal loads: live, wind, or an earthquake force that is stated."
_FORCES = "Forces as stated, along the axes of the anchors."
_RULES = "Rules of hanger spacing that the spans are compared with; none is chosen where none is named."
_MODEL = "How the run is brought to its hangers; the largest of all where not stated."
_OVERHANG = "What reaches beyond the {}; 0 where not stated."
_CENTRE = "Centre of gravity of the operating weight, from the origin of the {}."

_HEAD: Mapping[str, str] = {
    "load_standard": "Edition of ASCE 7 whose combinations and forces hold; asce7_16 where not stated.",
    "defaults": "Values for every item that doesn't give its own, key by key.",
}
_SHARED: Mapping[str, str] = {
    "id": "Name of the item, its own in the request; its hang points add a suffix to it.",
    "kind": "What the item is; its other fields go by it.",
    "at": "Where the item is in the job; its hang points have their places from it.",
    "trade": "Trade that the item is of, as mechanical; it goes on to the hang points.",
    "rod": "The rod of each hanger.",
    "erection_load": "Live load of a person or of work, at each hanger by itself; none where not stated.",
    "given": "Loads at single hangers as stated, besides what is computed.",
    "seismic": "What the component's seismic force is computed from; without it earthquake is not checked.",
    "line": "What hangs along the length.",
}
_SEISMIC: Mapping[str, str] = {
    "category": "Seismic design category of the building; it goes on to the hang points.",
    "s_ds": "Design spectral acceleration at short periods, S_DS, in g.",
    "i_p": "Importance factor of the component, 1.0 or 1.5; required beside S_DS.",
    "component": "What the component is in the table of coefficients; or state the coefficients.",
    "coefficients": "Coefficients of the component, in place of those of the table.",
    "z": "Height above grade of the place where the component is fixed; required unless at grade.",
    "h": "Height above grade of the roof; required unless at grade.",
    "at_grade": "Whether the component is fixed at or below grade, where z is 0; no where not stated.",
    "building": "What ASCE 7-22 asks of the building; the unknown case where not stated.",
    "isolator_gap": "Gap of the restraints of isolators; above 1/4 in (6 mm) the seismic force is doubled.",
    "brace": "Braces against the horizontal force; without one none reaches a hanger.",
    "bending_free": "Whether nothing bends the rod at its top, as a swivel; for exemptions from bracing.",
}
_SPANS = "Distances between hangers, in order."
_FROM_FIRST_ROD = "Distance from the first rod along the bar; negative on the end before it."

LOAD_TEXTS: Mapping[str, Mapping[str, str]] = {
    "Shared": _SHARED,
    "RunItem": {**_SHARED, "run": "Spans of the run and what reaches beyond them."},
    "RiserItem": {
        **_SHARED,
        "length": "Height of the line that the supports carry.",
        "supports": "Number of supports that carry it.",
        "model": "Whether one support carries all, as where not stated, or all carry alike.",
    },
    "TrapezeItem": {
        **_SHARED,
        "run": "How far the lines run to the next trapezes.",
        "rods_at": "Places of the rods along the bar from the first rod, which is at 0: two to four, rising.",
        "tiers": "Bars of the trapeze with what lies on each.",
        "spare": "Share of what hangs that is kept free for later, from 0 to 1; 0 where not stated.",
    },
    "EquipmentItem": {
        **_SHARED,
        "weight": _WEIGHT,
        "contents": _CONTENTS,
        "rods_at": "Places of the rods from any one origin.",
        "centre_of_gravity": _CENTRE.format("places of the rods"),
        "model": "How rods share the weight; the larger of both models where not stated.",
        "impact": "Factor on the weight for vibration and starting; 1 where not stated.",
        "isolated": _ISOLATED,
    },
    "LevelPlace": {
        "level": "Level of the job.",
        **{axis: f"Coordinate {axis} in the axes of the job, of the first hanger or rod." for axis in "xyz"},
        "bearing": "Direction of the run or bar in plan, from x towards y, in degrees.",
    },
    "Place": {axis: f"Coordinate {axis} from the one origin of all places of the item." for axis in "xy"},
    "RunLoad": {
        "at": "Distance from the first hanger of the run, or from the first rod of the bar.",
        "weight": "Weight of one.",
        "nature": f"{_NATURE} Dead load where not stated.",
        "number": _NUMBER,
        "description": _DESCRIBED,
    },
    "HangerRun": {
        "spans": _SPANS,
        "start_overhang": _OVERHANG.format("first hanger"),
        "end_overhang": _OVERHANG.format("last hanger"),
        "model": _MODEL,
        "point_loads": "Valves, flanges, drops and other weights on the run.",
        "missing_hanger": "Hanger that is not there or slack, counted from 0, or any: each in turn.",
        "spacing_rules": _RULES,
    },
    "TrapezeRun": {
        "spacing": "Distance of trapezes, the same on both sides; in place of spans.",
        "spans": f"{_SPANS} In place of a spacing.",
        "support": "Which hanger of the spans this trapeze is; the first is 0.",
        "model": _MODEL,
        "spacing_rules": _RULES,
    },
    "OnBar": {"at": _FROM_FIRST_ROD, "line": "The line that lies there."},
    "Channel": {
        "width": "Outside width of the strut.",
        "height": "Outside height of the strut.",
        "thickness": "Thickness of its wall.",
        "lip": "Depth of the lips at its open side; a plain channel without.",
        "lip_return": "Depth by which a lip turns back into the channel; 0 where not stated.",
        "inner_radius": "Inner radius of its corners; the thickness of the wall where not stated.",
        "slot": "Width of the slots along the middle of its back; none where not stated.",
        "back_to_back": "Whether two such channels stand back to back; one where not stated.",
    },
    "Bar": {
        "weight": "Weight of the bar per length, in place of its section; the bar is then not checked.",
        "section": "Section of the bar, by which it is weighed and checked.",
        "allowable_stress": "Allowable bending stress of the bar; required beside a section.",
        "modulus": "Modulus of elasticity of the bar; 29,000,000 psi where not stated.",
        "deflection_limit": "Span over deflection that the bar has to keep; 240 where not stated.",
        "start_overhang": _OVERHANG.format("first rod"),
        "end_overhang": _OVERHANG.format("last rod"),
    },
    "Tier": {
        "bar": "The bar of this tier.",
        "lines": "Lines that lie on the bar.",
        "loads": "Other weights on the bar.",
    },
    "HangerRod": {
        "size": "Size of the rod, as 3/8 or M10.",
        "material": "Grade of the rod.",
        "f_u": "Tensile strength of the rod, of a stated grade; 50 ksi where a rule needs it and none is known.",
        "rule": "Rule by which the rod's load is checked; the newer allowable of the hanger standard where not stated.",
        "length": "Length of the rod, by which its own weight counts; in no load where not stated.",
        "free_length": "Largest length of the rod between what holds it sideways; its length where not stated.",
        "out_of_plumb": "Angle of the rod from the vertical, in degrees; 0 where not stated.",
    },
    "GivenLoad": {
        "hanger": "Hanger of the item that takes the load, counted from 0.",
        "nature": f"{_NATURE} Earthquake is stated without Omega_0.",
        "tension": "Force down on the hanger; a negative one pushes it up.",
        "shear_x": "Horizontal force along x of the hang point.",
        "shear_y": "Horizontal force along y of the hang point.",
    },
    "Coefficients": {
        "a_p": "Amplification factor a_p of ASCE 7-16.",
        "r_p": "Response modification factor R_p of ASCE 7-16.",
        "omega_0": "Overstrength factor Omega_0 of anchorage in concrete, of ASCE 7-16.",
        "c_ar": "Resonance ductility factor C_AR of ASCE 7-22.",
        "r_po": "Strength factor R_po of ASCE 7-22.",
        "omega_0p": "Overstrength factor Omega_0p of anchorage in concrete, of ASCE 7-22.",
    },
    "Building": {
        "period": "Approximate fundamental period T_a of the building, in seconds.",
        "r": "Response modification factor R of its seismic system.",
        "i_e": "Importance factor I_e of the building.",
        "omega_0": "Overstrength factor Omega_0 of its seismic system.",
    },
    "Brace": {
        "angle": "Angle of the brace, in degrees.",
        "angle_from": "What the angle is measured from.",
        "spacing": "Distance of the braces of a line; required of runs and trapezes.",
        "number": "How many braces share the force of equipment in one direction in plan, a pair of cables as one;"
        " required there.",
        "direction": "Whether the brace acts across or along the run; across where not stated.",
    },
    "LoadSeismic": _SEISMIC,
    "HangerLoadsRequest": _HEAD,
    "Layer": {"thickness": "Thickness of the layer.", "density": "Density of the layer."},
    "Jacket": {
        "thickness": "Thickness of the insulation.",
        "density": "Density of the insulation.",
        "jacket": "Weight of the jacket over it per area; none where not stated.",
    },
    "PipeLine": {
        "kind": _LINE_KIND,
        "material": "Material of the pipe.",
        "size": "Nominal size of the pipe, as 4 or 1-1/4.",
        "schedule": "Schedule or type of the pipe, as 40 or STD; or state the wall.",
        "wall": "Thickness of the wall, in place of a schedule.",
        "contents": "What fills the pipe; required unless their density is stated or it is a sprinkler line.",
        "contents_density": "Density of the contents, in place of a word.",
        "sprinkler": "Whether the pipe is a sprinkler line; no where not stated.",
        "hydrotest": "Whether the line is tested filled with water, in place of its contents.",
        "insulation": "Insulation around the pipe; bare where not stated.",
        "allowance": _ALLOWANCE,
        "number": _NUMBER,
    },
    "DuctLine": {
        "kind": _LINE_KIND,
        "shape": "Shape of the duct.",
        "width": "Width of a rectangular duct, the larger dimension of a flat oval one.",
        "height": "Height of a rectangular duct, the smaller dimension of a flat oval one.",
        "diameter": "Diameter of a round duct.",
        "gauge": "Gauge of the sheet in the table that is named; or state its thickness.",
        "gauge_table": "Table that the gauge is of.",
        "thickness": "Thickness of the sheet, in place of a gauge: weighed as bare steel.",
        "reinforcement": "Share of the sheet's weight added for seams, joints and stiffeners; 0.25 where not stated.",
        "liner": "Lining inside the duct; none where not stated.",
        "wrap": "Insulation around the duct; bare where not stated.",
        "number": _NUMBER,
    },
    "ConduitLine": {
        "kind": _LINE_KIND,
        "type": "Type of the conduit.",
        "size": "Trade size of the conduit, as 1-1/4.",
        "cables": "Weight of the cables in it per length; or state how full it is.",
        "fill": "Share of the bore that copper conductors fill, from 0 to 1, in place of a weight.",
        "number": _NUMBER,
    },
    "TrayLine": {
        "kind": _LINE_KIND,
        "self_weight": "Weight of the empty tray per length.",
        "load_class": "Load class of the tray, whose load counts for its cables; or list the cables.",
        "cables": "Weights of its cables per length, one each.",
        "static_load": "Concentrated load that the tray has to carry on each span; none where not stated.",
        "span": "Span that a static load is stated for; on a shorter one between hangers it stands too.",
        "number": _NUMBER,
    },
    "StatedLine": {
        "kind": _LINE_KIND,
        "weight": "Weight per length, without the filling.",
        "filling": "Weight per length of what fills it and may be absent; 0 where not stated.",
        "description": _DESCRIBED,
        "allowance": _ALLOWANCE,
        "number": _NUMBER,
    },
    "FixturePlace": {
        "x": "Along x in the face of the base, from the origin of the anchors; 0 where not stated.",
        "y": "Along y in the face of the base, on a wall up; 0 where not stated.",
        "z": "Out of the face of the base.",
    },
    "BracketLoad": {
        "nature": _NATURE,
        "weight": "Weight that the arm carries.",
        "at": "Where it hangs: z is its distance from the wall.",
        "description": _DESCRIBED,
    },
    "HorizontalLoad": {
        "nature": f"{_NATURE} Wind is at strength level.",
        "force": "The force.",
        "at": "Where it acts.",
        "direction": "Direction in degrees from x, on a floor towards y, on a wall towards z; any where not stated.",
        "description": _DESCRIBED,
    },
    "FixtureForce": {
        "nature": _NATURE,
        "at": "Where the force acts.",
        "tension": "Force along z, away from the base.",
        "shear_x": "Force along x.",
        "shear_y": "Force along y; on a wall a weight is negative here.",
        "description": _DESCRIBED,
    },
    "FixtureSeismic": _SEISMIC,
    "FootPrint": {
        "width_x": "Width along x of the rectangle that the equipment stands on.",
        "width_y": "Width along y of it.",
        "center": "Middle of the rectangle; the origin of the anchors where not stated.",
    },
    "GuardLoad": {
        "rule": "Which load of a guard it is.",
        "height": "Height of the rail above the base.",
        "spacing": "Distance of the posts, of the load per length.",
    },
    "FixtureShared": {
        **{name: _SHARED[name] for name in ("at", "trade", "seismic")},
        "directions": "How many directions a force of any direction is looked at in; 4, of a post 8, where not stated.",
    },
    "FixturesRequest": _HEAD,
}
"""By the name of an object and of its field."""

_FIXTURE: Mapping[str, str] = {
    **LOAD_TEXTS["FixtureShared"],
    "id": _SHARED["id"],
    "kind": _SHARED["kind"],
    "loads": "What the arm carries.",
    "weight": _WEIGHT,
    "contents": _CONTENTS,
    "centre_of_gravity": _CENTRE.format("anchors"),
    "anchors_at": "Places of the anchors: three or more, not in one line.",
    "footprint": "Rectangle that it stands on and would tip over; its outermost anchors where not stated.",
    "isolated": _ISOLATED,
    "guard": "Named live load on a guard; never taken unless it is named.",
    "horizontal": _HORIZONTAL,
    "forces": _FORCES,
}
FIXTURE_ITEMS: Mapping[str, Mapping[str, str]] = dict.fromkeys(
    ("BracketItem", "WallEquipmentItem", "FloorEquipmentItem", "PostItem"), _FIXTURE
)
"""Items of fixtures, whose fields of one name mean the same."""
