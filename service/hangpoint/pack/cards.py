"""An installation card: what the data of a product say to whoever sets it, and what they do not say."""

import math
from collections.abc import Sequence
from typing import Any

from hangpoint.pack.card_products import CardNumbers, CardProduct
from hangpoint.pack.lengths import Rounding, in_system, length_text, rounded
from hangpoint.pack.torques import WORDS, figure
from hangpoint.pack.trace import record_section
from hangpoint.product.fields import Units
from hangpoint.product.guidance import card_texts
from hangpoint.product.principles import EXACT_DEPTH, LEAST_AGE_DAYS, MM_PER_INCH, WITHOUT_HOLE
from hangpoint.product.product_row import NM_PER_FT_LBF

_DRILLED = {"hammer": "rotary hammer", "core": "diamond core drill", "none": "no hole is drilled"}
_ADHESIVE_CHECK = "Cure time and working time for the temperature of the base: from the product's instructions."


def card(
    product: CardProduct, at: int, numbers: CardNumbers, *, system: Units, used_by: Sequence[str], attention: list[Any]
) -> dict[str, Any]:
    """The card of a product, in the units of a system.

    Args:
        product: with its face.
        at: its place among the products of ``numbers``.
        numbers: records of all cards.
        system: of the request.
        used_by: ids of the items that use it.
        attention: what items state of their base that the product does not allow.
    """
    of = _Writer(product, system)
    setting = product.setting
    inspection = card_texts.inspection(
        principle=product.principle, face=product.face, base=product.base.kind, european=product.european
    )
    made: dict[str, Any] = {
        "card": at,
        "product": product.address,
        "name": product.name,
        "banner": _banner(product),
        "data": "invented" if product.invented else "supplied",
        "principle": product.principle,
        "principle_text": card_texts.PRINCIPLE_TEXTS[product.principle],
        "base": product.base.kind,
        "base_text": product.base.text,
        "face": product.face,
        "used_by": list(used_by),
        "anchor_size": product.size.size,
        "anchor_diameter": of.length(product.size.d_a),
        "marks": of.marks(),
        "least": of.least(),
        "drilling": "not stated in the data" if setting is None else _DRILLED[setting.drilling],
        "cleaning": list(setting.cleaning) if setting else [],
        "setting": card_texts.setting_of(
            principle=product.principle, base=product.base.kind, steps=setting.steps if setting else ()
        ),
        "checks": list(setting.checks) if setting else [],
        "do_not": list(setting.do_not) if setting else [],
        "after_setting": _after(product),
        "at_a_bar": card_texts.at_a_bar(product.principle),
        "inspection": inspection._asdict(),
        "cautions": _cautions(product),
        "notes": [*(setting.notes if setting else ()), *([card_texts.EUROPEAN] if product.european else [])],
        "attention": [*_of_place(product, used_by), *attention],
        "missing": _missing(product),
    }
    made |= of.optional()
    sections: list[Any] = []
    row = numbers.turns_row[at]
    if row >= 0:
        made["thread"] |= {
            "turns_least": rounded(float(numbers.turns.turns_least[row]), 1, "up"),
            "turns_most": rounded(float(numbers.turns.turns_most[row]), 1, "down"),
        }
        sections.append(record_section(numbers.turns, row))
    row = numbers.hole_row[at]
    if row >= 0:
        away = float(numbers.holes.away[row])
        own = away if product.units == "us" else away * MM_PER_INCH
        made["new_hole"] = of.length(own, "up") | {
            "rule": "From a given-up hole at least twice its depth, and never below the least spacing, unless it is"
            " filled with high-strength mortar (practice, to be confirmed)."
        }
        sections.append(record_section(numbers.holes, row))
    if product.source:
        made["source"] = product.source.model_dump(mode="json", exclude_none=True)
    return made | {"trace": sections}


class _Writer:
    """Lengths of one product as a card has them."""

    def __init__(self, product: CardProduct, system: Units) -> None:
        self._product = product
        self._system: Units = system

    def length(self, value: float, way: Rounding = "nearest") -> dict[str, Any]:
        units = self._product.units
        return {
            "value": in_system(value, units=units, system=self._system),
            "text": length_text(value, units=units, system=self._system, way=way),
        }

    def marks(self) -> dict[str, Any]:
        own = self._product.embedment
        made = {"h_ef": self.length(own.h_ef, self._deep)}
        return made | {"h_nom": self.length(own.h_nom, self._deep)} if own.h_nom is not None else made

    @property
    def _deep(self) -> Rounding:
        """Which way depths go: none is shallower than that of the data, and of some none is deeper either."""
        return "nearest" if self._product.principle in EXACT_DEPTH else "up"

    def least(self) -> dict[str, Any]:
        return {name: self.length(self._product.own(limit), "up") for name, limit in self._product.base.least}

    def optional(self) -> dict[str, Any]:
        """What not every product has."""
        product, made = self._product, dict[str, Any]()
        own, size = product.embedment, product.size
        if product.base.offset is not None:
            made["most_offset"] = self.length(product.own(product.base.offset), "down")
        if product.base.one_a_cell:
            made["one_a_cell"] = True
        if own.hole:
            depth = self.length(own.hole.depth, self._deep)
            made["hole"] = {"diameter": self.length(own.hole.diameter), "depth": depth}
        if product.setting and product.setting.bit:
            made["bit"] = product.setting.bit
        if own.torque is not None:
            made["torque"] = _torque(own.torque, product.units)
        if size.thread:
            made["thread"] = {"size": size.thread}
        if size.thread and size.thread_engagement:
            reach = size.thread_engagement
            made["thread"] |= {"least": self.length(reach.least, "up"), "most": self.length(reach.most, "down")}
        if product.setting_tool:
            made["setting_tool"] = product.setting_tool
        if product.training is not None:
            made["training"] = product.training
        if product.principle == "adhesive":
            made["adhesive"] = _adhesive(product)
        return made


def _torque(value: float, units: Units) -> dict[str, Any]:
    foot_pounds = value if units == "us" else value / NM_PER_FT_LBF
    newton_metres = value * NM_PER_FT_LBF if units == "us" else value
    us = units == "us"
    ours = (
        f"{figure(foot_pounds, stated=us)} {WORDS['us']}",
        f"{figure(newton_metres, stated=not us)} {WORDS['si']}",
    )
    first, second = ours if us else ours[::-1]
    text = f"{first} ({second}), calibrated wrench, not more"
    return {"foot_pounds": foot_pounds, "newton_metres": newton_metres, "text": text}


def _banner(product: CardProduct) -> str:
    if product.invented:
        return card_texts.INVENTED_BANNER
    return card_texts.SUPPLIED_BANNER if product.source else card_texts.NO_SOURCE_BANNER


def _of_place(product: CardProduct, used_by: Sequence[str]) -> list[dict[str, str]]:
    """What base and face ask of the product and the product is not fit for, of each item that uses it."""
    texts = {
        ("base", product.base.lacking): bool(product.base.lacking),
        ("face", "The data do not allow tension overhead."): product.face == "soffit"
        and not product.traits.tension_overhead,
        ("face", "The adhesive is not qualified for installation sideways or upwards."): (
            product.principle == "adhesive" and product.face in ("soffit", "side") and not product.traits.upward
        ),
    }
    found = [each for each, holds in texts.items() if holds]
    return [{"id": own, "what": what, "text": text} for what, text in found for own in used_by]


def _after(product: CardProduct) -> list[str]:
    said: list[str] = []
    if product.embedment.torque is not None:
        said.append(card_texts.RETORQUE)
    if product.principle == "displacement_controlled_expansion":
        said.append(card_texts.ROD_IS_NO_PROOF)
    if product.traits.removable:
        said.append(card_texts.NOT_REUSED)
    return said


def _cautions(product: CardProduct) -> list[str]:
    drilled = product.embedment.hole is not None
    said = list(product.setting.cautions) if product.setting else []
    if drilled:
        said = [*(each for each in said if each != card_texts.SILICA_IN_SHORT), card_texts.SILICA]
    if product.principle == "driven_pin" and "powder" in (product.setting_tool or "powder"):
        said.append(card_texts.POWDER)
    if product.principle == "driven_pin":
        said.append(card_texts.POWERED)
    if product.face == "soffit" and not any("stands below" in each for each in said):
        said.append(card_texts.OVERHEAD)
    return said if any("decide" in each for each in said) else [*said, card_texts.DECIDES]


def _adhesive(product: CardProduct) -> dict[str, Any]:
    holes: dict[tuple[str, float, float], list[str]] = {}
    for each in product.embedment.conditions:
        holes.setdefault((each.temperature, each.long_term, each.short_term), []).append(each.hole.replace("_", " "))
    age = product.traits.least_age_days
    return {
        "conditions": [
            f"Range {name}: base up to {_degrees(long_term, product.units)} for long,"
            f" {_degrees(short_term, product.units)} for short; hole {' or '.join(states)}."
            for (name, long_term, short_term), states in holes.items()
        ],
        "least_age_days": LEAST_AGE_DAYS if age is None else age,
        "upward": product.traits.upward,
        "cure": _ADHESIVE_CHECK,
        "installer": "Sideways or upwards under tension that stays: a certified installer"
        + (
            ", as the instructions of the product ask."
            if product.european
            else " (ACI 318-19 26.7.2, to be confirmed)."
        ),
    }


def _degrees(most: float, units: Units) -> str:
    """A highest temperature as the data state it, and in the other scale, rounded down."""
    if units == "us":
        return f"{most:g} °F ({math.floor((most - 32) / 1.8 + 1e-9)} °C)"
    return f"{most:g} °C ({math.floor(most * 1.8 + 32 + 1e-9)} °F)"


def _missing(product: CardProduct) -> list[str]:
    """What an installer would ask and the data do not say."""
    setting, own, size = product.setting, product.embedment, product.size
    drilled = product.principle not in WITHOUT_HOLE
    silent = {
        "The data have no drilling, cleaning, setting steps or checks: follow the product's instructions.": not setting,
        "The data name no hole.": drilled and own.hole is None,
        "The data name no bit.": bool(setting) and setting.drilling != "none" and not setting.bit,
        "The data have no h_nom: the depth to mark on the anchor is in the product's instructions.": own.h_nom is None,
        "The data ask for no installation torque.": own.torque is None,
        "The data name no thread.": product.traits.internally_threaded and not size.thread,
        "The data have no thread engagement. One rod diameter at least is common practice, no source.": (
            product.traits.internally_threaded and not size.thread_engagement
        ),
        "The data have no cure times and no temperatures of setting.": product.principle == "adhesive",
        "The data do not say whether training is asked for or a setting tool is needed.": product.training is None,
        "The data have no critical edge distance c_ac: the code's value is taken in a check.": own.c_ac is None
        and drilled
        and not product.european,
    }
    return [text for text, holds in silent.items() if holds]
