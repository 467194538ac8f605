"""The resource of sensitivities: what-ifs side by side."""

from hangpoint.api.examples_reverse import SENSITIVITIES_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.reverse.sensitivities import run_sensitivities
from hangpoint.api.schemas.sensitivities import SensitivitiesAnswer, SensitivitiesRequest

DESCRIPTION = """\
What if: one hang point, and changes of it side by side, each with its status, utilisation and what governs.

Changes are JSON merge patches by a name of one's own; without any the usual ones are tried: a size up and down, the
next embedment, cracked or uncracked, f'c 3000 psi, half the nearest edge, spacing more and less, another schedule. What
only the engineer can show is marked. A change that makes no valid item costs the others nothing.
"""

SENSITIVITIES = Resource(
    path="/v1/sensitivities",
    operation_id="compareSensitivities",
    tag="reverse questions",
    summary="What if, side by side",
    description=DESCRIPTION,
    request=SensitivitiesRequest,
    answer=SensitivitiesAnswer,
    answer_text="The point as stated and with each change.",
    example=SENSITIVITIES_JSON,
    run=lambda body, state: run_sensitivities(body, catalogue=state.catalogue),
    single=True,
)
