"""A request whose products are open, read: its points as situations, its wishes, its candidates."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import orjson

from hangpoint import __version__
from hangpoint.api.batch import DESIGN_CODES, assumed_of, basis_of, member_errors, pack_valid, read_block
from hangpoint.api.bodies import Batch
from hangpoint.api.invalid_items import invalid_result
from hangpoint.api.item_ids import item_ids, refuse_duplicates
from hangpoint.api.problems import FieldError, ProblemError, pointer, too_many
from hangpoint.core.hang_point.cases import case_names, row_counts
from hangpoint.core.hang_point.expansion import expand
from hangpoint.core.quantity import Index
from hangpoint.core.selection.changes import FoundChange, Question, Stated, changes
from hangpoint.core.selection.pairs import NONE
from hangpoint.core.selection.situations import situations
from hangpoint.core.selection.traits import TraitColumn
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.core.vocabulary.selection import Objective, SelectionAssumption
from hangpoint.pack.digest import RequestDigest
from hangpoint.pack.points import Packed
from hangpoint.pack.selection.answer import Chosen
from hangpoint.pack.selection.candidates import Shelf
from hangpoint.pack.selection.wants import assumed_at, read_wishes
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED

MAX_PAIRS = 600_000
"""Anchors of the points times candidates of a request: what is checked at most."""

MAX_ROWS = 3_000_000
"""Likewise, times the load cases of each point: some twenty seconds."""

MAX_EXPLAINED = 128
"""Anchors of the situations that nothing holds for which changes are tried: each costs a score of checks."""

MAX_EXPLAINED_ROWS = 512
"""Likewise, times the load cases of each situation."""


_INSTEAD = "Send the points in several requests, or with the load cases that may govern."


@dataclass(slots=True, kw_only=True)
class OpenBatch(Batch):
    """A request that chooses products; of a job also its ``limits``."""

    want: Mapping[str, Any] = field(default_factory=dict[str, Any])
    most: int | None = None
    most_products: int | None = None
    limits: Mapping[str, Any] = field(default_factory=dict[str, Any])


@dataclass(slots=True, kw_only=True)
class Opened:
    """A request read and chosen for.

    ``situation`` (points,) is that of every valid point; ``changes`` those of each situation that nothing holds.
    """

    batch: OpenBatch
    ids: Sequence[Any]
    packed: Packed
    invalid: dict[int, dict[str, Any]]
    chosen: Chosen
    asked: Question
    situation: Index
    changes: Mapping[int, Sequence[FoundChange]]
    assumed: Sequence[SelectionAssumption]

    def named(self, at: int, candidate: int) -> dict[str, Any]:
        """A valid point as it came, with the product of a candidate."""
        item = self.batch.items[self.packed.index[at]]
        return {**item, "anchor": {**item.get("anchor", {}), **self.chosen.shelf.labels[candidate].anchor}}

    def checked_batch(self, items: Sequence[Any], neighbours: str) -> Batch:
        """A request that checks points with their products."""
        return Batch(
            units=self.batch.units,
            design_code=self.batch.design_code,
            combinations=self.batch.combinations,
            load_standard=self.batch.load_standard,
            neighbours=neighbours,
            detail="verdict",
            defaults=self.batch.defaults,
            items=items,
        )


def open_batch(
    batch: OpenBatch, catalogue: Catalogue, *, more: Callable[[Shelf], Sequence[TraitColumn]] | None = None
) -> Opened:
    """Read the points of a request, and check all candidates at them.

    Args:
        batch: the request as read.
        catalogue: the products.
        more: rejections of candidates beyond those of the wishes.

    Raises:
        ProblemError: a wish that can't be read, a duplicate id, too many pairs.
    """
    ids = item_ids(batch)
    refuse_duplicates(ids, batch)
    shelf = Shelf(catalogue)
    read = read_wishes(batch.want, shelf, system=batch.units)
    if read.flaws:
        errors = [
            FieldError(
                pointer=pointer("want", *flaw.path), code=flaw.slug, detail=flaw.detail, allowed=tuple(flaw.allowed)
            )
            for flaw in read.flaws
        ]
        slug = errors[0].code if len({error.code for error in errors}) == 1 else "validation"
        raise ProblemError(slug, f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    batch = replace(batch, errors={**batch.errors, **member_errors(batch)})
    rows = range(len(batch.items))
    invalid = {row: invalid_result(ids[row], row, list(batch.errors[row])) for row in rows if row in batch.errors}
    packed = pack_valid(batch, rows, catalogue, invalid, ids, chosen=False)
    conditions, condition = shelf.conditions(packed.points, [batch.items[row] for row in packed.index], batch.defaults)
    first, situation = situations(packed.points, condition)
    points = expand(packed.points, first)
    of_code = int(np.count_nonzero((shelf.table.en_row >= 0) == batch.by_en))  # all others are refused unchecked
    pairs = len(points.layouts.point) * of_code
    if pairs > MAX_PAIRS:
        raise too_many("anchors times candidates", pairs, MAX_PAIRS)
    basis = basis_of(batch)
    rows = int(row_counts(points, basis).sum()) * of_code
    if rows > MAX_ROWS:
        raise too_many("anchors times load cases times candidates", rows, MAX_ROWS, instead=_INSTEAD)
    asked = Question(
        candidates=shelf.columns,
        offer=shelf.offer(conditions),
        wishes=read.wishes,
        basis=basis,
        more=more(shelf) if more is not None else (),
    )
    choice = asked.choose(points, condition[first])
    chosen = Chosen(
        choice=choice,
        shelf=shelf,
        wishes=read.wishes,
        case_names=case_names(points.given_names),
        system=batch.units,
    )
    return Opened(
        batch=batch,
        ids=ids,
        packed=packed,
        invalid=invalid,
        chosen=chosen,
        asked=asked,
        situation=situation,
        changes=_changes(chosen, asked),
        assumed=assumed_at(packed.points.environments, batch.want, read),
    )


def _changes(chosen: Chosen, asked: Question) -> dict[int, Sequence[FoundChange]]:
    choice = chosen.choice
    open_at = np.flatnonzero(~choice.holds.any(axis=1))
    anchors = np.bincount(choice.points.layouts.point, minlength=choice.points.count)[open_at]
    rows = row_counts(choice.points, asked.basis)[open_at]
    open_at = open_at[(np.cumsum(anchors) <= MAX_EXPLAINED) & (np.cumsum(rows) <= MAX_EXPLAINED_ROWS)]
    if not len(open_at):
        return {}
    rod = np.array([_rod_fails(chosen, at) for at in open_at.tolist()])
    points, stated = expand(choice.points, open_at), Stated(pair=choice.pair[open_at], checks=choice.checks)
    found = changes(points, choice.condition[open_at], asked, stated=stated, rod_fails=rod)
    return dict(zip(open_at.tolist(), found, strict=True))


def _rod_fails(chosen: Chosen, at: int) -> bool:
    rows = chosen.choice.pair[at]
    rows = rows[rows != NONE]
    return bool(len(rows)) and bool((chosen.choice.checks.rod[rows] > 1).all())


def head_json(opened: Opened, catalogue: Catalogue, *, objective: Objective, what: str) -> dict[str, Any]:
    """Members that the answers of all choices begin with."""
    batch = opened.batch
    code, combinations = batch.design_code or "aci318_19", batch.combinations or "strength"
    standard = batch.combined_by
    wanted = [batch.want, batch.most, batch.most_products, batch.limits]
    asked = orjson.dumps(wanted, option=orjson.OPT_SORT_KEYS).decode()
    head = (__version__, what, code, combinations, standard, catalogue.hash, batch.units, asked)
    digest = RequestDigest(head)
    digest.add(opened.packed, [batch.items[row] for row in sorted(opened.invalid)], default=batch.defaults)
    return {
        "engine_version": __version__,
        "design_code": {"id": code, "edition": DESIGN_CODES[code]},
        "combinations": combinations,
        "load_standard": standard,
        "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
        "units": PRINTED[batch.units],
        "objective": objective.value,
        "reserve": opened.chosen.wishes.reserve,
        "request_digest": digest.hexdigest(),
    }


def said_of(opened: Opened, items: Sequence[Any], catalogue: Catalogue) -> dict[str, dict[str, str]]:
    """What is assumed of points with their products, and not checked of them, beside those that are checked."""
    batch = opened.checked_batch(items, "off")
    packed = read_block(batch, range(len(items)), item_ids(batch), catalogue).packed
    return {"assumptions": assumed_of(batch, packed), "not_checked": packed.not_checked.said()}


def said(opened: Opened, checked: Mapping[str, Any] | None, beside: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Assumptions of the choice, of the points and of what was chosen, and what is not checked of it.

    ``checked`` and ``beside`` are answers that say both, or None.
    """
    assumptions = {own.value.code: own.value.text for own in opened.assumed} | assumed_of(opened.batch, opened.packed)
    not_checked: dict[str, str] = {}
    for own in (checked or {}, beside or {}):
        assumptions |= own.get("assumptions", {})
        not_checked |= own.get("not_checked", {})
    return {"assumptions": assumptions, "not_checked": not_checked, "cautions": list(CAUTIONS)}
