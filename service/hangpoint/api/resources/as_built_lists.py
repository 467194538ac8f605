"""As-built lists: what was set, compared with what was required."""

from hangpoint.api.as_built_batch import run_as_built
from hangpoint.api.examples import AS_BUILT_JSON
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.as_built import AsBuiltRequest
from hangpoint.api.schemas.as_built_answer import AsBuiltAnswer
from hangpoint.report.as_built_table import as_built_csv, as_built_workbook

DESCRIPTION = """\
A list of anchors as they were set, each against what was required: the same product, the embedment at least, the torque
within its tolerance, hole, date of expiry, test load. Deviations and what was not recorded are named,
and so is what was recorded without anything to compare it with, which leaves an anchor incomplete.

Required is what the item says, else what the data of its product say; where another product of the
catalogue was set, its own data say torque and hole. Nothing is stored: the list is handed in and
handed back, as JSON, CSV or a workbook. That an anchor conforms does not say that it holds.
"""

AS_BUILT_LISTS = Resource(
    path="/v1/as-built-lists",
    operation_id="listAsBuilt",
    tag="take-offs",
    summary="Anchors as set, against what was required",
    description=DESCRIPTION,
    request=AsBuiltRequest,
    answer=AsBuiltAnswer,
    answer_text="A comparison or a problem for every anchor.",
    example=AS_BUILT_JSON,
    run=lambda body, state: run_as_built(body, catalogue=state.catalogue, limits=state.limits),
    files=(
        FileForm(word="csv", media=CSV, name="as_built.csv", write=as_built_csv),
        FileForm(word="xlsx", media=XLSX, name="as_built.xlsx", write=as_built_workbook),
    ),
    by_item=True,
)
