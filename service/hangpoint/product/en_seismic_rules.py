"""Rules of figures of earthquake for EN 1992-4, annex C: none is above what it stands beside.

Those of a category are not above the static ones in cracked concrete, those of C2 not above those of C1, which C2
implies (from memory).
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from hangpoint.product.principles import PSI_PER_MPA, Flaw, below

if TYPE_CHECKING:
    from hangpoint.product.en_data import EnData, EnSeismicData
    from hangpoint.product.family import SizeData

CATEGORIES = ("c1", "c2")
SEISMIC_RISING = ("n_rk_s_eq", "n_rk_p_eq", "v0_rk_s_eq")
_UP_TO_500, _BEYOND_500 = 0.6, 0.5
"""k_6 of (7.34), by f_uk up to 500 N/mm2 and beyond."""


def en_seismic_flaws(size: "SizeData", own: "EnData", *, headed: bool, units: str) -> Iterator[Flaw]:
    """What the figures of the categories miss or contradict; paths from the figures for EN 1992-4."""
    if own.c2 is not None and own.c1 is None:
        yield Flaw(("c2",), "figures of category C2 go beside those of C1; state c1 as well")
    for category in CATEGORIES:
        data: EnSeismicData | None = getattr(own, category)
        if own.bond and data is None:
            yield from _bond_alone_flaws(own, category)
        if data is not None:
            for flaw in (
                *(_bonded_flaws(own, data, category) if own.bond else _pull_out_flaws(own, data, headed=headed)),
                *_steel_flaws(size, own, data, units=units),
                *(_higher_flaws(own.c1, data) if category == "c2" and own.c1 is not None else ()),
            ):
                yield Flaw((category, *flaw.path), flaw.reason)


def _bond_alone_flaws(own: "EnData", category: str) -> Iterator[Flaw]:
    for b, each in enumerate(own.bond):
        if getattr(each, f"tau_rk_{category}") is not None:
            yield Flaw(
                ("bond", b, f"tau_rk_{category}"),
                f"tau_rk_{category} goes beside the resistances of the steel: state {category} as well, or remove it",
            )


def _bonded_flaws(own: "EnData", data: "EnSeismicData", category: str) -> Iterator[Flaw]:
    if data.n_rk_p_eq is not None:
        yield Flaw(("n_rk_p_eq",), f"that of a bonded fastener is tau_rk_{category} in its bond: remove it")
    if not any(getattr(each, f"tau_rk_{category}") for each in own.bond):
        yield Flaw((), f"a bonded fastener is qualified by tau_rk_{category}: state it in its bond, or remove this")


def _pull_out_flaws(own: "EnData", data: "EnSeismicData", *, headed: bool) -> Iterator[Flaw]:
    stated, static = data.n_rk_p_eq, own.n_rk_p_cr
    path = ("n_rk_p_eq",)
    if headed:
        if stated is not None:
            yield Flaw(path, "n_rk_p_eq is of post-installed fasteners; that of a headed one is calculated: remove it")
    elif static is None:
        yield Flaw((), "earthquake is checked in cracked concrete: state en.n_rk_p_cr as well, or remove it")
    elif stated is None:
        yield Flaw(path, "a post-installed fastener needs n_rk_p_eq of its assessment: a number, or not_governing")
    elif isinstance(static, float) and (stated == "not_governing" or (isinstance(stated, float) and stated > static)):
        yield Flaw(path, f"n_rk_p_eq {_word(stated)} is more than n_rk_p_cr {static:g}; check both")


def _steel_flaws(size: "SizeData", own: "EnData", data: "EnSeismicData", *, units: str) -> Iterator[Flaw]:
    si = units == "si"
    whole = size.a_se * size.f_uta / (1000.0 if si else 1.0)
    share = _UP_TO_500 if _f_uk_of(size.f_uta, si=si) <= 500 else _BEYOND_500
    for name, stated, static, what in (
        ("n_rk_s_eq", data.n_rk_s_eq, own.n_rk_s or whole, "N_Rk,s"),
        ("v0_rk_s_eq", data.v0_rk_s_eq, own.v0_rk_s or share * whole, "V0_Rk,s"),
    ):
        if stated is not None and below(static, stated):
            yield Flaw((name,), f"{name} {stated:g} is more than the static {what}, {static:.4g}; check both")


def _f_uk_of(f_uta: float, *, si: bool) -> float:
    return f_uta if si else f_uta / PSI_PER_MPA


def _higher_flaws(lesser: "EnSeismicData", data: "EnSeismicData") -> Iterator[Flaw]:
    for name in SEISMIC_RISING:
        mine, other = getattr(data, name), getattr(lesser, name)
        if mine is None or (other == "not_governing" and name == "n_rk_p_eq"):
            continue
        if other is None or mine == "not_governing" or mine > other:
            yield Flaw((name,), f"{name} {_word(mine)} of C2 is more than that of C1; check both")


def _word(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:g}"
