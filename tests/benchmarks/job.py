"""The body that the benchmarks send: hang points of an invented building, from a seed.

At least 20 leaf values an item, half of the lengths as texts with a unit, three families, a dozen pipes, about 3 %
that fail; `bad` items can't be read.
"""

import json
import random
from typing import Any

SEED = 20
PIPES = [("steel", size, schedule) for size in ("1", "1-1/2", "2", "3", "4", "6") for schedule in ("40", "80")] + [
    ("copper", size, "L") for size in ("3/4", "1-1/2", "3")
]
ANCHORS = [
    ("wedge-expansion-zinc", "3/8", 2.5),
    ("wedge-expansion-zinc", "1/2", 3.25),
    ("large-screw-internal-thread-zinc", "3/8", 3.0),
    ("headed-bolt", "1/2", 4.0),
]
RODS = {"wedge-expansion-zinc": {"3/8": "3/8", "1/2": "1/2"}, "headed-bolt": {"1/2": "1/2"}}


def request(count: int, *, detail: str = "modes", bad: float = 0.0, **more: str) -> dict[str, Any]:
    """A request of ``count`` items, a share ``bad`` of which can't be read; ``more`` is said of the whole."""
    draw = random.Random(SEED)
    items = [_item(draw, number) for number in range(count)]
    for number in draw.sample(range(count), round(bad * count)):
        items[number]["base"]["thickness"] = "6 psi"
    return {"units": "us", "detail": detail, **more, "items": items}


def body(count: int, *, detail: str = "modes", bad: float = 0.0, **more: str) -> bytes:
    """The request as JSON."""
    return json.dumps(request(count, detail=detail, bad=bad, **more)).encode()


def _length(draw: random.Random, inches: float) -> float | str:
    return inches if draw.random() < 0.5 else f"{inches:g} in"


def _item(draw: random.Random, number: int) -> dict[str, Any]:
    material, size, schedule = draw.choice(PIPES)
    family, anchor, h_ef = draw.choice(ANCHORS)
    near = draw.random() < 0.03
    edge = 1.5 if near else float(draw.randint(8, 60)) / 2 + 4
    spans = [draw.choice((6.0, 8.0, 10.0, "10 ft", "8'-6\"", 12.0)) for _ in range(draw.randint(2, 5))]
    return {
        "id": f"B-{number:05d}",
        "at": {"level": f"L{number % 6 + 1}", "x": draw.randint(0, 2000) / 10, "y": f"{draw.randint(0, 900) / 10} ft"},
        "trade": "piping",
        "hangs": {
            "kind": "pipe",
            "material": material,
            "size": size,
            "schedule": schedule,
            "contents": "water",
            "sprinkler": False,
            "run": {"spans": spans, "support": draw.randint(0, len(spans))},
        },
        "rod": {"size": "1/2" if anchor == "1/2" else "3/8"},
        "anchor": {"family": family, "size": anchor, "h_ef": _length(draw, h_ef)},
        "base": {
            "kind": "concrete",
            "strength": {"f_c": draw.choice((3000.0, "4000 psi", 5000.0))},
            "density": "normalweight",
            "state": "cracked",
            "thickness": _length(draw, float(draw.randint(6, 12))),
            "edges": {
                "x_minus": "none",
                "x_plus": _length(draw, edge),
                "y_minus": _length(draw, float(draw.randint(6, 40))),
                "y_plus": "none",
            },
        },
        "seismic": {"category": draw.choice("AB")},
    }
