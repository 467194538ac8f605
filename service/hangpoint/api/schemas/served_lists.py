"""The closed lists that ``GET /v1/quantities`` gives: units, codes with their texts, tables by their names, columns."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import LinkWord, StatusWord
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.words import LoadNature

SeverityWord = Literal["violation", "caution", "note"]


@with_config(CLOSED)
class QuantityEntry(TypedDict):
    """A kind of quantity: its bare unit in either system, and the units and the pattern of a text."""

    title: str
    us: str
    si: str
    units: list[str]
    pattern: str


@with_config(CLOSED)
class CodeEntry(TypedDict):
    """A word of a closed list."""

    code: str
    text: str
    clause: str


@with_config(CLOSED)
class ModeEntry(TypedDict):
    """A failure mode and its link of the chain."""

    code: str
    text: str
    clause: str
    link: LinkWord


@with_config(CLOSED)
class FindingCodeEntry(TypedDict):
    """A finding; ``quantity`` is the kind of its value and its limit, empty where it has none."""

    code: str
    text: str
    clause: str
    severity: SeverityWord
    quantity: str


@with_config(CLOSED)
class TriageEntry(TypedDict):
    """A reason to ask the engineer, with the question."""

    code: str
    text: str
    clause: str
    question: str


@with_config(CLOSED)
class RejectionCodeEntry(TypedDict):
    """Why a product is not chosen, and what would mend it."""

    code: str
    text: str
    clause: str
    quantity: str
    remedy: str


@with_config(CLOSED)
class LoadWords(TypedDict):
    """Words of hanger loads and of fixtures."""

    assumptions: list[CodeEntry]
    not_checked: list[CodeEntry]
    findings: list[FindingCodeEntry]


@with_config(CLOSED)
class TakeOffWords(TypedDict):
    """Words of take-offs, and the columns of their sheets with what stands in each."""

    lines: list[CodeEntry]
    assumptions: list[CodeEntry]
    not_counted: list[CodeEntry]
    pull_list: dict[str, str]
    cut_list: dict[str, str]
    sums: dict[str, str]
    items: dict[str, str]


@with_config(CLOSED)
class AsBuiltWords(TypedDict):
    """Words of as-built lists, and their columns with what stands in each."""

    deviations: list[FindingCodeEntry]
    not_recorded: list[CodeEntry]
    not_compared: list[CodeEntry]
    assumptions: list[CodeEntry]
    columns: dict[str, str]


@with_config(CLOSED)
class LoadMapWords(TypedDict):
    """Words of load maps."""

    notes: list[CodeEntry]
    on_structure_by: list[CodeEntry]


@with_config(CLOSED)
class SubmittalWords(TypedDict):
    """Words of submittals: why a point has a calculation sheet, and why its plan has no test of a point."""

    sheets: list[CodeEntry]
    not_tested: list[CodeEntry]


@with_config(CLOSED)
class SelectionWords(TypedDict):
    """Words of selections."""

    objectives: list[str]
    rejections: list[RejectionCodeEntry]
    assumptions: list[CodeEntry]
    changes: list[CodeEntry]


@with_config(CLOSED)
class ChangeWords(TypedDict):
    """Words of what would pass."""

    assumptions: list[CodeEntry]
    not_checked: list[CodeEntry]


@with_config(CLOSED)
class LoadCaseEntry(TypedDict):
    """A load case by nature and where it stands."""

    name: str
    source: str


@with_config(CLOSED)
class RodRuleEntry(TypedDict):
    """A rule for rods."""

    text: str
    source: str
    from_memory: bool


@with_config(CLOSED)
class SpacingRuleEntry(TypedDict):
    """A rule for the largest spacing of hangers; ``standard_wall``: it is for pipes of standard wall.

    ``uniform_only``: it doesn't hold where there are concentrated loads. ``vapour``: it is for steam, gas or air.
    """

    name: str
    text: str
    source: str
    from_memory: bool
    standard_wall: bool
    uniform_only: bool
    vapour: bool


@with_config(CLOSED)
class EndRuleEntry(TypedDict):
    """How near a box, an end or a fitting a hanger stands, ft, of sizes from ``first`` to ``last``, in."""

    name: str
    material: str
    first: float
    last: NotRequired[float]
    distance: float
    text: str
    source: str
    from_memory: bool


@with_config(CLOSED)
class TrayClassEntry(TypedDict):
    """A load class of cable trays: working load, lb/ft, on a span, ft."""

    load: float
    span: float


@with_config(CLOSED)
class SeismicFactors(TypedDict):
    """Factors of a component, ASCE 7-16 chapter 13."""

    a_p: float
    r_p: float
    omega_0: float
    text: str
    from_memory: bool


@with_config(CLOSED)
class ExemptionEntry(TypedDict):
    """When a line needs no brace."""

    name: str
    clause: str
    text: str
    from_memory: bool


@with_config(CLOSED)
class CsvColumns(TypedDict):
    """Columns of a CSV: those required, other titles by column, those of the answer with their texts, all.

    ``not_read`` are titles of columns that are handed back, also with more words behind them.
    """

    required: list[str]
    aliases: dict[str, str]
    answer: dict[str, str]
    columns: list[str]
    not_read: list[str]


@with_config(CLOSED)
class Quantities(TypedDict):
    """Units and closed lists: every word that an answer may hold, and the tables behind names.

    ``pipes`` has the schedules by material and size, ``contents`` densities, lb/ft3, ``sheet_gauges`` the gauges of a
    table, ``conduits`` the sizes of a type.
    """

    quantities: dict[str, QuantityEntry]
    statuses: list[StatusWord]
    severities: list[SeverityWord]
    links: list[LinkWord]
    natures: list[LoadNature]
    modes: list[ModeEntry]
    inapplicable: list[CodeEntry]
    findings: list[FindingCodeEntry]
    assumptions: list[CodeEntry]
    refusals: list[CodeEntry]
    not_checked: list[CodeEntry]
    triage: list[TriageEntry]
    rfis: list[TriageEntry]
    hanger_loads: LoadWords
    fixtures: LoadWords
    take_offs: TakeOffWords
    as_built_lists: AsBuiltWords
    load_maps: LoadMapWords
    submittals: SubmittalWords
    selections: SelectionWords
    changes: ChangeWords
    problems: list[str]
    load_cases: list[LoadCaseEntry]
    rod_rules: dict[str, RodRuleEntry]
    further_rod_rules: dict[str, RodRuleEntry]
    rod_sizes: list[str]
    spacing_rules: list[SpacingRuleEntry]
    pipes: dict[str, dict[str, list[str]]]
    contents: dict[str, float]
    sheet_gauges: dict[str, list[int]]
    conduits: dict[str, list[str]]
    tray_classes: dict[str, TrayClassEntry]
    end_rules: list[EndRuleEntry]
    seismic_components: dict[str, SeismicFactors]
    bracing_exemptions: list[ExemptionEntry]
    design_codes: list[str]
    strength_classes: dict[str, float]
    csv: CsvColumns
