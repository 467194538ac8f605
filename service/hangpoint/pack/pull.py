"""Reading one place of every item at once, with the defaults of the request behind it.

Values have passed the schema, so a text is of its kind's grammar and a number is finite; what is left to check is
presence and the range in the core unit.
"""

import math
from array import array
from collections.abc import Callable, Hashable, Mapping, Sequence
from decimal import Decimal
from functools import cache, lru_cache
from itertools import chain
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.objects import EMPTY, Object, Objects, rows_of_entries
from hangpoint.report.printable import plain_number
from hangpoint.units import KINDS, PRINTED, QuantityKind, System, bare_factor, text_reader

_Found = TypeVar("_Found")
_MANY = 32
"""Values from which an array of numbers is faster than one number after the other."""
MAX_REMEMBERED = 4096
"""Numbers and texts of one kind whose value is kept: the same few stand in every row of a job."""


class Rows:
    """The same object of some items: ``objects`` in order, ``default`` behind each.

    ``local`` is the place of each in the columns of the batch, ``index`` its row in the request. ``path`` is the place
    in the item, within that of ``within`` where the objects are entries of lists. A column of a name that no object
    states is one number for all rows and must not be written to.
    """

    __slots__ = (
        *("_children", "_count", "default", "flaws"),
        *("index", "local", "objects", "path", "system", "within"),
    )

    def __init__(
        self,
        objects: Sequence[Object],
        *,
        default: Object,
        path: str,
        index: Sequence[int],
        local: Sequence[int],
        system: System,
        flaws: Flaws,
        within: Sequence[str] = (),
    ) -> None:
        self.objects = Objects.of(objects)
        self._count = len(objects)
        self._children: dict[str, Rows] = {}
        self.local = local
        self.default = default
        self.path = path
        self.index = index
        self.system: System = system
        self.flaws = flaws
        self.within = within

    def __len__(self) -> int:
        return self._count

    def child(self, name: str) -> "Rows":
        """The object under ``name`` of every item, merged key by key with the default's."""
        known = self._children.get(name)
        if known is None:
            known = self._children[name] = Rows(
                self.objects.child(name),
                default=self.default.get(name, EMPTY),
                path=f"{self.path}{name}/",
                index=self.index,
                local=self.local,
                system=self.system,
                flaws=self.flaws,
                within=self.within,
            )
        return known

    def taken(self, at: Sequence[int]) -> "Rows":
        """The objects at these places, which rise."""
        if len(at) == len(self):
            return self
        return Rows(
            self.objects.taken(at),
            default=self.default,
            path=self.path,
            index=[self.index[place] for place in at],
            local=[self.local[place] for place in at],
            system=self.system,
            flaws=self.flaws,
            within=[self.within[place] for place in at] if self.within else (),
        )

    def entries(self, name: str) -> tuple["Rows", NDArray[np.intp]]:
        """The objects in the lists under ``name``, one after the other, and whose list each is in.

        For lists without a default: nothing stands behind an entry.
        """
        lists: Sequence[Sequence[Object]] = [several or () for several in self.stated(name)]
        owner = owners(lists)
        outer = self.within or ("",) * len(self)
        rows = Rows(
            self.objects.entries(name),
            default=EMPTY,
            path="",
            index=rows_of_entries(self.index, lists),
            local=range(len(owner)),
            system=self.system,
            flaws=self.flaws,
            within=[
                f"{before}{self.path}{name}/{place}/"
                for before, several in zip(outer, lists, strict=True)
                for place in range(len(several))
            ],
        )
        return rows, owner

    def of_kind(self, name: str, kind: str, kinds: Sequence[str | None]) -> "Rows":
        """The object under ``name`` of the items of one kind; a default of another kind stands behind none of them."""
        default = self.default.get(name, EMPTY)
        number = kinds.count(kind)
        if number == len(kinds) and default.get("kind", kind) == kind:
            return self.child(name)
        at = [place for place, own in enumerate(kinds) if own == kind] if number else []
        return Rows(
            self.objects.child(name).taken(at),
            default=default if default.get("kind") == kind else EMPTY,
            path=f"{self.path}{name}/",
            index=[self.index[place] for place in at],
            local=[self.local[place] for place in at],
            system=self.system,
            flaws=self.flaws,
        )

    def values(self, name: str) -> Sequence[Any]:
        """The value under ``name``, the default's where an item has none, None where neither has."""
        return self.stated(name, self.default.get(name))

    def gives(self, name: str) -> bool:
        """Whether any item or the default has a value under ``name``."""
        return name in self.objects.names or name in self.default

    def silent(self, name: str) -> Bools:
        """Where neither an item nor the default has a value under ``name``."""
        if name not in self.objects.names:
            return filled(self._count, self.default.get(name) is None, np.bool_)
        return np.array([value is None for value in self.values(name)], dtype=np.bool_)

    def stated(self, name: str, absent: Any = None) -> Sequence[Any]:
        """The value under ``name`` of every item itself, ``absent`` where it has none."""
        return self.objects.stated(name, absent)

    def required(self, name: str, what: str, allowed: Sequence[str] = (), where: Bools | None = None) -> Sequence[Any]:
        """As `values`, and a flaw wherever there is none; with ``where`` only there."""
        values = self.values(name)
        if not self.objects.stated_by_all(name) and None in values:
            for at, value in enumerate(values):
                if value is None and (where is None or where[at]):
                    self.flaw(at, name, f"{what} is required here or in the defaults.", code="missing", allowed=allowed)
        return values

    def flaw(
        self, at: int, name: str, detail: str, *, slug: str = "validation", code: str = "", allowed: Sequence[str] = ()
    ) -> None:
        """Note a flaw of the value under ``name`` in the item at this place."""
        self.flaws.add(
            self.index[at],
            (self.within[at] if self.within else "") + self.path + name,
            detail,
            slug=slug,
            code=code,
            allowed=allowed,
            from_defaults=(key := name.partition("/")[0]) not in self.objects[at] and key in self.default,
        )

    def quantity(
        self, name: str, kind: QuantityKind, *, what: str = "", fill: float = math.nan, where: Bools | None = None
    ) -> Floats:
        """A quantity in its core unit; ``fill`` where absent, and a flaw there if ``what`` says what is required.

        With ``where`` it is required only there.
        """
        if not (what or self.gives(name)):
            return filled(self._count, fill)
        values = self.values(name)
        column = convert(values, kind, self.system)
        if ordinary(column, kind):
            return column
        if what:
            self.required(name, what, where=where)
        for at in places(out_of_range(column, kind)):
            self.flaw(at, name, range_text(kind, self.system), slug="quantity")
        column[np.isnan(column)] = fill
        return column

    def listed(self, name: str, lists: Sequence[Sequence[Any]], kind: QuantityKind, key: str = "") -> Floats:
        """A quantity of every entry of the lists under ``name`` (of its ``key``), one after the other; 0 if absent."""
        flat = chain.from_iterable(lists)
        column = convert([entry.get(key) for entry in flat] if key else list(flat), kind, self.system, absent=0.0)
        if ordinary(column, kind):
            return column
        bad = places(out_of_range(column, kind))
        if bad:
            entries = [(at, place) for at, several in enumerate(lists) for place in range(len(several))]
            for flat_place in bad:
                at, place = entries[flat_place]
                tail = f"{name}/{place}/{key}" if key else f"{name}/{place}"
                self.flaw(at, tail, range_text(kind, self.system), slug="quantity")
        return column

    def numbers(self, name: str, absent: float) -> Floats:
        """A plain number of every item, ``absent`` where there is none."""
        if not self.gives(name):
            return filled(self._count, absent)
        return np.array([absent if value is None else value for value in self.values(name)], dtype=np.float64)

    def true(self, name: str) -> Bools:
        """Where the value is true; what is not stated is not."""
        if name not in self.objects.names:
            return filled(self._count, bool(self.default.get(name)), np.bool_)
        return np.array([bool(value) for value in self.values(name)], dtype=np.bool_)

    def codes(
        self,
        name: str,
        table: Mapping[str, int],
        *,
        what: str = "",
        absent: int = -1,
        where: Bools | None = None,
    ) -> np.ndarray[Any, Any]:
        """Words as small integers; ``absent`` where there is none. ``what`` and ``where`` as `quantity` takes them."""
        if not (what or name in self.objects.names):
            word = self.default.get(name)
            return filled(self._count, absent if word is None else table[word], np.int8)
        values = self.values(name)
        if self.objects.stated_by_all(name) or None not in values:
            return np.fromiter(map(table.__getitem__, values), dtype=np.int8, count=len(values))
        if what:
            self.required(name, what, tuple(table), where)
        return np.array([absent if word is None else table[word] for word in values], dtype=np.int8)


@lru_cache(maxsize=128)
def filled(count: int, value: float, dtype: Any = np.float64) -> NDArray[Any]:
    """(count,) one value in every row: a column that many tables share and none may write to."""
    column = np.full(count, value, dtype=dtype)
    column.setflags(write=False)
    return column


def places(holds: Bools) -> list[int]:
    """The rows in which it holds, rising."""
    return holds.nonzero()[0].tolist()


def owners(lists: Sequence[Sequence[Any]]) -> NDArray[np.intp]:
    """Of every entry of the lists, one after the other, which list it is in."""
    return np.repeat(np.arange(len(lists), dtype=np.intp), np.array([len(several) for several in lists], dtype=np.intp))


def found_rows(keys: Sequence[Hashable], find: Callable[[Any], _Found | None]) -> tuple[NDArray[np.intp], list[_Found]]:
    """Look every distinct key up once.

    Returns:
        The place of each key's value in the list of values found, and that list; the place of a key without a value is
        the length of the list.
    """
    found = _Places(find)
    place = np.fromiter(map(found.__getitem__, keys), dtype=np.intp, count=len(keys))
    place[place < 0] = len(found.values_found)
    return place, found.values_found


class _Places(dict[Any, int]):
    """Places of values in the list of those found by their keys; -1 of a key without one."""

    def __init__(self, find: Callable[[Any], Any]) -> None:
        super().__init__()
        self._find = find
        self.values_found: list[Any] = []

    def __missing__(self, key: Any) -> int:
        value = self._find(key)
        place = self[key] = -1 if value is None else len(self.values_found)
        if value is not None:
            self.values_found.append(value)
        return place


class _Known(dict[Any, float]):
    """Numbers and texts of one kind seen so far, in the core unit; nan for None.

    A number and an equal one are one key.
    """

    def __init__(self, kind: QuantityKind, system: System) -> None:
        super().__init__()
        self._read = text_reader(kind.name)
        self._factor = bare_factor(kind, system)

    def __missing__(self, value: Any) -> float:
        if len(self) >= MAX_REMEMBERED:
            self.clear()
        if isinstance(value, str):
            size = self._read(value)
        else:
            size = math.nan if value is None else float(value) * self._factor
        found = self[value] = size + 0.0  # no negative zero, which equals zero as a key
        return found


@cache
def _known(kind: str, system: System) -> _Known:
    return _Known(KINDS[kind], system)


def convert(values: Sequence[Any], kind: QuantityKind, system: System, *, absent: float = math.nan) -> Floats:
    """Numbers and texts of one kind in the core unit; None becomes ``absent`` and the word none becomes infinite."""
    if len(values) >= _MANY and type(values[0]) is float:
        try:
            return np.array(array("d", values)) * bare_factor(kind, system) + 0.0
        except TypeError:  # a text or None
            pass
    known = _known(kind.name, system)
    column = np.fromiter(map(known.__getitem__, values), dtype=np.float64, count=len(values))
    if not math.isnan(absent):
        column[np.isnan(column)] = absent
    return column


def ordinary(column: Floats, kind: QuantityKind) -> bool:
    """Every row has a value well within the bounds of its kind, as nearly all have."""
    return np.count_nonzero((column > kind.least) & (column < kind.most)) == len(column)


def out_of_range(column: Floats, kind: QuantityKind) -> Bools:
    """Where a value is outside the bounds of its kind; absent (nan) and infinite (none) are not."""
    below = column <= kind.least if kind.open_below else column < kind.least
    return below | ((column > kind.most) & np.isfinite(column))


def range_text(kind: QuantityKind, system: System) -> str:
    """The bounds of a kind in words."""
    factor = bare_factor(kind, system)
    unit = PRINTED[system][kind.name]
    least, most = (f"{Decimal(plain_number(bound / factor, 6)):,f}" for bound in (kind.least, kind.most))
    low = f"more than {least}" if kind.open_below else f"at least {least}"
    return f"The {kind.title.lower()} is out of range: {low} and at most {most} {unit}."
