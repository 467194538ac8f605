"""A batch from bytes to answer: `run_batch` is what the route and the command line both call."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint import __version__
from hangpoint.api.bodies import Batch
from hangpoint.api.problems import FieldError, ProblemError, pointer, problem_body, too_many
from hangpoint.core.aci318_19 import EDITION
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import Basis
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.vocabulary import CAUTIONS, Assumption, NotChecked, Status
from hangpoint.pack.answer import load_case_table, results
from hangpoint.pack.digest import request_digest, words
from hangpoint.pack.flags import READING_0, codes_of
from hangpoint.pack.flaws import Flaw, Flaws
from hangpoint.pack.points import Packed, pack_points
from hangpoint.pack.trace import point_trace
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED

DESIGN_CODES = {"aci318_19": f"{EDITION}, chapter 17", "en1992_4": "EN 1992-4:2018"}
_ASSUMPTION_TEXTS = {each.value.code: each.value.text for each in Assumption}
_NOT_CHECKED_TEXTS = {each.value.code: each.value.text for each in NotChecked}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Limits of a batch that depend on the settings."""

    items: int = 10_000
    traces: int = 200


def answer_batch(
    batch: Batch, *, catalogue: Catalogue, limits: Limits, detail: str, wire: bool = False
) -> dict[str, Any]:
    """Check every item of a batch.

    Args:
        batch: the request as read.
        catalogue: products by address.
        limits: most items and traces.
        detail: used where the request states none.
        wire: the answer is only written as JSON, so parts that points share may be JSON already.

    Raises:
        ProblemError: too many items, a duplicate id.
    """
    detail = batch.detail or detail
    _within(batch, limits, detail)
    ids = [_id(item) for item in batch.items]
    _refuse_duplicates(ids, batch)
    invalid = {row: _invalid(ids[row], row, list(errors)) for row, errors in batch.errors.items()}
    packed = _pack(batch, catalogue, invalid, ids)
    basis = Basis(
        code_built=batch.design_code in (None, "aci318_19"),
        factored=batch.combinations == "given_factored",
        allowable=batch.combinations == "allowable",
    )
    verdicts = check(packed.points, basis)
    point_ids = [str(ids[row]) for row in packed.index]
    rows = results(packed, verdicts, point_ids, system=batch.units, detail=detail, wire=wire)
    if detail == "trace":
        for at, row in enumerate(rows):
            row["trace"] = point_trace(verdicts, at)
    items = _in_order(rows, packed.index, invalid, len(batch.items))
    return _top(batch, catalogue, packed, verdicts, detail, ids, invalid) | {"items": items}


def _id(item: Any) -> Any:
    return item.get("id") if isinstance(item, dict) else None  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]


def _within(batch: Batch, limits: Limits, detail: str) -> None:
    count = len(batch.items)
    for name, limit, holds in (
        ("hang points", limits.items, True),
        ("traces", limits.traces, detail == "trace"),
    ):
        if holds and count > limit:
            raise too_many(name, count, limit)


def _refuse_duplicates(ids: Sequence[Any], batch: Batch) -> None:
    known = [each for each in ids if isinstance(each, str)]
    if len(set(known)) == len(known):
        return
    first: dict[str, int] = {}
    errors: list[FieldError] = []
    for row, each in enumerate(ids):
        if not isinstance(each, str):
            continue
        if each in first:
            line = batch.lines[row] if batch.lines else None
            errors.append(
                FieldError(
                    pointer=_item_pointer(batch, row, "id"),
                    code="duplicate-id",
                    detail=f"The same id stands at {_item_pointer(batch, first[each], 'id')}.",
                    line=line,
                )
            )
        else:
            first[each] = row
    raise ProblemError("duplicate-id", f"{len(errors)} of the items repeat an id.", errors=errors)


def _item_pointer(batch: Batch, row: int, path: str) -> str:
    if batch.lines:
        return pointer("rows", row + 1, path.replace("/", "."))
    return pointer("items", row, *path.split("/"))


def _pack(batch: Batch, catalogue: Catalogue, invalid: dict[int, dict[str, Any]], ids: Sequence[Any]) -> Packed:
    """Columns of the valid items. A flaw found while packing makes its item invalid, and the rest is packed anew."""
    index = range(len(batch.items)) if not invalid else [row for row in range(len(batch.items)) if row not in invalid]
    while True:
        flaws = Flaws()
        packed = pack_points(
            batch.items if len(index) == len(batch.items) else [batch.items[row] for row in index],
            default=batch.defaults,
            index=index,
            system=batch.units,
            catalogue=catalogue,
            factored=batch.combinations == "given_factored",
            flaws=flaws,
        )
        if not flaws.by_row:
            return packed
        for row, found in flaws.by_row.items():
            invalid[row] = _invalid(ids[row], row, [_flaw_error(batch, row, flaw) for flaw in found], found[0].slug)
        index = [row for row in index if row not in flaws.by_row]


def _flaw_error(batch: Batch, row: int, flaw: Flaw) -> FieldError:
    in_defaults = pointer("defaults", *flaw.path.split("/"))
    return FieldError(
        pointer=in_defaults if flaw.from_defaults else _item_pointer(batch, row, flaw.path),
        code=flaw.code,
        detail=flaw.detail,
        allowed=flaw.allowed,
        line=batch.lines[row] if batch.lines else None,
    )


def _invalid(point: Any, row: int, errors: list[FieldError], slug: str = "") -> dict[str, Any]:
    kind = slug or ("quantity" if all(error.code == "quantity" for error in errors) else "validation")
    first = errors[0]
    return {
        "id": point if isinstance(point, str) else None,
        "index": row,
        "status": Status.INVALID,
        "problem": problem_body(kind, f"{first.pointer}: {first.detail}", errors=errors),
    }


def _in_order(
    rows: Sequence[dict[str, Any]], index: Sequence[int], invalid: Mapping[int, dict[str, Any]], count: int
) -> Sequence[dict[str, Any]]:
    if not invalid:
        return rows
    merged: list[Any] = [None] * count
    for row, each in invalid.items():
        merged[row] = each
    for row, each in zip(index, rows, strict=True):
        merged[row] = each
    return merged


def _top(
    batch: Batch,
    catalogue: Catalogue,
    packed: Packed,
    verdicts: Verdicts,
    detail: str,
    ids: Sequence[Any],
    invalid: Mapping[int, Any],
) -> dict[str, Any]:
    code = batch.design_code or "aci318_19"
    head = (__version__, code, str(batch.combinations), catalogue.hash, str(batch.units), detail)
    texts = [
        batch.defaults,
        [ids[row] for row in packed.index],
        packed.anchors.addresses,
        words([batch.items[row] for row in packed.index]),
    ]
    return {
        "engine_version": __version__,
        "design_code": {"id": code, "edition": DESIGN_CODES[code]},
        "combinations": batch.combinations or "strength",
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        "load_cases": load_case_table(factored=batch.combinations == "given_factored"),
        "request_digest": request_digest(packed, texts, [batch.items[row] for row in sorted(invalid)], head),
        "summary": _summary(verdicts, packed, len(invalid)),
        "assumptions": _texts(packed.assumptions.bits.tolist(), Assumption, _ASSUMPTION_TEXTS)
        | _request_assumptions(batch),
        "not_checked": _texts(packed.not_checked.bits.tolist(), NotChecked, _NOT_CHECKED_TEXTS),
        "cautions": list(CAUTIONS),
    }


def _texts(bits: list[int], vocabulary: type[Assumption] | type[NotChecked], texts: dict[str, str]) -> dict[str, str]:
    together = 0
    for own in set(bits):
        together |= own
    return {code: texts[code] for code in codes_of(vocabulary, together)}


def _request_assumptions(batch: Batch) -> dict[str, str]:
    taken = [
        member
        for member, value in (
            (Assumption.DESIGN_CODE, batch.design_code),
            (Assumption.COMBINATIONS, batch.combinations),
        )
        if value is None
    ]
    return {member.value.code: member.value.text for member in taken}


def _summary(verdicts: Verdicts, packed: Packed, invalid: int) -> dict[str, Any]:
    refused = verdicts.refusal >= 0
    failed = verdicts.failed & ~refused
    passed = ~(failed | refused)
    governing: dict[str, int] = {}
    for mode, which in zip(verdicts.modes, range(len(verdicts.modes)), strict=True):
        count = int(((verdicts.governing == which) & ~refused).sum())
        if count:
            governing[mode.mode.value.code] = count
    return {
        "total": verdicts.count + invalid,
        "passed": int(passed.sum()),
        "passed_on_assumptions": int((passed & (packed.assumptions.bits & READING_0 > 0)).sum()),
        "failed": int(failed.sum()),
        "refused": int(refused.sum()),
        "invalid": invalid,
        "governing": governing,
    }
