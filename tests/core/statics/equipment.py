"""Columns for suspended equipment: bodies by hand, and many at random."""

import numpy as np

from hangpoint.core.statics.suspended_equipment import suspended_equipment


def hung(*bodies):
    """``bodies``: (weight, (x_g, y_g), places of the supports)."""
    places = np.array([place for _, _, supports in bodies for place in supports], dtype=float).reshape(-1, 2)
    return suspended_equipment(
        w=np.array([body[0] for body in bodies], dtype=float),
        x_g=np.array([body[1][0] for body in bodies], dtype=float),
        y_g=np.array([body[1][1] for body in bodies], dtype=float),
        x=places[:, 0],
        y=places[:, 1],
        item_of_support=np.repeat(np.arange(len(bodies)), [len(body[2]) for body in bodies]),
    )


def by_body(column, bodies):
    """A column of the supports, split into those of each body."""
    return np.split(column, np.cumsum([len(body[2]) for body in bodies])[:-1])


def random_bodies(rng, count, *, most=12):
    """Bodies on 2 to 12 supports over some feet: at random, on a grid, or in a line; the weight anywhere near."""
    bodies = []
    for i in range(count):
        supports = int(rng.integers(2, most + 1))
        kind = i % 4
        if supports == 2 or kind == 0:
            along = np.sort(rng.uniform(-40, 40, supports))
            angle = rng.uniform(0, np.pi)
            places = rng.uniform(-20, 20, 2) + along[:, None] * [np.cos(angle), np.sin(angle)]
            shares = rng.dirichlet(np.ones(supports))
            weight = shares @ places if rng.random() < 0.8 else places[0] - (places[1] - places[0])
        else:
            places = rng.uniform(-40, 40, (supports, 2))
            if kind == 1:
                places = np.unique(np.round(places / 20) * 20, axis=0)
                places = np.concatenate([places, [[-60, -60], [60, -60], [60, 60], [-60, 60]]])[: max(4, supports)]
            weight = rng.uniform(-30, 30, 2) if rng.random() < 0.6 else places.mean(axis=0)
        bodies.append((rng.uniform(100, 5000), weight, places))
    return bodies
