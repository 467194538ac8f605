"""The answer to a reverse question, from its body."""

from typing import Any

from hangpoint.api.reverse.asked import read_asked
from hangpoint.api.reverse.envelope import envelope
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.questions import answers
from hangpoint.api.schemas.reverse_checks import ReverseCheckRequest
from hangpoint.product.catalogue import Catalogue


def run_reverse_check(body: bytes, *, catalogue: Catalogue) -> dict[str, Any]:
    """Read a body and answer its question.

    Raises:
        ProblemError: the body can't be read, the item can't be checked, or the question has no answer for it.
    """
    asked = read_asked(ReverseCheckRequest, body, catalogue)
    question = asked.body["question"]
    kind: str = question["kind"]
    if kind == "envelope":
        found = envelope(asked, question)
        return asked.head(asked.changed(found["points"])) | {"question": kind, "answers": [], "envelope": found}
    told = answers(asked)
    beside = [merged(question["neighbour"], each["neighbour"]) for each in told if "neighbour" in each]
    return asked.head([*asked.changed(told), *beside]) | {"question": kind, "answers": told}
