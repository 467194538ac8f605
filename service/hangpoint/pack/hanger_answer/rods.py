"""The rods that named rules ask for, beside the rod that is checked: by the size of a pipe, and by the load."""

import numpy as np
import orjson

from hangpoint.core.hanger.hangers import HangerLoads
from hangpoint.core.hanger.items import RUN
from hangpoint.core.hanger.rod_rules import DUCT_RULE, LOAD_RULES, rod_loads, rods_for_pipe, thinnest_rods, threads
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.hanger_items.packed import PackedLoads
from hangpoint.pack.json_text import ABSENT, RowText
from hangpoint.pack.printed import in_request_units
from hangpoint.units import FORCE, System


def rods_of_lines(packed: PackedLoads) -> list[bytes]:
    """Of each pipe that hangs alone the rod by each rule by pipe size, the thickest first."""
    lines, pipes = packed.items.lines, packed.items.pipes
    nominal = np.zeros(len(lines.item))
    nominal[pipes.line] = pipes.nominal
    nominal[packed.items.kind[lines.item] != RUN] = 0.0
    known = {size: _by_size(size) for size in set(nominal.tolist())}
    return [known[size] for size in nominal.tolist()]


def _by_size(nominal: float) -> bytes:
    found = rods_for_pipe(nominal)
    return orjson.dumps([{"rule": rule, "rod": rod} for rule, rod in found]) if found else ABSENT


def rods_of_hangers(loads: HangerLoads, system: System) -> RowText:
    """Of each hanger that is pulled the thinnest rod by each rule for its load, where a rod holds it."""
    names, service = threads(metric=system == "si"), loads.rods.service
    place = np.array([thinnest_rods(load=service, rule=rule, names=names) for rule in LOAD_RULES])
    place[:, service <= 0.0] = -1
    place[LOAD_RULES.index(DUCT_RULE), ~_with_duct(loads)] = -1
    texts = [_texts(rule, names, system) for rule in LOAD_RULES]
    return RowText.by_key(list(zip(*place.tolist(), strict=True)), lambda key: _listed(texts, key))


def _with_duct(loads: HangerLoads) -> Bools:
    items = loads.items
    return (np.bincount(items.lines.item[items.ducts.line], minlength=items.count) > 0)[loads.hangers.item]


def _texts(rule: str, names: tuple[str, ...], system: System) -> list[bytes]:
    """What is said of each thread by a rule."""
    allowable: Floats = in_request_units(rod_loads(rule, names), FORCE, system)
    return [
        orjson.dumps({"rule": rule, "rod": name, "allowable": load})
        for name, load in zip(names, allowable.tolist(), strict=True)
    ]


def _listed(texts: list[list[bytes]], places: tuple[int, ...]) -> bytes:
    own = [text[place] for text, place in zip(texts, places, strict=True) if place >= 0]
    return b"[%b]" % b",".join(own) if own else ABSENT
