"""The answer to a batch that has been read: its items in blocks of rows, with what is said of all of them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import orjson

from hangpoint import __version__
from hangpoint.api.bodies import BLOCK, Batch
from hangpoint.api.check_rows import BLOCK_ROWS, MAX_BATCH_ROWS, most_near, parts_of, refuse_rows
from hangpoint.api.invalid_items import flaw_error, invalid_result, pack_again
from hangpoint.api.item_ids import alike, item_ids, refuse_duplicates
from hangpoint.api.load_standards import say_by_en
from hangpoint.api.problems import FieldError, ProblemError, pointer, too_many
from hangpoint.api.tally import Tally
from hangpoint.core.aci318_19 import EDITION
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import Basis
from hangpoint.core.hang_point.verdict import Alone, Demand, Verdicts
from hangpoint.core.loads.combination_tables import EN1990, TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import CAUTIONS, Assumption
from hangpoint.pack.answer import always_listed, load_case_table, results
from hangpoint.pack.members import member_flaws
from hangpoint.pack.objects import EMPTY, value_at
from hangpoint.pack.points import Packed, pack_points
from hangpoint.pack.printed import CASE_NAMES
from hangpoint.pack.sites import NearBlock, alone_in, compare
from hangpoint.pack.structural_limits import LimitSums, read_limits, with_point_limits
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED

DESIGN_CODES = {"aci318_19": f"{EDITION}, chapter 17", "en1992_4": "EN 1992-4:2018"}
MAX_BATCH_ANCHORS = 50_000
"""Anchors of all layouts of a batch: large layouts have thousands of sets of anchors each."""
CALCULATIONS = "calculations (traces or sheets)"
_FEWER = "Sheets of some of the points: ?only=ID,ID, or --only ID of the command."


OnLoads = Callable[[Packed, Demand], None]
"""What takes the valid points of a batch and their loads, part by part, in no order."""
OnNear = Callable[[Sequence[int], Verdicts], None]
"""What takes the rows of a batch that are near each other and their verdicts together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Limits of a batch that depend on the settings."""

    items: int = 10_000
    traces: int = 200


def answer_batch(
    batch: Batch,
    *,
    catalogue: Catalogue,
    limits: Limits,
    detail: str,
    wire: bool = False,
    on_loads: OnLoads | None = None,
    on_near: OnNear | None = None,
) -> dict[str, Any]:
    """Check every item of a batch.

    Args:
        batch: the request as read.
        catalogue: products by address.
        limits: most items and traces.
        detail: used where the request states none.
        wire: the answer is only written as JSON, so ``items`` may be JSON already.
        on_loads: takes the valid points and their loads.
        on_near: takes the valid points that are near each other and what is found of them together.

    Raises:
        ProblemError: too many items, a duplicate id.
    """
    detail = batch.detail or detail
    within(batch, limits, detail)
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    sums = _limit_sums(batch)
    unlike = member_errors(batch)
    if unlike:
        batch = replace(batch, errors={**batch.errors, **unlike})
    code = batch.design_code or "aci318_19"
    combinations = batch.combinations or "strength"
    standard = batch.combined_by
    head = (__version__, code, combinations, standard, catalogue.hash, batch.units, detail, batch.neighbours or "check")
    if batch.structural_limits:
        head = (*head, orjson.dumps(batch.structural_limits, option=orjson.OPT_SORT_KEYS).decode())
    tally = Tally(head, default=batch.defaults)
    texts = all_results(
        batch, ids, catalogue=catalogue, detail=detail, tally=tally, sums=sums, on_loads=on_loads, on_near=on_near
    )
    return batch.echoed | {
        "engine_version": __version__,
        "design_code": {"id": code, "edition": DESIGN_CODES[code]},
        "combinations": combinations,
        "load_standard": standard,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        "load_cases": _load_cases(batch) | tally.load_cases,
        **tally.as_json(_request_assumptions(batch)),
        **({"structural_limits": sums.as_json()} if sums.limits else {}),
        "cautions": list(CAUTIONS),
        "items": items_of(texts, wire=wire),
    }


def items_of(texts: Sequence[bytes], *, wire: bool) -> list[Any]:
    """Results as the items of an answer, JSON as it is where the answer is only written (``wire``).

    A fragment an item, because joining them would copy the answer once more.
    """
    return list(map(orjson.Fragment if wire else orjson.loads, texts))


def all_results(
    batch: Batch,
    ids: Sequence[Any],
    *,
    catalogue: Catalogue,
    detail: str,
    tally: Tally,
    sums: LimitSums | None = None,
    on_loads: OnLoads | None = None,
    on_near: OnNear | None = None,
) -> list[bytes]:
    """Results of every row of a batch as JSON, in order: points that are near each other are checked together.

    Args:
        batch: the request as read, the errors of its members among its errors.
        ids: of all rows.
        catalogue, detail, tally: as `block_results` takes them.
        sums: takes the service loads under the limits of the structural notes.
        on_loads, on_near: as `answer_batch` takes them.

    Raises:
        ProblemError: more anchors than `MAX_BATCH_ANCHORS`, or more rows than `check_rows.MAX_BATCH_ROWS`.
    """
    blocks = [
        read_block(batch, range(start, min(start + BLOCK, len(batch.items))), ids, catalogue, sums)
        for start in range(0, len(batch.items), BLOCK)
    ]
    anchors = sum(len(block.packed.points.layouts.point) for block in blocks)
    if anchors > MAX_BATCH_ANCHORS:
        raise too_many("anchors", anchors, MAX_BATCH_ANCHORS)
    basis = basis_of(batch)
    near = None if batch.neighbours == "off" else _near(blocks, basis)
    refuse_rows([block.packed for block in blocks], near or (), basis)
    if near is not None:
        tally.assume(Assumption.NEIGHBOURS_OF_REQUEST)
        if any(block.invalid for block in blocks):
            tally.assume(Assumption.INVALID_NOT_NEAR)
    doubtful = alike(ids)
    for block in blocks:
        block.packed.assumptions.set(Assumption.ALIKE_IDS, doubtful[np.asarray(block.packed.index, dtype=np.intp)])
    shared = [np.zeros(block.packed.points.count, dtype=np.bool_) for block in blocks]
    for group in near or ():
        for block, local in zip(group.block.tolist(), group.local.tolist(), strict=True):
            shared[block][local] = True
    texts: list[list[bytes]] = []
    alone: list[Alone] = []
    for block, left_out in zip(blocks, shared, strict=True):
        _assume_standard(batch, block, tally)
        tally.read(block.packed, block.unread(batch))
        own = _checked(batch, block, basis, detail=detail, tally=tally, left_out=left_out, sums=sums, on_loads=on_loads)
        texts.append(own[0])
        alone.append(own[1])
    for group in near or ():
        together = check(group.packed.points, basis, alone=alone_in(alone, group))
        again = results(group.packed, together, system=batch.units, detail=detail, traced=batch.traced)
        for block, local, text in zip(group.block.tolist(), group.local.tolist(), again, strict=True):
            texts[block][local] = text
        tally.count(group.packed, together)
        if on_near is not None:
            numbers: list[int] = group.block.tolist()
            places: list[int] = group.local.tolist()
            rows = [blocks[at].packed.index[own] for at, own in zip(numbers, places, strict=True)]
            on_near(rows, together)
    return [text for block, own in zip(blocks, texts, strict=True) for text in block.in_order(own)]


def _near(blocks: Sequence["Block"], basis: Basis) -> list[NearBlock] | None:
    """Points that may be near each other, in blocks of no more rows than a check takes at a time."""
    packed = [block.packed for block in blocks]
    near = compare(packed, size=BLOCK)
    rows = most_near(near or (), basis)
    if rows <= BLOCK_ROWS or rows > MAX_BATCH_ROWS:
        return near
    return compare(packed, size=max(1, BLOCK * BLOCK_ROWS // rows))


def _checked(
    batch: Batch,
    block: "Block",
    basis: Basis,
    *,
    detail: str,
    tally: Tally,
    left_out: Bools | None = None,
    sums: LimitSums | None = None,
    on_loads: OnLoads | None = None,
) -> tuple[list[bytes], Alone]:
    """Results of the valid points of a block without a look at neighbours, and what governs them.

    It is checked part by part, so that the memory of it is bounded.
    """
    texts: list[bytes] = []
    utilisation: list[Floats] = []
    governing: list[Index] = []
    for own, packed in parts_of(block.packed, basis):
        verdicts = check(packed.points, basis)
        texts += results(packed, verdicts, system=batch.units, detail=detail, traced=batch.traced)
        tally.count(packed, verdicts, left_out=None if left_out is None else left_out[own])
        if sums is not None and sums.limits:
            sums.add(packed, verdicts.demand, invalid=0 if own.start else len(block.invalid))
        if on_loads is not None:
            on_loads(packed, verdicts.demand)
        utilisation.append(verdicts.utilisation)
        governing.append(verdicts.governing)
    return texts, Alone(utilisation=np.concatenate(utilisation), governing=np.concatenate(governing))


def _load_cases(batch: Batch) -> dict[str, dict[str, Any]]:
    """Those that every answer lists."""
    by_strength = batch.combinations in (None, "strength")
    return load_case_table(CASE_NAMES, always_listed(batch.combined_by) if by_strength else ())


def member_errors(batch: Batch) -> dict[int, list[FieldError]]:
    """Errors of points whose member is stated differently by another point of it."""
    rest = [batch.items[row] for row in batch.not_in_columns() if row not in batch.errors]
    stated = "member" in batch.defaults.get("base", EMPTY)
    stated = stated or any("member" in objects.child("base").names for objects in batch.columns)
    if not (stated or any(value_at(item, "base", "member") is not None for item in rest)):
        return {}
    index = [row for row in range(len(batch.items)) if row not in batch.errors]
    flaws = member_flaws(batch.objects(index), default=batch.defaults, index=index, system=batch.units)
    return {row: [flaw_error(batch, row, flaw) for flaw in found] for row, found in flaws.by_row.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Rows of a request: its valid points as columns, and the results of the others by row."""

    rows: Sequence[int]
    packed: Packed
    invalid: dict[int, dict[str, Any]]

    def unread(self, batch: Batch) -> list[Any]:
        """The invalid items as they came."""
        return [batch.items[row] for row in sorted(self.invalid)]

    def in_order(self, texts: Sequence[bytes]) -> Sequence[bytes]:
        """The results of all rows, in order; ``texts`` are those of the valid ones."""
        if not self.invalid:
            return texts
        valid = dict(zip(self.packed.index, texts, strict=True))
        return [orjson.dumps(self.invalid[row]) if row in self.invalid else valid[row] for row in self.rows]


def block_results(
    batch: Batch, rows: range, ids: Sequence[Any], *, catalogue: Catalogue, detail: str, tally: Tally
) -> Sequence[bytes]:
    """Results of some rows as JSON, in order, without a look at neighbours.

    Args:
        batch: the request as read.
        rows: of the request.
        ids: of all rows.
        catalogue, detail: as `answer_batch` takes them.
        tally: takes what is said of the whole batch.
    """
    block = read_block(batch, rows, ids, catalogue)
    _assume_standard(batch, block, tally)
    tally.read(block.packed, block.unread(batch))
    texts, _ = _checked(batch, block, basis_of(batch), detail=detail, tally=tally)
    return block.in_order(texts)


def _assume_standard(batch: Batch, block: Block, tally: Tally) -> None:
    """Say which edition combines snow, where the request names none."""
    if _snow_by_default(batch, block.packed):
        tally.assume(Assumption.LOAD_STANDARD)


def _snow_by_default(batch: Batch, packed: Packed) -> bool:
    snow = packed.points.hangs.transient[:, :, TRANSIENT.index("snow")]
    open_to_choice = batch.load_standard is None and batch.combined_by != EN1990
    return open_to_choice and batch.combinations != "given_factored" and bool(snow.any())


def assumed_of(batch: Batch, packed: Packed) -> dict[str, str]:
    """What is taken of a request and of its points, ``packed``, where they are silent: sentences by code."""
    taken = [Assumption.LOAD_STANDARD] if _snow_by_default(batch, packed) else []
    taken += _request_assumptions(batch)
    return packed.assumptions.said() | {each.value.code: each.value.text for each in taken}


def _limit_sums(batch: Batch) -> LimitSums:
    """The limits of the structural notes of a request.

    Raises:
        ProblemError: a limit that contradicts itself.
    """
    limits, flaws = read_limits(batch.structural_limits, batch.units)
    if flaws:
        errors = [
            FieldError(pointer=pointer("structural_limits", flaw.at, flaw.name), code=flaw.code, detail=flaw.detail)
            for flaw in flaws
        ]
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return LimitSums(limits, factored=batch.combinations == "given_factored", system=batch.units)


def read_block(
    batch: Batch, rows: range, ids: Sequence[Any], catalogue: Catalogue, sums: LimitSums | None = None
) -> Block:
    """Some rows of a request as columns, those with an error or a flaw as results that say so."""
    invalid = {row: invalid_result(ids[row], row, list(batch.errors[row])) for row in rows if row in batch.errors}
    packed = pack_valid(batch, rows, catalogue, invalid, ids)
    if sums is not None and sums.limits:
        packed = with_point_limits(packed, sums.limits)
    return Block(rows=rows, packed=packed, invalid=invalid)


def basis_of(batch: Batch) -> Basis:
    """What holds for every row of a request."""
    return Basis(
        factored=batch.combinations == "given_factored",
        allowable=batch.combinations == "allowable",
        load_standard=batch.combined_by,
    )


def within(batch: Batch, limits: Limits, detail: str, *, what: str = "hang points") -> None:
    """Refuse a batch beyond the limits.

    Raises:
        ProblemError: too many items, or too many traces.
    """
    count = len(batch.items)
    traces = (count if batch.traced is None else len(batch.traced)) if detail == "trace" else 0
    for name, asked, limit, instead in ((what, count, limits.items, ""), (CALCULATIONS, traces, limits.traces, _FEWER)):
        if asked > limit:
            raise too_many(name, asked, limit, instead=instead)


def pack_valid(
    batch: Batch,
    rows: range,
    catalogue: Catalogue,
    invalid: dict[int, dict[str, Any]],
    ids: Sequence[Any],
    *,
    chosen: bool = True,
) -> Packed:
    """Columns of the valid items, those without a flaw.

    Args:
        batch: the request as read.
        rows: of the request.
        catalogue: products by address.
        invalid: results of invalid items by row; takes more.
        ids: of all rows.
        chosen: False where the products are still to be chosen.
    """
    options: dict[str, Any] = {
        "default": batch.defaults,
        "system": batch.units,
        "catalogue": catalogue,
        "factored": batch.combinations == "given_factored",
        "allowable": batch.combinations == "allowable",
        "chosen": chosen,
        "by_en": batch.by_en,
    }
    packed = pack_again(
        batch, rows, ids, invalid, lambda items, index, flaws: pack_points(items, index=index, flaws=flaws, **options)
    )
    if batch.combined_by == EN1990:
        say_by_en(packed.assumptions)
    return packed


def _request_assumptions(batch: Batch) -> list[Assumption]:
    stated = ((Assumption.DESIGN_CODE, batch.design_code), (Assumption.COMBINATIONS, batch.combinations))
    taken = [member for member, value in stated if value is None]
    by_en = batch.combined_by == EN1990 and batch.combinations in (None, "strength")
    taken += [Assumption.EN_RESISTANCES] if batch.by_en else []
    return [*taken, Assumption.EN_FACTORS] if by_en else taken
