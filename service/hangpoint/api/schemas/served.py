"""What is read by GET: the catalogue and the closed lists, limits, versions, where to begin."""

from typing import Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.product.family import Basis, Material, Principle, Traits
from hangpoint.product.fields import Units
from hangpoint.product.guidance.troubles import Trouble


@with_config(CLOSED)
class StartLinks(TypedDict):
    """Addresses on this service."""

    documentation: str
    openapi: str
    form: str
    check_one: str
    check_many: str


@with_config(CLOSED)
class Start(TypedDict):
    """What this service is."""

    service: Literal["hangpoint"]
    engine_version: str
    text: str
    links: StartLinks


@with_config(CLOSED)
class Live(TypedDict):
    """The process answers."""

    status: Literal["live"]


@with_config(CLOSED)
class Ready(TypedDict):
    """The service can answer checks, with so many products."""

    status: Literal["ready"]
    products: int


@with_config(CLOSED)
class Versions(TypedDict):
    """Versions of the engine, the catalogue, Python and the libraries by name."""

    engine_version: str
    catalogue: CatalogueVersion
    python: str
    libraries: dict[str, str]


@with_config(CLOSED)
class FamilyHead(TypedDict):
    """A family without its figures, and the addresses of its products that were asked for.

    An address ends in the embedment, in in or mm as ``units`` says.
    """

    id: str
    name: str
    invented: bool
    principle: Principle
    basis: Basis
    material: Material
    traits: Traits
    units: Units
    products: list[str]


@with_config(CLOSED)
class FamilyList(TypedDict):
    """The families of the catalogue."""

    catalogue: CatalogueVersion
    families: list[FamilyHead]


class ServedTrouble(Trouble):
    """A trouble and where it comes from."""

    source: str


@with_config(CLOSED)
class Troubles(TypedDict):
    """Troubles on site, and what holds for every one of them."""

    source: str
    rules: list[str]
    troubles: list[ServedTrouble]


@with_config(CLOSED)
class Column(TypedDict):
    """A column of a hang point: the dotted ``path`` of its member in JSON, the shortest ``title``, and what it says.

    ``holds`` is what stands in JSON, ``several`` a list of it. A bare quantity is in the unit ``us`` or ``si``;
    ``words`` are those of a closed list, or the one that may stand for a quantity. A number in a path is a place in a
    list.
    """

    path: str
    title: str
    text: str
    holds: Literal["text", "quantity", "number", "whole", "flag"]
    several: bool
    us: NotRequired[str]
    si: NotRequired[str]
    words: NotRequired[list[str]]
    needed: bool
    usual: bool


@with_config(CLOSED)
class EmptyFiles(TypedDict):
    """A CSV with a header of needed and usual columns and nothing else, by the system of its units."""

    us: str
    si: str


@with_config(CLOSED)
class Columns(TypedDict):
    """Every column that a CSV of hang points may have, the needed ones first, and empty files to fill in."""

    columns: list[Column]
    empty: EmptyFiles


@with_config(CLOSED)
class Limits(TypedDict):
    """What a request may not exceed: bytes, counts, characters, seconds."""

    single_bytes: int
    batch_bytes: int
    items: int
    traces: int
    pdf_sheets: int
    page_sheets: int
    pdf_page_bytes: int
    stream_bytes: int
    stream_items: int
    line_bytes: int
    anchors: int
    anchors_of_a_batch: int
    anchors_by_load_cases_of_a_batch: int
    spans: int
    components: int
    load_cases: int
    structural_limits: int
    id_characters: int
    text_characters: int
    quantity_characters: int
    errors_of_a_problem: int
    workbook_cells: int
    workbook_sheet_cells: int
    workbook_sheet_rows: int
    workbook_column_entries: int
    workbook_sheet_characters: int
    workbook_inflated_bytes: int
    workbook_tags: int
    workbook_other_tags: int
    workbook_number_format_characters: int
    csv_columns: int
    csv_cell_characters: int
    csv_list_entries: int
    csv_inner_list_entries: int
    coding_streams: int
    body_seconds: float
    stream_seconds: float
    pdf_seconds: float
    selection_points: int
    selection_ranked: int
    selection_anchors_by_candidates: int
    selection_anchors_by_load_cases_by_candidates: int
    selection_anchors_explained: int
    selection_anchors_by_load_cases_explained: int
    job_selection_points: int
    job_selection_kinds: int
    job_selection_seconds: float
    question_anchors: int
    question_anchors_by_load_cases: int
    question_pair_anchors_by_load_cases: int
    relocation_neighbours: int
    relocation_anchors_by_load_cases: int
    sensitivity_changes: int
    load_id_characters: int
    load_spans: int
    load_entries_of_a_bar: int
    load_tiers: int
    load_equipment_rods: int
    load_given: int
    load_spacing_rules: int
    load_cables: int
    load_alike: int
    fixture_forces: int
    fixture_supports: int
    test_log_id_characters: int
