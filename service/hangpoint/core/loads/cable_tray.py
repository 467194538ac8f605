"""Weight of cable tray per foot of run, and the load classes of NEMA VE 1.

A class is a span in feet and a letter: A, B, C for a working load of 50, 75, 100 lb/ft on spans of 8, 12, 16, 20 ft,
which the tray carries with a factor of 1.5 to its destruction. It says what the tray can hold, not what lies in it: the
class load is taken where no list of cables is given, since someone may fill the tray to it. The class's span is the
tray's limit and doesn't change the load where hangers stand closer. The tray's own weight isn't in the class; 2 to 8
lb/ft is usual (from memory) and it must be given.

A concentrated static load P counts in the standard as a uniform load of 2 P / span, which replaces the bending moment
of P at midspan. It stands on every span between hangers, so that a span that is shorter than the stated one has 2 P
over its own length: a hanger between two spans takes 2 P, at the end of a run P. That is what one P on each span, close
to the hanger, can bring there; as a point load on the run P counts once. ``w_static`` is that of the stated span.
Units: lbf/ft, lbf, ft.
"""

from typing import Annotated, ClassVar, NamedTuple

from hangpoint.core.quantity import Axis, Floats, Record, formula, given, record


class TrayClass(NamedTuple):
    """Working load in lb/ft and span in ft of a load class."""

    load: float
    span: float


TRAY_CLASSES: dict[str, TrayClass] = {
    f"{span}{letter}": TrayClass(load, float(span))
    for span in (8, 12, 16, 20)
    for letter, load in (("A", 50.0), ("B", 75.0), ("C", 100.0))
}
"""Load classes of NEMA VE 1 by name."""


def tray_class(name: str) -> TrayClass | None:
    """The load class of that name, or None where the standard has none."""
    return TRAY_CLASSES.get(name)


@record
class TrayWeight(Record):
    """Weight per foot of a cable tray with what lies in it, and its concentrated static load as a live one."""

    TITLE: ClassVar[str] = "Weight of cable tray and cables"
    AXIS: ClassVar[Axis] = Axis.LOAD

    w_tray: Annotated[Floats, given("w_tray", "lbf/ft")]
    w_class: Annotated[Floats, given("w_class", "lbf/ft", clause="NEMA VE 1")]
    w_cables: Annotated[Floats, given("w_cables", "lbf/ft")]
    w_dead: Annotated[Floats, formula("w_D", "lbf/ft", "w_tray + w_class + w_cables", clause="statics")]
    p_static: Annotated[Floats, given("P_static", "lbf")]
    l_span: Annotated[Floats, given("L_span", "ft")]
    w_static: Annotated[Floats, formula("w_static", "lbf/ft", "2*p_static/l_span", clause="NEMA VE 1")]


def tray_weight(*, w_tray: Floats, w_class: Floats, w_cables: Floats, p_static: Floats, l_span: Floats) -> TrayWeight:
    """Weight per foot of each tray, every array of shape (n,).

    ``w_tray`` the tray's own weight, ``w_class`` the load of its class, zero where cables are listed, ``w_cables`` the
    sum of the list, zero where there is none, in lbf/ft; ``p_static`` in lbf, zero where there is none; ``l_span`` > 0
    the distance of the hangers in ft.
    """
    return TrayWeight(
        w_tray=w_tray,
        w_class=w_class,
        w_cables=w_cables,
        w_dead=w_tray + w_class + w_cables,
        p_static=p_static,
        l_span=l_span,
        w_static=2.0 * p_static / l_span,
    )
