"""Section of a lipped channel strut, single or two back to back: rectangles, less what rounded corners lack.

The back lies at the bottom, ``b`` wide; two sides stand on it, ``h`` high over all; at the open face each turns in
by the lip ``d_lip`` and may turn once more, towards the back, by ``d_return``. All dimensions are outside ones, ``t``
is the wall everywhere, ``r`` the inner radius of all corners. y runs from the outer face of the back to the open face;
x is the axis through the centroid parallel to the back, about which a trapeze bar bends that is loaded on its open or
closed side. Two back to back have their axis where the backs touch and act as one (that they are joined for it is for
the bar's design to show).

With r = 0 all corners are sharp. That is too strong: a strut of 1-5/8 in and 0.105 in with r = t has 5 % less area and
11 % less S_x than with sharp corners (by a finite-element library, in a test). A corner lacks the square of its outer
radius outside the arc and gains that of its inner one: area (1 - pi/4) r^2, centroid 0.2234 r from the faces, moment of
inertia 0.00755 r^4.

Slots in the back are deducted over its whole length by their width for strength and stiffness, and not for the weight.
The whole section is taken as effective: no local buckling of thin walls, no torsion. A maker's figures are better where
they are known. Units: in, lbf/ft3 (490 for steel), lbf/ft.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record

_CLAUSE = "geometry"
_K = (10.0 - 3.0 * np.pi) / (12.0 - 3.0 * np.pi)
_I = 1.0 - 5.0 * np.pi / 16.0 - (10.0 - 3.0 * np.pi) ** 2 / (36.0 * (4.0 - np.pi))


@record
class ChannelSection(Record):
    """Area, centroid, moments of inertia, section moduli and weight of each strut."""

    TITLE: ClassVar[str] = "Section of a strut"
    AXIS: ClassVar[Axis] = Axis.LOAD

    b: Annotated[Floats, given("b", "in")]
    h: Annotated[Floats, given("h", "in")]
    t: Annotated[Floats, given("t", "in")]
    d_lip: Annotated[Floats, given("d_lip", "in")]
    d_return: Annotated[Floats, given("d_return", "in")]
    r: Annotated[Floats, given("r", "in")]
    b_slot: Annotated[Floats, given("b_slot", "in")]
    back_to_back: Annotated[Bools, given("two back to back")]
    rho: Annotated[Floats, given("ρ", "lbf/ft**3")]
    h_side: Annotated[Floats, formula("h_side", "in", "h - 2*t", clause=_CLAUSE)]
    h_return: Annotated[Floats, formula("h_return", "in", "max(d_return - t, 0)", clause=_CLAUSE)]
    n_lip: Annotated[Floats, formula("corners to lips", "", "where(d_lip > t, 2, 0)", clause=_CLAUSE)]
    n_return: Annotated[Floats, formula("corners to returns", "", "where(d_return > t, 2, 0)", clause=_CLAUSE)]
    r_o: Annotated[Floats, formula("r_o", "in", "where(r > 0, r + t, 0)", clause=_CLAUSE)]
    a_o: Annotated[Floats, formula("A_o", "in**2", "(1 - pi/4)*r_o**2", clause=_CLAUSE)]
    a_i: Annotated[Floats, formula("A_i", "in**2", "(1 - pi/4)*r**2", clause=_CLAUSE)]
    c_o: Annotated[Floats, formula("c_o", "in", "(10 - 3*pi)/(12 - 3*pi)*r_o", clause=_CLAUSE)]
    c_i: Annotated[Floats, formula("c_i", "in", "t + (10 - 3*pi)/(12 - 3*pi)*r", clause=_CLAUSE)]
    i_corner: Annotated[
        Floats,
        formula(
            "I of a corner",
            "in**4",
            "(1 - 5*pi/16 - (10 - 3*pi)**2/(36*(4 - pi)))*(r_o**4 - r**4)",
            clause=_CLAUSE,
        ),
    ]
    a_back: Annotated[Floats, formula("A_back", "in**2", "(b - b_slot)*t", clause=_CLAUSE)]
    a_side: Annotated[Floats, formula("A_side", "in**2", "h_side*t", clause=_CLAUSE)]
    a_lip: Annotated[Floats, formula("A_lip", "in**2", "d_lip*t", clause=_CLAUSE)]
    a_return: Annotated[Floats, formula("A_return", "in**2", "h_return*t", clause=_CLAUSE)]
    n_open: Annotated[Floats, formula("corners at the open face", "", "n_lip + n_return", clause=_CLAUSE)]
    a_1: Annotated[
        Floats,
        formula("A_1", "in**2", "a_back + 2*(a_side + a_lip + a_return) - (2 + n_open)*(a_o - a_i)", clause=_CLAUSE),
    ]
    y_return: Annotated[Floats, formula("y_return", "in", "h - t - h_return/2", clause=_CLAUSE)]
    y_1: Annotated[
        Floats,
        formula(
            "y_1",
            "in",
            "(a_back*t/2 + 2*(a_side*h/2 + a_lip*(h - t/2) + a_return*y_return) - 2*(a_o*c_o - a_i*c_i)"
            " - n_open*(a_o*(h - c_o) - a_i*(h - c_i)))/a_1",
            clause=_CLAUSE,
        ),
    ]
    i_own: Annotated[
        Floats,
        formula(
            "I of the parts",
            "in**4",
            "(a_back*t**2 + 2*(a_side*h_side**2 + a_lip*t**2 + a_return*h_return**2))/12 - (2 + n_open)*i_corner",
            clause=_CLAUSE,
        ),
    ]
    i_1: Annotated[
        Floats,
        formula(
            "I_1",
            "in**4",
            "i_own + a_back*(y_1 - t/2)**2"
            " + 2*(a_side*(h/2 - y_1)**2 + a_lip*(h - t/2 - y_1)**2 + a_return*(y_return - y_1)**2)"
            " - 2*(a_o*(y_1 - c_o)**2 - a_i*(y_1 - c_i)**2)"
            " - n_open*(a_o*(h - c_o - y_1)**2 - a_i*(h - c_i - y_1)**2)",
            clause=_CLAUSE,
        ),
    ]
    area: Annotated[Floats, formula("A", "in**2", "where(back_to_back, 2*a_1, a_1)", clause=_CLAUSE)]
    i_x: Annotated[Floats, formula("I_x", "in**4", "where(back_to_back, 2*(i_1 + a_1*y_1**2), i_1)", clause=_CLAUSE)]
    y_back: Annotated[Floats, formula("y to the back", "in", "where(back_to_back, h, y_1)", clause=_CLAUSE)]
    y_open: Annotated[Floats, formula("y to the open face", "in", "where(back_to_back, h, h - y_1)", clause=_CLAUSE)]
    s_back: Annotated[Floats, formula("S_x, back", "in**3", "i_x/y_back", clause=_CLAUSE)]
    s_open: Annotated[Floats, formula("S_x, open face", "in**3", "i_x/y_open", clause=_CLAUSE)]
    s_x: Annotated[Floats, formula("S_x", "in**3", "min(s_back, s_open)", clause=_CLAUSE)]
    i_y_1: Annotated[
        Floats,
        formula(
            "I_y,1",
            "in**4",
            "t*(b**3 - b_slot**3)/12 + (a_side + a_return)*t**2/6 + a_lip*d_lip**2/6 - (2 + n_open)*i_corner"
            " + 2*(a_side*(b/2 - t/2)**2 + a_lip*(b/2 - d_lip/2)**2 + a_return*(b/2 - d_lip + t/2)**2)"
            " - (2 + n_lip)*(a_o*(b/2 - c_o)**2 - a_i*(b/2 - c_i)**2)"
            " - n_return*(a_o*(b/2 - d_lip + c_o)**2 - a_i*(b/2 - d_lip + c_i)**2)",
            clause=_CLAUSE,
        ),
    ]
    i_y: Annotated[Floats, formula("I_y", "in**4", "where(back_to_back, 2*i_y_1, i_y_1)", clause=_CLAUSE)]
    a_gross: Annotated[
        Floats,
        formula(
            "A, slots not deducted", "in**2", "where(back_to_back, area + 2*b_slot*t, area + b_slot*t)", clause=_CLAUSE
        ),
    ]
    w: Annotated[Floats, formula("w", "lbf/ft", "rho*a_gross/144", clause=_CLAUSE, coefficient="ft**2/in**2")]


def channel_section(
    *,
    b: Floats,
    h: Floats,
    t: Floats,
    d_lip: Floats,
    d_return: Floats,
    r: Floats,
    b_slot: Floats,
    back_to_back: Bools,
    rho: Floats,
) -> ChannelSection:
    """Section of each strut, every array (n,), in and lbf/ft3.

    The caller excludes what is no section: 0 < 2 t < b and h; ``d_lip`` t for a plain channel, else from t + r to b/2
    (2 t + 2 r at least with returns); ``d_return`` 0 for none, else from t + r to h - t; ``b_slot`` from 0 to below b -
    2 t - 2 r, the width of slots along the middle of the back. Source: rectangles and circles, parallel-axis theorem.
    """
    h_side, h_return = h - 2.0 * t, np.maximum(d_return - t, 0.0)
    n_lip, n_return = np.where(d_lip > t, 2.0, 0.0), np.where(d_return > t, 2.0, 0.0)
    n_open = n_lip + n_return
    r_o = np.where(r > 0.0, r + t, 0.0)
    a_o, a_i, i_corner = (1.0 - np.pi / 4.0) * r_o**2, (1.0 - np.pi / 4.0) * r**2, _I * (r_o**4 - r**4)
    c_o, c_i = _K * r_o, t + _K * r
    a_back, a_side, a_lip, a_return = (b - b_slot) * t, h_side * t, d_lip * t, h_return * t
    a_1 = a_back + 2.0 * (a_side + a_lip + a_return) - (2.0 + n_open) * (a_o - a_i)
    y_return = h - t - h_return / 2.0
    walls = a_back * t / 2.0 + 2.0 * (a_side * h / 2.0 + a_lip * (h - t / 2.0) + a_return * y_return)
    y_1 = (walls - 2.0 * (a_o * c_o - a_i * c_i) - n_open * (a_o * (h - c_o) - a_i * (h - c_i))) / a_1
    own = (a_back * t**2 + 2.0 * (a_side * h_side**2 + a_lip * t**2 + a_return * h_return**2)) / 12.0
    i_own = own - (2.0 + n_open) * i_corner
    apart = a_side * (h / 2.0 - y_1) ** 2 + a_lip * (h - t / 2.0 - y_1) ** 2 + a_return * (y_return - y_1) ** 2
    at_back = a_o * (y_1 - c_o) ** 2 - a_i * (y_1 - c_i) ** 2
    at_open = a_o * (h - c_o - y_1) ** 2 - a_i * (h - c_i - y_1) ** 2
    i_1 = i_own + a_back * (y_1 - t / 2.0) ** 2 + 2.0 * apart - 2.0 * at_back - n_open * at_open
    area = np.where(back_to_back, 2.0 * a_1, a_1)
    i_x = np.where(back_to_back, 2.0 * (i_1 + a_1 * y_1**2), i_1)
    y_back, y_open = np.where(back_to_back, h, y_1), np.where(back_to_back, h, h - y_1)
    s_back, s_open = i_x / y_back, i_x / y_open
    own_y = t * (b**3 - b_slot**3) / 12.0 + (a_side + a_return) * t**2 / 6.0 + a_lip * d_lip**2 / 6.0
    tip = b / 2.0 - d_lip
    apart_y = a_side * (b / 2.0 - t / 2.0) ** 2 + a_lip * (b / 2.0 - d_lip / 2.0) ** 2 + a_return * (tip + t / 2.0) ** 2
    at_side = a_o * (b / 2.0 - c_o) ** 2 - a_i * (b / 2.0 - c_i) ** 2
    at_tip = a_o * (tip + c_o) ** 2 - a_i * (tip + c_i) ** 2
    i_y_1 = own_y - (2.0 + n_open) * i_corner + 2.0 * apart_y - (2.0 + n_lip) * at_side - n_return * at_tip
    a_gross = area + np.where(back_to_back, 2.0, 1.0) * b_slot * t
    return ChannelSection(
        b=b,
        h=h,
        t=t,
        d_lip=d_lip,
        d_return=d_return,
        r=r,
        b_slot=b_slot,
        back_to_back=back_to_back,
        rho=rho,
        h_side=h_side,
        h_return=h_return,
        n_lip=n_lip,
        n_return=n_return,
        r_o=r_o,
        a_o=a_o,
        a_i=a_i,
        c_o=c_o,
        c_i=c_i,
        i_corner=i_corner,
        a_back=a_back,
        a_side=a_side,
        a_lip=a_lip,
        a_return=a_return,
        n_open=n_open,
        a_1=a_1,
        y_return=y_return,
        y_1=y_1,
        i_own=i_own,
        i_1=i_1,
        area=area,
        i_x=i_x,
        y_back=y_back,
        y_open=y_open,
        s_back=s_back,
        s_open=s_open,
        s_x=np.minimum(s_back, s_open),
        i_y_1=i_y_1,
        i_y=np.where(back_to_back, 2.0 * i_y_1, i_y_1),
        a_gross=a_gross,
        w=rho * a_gross / 144.0,
    )
