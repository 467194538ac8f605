"""What an answer says of the points near each point, as JSON."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import orjson

from hangpoint.core.hang_point.verdict import Verdicts
from hangpoint.pack.json_text import ABSENT


def neighbour_texts(verdicts: Verdicts, ids: Sequence[str]) -> list[bytes]:
    """The neighbours of each point and what it would be alone, `ABSENT` where it has none.

    Args:
        verdicts: of the points.
        ids: of the same points.
    """
    texts = [ABSENT] * verdicts.count
    if verdicts.neighbours is None:
        return texts
    shared, alone = verdicts.neighbours.sharing, verdicts.neighbours.alone
    near: dict[int, tuple[list[str], list[str], list[str]]] = {}
    pairs: list[tuple[int, int, int]] = [
        *zip(shared.a.tolist(), shared.b.tolist(), np.where(shared.acts, 0, 1).tolist(), strict=True),
        *((a, b, 2) for a, b in zip(*shared.beside.tolist(), strict=True)),
    ]
    for a, b, kind in pairs:
        for one, other in ((a, b), (b, a)):
            near.setdefault(one, ([], [], []))[kind].append(ids[other])
    for point, (together, unlike, beside) in near.items():
        lone: dict[str, Any] = {"utilisation": float(alone.utilisation[point])}
        mode = int(alone.governing[point])
        if mode >= 0:
            lone["mode"] = verdicts.modes[mode].mode.value.code
        told: dict[str, Any] = {"together": together, "unlike": unlike}
        texts[point] = orjson.dumps(told | ({"by_spacing": beside} if beside else {}) | {"alone": lone})
    return texts
