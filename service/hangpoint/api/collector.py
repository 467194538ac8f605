"""The cyclic collector of the process, paused while batches are checked."""

import gc
from collections.abc import Generator
from contextlib import contextmanager
from threading import RLock
from time import monotonic

LONGEST_SECONDS = 30.0
"""Pause after which what is cyclic is collected all the same: batches that overlap may leave no moment between."""


class _Pause:
    """How many batches are under way, and whether the collector ran before the first of them."""

    def __init__(self) -> None:
        self._lock = RLock()  # a pause may be dropped in the midst of another's beginning
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


class CollectorPause:
    """No cyclic collector until `end`, or until nobody holds this any more.

    A batch makes many containers and no cycles: the collector takes a third of the time at 10,000.
    """

    def __init__(self) -> None:
        self._open = True
        _pause.begin()

    def end(self) -> None:
        """Let the collector run again."""
        if self._open:
            self._open = False
            _pause.end()

    def __del__(self) -> None:
        self.end()


@contextmanager
def collector_paused() -> Generator[None]:
    """A `CollectorPause` as long as the block."""
    pause = CollectorPause()
    try:
        yield
    finally:
        pause.end()
