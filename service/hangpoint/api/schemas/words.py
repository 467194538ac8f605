"""Words and limits that the requests share: closed lists of the trade, identifiers, shares."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

MAX_ID = 64
MAX_TEXT = 256
MAX_SPANS = 20
MAX_COMPONENTS = 20
MAX_LOAD_CASES = 20
MAX_ITEMS = 10_000
MAX_STRUCTURAL_LIMITS = 200

Identifier = Annotated[str, StringConstraints(min_length=1, max_length=MAX_ID)]
Text = Annotated[str, StringConstraints(min_length=1, max_length=MAX_TEXT)]
Share = Annotated[float, Field(ge=0, le=1)]

UnitSystem = Literal["us", "si"]
DesignCode = Literal["aci318_19", "en1992_4"]
Combinations = Literal["strength", "given_factored", "allowable"]
AsceEdition = Literal["asce7_16", "asce7_22"]
LoadStandard = Literal["asce7_16", "asce7_22", "en1990"]
Detail = Literal["verdict", "modes", "trace"]
LoadNature = Literal[
    "dead",
    "contents",
    "live",
    "roof_live",
    "snow",
    "wind",
    "earthquake",
    "test",
    "thermal",
    "sprinkler_rule",
]
PipeMaterial = Literal["steel", "stainless", "copper", "pvc", "cpvc", "ductile_iron"]
Contents = Literal[
    "empty",
    "water",
    "ethylene_glycol_30",
    "ethylene_glycol_50",
    "propylene_glycol_30",
    "propylene_glycol_50",
    "steam",
    "air",
    "gas",
]
RunModel = Literal["larger", "tributary", "continuous"]
SpacingRule = Literal[
    "b31_1_water",
    "b31_1_gas",
    "sp58_water",
    "sp58_copper_water",
    "plumbing_code",
    "sprinkler_standard",
    "sp58_vapour",
    "sp58_copper_vapour",
    "sp58_ductile_iron",
    "sprinkler_threaded_light_wall",
    "mechanical_code",
    "plumbing_code_uniform",
    "plumbing_code_new_jersey",
    "piping_handbook",
    "electrical_code",
    "electrical_code_threaded",
    "tray_class_span",
    "duct_dwelling",
    "duct_round",
    "duct_flexible",
]
RodRule = Literal["sp58_allowable", "sp58_allowable_older", "tensile_strength", "sprinkler_size_table"]
RodSizeRule = Literal["sprinkler_size_table", "piping_handbook_by_pipe", "specification_by_pipe"]
RodLoadRule = Literal["sp58_allowable", "sp58_allowable_older", "duct_standard"]
RodMaterial = Literal["unknown", "a36", "a307", "f1554_36"]
Density = Literal["normalweight", "sand_lightweight", "all_lightweight"]
ConcreteState = Literal["cracked", "uncracked"]
Face = Literal["soffit", "side", "top"]
SeismicCategory = Literal["A", "B", "C", "D", "E", "F"]
TensionOption = Literal["ductile_steel", "yielding_attachment", "non_yielding_attachment", "overstrength"]
ShearOption = Literal["yielding_attachment", "non_yielding_attachment", "overstrength"]
PerformanceCategory = Literal["C1", "C2"]
ImportanceClass = Literal["I", "II", "III", "IV"]
Connection = Literal["structural", "non_structural"]
DesignOption = Literal["capacity_design", "elastic_design", "ductile_failure"]
AnnularGap = Literal["open", "filled"]
Turning = Literal["free", "held"]
BarSpacing = Literal["close", "wide"]
EdgeReinforcement = Literal["none", "edge_bar", "edge_bar_and_stirrups"]
HoleCondition = Literal["dry", "water_saturated"]
NearRow = Literal["whole_shear", "own_share"]
ObliqueShear = Literal["vector", "separate", "linear"]
Interaction = Literal["trilinear", "power_5_3"]
GroupArea = Literal["union", "rectangle"]
Part = Literal["slab", "beam", "joist", "wall", "column", "topping"]
PostTensioned = Literal["yes", "no", "unknown"]
Flute = Literal["upper", "lower"]
Direction = Literal["x", "y"]
Exposure = Literal["dry", "damp", "outdoor", "chlorides", "pool", "treated_wood", "food"]
FireSides = Literal["one", "several"]
Metal = Literal["carbon", "galvanised", "stainless", "copper", "aluminium"]
Neighbours = Literal["check", "off"]
BaseKind = Literal["concrete", "masonry", "hollow_core", "deck", "steel", "wood", "unknown"]
MasonryUnits = Literal["hollow", "grouted", "solid"]
MasonryEdition = Literal["tms402_16", "tms402_13"]
MasonryMaterial = Literal["concrete", "clay"]
MasonryLocation = Literal["face", "cell", "web", "joint"]
PlankLocation = Literal["core", "web", "unknown"]
