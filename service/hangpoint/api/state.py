"""What every request needs: settings, catalogue, limits; made once, when the application is assembled."""

from dataclasses import dataclass
from typing import cast

from starlette.requests import Request

from hangpoint.api.batch import Limits
from hangpoint.api.metrics import Metrics
from hangpoint.product.catalogue import Catalogue
from hangpoint.settings import Settings


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """State of the application; but for the metrics it does not change."""

    settings: Settings
    catalogue: Catalogue
    metrics: Metrics

    @property
    def limits(self) -> Limits:
        """Limits of a batch."""
        return Limits(items=self.settings.max_items, traces=self.settings.max_traces)


def state(request: Request) -> State:
    """State of the application that serves the request."""
    return cast(State, request.app.state.hangpoint)
