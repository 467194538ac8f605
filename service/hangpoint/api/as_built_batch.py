"""The answer to a request for an as-built list, from its body."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import Limits, within
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.invalid_items import pack_items
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.api.schemas.as_built import AsBuiltRequest
from hangpoint.core.as_built import SetAnchor
from hangpoint.core.vocabulary import CAUTIONS, AsBuiltAssumption
from hangpoint.pack.as_built.items import AsBuiltItems, known, pack_as_built
from hangpoint.pack.as_built.results import as_built_results, compare, deviation_counts
from hangpoint.pack.digest import columns_digest
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.inline import ADDRESS
from hangpoint.units import PRINTED

TOLERANCE = 0.10
"""Share of the required torque where the request states none. Common practice, no source."""


@dataclass(slots=True, kw_only=True)
class AsBuiltBatch(Batch):
    """A request for an as-built list that has been read."""

    torque_tolerance: float | None = None


def run_as_built(body: bytes, *, catalogue: Catalogue, limits: Limits) -> dict[str, Any]:
    """Read a body and compare every anchor of it.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch = read_items(AsBuiltRequest, body, what="anchors", batch=AsBuiltBatch)
    within(batch, limits, "verdict", what="anchors")
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    tolerance = TOLERANCE if batch.torque_tolerance is None else batch.torque_tolerance
    items, invalid = pack_items(batch, ids, pack_as_built, catalogue=catalogue)
    found = compare(items, below=tolerance, above=batch.torque_tolerance or 0.0)
    results = as_built_results(items, found, batch.units)
    by_row = dict(zip(items.index, results, strict=True)) | invalid
    statuses = [result["status"] for result in results]
    return {
        "engine_version": __version__,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        "request_digest": _digest(batch, items, found, invalid, catalogue),
        "summary": {
            "total": len(batch.items),
            **{status: statuses.count(status) for status in ("conforms", "deviates", "incomplete")},
            "invalid": len(invalid),
            "deviations": deviation_counts(results),
        },
        "assumptions": _assumptions(batch, items),
        "cautions": list(CAUTIONS),
        "items": [by_row[row] for row in range(len(batch.items))],
    }


def _assumptions(batch: AsBuiltBatch, items: AsBuiltItems) -> dict[str, str]:
    taken = {
        AsBuiltAssumption.TOLERANCE: batch.torque_tolerance is None,
        AsBuiltAssumption.NOT_COMPARED: any(
            own.address == ADDRESS and text is not None
            for own, text in zip(items.products, items.texts["product"], strict=True)
        ),
        AsBuiltAssumption.BY_PRODUCT: items.by_product,
        AsBuiltAssumption.BY_SET_PRODUCT: any(items.set_otherwise),
        AsBuiltAssumption.LEAST_EMBEDMENT: bool((known(items.h_ef) & known(items.recorded["embedment"])).any()),
    }
    return {each.value.code: each.value.text for each in AsBuiltAssumption if taken[each]}


def _digest(
    batch: AsBuiltBatch, items: AsBuiltItems, found: SetAnchor, invalid: Mapping[int, Any], catalogue: Catalogue
) -> str:
    head = (__version__, "as-built list", catalogue.hash, batch.units)
    numbers = [items.required, items.recorded, items.coordinates]
    texts = [
        list(items.index),
        items.ids,
        dict(items.places),
        [own and list(own) for own in items.tags],
        [own.address for own in items.products],
        dict(items.texts),
        list(items.held),
        [[f"{value:.12g}" for value in columns[name].tolist()] for columns in numbers for name in sorted(columns)],
        [f"{value:.12g}" for value in items.hold_seconds.tolist()],
    ]
    return columns_digest(head, texts, found, [batch.items[row] for row in sorted(invalid)], batch.defaults)
