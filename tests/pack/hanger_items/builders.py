"""Invented items of each kind to start from, and how they are packed. Every item passes the schema first."""

import numpy as np
from pydantic import TypeAdapter

from hangpoint.api.schemas.hanger_loads import LoadItem, Shared
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.hanger_items import pack_hanger_items

ITEM, DEFAULTS = TypeAdapter(LoadItem), TypeAdapter(Shared)

MM, M = 1 / 25.4, 1 / 0.3048
KG = 1 / 0.45359237
KN = 1000 / (0.45359237 * 9.80665)
MPA = 1e6 * 0.0254**2 / (0.45359237 * 9.80665)
KG_M3 = 0.3048**3 / 0.45359237
KG_M = 0.3048 / 0.45359237
KG_M2 = 0.3048**2 / 0.45359237
"""Core units in one unit of SI: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s2 (NIST SP 811, from memory)."""

PIPE = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water"}
DUCT = {"kind": "duct", "shape": "rectangular", "width": 24, "height": 12, "gauge": 24, "gauge_table": "galvanised"}
CONDUIT = {"kind": "conduit", "type": "emt", "size": "2", "cables": 2.5}
TRAY = {"kind": "tray", "self_weight": 4, "load_class": "12B"}
STATED = {"kind": "line", "weight": 7}
RUN = {"id": "run", "kind": "run", "line": PIPE, "run": {"spans": [10, 8, 10]}}
RISER = {"id": "riser", "kind": "riser", "line": PIPE, "length": 40, "supports": 3}
TRAPEZE = {
    "id": "trapeze",
    "kind": "trapeze",
    "run": {"spacing": 9},
    "rods_at": [0, 4],
    "tiers": [{"bar": {"weight": 1.9}, "lines": [{"at": 1, "line": PIPE}]}],
}
EQUIPMENT = {
    "id": "equipment",
    "kind": "equipment",
    "weight": 1000,
    "rods_at": [{"x": 0, "y": 0}, {"x": 48, "y": 0}, {"x": 48, "y": 36}, {"x": 0, "y": 36}],
    "centre_of_gravity": {"x": 24, "y": 18},
}
SEISMIC = {"s_ds": 0.5, "i_p": 1.0, "component": "pipe_ductile_threaded", "z": 30, "h": 60}
BRACE = {"angle": 40, "angle_from": "vertical", "spacing": 30}


def run_of(line, **other):
    return RUN | {"line": line} | other


def trapeze_of(*lines, **other):
    tier = {"bar": {"weight": 1.9}, "lines": [{"at": 1, "line": line} for line in lines]}
    return TRAPEZE | {"tiers": [tier]} | other


def packed_with_flaws(*items, default=None, system="us", standard="asce7_16", standard_stated=True):
    default = default or {}
    for each in items:
        ITEM.validate_python(each)
    DEFAULTS.validate_python(default)
    flaws = Flaws()
    packed = pack_hanger_items(
        items,
        default=default,
        index=range(len(items)),
        system=system,
        standard_stated=standard_stated,
        load_standard=standard,
        flaws=flaws,
    )
    return packed, flaws.by_row


def pack(*items, **options):
    packed, flaws = packed_with_flaws(*items, **options)
    assert not flaws, flaws
    return packed


def columns(*items, **options):
    return pack(*items, **options).items


def flaws_of(item, **options):
    """Path, kind of problem and code of each flaw of one item, which stands behind a sound one."""
    _, flaws = packed_with_flaws(EQUIPMENT, item, **options)
    assert set(flaws) <= {1}, "an item without a flaw has one"
    return [(flaw.path, flaw.slug, flaw.code) for flaw in flaws.get(1, ())]


def only_flaw(item, **options):
    _, flaws = packed_with_flaws(EQUIPMENT, item, **options)
    assert list(flaws) == [1]
    assert len(flaws[1]) == 1, flaws[1]
    return flaws[1][0]


def assumed(*items, **options):
    """Codes of the assumptions of each item."""
    packed = pack(*items, **options)
    return [set(packed.assumptions.codes(bits)) for bits in packed.assumptions.of_points()]


def unchecked(*items, **options):
    """Codes of what is not checked of each item."""
    packed = pack(*items, **options)
    return [set(packed.not_checked.codes(bits)) for bits in packed.not_checked.of_points()]


def close(column, *expected):
    np.testing.assert_allclose(np.asarray(column, dtype=float), np.array(expected), rtol=1e-12, atol=1e-12)
