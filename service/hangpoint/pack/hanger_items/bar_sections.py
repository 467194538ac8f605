"""Sections of trapeze bars from their dimensions: weight per foot, section modulus, moment of inertia.

A roll-formed strut has rounded corners: where no inner radius is stated, that of one wall thickness is taken for
strength and stiffness. The weight is that with sharp corners. Both are on the safe side. Steel of 490 lb/ft3.
"""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.loads.pipe_sizes import MATERIALS
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.statics.channel_section import channel_section
from hangpoint.pack.hanger_items.notes import flaw_where
from hangpoint.pack.pull import Rows, out_of_range
from hangpoint.units import LENGTH

_ROUNDING = 1e-9
_WIDTH, _HEIGHT, _THICKNESS = 2.0, 2.0, 0.1
"""Of a neutral section."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarSections:
    """Weight lb/ft, lesser section modulus in3, moment of inertia in4; 1 where no section is stated.

    ``radius_assumed`` where a section states no inner radius.
    """

    w: Floats
    s_x: Floats
    i_x: Floats
    radius_assumed: Bools


def bar_sections(bar: Rows, checked: Bools) -> BarSections:
    """Sections of the bars that state one.

    Flaws: a wall too thick for its corners, a lip between plain and rounded or wider than half, a return without a lip
    or without room, a slot as wide as the back; a quantity out of range.
    """
    places: list[int] = np.flatnonzero(checked).tolist()
    section = bar.taken(places).child("section")
    b, h, t = (
        section.quantity(name, LENGTH, fill=neutral)
        for name, neutral in (("width", _WIDTH), ("height", _HEIGHT), ("thickness", _THICKNESS))
    )
    d_lip, b_slot = section.quantity("lip", LENGTH), section.quantity("slot", LENGTH, fill=0.0)
    plain = np.isnan(d_lip) | (np.abs(d_lip - t) <= _ROUNDING * t)
    d_lip = np.where(plain, t, d_lip)
    radius = section.quantity("inner_radius", LENGTH)
    assumed = np.isnan(radius)
    radius = np.where(assumed, t, radius)
    d_return = section.quantity("lip_return", LENGTH, fill=0.0)
    sound = _sound(section, b=b, h=h, t=t, r=radius, d_lip=d_lip, d_return=d_return, b_slot=b_slot)
    sound &= ~np.any([out_of_range(each, LENGTH) for each in (b, h, t, radius)], axis=0)
    t = np.where(sound, t, _THICKNESS)
    shape = {
        "b": np.where(sound, b, _WIDTH),
        "h": np.where(sound, h, _HEIGHT),
        "t": t,
        "d_lip": np.where(sound, d_lip, t),
        "d_return": np.where(sound, d_return, 0.0),
        "b_slot": np.where(sound, b_slot, 0.0),
        "rho": np.full(len(section), MATERIALS["steel"]),
    }
    back_to_back = section.true("back_to_back")
    rounded = channel_section(r=np.where(sound, radius, t), back_to_back=back_to_back, **shape)
    sharp = channel_section(r=np.zeros(len(section)), back_to_back=back_to_back, **shape)
    w, s_x, i_x = (np.ones(len(bar)) for _ in range(3))
    w[places], s_x[places], i_x[places] = sharp.w, rounded.s_x, rounded.i_x
    radius_assumed = np.zeros(len(bar), dtype=np.bool_)
    radius_assumed[places] = assumed
    return BarSections(w=w, s_x=s_x, i_x=i_x, radius_assumed=radius_assumed)


def _sound(
    section: Rows,
    *,
    b: Floats,
    h: Floats,
    t: Floats,
    r: Floats,
    d_lip: Floats,
    d_return: Floats,
    b_slot: Floats,
) -> Bools:
    """Where the dimensions make a section; flaws elsewhere."""
    corner = t + r
    thick = (2 * corner >= b) | (2 * corner >= h)
    least_lip = np.where(d_return > 0, 2 * corner, corner) * (1 - _ROUNDING)
    turned = d_return > 0
    bad = {
        "thickness": (
            thick,
            "Wall and inner radius of two corners leave nothing of the width or height: this is no strut.",
        ),
        "lip": (
            ~thick & (d_lip != t) & ((d_lip < least_lip) | (2 * d_lip > b * (1 + _ROUNDING))),
            "A lip is at least as wide as its corners and at most half of the width; a plain channel states none.",
        ),
        "lip_return": (
            ~thick & turned & ((d_lip == t) | (d_return < corner * (1 - _ROUNDING)) | (d_return > h - t)),
            "A return goes with a lip, is at least as deep as its corner and ends above the back.",
        ),
        "slot": (b_slot >= b - 2 * corner, "The slot is not narrower than the flat part of the back."),
    }
    for name, (holds, detail) in bad.items():
        flaw_where(
            section, holds & ~(bad["thickness"][0] & (name != "thickness")), name, detail, slug="impossible-geometry"
        )
    return ~np.logical_or.reduce([holds for holds, _ in bad.values()])
