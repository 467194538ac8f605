"""The products of a whole job at once."""

from hangpoint.api.examples import JOB_SELECTIONS_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.schemas.job_selections import JobSelectionsAnswer, JobSelectionsRequest
from hangpoint.api.selection.job import run_job_selections

DESCRIPTION = """\
Products for hundreds of hang points together: every point held at least cost, minutes or drilled depth.

`limits` allow so many different products, diameters of bits, or families. The assignment is solved to its optimum, and
the gap that is left is told; `curve` says what each further product would save. Each point is chosen alone, the reserve
kept; then all are checked once more together with their neighbours. Where some don't hold beside these, the job is
planned anew without the products that were tried there and those that are neither stronger alone nor deeper, as long as
it helps. Not every mix of products is tried there: one that takes less, or holds where none was found, may be left.
`recheck` names the points with another product (`planned_anew`) and those that still don't pass. Points that nothing
holds are listed with the nearest change.
"""

JOB_SELECTIONS = Resource(
    path="/v1/job-selections",
    operation_id="selectJobProducts",
    tag="choosing",
    summary="The products of a whole job at once",
    description=DESCRIPTION,
    request=JobSelectionsRequest,
    answer=JobSelectionsAnswer,
    answer_text="The plan, and a product or a problem for every point.",
    example=JOB_SELECTIONS_JSON,
    run=lambda body, state: run_job_selections(body, catalogue=state.catalogue),
    by_item=True,
)
