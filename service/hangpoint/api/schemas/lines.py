"""Lines: what hangs along a length, by kind. Each has a weight per length, with the words of its own trade."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.quantities import (
    AreaWeightQuantity,
    DensityQuantity,
    DistanceQuantity,
    ForceQuantity,
    LayerQuantity,
    LengthQuantity,
    LineWeightQuantity,
)
from hangpoint.api.schemas.words import Contents, PipeMaterial, Share, Text

MAX_CABLES = 100
MAX_NUMBER = 1_000

DuctShape = Literal["rectangular", "round", "flat_oval"]
GaugeTable = Literal["galvanised", "uncoated"]
ConduitType = Literal["emt", "imc", "rmc", "pvc40", "pvc80"]
TrayClass = Literal["8A", "8B", "8C", "12A", "12B", "12C", "16A", "16B", "16C", "20A", "20B", "20C"]
Number = Annotated[int, Field(ge=1, le=MAX_NUMBER)]


@with_config(STRICT)
class Layer(TypedDict):
    """Insulation, lining or wrap: thickness and density."""

    thickness: LayerQuantity
    density: DensityQuantity


@with_config(STRICT)
class Jacket(TypedDict):
    """Insulation around a pipe, and the weight of a jacket over it per area."""

    thickness: LayerQuantity
    density: DensityQuantity
    jacket: NotRequired[AreaWeightQuantity]


@with_config(STRICT)
class PipeLine(TypedDict):
    """A pipe by size and schedule or wall. ``contents`` is a word, or ``contents_density`` stands in its place.

    ``hydrotest``: the line is tested filled with water, in place of its contents; to be stated of steam, air and gas.
    """

    kind: Literal["pipe"]
    material: PipeMaterial
    size: Text
    schedule: NotRequired[Text]
    wall: NotRequired[LengthQuantity]
    contents: NotRequired[Contents]
    contents_density: NotRequired[DensityQuantity]
    sprinkler: NotRequired[bool]
    hydrotest: NotRequired[bool]
    insulation: NotRequired[Jacket]
    allowance: NotRequired[Share]
    number: NotRequired[Number]


@with_config(STRICT)
class DuctLine(TypedDict):
    """A duct of sheet metal by the gauge of a named table or by thickness.

    ``width`` and ``height`` of a rectangular or flat oval duct, ``width`` the larger; ``diameter`` of a round one.
    ``reinforcement`` is the share of the sheet's weight for seams, joints and stiffeners.
    """

    kind: Literal["duct"]
    shape: DuctShape
    width: NotRequired[LengthQuantity]
    height: NotRequired[LengthQuantity]
    diameter: NotRequired[LengthQuantity]
    gauge: NotRequired[Annotated[int, Field(ge=1, le=40)]]
    gauge_table: NotRequired[GaugeTable]
    thickness: NotRequired[LengthQuantity]
    reinforcement: NotRequired[Share]
    liner: NotRequired[Layer]
    wrap: NotRequired[Layer]
    number: NotRequired[Number]


@with_config(STRICT)
class ConduitLine(TypedDict):
    """A conduit by trade size, with its cables by weight or by the share of the bore that they fill."""

    kind: Literal["conduit"]
    type: ConduitType
    size: Text
    cables: NotRequired[LineWeightQuantity]
    fill: NotRequired[Share]
    number: NotRequired[Number]


@with_config(STRICT)
class TrayLine(TypedDict):
    """A cable tray: its own weight, and the load of its class or a list of cables.

    ``static_load`` is a concentrated load that the tray must carry on each ``span``, and on each between hangers that
    is shorter; a riser has none.
    """

    kind: Literal["tray"]
    self_weight: LineWeightQuantity
    load_class: NotRequired[TrayClass]
    cables: NotRequired[Annotated[list[LineWeightQuantity], Field(min_length=1, max_length=MAX_CABLES)]]
    static_load: NotRequired[ForceQuantity]
    span: NotRequired[DistanceQuantity]
    number: NotRequired[Number]


@with_config(STRICT)
class StatedLine(TypedDict):
    """A line of stated weight; ``filling`` comes on top of ``weight`` and may be absent."""

    kind: Literal["line"]
    weight: LineWeightQuantity
    filling: NotRequired[LineWeightQuantity]
    description: NotRequired[Text]
    allowance: NotRequired[Share]
    number: NotRequired[Number]


Line = Annotated[PipeLine | DuctLine | ConduitLine | TrayLine | StatedLine, Field(discriminator="kind")]
