"""The resource of relocations: a new place for a point, checked or found."""

from hangpoint.api.examples_reverse import RELOCATION_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.reverse.relocation import run_relocation
from hangpoint.api.schemas.relocations import RelocationAnswer, RelocationRequest

DESCRIPTION = """\
The new place of a point whose hole has hit reinforcement, in one request.

New edges, the distance from the old hole, a rod that leans where what hangs stays, and the check of the point at its
new place with the neighbours that the request states, before and after side by side: accepted or not, with reasons.
Without a move places in eight directions are tried, the nearest first. Where reinforcement and tendons lie nobody here
knows: stop, and ask the engineer about the bar that was hit.
"""

RELOCATIONS = Resource(
    path="/v1/relocations",
    operation_id="checkRelocation",
    tag="reverse questions",
    summary="A new place for a hang point",
    description=DESCRIPTION,
    request=RelocationRequest,
    answer=RelocationAnswer,
    answer_text="The point before and after.",
    example=RELOCATION_JSON,
    run=lambda body, state: run_relocation(body, catalogue=state.catalogue),
    single=True,
)
