"""Members of a stream: what its points state of them has to agree, also with points of earlier blocks.

A block can't be called back once it is sent. So where a later point states its member differently, the results of the
earlier ones are withdrawn, and every point of that member is invalid, as it is in a batch that is read whole.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from hangpoint.api.bodies import Batch
from hangpoint.pack.flaws import Flaw
from hangpoint.pack.labels import one_name
from hangpoint.pack.members import member_flaws

MAX_SPELLINGS = 16
"""Ways to state a member that are kept for comparison. They are all the same value, or the member is settled."""

_STATUS = re.compile(rb'"status":"([a-z]+)","on_assumptions":(true|false)')
_MODE = re.compile(rb'"governing":\{"link":"[a-z]+","mode":"([a-z_]+)"')


class Sent(NamedTuple):
    """A result that was sent: where it stands, and how the summary counts it."""

    row: int
    line: int
    id: str
    status: str
    on_assumptions: bool
    mode: str | None


@dataclass(slots=True)
class _Spelling:
    """A way to state a member: the first point that states it so, and how many do."""

    point: Any
    base: Mapping[str, Any]
    count: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """What is wrong with points: of those at hand by row, and of results that were sent before."""

    by_row: Mapping[int, Sequence[Flaw]]
    sent: Sequence[tuple[Sent, Sequence[Flaw]]]


class Members:
    """What points have stated of their members so far."""

    def __init__(self, head: Batch) -> None:
        """``head`` has the units and the defaults of the request."""
        self._head = head
        self._default: str | None = head.defaults.get("base", {}).get("member")
        self._stated: dict[str, dict[str, _Spelling]] = {}
        self._sent: dict[str, list[Sent]] = {}
        self._settled: dict[str, Sequence[Flaw]] = {}

    def of(self, item: Any) -> str | None:
        """Member of a valid item."""
        return one_name(item.get("base", {}).get("member", self._default))

    def compare(self, items: Mapping[int, Any]) -> Contradiction:
        """Compare valid items by row with each other and with what came before."""
        named = {row: member for row, item in items.items() if (member := self.of(item)) is not None}
        members = set(named.values())
        earlier = [spelling for member in members for spelling in self._stated.get(member, {}).values()]
        flaws = self._flaws(earlier, {row: items[row] for row in named})
        for row, member in named.items():
            if len(flaws.get(row, ())) > len(self._settled.get(member, ())):
                self._settled[member] = flaws[row]
            self._note(member, items[row])
        settled = members & self._settled.keys()
        return Contradiction(
            by_row={row: self._settled[member] for row, member in named.items() if member in settled},
            sent=[(sent, self._settled[member]) for member in settled for sent in self._sent.pop(member, ())],
        )

    def note_sent(self, row: int, line: int, item: Any, result: bytes) -> None:
        """Remember the result of a valid point, in case it has to be withdrawn."""
        member = self.of(item)
        if member is not None:
            self._sent.setdefault(member, []).append(_sent(row, line, item["id"], result))

    def _flaws(self, earlier: Sequence[_Spelling], items: Mapping[int, Any]) -> Mapping[int, Sequence[Flaw]]:
        if not items:
            return {}
        return member_flaws(
            [*({"id": each.point, "base": each.base} for each in earlier), *items.values()],
            default=self._head.defaults,
            index=[*range(-len(earlier), 0), *items],
            system=self._head.units,
            counts=[*(each.count for each in earlier), *[1] * len(items)],
        ).by_row

    def _note(self, member: str, item: Mapping[str, Any]) -> None:
        base = item.get("base", {})
        own = {name: base[name] for name in ("member", "thickness", "strength") if name in base}
        spellings = self._stated.setdefault(member, {})
        known = spellings.get(text := repr(own))
        if known is None and len(spellings) < MAX_SPELLINGS:
            known = spellings[text] = _Spelling(item["id"], own)
        if known is not None:
            known.count += 1


def _sent(row: int, line: int, point: str, result: bytes) -> Sent:
    """Read from the text of a result; to read all of it would take as long as the check."""
    found = _STATUS.search(result)
    if found is None:
        raise ValueError("a result without its status")
    mode = _MODE.search(result)
    return Sent(
        row=row,
        line=line,
        id=point,
        status=found[1].decode(),
        on_assumptions=found[2] == b"true",
        mode=None if mode is None else mode[1].decode(),
    )
