"""The trace of every item: the records of the core, line by line, in ft, in and lbf."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import orjson

from hangpoint.core.hanger.carried import Section
from hangpoint.pack.trace import record_section


def item_traces(sections: Sequence[Section], count: int) -> list[bytes]:
    """Sections of each item in the order of a hand calculation, as JSON.

    Args:
        sections: records with the item and the part of each row.
        count: of items.
    """
    made: list[list[dict[str, Any]]] = [[] for _ in range(count)]
    for section in sections:
        order: list[int] = np.argsort(section.item, kind="stable").tolist()
        for row in order:
            own = record_section(section.record, row)
            if section.of != "item":
                own[section.of] = int(section.part[row])
            made[int(section.item[row])].append(own)
    return [orjson.dumps(each) for each in made]
