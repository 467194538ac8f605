"""Items of the resources for the site: read, packed, and set beside those that can't be."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from hangpoint.api.batch import Limits, within
from hangpoint.api.bodies import Batch, read_items
from hangpoint.api.invalid_items import pack_items
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.pack.pull import Rows

_Packed = TypeVar("_Packed")


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteItems(Generic[_Packed]):
    """A request that has been read: ``packed`` are its valid items, ``index`` their rows, ``invalid`` the results."""

    batch: Batch
    ids: Sequence[Any]
    packed: _Packed
    index: Sequence[int]
    invalid: dict[int, dict[str, Any]]

    def in_order(self, results: Sequence[Any]) -> list[Any]:
        """A result for every item of the request; ``results`` are those of the valid ones."""
        valid = dict(zip(self.index, results, strict=True))
        return [self.invalid[row] if row in self.invalid else valid[row] for row in range(len(self.batch.items))]


def read_site_items(
    request: Any, body: bytes, *, limits: Limits, pack: Callable[[Rows, Batch], _Packed], traces: bool = True
) -> SiteItems[_Packed]:
    """Read a body and pack its items; an item with a flaw is invalid and the rest is packed anew.

    Args:
        request: typed dictionary of the body.
        body: as it came.
        limits: most items, and most traces.
        pack: makes columns of items; what it notes among the flaws of the rows makes their items invalid.
        traces: whether ``detail`` of the body asks for traces of this resource.

    Raises:
        ProblemError: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """
    return pack_site_items(read_items(request, body), limits=limits, pack=pack, traces=traces)


def pack_site_items(
    batch: Batch, *, limits: Limits, pack: Callable[[Rows, Batch], _Packed], traces: bool = True
) -> SiteItems[_Packed]:
    """Pack the items of a request that has been read (see `read_site_items`).

    Raises:
        ProblemError: too many items, a duplicate id.
    """
    within(batch, limits, batch.detail if traces else "", what="items")
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)

    def pack_rows(items: Sequence[Any], **of_rows: Any) -> _Packed:
        return pack(Rows(items, path="", local=range(len(items)), **of_rows), batch)

    packed, invalid = pack_items(batch, ids, pack_rows)
    index = [row for row in range(len(batch.items)) if row not in invalid]
    return SiteItems(batch=batch, ids=ids, packed=packed, index=index, invalid=invalid)
