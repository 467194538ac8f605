"""Whether the concrete is expected to bear a test load: the check of a hang point, at the load of the test.

The nominal strengths of concrete modes, without phi, of one anchor alone in its stated base. A test above them may
break a sound anchor out: it is not forbidden here, but never goes unsaid.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch, row_errors
from hangpoint.pack.proof_items import ProofItems
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import FORCE, PRINTED, System, bare_factor

_MODES = {
    "concrete_breakout_tension": "concrete breakout",
    "pullout": "pullout",
    "side_face_blowout": "side-face blowout",
    "adhesive_bond": "bond",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class AboveConcrete:
    """By item the mode and its nominal strength, lbf, where the test load is above it; ``unknown``: some are not."""

    CODE: ClassVar[str] = "above-the-concrete"

    by_item: dict[int, tuple[str, float]]
    unknown: bool
    system: System

    def findings(self, item: int) -> list[dict[str, str]]:
        """What is said of a test of this item."""
        if item not in self.by_item:
            return []
        mode, strength = self.by_item[item]
        factor, unit = bare_factor(FORCE, self.system), PRINTED[self.system][FORCE.name]
        text = (
            f"The test load is above the nominal strength in {_MODES[mode]}, {strength / factor:.4g} {unit}, of this"
            " anchor in its base: the test may break a sound anchor out. Ask the engineer."
        )
        return [{"code": self.CODE, "text": text}]


def above_concrete(items: ProofItems, tested: Sequence[int], catalogue: Catalogue, system: System) -> AboveConcrete:
    """Check the items with a base whose anchors are tested."""
    alike: dict[str, list[int]] = {}
    for item in sorted(set(tested)):
        if items.bases[item] is not None or items.base_default is not None:
            alike.setdefault(_key(items, item), []).append(item)
    at = [own[0] for own in alike.values()]
    points = [_point(items, item) for item in at]
    wrong: Mapping[int, Any] = row_errors(points) if points else {}
    kept = [(item, point) for row, (item, point) in enumerate(zip(at, points, strict=True)) if row not in wrong]
    found: dict[int, tuple[str, float]] = {}
    answered = 0
    if kept:
        batch = Batch(
            units=system,
            combinations="given_factored",
            detail="trace",
            neighbours="off",
            defaults={} if items.base_default is None else {"base": items.base_default},
            items=[own for _, own in kept],
        )
        limits = Limits(items=len(kept), traces=len(kept))
        answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail="trace")
        for (item, _), result in zip(kept, answer["items"], strict=True):
            same = alike[_key(items, item)]
            answered += len(same) * (result["status"] in ("passed", "failed"))
            least = min(_strengths(result), key=lambda each: each[1], default=None)
            if least is not None and items.load.test_load[item] > least[1]:
                found |= dict.fromkeys(same, least)
    return AboveConcrete(by_item=found, unknown=answered < len(set(tested)), system=system)


def _key(items: ProofItems, item: int) -> str:
    """The same for items of one product, base and test load; a product stated inline is like no other."""
    own = item if item in items.anchors.inline else items.anchors.addresses[item]
    return json.dumps([own, items.bases[item], float(items.load.test_load[item])], sort_keys=True)


def _point(items: ProofItems, item: int) -> dict[str, Any]:
    """A hang point of one anchor under the test load, in category A."""
    base = items.bases[item]
    return {
        "id": str(item),
        "hangs": {
            "kind": "forces",
            "sustained_fraction": 0.0,
            "earthquake_fraction": 0.0,
            "components": [{"nature": "test", "tension": f"{items.load.test_load[item]:.6f} lb"}],
        },
        "anchor": _anchor(items, item),
        "seismic": {"category": "A"},
    } | ({} if base is None else {"base": base})


def _anchor(items: ProofItems, item: int) -> dict[str, Any]:
    """The product of an item, without its layout."""
    inline = items.anchors.inline.get(item)
    if inline is not None:
        return {"product": inline}
    family, *size, _ = str(items.anchors.addresses[item]).split("/")
    return {"family": family, "size": "/".join(size), "h_ef": f"{items.anchors.products.h_ef[item]:.9f} in"}


def _strengths(result: Any) -> list[tuple[str, float]]:
    """Nominal strength of the concrete modes that apply: phi is taken out of the design strength by the trace."""
    found: list[tuple[str, float]] = []
    for section in result.get("trace", ()):
        if section.get("mode") in _MODES:
            lines = {line["name"]: line["value"] for line in section["lines"]}
            if lines.get("phi"):
                found.append((section["mode"], lines["design_strength"] / lines["phi"]))
    return found
