"""Requests for information: what to ask the engineer about hang points, and what the answers would change."""

from hangpoint.api.csv_resource import CsvBody
from hangpoint.api.examples_rfis import RFIS_CSV, RFIS_JSON
from hangpoint.api.media import HTML, PDF
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.rfis import run_rfis, run_rfis_csv
from hangpoint.api.schemas.load_maps import LoadMapHead
from hangpoint.api.schemas.request import BatchRequest
from hangpoint.api.schemas.rfis import RfiAnswer
from hangpoint.report.rfis import rfi_page, sheet_count

DESCRIPTION = """\
What hang points leave to the engineer of record, as requests for information that can be sent.

A body of `POST /v1/hang-points` is read as it is and checked; its `detail` is not used. Every question that a result
would have to an engineer comes back once, with the points that it concerns. What the request is silent about (strength
of the concrete, cracked or not, supplementary reinforcement) is asked where an answer makes a point pass that does not
pass now. Where the answers that may come back can be computed, the points are checked with each of them, together with
those near them, and the verdicts that change are listed: a question whose answers change nothing is asked for the
record only.

As HTML and as PDF it is a register, and a form for each question with room for its answer. The engineer decides: an
answer that lets a point pass is no reason to give it.
"""

CSV_TEXT = """\
One row a hang point, with the columns of a CSV of `POST /v1/hang-points`. `project.name=TEXT` and the other texts of a
project, and `default.COLUMN=CELL`, may stand in the query.\
"""

RFIS = Resource(
    path="/v1/rfis",
    operation_id="askEngineer",
    tag="hang points",
    summary="Requests for information, and what their answers would change",
    description=DESCRIPTION,
    request=BatchRequest,
    answer=RfiAnswer,
    answer_text="The questions with what their answers change, and the points that they concern.",
    example=RFIS_JSON,
    run=run_rfis,
    files=(
        FileForm(word="html", media=HTML, name="rfis.html", write=rfi_page, sheets=sheet_count),
        FileForm(word="pdf", media=PDF, name="rfis.pdf", write=rfi_page, sheets=sheet_count),
    ),
    by_item=True,
    csv=CsvBody(head=LoadMapHead, run=run_rfis_csv, text=CSV_TEXT, example=RFIS_CSV, project=True),
)
