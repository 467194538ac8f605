"""NEMA VE 1: load classes as a public reprint of the standard lists them, and the rule for a concentrated load."""

import numpy as np
import pytest

from hangpoint.core.loads.cable_tray import TRAY_CLASSES, tray_class, tray_weight

CLASSES = """
8A 8 50
8B 8 75
8C 8 100
12A 12 50
12B 12 75
12C 12 100
16A 16 50
16B 16 75
16C 16 100
20A 20 50
20B 20 75
20C 20 100
"""


def weigh(**values):
    row = {"w_tray": 0.0, "w_class": 0.0, "w_cables": 0.0, "p_static": 0.0, "l_span": 10.0} | values
    return tray_weight(**{name: np.array([value]) for name, value in row.items()})


def test_load_classes():
    lines = [line.split() for line in CLASSES.strip().splitlines()]
    assert {name: (float(load), float(span)) for name, span, load in lines} == TRAY_CLASSES
    assert tray_class("20D") is None
    assert tray_class("24A") is None


def test_concentrated_static_load():
    """Worked example of a public design text: 250 lb at the middle of a 20 ft span is 25 lb/ft.

    With 50 lb/ft of cables and 15 lb/ft of snow it makes 90 lb/ft there; snow is a load of its own here.
    """
    row = weigh(w_cables=50.0, p_static=250.0, l_span=20.0)
    assert row.w_static[0] == 25.0
    assert row.w_dead[0] + row.w_static[0] + 15.0 == 90.0


def test_a_filled_tray_at_a_trapeze():
    """20C at a trapeze every 12 ft: 1,200 lb and the tray (by hand); the class's own span is 20 ft."""
    load, span = tray_class("20C")
    row = weigh(w_tray=4.0, w_class=load)
    assert (span, row.w_dead[0] * 12.0) == (20.0, pytest.approx(1200.0 + 48.0))


def test_twice_the_load_on_a_hanger():
    """2 P / L over the length L of one hanger is 2 P."""
    assert weigh(p_static=250.0, l_span=12.0).w_static[0] * 12.0 == pytest.approx(500.0)
