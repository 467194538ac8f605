"""Loads on hangers: runs, risers, trapezes and equipment to rod and anchor forces."""

from hangpoint.api.examples import HANGER_LOADS_JSON
from hangpoint.api.hanger_batch import run_hanger_loads
from hangpoint.api.media import CSV
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.hanger_loads import HangerLoadsRequest
from hangpoint.api.schemas.hanger_loads_answer import HangerLoadsAnswer
from hangpoint.report.hanger_schedule import hanger_csv

DESCRIPTION = """\
What hangs, brought to its hangers: weight of every line, reactions, rods, spacing, earthquake.

Items are runs of one line, risers, trapezes of several lines and tiers, and equipment on rods; units may be mixed, and
one bad item never costs the others. Each result has the load of every hanger by nature and by model, the largest by the
strength and the allowable-stress combinations, and `hang_points` that go as they are into the `items` of a check of
hang points, whose `defaults` then give anchor and base. A trapeze makes a hang point a rod. As CSV the answer is a
schedule, one row a hanger.

Largest loads are by the combinations of ASCE 7; a design code can't be stated. `hang_points` have service loads by
nature, which a check by EN 1992-4 combines by EN 1990.
"""

HANGER_LOADS = Resource(
    path="/v1/hanger-loads",
    operation_id="computeHangerLoads",
    tag="hanger loads",
    summary="Loads on hangers of what hangs",
    description=DESCRIPTION,
    request=HangerLoadsRequest,
    answer=HangerLoadsAnswer,
    answer_text="A result or a problem for every item.",
    example=HANGER_LOADS_JSON,
    run=lambda body, state: run_hanger_loads(body, limits=state.limits),
    files=(FileForm(word="csv", media=CSV, name="hangers.csv", write=hanger_csv),),
    by_item=True,
)
