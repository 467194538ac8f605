"""Take-offs: what a job of hang points needs, as a pull list with a cut list and totals."""

from hangpoint.api.examples import TAKE_OFF_JSON
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.take_offs import TakeOffRequest
from hangpoint.api.schemas.take_offs_answer import TakeOffAnswer
from hangpoint.api.take_off_batch import run_take_off
from hangpoint.report.take_off_tables import pull_csv
from hangpoint.report.take_off_workbook import take_off_workbook

DESCRIPTION = """\
What to pull from the shelf for a job: anchors, rods and how to cut them, nuts, washers, couplings, adhesive, charges,
bits, tools, dust collection; drilled length, minutes and cost index; by level, trade, area and tag.

Items are hang points as a check takes them, or as hanger loads hand them on, with the length of the rod and, where
points are alike, their quantity. Waste, stock length, kerf, packages and crews are stated, or listed among the
assumptions. One bad item never costs the others. As CSV the answer is the pull list; the workbook has that, the
totals, the cut list and the items.
"""

TAKE_OFFS = Resource(
    path="/v1/take-offs",
    operation_id="takeOff",
    tag="take-offs",
    summary="Pull list, cut list and totals of a job",
    description=DESCRIPTION,
    request=TakeOffRequest,
    answer=TakeOffAnswer,
    answer_text="The pull list, and a count or a problem for every item.",
    example=TAKE_OFF_JSON,
    run=lambda body, state: run_take_off(body, catalogue=state.catalogue, limits=state.limits),
    files=(
        FileForm(word="csv", media=CSV, name="pull_list.csv", write=pull_csv),
        FileForm(word="xlsx", media=XLSX, name="take_off.xlsx", write=take_off_workbook),
    ),
    by_item=True,
)
