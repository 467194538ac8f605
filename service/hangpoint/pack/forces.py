"""Direct forces as columns: service loads by nature, or factored loads, a row for each load case of a point."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any, NamedTuple

import numpy as np

from hangpoint.core.hang_point.opposed import Apart
from hangpoint.core.hang_point.points import GivenLoads
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Assumption, Nature
from hangpoint.pack.flags import Flags
from hangpoint.pack.opposed import loads_apart
from hangpoint.pack.pull import EMPTY, Object, Rows, convert, ordinary, out_of_range, owners, places, range_text
from hangpoint.units import FORCE, MOMENT, OFFSET, QuantityKind

AS_GIVEN = "as given"
"""Name of the one load case of a point that lists no load cases."""

MOST_TOLD = 20
"""Flaws of one column that are told of one item."""
COME_AND_GO = tuple(nature for nature in Nature if nature is not Nature.DEAD)
"""Natures of which the one load may be there without the other."""
ROUNDING = 1e-12
SERVICE = {"dead": 0, "contents": 1, "live": 2}
_NATURES = {nature.value: place for place, nature in enumerate(Nature)}
_NATURE_NAMES = tuple(_NATURES)
_AXES = ("x", "y", "z")
SHEARS = ("shear_x", "shear_y")
MOMENTS = ("moment_x", "moment_y", "torsion")
_LOADS = {"tension": FORCE, **dict.fromkeys(SHEARS, FORCE), **dict.fromkeys(MOMENTS, MOMENT)}
_TENSION, _SHEARS, _MOMENTS = 0, slice(1, 3), slice(3, 6)
"""Where they are among the loads of a component."""


class Sums:
    """Columns over all points that the kinds of what hangs add to."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.service: Floats = np.zeros((3, count))
        self.v_service: Floats = np.zeros((3, count, 2))
        self.m_service: Floats = np.zeros((3, count, 3))
        self.at: Floats = np.zeros((count, 3))
        self.transient: Floats = np.zeros((count, 6, len(TRANSIENT)))
        self.earthquake: Floats = np.zeros((count, 6))
        self.sprinkler: Bools = np.zeros(count, dtype=np.bool_)

    def has_contents(self) -> Bools:
        """(points,) with a load of that nature."""
        own = (self.service[1][:, None], self.v_service[1], self.m_service[1])
        found: Bools = np.any(np.concatenate(own, axis=1), axis=1)
        return found


class _Source(NamedTuple):
    """One list of components: ``at`` the place of its item, ``case`` the index of its load case or -1.

    ``stated`` is the load case itself, empty for the components of a point.
    """

    at: int
    case: int
    components: Sequence[Object]
    stated: Object

    def path(self, index: int) -> str:
        """The component's place within ``hangs``."""
        return f"components/{index}" if self.case < 0 else f"load_cases/{self.case}/components/{index}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Components:
    """All components of the items of kind forces on one flat axis, in order.

    ``source`` is the index of the list that each is in, ``at`` (sources,) the place of the item of each list.
    ``loads`` (components, 6) are ``n``, ``v`` along x and y and ``m`` about x, y and z as `GivenLoads` has them.
    """

    rows: Rows
    sources: Sequence[_Source]
    at: Index
    source: Index
    nature: Index
    shaking: Bools
    loads: Floats

    def first_moment(self, point: int, names: Sequence[str]) -> str | None:
        """Place in the item of the first component of a point that states one of these moments, other than 0."""
        own_at = bisect_left(self.rows.local, point)
        own_sources = np.searchsorted(self.at, [own_at, own_at + 1])
        first, last = np.searchsorted(self.source, own_sources).tolist()
        axes = [MOMENTS.index(name) for name in names]
        for flat in range(first, last):
            for axis in axes:
                if self.loads[flat, _MOMENTS][axis] != 0:
                    return f"{_place(self.sources, self.source, flat)[1]}/{MOMENTS[axis]}"
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedForces:
    """Factored loads of a batch with the names of their load cases, the components that they came from, and service
    loads of one nature against each other one way at a time."""

    given: GivenLoads
    names: tuple[str, ...]
    components: Components
    apart: Apart | None = None


def pack_forces(rows: Rows, sums: Sums, *, factored: bool, assumptions: Flags) -> PackedForces:
    """Read the direct forces of the items of their kind.

    Flaws: neither components nor load cases or both, load cases of service loads, two cases of one name, shares of
    service loads, a share of earthquake beside components of that nature, shares above 1 together, a quantity out of
    range.
    """
    sources = _sources(rows, factored=factored)
    components = _components(rows, sources)
    if len(rows):
        place = rows.child("at")
        for axis, name in enumerate(_AXES):
            sums.at[rows.local, axis] = place.quantity(name, OFFSET, fill=0.0)
    apart = None
    if factored:
        given, names = _factored(components, sums, assumptions)
    else:
        if len(rows):
            apart = _service(components, sums, assumptions)
        given, names = _NOTHING_GIVEN, (AS_GIVEN,)
    return PackedForces(given=given, names=names, components=components, apart=apart)


def _sources(rows: Rows, *, factored: bool) -> list[_Source]:
    """The lists of components in order; an item without one has none here."""
    if not rows.gives("load_cases"):
        lists = rows.required("components", "The list of load components")
        return [_Source(at, -1, each or (), EMPTY) for at, each in enumerate(lists)]
    made: list[_Source] = []
    for at, (own, components, cases) in enumerate(
        zip(rows.objects, rows.values("components"), rows.values("load_cases"), strict=True)
    ):
        if ("components" in own) != ("load_cases" in own):
            components, cases = own.get("components"), own.get("load_cases")
        if cases is None:
            if components is None:
                detail = "The list of load components, or of load cases, is required here or in the defaults."
                rows.flaw(at, "components", detail, code="missing")
            made.append(_Source(at, -1, components or (), EMPTY))
            continue
        if components is not None:
            rows.flaw(at, "load_cases", "Give components or load_cases, not both.", code="contradiction")
        elif not factored:
            detail = 'load_cases goes with combinations "given_factored" only; give components by nature.'
            rows.flaw(at, "load_cases", detail, code="contradiction")
        _repeated_names(rows, at, [case["name"] for case in cases])
        made += [_Source(at, index, case["components"], case) for index, case in enumerate(cases)]
    return made


def _repeated_names(rows: Rows, at: int, names: Sequence[str]) -> None:
    for index, name in enumerate(names) if len(set(names)) < len(names) else ():
        if name in names[:index]:
            detail = "Another load case of the point has the same name."
            rows.flaw(at, f"load_cases/{index}/name", detail, code="duplicate-name")


def _components(rows: Rows, sources: Sequence[_Source]) -> Components:
    if not sources:
        return Components(rows=rows, sources=(), **_NO_COMPONENTS)
    lists = [each.components for each in sources]
    flat = list(chain.from_iterable(lists))
    source = owners(lists)
    at = np.array([each.at for each in sources], dtype=np.intp)
    stated = set[str]().union(*flat)
    loads = np.zeros((len(flat), len(_LOADS)))
    for column, (name, kind) in enumerate(_LOADS.items()):
        if name in stated:
            values = [component.get(name) for component in flat]
            loads[:, column] = _column(rows, sources, at, source, values, name, kind)
    nature = np.array([_NATURES[component["nature"]] for component in flat], dtype=np.intp)
    return Components(
        rows=rows,
        sources=sources,
        at=at,
        source=source,
        nature=nature,
        shaking=nature == _NATURES[Nature.EARTHQUAKE],
        loads=loads,
    )


_NO_INDEX: Index = np.zeros(0, dtype=np.intp)
_NO_COMPONENTS: dict[str, Any] = {
    **dict.fromkeys(("at", "source", "nature"), _NO_INDEX),
    "shaking": np.zeros(0, dtype=np.bool_),
    "loads": np.zeros((0, len(_LOADS))),
}


def _column(
    rows: Rows,
    sources: Sequence[_Source],
    at: Index,
    source: Index,
    values: Sequence[Any],
    name: str,
    kind: QuantityKind,
) -> Floats:
    column = convert(values, kind, rows.system, absent=0.0)
    if ordinary(column, kind):
        return column
    for flat in _first_told(at[source], out_of_range(column, kind)):
        own_at, path = _place(sources, source, flat)
        rows.flaw(own_at, f"{path}/{name}", range_text(kind, rows.system), slug="quantity")
    return column


def _first_told(at: Index, bad: Bools) -> list[int]:
    """The first bad components of each item, at most `MOST_TOLD`; ``at`` is the item of each component, rising."""
    flat = np.flatnonzero(bad)
    own = at[flat]
    return flat[np.arange(len(flat)) - np.searchsorted(own, own) < MOST_TOLD].tolist()


def _place(sources: Sequence[_Source], source: Index, flat: int) -> tuple[int, str]:
    """Item of a component, and its place within ``hangs``."""
    number = int(source[flat])
    own = sources[number]
    return own.at, own.path(flat - int(np.searchsorted(source, number)))


def _service(components: Components, sums: Sums, assumptions: Flags) -> Apart | None:
    rows, nature = components.rows, components.nature
    point = np.asarray(rows.local, dtype=np.intp)[components.at][components.source]
    opposed = np.zeros(sums.count, dtype=np.bool_)
    for code in places(np.bincount(nature) > 0):
        name = _NATURE_NAMES[code]
        taken = nature == code
        own, stated = point[taken], components.loads[taken]
        if name in COME_AND_GO:
            opposed |= stated_against_each_other(own, stated, sums.count)
        whole = _summed(own, stated, sums.count)
        if name in SERVICE:
            sums.service[SERVICE[name]] += whole[:, _TENSION]
            sums.v_service[SERVICE[name]] += whole[:, _SHEARS]
            sums.m_service[SERVICE[name]] += whole[:, _MOMENTS]
        elif name == Nature.EARTHQUAKE:
            sums.earthquake += whole
        else:
            sums.transient[:, :, TRANSIENT.index(name)] += whole
    assumptions.set(Assumption.NATURE_TOGETHER, opposed)
    for name in ("sustained_fraction", "earthquake_fraction"):
        for at in places(~rows.silent(name)):
            rows.flaw(at, name, f'{name} goes with combinations "given_factored" only; give the loads by nature.')
    return loads_apart(point, nature, components.loads, sums.count) if np.count_nonzero(opposed) else None


def stated_against_each_other(owner: Index, values: Floats, count: int) -> Bools:
    """(count,) owners of which some rows, (rows, columns), have another sign than others in one column."""
    total, size = _summed(owner, values, count), _summed(owner, np.abs(values), count)
    return np.any(np.abs(total) < size * (1.0 - ROUNDING), axis=1)


def _summed(owner: Index, values: Floats, count: int) -> Floats:
    """Sums of the rows of each owner, (count, columns of the values)."""
    width: int = values.shape[1]
    place: Index = owner[:, None] * width + np.arange(width)
    total = np.bincount(place.ravel(), weights=values.ravel(), minlength=count * width)
    return total.astype(np.float64, copy=False).reshape(count, width)


_NOTHING_GIVEN = GivenLoads.none(_NO_INDEX)


def _factored(components: Components, sums: Sums, assumptions: Flags) -> tuple[GivenLoads, tuple[str, ...]]:
    """A row of every load case, and one without load for a point that has none."""
    rows, sources = components.rows, components.sources
    own = np.asarray(rows.local, dtype=np.intp)[components.at]
    per_point = np.maximum(np.bincount(own, minlength=sums.count), 1)
    start = np.cumsum(per_point) - per_point
    case = np.array([each.case for each in sources], dtype=np.intp)
    row_of_source = start[own] + np.maximum(case, 0)
    total = int(per_point.sum())
    row = row_of_source[components.source]
    point = np.repeat(np.arange(sums.count), per_point)
    names: dict[str, int] = {AS_GIVEN: 0}
    name = np.zeros(total, dtype=np.intp)
    name[row_of_source] = [names.setdefault(each.stated.get("name", AS_GIVEN), len(names)) for each in sources]
    loads = _summed(row, components.loads, total)
    quake = np.zeros_like(loads)
    shaking = components.shaking
    if np.count_nonzero(shaking):
        quake = _summed(row[shaking], components.loads[shaking], total)
    shaken = np.bincount(row[shaking], minlength=total)[row_of_source] > 0
    stated = _shares(components, "earthquake_fraction", shaken)
    known = np.flatnonzero(~np.isnan(stated))
    quake[row_of_source[known]] = loads[row_of_source[known]] * stated[known, None]
    sustained = _shares(components, "sustained_fraction")
    _no_more_than_whole(components, sustained, stated)
    rest = loads - quake
    given = GivenLoads(
        point=point,
        name=name,
        n=rest[:, _TENSION],
        v=rest[:, _SHEARS],
        m=rest[:, _MOMENTS],
        n_e=quake[:, _TENSION],
        v_e=quake[:, _SHEARS],
        m_e=quake[:, _MOMENTS],
        sustained_fraction=np.zeros(total),
    )
    given.sustained_fraction[row_of_source] = np.where(np.isnan(sustained), 1.0, sustained)
    own_quake = quake[row_of_source]
    for member, holds in (
        (Assumption.SUSTAINED, np.isnan(sustained)),
        (Assumption.NO_EARTHQUAKE, np.isnan(stated) & ~shaken),
        (Assumption.EARTHQUAKE_REVERSES, own_quake[:, 1:].any(axis=1)),
        (Assumption.EARTHQUAKE_PULLS, own_quake[:, _TENSION] < 0),
    ):
        assumptions.set(member, np.bincount(own[holds], minlength=sums.count) > 0)
    opposed = stated_against_each_other(row[shaking], components.loads[shaking], total)
    assumptions.set(Assumption.NATURE_TOGETHER, np.bincount(point[opposed], minlength=sums.count) > 0)
    return given, tuple(names)


def _shares(components: Components, name: str, shaken: Bools | None = None) -> Floats:
    """A share of every source, that of its point where its load case states none, nan where neither does.

    Args:
        components: of all sources.
        name: of the share.
        shaken: (sources,) components of nature earthquake state the share already: one that is stated is a flaw.
    """
    rows, sources = components.rows, components.sources
    of_point = rows.values(name)
    values = [each.stated.get(name, of_point[each.at]) for each in sources]
    share = np.array([np.nan if value is None else value for value in values], dtype=np.float64)
    for index in () if shaken is None else places(shaken & ~np.isnan(share)):
        each = sources[index]
        rows.flaw(
            each.at,
            _place_of_share(each, name),
            "Components of nature earthquake already state the share; give one or the other.",
            code="contradiction",
        )
    return share


def _place_of_share(source: _Source, name: str) -> str:
    return f"load_cases/{source.case}/{name}" if name in source.stated else name


def _no_more_than_whole(components: Components, sustained: Floats, earthquake: Floats) -> None:
    for source in places(sustained + earthquake > 1.0 + ROUNDING):
        own = components.sources[source]
        components.rows.flaw(
            own.at,
            _place_of_share(own, "earthquake_fraction"),
            "The sustained and the earthquake share are of one load: together they are no more than 1.",
            code="contradiction",
        )


def moments_about(arm: Floats, *, n: Floats, v: Floats, m: Floats) -> Floats:
    """Moments about a place from which the forces act at an arm.

    Args:
        arm: (rows, 3) from the place to where the forces act, in.
        n: (rows,) tension, lbf, along z.
        v: (rows, 2) shear along x and y, lbf.
        m: (rows, 3) moments stated, lbf*in.
    """
    return m + np.cross(arm, np.concatenate([v, n[:, None]], axis=1))
