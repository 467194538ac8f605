"""Everything that a request may not exceed, each number from where it holds."""

from hangpoint.api.batch import MAX_BATCH_ANCHORS
from hangpoint.api.check_rows import MAX_BATCH_ROWS
from hangpoint.api.coding import MAX_STREAMS
from hangpoint.api.csv_columns import MAX_INNER_LIST, MAX_LIST
from hangpoint.api.csv_header import MAX_COLUMNS
from hangpoint.api.csv_rows import MAX_CELL
from hangpoint.api.pdf_files import MOST_PAGE_BYTES, MOST_PAGE_SHEETS, MOST_SHEETS
from hangpoint.api.problems import MAX_ERRORS
from hangpoint.api.reverse import asked, near_places
from hangpoint.api.schemas import (
    choices,
    fixtures,
    hanger_loads,
    job_selections,
    lines,
    relocations,
    sensitivities,
    test_plans,
    words,
)
from hangpoint.api.selection.opened import MAX_EXPLAINED, MAX_EXPLAINED_ROWS, MAX_PAIRS, MAX_ROWS
from hangpoint.api.selection.rounds import SECONDS as JOB_SECONDS
from hangpoint.api.workbooks import parts, reading
from hangpoint.core.hang_point.points import MOST_ANCHORS
from hangpoint.report.pdf.document import SECONDS as PDF_SECONDS
from hangpoint.report.workbook import MAX_CELLS
from hangpoint.settings import Settings
from hangpoint.units import MAX_QUANTITY_TEXT


def limits_of(settings: Settings) -> dict[str, float]:
    """Every limit by its name; those of lists in a body stand in the schema too."""
    return {
        "single_bytes": settings.max_single_bytes,
        "batch_bytes": settings.max_batch_bytes,
        "items": settings.max_items,
        "traces": settings.max_traces,
        "pdf_sheets": MOST_SHEETS,
        "page_sheets": MOST_PAGE_SHEETS,
        "pdf_page_bytes": MOST_PAGE_BYTES,
        "stream_bytes": settings.max_stream_bytes,
        "stream_items": settings.max_stream_items,
        "line_bytes": settings.max_line_bytes,
        "anchors": MOST_ANCHORS,
        "anchors_of_a_batch": MAX_BATCH_ANCHORS,
        "anchors_by_load_cases_of_a_batch": MAX_BATCH_ROWS,
        "spans": words.MAX_SPANS,
        "components": words.MAX_COMPONENTS,
        "load_cases": words.MAX_LOAD_CASES,
        "structural_limits": words.MAX_STRUCTURAL_LIMITS,
        "id_characters": words.MAX_ID,
        "text_characters": words.MAX_TEXT,
        "quantity_characters": MAX_QUANTITY_TEXT,
        "errors_of_a_problem": MAX_ERRORS,
        "workbook_cells": MAX_CELLS,
        "workbook_sheet_cells": parts.MOST_CELLS,
        "workbook_sheet_rows": parts.MOST_ROWS,
        "workbook_column_entries": parts.MOST_COLUMN_ENTRIES,
        "workbook_sheet_characters": reading.MOST_CHARACTERS,
        "workbook_inflated_bytes": parts.MOST_BYTES,
        "workbook_tags": parts.MOST_TAGS,
        "workbook_other_tags": parts.MOST_OTHER_TAGS,
        "workbook_number_format_characters": parts.MOST_FORMAT,
        "csv_columns": MAX_COLUMNS,
        "csv_cell_characters": MAX_CELL,
        "csv_list_entries": MAX_LIST,
        "csv_inner_list_entries": MAX_INNER_LIST,
        "coding_streams": MAX_STREAMS,
        "body_seconds": settings.body_seconds,
        "stream_seconds": settings.stream_seconds,
        "pdf_seconds": PDF_SECONDS,
        **_of_choices(),
        **_of_questions(),
        **_of_loads(),
    }


def _of_choices() -> dict[str, float]:
    return {
        "selection_points": choices.MAX_SELECTIONS,
        "selection_ranked": choices.MAX_RANKED,
        "selection_anchors_by_candidates": MAX_PAIRS,
        "selection_anchors_by_load_cases_by_candidates": MAX_ROWS,
        "selection_anchors_explained": MAX_EXPLAINED,
        "selection_anchors_by_load_cases_explained": MAX_EXPLAINED_ROWS,
        "job_selection_points": choices.MAX_JOB_POINTS,
        "job_selection_kinds": job_selections.MAX_KINDS,
        "job_selection_seconds": JOB_SECONDS,
    }


def _of_questions() -> dict[str, float]:
    return {
        "question_anchors": asked.LARGEST_LAYOUT,
        "question_anchors_by_load_cases": asked.MAX_ROWS,
        "question_pair_anchors_by_load_cases": asked.MAX_PAIR_ROWS,
        "relocation_neighbours": relocations.MAX_NEIGHBOURS,
        "relocation_anchors_by_load_cases": near_places.MAX_ROWS,
        "sensitivity_changes": sensitivities.MAX_CHANGES,
    }


def _of_loads() -> dict[str, float]:
    """Of hanger loads, fixtures and logs of tests."""
    return {
        "load_id_characters": hanger_loads.MAX_LOAD_ID,
        "load_spans": hanger_loads.MAX_HANGERS,
        "load_entries_of_a_bar": hanger_loads.MAX_ON_BAR,
        "load_tiers": hanger_loads.MAX_TIERS,
        "load_equipment_rods": hanger_loads.MAX_BODY_RODS,
        "load_given": hanger_loads.MAX_GIVEN,
        "load_spacing_rules": hanger_loads.MAX_RULES,
        "load_cables": lines.MAX_CABLES,
        "load_alike": lines.MAX_NUMBER,
        "fixture_forces": fixtures.MAX_FORCES,
        "fixture_supports": fixtures.MAX_SUPPORTS,
        "test_log_id_characters": test_plans.MAX_LOG_ID,
    }
