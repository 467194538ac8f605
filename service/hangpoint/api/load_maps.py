"""The answer to a request for a load map, from its body or from a CSV of hang points."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from hangpoint.api.batch import answer_batch
from hangpoint.api.bodies import Batch
from hangpoint.api.hang_point_runs import runs_of
from hangpoint.api.state import State
from hangpoint.pack.load_map import LoadMap, levels_of, notes_of

_DETAIL = "verdict"
OF_THE_CHECK = (
    *("engine_version", "design_code", "combinations", "load_standard", "catalogue", "units", "project"),
    *("columns_not_read", "request_digest", "load_cases", "assumptions", "not_checked", "cautions"),
    "structural_limits",
)
"""Members of the answer of the check that the map has as they are."""
_COUNTED = ("total", "passed", "failed", "refused", "invalid")


def _answer(batch: Batch, state: State) -> dict[str, Any]:
    loads = loads_of(batch)
    checked = answer_batch(
        replace(batch, detail=_DETAIL),
        catalogue=state.catalogue,
        limits=state.limits,
        detail=_DETAIL,
        on_loads=loads.add,
    )
    return {name: checked[name] for name in OF_THE_CHECK if name in checked} | map_of(checked, loads)


run_load_maps, run_load_maps_csv = runs_of(_answer)


def loads_of(batch: Batch) -> LoadMap:
    """What takes the loads of a batch as it is checked."""
    return LoadMap(factored=batch.combinations == "given_factored", system=batch.units)


def map_of(checked: Mapping[str, Any], loads: LoadMap) -> dict[str, Any]:
    """The map of points that were checked, without what the answer of their check says of all of them."""
    items = loads.items(checked["items"])
    levels = levels_of(items)
    return {
        "loads": "factored_only" if loads.factored else "service",
        "summary": {name: checked["summary"][name] for name in _COUNTED} | _counts(items, levels),
        "notes": notes_of(items, factored=loads.factored),
        "levels": levels,
        "items": items,
    }


def _counts(items: Sequence[Mapping[str, Any]], levels: Sequence[Mapping[str, Any]]) -> dict[str, int]:
    placed = Counter(item["placed"] for item in items if "placed" in item)
    return {"levels": len(levels), "placed": placed[True], "not_placed": placed[False]}
