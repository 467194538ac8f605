"""Columns for bars: from rows by hand, and many at random."""

import numpy as np

from core.statics.beams import padded
from hangpoint.core.statics.bar_forces import bar_forces
from hangpoint.core.statics.continuous_run import point_reactions, uniform_reactions

E_I = 29e6 * 0.185
"""A modulus of steel times a moment of inertia of a strut, lbf*in2."""


def bar(spans, *, start=0.0, end=0.0, w=0.0, loads=(), e_i=E_I):
    return {"spans": spans, "start": start, "end": end, "w": w, "loads": loads, "e_i": e_i}


def forces(*bars, width=None, shuffle=None):
    """`bar_forces` of all bars in one call with the reactions of the continuous beam: (reactions, forces)."""
    width = width or max(len(each["spans"]) for each in bars)
    beam = {
        "spans": padded([each["spans"] for each in bars], width),
        "span_count": np.array([len(each["spans"]) for each in bars]),
        "start": np.array([each["start"] for each in bars], dtype=float),
        "end": np.array([each["end"] for each in bars], dtype=float),
    }
    loads = [(i, x, weight) for i, each in enumerate(bars) for x, weight in each["loads"]]
    if shuffle is not None:
        shuffle.shuffle(loads)
    load_bar = np.array([load[0] for load in loads], dtype=np.intp)
    position, weight = (np.array([load[k] for load in loads], dtype=float) for k in (1, 2))
    w = np.array([each["w"] for each in bars], dtype=float)
    of_load = {name: values[load_bar] for name, values in beam.items()}
    shares = point_reactions(**of_load, position=position).continuous
    reactions = w[:, None] * uniform_reactions(**beam).continuous
    np.add.at(reactions, load_bar, shares * weight[:, None])
    made = bar_forces(
        **beam,
        reactions=reactions,
        w=w,
        e_i=np.array([each["e_i"] for each in bars], dtype=float),
        load_bar=load_bar,
        load_position=position,
        load_weight=weight,
    )
    return reactions, made


def random_bars(rng, count):
    """Bars of 2 to 4 rods, 2 to 8 ft apart, with tips or without and 0 to 40 loads of 5 to 500 lb, some at a rod."""
    bars = []
    for _ in range(count):
        spans = rng.uniform(2.0, 8.0, rng.integers(1, 4))
        start, end = rng.uniform(0.1, 2.0, 2) * (rng.random(2) < 0.6)
        many = int(rng.choice([0, 1, 2, 3, 5, 12, 40]))
        places = rng.uniform(-start, spans.sum() + end, many)
        places[:1] = spans[0]
        loads = list(zip(places, rng.uniform(5.0, 500.0, many), strict=True))
        bars.append(bar(spans, start=start, end=end, w=rng.uniform(0.5, 20.0), loads=loads))
    return bars
