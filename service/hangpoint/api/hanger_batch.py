"""The answer to a request for the loads on hangers, from its body."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import orjson

from hangpoint import __version__
from hangpoint.api.batch import Limits, items_of, within
from hangpoint.api.bodies import read_items
from hangpoint.api.invalid_items import pack_items
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.api.schemas.hanger_loads import HangerLoadsRequest
from hangpoint.core.hanger.hangers import HangerLoads, hanger_loads
from hangpoint.core.hanger.items import Items
from hangpoint.core.loads.combination_tables import ASCE7_16
from hangpoint.core.loads.combinations import ALLOWABLE_CASES, CASES
from hangpoint.core.quantity import Index
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack.answer import factors_of
from hangpoint.pack.digest import columns_digest
from hangpoint.pack.hanger_answer.results import failed_items, load_results
from hangpoint.pack.hanger_items.packed import PackedLoads, Places, pack_hanger_items
from hangpoint.units import PRINTED


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tables:
    """Columns of a batch: those of the core, and the coordinates, which the core has no use for."""

    items: Items
    places: Places


def run_hanger_loads(body: bytes, *, limits: Limits) -> dict[str, Any]:
    """Read a body and compute the loads of every item of it.

    One item has its trace if the request doesn't say otherwise.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch = read_items(HangerLoadsRequest, body)
    detail = batch.detail or ("trace" if len(batch.items) == 1 else "loads")
    within(batch, limits, detail, what="items")
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    standard = batch.load_standard or ASCE7_16
    packed, invalid = pack_items(
        batch,
        ids,
        pack_hanger_items,
        standard_stated=batch.load_standard is not None,
        load_standard=standard,
    )
    loads = hanger_loads(packed.items, load_standard=standard)
    texts = load_results(packed, loads, system=batch.units, trace=detail == "trace")
    valid = dict(zip(packed.index, texts, strict=True))
    rows = [orjson.dumps(invalid[row]) if row in invalid else valid[row] for row in range(len(batch.items))]
    head = (__version__, standard, batch.units, detail)
    unread = [batch.items[row] for row in sorted(invalid)]
    return {
        "engine_version": __version__,
        "load_standard": standard,
        "units": PRINTED[batch.units],
        "strength_cases": {CASES[at].name: factors_of(CASES[at]) for at in _used(loads.strength.axis.load_case)},
        "service_cases": {
            ALLOWABLE_CASES[at].name: factors_of(ALLOWABLE_CASES[at]) for at in _used(loads.allowable.axis.load_case)
        },
        "request_digest": columns_digest(
            head, _texts(packed), _Tables(items=packed.items, places=packed.places), unread, batch.defaults
        ),
        "summary": _summary(packed, loads, len(invalid)),
        "assumptions": packed.assumptions.said(),
        "not_checked": packed.not_checked.said(),
        "cautions": list(CAUTIONS),
        "items": items_of(rows, wire=True),
    }


def _used(load_case: Index) -> list[int]:
    return np.unique(load_case).tolist()


def _texts(packed: PackedLoads) -> list[Any]:
    """What of valid items stands in no column of the core."""
    lines = packed.lines
    return [
        list(packed.index),
        packed.ids,
        packed.places.level,
        packed.places.trade,
        packed.rod_sizes,
        packed.category,
        lines.kind,
        lines.description,
    ]


def _summary(packed: PackedLoads, loads: HangerLoads, invalid: int) -> dict[str, int]:
    count = packed.items.count
    failed = int(np.count_nonzero(failed_items(loads, count)))
    return {
        "total": count + invalid,
        "passed": count - failed,
        "failed": failed,
        "invalid": invalid,
        "hangers": int(np.count_nonzero(loads.held)),
    }
