"""Rules of the bond of adhesive anchors, for files and for products in a request.

Clauses are of ACI 318-19. That heat and water don't strengthen a bond is common practice, no source.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hangpoint.product.principles import TAU_RANGE, Flaw

if TYPE_CHECKING:
    from hangpoint.product.bond_data import Bond, BondCondition, EnBond
    from hangpoint.product.embedment import Embedment

_TAUS = ("tau_cr", "tau_uncr")
_EN_TAUS = ("tau_rk_cr", "tau_rk_ucr", "tau_rk_c1", "tau_rk_c2")
_LESSER = (("tau_rk_cr", "tau_rk_ucr"), ("tau_rk_c1", "tau_rk_cr"), ("tau_rk_c2", "tau_rk_c1"))
"""Bond resistances by European assessment, each beside the one that it is not above."""


def bond_flaws(embedment: "Embedment", *, basis: str, units: str) -> Iterator[Flaw]:
    """What the bond of an embedment misses or contradicts."""
    if basis != "adhesive":
        if embedment.bond:
            yield Flaw(("bond",), f"bond goes with the basis adhesive (ACI 355.4), not with {basis}; remove it")
        return
    yield from _presence_flaws(embedment)
    for b, bond in enumerate(embedment.bond):
        for flaw in _entry_flaws(bond, units=units):
            yield Flaw(("bond", b, *flaw.path), flaw.reason)
        for other in embedment.bond[:b]:
            for flaw in _pair_flaws(bond, other, _TAUS):
                yield Flaw(("bond", b, *flaw.path), flaw.reason)
            if worse_set(bond, other, bond.category, other.category):
                yield Flaw(("bond", b, "category"), _WORSE_SET.format("category"))


_WORSE_SET = "{} in a water-saturated hole is better than in a dry one; check both"


def worse_set(bond: "BondCondition", other: "BondCondition", own: float, its: float) -> bool:
    """Whether of two holes of one range the wet one has the better (lower) number for how it is set."""
    if bond.temperature != other.temperature or bond.hole == other.hole:
        return False
    return own < its if bond.hole == "water_saturated" else its < own


def en_bond_flaws(bonds: Sequence["EnBond"], *, units: str) -> Iterator[Flaw]:
    """What the bond resistances by European assessment contradict; paths from the figures for EN 1992-4."""
    for b, bond in enumerate(bonds):
        found = [*_range_flaws(bond, _EN_TAUS, units=units), *_en_order_flaws(bond)]
        for other in bonds[:b]:
            found += _pair_flaws(bond, other, _EN_TAUS)
            if worse_set(bond, other, bond.gamma_inst, other.gamma_inst):
                found.append(Flaw(("gamma_inst",), _WORSE_SET.format("gamma_inst")))
        for flaw in found:
            yield Flaw(("bond", b, *flaw.path), flaw.reason)


def _en_order_flaws(bond: "EnBond") -> Iterator[Flaw]:
    for name, beside in _LESSER:
        tau, limit = getattr(bond, name), getattr(bond, beside)
        if tau is not None and (limit is None or tau > limit):
            least = "which is absent" if limit is None else f"{limit:g}"
            yield Flaw((name,), f"{name} {tau:g} is more than {beside}, {least}; check both")


def _presence_flaws(embedment: "Embedment") -> Iterator[Flaw]:
    if not embedment.bond:
        yield Flaw(("bond",), "an adhesive anchor needs its bond stresses, one condition at least (17.6.5.2)")
    for name in ("n_p_cr", "n_p_uncr", "n_p_eq"):
        if getattr(embedment, name) is not None:
            yield Flaw((name,), "an adhesive anchor has bond stresses and no pullout strength (17.5.2); remove it")
    if embedment.category is not None:
        yield Flaw(("category",), "the category of an adhesive anchor depends on the condition: state it in its bond")
    cracked = any(bond.tau_cr is not None for bond in embedment.bond)
    if embedment.k_uncr is not None and embedment.k_cr is None and cracked:
        yield Flaw(("k_cr",), "k_uncr is by tests and tau_cr is stated, so k_cr is required too (17.6.2.2.1)")
    if embedment.k_cr is not None and embedment.k_uncr is None and embedment.bond:
        yield Flaw(("k_uncr",), "k_cr is by tests and tau_uncr is stated, so k_uncr is required too (17.6.2.2.1)")
    shaken = any(bond.alpha_n_seis is not None for bond in embedment.bond)
    if embedment.bond and embedment.seismic != shaken:
        yield Flaw(
            ("seismic",),
            f"seismic is {str(embedment.seismic).lower()}, but alpha_n_seis is"
            f" {'stated' if shaken else 'in no condition'}; an adhesive anchor is qualified for earthquake by it"
            " (17.10.3): correct one",
        )


def _range_flaws(bond: "BondCondition", names: Sequence[str], *, units: str) -> Iterator[Flaw]:
    low, high = TAU_RANGE[units]
    for name in names:
        tau = getattr(bond, name)
        if tau is not None and not low <= tau <= high:
            yield Flaw(
                (name,),
                f"{name} {tau:g} is outside {low:g} to {high:g}, the range of bond stresses in {units} units; check"
                " value and unit",
            )
    if bond.long_term > bond.short_term:
        yield Flaw(
            ("long_term",),
            f"long_term {bond.long_term:g} exceeds short_term {bond.short_term:g}; what lasts passes too: check both",
        )


def _entry_flaws(bond: "Bond", *, units: str) -> Iterator[Flaw]:
    yield from _range_flaws(bond, _TAUS, units=units)
    if bond.tau_uncr is None:
        why = "c_Na follows from it (17.6.5.1.2)" if bond.tau_cr is not None else "or the condition says nothing"
        yield Flaw(("tau_uncr",), f"tau_uncr is required: {why}")
    elif bond.tau_cr is not None and not bond.tau_cr < bond.tau_uncr:
        yield Flaw(
            ("tau_cr",),
            f"tau_cr {bond.tau_cr:g} is not below tau_uncr {bond.tau_uncr:g}; a crack weakens: check both",
        )
    if bond.alpha_n_seis is not None and bond.tau_cr is None:
        yield Flaw(
            ("tau_cr",), "alpha_n_seis is stated: an anchor is qualified for earthquake only in cracked concrete"
        )


def _pair_flaws(bond: "BondCondition", other: "BondCondition", taus: Sequence[str]) -> Iterator[Flaw]:
    """Of an entry against one before it."""
    same_range = bond.temperature == other.temperature
    temperatures, others = (bond.long_term, bond.short_term), (other.long_term, other.short_term)
    if same_range and temperatures != others:
        yield Flaw(
            ("temperature",), f"the range {bond.temperature} has two pairs of temperatures; give the other its own word"
        )
    if same_range and bond.hole == other.hole:
        yield Flaw(("hole",), f"the condition {bond.temperature} {bond.hole} is there twice; keep one")
    elif same_range:
        wet, dry = (bond, other) if bond.hole == "water_saturated" else (other, bond)
        yield from _stronger(taus, wet, dry, "a water-saturated hole", "a dry one")
    elif bond.hole == other.hole and temperatures != others:
        if all(a >= b for a, b in zip(temperatures, others, strict=True)):
            yield from _stronger(taus, bond, other, f"the range {bond.temperature}", f"the cooler {other.temperature}")
        elif all(a <= b for a, b in zip(temperatures, others, strict=True)):
            yield from _stronger(taus, other, bond, f"the range {other.temperature}", f"the cooler {bond.temperature}")


def _stronger(
    taus: Sequence[str], worse: "BondCondition", better: "BondCondition", where: str, than: str
) -> Iterator[Flaw]:
    for name in taus:
        tau, limit = getattr(worse, name), getattr(better, name)
        if tau is not None and (limit is None or tau > limit):
            least = "absent" if limit is None else f"{limit:g}"
            yield Flaw((name,), f"{name} {tau:g} in {where} exceeds that in {than}, {least}; check both")
