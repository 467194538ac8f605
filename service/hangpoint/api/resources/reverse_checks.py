"""Reverse questions: the most that may hang, the least embedment, edge, spacing; the envelope of tension and shear."""

from hangpoint.api.examples_reverse import REVERSE_CHECK_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.reverse.reverse_check import run_reverse_check
from hangpoint.api.schemas.probe_answers import ReverseCheckAnswer
from hangpoint.api.schemas.reverse_checks import ReverseCheckRequest

DESCRIPTION = """\
How much this hang point would just hold, or what it would need at least.

The question is answered by checking the item at every value of a grid, all in one batch, and dividing the steps at
which it begins or ceases to pass. No formula is turned round. Where the code is not monotonic there is more than one
interval that passes, and all are listed. Each answer has the value, what governs there and what beyond it, the change
of the item as a JSON merge patch that can be posted to the check, and the whole table.
"""

REVERSE_CHECKS = Resource(
    path="/v1/reverse-checks",
    operation_id="answerReverseCheck",
    tag="reverse questions",
    summary="The most and the least that passes",
    description=DESCRIPTION,
    request=ReverseCheckRequest,
    answer=ReverseCheckAnswer,
    answer_text="The values that were asked for, with the table of the sweep.",
    example=REVERSE_CHECK_JSON,
    run=lambda body, state: run_reverse_check(body, catalogue=state.catalogue),
    single=True,
)
