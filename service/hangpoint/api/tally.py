"""What is said of a batch as a whole, added up block by block: counts, assumptions, the digest."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.hang_point.cases import by_service
from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import Assumption, NotChecked, position
from hangpoint.pack.answer import load_case_table
from hangpoint.pack.digest import RequestDigest
from hangpoint.pack.flags import READING_0, codes_of
from hangpoint.pack.points import Packed

ASSUMPTION_TEXTS = {each.value.code: each.value.text for each in Assumption}
_NOT_CHECKED_TEXTS = {each.value.code: each.value.text for each in NotChecked}

_COUNTS = ("total", "passed", "passed_on_assumptions", "failed", "refused", "invalid")


class Tally:
    """Sums over the blocks of one batch."""

    def __init__(self, head: Sequence[str], *, default: Mapping[str, Any]) -> None:
        """``head`` and ``default`` as `RequestDigest` takes them."""
        self._digest = RequestDigest(head)
        self._default = default
        self._assumed = 0
        self._not_checked = 0
        self._by_service: set[bool] = set()
        self._counts: dict[str, int] = dict.fromkeys(_COUNTS, 0)
        self._governing: dict[str, int] = {}
        self.load_cases: dict[str, dict[str, Any]] = {}

    def read(self, packed: Packed, unread: Sequence[Any]) -> None:
        """Take in what a block asks: its points, and the invalid items as they came."""
        self._digest.add(packed, unread, default=self._default)
        self._assumed |= packed.assumptions.of_any()
        self._not_checked |= packed.not_checked.of_any()
        service = by_service(packed.points)
        self._by_service |= set(service.tolist()) if service is not None else {False} if packed.points.count else set()
        self._count({"total": packed.points.count + len(unread), "invalid": len(unread)})

    def count(self, packed: Packed, verdicts: Verdicts, *, left_out: Bools | None = None) -> None:
        """Take in the verdicts of points that were read; ``left_out`` (points,) are counted elsewhere."""
        self.load_cases |= load_case_table(verdicts.case_names, verdicts.load_cases.tolist())
        counts = np.ones(verdicts.count, dtype=np.bool_) if left_out is None else ~left_out
        refused = verdicts.refusal >= 0
        failed = verdicts.failed & ~refused
        passed = ~(failed | refused)
        on_assumptions = passed & packed.assumptions.any_of(READING_0)
        named = {"passed": passed, "passed_on_assumptions": on_assumptions, "failed": failed, "refused": refused}
        self._count({name: int(np.count_nonzero(holds & counts)) for name, holds in named.items()})
        leads = counts & ~refused & (verdicts.governing >= 0)
        lead = np.bincount(verdicts.governing[leads], minlength=len(verdicts.modes))
        for mode, number in zip(verdicts.modes, lead.tolist(), strict=True):
            if number:
                code = mode.mode.value.code
                self._governing[code] = self._governing.get(code, 0) + number

    def _count(self, numbers: Mapping[str, int]) -> None:
        for name, number in numbers.items():
            self._counts[name] += number

    def assume(self, member: Assumption) -> None:
        """Note an assumption about the request as a whole."""
        self._assumed |= 1 << position(member)

    def as_json(self, taken: Sequence[Assumption]) -> dict[str, Any]:
        """Members of the answer; ``taken`` are assumptions of the request as a whole.

        That loads are combined for strength is not said where every point goes by allowable loads.
        """
        others = {Assumption.COMBINATIONS} if self._by_service == {True} else set[Assumption]()
        return {
            "request_digest": self._digest.hexdigest(),
            "summary": self._counts | {"governing": self._governing},
            "assumptions": {code: ASSUMPTION_TEXTS[code] for code in codes_of(Assumption, self._assumed)}
            | {each.value.code: each.value.text for each in taken if each not in others},
            "not_checked": {code: _NOT_CHECKED_TEXTS[code] for code in codes_of(NotChecked, self._not_checked)},
        }
