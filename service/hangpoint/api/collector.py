"""The cyclic collector of the process, paused while batches are checked."""

import gc
from collections.abc import Generator
from contextlib import contextmanager
from threading import Lock
from time import monotonic

LONGEST_SECONDS = 30.0
"""Pause after which what is cyclic is collected all the same: batches that overlap may leave no moment between."""


class _Pause:
    """How many batches are under way, and whether the collector ran before the first of them."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._inside = 0
        self._was_enabled = False
        self._since = 0.0

    def begin(self) -> None:
        """One more batch."""
        with self._lock:
            if not self._inside:
                self._was_enabled = gc.isenabled()
                self._since = monotonic()
                gc.disable()
            self._inside += 1

    def end(self) -> None:
        """One batch less; the last one lets the collector run again."""
        with self._lock:
            self._inside -= 1
            if not self._inside and self._was_enabled:
                gc.enable()
            overdue = bool(self._inside) and self._was_enabled and monotonic() - self._since >= LONGEST_SECONDS
            if overdue:
                self._since = monotonic()
        if overdue:
            gc.collect()


_pause = _Pause()


@contextmanager
def collector_paused() -> Generator[None]:
    """Without the cyclic collector: a batch makes many containers and no cycles (a third of the time at 10,000)."""
    _pause.begin()
    try:
        yield
    finally:
        _pause.end()
