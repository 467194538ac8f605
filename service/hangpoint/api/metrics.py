"""What the service counts of its requests, in the text format of Prometheus; one process, since its start."""

from prometheus_client import CollectorRegistry, Counter, Gauge, GCCollector, Histogram, ProcessCollector
from prometheus_client.exposition import CONTENT_TYPE_PLAIN_0_0_4, generate_latest

MEDIA_TYPE = CONTENT_TYPE_PLAIN_0_0_4
_SECONDS = (0.002, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 30.0)
_METHODS = frozenset({"GET", "HEAD", "POST"})
_OTHER = "other"
"""A method or an address that is none of the service's: callers can't add series without end."""


class Metrics:
    """Counters of one application."""

    def __init__(self, *, engine: str, catalogue: str) -> None:
        """Start at 0.

        Args:
            engine: version of the engine.
            catalogue: version of the catalogue.
        """
        self._registry = CollectorRegistry()
        ProcessCollector(registry=self._registry)
        GCCollector(registry=self._registry)
        labels = ("method", "route")
        self._requests = Counter(
            "hangpoint_requests", "Requests answered.", (*labels, "status"), registry=self._registry
        )
        self._seconds = Histogram(
            "hangpoint_request_seconds",
            "Seconds from the head of a request to the end of its answer.",
            labels,
            buckets=_SECONDS,
            registry=self._registry,
        )
        self._items = Counter("hangpoint_items", "Items of requests answered.", ("route",), registry=self._registry)
        self._now = Gauge("hangpoint_requests_now", "Requests being answered.", registry=self._registry)
        about = Gauge("hangpoint_info", "Versions.", ("engine", "catalogue"), registry=self._registry)
        about.labels(engine, catalogue).set(1)

    def begin(self) -> None:
        """A request has come."""
        self._now.inc()

    def end(self, method: str, route: str | None, status: int, *, seconds: float, items: int) -> None:
        """It was answered; ``status`` is 0 where its caller had gone."""
        self._now.dec()
        labels = (method if method in _METHODS else _OTHER, route or _OTHER)
        self._requests.labels(*labels, str(status)).inc()
        self._seconds.labels(*labels).observe(seconds)
        if items:
            self._items.labels(labels[1]).inc(items)

    def text(self) -> bytes:
        """All of it."""
        return generate_latest(self._registry)
