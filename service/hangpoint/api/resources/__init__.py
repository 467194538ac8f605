"""The resources that compute an answer from a body of JSON, one module each. A new one is listed here."""

from hangpoint.api.resource import Resource
from hangpoint.api.resources.hanger_loads import HANGER_LOADS
from hangpoint.api.resources.job_selections import JOB_SELECTIONS
from hangpoint.api.resources.selections import SELECTIONS
from hangpoint.api.resources.substitutions import SUBSTITUTIONS

RESOURCES: tuple[Resource, ...] = (HANGER_LOADS, SELECTIONS, JOB_SELECTIONS, SUBSTITUTIONS)
