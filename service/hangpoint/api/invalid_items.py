"""Items that can't be read: their errors and results, and the columns of the others."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from hangpoint.api.bodies import MAX_ERRORS_OF_ITEM, Batch
from hangpoint.api.csv_places import column_at
from hangpoint.api.problems import FieldError, pointer, problem_body
from hangpoint.core.vocabulary import Status
from hangpoint.pack.flaws import Flaw, Flaws
from hangpoint.pack.objects import Objects

_Columns = TypeVar("_Columns")


def item_pointer(batch: Batch, row: int, path: str) -> str:
    """Pointer to a place in an item: of a CSV by its rows, which count from 1."""
    if batch.lines:
        return pointer("rows", row + 1, column_at(path, batch.gaps.get(row, {})))
    return pointer("items", row, *path.split("/"))


def flaw_error(batch: Batch, row: int, flaw: Flaw) -> FieldError:
    """The error of an item that a flaw found while packing makes."""
    in_defaults = pointer("defaults", *flaw.path.split("/"))
    error = FieldError(
        pointer=in_defaults if flaw.from_defaults else item_pointer(batch, row, flaw.path),
        code=flaw.code,
        detail=flaw.detail,
        allowed=flaw.allowed,
        line=batch.lines[row] if batch.lines else None,
    )
    return error if batch.source is None else batch.source.quoted(error, row)


def invalid_result(point: Any, row: int, errors: list[FieldError], slug: str = "") -> dict[str, Any]:
    """The result of an item that can't be read; ``point`` is its id."""
    kind = slug or ("quantity" if all(error.code == "quantity" for error in errors) else "validation")
    first = errors[0]
    return {
        "id": point if isinstance(point, str) else None,
        "index": row,
        "status": Status.INVALID,
        "problem": problem_body(kind, f"{first.pointer}: {first.detail}", errors=errors),
    }


def _gathered(batch: Batch, row: int, errors: Sequence[FieldError]) -> list[FieldError]:
    return list(errors if batch.source is None else batch.source.gathered(errors, row))


def pack_again(
    batch: Batch,
    rows: Sequence[int],
    ids: Sequence[Any],
    invalid: dict[int, dict[str, Any]],
    pack: Callable[[Objects, Sequence[int], Flaws], _Columns],
) -> _Columns:
    """Columns of items. A flaw found while packing makes its item invalid, and the rest is packed anew.

    Args:
        batch: the request as read.
        rows: of the request; those that are invalid already are left out.
        ids: of all rows.
        invalid: results of invalid items by row; takes more.
        pack: takes items, their rows in the request, and what is to take their flaws.
    """
    index: Sequence[int] = [row for row in rows if row not in invalid] if invalid else rows
    if batch.rest and invalid:
        _tell_the_rest(batch, [row for row in rows if row in batch.rest and row in invalid], invalid, pack)
    while True:
        flaws = Flaws()
        packed = pack(batch.objects(index), index, flaws)
        if not flaws.by_row:
            return packed
        for row, found in flaws.by_row.items():
            errors = [flaw_error(batch, row, flaw) for flaw in found]
            invalid[row] = invalid_result(ids[row], row, _gathered(batch, row, errors), found[0].slug)
        index = [row for row in index if row not in flaws.by_row]


def _tell_the_rest(
    batch: Batch,
    rows: Sequence[int],
    invalid: dict[int, dict[str, Any]],
    pack: Callable[[Objects, Sequence[int], Flaws], Any],
) -> None:
    """Add to the results of rows with wrong cells what is wrong with the rest of them."""
    flaws = Flaws()
    if rows:
        pack(Objects([batch.rest[row].item for row in rows]), rows, flaws)
    for row, found in flaws.by_row.items():
        more = [flaw_error(batch, row, flaw) for flaw in found if batch.rest[row].concerns(flaw)]
        errors = [*batch.errors[row], *more][:MAX_ERRORS_OF_ITEM]
        invalid[row] = invalid_result(invalid[row]["id"], row, _gathered(batch, row, errors))


def pack_items(
    batch: Batch, ids: Sequence[Any], pack: Callable[..., _Columns], **options: Any
) -> tuple[_Columns, dict[int, dict[str, Any]]]:
    """Columns of the valid items of a whole request, and the results of the others by row.

    Args:
        batch: the request as read.
        ids: of all rows.
        pack: takes items, and by name ``index``, ``flaws``, ``default``, ``system`` and the options.
        options: what else ``pack`` takes.
    """
    invalid = {row: invalid_result(ids[row], row, list(errors)) for row, errors in batch.errors.items()}
    own: dict[str, Any] = {"default": batch.defaults, "system": batch.units, **options}
    rows = range(len(batch.items))
    packed = pack_again(
        batch, rows, ids, invalid, lambda items, index, flaws: pack(items, index=index, flaws=flaws, **own)
    )
    return packed, invalid
