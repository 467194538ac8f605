"""A product that is named beside its substitutes: qualification, strengths mode by mode, what changes in setting."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.quantity import Bools
from hangpoint.core.selection.traits import TraitColumn
from hangpoint.core.vocabulary import Inapplicable
from hangpoint.core.vocabulary.selection import Rejection
from hangpoint.pack.lengths import rounded
from hangpoint.pack.selection.candidates import EXPOSURES, Shelf
from hangpoint.pack.torques import torque_text
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Family, Material, SizeData
from hangpoint.product.inline import InlineProduct
from hangpoint.product.principles import CAST_IN, MM_PER_INCH, PINS
from hangpoint.product.product_row import NM_PER_FT_LBF
from hangpoint.product.table import ProductTable
from hangpoint.units import KINDS, PRINTED, TORQUE, System, bare_factor

_WORSE_ABOVE = ("least edge distance", "least spacing", "least thickness of the member", "anchor category")
_WORSE_WITHOUT = ("can be taken out", "ductile steel")
_DECIMALS: Mapping[System, int] = {"us": 3, "si": 1}
"""Of a length in words."""
_NOTHING = np.zeros(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """The product that is to be substituted; ``table`` is its row; ``family`` and ``address`` None of inline data."""

    table: ProductTable
    principle: str
    units: str
    size: SizeData
    embedment: Embedment
    material: Material | None
    family: Family | None
    address: str | None

    @property
    def name(self) -> str:
        """In words."""
        return self.address or "the product given inline"

    @property
    def exposure(self) -> int | None:
        """The worst of `EXPOSURES` that its protection is for; None where its data don't say."""
        if self.family is not None:
            return EXPOSURES[self.family.traits.exposure]
        return None if self.material is None else EXPOSURES[_exposure(self.material)]


def named_in_catalogue(shelf: Shelf, row: int) -> Named:
    """A product of the catalogue."""
    label = shelf.labels[row]
    return Named(
        table=shelf.table.take(np.array([row])),
        principle=label.family.principle,
        units=label.family.units,
        size=label.size,
        embedment=label.embedment,
        material=label.family.material,
        family=label.family,
        address=label.address,
    )


def named_inline(product: InlineProduct) -> Named:
    """A product whose data the request states."""
    return Named(
        table=product.to_table(),
        principle=product.principle,
        units=product.units,
        size=product.size,
        embedment=product.embedment,
        material=product.material,
        family=None,
        address=None,
    )


def lesser(named: Named, shelf: Shelf, *, masonry: bool) -> list[TraitColumn]:
    """Candidates that are not equally qualified, whatever the point needs.

    Args:
        named: the product that is to be substituted.
        shelf: the candidates.
        masonry: the point is in masonry, of which nothing is said by what is qualified in concrete: cracked, for
            earthquake, and overhead, which a soffit asks for by itself.
    """
    own, table = named.table, shelf.table
    same = np.array([label.address == named.address for label in shelf.labels], dtype=np.bool_)
    columns = [
        (Rejection.SAME_PRODUCT, same),
        (Rejection.LESSER_CRACKED, (not masonry) & _cracked(own)[0] & ~_cracked(table)),
        (Rejection.LESSER_SEISMIC, (not masonry) & own.seismic_qualified[0] & ~table.seismic_qualified),
        (Rejection.LESSER_SUSTAINED, own.sustained_tension[0] & ~table.sustained_tension),
        (Rejection.LESSER_OVERHEAD, (not masonry) & own.tension_overhead[0] & ~table.tension_overhead),
    ]
    exposure = named.exposure
    if exposure is not None:
        columns.append((Rejection.LESSER_PROTECTION, shelf.columns.exposure < exposure))
    return [
        TraitColumn(rejection=rejection, holds=holds, value=_NOTHING, limit=_NOTHING) for rejection, holds in columns
    ]


def _exposure(material: Material) -> str:
    """The worst exposure that steel and coating are for (common practice, no source)."""
    if material.steel == "carbon":
        return "outdoor" if material.coating in ("zinc_mechanical", "hot_dip") else "dry"
    return "damp" if material.steel == "stainless_304" else "outdoor"


def _cracked(table: ProductTable) -> Bools:
    """Whether the data of each row hold in cracked concrete."""
    bonded = np.array(
        [
            bool((table.bond.tau_cr[start : start + count] > 0).any())
            for start, count in zip(table.bond_start.tolist(), table.bond_count.tolist(), strict=True)
        ]
    )
    mechanical = (table.n_p_cr_state > 0) & (~table.product_k_c | (table.k_cr > 0))
    return np.where(table.bond_count > 0, bonded, mechanical | ~table.post_installed)


def changed_facts(
    named: Named, substitute: Named, system: System, *, least: Sequence[Mapping[str, float]]
) -> list[dict[str, Any]]:
    """What differs in steel, thread, hole, torque, edges, spacing, thickness, tool, training and inspection.

    ``least`` are the least distances of both in the base of the point, in, by the names of `card_bases.CardBase`.
    """
    before, after = (_facts(own, system, dict(limits)) for own, limits in zip((named, substitute), least, strict=True))
    found: list[dict[str, Any]] = []
    for name, (quantity, value) in after.items():
        old = before[name][1]
        if old == value:
            continue
        made: dict[str, Any] = {"what": name, "named": old, "substitute": value}
        if quantity:
            made["quantity"] = quantity
        silent = "none" if named.family is not None else "what is not stated"
        now, then = _said(value, name, quantity, "none", system), _said(old, name, quantity, silent, system)
        found.append(made | {"text": f"{name.capitalize()}: {now} instead of {then}."})
    return found


def _said(value: Any, name: str, quantity: str, silent: str, system: System) -> str:
    """A fact in words; a least distance goes up, a torque down."""
    if value is None:
        return silent
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, float):
        return str(value)
    if quantity == TORQUE.name:
        return torque_text([value], system)
    unit = f" {PRINTED[system][quantity]}" if quantity else ""
    return f"{rounded(value, _DECIMALS[system], 'up'):.10g}{unit}" if name.startswith("least") else f"{value:.4g}{unit}"


def _facts(product: Named, system: System, least: Mapping[str, float]) -> Mapping[str, tuple[str, Any]]:
    """What an installer meets, by name: the kind of its quantity, and the value; None where the data are silent."""
    own, hole, family, material = product.embedment, product.embedment.hole, product.family, product.material
    factor = (1.0 if product.units == "us" else 1 / MM_PER_INCH) / bare_factor(KINDS["length"], system)

    def length(value: float | None) -> float | None:
        return None if value is None else round(value * factor, 9)

    def limit(name: str) -> float | None:
        return round(least[name] / bare_factor(KINDS["length"], system), 9) if name in least else None

    return {
        "working principle": ("", product.principle.replace("_", " ")),
        "outside diameter": ("length", length(product.size.d_a)),
        "thread": ("", product.size.thread),
        "internal thread": ("", bool(product.table.internally_threaded[0])),
        "ductile steel": ("", product.size.ductile),
        "can be taken out": ("", bool(product.table.removable[0])),
        "embedment": ("length", length(own.h_ef)),
        "hole diameter": ("length", length(hole.diameter if hole else None)),
        "hole depth": ("length", length(hole.depth if hole else None)),
        "installation torque": ("torque", _torque(product, system)),
        "least edge distance": ("length", limit("edge")),
        "least spacing": ("length", limit("spacing")),
        "least thickness of the member": ("length", limit("thickness")),
        "anchor category": ("", int(product.table.category[0]) or None),
        "setting tool": ("", family.traits.setting_tool if family else None),
        "bit": ("", family.setting.bit if family else None),
        "trained installer": ("", family.traits.training if family else None),
        "ends flush": ("", family.traits.flush if family else None),
        "steel": ("", material.steel.replace("_", " ") if material else None),
        "coating": ("", material.coating.replace("_", " ") if material else None),
        "special inspection": ("", _inspection(product)),
    }


def _torque(product: Named, system: System) -> float | None:
    if product.embedment.torque is None:
        return None
    foot_pounds = product.embedment.torque / (1.0 if product.units == "us" else NM_PER_FT_LBF)
    return round(foot_pounds / bare_factor(TORQUE, system), 9)


def _inspection(product: Named) -> str:
    """Of the anchors by IBC table 1705.3 (from memory)."""
    if product.principle in CAST_IN:
        return "periodic, before the concrete is placed"
    if product.principle == "adhesive":
        return "continuous where it is set sideways or upward and tension stays, else periodic"
    if product.principle in PINS:
        return "by the engineer: the table of inspections does not name these pins"
    return "periodic"


def mode_by_mode(named: Sequence[Mapping[str, Any]], substitute: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Strengths of both by mode of anchor and base, and whether that of the substitute is less.

    Modes of another method than that of the one or the other are told with that reason.

    Args:
        named, substitute: ``modes`` of their checks.
    """
    found: list[dict[str, Any]] = []
    before, after = ({own["mode"]: own for own in modes} for modes in (named, substitute))
    elsewhere = {"applies": False, "reason": Inapplicable.OTHER_METHOD.value.code}
    for name in before | after:
        own, other = before.get(name, elsewhere), after.get(name, elsewhere)
        if name.startswith("rod_") or not (own["applies"] or other["applies"]):
            continue
        made: dict[str, Any] = {"mode": name}
        for who, mode in (("named", own), ("substitute", other)):
            if mode["applies"]:
                made[f"{who}_strength"] = mode["design_strength"]
                made[f"{who}_utilisation"] = mode["utilisation"]
            else:
                made[f"{who}_reason"] = mode["reason"]
        worse = other["applies"] and (not own["applies"] or other["utilisation"] > own["utilisation"] * (1 + 1e-9))
        found.append(made | {"worse": bool(worse)})
    return found


def worse_facts(changes: Sequence[Mapping[str, Any]]) -> list[str]:
    """Names of what the substitute needs more of than the product named, and of what that can and it can't."""
    return [own["what"] for own in changes if _is_worse(own["what"], own["named"], own["substitute"])]


def _is_worse(what: str, named: Any, substitute: Any) -> bool:
    if what in _WORSE_WITHOUT:
        return named and not substitute
    return what in _WORSE_ABOVE and named is not None and substitute is not None and substitute > named
