"""The resources that compute an answer from a body of JSON, one module each. A new one is listed here."""

from hangpoint.api.resource import Resource
from hangpoint.api.resources.as_built_lists import AS_BUILT_LISTS
from hangpoint.api.resources.base_interviews import BASE_INTERVIEWS
from hangpoint.api.resources.existing_anchors import EXISTING_ANCHORS
from hangpoint.api.resources.fixtures import FIXTURES
from hangpoint.api.resources.hanger_loads import HANGER_LOADS
from hangpoint.api.resources.installation_cards import INSTALLATION_CARDS
from hangpoint.api.resources.job_selections import JOB_SELECTIONS
from hangpoint.api.resources.load_maps import LOAD_MAPS
from hangpoint.api.resources.relocations import RELOCATIONS
from hangpoint.api.resources.remedies import REMEDIES
from hangpoint.api.resources.reverse_checks import REVERSE_CHECKS
from hangpoint.api.resources.rfis import RFIS
from hangpoint.api.resources.selections import SELECTIONS
from hangpoint.api.resources.sensitivities import SENSITIVITIES
from hangpoint.api.resources.submittals import SUBMITTALS
from hangpoint.api.resources.substitutions import SUBSTITUTIONS
from hangpoint.api.resources.take_offs import TAKE_OFFS
from hangpoint.api.resources.test_logs import TEST_LOGS
from hangpoint.api.resources.test_plans import TEST_PLANS

RESOURCES: tuple[Resource, ...] = (
    HANGER_LOADS,
    BASE_INTERVIEWS,
    FIXTURES,
    LOAD_MAPS,
    SUBMITTALS,
    RFIS,
    INSTALLATION_CARDS,
    TEST_PLANS,
    TEST_LOGS,
    EXISTING_ANCHORS,
    REVERSE_CHECKS,
    REMEDIES,
    RELOCATIONS,
    SENSITIVITIES,
    TAKE_OFFS,
    AS_BUILT_LISTS,
    SELECTIONS,
    JOB_SELECTIONS,
    SUBSTITUTIONS,
)
