"""Assumptions taken and checks left out, as bits of one integer a point."""

from collections.abc import Sequence
from enum import Enum
from functools import cache

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Index
from hangpoint.core.vocabulary import (
    Assumption,
    FixtureAssumption,
    FixtureNotChecked,
    LoadAssumption,
    LoadNotChecked,
    NotChecked,
    position,
)

Bits = NDArray[np.uint64]
Vocabulary = (
    type[Assumption]
    | type[NotChecked]
    | type[LoadAssumption]
    | type[LoadNotChecked]
    | type[FixtureAssumption]
    | type[FixtureNotChecked]
)
READING_0 = np.uint64(sum(1 << position(each) for each in Assumption if each.value.clause == "reading 0"))
"""The defaults for what a request leaves blank; the other assumptions say how something was read."""


class Flags:
    """Bits of one closed list for every point of a batch."""

    def __init__(self, vocabulary: Vocabulary, count: int) -> None:
        self.vocabulary = vocabulary
        self._count = count
        self.bits: Bits = np.zeros(count, dtype=np.uint64)

    @classmethod
    def joined(cls, vocabulary: Vocabulary, parts: Sequence[tuple["Flags", Index]]) -> "Flags":
        """The flags of some points of several batches, one after the other."""
        found = cls(vocabulary, sum(len(rows) for _, rows in parts))
        found.bits = np.concatenate([flags.bits[rows] for flags, rows in parts])
        return found

    def set(self, member: Enum, holds: Bools | Sequence[bool] | None = None, rows: Sequence[int] | None = None) -> None:
        """Raise a flag: for all points, where ``holds``, or where ``holds`` over the points in ``rows``, rising."""
        bit = np.uint64(1 << position(member))
        if holds is None:
            self.bits |= bit
            return
        mask = np.asarray(holds, dtype=np.bool_)
        if rows is None or len(rows) == self._count:
            self.bits[mask] |= bit
        else:
            self.bits[np.asarray(rows, dtype=np.intp)[mask]] |= bit

    def clear(self, member: Enum, holds: Bools) -> None:
        """Lower a flag where ``holds``."""
        self.bits[holds] &= ~np.uint64(1 << position(member))

    def codes(self, bits: int) -> list[str]:
        """The codes of some bits, in the order of the closed list."""
        return codes_of(self.vocabulary, bits)

    def said(self) -> dict[str, str]:
        """Code and text of every flag that any point has, in the order of the closed list."""
        bits = int(np.bitwise_or.reduce(self.bits)) if len(self.bits) else 0
        texts = {member.value.code: member.value.text for member in self.vocabulary}
        return {code: texts[code] for code in self.codes(bits)}


@cache
def codes_of(vocabulary: Vocabulary, bits: int) -> list[str]:
    """The codes whose bits are set."""
    return [member.value.code for member in vocabulary if bits >> position(member) & 1]
