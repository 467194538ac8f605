"""What would do in place of a product that is named."""

from hangpoint.api.examples import SUBSTITUTIONS_JSON
from hangpoint.api.resource import Resource
from hangpoint.api.schemas.substitutions import SubstitutionsAnswer, SubstitutionsRequest
from hangpoint.api.selection.substitutions import run_substitutions

DESCRIPTION = """\
What would do at a hang point in place of the product that is named for it, or whose data are given inline.

A substitute holds the point with the reserve that is wanted and has equal qualification: cracked concrete, earthquake,
tension that stays, overhead, protection against corrosion. Each stands beside the product named, mode by mode, with
what is worse and what changes in hole, torque, edge distance, spacing, thickness, tool and inspection; a change of the
working principle is said. **The design professional approves it.** Every other product is rejected with its reason.
"""

SUBSTITUTIONS = Resource(
    path="/v1/substitutions",
    operation_id="compareSubstitutes",
    tag="choosing",
    summary="What would do in place of a product, side by side",
    description=DESCRIPTION,
    request=SubstitutionsRequest,
    answer=SubstitutionsAnswer,
    answer_text="The product named, its substitutes, and why the others are none.",
    example=SUBSTITUTIONS_JSON,
    run=lambda body, state: run_substitutions(body, catalogue=state.catalogue),
    single=True,
)
