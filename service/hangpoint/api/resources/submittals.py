"""Submittals: one document of all that is handed in for some hang points."""

from collections.abc import Mapping
from typing import Any

from hangpoint.api.csv_resource import CsvBody
from hangpoint.api.examples_submittals import SUBMITTALS_CSV, SUBMITTALS_JSON
from hangpoint.api.media import HTML, PDF
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.submittals import SubmittalAnswer, SubmittalHead, SubmittalRequest
from hangpoint.api.submittals import SheetSource, run_submittals, run_submittals_csv
from hangpoint.report.submittal.page import sheet_count, submittal_page

DESCRIPTION = """\
All that is handed in for some hang points, as one document whose parts agree, because one check makes all of them.

A body of `POST /v1/hang-points` is read as it is and checked; the answer is that of the check, and beside it every
part: what the cover says, the schedule, the load map, the installation card of each product used, which points have
calculation sheets and which do not, everything that is open, assumed or not checked, each once with the points that it
concerns, and, where `test_rule` names a rule, a plan of proof tests. Points that fail are in it, and the cover says so.

`sheets` is `worst`, of each product, base and face the point that is used most, and points that fail, up to 20 in all;
or `all`. `only` names points instead. As HTML and as PDF it is printed with its cover, and the digest of the request is
at the foot of every page.
"""

CSV_TEXT = """\
One row a hang point, with the columns of a CSV of `POST /v1/hang-points`. `project.name=TEXT` and the other texts of a
project, and `default.COLUMN=CELL`, may stand in the query; ids in `only` have semicolons between them.\
"""


def submittal_html(answer: Mapping[str, Any], source: SheetSource) -> str:
    """The document of an answer; ``source`` has what its calculation sheets are made of."""
    return submittal_page(answer, source.subjects(), system=source.run.batch.units)


SUBMITTALS = Resource(
    path="/v1/submittals",
    operation_id="makeSubmittal",
    tag="hang points",
    summary="All parts of a submittal in one document",
    description=DESCRIPTION,
    request=SubmittalRequest,
    answer=SubmittalAnswer,
    answer_text="The answer of the check, and every part of the document.",
    example=SUBMITTALS_JSON,
    run=run_submittals,
    files=(
        FileForm(word="html", media=HTML, name="submittal.html", write=submittal_html, sheets=sheet_count),
        FileForm(word="pdf", media=PDF, name="submittal.pdf", write=submittal_html, sheets=sheet_count),
    ),
    by_item=True,
    csv=CsvBody(head=SubmittalHead, run=run_submittals_csv, text=CSV_TEXT, example=SUBMITTALS_CSV, project=True),
)
