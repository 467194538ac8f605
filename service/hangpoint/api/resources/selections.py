"""Which product for each of some points."""

from hangpoint.api.examples import SELECTIONS_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.schemas.selections import SelectionsAnswer, SelectionsRequest
from hangpoint.api.selection.selections import run_selections

DESCRIPTION = """\
The product for each of some hang points: every family, size and embedment of the catalogue is a candidate.

Points are those of a check without a product; `want` says what is wanted of it. Bases may be of every kind: masonry
and planks go by tables, decks by tests in the flute. Each result ranks the candidates that hold by the objective, with
what they take, and gives **every rejected candidate with its reason**: a wish of the request, a refusal or a violation
of the check, its utilisation, or what its table asks for and the point does not state. A point that nothing holds is
answered with the nearest changes one can build, each tried on the check. The first candidate comes with its check,
alone; neighbours are for `/v1/hang-points` and `/v1/job-selections`.
"""

SELECTIONS = Resource(
    path="/v1/selections",
    operation_id="selectProducts",
    tag="choosing",
    summary="Which product for each point, and why not the others",
    description=DESCRIPTION,
    request=SelectionsRequest,
    answer=SelectionsAnswer,
    answer_text="A choice or a problem for every point.",
    example=SELECTIONS_JSON,
    run=lambda body, state: run_selections(body, catalogue=state.catalogue),
    by_item=True,
)
