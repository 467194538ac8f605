"""The catalogue and the closed lists: families, the schema of a family file, quantities, limits."""

import math
from difflib import get_close_matches
from typing import Any, get_args

from fastapi import APIRouter, Depends
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.column_list import served_columns
from hangpoint.api.csv_columns import ALIASES, NOTES, REQUIRED, columns
from hangpoint.api.family_filters import Found, filtered, parameters
from hangpoint.api.limits import limits_of
from hangpoint.api.problems import PROBLEMS, ProblemError
from hangpoint.api.query import check_query, read_query
from hangpoint.api.responses import cached_response
from hangpoint.api.routes.reading import readable
from hangpoint.api.schemas import words
from hangpoint.api.state import state
from hangpoint.core.hanger.exemptions import EXEMPTIONS
from hangpoint.core.hanger.rod import RULES, THREADS
from hangpoint.core.hanger.rod_rules import FURTHER_RULES
from hangpoint.core.hanger.spacing import END_RULES, spacing_rules
from hangpoint.core.loads.cable_tray import TRAY_CLASSES
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.loads.component_factors import FACTORS_16
from hangpoint.core.loads.conduit import CONDUIT_TYPES, conduit_sizes
from hangpoint.core.loads.pipe_sizes import CONTENTS, MATERIALS, schedules, sizes
from hangpoint.core.loads.sheet import TABLES, gauges
from hangpoint.core.vocabulary import (
    AsBuiltAssumption,
    AsBuiltDeviation,
    AsBuiltField,
    AsBuiltUncompared,
    Assumption,
    Change,
    ChangeAssumption,
    ChangeNotChecked,
    Entry,
    Finding,
    FindingEntry,
    FixtureAssumption,
    FixtureFinding,
    FixtureNotChecked,
    Inapplicable,
    LineKind,
    Link,
    LoadAssumption,
    LoadFinding,
    LoadMapNote,
    LoadNotChecked,
    Mode,
    Nature,
    NotChecked,
    NotTested,
    Objective,
    Refusal,
    Rejection,
    RejectionEntry,
    RfiQuestion,
    SelectionAssumption,
    Severity,
    SheetReason,
    Status,
    StructureLoad,
    TakeOffAssumption,
    TakeOffNotCounted,
    Triage,
)
from hangpoint.pack.strengths import F_CK
from hangpoint.product.family import family_json_schema
from hangpoint.report.as_built_table import AS_BUILT_TEXTS
from hangpoint.report.schedule import COLUMN_TEXTS
from hangpoint.report.take_off_tables import CUT_TEXTS, ITEM_TEXTS, PULL_TEXTS, SUM_TEXTS
from hangpoint.units import KINDS, PRINTED

router = APIRouter(tags=["catalogue"])


def _no_query(request: Request) -> None:
    check_query(read_query(request.query_params.multi_items()), ())


_PLAIN = [Depends(_no_query)]
"""Of addresses that have no query: what would not be heard is refused."""


@readable(
    router,
    "/v1/families",
    operation_id="listFamilies",
    summary="The anchor families in stock",
    openapi_extra={"parameters": parameters()},
)
async def list_families(request: Request) -> Response:
    """Every family of the catalogue, without its figures, and the addresses of its products.

    The query filters: a family is listed where every filter holds. A filter or a value that this catalogue doesn't know
    is a problem that lists those that it does.
    """
    catalogue = state(request).catalogue
    found = filtered(catalogue.families.values(), catalogue.addresses, request.query_params.multi_items())
    content = {
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "families": [_head(each) for each in found],
    }
    return cached_response(request, content)


@readable(router, "/v1/families/{family}", operation_id="showFamily", summary="One family, whole", dependencies=_PLAIN)
async def show_family(request: Request, family: str) -> Response:
    """A family as its file states it: every size, embedment, trait and setting step."""
    families = state(request).catalogue.families
    found = families.get(family)
    if found is None:
        near = get_close_matches(family[:64].casefold(), families, n=1)
        nearest = "".join(f" The nearest is {name}." for name in near)
        raise ProblemError(
            "not-found", f"The catalogue has no such family; GET /v1/families lists those that it has.{nearest}"
        )
    return cached_response(request, found.model_dump(mode="json", exclude_unset=True))


@readable(
    router, "/v1/schema/family", operation_id="showFamilySchema", summary="Schema of a family file", dependencies=_PLAIN
)
async def show_family_schema(request: Request) -> Response:
    """JSON Schema (draft 2020-12) of a family file, for an operator's own catalogue."""
    return cached_response(request, family_json_schema())


@readable(router, "/v1/limits", operation_id="showLimits", summary="Limits of every request", dependencies=_PLAIN)
async def show_limits(request: Request) -> Response:
    """Everything that a request may not exceed."""
    return cached_response(request, limits_of(state(request).settings))


@readable(
    router, "/v1/quantities", operation_id="listQuantities", summary="Units and closed lists", dependencies=_PLAIN
)
async def list_quantities(request: Request) -> Response:
    """Kinds of quantity with their units, every code that an answer may hold, named rules, and the CSV columns."""
    return cached_response(request, quantities())


@readable(router, "/v1/columns", operation_id="listColumns", summary="Columns of hang points", dependencies=_PLAIN)
async def list_columns(request: Request) -> Response:
    """Every member of a hang point by its dotted path, as a CSV or a form has it: words, units, what it says."""
    return cached_response(request, served_columns())


def quantities() -> dict[str, Any]:
    """What `list_quantities` answers."""
    return {
        "quantities": {
            kind.name: {
                "title": kind.title,
                "us": PRINTED["us"][kind.name],
                "si": PRINTED["si"][kind.name],
                "units": list(kind.units),
                "pattern": kind.pattern,
            }
            for kind in KINDS.values()
        },
        "statuses": list(Status),
        "severities": list(Severity),
        "links": list(Link),
        "natures": list(Nature),
        "modes": [_entry(mode.value) | {"link": mode.link} for mode in Mode],
        "inapplicable": [_entry(each.value) for each in Inapplicable],
        "findings": [_entry(each.value) for each in Finding],
        "assumptions": [_entry(each.value) for each in Assumption],
        "refusals": [_entry(each.value) for each in Refusal],
        "not_checked": [_entry(each.value) for each in NotChecked],
        "triage": [_entry(each.value) | {"question": each.value.question} for each in Triage],
        "rfis": [_entry(each.value) | {"question": each.value.question} for each in RfiQuestion],
        **_lists_of_loads(),
        **_lists_of_a_job(),
        **_lists_of_choices(),
        "problems": list(PROBLEMS),
        "load_cases": [{"name": case.name, "source": case.source} for case in CASES],
        "rod_rules": {name: rule._asdict() for name, rule in RULES.items()},
        "further_rod_rules": {name: rule._asdict() for name, rule in FURTHER_RULES.items()},
        "rod_sizes": list(THREADS),
        "spacing_rules": [rule._asdict() for rule in spacing_rules()],
        "pipes": {
            material: {size: list(schedules(material, size)) for size in sizes(material)} for material in MATERIALS
        },
        "contents": CONTENTS,
        "sheet_gauges": {table: list(gauges(table)) for table in TABLES},
        "conduits": {kind: list(conduit_sizes(kind)) for kind in CONDUIT_TYPES},
        "tray_classes": {name: tray_class._asdict() for name, tray_class in TRAY_CLASSES.items()},
        "end_rules": [_finite(rule._asdict()) for rule in END_RULES],
        "seismic_components": {name: factors._asdict() for name, factors in FACTORS_16.items()},
        "bracing_exemptions": [rule._asdict() for rule in EXEMPTIONS],
        "design_codes": list(get_args(words.DesignCode)),
        "strength_classes": F_CK,
        "csv": {
            "required": list(REQUIRED),
            "aliases": dict(ALIASES),
            "not_read": list(NOTES),
            "answer": dict(COLUMN_TEXTS),
            "columns": list(columns()),
        },
    }


def _lists_of_loads() -> dict[str, Any]:
    """Words of hanger loads and of fixtures."""
    return {
        "hanger_loads": {
            "assumptions": [_entry(each.value) for each in LoadAssumption],
            "not_checked": [_entry(each.value) for each in LoadNotChecked],
            "findings": [_entry(each.value) for each in LoadFinding],
        },
        "fixtures": {
            "assumptions": [_entry(each.value) for each in FixtureAssumption],
            "not_checked": [_entry(each.value) for each in FixtureNotChecked],
            "findings": [_entry(each.value) for each in FixtureFinding],
        },
    }


def _lists_of_choices() -> dict[str, Any]:
    """Words of selections, and of what would pass."""
    return {
        "selections": {
            "objectives": list(Objective),
            "rejections": [_entry(each.value) for each in Rejection],
            "assumptions": [_entry(each.value) for each in SelectionAssumption],
            "changes": [_entry(each.value) for each in Change],
        },
        "changes": {
            "assumptions": [_entry(each.value) for each in ChangeAssumption],
            "not_checked": [_entry(each.value) for each in ChangeNotChecked],
        },
    }


def _lists_of_a_job() -> dict[str, Any]:
    """Words and columns of take-offs, as-built lists, load maps and submittals."""
    return {
        "take_offs": {
            "lines": [_entry(each.value) for each in LineKind],
            "assumptions": [_entry(each.value) for each in TakeOffAssumption],
            "not_counted": [_entry(each.value) for each in TakeOffNotCounted],
            "pull_list": dict(PULL_TEXTS),
            "cut_list": dict(CUT_TEXTS),
            "sums": dict(SUM_TEXTS),
            "items": dict(ITEM_TEXTS),
        },
        "as_built_lists": {
            "deviations": [_entry(each.value) for each in AsBuiltDeviation],
            "not_recorded": [_entry(each.value) for each in AsBuiltField],
            "not_compared": [_entry(each.value) for each in AsBuiltUncompared],
            "assumptions": [_entry(each.value) for each in AsBuiltAssumption],
            "columns": dict(AS_BUILT_TEXTS),
        },
        "load_maps": {
            "notes": [_entry(each.value) for each in LoadMapNote],
            "on_structure_by": [_entry(each.value) for each in StructureLoad],
        },
        "submittals": {
            "sheets": [_entry(each.value) for each in SheetReason],
            "not_tested": [_entry(each.value) for each in NotTested],
        },
    }


def _head(found: Found) -> dict[str, Any]:
    family = found.family
    return {
        "id": family.id,
        "name": family.name,
        "invented": family.invented,
        "principle": family.principle,
        "basis": family.basis,
        "material": family.material.model_dump(mode="json", exclude_none=True),
        "traits": family.traits.model_dump(mode="json"),
        "units": family.units,
        "products": list(found.products),
    }


def _finite(entry: dict[str, Any]) -> dict[str, Any]:
    """An entry without the ends of ranges that have none."""
    return {name: value for name, value in entry.items() if value != math.inf}


def _entry(entry: Entry) -> dict[str, Any]:
    made: dict[str, Any] = {"code": entry.code, "text": entry.text, "clause": entry.clause}
    if isinstance(entry, FindingEntry):
        made |= {"severity": entry.severity, "quantity": entry.quantity}
    if isinstance(entry, RejectionEntry):
        made |= {"quantity": entry.quantity, "remedy": entry.remedy}
    return made
