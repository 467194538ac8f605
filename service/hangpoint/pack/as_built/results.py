"""What was set against what was required, item by item, in the units of the request."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.as_built import SAME, SetAnchor, set_anchor
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.site.proof_rules import MOST_OF_YIELD
from hangpoint.core.vocabulary import AsBuiltDeviation, AsBuiltField, AsBuiltUncompared
from hangpoint.pack.as_built.items import KINDS, AsBuiltItems, filled, known, rows_where
from hangpoint.pack.printed import in_request_units
from hangpoint.units import COORDINATE, FORCE, LENGTH, TORQUE, QuantityKind, System, bare_factor

_FIELDS = {
    AsBuiltField.PRODUCT: "product",
    AsBuiltField.DATE: "date",
    AsBuiltField.INSTALLER: "installer",
}
_OF_ADHESIVE = {AsBuiltField.BATCH: "batch", AsBuiltField.EXPIRY: "expiry"}
_HOLE = {AsBuiltField.HOLE_DIAMETER: "hole_diameter", AsBuiltField.HOLE_DEPTH: "hole_depth"}
"""What an inspector of adhesive anchors records beside them (from memory), and what anchors live by that are set to the
end of their hole (common practice)."""


def compare(items: AsBuiltItems, *, below: float, above: float) -> SetAnchor:
    """The comparison of every item; ``below`` and ``above`` are the tolerances of the torque."""
    required, own = items.required, items.recorded
    both = {name: known(required[name]) & known(own[name]) for name in KINDS}
    return set_anchor(
        h_required=np.where(known(items.h_ef), items.h_ef, required["embedment"]),
        h_set=filled(own["embedment"]),
        h_known=known(own["embedment"]),
        h_most=_deepest(items),
        t_required=filled(required["torque"]),
        t_set=filled(own["torque"]),
        below=np.full(items.count, below),
        above=np.full(items.count, above),
        t_known=both["torque"],
        p_required=filled(items.test_required),
        p_test=filled(items.test_load),
        p_known=known(items.test_required) & known(items.test_load),
        p_most=np.array([MOST_OF_YIELD * each.a_se * each.f_ya for each in items.setting], dtype=np.float64),
        hold_required=filled(items.hold_required),
        held_for=filled(items.hold_seconds),
        hold_known=known(items.hold_required) & known(items.hold_seconds),
    )


def _deepest(items: AsBuiltItems) -> Floats:
    """How deep an anchor may be set: one that needs its exact depth no deeper than required, others not below their
    hole; infinite where neither is known."""
    required, own = items.required, items.recorded
    hole = np.where(known(own["hole_depth"]), own["hole_depth"], required["hole_depth"])
    exact = np.array([each.exact_depth for each in items.setting], dtype=np.bool_)
    most = np.where(exact & known(items.h_exact), items.h_exact, hole)
    return np.where(known(most), most, np.inf)


def as_built_results(items: AsBuiltItems, found: SetAnchor, system: System) -> list[dict[str, Any]]:
    """The result of each valid item, in order."""
    deviations = _Deviations(items, found, system).by_item()
    lacking, uncompared = _lacking(items), _uncompared(items)
    required, own = _printed(items.required, system), _printed(items.recorded, system)
    bounds = {
        "torque_least": _column(np.where(known(items.required["torque"]), found.t_least, np.nan), TORQUE, system),
        "torque_most": _column(np.where(known(items.required["torque"]), found.t_most, np.nan), TORQUE, system),
        "test_load": _column(items.test_required, FORCE, system),
        "hold_seconds": [None if value != value else value for value in items.hold_required.tolist()],
    }
    coordinates = {axis: _column(column, COORDINATE, system) for axis, column in items.coordinates.items()}
    load = _column(items.test_load, FORCE, system)
    hold = [None if value != value else value for value in items.hold_seconds.tolist()]
    otherwise = items.set_otherwise
    made: list[dict[str, Any]] = []
    for at in range(items.count):
        test = _stated({"load": load[at], "hold_seconds": hold[at], "held": items.held[at]})
        texts = {name: column[at] for name, column in items.texts.items()}
        numbers = {name: column[at] for name, column in own.items()}
        status = "deviates" if deviations[at] else "incomplete" if lacking[at] or uncompared[at] else "conforms"
        made.append(
            {"id": items.ids[at], "index": items.index[at], "status": status}
            | _stated({name: column[at] for name, column in items.places.items()})
            | _stated({axis: column[at] for axis, column in coordinates.items()})
            | ({"tags": list(tags)} if (tags := items.tags[at]) else {})
            | {
                "required": {"product": items.products[at].address}
                | ({"by_set_product": items.setting[at].address} if otherwise[at] else {})
                | _stated({name: column[at] for name, column in (required | bounds).items()}),
                "set": _stated({"product": texts["product"], **numbers, **texts, "test": test or None}),
                "deviations": deviations[at],
                "not_recorded": [each.value.code for each in lacking[at]],
                "not_compared": uncompared[at],
            }
        )
    return made


def _printed(columns: Mapping[str, Floats], system: System) -> dict[str, list[float | None]]:
    return {name: _column(columns[name], kind, system) for name, kind in KINDS.items()}


def _column(column: Floats, kind: QuantityKind, system: System) -> list[float | None]:
    values = in_request_units(filled(column), kind, system).tolist()
    return [value if there else None for value, there in zip(values, known(column).tolist(), strict=True)]


def _stated(values: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in values.items() if value is not None}


def _lacking(items: AsBuiltItems) -> list[list[AsBuiltField]]:
    """What was not recorded of each item."""
    texts, own = items.texts, items.recorded
    torque = known(items.required["torque"]) & ~known(own["torque"])
    loaded = known(items.test_load)
    asked = known(items.test_required) | loaded | known(items.hold_seconds)
    holes = {field: known(items.required[name]) & ~known(own[name]) for field, name in _HOLE.items()}
    made: list[list[AsBuiltField]] = []
    for at in range(items.count):
        fields = _FIELDS | (_OF_ADHESIVE if items.setting[at].adhesive else {})
        lacking = {field for field, name in fields.items() if texts[name][at] is None}
        if not known(own["embedment"])[at]:
            lacking.add(AsBuiltField.EMBEDMENT)
        if torque[at]:
            lacking.add(AsBuiltField.TORQUE)
        if items.setting[at].adhesive or items.setting[at].exact_depth:
            lacking |= {field for field, missing in holes.items() if missing[at]}
        untimed = known(items.hold_required)[at] and not known(items.hold_seconds)[at]
        held = items.held[at] is not None
        if untimed or ((asked[at] or held) and not (loaded[at] and held)):
            lacking.add(AsBuiltField.TEST)
        made.append([field for field in AsBuiltField if field in lacking])
    return made


def _uncompared(items: AsBuiltItems) -> list[list[str]]:
    """What of each item was recorded with nothing to compare it with."""
    alone = {name: known(items.recorded[name]) & ~known(items.required[name]) for name in KINDS}
    codes = [each.value.code for each in AsBuiltUncompared]
    return [[code for code in codes if alone[code][at]] for at in range(items.count)]


class _Deviations:
    """Deviations of each item, in the order of the closed list."""

    def __init__(self, items: AsBuiltItems, found: SetAnchor, system: System) -> None:
        self._items = items
        self._found = found
        self._system: System = system
        self._made: list[list[dict[str, Any]]] = [[] for _ in range(items.count)]

    def by_item(self) -> list[list[dict[str, Any]]]:
        items, found, own, required = self._items, self._found, self._items.recorded, self._items.required
        self._add(AsBuiltDeviation.PRODUCT, np.array(items.other, dtype=np.bool_))
        self._add(
            AsBuiltDeviation.EMBEDMENT, found.h_short > SAME * found.h_required, LENGTH, found.h_set, found.h_required
        )
        self._add(AsBuiltDeviation.TOO_DEEP, found.h_over > SAME * found.h_set, LENGTH, found.h_set, found.h_most)
        self._add(AsBuiltDeviation.TORQUE_LOW, found.t_low, TORQUE, found.t_set, found.t_least)
        self._add(AsBuiltDeviation.TORQUE_HIGH, found.t_high, TORQUE, found.t_set, found.t_most)
        holes = {name: (filled(own[name]), filled(required[name])) for name in ("hole_diameter", "hole_depth")}
        both = {name: known(own[name]) & known(required[name]) for name in holes}
        bit, asked = holes["hole_diameter"]
        other = both["hole_diameter"] & (np.abs(bit - asked) > SAME * asked)
        self._add(AsBuiltDeviation.HOLE_DIAMETER, other, LENGTH, bit, asked)
        depth, asked = holes["hole_depth"]
        self._add(AsBuiltDeviation.HOLE_DEPTH, both["hole_depth"] & (depth < asked * (1 - SAME)), LENGTH, depth, asked)
        exact = np.array([each.exact_depth for each in items.setting], dtype=np.bool_)
        deep = both["hole_depth"] & exact & (depth > asked * (1 + SAME))
        self._add(AsBuiltDeviation.HOLE_TOO_DEEP, deep, LENGTH, depth, asked)
        self._add(AsBuiltDeviation.EXPIRED, self._expired())
        short = found.p_short > SAME * found.p_required
        self._add(AsBuiltDeviation.TEST_LOAD, short, FORCE, found.p_test, found.p_required)
        over = found.p_over > SAME * found.p_most
        self._add(AsBuiltDeviation.TEST_HIGH, over, FORCE, found.p_test, found.p_most)
        self._add(AsBuiltDeviation.TEST_HOLD, found.hold_short)
        self._add(AsBuiltDeviation.TEST_FAILED, np.array([held is False for held in items.held], dtype=np.bool_))
        self._add(AsBuiltDeviation.REQUIRED_BELOW, items.required_below)
        self._add(AsBuiltDeviation.REQUIRED_OTHER, items.required_other)
        self._add(
            AsBuiltDeviation.NOTED, np.array([text is not None for text in items.texts["deviation"]], dtype=np.bool_)
        )
        return self._made

    def _expired(self) -> Bools:
        """Days in this form sort as texts."""
        pairs = zip(self._items.texts["date"], self._items.texts["expiry"], strict=True)
        return np.array([day is not None and last is not None and day > last for day, last in pairs], dtype=np.bool_)

    def _add(
        self,
        member: AsBuiltDeviation,
        holds: Bools,
        kind: QuantityKind | None = None,
        value: Floats | None = None,
        limit: Floats | None = None,
    ) -> None:
        for at in rows_where(holds):
            own: dict[str, Any] = {"code": member.value.code, "text": member.value.text}
            if kind is not None and value is not None and limit is not None:
                factor = bare_factor(kind, self._system)
                own |= {
                    "quantity": member.value.quantity,
                    "value": float(value[at]) / factor,
                    "limit": float(limit[at]) / factor,
                }
            self._made[at].append(own)


def deviation_counts(results: Sequence[Mapping[str, Any]]) -> dict[str, int]:
    """How many items have each deviation, in the order of the closed list."""
    codes = [each["code"] for result in results for each in result["deviations"]]
    return {each.value.code: codes.count(each.value.code) for each in AsBuiltDeviation if each.value.code in codes}
