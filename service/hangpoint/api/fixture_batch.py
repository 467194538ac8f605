"""The answer to a request for fixtures, from its body."""

from dataclasses import dataclass
from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import Limits, within
from hangpoint.api.bodies import read_items
from hangpoint.api.invalid_items import pack_items
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.api.schemas.fixtures import FixturesRequest
from hangpoint.core.fixture.fixtures import fixture_loads
from hangpoint.core.fixture.items import Fixtures
from hangpoint.core.loads.combination_tables import ASCE7_16
from hangpoint.core.vocabulary import CAUTIONS, Status
from hangpoint.pack.digest import columns_digest
from hangpoint.pack.fixture_answer.results import fixture_results
from hangpoint.pack.fixture_items.packed import FixturePlaces, pack_fixtures
from hangpoint.units import PRINTED


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tables:
    """Columns of a batch: those of the core, and the coordinates, which the core has no use for."""

    fixtures: Fixtures
    x: Any
    y: Any
    bearing: Any


def run_fixtures(body: bytes, *, limits: Limits) -> dict[str, Any]:
    """Read a body and compute the loads of every fixture of it.

    One item has its trace if the request doesn't say otherwise.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    batch = read_items(FixturesRequest, body, what="fixtures")
    detail = batch.detail or ("trace" if len(batch.items) == 1 else "loads")
    within(batch, limits, detail, what="fixtures")
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    standard = batch.load_standard or ASCE7_16
    packed, invalid = pack_items(
        batch,
        ids,
        pack_fixtures,
        standard_stated=batch.load_standard is not None,
        load_standard=standard,
    )
    loads = fixture_loads(packed.fixtures)
    results = fixture_results(
        packed, loads, system=batch.units, load_standard=batch.load_standard, trace=detail == "trace"
    )
    by_row = invalid | dict(zip(packed.index, results, strict=True))
    failed = sum(each["status"] == Status.FAILED for each in results)
    unread = [batch.items[row] for row in sorted(invalid)]
    places: FixturePlaces = packed.places
    return {
        "engine_version": __version__,
        "load_standard": standard,
        "units": PRINTED[batch.units],
        "request_digest": columns_digest(
            (__version__, standard, batch.units, detail),
            [list(packed.index), packed.ids, packed.kinds, places.level, packed.trade, packed.category],
            _Tables(fixtures=packed.fixtures, x=places.x, y=places.y, bearing=places.bearing),
            unread,
            batch.defaults,
        ),
        "summary": {
            "total": len(batch.items),
            "passed": len(results) - failed,
            "failed": failed,
            "invalid": len(invalid),
        },
        "assumptions": packed.assumptions.said() | packed.loads.said(),
        "not_checked": packed.not_checked.said(),
        "cautions": list(CAUTIONS),
        "items": [by_row[row] for row in range(len(batch.items))],
    }
