"""The resources that compute an answer from a body of JSON, one module each. A new one is listed here."""

from hangpoint.api.resource import Resource
from hangpoint.api.resources.hanger_loads import HANGER_LOADS
from hangpoint.api.resources.relocations import RELOCATIONS
from hangpoint.api.resources.remedies import REMEDIES
from hangpoint.api.resources.reverse_checks import REVERSE_CHECKS
from hangpoint.api.resources.sensitivities import SENSITIVITIES

RESOURCES: tuple[Resource, ...] = (HANGER_LOADS, REVERSE_CHECKS, REMEDIES, RELOCATIONS, SENSITIVITIES)
