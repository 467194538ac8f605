"""The bases that the anchors of cards go into, with the least distances that a check takes there. Units: in.

In concrete they are those of the product's data and of 17.9.2, and of its tables where it has no other data; in a flute
those of its tests there, in masonry and planks those of its tables for the place. Those of a bolt that goes by formula
in grouted masonry leave room for grout.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hang_point.allowables import F_M_ASSUMED, MET
from hangpoint.core.hang_point.bolt_findings import FACE_SHELL, least_edge, least_spacing
from hangpoint.core.hang_point.layout_findings import spacing_within
from hangpoint.core.hang_point.surroundings import BASE_KINDS
from hangpoint.core.quantity import Bools, Floats
from hangpoint.pack.allowables import Place, bolts, table_data
from hangpoint.pack.anchors import PackedAnchors
from hangpoint.pack.base_kinds import FACE_UNSTATED
from hangpoint.pack.decks import LOWER, UPPER, in_flutes
from hangpoint.pack.pull import Rows
from hangpoint.pack.strengths import F_C_ASSUMED
from hangpoint.product.product_row import BASES
from hangpoint.units import LENGTH, OFFSET, STRESS

_TABLES = ("masonry", "hollow_core")
_BY_TABLE = BASES.index("allowable_table")
_OF_TABLES = {
    "edge": "c_least",
    "spacing": "s_least",
    "thickness": "h_least",
    "joint_distance": "joint_least",
    "face_shell": "shell_least",
    "cover": "cover_least",
    "strand_distance": "strand_least",
}
_STATED = {
    "thickness": ("", "thickness"),
    "joint_distance": ("masonry", "joint_distance"),
    "face_shell": ("masonry", "face_shell"),
    "cover": ("hollow_core", "cover"),
    "strand_distance": ("hollow_core", "strand_distance"),
    "flute_width": ("deck", "flute_width"),
    "fill": ("deck", "cover"),
    "sheet": ("deck", "sheet"),
}
"""Where an item states what a least distance is compared with: the object within its base, and the name."""
EDGES_STATED = ("edge x_minus", "edge x_plus", "edge y_minus", "edge y_plus")


@dataclass(frozen=True, slots=True, kw_only=True)
class CardBase:
    """One base: ``least`` distances by name, without those that nothing limits; ``offset`` is the most in a flute.

    ``lacking`` says why the data of the product don't hold there, empty where they do.
    """

    kind: str
    text: str
    least: tuple[tuple[str, float], ...] = ()
    offset: float | None = None
    one_a_cell: bool = False
    lacking: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardBases:
    """The base and face of each item, and what is ``stated`` of each by name, infinite where nothing is.

    Its ``spacing`` is that of the two nearest anchors of the layout.

    ``offset`` is that from the centre of a flute. ``kind_assumed`` and ``face_assumed``: some item is silent on it.
    """

    own: Sequence[CardBase]
    faces: Sequence[str]
    stated: Mapping[str, Floats]
    offset: Floats
    kind_assumed: bool
    face_assumed: bool


def card_bases(items: Rows, anchors: PackedAnchors) -> CardBases:
    """Read the bases of the items, as far as they are stated; a base of no kind is concrete.

    Flaws: quantities out of range.
    """
    base = items.child("base")
    kinds: list[str] = ["concrete" if kind is None else kind for kind in base.values("kind")]
    faces = [
        FACE_UNSTATED[kind] if face is None else face for kind, face in zip(kinds, base.values("face"), strict=True)
    ]
    stated = {
        name: (base.child(child) if child else base).quantity(field, LENGTH, fill=np.inf)
        for name, (child, field) in _STATED.items()
    }
    return CardBases(
        own=list(_bases(base, kinds, faces, anchors)),
        faces=faces,
        stated=stated | _edges(base, anchors) | {"spacing": spacing_within(anchors.layouts.layouts, count=len(base))},
        offset=np.abs(base.child("deck").quantity("offset", OFFSET, fill=0.0)),
        kind_assumed=bool(base.silent("kind").any()),
        face_assumed=bool(base.silent("face").any()),
    )


def _edges(base: Rows, anchors: PackedAnchors) -> dict[str, Floats]:
    """Each edge, or an open cell beside grouted ones, from the nearest anchor of the layout."""
    edges, masonry, layouts = base.child("edges"), base.child("masonry"), anchors.layouts.layouts
    grouted = np.array([units == "grouted" for units in masonry.values("units")], dtype=np.bool_)
    found: dict[str, Floats] = {}
    for side, shift in zip(EDGES_STATED, (layouts.x, -layouts.x, layouts.y, -layouts.y), strict=True):
        nearest, name = np.full(len(base), np.inf), side.split()[1]
        cell = np.where(grouted, masonry.quantity(f"open_{name}", LENGTH, fill=np.inf), np.inf)
        free = np.minimum(edges.quantity(name, LENGTH, fill=np.inf), cell)
        np.minimum.at(nearest, layouts.point, free[layouts.point] + shift)
        found[side] = nearest
    return found


def _bases(base: Rows, kinds: Sequence[str], faces: Sequence[str], anchors: PackedAnchors) -> Iterator[CardBase]:
    products, table = anchors.products, anchors.table
    stated = base.child("masonry").quantity("face_shell", LENGTH, fill=FACE_SHELL)
    shell = np.where(np.isinf(stated), FACE_SHELL, stated)
    flutes = base.child("deck").values("flute")
    in_deck = np.array([kind == "deck" for kind in kinds], dtype=np.bool_)
    flute = np.array([UPPER if own == "upper" else LOWER for own in flutes], dtype=np.int8)
    tests, in_flute = in_flutes(table, products, flute, in_deck)
    places = list(_places(base, kinds))
    by_formula = bolts(places, table)
    data = table_data([None if own else place for own, place in zip(by_formula.tolist(), places, strict=True)], table)
    of_concrete = table_data(list(_table_places(base, kinds, table.basis == _BY_TABLE)), table)
    for at, (kind, place) in enumerate(zip(kinds, places, strict=True)):
        if kind == "deck":
            tested = {
                "edge": in_flute.c_min[at],
                "spacing": in_flute.s_min[at],
                "flute_width": tests.width_min[at],
                "fill": tests.cover_min[at],
                "sheet": tests.sheet_min[at],
            }
            text = f"filled deck, {flutes[at] or 'flute not stated: as in the lower'}" + " flute" * bool(flutes[at])
            if not tests.tested[at]:
                yield CardBase(kind=kind, text=text, lacking="The data have no tests in this flute of a deck.")
            else:
                yield CardBase(kind=kind, text=text, least=_limits(tested), offset=float(tests.offset_max[at]))
        elif place is not None:
            text = _place_text(place)
            if by_formula[at]:
                d_b = products.d_a[at]
                between = shell[at] * (faces[at] != "side" and place.material == "concrete")
                limits = {
                    "edge": least_edge(d_b=d_b, c_min=products.c_min[at], shell=between),
                    "spacing": least_spacing(d_b=d_b, s_min=products.s_min[at]),
                }
                lacking = "" if place.location in ("face", "cell") else "A bolt is set in grout: there is none here."
                yield CardBase(kind=kind, text=f"{text}, by formula", least=_limits(limits), lacking=lacking)
            elif data.unmet[at] != MET:
                yield CardBase(
                    kind=kind, text=text, lacking="The data have no table of allowable loads for this place."
                )
            else:
                limits = {name: getattr(data, column)[at].max() for name, column in _OF_TABLES.items()}
                yield CardBase(kind=kind, text=text, least=_limits(limits), one_a_cell=bool(data.one_a_cell[at]))
        elif kind == "concrete":
            limits = {
                "edge": max(products.c_min[at], products.c_min_code[at], of_concrete.c_least[at].max()),
                "spacing": max(products.s_min[at], products.s_min_code[at], of_concrete.s_least[at].max()),
                "thickness": max(products.h_min[at], of_concrete.h_least[at].max()),
            }
            lacking = "" if products.concrete_allowed[at] else "The data are not for concrete."
            yield CardBase(kind=kind, text=kind, least=_limits(limits), lacking=lacking)
        else:
            yield CardBase(kind=kind, text=kind, lacking="What the anchor goes into is checked by nobody here.")


def _limits(limits: Mapping[str, Any]) -> tuple[tuple[str, float], ...]:
    return tuple((name, float(limit)) for name, limit in limits.items() if limit > 0)


def _places(base: Rows, kinds: Sequence[str]) -> Iterator[Place | None]:
    """Where each item is, as far as tables ask; None in other bases. What isn't stated is as a check takes it."""
    masonry, plank = base.child("masonry"), base.child("hollow_core")
    f_m = masonry.quantity("f_m", STRESS, fill=F_M_ASSUMED).tolist()
    f_c = base.child("strength").quantity("f_c", STRESS, fill=F_C_ASSUMED).tolist()
    units, material = masonry.values("units"), masonry.values("material")
    in_unit, in_plank = masonry.values("location"), plank.values("location")
    for at, kind in enumerate(kinds):
        if kind not in _TABLES:
            yield None
            continue
        own = kind == "masonry"
        yield Place(
            kind=BASE_KINDS.index(kind),
            units=units[at] or "" if own else "",
            material=material[at] or "" if own else "",
            location=in_unit[at] or "face" if own else in_plank[at] or "unknown",
            cracked=False,
            lightweight=False,
            f_base=f_m[at] if own else f_c[at],
        )


def _table_places(base: Rows, kinds: Sequence[str], by_table: Bools) -> Iterator[Place | None]:
    """Uncracked concrete of the products that only their tables hold for; None for all others."""
    f_c = base.child("strength").quantity("f_c", STRESS, fill=F_C_ASSUMED).tolist()
    for kind, own, density, strength in zip(kinds, by_table.tolist(), base.values("density"), f_c, strict=True):
        if kind != "concrete" or not own:
            yield None
            continue
        yield Place(
            kind=BASE_KINDS.index(kind),
            units="",
            material="",
            location="",
            cracked=False,
            lightweight=density not in (None, "normalweight"),
            f_base=strength,
        )


def _place_text(place: Place) -> str:
    if BASE_KINDS[place.kind] == "hollow_core":
        return f"hollow-core plank, {place.location}"
    return f"masonry, {' '.join(filter(None, (place.units, place.material))) or 'units not stated'}, {place.location}"
