"""How a resource reads hang points that state nothing beside them: from a body of JSON, and from a CSV."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from hangpoint.api.bodies import Batch, read_batch
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.api.csv_resource import Beside
from hangpoint.api.state import State

OfBody = Callable[[bytes, State], dict[str, Any]]
OfCsv = Callable[[bytes, CsvOptions, Mapping[str, Any], State], tuple[dict[str, Any], Beside]]


def runs_of(answer: Callable[[Batch, State], dict[str, Any]]) -> tuple[OfBody, OfCsv]:
    """What answers a body of JSON, and what answers a CSV with what its query states, by one answer to both.

    Both raise `ProblemError`: the body can't be read, is wrong outside its items, too many items, a duplicate id.
    """

    def of_body(body: bytes, state: State) -> dict[str, Any]:
        return answer(read_batch(body), state)

    def of_csv(
        body: bytes, options: CsvOptions, head: Mapping[str, Any], state: State
    ) -> tuple[dict[str, Any], Beside]:
        return answer(read_csv(body, replace(options, **head)), state), ()

    return of_body, of_csv
