"""What a calculation sheet is of."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.report.calculation.place import Place
from hangpoint.report.calculation.stated import Stated

Result = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """A hang point of an answer, what was stated of it, and its place; None where it was not understood."""

    result: Result
    stated: Sequence[Stated]
    place: Place | None

    @property
    def lone(self) -> bool:
        """Whether it has one anchor, or is not known to have several."""
        return self.place is None or len(self.place.x) == 1

    @property
    def by_en(self) -> bool:
        """Whether its anchors were checked by EN 1992-4."""
        return any(mode["mode"].startswith("en_") for mode in self.result.get("modes", ()))

    @property
    def in_masonry(self) -> bool:
        """Whether its base is stated to be masonry."""
        return any(each.place == "base.kind" and each.text == "masonry" for each in self.stated)

    def acting_with(self, mode: str) -> Sequence[str]:
        """The points whose anchors a mode holds as well."""
        trace = self.result.get("trace", ())
        return next((made.get("points", ()) for made in trace if made.get("mode") == mode), ())


def values_of(record: Mapping[str, Any]) -> dict[str, Any]:
    """The values of a record of a trace by the names of its lines."""
    return {line["name"]: line["value"] for line in record["lines"]}
