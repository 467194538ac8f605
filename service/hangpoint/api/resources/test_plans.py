"""Plans of proof tests on installed anchors."""

from hangpoint.api.examples import TEST_PLANS_JSON
from hangpoint.api.media import CSV, XLSX
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.test_plans import PlanAnswer, PlanRequest
from hangpoint.api.test_plans import run_test_plans
from hangpoint.report.proof_log import blank_csv, blank_workbook

DESCRIPTION = """\
Which of the installed anchors are pulled, with what load, how long, and what follows if one fails.

The rule is named from a closed list, with its source. Tests are spread over levels, areas, crews and days and chosen by
the ids, so that the same request names the same anchors. The load never exceeds 0.8 A_se f_ya, and says when it is cut;
with a `base` it is compared with the nominal strength of the concrete. The log comes blank, as JSON, CSV or a workbook;
its rows, filled in, are the items of `POST /v1/test-logs`.

It knows no design code: a `base` is compared by ACI 318-19, and products with figures for EN 1992-4 have no strength
here.
"""

TEST_PLANS = Resource(
    path="/v1/test-plans",
    operation_id="planTests",
    tag="site",
    summary="Plan of proof tests",
    description=DESCRIPTION,
    request=PlanRequest,
    answer=PlanAnswer,
    answer_text="The plan with a blank log, and a group or a problem for every item.",
    example=TEST_PLANS_JSON,
    run=run_test_plans,
    files=(
        FileForm(word="csv", media=CSV, name="proof_tests.csv", write=blank_csv),
        FileForm(word="xlsx", media=XLSX, name="proof_tests.xlsx", write=blank_workbook),
    ),
    by_item=True,
)
