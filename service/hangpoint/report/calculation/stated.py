"""What a request states of a hang point, a line a field, as it was stated."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from hangpoint.core.outcome import SIDES

Object = Mapping[str, Any]

_NAMES = {
    "edges": "edge",
    "h_ef": "h_ef",
    "f_c": "f'_c",
    "f_m": "f'_m",
    "f_u": "f_u",
    "f_uta": "f_uta",
    "f_ya": "f_ya",
    "d_a": "d_a",
    "a_se": "A_se",
    "s_ds": "S_DS",
    **{side: f"at {shown}" for side, shown in SIDES.items()},
}
"""Names that are symbols, and names of edges."""
_NAMES_OF_EN = {
    "f_uta": "f_uk",
    "f_ya": "f_yk",
    "d_a": "d_nom",
    "a_se": "A_s",
    "a_brg": "A_h",
    "h_min": "h_min",
    "c_min": "c_min",
    "s_min": "s_min",
    "n_rk_p_cr": "N_Rk,p,cr",
    "n_rk_p_ucr": "N_Rk,p,ucr",
    "psi_c_exponent": "exponent of ψ_c",
    "gamma_inst": "γ_inst",
    "n_rk_s": "N_Rk,s",
    "v0_rk_s": "V⁰_Rk,s",
    "k7": "k_7",
    "gamma_ms_n": "γ_Ms,N",
    "gamma_ms_v": "γ_Ms,V",
    "k_cr_n": "k_cr,N",
    "k_ucr_n": "k_ucr,N",
    "s_cr_n": "s_cr,N",
    "c_cr_sp": "c_cr,sp",
    "n0_rk_sp": "N⁰_Rk,sp",
    "k8": "k_8",
    "l_f": "l_f",
}
"""Symbols of EN 1992-4 for the figures of a product of the basis `en`."""
_CODED = {
    *("model", "spacing_rule", "rule", "nature", "contents", "material", "hole", "exposure", "location", "support"),
    *(
        "kind",
        "density",
        "edge_reinforcement",
        "tension_option",
        "shear_option",
        "oblique_shear",
        "interaction",
        "group_area",
        "masonry_edition",
        "part",
    ),
}
"""Names of fields whose words come out of a closed list."""
_SIGNS = str.maketrans({"2": "²", "3": "³", "*": "·"})
_CODE = re.compile(r"[a-z][a-z0-9_]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """One field: its place with dots between, its value in words, and whether it is a default of the request."""

    place: str
    text: str
    is_default: bool


def stated(item: Object, merged: Object, unit_of: Callable[[str], str]) -> list[Stated]:
    """The fields of an item with the defaults of the request behind it.

    Args:
        item: as it was stated.
        merged: the same with the defaults.
        unit_of: the unit of a number without one at a place; empty where it has none.
    """
    own = {place for place, _ in _leaves(item, "")}
    return [
        Stated(place=place, text=_text(value, unit_of(place).translate(_SIGNS)), is_default=place not in own)
        for place, value in _leaves(merged, "")
        if place != "id"
    ]


def place_words(place: str, *, of_en: bool = False) -> str:
    """A place of a request in words: parts of a list are counted from 1, symbols stay symbols.

    ``of_en``: the product has figures for EN 1992-4, and its symbols.
    """
    names = _NAMES | _NAMES_OF_EN if of_en and place.startswith("anchor.product.") else _NAMES
    words: list[str] = []
    for name in place.split("."):
        if name.isdigit() and words:
            words[-1] = f"{words[-1].removesuffix('s')} {int(name) + 1}"
        else:
            words.append(names.get(name, name.replace("_", " ")))
    return ", ".join(words)


def value_words(place: str, text: str) -> str:
    """A value in words where it is a code; what a user may word freely stays as it is."""
    return text.replace("_", " ") if _CODE.fullmatch(text) and place.split(".")[-1] in _CODED else text


def _leaves(value: Any, place: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        for name, own in cast(Object, value).items():
            yield from _leaves(own, f"{place}.{name}" if place else name)
    elif isinstance(value, list) and any(isinstance(each, Mapping | list) for each in cast(list[Any], value)):
        for number, own in enumerate(cast(list[Any], value)):
            yield from _leaves(own, f"{place}.{number}")
    else:
        yield place, value


def _text(value: Any, unit: str) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(_text(each, unit) for each in cast(Sequence[Any], value))
    if not isinstance(value, int | float):
        return str(value)
    return f"{repr(value).removesuffix('.0')} {unit}".rstrip()
