"""Calculation sheets of a batch that was run: its answer, what was stated, and where the anchors are."""

from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

import orjson

from hangpoint.api.batch import read_block
from hangpoint.api.csv_columns import bare_unit
from hangpoint.api.item_ids import item_ids
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.query import SHOWN
from hangpoint.api.run import Run
from hangpoint.pack.digest import merged
from hangpoint.pack.objects import Object
from hangpoint.product.catalogue import Catalogue
from hangpoint.report.calculation.page import calculation_page
from hangpoint.report.calculation.place import Near, Place, place_of
from hangpoint.report.calculation.stated import Stated, stated
from hangpoint.report.calculation.subject import Subject
from hangpoint.units import System

_INCHES = 12.0
"""Of a foot, in which coordinates are."""


def calculation_sheets(run: Run, catalogue: Catalogue) -> str:
    """A page with the sheets of `calculation_subjects`, which takes the same and raises the same."""
    return calculation_page(run.answer, calculation_subjects(run, catalogue), system=run.batch.units)


def calculation_subjects(run: Run, catalogue: Catalogue) -> list[Subject]:
    """What has a sheet: every item of a batch, or those alone that have a trace (`Batch.traced`).

    Args:
        run: with the items of its answer as objects.
        catalogue: products by address.

    Raises:
        ProblemError: a sheet of an item that is not there.
    """
    batch = run.batch
    wanted = batch.traced
    if wanted is not None:
        refuse_unknown(wanted, [result["id"] for result in run.answer["items"]])
    places = _Places(run, catalogue)
    return [
        Subject(
            result=result,
            stated=_stated(item, batch.defaults, batch.units),
            place=places.place(row, result),
        )
        for row, (item, result) in enumerate(zip(batch.items, run.answer["items"], strict=True))
        if wanted is None or result["id"] in wanted
    ]


def refuse_unknown(wanted: Iterable[str], ids: Sequence[str | None], *, place: str = "?only", sign: str = ",") -> None:
    """Refuse ids whose sheets are wanted and that no item has.

    Raises:
        ProblemError: with the ``place`` of the request that names them, ``sign`` between them in a query.
    """
    known = [each for each in ids if each is not None]
    other, between = {",": (";", "commas"), ";": (",", "semicolons")}[sign]
    errors = [
        FieldError(
            pointer=place,
            code="unknown-id",
            detail=f"No item has the id {each[:SHOWN]}: name those whose sheets are wanted."
            + (f" Ids have {between} between them here." if other in each and place.startswith("?") else ""),
            allowed=tuple(get_close_matches(each[:SHOWN], known, n=3, cutoff=0.4)),
        )
        for each in sorted(set(wanted).difference(known))
    ]
    if errors:
        raise ProblemError("validation", errors[0].detail, errors=errors)


def _stated(item: Any, default: Object, system: System) -> list[Stated]:
    """Of what is no object nothing is repeated; a number without a unit has that of the request."""
    if not isinstance(item, Mapping):
        return []
    own, behind = _plain(item), _plain(default)
    return stated(own, merged(own, behind), lambda place: bare_unit(place, system))


def _plain(content: Any) -> Any:
    """With the fields of a product that were stated in place of what was made of them."""
    return orjson.loads(orjson.dumps(content, default=lambda made: made.model_dump(mode="json", exclude_unset=True)))


class _Places:
    """The places of the items of a run that could be read and are in a base that takes anchors."""

    def __init__(self, run: Run, catalogue: Catalogue) -> None:
        batch = run.batch
        self._packed = read_block(batch, range(len(batch.items)), item_ids(batch), catalogue).packed
        self._row = {row: at for at, row in enumerate(self._packed.index)}
        self._row_of_id = {self._packed.labels.ids[at]: at for at in self._row.values()}

    def place(self, row: int, result: Mapping[str, Any]) -> Place | None:
        """The place of the item in a row of the request, with the neighbours that its result names."""
        at = self._row.get(row)
        if at is None or not self._packed.points.surroundings.anchored[at]:
            return None
        named = result.get("neighbours", {})
        near = [
            self._near(self._row_of_id[each], at, together=kind == "together")
            for kind in ("together", "unlike")
            for each in named.get(kind, ())
        ]
        return place_of(self._packed.points, at, near)

    def _near(self, other: int, at: int, *, together: bool) -> Near:
        labels, layouts = self._packed.labels, self._packed.points.layouts
        own = layouts.point == other
        dx, dy = labels.apart(at, other)
        x, y = layouts.x[own] + _INCHES * dx, layouts.y[own] + _INCHES * dy
        return Near(id=labels.ids[other], anchors=list(zip(x.tolist(), y.tolist(), strict=True)), together=together)
