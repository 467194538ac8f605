"""Filled logs of proof tests, judged."""

from hangpoint.api.examples import TEST_LOGS_JSON
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.test_logs import LogAnswer, LogRequest
from hangpoint.api.test_logs import run_test_logs
from hangpoint.report.proof_log import judged_csv, judged_workbook

DESCRIPTION = """\
What a filled log of proof tests shows, and what must follow.

Items are the rows of a plan's log with what was measured. A test passes where its load was reached and held for the
time of the rule and nothing moved; it failed where something moved, whatever the load; it is overloaded where the load
went above what the steel may take; else it is to be repeated, as is a test whose displacement has a limit and was not
measured. After a failure the anchors of that crew and day are tested until enough in a row of the product that failed
pass at no lower load. Nothing is stored: send the whole log.
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
)
