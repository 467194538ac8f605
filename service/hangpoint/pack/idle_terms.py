"""Terms of sums that every code has in its loads and that are 0 in this row: a trace by EN 1992-4 leaves them out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.further_loads import FurtherForce, FurtherMoment
from hangpoint.core.hang_point.layout_load import LayoutLoad, SustainedLayoutLoad
from hangpoint.core.quantity import Q, Record, Value, columns


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """Lines that say nothing where all ``zero`` ones among them are, and their terms in the formulas of others.

    ``terms`` are texts of formulas, each with what is left of it.
    """

    zero: Sequence[str]
    beside: Sequence[str] = ()
    terms: Sequence[tuple[str, str]] = ()


_QUAKE = Idle(
    zero=("p_horizontal", "p_vertical"),
    beside=("gamma_e", "turned", "p_e", "p_pull", "vertical", "s_ds", "p_permanent", "p_quake"),
    terms=((" + p_quake", ""),),
)
_AXES = ("m_x", "m_y", "m_z")
_MOMENTS = (
    Idle(
        zero=tuple(f"{m}_factored" for m in _AXES),
        beside=("gamma_given",),
        terms=tuple((f" + gamma_given * {m}_factored", "") for m in _AXES),
    ),
    Idle(zero=tuple(f"{m}_further" for m in _AXES), terms=tuple((f" + {m}_further", "") for m in _AXES)),
)
_GIVEN = "gamma_given * (n_factored + max(n_factored_e, -n_factored_e)) * sustained_fraction"
_TERMS: Mapping[type[Record], Sequence[Idle]] = {
    AnchorDemand: (
        Idle(zero=("n_sprinkler",), beside=("gamma_sprinkler",), terms=((" + gamma_sprinkler * n_sprinkler", ""),)),
        Idle(zero=("sprinkler_case",), terms=(("where(sprinkler_case, 0, ", "("),)),
        Idle(
            zero=("n_factored", "n_factored_e"),
            beside=("gamma_given", "sustained_fraction"),
            terms=((f" + {_GIVEN}", ""), (" + gamma_given * n_factored", "")),
        ),
        Idle(
            zero=("n_further", "n_further_s", "n_further_e"),
            terms=((" + n_further_s", ""), (" + n_further", "")),
        ),
    ),
    AnchorShear: (
        Idle(
            zero=("v_x_factored", "v_y_factored"),
            terms=((" + v_x_factored", ""), (" + v_y_factored", "")),
        ),
        Idle(zero=("v_x_further", "v_y_further"), terms=((" + v_x_further", ""), (" + v_y_further", ""))),
        Idle(
            zero=("v_x_further_e", "v_y_further_e", "vertical_contents"),
            beside=("v_x_quake", "v_y_quake", "v_ua_e"),
            terms=(("(gamma_contents + vertical_contents)", "gamma_contents"),),
        ),
    ),
    **dict.fromkeys((LayoutLoad, SustainedLayoutLoad), _MOMENTS),
    FurtherForce: (_QUAKE,),
    FurtherMoment: (_QUAKE,),
}


@cache
def _places(kind: type[Record]) -> Sequence[Sequence[int]]:
    names = list(columns(kind))
    return [[names.index(name) for name in own.zero] for own in _TERMS.get(kind, ())]


def idle(kind: type[Record], values: Sequence[Value]) -> tuple[bool, ...]:
    """Which of the terms of a kind of record are 0 in a row; ``values`` are those of its fields."""
    return tuple([not any(values[at] for at in own) for own in _places(kind)])


def without(kind: type[Record], lines: Mapping[str, Q], left_out: Sequence[bool]) -> dict[str, Q]:
    """The lines of a kind of record without the terms that are ``left_out``."""
    made = dict(lines)
    for own, out in zip(_TERMS.get(kind, ()), left_out, strict=True):
        if out:
            made = {
                name: _shortened(q, own) for name, q in made.items() if name not in own.zero and name not in own.beside
            }
    return made


def _shortened(q: Q, own: Idle) -> Q:
    formula = q.formula
    for term, left in own.terms:
        formula = formula.replace(term, left)
    if formula.startswith("(") and formula != q.formula:
        formula = formula[1:-1]
    return replace(q, formula=formula)
