"""What is said of a batch as a whole, added up block by block: counts, assumptions, the digest."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.digest import RequestDigest
from hangpoint.pack.flags import READING_0, Bits, codes_of
from hangpoint.pack.points import Packed

_ASSUMPTION_TEXTS = {each.value.code: each.value.text for each in Assumption}
_NOT_CHECKED_TEXTS = {each.value.code: each.value.text for each in NotChecked}


class Tally:
    """Sums over the blocks of one batch."""

    def __init__(self, head: Sequence[str], *, default: Mapping[str, Any]) -> None:
        """``head`` and ``default`` as `RequestDigest` takes them."""
        self._digest = RequestDigest(head)
        self._default = default
        self._assumed = 0
        self._not_checked = 0
        self._counts: dict[str, int] = {}
        self._governing: dict[str, int] = {}

    def add(self, packed: Packed, verdicts: Verdicts, unread: Sequence[Any]) -> None:
        """Take in a block: its points with their verdicts, and the invalid items as they came."""
        self._digest.add(packed, unread, default=self._default)
        self._assumed |= _any_bit(packed.assumptions.bits)
        self._not_checked |= _any_bit(packed.not_checked.bits)
        refused = verdicts.refusal >= 0
        failed = verdicts.failed & ~refused
        passed = ~(failed | refused)
        on_assumptions = passed & (packed.assumptions.bits & READING_0 > 0)
        for name, number in (
            ("total", verdicts.count + len(unread)),
            ("passed", passed.sum()),
            ("passed_on_assumptions", on_assumptions.sum()),
            ("failed", failed.sum()),
            ("refused", refused.sum()),
            ("invalid", len(unread)),
        ):
            self._counts[name] = self._counts.get(name, 0) + int(number)
        lead = np.bincount(verdicts.governing[~refused & (verdicts.governing >= 0)], minlength=len(verdicts.modes))
        for mode, number in zip(verdicts.modes, lead.tolist(), strict=True):
            if number:
                code = mode.mode.value.code
                self._governing[code] = self._governing.get(code, 0) + number

    def as_json(self, taken: Sequence[Assumption]) -> dict[str, Any]:
        """Members of the answer; ``taken`` are assumptions of the request as a whole."""
        return {
            "request_digest": self._digest.hexdigest(),
            "summary": self._counts | {"governing": self._governing},
            "assumptions": {code: _ASSUMPTION_TEXTS[code] for code in codes_of(Assumption, self._assumed)}
            | {each.value.code: each.value.text for each in taken},
            "not_checked": {code: _NOT_CHECKED_TEXTS[code] for code in codes_of(NotChecked, self._not_checked)},
        }


def _any_bit(bits: Bits) -> int:
    return int(np.bitwise_or.reduce(bits))
