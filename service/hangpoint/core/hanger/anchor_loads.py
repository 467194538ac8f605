"""Service loads by nature at the anchors of hangers: earthquake with Omega_0, and the lean of a rod out of plumb.

Which way a rod leans is not known. Its lean is laid along the stated shears of the load case in which they and the lean
make the largest shear, so that the anchor has there what is told of the hanger. Earthquake acts either way: where it is
reversed in that case it is handed on so, and its own lean adds. Units: lbf.
"""

import numpy as np

from hangpoint.core.hanger.hanger_cases import EARTHQUAKE, combine
from hangpoint.core.quantity import Floats


def anchor_loads(
    *, tension: Floats, shear: Floats, omega_0: Floats, tan_alpha: Floats, s_ds: Floats, load_standard: str
) -> tuple[Floats, Floats]:
    """Tension (hangers, natures) and shear (hangers, natures, 2) of the anchors of hangers.

    Args:
        tension, shear: of the hangers, in the same shapes, earthquake without Omega_0.
        omega_0: (hangers,) 1 where there is no earthquake of a component.
        tan_alpha: (hangers,) of the angle of the rod.
        s_ds: (hangers,) S_DS, 0 where there is no earthquake.
        load_standard: edition of the load standard.
    """
    tension, shear = tension.copy(), shear.copy()
    tension[:, EARTHQUAKE] *= omega_0
    shear[:, EARTHQUAKE] *= omega_0[:, None]
    leans = np.flatnonzero(tan_alpha)
    if not len(leans):
        return tension, shear
    worst = combine(
        tension=tension[leans],
        shear=shear[leans],
        tan_alpha=tan_alpha[leans],
        s_ds=s_ds[leans],
        load_standard=load_standard,
        allowable=False,
    )
    shear[leans[worst.shear_turned], EARTHQUAKE] *= -1.0
    shear[leans] += (tension[leans] * tan_alpha[leans, None])[:, :, None] * worst.shear_way[:, None, :]
    return tension, shear
