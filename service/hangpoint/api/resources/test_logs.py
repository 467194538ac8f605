"""Filled logs of proof tests, judged."""

from hangpoint.api.csv_resource import CsvBody
from hangpoint.api.examples import TEST_LOGS_CSV, TEST_LOGS_JSON
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.test_logs import LogAnswer, LogHead, LogRequest
from hangpoint.api.test_logs import run_test_logs, run_test_logs_csv
from hangpoint.report.proof_log import judged_csv, judged_workbook

DESCRIPTION = """\
What a filled log of proof tests shows, and what must follow.

Items are the rows of a plan's log with what was measured. A test passes where its load was reached and held for the
time of the rule and nothing moved; it failed where something moved, whatever the load; it is overloaded where the load
went above what the steel may take; else it is to be repeated, as is a test whose displacement has a limit and was not
measured. After a failure the anchors of that crew and day are tested until enough in a row of the product that failed
pass at no lower load. Nothing is stored: send the whole log.

A log comes as JSON or as CSV, with the columns that a plan's blank log has: whoever fills that in sends it back as it
is, with `?rule=` and, if the engineer states one, `?displacement_limit=`. Units stand in the titles, or in `?units=`;
columns of notes are handed back in a CSV and in a workbook.
"""

CSV_TEXT = """\
One row a test, in the order in which they were made; columns are the fields of an item, with a unit in brackets behind
the title. `outcome`, `findings` and `problem` of an earlier answer are made anew. Words and quantities are read as
those of a CSV of hang points are.\
"""

TEST_LOGS = Resource(
    path="/v1/test-logs",
    operation_id="judgeTests",
    tag="site",
    summary="A filled log of proof tests, judged",
    description=DESCRIPTION,
    request=LogRequest,
    answer=LogAnswer,
    answer_text="An outcome or a problem for every test, and the retests that follow.",
    example=TEST_LOGS_JSON,
    run=run_test_logs,
    files=(
        FileForm(word="csv", media=CSV, name="tests_judged.csv", write=judged_csv),
        FileForm(word="xlsx", media=XLSX, name="tests_judged.xlsx", write=judged_workbook),
    ),
    by_item=True,
    csv=CsvBody(head=LogHead, run=run_test_logs_csv, text=CSV_TEXT, example=TEST_LOGS_CSV),
)
