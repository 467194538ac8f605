"""Anchors found in place."""

from hangpoint.api.examples import EXISTING_ANCHORS_JSON
from hangpoint.api.existing_anchors import run_existing_anchors
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.existing_anchors import ExistingAnswer, ExistingRequest
from hangpoint.report.proof_log import blank_csv, blank_workbook

DESCRIPTION = """\
Anchors found in place: what is known of them, what is not, what to ask, and a test for the load that is wanted.

No capacity is made from what is seen. What was seen may forbid to think of using an anchor again; where nothing does,
it is tested by the named rule, every one, and the engineer decides. Without a stated steel the load has no cap, and the
answer says that a limit comes first.

It knows no design code: nothing here is by EN 1992-4.
"""

EXISTING_ANCHORS = Resource(
    path="/v1/existing-anchors",
    operation_id="assessExistingAnchors",
    tag="site",
    summary="Anchors found in place",
    description=DESCRIPTION,
    request=ExistingRequest,
    answer=ExistingAnswer,
    answer_text="What is known of every anchor or a problem, and the blank log of the tests.",
    example=EXISTING_ANCHORS_JSON,
    run=run_existing_anchors,
    files=(
        FileForm(word="csv", media=CSV, name="existing_anchors.csv", write=blank_csv),
        FileForm(word="xlsx", media=XLSX, name="existing_anchors.xlsx", write=blank_workbook),
    ),
    by_item=True,
)
