"""The resource of remedies."""

from hangpoint.api.examples_reverse import REMEDIES_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.reverse.remedies import run_remedies
from hangpoint.api.schemas.remedies import RemediesAnswer, RemediesRequest

DESCRIPTION = """\
What would make a hang point pass, among changes that one can build, the smallest first.

A deeper embedment or a larger size of the same family, a larger rod, another place, hangers closer together, anchors
added: each is checked as any hang point is, and stands here with the check of it and as a JSON merge patch of the item.
Where no single change does, two together are tried. A reserve is kept. Strength, crack state, thickness, density and
category are never remedies: what of them the engineer would have to show is listed apart.
"""

REMEDIES = Resource(
    path="/v1/remedies",
    operation_id="findRemedies",
    tag="reverse questions",
    summary="What would make a hang point pass",
    description=DESCRIPTION,
    request=RemediesRequest,
    answer=RemediesAnswer,
    answer_text="The remedies, the smallest change first.",
    example=REMEDIES_JSON,
    run=lambda body, state: run_remedies(body, catalogue=state.catalogue),
    single=True,
)
