"""The request: one hang point or a batch of them.

Every key of an item but its ``id`` is optional on the wire, because a batch may give it once in ``defaults``; what is
missing in the end is a problem of that item alone. Objects merge key by key with the defaults, lists replace whole,
and so does ``hangs`` where the item names another kind than the defaults. ``hangs`` always names its kind, which says
what fields it has; ``base`` may take its kind from the defaults. A ``layout`` replaces whole in either form, and an
item that gives ``components`` or ``load_cases`` takes neither from the defaults.
"""

from typing import Annotated, Literal, NotRequired, Required

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.bases import Edges, HollowCore, Masonry, Strength
from hangpoint.api.schemas.layouts import STRICT, Attachment, Degrees, Layout
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.quantities import (
    CoordinateQuantity,
    DensityQuantity,
    DistanceQuantity,
    ForceQuantity,
    LayerQuantity,
    LengthQuantity,
    MomentQuantity,
    OffsetQuantity,
    StressQuantity,
    WeightQuantity,
)
from hangpoint.api.schemas.surroundings import AnchorReinforcement, Deck, Environment, StructuralLimit
from hangpoint.api.schemas.words import (
    MAX_COMPONENTS,
    MAX_ITEMS,
    MAX_LOAD_CASES,
    MAX_SPANS,
    MAX_STRUCTURAL_LIMITS,
    BarSpacing,
    BaseKind,
    Combinations,
    ConcreteState,
    Connection,
    Contents,
    Density,
    DesignCode,
    DesignOption,
    Detail,
    EdgeReinforcement,
    Face,
    GroupArea,
    HoleCondition,
    Identifier,
    ImportanceClass,
    Interaction,
    LoadNature,
    LoadStandard,
    MasonryEdition,
    NearRow,
    Neighbours,
    ObliqueShear,
    Part,
    PerformanceCategory,
    PipeMaterial,
    PostTensioned,
    RodMaterial,
    RodRule,
    RunModel,
    SeismicCategory,
    Share,
    ShearOption,
    SpacingRule,
    TensionOption,
    Text,
    UnitSystem,
)
from hangpoint.product.inline import InlineProduct


@with_config(STRICT)
class At(TypedDict, total=False):
    """Where the point is: level, and coordinates in the job's own axes."""

    level: Text
    x: CoordinateQuantity
    y: CoordinateQuantity
    z: CoordinateQuantity


@with_config(STRICT)
class Component(TypedDict):
    """One direct load of one nature: tension away from the base, shear along x and y in its face, and moments.

    Moments are right-handed about x, y and z with z out of the base, ``torsion`` that about z.
    """

    nature: LoadNature
    tension: NotRequired[ForceQuantity]
    shear_x: NotRequired[ForceQuantity]
    shear_y: NotRequired[ForceQuantity]
    moment_x: NotRequired[MomentQuantity]
    moment_y: NotRequired[MomentQuantity]
    torsion: NotRequired[MomentQuantity]


Components = Annotated[list[Component], Field(min_length=1, max_length=MAX_COMPONENTS)]


@with_config(STRICT)
class LoadCase(TypedDict):
    """One load case of factored loads; a share that it doesn't state is that of the point."""

    name: Text
    components: Components
    sustained_fraction: NotRequired[Share]
    earthquake_fraction: NotRequired[Share]


@with_config(STRICT)
class LoadPlace(TypedDict, total=False):
    """Where forces act, from the origin of the layout, z out of the base; 0 where not stated."""

    x: OffsetQuantity
    y: OffsetQuantity
    z: OffsetQuantity


@with_config(STRICT)
class Loads(TypedDict):
    """Loads at the anchors: service loads by nature, or factored loads with `given_factored` combinations.

    Factored loads are ``components``, or ``load_cases`` of which each is checked by itself. All act ``at`` one place.
    """

    at: NotRequired[LoadPlace]
    components: NotRequired[Components]
    load_cases: NotRequired[Annotated[list[LoadCase], Field(min_length=1, max_length=MAX_LOAD_CASES)]]
    sustained_fraction: NotRequired[Share]
    earthquake_fraction: NotRequired[Share]


@with_config(STRICT)
class ForcesHangs(Loads):
    """Direct forces, stated as loads at the anchors."""

    kind: Literal["forces"]


@with_config(STRICT)
class WeightHangs(TypedDict):
    """A weight that hangs from a point in a soffit; in a side face or a top state ``forces``."""

    kind: Literal["weight"]
    weight: NotRequired[WeightQuantity]
    nature: NotRequired[Literal["dead", "contents", "live"]]


@with_config(STRICT)
class Insulation(TypedDict, total=False):
    """Insulation around a pipe; a thickness of 0 is a bare one."""

    thickness: LayerQuantity
    density: DensityQuantity


@with_config(STRICT)
class PointLoad(TypedDict):
    """A load on the run, ``at`` measured from its first support."""

    at: DistanceQuantity
    weight: WeightQuantity
    nature: NotRequired[Literal["dead", "contents", "live"]]


@with_config(STRICT)
class Run(TypedDict, total=False):
    """The run of pipe: spans in order, and the index of the support that this point is (0 is the first)."""

    spans: Annotated[list[DistanceQuantity], Field(min_length=1, max_length=MAX_SPANS)]
    support: Annotated[int, Field(ge=0, le=MAX_SPANS)]
    model: RunModel
    point_loads: Annotated[list[PointLoad], Field(max_length=MAX_SPANS)]
    missing_support: Annotated[int, Field(ge=0, le=MAX_SPANS)]
    spacing_rule: SpacingRule


@with_config(STRICT)
class PipeHangs(TypedDict):
    """A pipe that hangs from this support of its run.

    ``hydrotest``: the line is tested filled with water, in place of its contents; to be stated of steam, air and gas.
    """

    kind: Literal["pipe"]
    material: NotRequired[PipeMaterial]
    size: NotRequired[Text]
    schedule: NotRequired[Text]
    wall: NotRequired[LengthQuantity]
    contents: NotRequired[Contents]
    sprinkler: NotRequired[bool]
    hydrotest: NotRequired[bool]
    insulation: NotRequired[Insulation]
    allowance: NotRequired[Share]
    run: NotRequired[Run]


Hangs = Annotated[ForcesHangs | WeightHangs | PipeHangs, Field(discriminator="kind")]


@with_config(STRICT)
class Rod(TypedDict, total=False):
    """The threaded rod between what hangs and the anchor, and the rule it is checked by."""

    size: Text
    material: RodMaterial
    f_u: StressQuantity
    rule: RodRule


@with_config(STRICT)
class AdhesiveConditions(TypedDict, total=False):
    """How an adhesive anchor is set and what was confirmed for it (17.2.2, 17.2.3, 26.7).

    ``temperature`` names a temperature range of the product's data; ``concrete_age`` is in days at installation.
    """

    temperature: Text
    hole: HoleCondition
    concrete_age: Annotated[float, Field(ge=0, le=100_000)]
    certified_installer: bool
    continuous_inspection: bool


@with_config(STRICT)
class Anchor(TypedDict, total=False):
    """A product of the catalogue by family, size and embedment, or its data inline; one anchor without a layout.

    A layout is a list of positions or a pattern.
    """

    family: Text
    size: Text
    h_ef: LengthQuantity
    product: InlineProduct
    layout: Layout
    adhesive: AdhesiveConditions


Base = with_config(STRICT)(
    TypedDict(
        "Base",
        {
            "kind": BaseKind,
            "masonry": Masonry,
            "hollow_core": HollowCore,
            "strength": Strength,
            "density": Density,
            "lambda": Annotated[float, Field(ge=0.5, le=1)],
            "state": ConcreteState,
            "state_decided_by": Text,
            "thickness": LengthQuantity,
            "member": Text,
            "edges": Edges,
            "supplementary": bool,
            "edge_reinforcement": EdgeReinforcement,
            "bar_spacing": BarSpacing,
            "splitting_reinforcement": bool,
            "anchor_reinforcement": AnchorReinforcement,
            "face": Face,
            "facing": Degrees,
            "deck": Deck,
            "part": Part,
            "post_tensioned": PostTensioned,
            "scanned": bool,
            "scanned_by": Text,
            "existing": bool,
            "age_days": Annotated[float, Field(ge=0, le=100_000)],
            "clear_cover": LengthQuantity,
            "tendon_depth": LengthQuantity,
        },
        total=False,
    )
)
Base.__doc__ = """What carries the anchor: concrete and decks state their density, masonry, planks and decks an object.

In steel, wood and what is unknown loads and rod are computed. A field that goes with another kind is an error.
Uncracked concrete names who decided that it stays so, a scan who made it. ``clear_cover`` is the depth of the nearest
reinforcement and ``tendon_depth`` that of the nearest tendon or strand, from the face that is drilled; ``age_days`` is
that of the concrete when the anchor is set, ``existing`` is of the member. In a side face x is to the right and y up as
one looks at it; its points are compared where z and the direction on plan that it looks to, ``facing``, are stated.
"""


@with_config(STRICT)
class Seismic(TypedDict, total=False):
    """Seismic design category of the building, and the options of 17.10.5.3 and 17.10.6.3 where earthquake governs.

    ``s_ds`` goes with service loads: the vertical effect of earthquake, 0.2 S_DS times dead load and contents, then
    acts, also without a load of nature earthquake. By EN 1992-4 none of these, but the seismic performance category,
    or what Table C.1 has it by, and the option of 9.2 that a stated earthquake load belongs to.
    """

    category: SeismicCategory
    s_ds: Annotated[float, Field(ge=0, le=5)]
    tension_option: TensionOption
    shear_option: ShearOption
    stretch_length: LengthQuantity
    upset_threads: bool
    fully_threaded: bool
    performance_category: PerformanceCategory
    design_option: DesignOption
    a_g_s: Annotated[float, Field(ge=0, le=5)]
    importance_class: ImportanceClass
    connection: Connection


@with_config(STRICT)
class Options(TypedDict, total=False):
    """Where the standard leaves a choice.

    How oblique shear is combined at an edge, and tension with shear; whether the projected area of a group is the union
    of the squares of its anchors or the rectangle around them; which edition bolts in masonry go by; by EN 1992-4
    whether the row nearest to an edge takes all shear there.
    """

    oblique_shear: ObliqueShear
    interaction: Interaction
    group_area: GroupArea
    masonry_edition: MasonryEdition
    near_row: NearRow


@with_config(STRICT)
class PartialItem(TypedDict, total=False):
    """Values for every item of a batch that doesn't give its own."""

    at: At
    trade: Text
    tags: Annotated[list[Text], Field(max_length=20)]
    hangs: Hangs
    rod: Rod
    anchor: Anchor
    base: Base
    attachment: Attachment
    seismic: Seismic
    options: Options
    environment: Environment


@with_config(STRICT)
class Item(PartialItem, total=False):
    """One hang point; those of one ``alternative_of`` are one set of anchors under loads that act one at a time."""

    id: Required[Identifier]
    alternative_of: Text


@with_config(STRICT)
class BatchRequest(TypedDict):
    """Many hang points in one request, and the limits of the structural notes on them."""

    units: UnitSystem
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    neighbours: NotRequired[Neighbours]
    structural_limits: NotRequired[
        Annotated[list[StructuralLimit], Field(min_length=1, max_length=MAX_STRUCTURAL_LIMITS)]
    ]
    defaults: NotRequired[PartialItem]
    items: Annotated[list[Item], Field(min_length=1, max_length=MAX_ITEMS)]


@with_config(STRICT)
class SingleRequest(TypedDict):
    """One hang point."""

    units: UnitSystem
    project: NotRequired[Project]
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    detail: NotRequired[Detail]
    item: Item
