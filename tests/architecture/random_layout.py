"""Generators of the records of the load on a layout of anchors: see `random_records`."""

from hangpoint.core.hang_point.layout_load import LayoutLoad, SustainedLayoutLoad, layout_load
from hangpoint.core.loads.combinations import factors


def _layout_load(random, *, sustained=False):
    v_x, v_y = random.vectors(5_000, axes=2, share=0.8).T.copy()
    return layout_load(
        n=random.flat(-500, 5_000),
        v_x=v_x,
        v_y=v_y,
        at=random.vectors(20, axes=3, share=0.8),
        m_dead=random.vectors(1e4, axes=3),
        m_contents=random.vectors(1e4, axes=3, share=0.7),
        m_live=random.vectors(1e4, axes=3, share=0.5),
        m_factored=random.vectors(1e4, axes=3),
        gamma=factors(random.load_cases()),
        gamma_given=random.flat(-1, 1),
        sustained=sustained,
    )


GENERATORS = {
    LayoutLoad: _layout_load,
    SustainedLayoutLoad: lambda random: _layout_load(random, sustained=True),
}
