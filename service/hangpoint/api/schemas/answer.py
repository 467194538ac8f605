"""The answer: what a check sends back. The service writes it from columns; these schemas publish and test its shape."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.codes import (
    AssumptionCode,
    FindingCode,
    InapplicableCode,
    ModeCode,
    NotCheckedCode,
    QuantityCode,
    RefusalCode,
    RodRuleCode,
    TriageCode,
    Units,
)
from hangpoint.api.schemas.problem import CLOSED, Problem
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.words import LoadStandard

StatusWord = Literal["passed", "failed", "refused", "invalid"]
LinkWord = Literal["load", "rod", "anchor", "base"]
EdgeWord = Literal["x_minus", "x_plus", "y_minus", "y_plus"]


@with_config(CLOSED)
class CodeEdition(TypedDict):
    """Design code and edition."""

    id: Literal["aci318_19", "en1992_4"]
    edition: str


@with_config(CLOSED)
class CatalogueVersion(TypedDict):
    """Version and hash of the catalogue."""

    version: str
    hash: str


@with_config(CLOSED)
class CaseFactors(TypedDict):
    """Factors of a load case. ``contents`` stands where their factor is not that of dead load.

    Where ``earthquake_reversed`` the earthquake part of shear and moments acts the other way, the tension as given. The
    natures after it stand where their factor isn't 0; ``vertical`` is that of 0.2 S_DS times dead load and contents,
    and ``earthquake`` is negative where it acts the other way. Where ``fire`` it is a case of fire.
    """

    dead_and_contents: float
    live: float
    sprinkler_load: float
    as_given: float
    source: str
    contents: NotRequired[float]
    earthquake_reversed: NotRequired[bool]
    fire: NotRequired[bool]
    roof_live: NotRequired[float]
    snow: NotRequired[float]
    wind: NotRequired[float]
    test: NotRequired[float]
    thermal: NotRequired[float]
    sprinkler_rule: NotRequired[float]
    earthquake: NotRequired[float]
    vertical: NotRequired[float]


@with_config(CLOSED)
class Summary(TypedDict):
    """Counts; passed, failed, refused and invalid add up to the total."""

    total: int
    passed: int
    passed_on_assumptions: int
    failed: int
    refused: int
    invalid: int
    governing: dict[str, int]


@with_config(CLOSED)
class Product(TypedDict):
    """The product checked and whether its figures are invented or supplied."""

    address: str
    data: Literal["invented", "supplied"]


@with_config(CLOSED)
class Demand(TypedDict):
    """Load at the anchor, in the unit of force of the answer.

    Service parts of the tension; the largest factored tension with its load case, and shear.

    At ``level`` allowable, where the point goes by allowable loads, tension, sustained tension and shear are those of
    the allowable-stress combinations: service loads.
    """

    dead: float
    contents: float
    live: float
    sprinkler: float
    factored_tension: float
    sustained_tension: float
    factored_shear: float
    load_case: str
    level: Literal["strength", "allowable"]


@with_config(CLOSED)
class NextCase(TypedDict):
    """The worst of the other load cases."""

    load_case: str
    utilisation: float


@with_config(CLOSED)
class Governing(TypedDict):
    """What governs: the first largest utilisation in the order of links and modes.

    At a point with several anchors ``group`` numbers the sets of anchors of the mode, ``anchor`` is the first of the
    governing one and ``anchors`` are all of its own, by their place in the layout from 0.
    """

    link: LinkWord
    mode: ModeCode
    group: int
    anchor: int
    edge: NotRequired[EdgeWord]
    anchors: NotRequired[list[int]]
    load_case: str
    utilisation: float
    text: str
    next: NotRequired[NextCase]


@with_config(CLOSED)
class AppliedMode(TypedDict):
    """A mode that was checked; ``utilisation`` is demand over strength, and above 1 it does not hold.

    Strength and demand are in the unit of force of the answer, but ratios where tension and shear act together:
    `tension_shear_interaction`, `masonry_interaction`, `table_interaction`.
    """

    mode: ModeCode
    applies: Literal[True]
    clause: str
    design_strength: float
    demand: float
    utilisation: float
    load_case: str
    edge: NotRequired[EdgeWord]
    anchors: NotRequired[list[int]]


@with_config(CLOSED)
class OtherMode(TypedDict):
    """A mode that does not apply, and why."""

    mode: ModeCode
    applies: Literal[False]
    reason: InapplicableCode
    clause: str


@with_config(CLOSED)
class LinkResult(TypedDict):
    """A link of the chain; one that is checked without a utilisation has a finding, or is checked with the base."""

    link: LinkWord
    checked: bool
    utilisation: NotRequired[float]


@with_config(CLOSED)
class FindingResult(TypedDict):
    """Something seen; a violation fails the point. ``quantity`` is the kind of value and limit."""

    code: FindingCode
    clause: str
    severity: Literal["violation", "caution", "note"]
    text: str
    quantity: NotRequired[QuantityCode]
    value: NotRequired[float]
    limit: NotRequired[float]


@with_config(CLOSED)
class Reason(TypedDict):
    """Why a point was refused."""

    code: RefusalCode
    clause: str
    text: str


@with_config(CLOSED)
class TraceLine(TypedDict):
    """One number of the calculation.

    ``when`` names the line of the same section under whose condition this one stands. Of a choice the value is its
    word, and ``code`` the integer that printed formulas compare.
    """

    name: str
    symbol: str
    value: float | str | bool | dict[str, float | bool | str]
    unit: str
    kind: Literal["given", "formula", "procedure"]
    code: NotRequired[int]
    when: NotRequired[str]
    clause: NotRequired[str]
    formula: NotRequired[str]
    procedure: NotRequired[str]


@with_config(CLOSED)
class Converted(TypedDict):
    """Strength and demand of a mode in the units of the request."""

    design_strength: float
    demand: float


@with_config(CLOSED)
class TraceRow(TypedDict):
    """One set of anchors, or one edge, that a mode was checked for, in the units of the request."""

    anchors: NotRequired[list[int]]
    points: NotRequired[list[str]]
    edge: NotRequired[EdgeWord]
    design_strength: float
    demand: float
    utilisation: float


@with_config(CLOSED)
class TraceSection(TypedDict):
    """One record of the calculation, in the units of the design code.

    A mode is also ``converted`` where the request has other units. At a point with several anchors it says which
    ``anchors`` the lines are about, with the anchors of which other ``points``, and ``rows`` lists every set of anchors
    and edge in the same load case. ``anchor`` is the place in the layout of the one anchor that a record is about.
    The loads at the anchors stand once for the load case in which these are used most, and once for each other in which
    a mode is worst.
    """

    record: str
    title: str
    axis: Literal["case", "anchor", "group", "load"]
    lines: list[TraceLine]
    mode: NotRequired[ModeCode]
    clause: NotRequired[str]
    load_case: NotRequired[str]
    edge: NotRequired[EdgeWord]
    converted: NotRequired[Converted]
    anchor: NotRequired[int]
    anchors: NotRequired[list[int]]
    points: NotRequired[list[str]]
    rows: NotRequired[list[TraceRow]]


@with_config(CLOSED)
class Alone(TypedDict):
    """What the point would be without its neighbours; ``mode`` is what would govern."""

    utilisation: float
    mode: NotRequired[ModeCode]


@with_config(CLOSED)
class NeighboursResult(TypedDict):
    """Ids of the points near this one: those that act ``together`` with it, and those that are ``unlike`` it.

    Of those ``by_spacing`` one of the two does not go by chapter 17: only their distance is looked at.
    """

    together: list[str]
    unlike: list[str]
    by_spacing: NotRequired[list[str]]
    alone: Alone


@with_config(CLOSED)
class Escalation(TypedDict):
    """Why a point goes to an engineer, and the question to ask."""

    code: TriageCode
    text: str
    question: str


@with_config(CLOSED)
class CheckedResult(TypedDict):
    """A point that was understood. ``state_decided_by`` stands where the concrete is taken as uncracked.

    ``product`` is absent where none is named, because no anchor is checked in such a base.
    """

    id: str
    index: int
    status: Literal["passed", "failed", "refused"]
    on_assumptions: bool
    product: NotRequired[Product]
    rod_rule: NotRequired[RodRuleCode]
    state_decided_by: NotRequired[str]
    demand: Demand
    governing: NotRequired[Governing]
    weakest_link: NotRequired[LinkWord]
    modes: NotRequired[list[AppliedMode | OtherMode]]
    links: NotRequired[list[LinkResult]]
    neighbours: NotRequired[NeighboursResult]
    findings: list[FindingResult]
    assumptions: list[AssumptionCode]
    not_checked: list[NotCheckedCode]
    to_engineer: list[Escalation]
    reason: NotRequired[Reason]
    trace: NotRequired[list[TraceSection]]


@with_config(CLOSED)
class InvalidResult(TypedDict):
    """A point that can't be read or can't exist."""

    id: str | None
    index: int
    status: Literal["invalid"]
    problem: Problem


@with_config(CLOSED)
class LargestPoint(TypedDict):
    """The point with the largest service load."""

    id: str
    load: float


@with_config(CLOSED)
class StructuralLimitResult(TypedDict):
    """A limit of the structural notes and the service loads within it; ``per_area`` is their sum over its rectangle.

    ``points`` are those that it holds for, ``exceeding`` those above ``most_per_point``. ``unplaced`` state too little
    of where they are; with them, with invalid points, or with factored loads alone, a limit that is not exceeded is
    undecided, as ``text`` says.
    """

    id: str
    status: Literal["within", "exceeded", "undecided"]
    points: list[str]
    total: float
    largest: NotRequired[LargestPoint]
    most_per_point: NotRequired[float]
    exceeding: list[str]
    most_total: NotRequired[float]
    most_per_area: NotRequired[float]
    per_area: NotRequired[float]
    unplaced: list[str]
    text: str


@with_config(CLOSED)
class Answer(TypedDict):
    """The answer to a check of one or many hang points."""

    engine_version: str
    design_code: CodeEdition
    combinations: Literal["strength", "given_factored", "allowable"]
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    project: NotRequired[Project]
    columns_not_read: NotRequired[list[str]]
    load_cases: dict[str, CaseFactors]
    request_digest: str
    summary: Summary
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    structural_limits: NotRequired[list[StructuralLimitResult]]
    cautions: list[str]
    items: list[CheckedResult | InvalidResult]
