"""Probes: changed items through the packing and the check of hang points, all in one batch, without JSON between.

A probe is an item as a request could state it. What comes back of each is its status, what governs it, and why it does
not pass.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from hangpoint.api.batch import BLOCK, basis_of, read_block
from hangpoint.api.bodies import Batch
from hangpoint.api.item_ids import item_ids
from hangpoint.api.problems import FieldError
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.core.clauses import Citing
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.points import Basis
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Finding, Link, Mode, Refusal, Severity, Status, Triage
from hangpoint.pack.citing import citing_of
from hangpoint.pack.points import Packed
from hangpoint.pack.printed import printed_cases
from hangpoint.pack.sites import compare
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import System

_REFUSALS = tuple(Refusal)
_APART = frozenset({Finding.NATURE_APART_HOLDS, Finding.EARTHQUAKE_OTHER_SENSE_HOLDS, Finding.LOADS_IN_PATTERN_HOLDS})
"""What passes by other loads than those of its modes; the value is the use by these."""
ITEM = "#/item"
"""Pointer of the item that a probe changes, in its errors."""

UNKNOWN = np.nan
"""Utilisation of a probe that nothing governs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What holds for every probe of a request."""

    units: System
    design_code: str | None
    combinations: str | None
    load_standard: str | None
    catalogue: Catalogue

    @property
    def basis(self) -> Basis:
        """What holds for every probe, as the check takes it."""
        return basis_of(self.batch([], {}))

    def batch(self, items: Sequence[Any], errors: Mapping[int, Sequence[FieldError]]) -> Batch:
        """Items as a batch of hang points."""
        return Batch(
            units=self.units,
            design_code=self.design_code,
            combinations=self.combinations,
            load_standard=self.load_standard,
            items=items,
            errors=errors,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Governing:
    """What governs a probe."""

    mode: Mode
    load_case: str
    edge: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one probe.

    ``utilisation`` is None where no mode applies, ``links`` has that of each link with one; ``most_used`` is the
    largest, by loads that are checked apart as well; ``problem`` is that of an invalid probe. ``cautions`` do not fail
    it, ``to_engineer`` is what to ask about it, ``citing`` its clauses.
    """

    status: Status
    utilisation: float | None = None
    most_used: float = 0.0
    governing: Governing | None = None
    links: Mapping[Link, float] = field(default_factory=dict[Link, float])
    violations: tuple[Finding, ...] = ()
    cautions: tuple[Finding, ...] = ()
    to_engineer: tuple[Triage, ...] = ()
    refusal: Refusal | None = None
    citing: Citing = Citing.CHAPTER_17
    problem: Mapping[str, Any] | None = None

    @property
    def passed(self) -> bool:
        """Whether the probe passes."""
        return self.status is Status.PASSED


class Probes:
    """The outcomes of probes, a row each: ``passed`` and ``utilisation`` as columns, all else by `outcome`."""

    __slots__ = ("_invalid", "_place", "_verdicts", "count", "packed", "passed", "utilisation")

    def __init__(self, count: int, packed: Packed, invalid: Mapping[int, Mapping[str, Any]]) -> None:
        self.count = count
        self.packed = packed
        self.passed: Bools = np.zeros(count, dtype=np.bool_)
        self.utilisation: Floats = np.full(count, UNKNOWN)
        self._invalid = invalid
        self._verdicts: list[Verdicts] = []
        self._place: dict[int, tuple[int, int]] = {}

    def put(self, rows: Sequence[int], verdicts: Verdicts) -> None:
        """Take the verdicts of some rows, in place of those that they had."""
        at = np.asarray(rows, dtype=np.intp)
        self.passed[at] = (verdicts.refusal < 0) & ~verdicts.failed
        self.utilisation[at] = np.where(verdicts.governing >= 0, verdicts.utilisation, UNKNOWN)
        block = len(self._verdicts)
        self._verdicts.append(verdicts)
        self._place.update({row: (block, local) for local, row in enumerate(rows)})

    def outcome(self, row: int) -> Outcome:
        """What became of the probe in this row."""
        if row in self._invalid:
            return Outcome(status=Status.INVALID, problem=_of_item(self._invalid[row]["problem"], row))
        block, at = self._place[row]
        verdicts = self._verdicts[block]
        refusal = int(verdicts.refusal[at])
        failed = bool(verdicts.failed[at])
        return Outcome(
            status=Status.REFUSED if refusal >= 0 else Status.FAILED if failed else Status.PASSED,
            utilisation=None if verdicts.governing[at] < 0 else float(verdicts.utilisation[at]),
            most_used=_most_used(verdicts, at),
            governing=_governing(verdicts, at),
            links=_links(verdicts, at),
            violations=_found(verdicts, at, Severity.VIOLATION),
            cautions=_found(verdicts, at, Severity.CAUTION),
            to_engineer=tuple(column.triage for column in verdicts.to_engineer if column.holds[at]),
            refusal=_REFUSALS[refusal] if refusal >= 0 else None,
            citing=citing_of(int(verdicts.method[at])),
        )

    def service(self, row: int) -> dict[str, float]:
        """Service tension at the anchor by its nature, lbf; the probe is not invalid."""
        block, at = self._place[row]
        demand = self._verdicts[block].demand
        return {name: float(getattr(demand, name)[at]) for name in ("dead", "contents", "live", "sprinkler", "test")}


def _of_item(problem: Mapping[str, Any], row: int) -> dict[str, Any]:
    """The problem of an item with pointers of one item and not of a batch."""
    before, after = f"#/items/{row}", ITEM
    errors = [{**each, "pointer": each["pointer"].replace(before, after, 1)} for each in problem["errors"]]
    return {**problem, "detail": problem["detail"].replace(before, after, 1), "errors": errors}


def _found(verdicts: Verdicts, at: int, severity: Severity) -> tuple[Finding, ...]:
    return tuple(
        column.finding for column in verdicts.findings if column.finding.value.severity is severity and column.holds[at]
    )


def _most_used(verdicts: Verdicts, at: int) -> float:
    apart = (float(each.value[at]) for each in verdicts.findings if each.finding in _APART and each.holds[at])
    return max(float(verdicts.utilisation[at]), *apart, 0.0)


def _governing(verdicts: Verdicts, at: int) -> Governing | None:
    which = int(verdicts.governing[at])
    if which < 0:
        return None
    mode = verdicts.modes[which]
    edge = int(mode.edge[at])
    case = printed_cases(verdicts.case_names)[int(mode.load_case[at])]
    return Governing(mode=mode.mode, load_case=case, edge=EDGES[edge] if edge >= 0 else None)


def _links(verdicts: Verdicts, at: int) -> dict[Link, float]:
    found: dict[Link, float] = {}
    for mode in verdicts.modes:
        if mode.applies[at]:
            found[mode.mode.link] = max(found.get(mode.mode.link, 0.0), float(mode.utilisation[at]))
    return found


def packed_probes(
    items: Sequence[Any], situation: Situation, errors: Mapping[int, Sequence[FieldError]] | None = None
) -> Probes:
    """Items as columns, not checked: of those that are invalid there is an outcome."""
    batch = situation.batch(items, errors or {})
    block = read_block(batch, range(len(items)), item_ids(batch), situation.catalogue)
    return Probes(len(items), block.packed, block.invalid)


def probe(
    items: Sequence[Any],
    situation: Situation,
    *,
    near: bool = False,
    errors: Mapping[int, Sequence[FieldError]] | None = None,
) -> Probes:
    """Check items as one batch of hang points.

    Args:
        items: of the schema of hang points, but for those with errors.
        situation: of the request.
        near: points of one member are neighbours; otherwise each is alone.
        errors: of items that are not of the schema, by row.
    """
    probes = packed_probes(items, situation, errors)
    basis = situation.basis
    rows = probes.packed.index
    groups = compare([probes.packed], size=BLOCK) if near else None
    probes.put(rows, check(probes.packed.points, basis))
    for group in groups or ():
        local: list[int] = group.local.tolist()
        probes.put([rows[at] for at in local], check(group.packed.points, basis))
    return probes


class Sites:
    """Outcomes of sites: several items of one member each, of which all have to pass. A row a site."""

    __slots__ = ("_probes", "_start", "count", "passed", "utilisation")

    def __init__(self, sizes: Sequence[int], probes: Probes) -> None:
        self._probes = probes
        self.count = len(sizes)
        self._start = np.concatenate([[0], np.cumsum(sizes)]).astype(np.intp)
        first = self._start[:-1]
        self.passed: Bools = np.logical_and.reduceat(probes.passed, first)
        self.utilisation: Floats = np.fmax.reduceat(probes.utilisation, first)

    def outcomes(self, row: int) -> list[Outcome]:
        """What became of every item of a site, in order."""
        return [self._probes.outcome(at) for at in range(self._start[row], self._start[row + 1])]

    def outcome(self, row: int) -> Outcome:
        """The worst item of a site: the first that doesn't pass, else the most used."""
        own = self.outcomes(row)
        return next((each for each in own if not each.passed), max(own, key=lambda each: each.utilisation or 0.0))


def probe_sites(sites: Sequence[Sequence[Mapping[str, Any]]], situation: Situation) -> Sites:
    """Check several sites as one batch: the items of one are of one member and neighbours, and of no other's."""
    items = [
        merged(item, {"id": f"{row}/{place}", "base": {"member": f"{row}"}})
        for row, site in enumerate(sites)
        for place, item in enumerate(site)
    ]
    return Sites([len(site) for site in sites], probe(items, situation, near=True))
