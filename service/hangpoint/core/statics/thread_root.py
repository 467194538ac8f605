"""The root of a thread, which tension by the hanger standard and compression of a rod go by."""

import numpy as np

from hangpoint.core.quantity import Floats


def thread_root(*, d: Floats, pitch: Floats, k_root: Floats) -> tuple[Floats, Floats]:
    """Root diameter d - k_r p in in, and its area in in2, of threads of `rod.THREADS`; every array of shape (n,)."""
    d_r = d - k_root * pitch
    return d_r, np.pi / 4.0 * d_r**2
