"""What is still to be asked of a base and a hang point."""

from hangpoint.api.base_interview import run_base_interview
from hangpoint.api.resource import Resource
from hangpoint.api.schemas.base_interviews import BaseInterviewAnswer, BaseInterviewRequest

DESCRIPTION = """\
An incomplete hang point in, the questions still open out, the weightiest first.

Each has why it matters, what is taken if nobody answers (an assumption by its code, a refusal, or that the point is
invalid) and what the answer may be. What is known and already decides against a check is named, with the question to
the engineer. Where nothing is open that has no default, the item is checked as it is: what the check can't take stands
under `invalid`, and why it refuses under `refused`. With `enough` the item can be sent to a check, which lists the
assumptions that it takes.

Questions and check are those of ACI 318-19: a design code can't be stated, and what EN 1992-4 asks (a strength class,
no seismic design category) is not asked here.
"""

BASE_INTERVIEWS = Resource(
    path="/v1/base-interviews",
    operation_id="interviewBase",
    tag="base interviews",
    summary="The questions still open about a base",
    description=DESCRIPTION,
    request=BaseInterviewRequest,
    answer=BaseInterviewAnswer,
    answer_text="The open questions in order.",
    example={"units": "us", "item": {"base": {"kind": "deck", "deck": {"flute": "lower", "cover": "3-1/4 in"}}}},
    run=lambda body, state: run_base_interview(body, catalogue=state.catalogue),
    single=True,
)
