"""The answer to a request for a take-off, from its body or from a CSV of hang points."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from enum import Enum
from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import Limits, within
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.api.csv_header import CsvForm
from hangpoint.api.invalid_items import pack_items
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.schemas.take_offs import PartialTakeOffItem, TakeOffItem, TakeOffRequest
from hangpoint.core.vocabulary import CAUTIONS, TakeOffAssumption, TakeOffNotCounted
from hangpoint.pack.digest import columns_digest
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.take_off.answer import cut_list, item_results, line_results, totals
from hangpoint.pack.take_off.assumed import assumptions_of, not_counted_of
from hangpoint.pack.take_off.counts import count_items
from hangpoint.pack.take_off.items import TakeOffItems, pack_take_off
from hangpoint.pack.take_off.lines import pull_lines
from hangpoint.pack.take_off.rates import TOP, Rates, read_rates
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED

CSV_FORM = CsvForm(
    item=TakeOffItem,
    partial=PartialTakeOffItem,
    request=TakeOffRequest,
    required=("id",),
)
"""A CSV of hang points with the columns of a take-off beside them."""


@dataclass(slots=True, kw_only=True)
class TakeOffBatch(Batch):
    """A request for a take-off that has been read."""

    waste: Mapping[str, Any] | None = None
    stock: Mapping[str, Any] | None = None
    crews: int | None = None


def run_take_off(body: bytes, *, catalogue: Catalogue, limits: Limits) -> dict[str, Any]:
    """Read a body and count what its hang points need.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    return _answer(read_items(TakeOffRequest, body, what="hang points", batch=TakeOffBatch), catalogue, limits)


def run_take_off_csv(
    body: bytes, options: CsvOptions, rates: Mapping[str, Any], *, catalogue: Catalogue, limits: Limits
) -> dict[str, Any]:
    """Read a CSV and count; ``rates`` has ``waste``, ``stock`` and ``crews`` as a body has them.

    Raises:
        ProblemError: as `run_take_off`.
    """
    batch = read_csv(body, options, CSV_FORM)
    own = {each.name: getattr(batch, each.name) for each in fields(batch)}
    return _answer(TakeOffBatch(**own, **rates), catalogue, limits)


def _answer(batch: TakeOffBatch, catalogue: Catalogue, limits: Limits) -> dict[str, Any]:
    within(batch, limits, "verdict")
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    rates = _rates(batch)
    items, invalid = pack_items(batch, ids, pack_take_off, catalogue=catalogue)
    counts = count_items(items, rates)
    system = batch.units
    lines = pull_lines(items, counts, rates, system)
    counted = dict(zip(items.index, item_results(items, counts, system), strict=True))
    return {
        "engine_version": __version__,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[system],
        "request_digest": _digest(batch, items, invalid, rates, catalogue),
        "summary": {
            "total": len(batch.items),
            "counted": items.count,
            "invalid": len(invalid),
            "lines": len(lines),
        },
        "assumptions": _said(TakeOffAssumption, assumptions_of(items, counts, rates)),
        "not_counted": _said(TakeOffNotCounted, not_counted_of(items, invalid=bool(invalid))),
        "cautions": list(CAUTIONS),
        "pull_list": line_results(lines, items, system),
        "cut_list": cut_list(items, counts, rates, system),
        "totals": totals(items, counts, system),
        "items": [invalid[row] if row in invalid else counted[row] for row in range(len(batch.items))],
    }


def _rates(batch: TakeOffBatch) -> Rates:
    flaws = Flaws()
    rates = read_rates(batch.waste, batch.stock, batch.crews, system=batch.units, flaws=flaws)
    found = flaws.by_row.get(TOP, [])
    if found:
        errors = [
            FieldError(pointer=pointer(*flaw.path.split("/")), code=flaw.code, detail=flaw.detail) for flaw in found
        ]
        raise ProblemError(found[0].slug, f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return rates


def _digest(
    batch: TakeOffBatch, items: TakeOffItems, invalid: Mapping[int, Any], rates: Rates, catalogue: Catalogue
) -> str:
    head = (__version__, "take-off", catalogue.hash, batch.units)
    texts = [
        list(items.index),
        items.ids,
        items.level,
        items.trade,
        items.area,
        [list(own) for own in items.tags],
        [repr(own) for own in items.products],
        [list(own) for own in items.rods],
        [rates.waste, rates.packs, rates.rod_length, rates.kerf, rates.shortest, rates.crews],
    ]
    return columns_digest(head, texts, items, [batch.items[row] for row in sorted(invalid)], batch.defaults)


def _said(vocabulary: type[Enum], members: Iterable[Enum]) -> dict[str, str]:
    there = set(members)
    return {each.value.code: each.value.text for each in vocabulary if each in there}
