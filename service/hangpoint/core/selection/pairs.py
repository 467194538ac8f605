"""Candidates checked at points: each pair of them is a point of one more batch of the chain."""

import math
from dataclasses import fields, replace
from typing import Self

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowable_findings import allowable_refusals
from hangpoint.core.hang_point.allowables import F_M_ASSUMED, MASONRY_BOLT, Allowables
from hangpoint.core.hang_point.cases import row_counts
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.columns import columns_of
from hangpoint.core.hang_point.earthquake import Shaken
from hangpoint.core.hang_point.expansion import expand
from hangpoint.core.hang_point.fastener_earthquake import FastenersShaken
from hangpoint.core.hang_point.fastener_scope import fastener_refusals
from hangpoint.core.hang_point.points import Basis, Points
from hangpoint.core.hang_point.scope import ACCEPTED, refusals
from hangpoint.core.hang_point.verdict import EXCEEDED, Verdicts
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.rows import runs_of
from hangpoint.core.selection.candidates import Offer
from hangpoint.core.selection.places import endless
from hangpoint.core.vocabulary import Finding, Link, Mode, Severity, Triage, position

NONE = -1
BLOCK_ROWS = 12_000
"""Anchors in load cases that are checked at once: few enough to stay in the processor's cache."""


@frozen
class PairChecks:
    """What the chain says of pairs, a row each.

    ``refusal`` and ``violation`` are places in `Refusal` and `Finding`, ``mode`` one in `Mode`: the mode of anchor or
    base with the first largest ``utilisation``, which is that of loads one way at a time where that is larger; `NONE`
    where there is none. ``value`` and ``limit`` are those of the violation. ``rod`` is the utilisation of the rod.
    ``load_case`` and ``edge`` as in `PointMode`. ``by_load`` is the largest utilisation of a mode in which it grows as
    the load does, ``by_anchor`` that of one in which no edge has a part. ``cautions`` (pairs, `CAUTIONS`) and
    ``to_engineer`` (pairs, `TRIAGE`) say which of these hold.
    """

    refusal: Index
    violation: Index
    value: Floats
    limit: Floats
    utilisation: Floats
    mode: Index
    load_case: Index
    edge: Index
    rod: Floats
    by_load: Floats
    by_anchor: Floats
    cautions: Bools
    to_engineer: Bools

    def followed_by(self, other: Self) -> Self:
        """These pairs and behind them those of another check."""
        names = [each.name for each in fields(self)]
        return type(self)(**{name: np.concatenate([getattr(self, name), getattr(other, name)]) for name in names})

    def holds(self, reserve: float) -> Bools:
        """(pairs,) checked without a violation, the reserve kept; the rod, which is not chosen, needs none."""
        sound = (self.refusal == NONE) & (self.violation == NONE) & (self.mode != NONE)
        return sound & (self.utilisation <= EXCEEDED - reserve) & (self.rod <= EXCEEDED)


def paired(points: Points, offer: Offer, *, point: Index, candidate: Index, condition: Index) -> Points:
    """Pairs as a batch of the chain.

    Args:
        points: situations; their products are not read.
        offer: strengths of the candidates.
        point, candidate: (pairs,) of each.
        condition: (points,) condition of the hole that each point states.
    """
    own = expand(points, point)
    row = condition[point] * offer.count + candidate
    bonds = offer.bonds.take(row)
    if own.decks.in_deck.any():
        own = replace(own, decks=replace(own.decks, **columns_of(offer.decks.take(row))))
    if own.allowables is not None:
        own = replace(own, allowables=_by_tables(own.allowables, offer, row))
    if own.fasteners is not None:
        own = replace(own, fasteners=replace(own.fasteners, **columns_of(offer.fasteners.take(row))))
    return replace(
        own,
        products=offer.products.take(row),
        environments=replace(
            own.environments, steel=offer.steel[row], coating=offer.coating[row], follow_up=offer.follow_up[row]
        ),
        surroundings=replace(own.surroundings, drilled=offer.drilled[row]),
        bonds=replace(
            bonds,
            age=own.bonds.age,
            confirmed=own.bonds.confirmed,
            temperature_stated=own.bonds.temperature_stated | bonds.temperature_stated,
        ),
    )


def _by_tables(stated: Allowables, offer: Offer, row: Index) -> Allowables:
    """What pairs are checked by: what the points state, and the tables of the candidates.

    A distance that isn't stated is infinite; where a table limits it the pair is rejected (`places.place_columns`).
    """
    bolt = offer.bolt[row]
    return replace(
        endless(stated),
        method=np.where(bolt, MASONRY_BOLT, stated.method).astype(np.int8),
        f_base=np.where(np.isnan(stated.f_base), F_M_ASSUMED, stated.f_base),
        by_strength=stated.by_strength & bolt,
        **columns_of(offer.tables.take(row)),
    )


def check_pairs(
    points: Points, offer: Offer, basis: Basis, *, point: Index, candidate: Index, condition: Index
) -> PairChecks:
    """Check every pair by the chain; arguments as those of `paired`, ``point`` rising."""
    rows = row_counts(points, basis)
    parts: list[PairChecks] = []
    for first, last in runs_of(rows[point], BLOCK_ROWS):
        own, of = point[first:last], candidate[first:last]
        parts.append(_read(check(paired(points, offer, point=own, candidate=of, condition=condition), basis)))
    names = [each.name for each in fields(PairChecks)]
    return PairChecks(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})


def standing_refusals(points: Points, offer: Offer, basis: Basis, *, condition: Index) -> Codes:
    """Refusals that no load and no dimension has a part in: (points, candidates), a place in `Refusal` or `NONE`.

    They are found by the rules of the chain itself for a point without load in a member without end; points that agree
    in all else are asked for once.
    """
    endless = replace(points.bases, thickness=np.full(points.count, np.inf), c_a=np.full((points.count, 4), np.inf))
    bare = replace(points, bases=endless)
    stated = (bare.bases, bare.bonds, bare.fixings, bare.plates, bare.surroundings, bare.environments, bare.decks)
    own = [text for table in stated for text in _texts(table)]
    if bare.allowables is not None:
        own += _texts(bare.allowables)
    if bare.fasteners is not None:
        own += _texts(bare.fasteners)
    kinds, inverse = distinct([*own, column_bytes(points.hangs.kind), column_bytes(condition)], points.count)
    pairs = paired(
        bare,
        offer,
        point=np.repeat(kinds, offer.count),
        candidate=np.tile(np.arange(offer.count), len(kinds)),
        condition=condition,
    )
    nothing, never = np.zeros(pairs.count), np.zeros(pairs.count, dtype=np.bool_)
    outside = allowable_refusals(pairs, basis, pulled=never, held=never, sheared=never, quaking=never, ruled=never)
    if pairs.fasteners is not None:
        still = FastenersShaken(stated=never, acts=never, sheared=never)
        outside = fastener_refusals(
            pairs,
            pairs.fasteners,
            basis,
            pulled=never,
            sheared=never,
            ruled=never,
            shaken=still,
            lasting=never,
        )
    found = refusals(
        points=pairs,
        basis=basis,
        pulled=never,
        least_tension=nothing,
        sustained=nothing,
        sheared=never,
        shaken=Shaken(tension=never, shear=never),
        outside=outside,
    )
    return np.where(found == ACCEPTED, NONE, found).reshape(len(kinds), offer.count).astype(np.int8)[inverse]


def distinct(columns: list[Codes], count: int) -> tuple[Index, Index]:
    """The first of every kind of equal rows, and the kind of each row.

    Args:
        columns: bytes, (rows, any) each.
        count: rows.
    """
    raw = np.ascontiguousarray(np.concatenate(columns, axis=1))
    keys = raw.view(np.dtype((np.void, raw.shape[1])))[:, 0]
    _, first, inverse = np.unique(keys, return_index=True, return_inverse=True)
    return first, inverse.reshape(count)


def _texts(table: object) -> list[Codes]:
    return [column_bytes(getattr(table, each.name)) for each in fields(table)]  # pyright: ignore[reportArgumentType]


def column_bytes(column: Index | Floats | Bools | Codes) -> Codes:
    """A column as rows of bytes, which are equal where its rows are."""
    width = math.prod(column.shape[1:])
    flat = np.ascontiguousarray(column.reshape(len(column), width))
    return flat.view(np.int8).reshape(len(column), width * column.itemsize)


def _read(verdicts: Verdicts) -> PairChecks:
    count = verdicts.count
    violation = np.full(count, NONE, dtype=np.intp)
    value, limit = np.zeros((2, count))
    for column in verdicts.findings:
        if column.finding.value.severity is not Severity.VIOLATION:
            continue
        new = column.holds & (violation == NONE)
        violation[new] = position(column.finding)
        value[new], limit[new] = column.value[new], column.limit[new]
    cautions = np.zeros((count, len(CAUTIONS)), dtype=np.bool_)
    for column in verdicts.findings:
        if column.finding.value.severity is Severity.CAUTION:
            cautions[:, CAUTIONS.index(column.finding)] |= column.holds
    asked = np.zeros((count, len(TRIAGE)), dtype=np.bool_)
    for column in verdicts.to_engineer:
        asked[:, TRIAGE.index(column.triage)] |= column.holds
    utilisation = np.full(count, float(NONE))
    rod, by_load, by_anchor = np.zeros((3, count))
    mode, load_case, edge = (np.full(count, NONE, dtype=np.intp) for _ in range(3))
    for own in verdicts.modes:
        if own.record is None:
            continue
        if own.mode.link is Link.ROD:
            rod = np.maximum(rod, np.where(own.applies, own.utilisation, 0.0))
            continue
        if not own.mode.is_ratio:
            by_load = np.maximum(by_load, np.where(own.applies, own.utilisation, 0.0))
        if own.mode in _OF_THE_ANCHOR:
            by_anchor = np.maximum(by_anchor, np.where(own.applies, own.utilisation, 0.0))
        worse = own.applies & (own.utilisation > utilisation)
        utilisation = np.where(worse, own.utilisation, utilisation)
        mode[worse] = position(own.mode)
        load_case[worse], edge[worse] = own.load_case[worse], own.edge[worse]
    if verdicts.used_apart is not None:
        utilisation = np.maximum(utilisation, verdicts.used_apart)
    return PairChecks(
        refusal=verdicts.refusal,
        violation=violation,
        value=value,
        limit=limit,
        utilisation=np.maximum(utilisation, 0.0),
        mode=mode,
        load_case=load_case,
        edge=edge,
        rod=rod,
        by_load=by_load,
        by_anchor=by_anchor,
        cautions=cautions,
        to_engineer=asked,
    )


_OF_THE_ANCHOR = frozenset(
    {
        Mode.STEEL_TENSION,
        Mode.PULLOUT,
        Mode.STEEL_SHEAR,
        Mode.EN_STEEL_TENSION,
        Mode.EN_PULL_OUT,
        Mode.EN_STEEL_SHEAR,
        Mode.EN_LEVER_ARM,
    }
)
"""Modes of chapter 17 and of EN 1992-4 in which no edge has a part."""

MODES = tuple(Mode)
FINDINGS = tuple(Finding)
CAUTIONS = tuple(each for each in Finding if each.value.severity is Severity.CAUTION)
TRIAGE = tuple(Triage)
