"""Whether the concrete is expected to bear a test load: the check of a hang point, at the load of the test.

The nominal strengths of concrete modes, without phi, of one anchor alone in its place in its stated base; of one that
is tested confined only the bond, because its concrete is held down. A test above them may break a sound anchor out: it
is not forbidden here, but never goes unsaid. In masonry and planks the load that is stated is compared with the
allowable load of the product's table in that place, and the load of the test with the mean ultimate load behind it.
Cast-in bolts in masonry go by their nominal strengths, as anchors in concrete do.
"""

import json
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch, row_errors
from hangpoint.pack.proof_items import ProofItems
from hangpoint.product.catalogue import Catalogue
from hangpoint.report.printable import plain_number
from hangpoint.units import FORCE, PRINTED, System, bare_factor

_MODES = {
    "concrete_breakout_tension": "concrete breakout",
    "pullout": "pullout",
    "side_face_blowout": "side-face blowout",
    "adhesive_bond": "bond",
    "masonry_breakout_tension": "breakout of the masonry",
    "masonry_pullout": "pullout from the masonry",
}
_CONFINED = ("adhesive_bond",)
_TABLE_BASES = ("masonry", "hollow_core")
_TABLE_TEXTS = {
    "load-above-the-table": "The load that is stated is above the allowable load of the product's table in this place,"
    " {load}: a test that passes does not make up for that. Ask the engineer.",
    "test-above-the-table": "The test load is above the mean ultimate load behind the product's table in this place,"
    " {load}: the test may break a sound anchor out. Ask the engineer.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class AboveConcrete:
    """By anchor the mode and its nominal strength, lbf, where the test load is above it; ``unknown``: some are not.

    ``by_table`` has the codes of `_TABLE_TEXTS` with the load of the table, lbf.
    """

    CODE: ClassVar[str] = "above-the-concrete"

    by_anchor: dict[int, tuple[str, float]]
    by_table: dict[int, list[tuple[str, float]]]
    unknown: bool
    system: System

    def findings(self, anchor: int) -> list[dict[str, str]]:
        """What is said of a test of this anchor."""
        factor, unit = bare_factor(FORCE, self.system), PRINTED[self.system][FORCE.name]
        if anchor not in self.by_anchor:
            return [
                {"code": code, "text": _TABLE_TEXTS[code].format(load=f"{plain_number(load / factor, 4)} {unit}")}
                for code, load in self.by_table.get(anchor, ())
            ]
        mode, strength = self.by_anchor[anchor]
        text = (
            f"The test load is above the nominal strength in {_MODES[mode]}, "
            f"{plain_number(strength / factor, 4)} {unit}, of this anchor in its base: the test may break a sound"
            " anchor out. Ask the engineer."
        )
        return [{"code": self.CODE, "text": text}]


def above_concrete(items: ProofItems, tested: Sequence[int], catalogue: Catalogue, system: System) -> AboveConcrete:
    """Check the anchors that are tested, those whose item or default states a base."""
    alike: dict[str, list[int]] = {}
    for anchor in tested:
        if items.bases[items.item[anchor]] is not None or items.base_default is not None:
            alike.setdefault(_key(items, anchor), []).append(anchor)
    groups = list(alike.values())
    points = [_point(items, own[0]) for own in groups]
    wrong: Mapping[int, Any] = row_errors(points) if points else {}
    kept = [(own, point) for row, (own, point) in enumerate(zip(groups, points, strict=True)) if row not in wrong]
    found: dict[int, tuple[str, float]] = {}
    by_table: dict[int, list[tuple[str, float]]] = {}
    answered = 0
    for by_tables, combinations in ((False, "given_factored"), (True, "allowable")):
        part = [(own, point) for own, point in kept if _by_table(items, own[0]) is by_tables]
        for own, result in _checked(items, part, combinations, catalogue, system):
            item = int(items.item[own[0]])
            answered += len(own) * (result["status"] in ("passed", "failed"))
            if by_tables:
                above = list(_above_table(items, item, result))
                by_table |= dict.fromkeys(own, above)
                continue
            modes = _CONFINED if items.confined[item] else _MODES.keys()
            least = min(_strengths(result, modes), key=lambda each: each[1], default=None)
            if least is not None and items.load.test_load[item] > least[1]:
                found |= dict.fromkeys(own, least)
    return AboveConcrete(by_anchor=found, by_table=by_table, unknown=answered < len(tested), system=system)


def _checked(
    items: ProofItems,
    points: Sequence[tuple[list[int], dict[str, Any]]],
    combinations: str,
    catalogue: Catalogue,
    system: System,
) -> Iterator[tuple[list[int], Any]]:
    """The check of each point, with the anchors that it stands for."""
    if not points:
        return
    batch = Batch(
        units=system,
        combinations=combinations,
        detail="trace",
        neighbours="off",
        defaults=_defaults(items),
        items=[point for _, point in points],
    )
    limits = Limits(items=len(points), traces=len(points))
    answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail="trace")
    yield from zip((own for own, _ in points), answer["items"], strict=True)


def _by_table(items: ProofItems, anchor: int) -> bool:
    """Whether an anchor goes by a table where it is; cast-in bolts have strengths."""
    if not items.anchors.products.post_installed[items.item[anchor]]:
        return False
    own: Mapping[str, Any] = items.bases[int(items.item[anchor])] or {}
    behind: Mapping[str, Any] = items.base_default or {}
    return own.get("kind", behind.get("kind")) in _TABLE_BASES


def _above_table(items: ProofItems, item: int, result: Any) -> Iterator[tuple[str, float]]:
    for section in result.get("trace", ()):
        if section.get("mode") == "table_tension":
            lines = {line["name"]: line["value"] for line in section["lines"]}
            allowable = lines["design_strength"]
            ultimate = allowable * lines["safety_factor"]
            if items.basis[item] != "design_strength" and items.load.reference[item] > allowable:
                yield "load-above-the-table", allowable
            if items.load.test_load[item] > ultimate:
                yield "test-above-the-table", ultimate


def _defaults(items: ProofItems) -> dict[str, Any]:
    base, conditions = items.base_default, items.conditions_default
    return {
        **({} if base is None else {"base": base}),
        **({} if conditions is None else {"anchor": {"adhesive": conditions}}),
    }


def _place(items: ProofItems, anchor: int) -> tuple[float, float]:
    """Where an anchor stands from the origin that edges are measured from, in."""
    layouts = items.anchors.layouts.layouts
    return float(layouts.x[anchor]), float(layouts.y[anchor])


def _key(items: ProofItems, anchor: int) -> str:
    """The same for anchors alike in product, condition, base, place and load; a product inline is like no other."""
    item = int(items.item[anchor])
    own = item if item in items.anchors.inline else items.anchors.addresses[item]
    stated = [own, items.conditions[item], items.bases[item], _place(items, anchor)]
    return json.dumps([*stated, float(items.load.test_load[item])], sort_keys=True)


def _point(items: ProofItems, anchor: int) -> dict[str, Any]:
    """A hang point of one anchor under the test load, in category A."""
    item = int(items.item[anchor])
    base = items.bases[item]
    x, y = _place(items, anchor)
    at = {"x": f"{x:.9f} in", "y": f"{y:.9f} in"}
    factored = {} if _by_table(items, anchor) else {"sustained_fraction": 0.0, "earthquake_fraction": 0.0}
    return {
        "id": str(anchor),
        "hangs": {
            "kind": "forces",
            "at": at,
            **factored,
            "components": [{"nature": "test", "tension": f"{items.load.test_load[item]:.6f} lb"}],
        },
        "anchor": {**_product(items, item), **({"layout": [at]} if x or y else {})},
        "seismic": {"category": "A"},
    } | ({} if base is None else {"base": base})


def _product(items: ProofItems, item: int) -> dict[str, Any]:
    """The product of an item, and its condition if it is an adhesive."""
    conditions = items.conditions[item]
    made: dict[str, Any] = {} if conditions is None else {"adhesive": conditions}
    inline = items.anchors.inline.get(item)
    if inline is not None:
        return made | {"product": inline}
    family, *size, _ = str(items.anchors.addresses[item]).split("/")
    return made | {
        "family": family,
        "size": "/".join(size),
        "h_ef": f"{items.anchors.products.h_ef[item]:.9f} in",
    }


def _strengths(result: Any, modes: Collection[str]) -> list[tuple[str, float]]:
    """Nominal strength of the concrete modes that apply: phi is taken out of the design strength by the trace."""
    found: list[tuple[str, float]] = []
    for section in result.get("trace", ()):
        if section.get("mode") in modes:
            lines = {line["name"]: line["value"] for line in section["lines"]}
            if lines.get("phi"):
                found.append((section["mode"], lines["design_strength"] / lines["phi"]))
    return found
