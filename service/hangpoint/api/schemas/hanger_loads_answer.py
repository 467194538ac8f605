"""The answer of hanger loads: lines with their weights, hangers with their loads, and the hang points they make."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CaseFactors, FindingResult, InvalidResult, TraceLine
from hangpoint.api.schemas.codes import LoadAssumptionCode, LoadFindingCode, LoadNotCheckedCode, Units
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import AsceEdition, LoadNature, RodLoadRule, RodRule, RodSizeRule

KindWord = Literal["run", "riser", "trapeze", "equipment"]


@with_config(CLOSED)
class LineWeight(TypedDict):
    """Weight per length of one line; ``test`` with the test fluid in place of the contents."""

    dead: float
    contents: float
    live: float
    test: NotRequired[float]


@with_config(CLOSED)
class SpacingRuleResult(TypedDict):
    """Largest distance between hangers by one rule."""

    rule: str
    spacing: float


@with_config(CLOSED)
class RodBySize(TypedDict):
    """The rod that a rule asks for a pipe of this size that hangs alone, at the spacing of that rule."""

    rule: RodSizeRule
    rod: str


@with_config(CLOSED)
class RodByLoad(TypedDict):
    """The thinnest rod that holds the service load of the hanger by a rule, and the load that the rule allows it.

    By the load alone: a standard may ask for a thicker one by the size of the pipe.
    """

    rule: RodLoadRule
    rod: str
    allowable: float


@with_config(CLOSED)
class LineResult(TypedDict):
    """One line: ``source`` says whether its weight is computed from dimensions, from a table, or stated.

    ``rules`` lists every rule that has a value for the line, the strictest first, ``rods`` of a pipe that hangs alone
    the rods by its size, the thickest first. Rules don't agree: the specification or the local code says which holds.
    """

    line: int
    kind: Literal["pipe", "duct", "conduit", "tray", "line"]
    number: int
    source: str
    weight: LineWeight
    rules: list[SpacingRuleResult]
    rods: NotRequired[list[RodBySize]]


@with_config(CLOSED)
class ByModel(TypedDict):
    """Sum of the service loads by each model of the run."""

    tributary: float
    continuous: float
    hinged: float


@with_config(CLOSED)
class SprinklerResult(TypedDict):
    """Rule of the sprinkler standard: five times W and 250 lb for the hanger's parts, once for the structure."""

    components: float
    structure: float


@with_config(CLOSED)
class RodResult(TypedDict):
    """The rod by its rule for the load; of a sprinkler line also the diameter that the size table asks for."""

    rule: RodRule
    design_strength: float
    demand: float
    utilisation: float
    diameter: NotRequired[float]
    required_diameter: NotRequired[float]


@with_config(CLOSED)
class HangerResult(TypedDict):
    """One hanger. ``service`` has the load by nature, those that are not 0 and always the first three.

    ``by_model`` is of runs: the sum by each model.

    The largest load by the allowable-stress combinations and by the strength combinations stand with their names;
    ``shear`` is the largest factored one, of loads as given or of a rod out of plumb.
    """

    hanger: int
    by_model: NotRequired[ByModel]
    service: dict[LoadNature, float]
    service_tension: float
    service_case: str
    factored_tension: float
    factored_case: str
    factored_shear: float
    sprinkler: NotRequired[SprinklerResult]
    rod: NotRequired[RodResult]
    rods: NotRequired[list[RodByLoad]]


@with_config(CLOSED)
class BarResult(TypedDict):
    """The bar of a tier, where its section is stated."""

    tier: int
    moment: float
    stress: float
    utilisation: float
    deflection: float
    deflection_limit: float


@with_config(CLOSED)
class BraceResult(TypedDict):
    """Forces of one brace at F_p, and at its anchor with Omega_0; ``hanger_tension`` comes to the hanger beside it.

    A rod that is stated carries ``rod_compression`` where no free length of it is above ``rod_free_length``.
    """

    axial: float
    hanger_tension: float
    rod_compression: float
    rod_free_length: NotRequired[float]
    anchor_tension: float
    anchor_shear: float


@with_config(CLOSED)
class SeismicResult(TypedDict):
    """Component seismic force F_p as a share of W_p, which limit governs it, and Omega_0 for anchorage.

    The forces are those of W_p, the operating weight between braces or of the equipment; a line without a brace has
    none.
    """

    share_of_weight: float
    governs: str
    omega_0: float
    w_p: NotRequired[float]
    f_p: NotRequired[float]
    f_p_anchorage: NotRequired[float]
    vertical: NotRequired[float]
    brace: NotRequired[BraceResult]


@with_config(CLOSED)
class LoadFindingResult(FindingResult):
    """Something seen; ``hanger``, ``line`` or ``tier`` says of which part of the item, ``rule`` of which rule.

    ``conditions`` are all that an exemption by the rule asks for, also what no number shows.
    """

    code: LoadFindingCode  # pyright: ignore[reportIncompatibleVariableOverride]
    hanger: NotRequired[int]
    line: NotRequired[int]
    tier: NotRequired[int]
    rule: NotRequired[str]
    conditions: NotRequired[str]


@with_config(CLOSED)
class HangPointComponent(TypedDict):
    """A load of a hang point as its own request takes it."""

    nature: LoadNature
    tension: NotRequired[float]
    shear_x: NotRequired[float]
    shear_y: NotRequired[float]


@with_config(CLOSED)
class HangPointHangs(TypedDict):
    """What hangs, as forces."""

    kind: Literal["forces"]
    components: list[HangPointComponent]


@with_config(CLOSED)
class HangPointRod(TypedDict):
    """The rod of the hang point; not where its load holds Omega_0."""

    size: str
    rule: RodRule
    f_u: NotRequired[float]


@with_config(CLOSED)
class HangPointLevel(TypedDict, total=False):
    """Level of the hang point, and its coordinates where those of the item and the bearing are stated."""

    level: str
    x: float
    y: float


@with_config(CLOSED)
class HangPointSeismic(TypedDict, total=False):
    """Seismic fields of the hang point; with earthquake its load includes Omega_0, so the options say overstrength."""

    category: Literal["A", "B", "C", "D", "E", "F"]
    s_ds: float
    tension_option: Literal["overstrength"]
    shear_option: Literal["overstrength"]


@with_config(CLOSED)
class MadeHangPoint(TypedDict):
    """An item for the check of hang points: what it lacks, anchor and base, comes from that request's defaults.

    It names its rod, but not where its load holds Omega_0, which is for anchorage: that rod was checked here.
    """

    id: str
    at: NotRequired[HangPointLevel]
    trade: NotRequired[str]
    hangs: HangPointHangs
    rod: NotRequired[HangPointRod]
    seismic: NotRequired[HangPointSeismic]


@with_config(CLOSED)
class LoadTraceSection(TypedDict):
    """One record of the calculation in ft, in, lbf; ``hanger``, ``line`` or ``tier`` says what it is of."""

    record: str
    title: str
    axis: Literal["case", "anchor", "group", "load"]
    lines: list[TraceLine]
    hanger: NotRequired[int]
    line: NotRequired[int]
    tier: NotRequired[int]


@with_config(CLOSED)
class LoadResult(TypedDict):
    """An item that was computed; failed where a finding is a violation. What nothing holds has no ``hangers``."""

    id: str
    index: int
    kind: KindWord
    status: Literal["passed", "failed"]
    lines: list[LineResult]
    hangers: list[HangerResult]
    bars: NotRequired[list[BarResult]]
    seismic: NotRequired[SeismicResult]
    findings: list[LoadFindingResult]
    assumptions: list[LoadAssumptionCode]
    not_checked: list[LoadNotCheckedCode]
    hang_points: list[MadeHangPoint]
    trace: NotRequired[list[LoadTraceSection]]


@with_config(CLOSED)
class LoadSummary(TypedDict):
    """Counts; passed, failed and invalid add up to the total."""

    total: int
    passed: int
    failed: int
    invalid: int
    hangers: int


@with_config(CLOSED)
class HangerLoadsAnswer(TypedDict):
    """The answer to a request for hanger loads."""

    engine_version: str
    load_standard: AsceEdition
    units: Units
    strength_cases: dict[str, CaseFactors]
    service_cases: dict[str, CaseFactors]
    request_digest: str
    summary: LoadSummary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    items: list[LoadResult | InvalidResult]
