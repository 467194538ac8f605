"""Items of a batch as columns of the core, or the flaws that keep an item out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hang_point.allowables import CHAPTER_17, TABLE, Allowables
from hangpoint.core.hang_point.points import PIPE, Bases, Points, Rods
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.hang_point.surroundings import BASE_KINDS, MASONRY
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.allowables import pack_allowables
from hangpoint.pack.anchor_assumptions import OF_THE_CODE, product_assumptions, shear_assumptions
from hangpoint.pack.anchors import PackedAnchors, open_anchors, pack_anchors
from hangpoint.pack.base_kinds import FACE_UNSTATED, anchored, base_kinds, in_concrete
from hangpoint.pack.bond_choice import with_weakest_bonds
from hangpoint.pack.decks import pack_decks
from hangpoint.pack.facing import pack_facing
from hangpoint.pack.fasteners import FastenersFixed, fastener_assumptions, pack_fasteners, psi0_silent
from hangpoint.pack.fires import fire_assumptions, pack_fires
from hangpoint.pack.fixings import pack_fixings
from hangpoint.pack.flags import Flags, bits_of
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.geometry import Placed, geometry_flaws
from hangpoint.pack.groups import group_assumptions, shear_of, tension_of
from hangpoint.pack.hangs import PackedHangs, pack_hangs
from hangpoint.pack.labels import Labels, pack_labels
from hangpoint.pack.plates import pack_plates
from hangpoint.pack.pull import Object, Rows, filled, places
from hangpoint.pack.rods import LOAD_RULES, ROD_RULES, stated_rods
from hangpoint.pack.strengths import in_psi, specified_strength, strength_class
from hangpoint.pack.surroundings import (
    OF_BREAKOUT,
    OF_THE_ANCHOR,
    pack_environments,
    pack_surroundings,
)
from hangpoint.pack.unstated_loads import unstated_loads
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import AREA, LENGTH, STRESS, System

LAMBDA = {"normalweight": 1.0, "sand_lightweight": 0.85, "all_lightweight": 0.75}
"""lambda of ACI 318-19 19.2.4 by the composition of the aggregate."""

_LAMBDAS = np.array(list(LAMBDA.values()))
_DENSITY_CODES = {name: code for code, name in enumerate(LAMBDA)}
_STATES = {"cracked": 1, "uncracked": 0}
_EDGE_REINFORCEMENT = {"none": 0, "edge_bar": 1, "edge_bar_and_stirrups": 2}
_FACES = {"soffit": 0, "side": 1, "top": 2}
_FACE_UNSTATED = np.array([_FACES[FACE_UNSTATED[name]] for name in BASE_KINDS], dtype=np.int8)
_CATEGORIES = {name: code for code, name in enumerate("ABCDEF")}
_EDGE_DISTANCES = {
    name: f'The edge distance on the side {name}, or "none" where no edge is within reach,' for name in EDGES
}
_ROUNDING = 1e-9
"""Of a conversion: 82.55 mm and 3-1/4 in are one length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """A batch in columns: ``index`` is the row in the request of each point, ``inline`` its products stated inline."""

    points: Points
    index: Sequence[int]
    labels: Labels
    inline: Mapping[int, Any]
    assumptions: Flags
    not_checked: Flags


def pack_points(
    objects: Sequence[Object],
    *,
    default: Mapping[str, Any],
    index: Sequence[int],
    system: System,
    catalogue: Catalogue,
    factored: bool,
    flaws: Flaws,
    allowable: bool = False,
    chosen: bool = True,
    by_en: bool = False,
) -> Packed:
    """Read every place of every item.

    Args:
        objects: items that have passed the schema.
        default: the defaults of the request.
        index: row in the request of each item.
        system: unit system of bare numbers.
        catalogue: products by address.
        factored: direct forces are factored loads.
        allowable: the request asks for allowable combinations.
        chosen: False: the products are still to be chosen, and what is assumed of them isn't said.
        by_en: the points go by EN 1992-4.
        flaws: takes what is wrong; if it takes anything the columns hold neutral numbers there and are not to be used.
    """
    count = len(objects)
    items = Rows(objects, default=default, path="", index=index, local=range(count), system=system, flaws=flaws)
    assumptions, not_checked = Flags(Assumption, count), Flags(NotChecked, count)
    not_checked.set(_NEVER_CHECKED)
    hangs = pack_hangs(items, factored=factored, assumptions=assumptions, not_checked=not_checked, by_en=by_en)
    kinds = base_kinds(items.child("base"))
    solid = anchored(kinds)
    needed = solid if chosen else None
    anchors = (pack_anchors if chosen else open_anchors)(
        items, catalogue=catalogue, needed=needed, assumptions=assumptions
    )
    plates = pack_plates(items.child("attachment"))
    fixings = pack_fixings(items, on_grout=plates.on_grout, gap=plates.gap)
    not_checked.set(NotChecked.PLATE, plates.plates.stated)
    rods = _rods(items, hangs, factored=factored, assumptions=assumptions, not_checked=not_checked)
    f_ck_class = strength_class(items.child("base"), kinds) if by_en else None
    bases = _bases(items, anchors.products.h_ef, kinds, f_ck_class, assumptions=assumptions)
    anchors = with_weakest_bonds(anchors, bases)
    fasteners = pack_fasteners(items, anchors, rods, f_ck_class=f_ck_class, cracked=bases.cracked)
    labels = pack_labels(items, anchors, facing=pack_facing(items, bases.face))
    unstated_loads(items, hangs, bases, factored=factored, not_checked=not_checked)
    not_checked.set(NotChecked.BARS_OF_ANCHOR, (bases.a_s_n > 0) | (bases.a_s_v > 0))
    decks, products = pack_decks(
        items, kinds, anchors.table, anchors.products, anchors.layouts, plates.plates, thickness=bases.thickness
    )
    surroundings = pack_surroundings(items, kinds, anchors.table, assumptions)
    environments = pack_environments(items, kinds, anchors.table, assumptions)
    fires = pack_fires(items, environments, by_en=by_en)
    if chosen:
        product_assumptions(
            anchors.table,
            products,
            bases,
            assumptions,
            by_formula=~decks.in_deck,
            pulled=tension_of(hangs.hangs, hangs.forces.given),
        )
    assumptions.set(Assumption.DECK_BY_TESTS, decks.tested)
    sheared = shear_of(hangs.hangs, hangs.forces.given, anchors.layouts)
    shear_assumptions(items, sheared, anchors.table, products, bases, assumptions)
    group_assumptions(items, anchors.layouts, plates, bases, sheared, assumptions)
    if fasteners is not None:
        allowables = None
        assumptions.clear(OF_THE_CODE)
        silent = psi0_silent(anchors.table)
        fixed = FastenersFixed(fasteners, fixings, plates.plates, sheared.any_axis, silent)
        fastener_assumptions(items, hangs, fixed, assumptions)
        if fires is not None:
            fire_assumptions(fires, bases, hangs.forces.given, assumptions, not_checked)
    else:
        allowables = pack_allowables(
            items, kinds, bases, anchors, chosen=chosen, allowable=allowable, factored=factored, assumptions=assumptions
        )
        if allowables is not None and chosen:
            _by_allowables(items, allowables, rods, anchors, assumptions=assumptions)
    placed = Placed(layouts=anchors.layouts, plates=plates.plates, bases=bases, products=products)
    geometry_flaws(items, placed, hangs)
    assumptions.clear(OF_THE_ANCHOR, ~solid)
    assumptions.clear(OF_BREAKOUT, decks.in_deck)
    return Packed(
        points=Points(
            count=count,
            hangs=hangs.hangs,
            given=hangs.forces.given,
            given_names=hangs.forces.names,
            runs=hangs.runs,
            loads=hangs.loads,
            rods=rods,
            bases=bases,
            fixings=fixings,
            bonds=anchors.bonds,
            products=products,
            decks=decks,
            surroundings=surroundings,
            environments=environments,
            layouts=anchors.layouts.layouts,
            plates=plates.plates,
            allowables=allowables,
            apart=hangs.forces.apart,
            fasteners=fasteners,
            fires=fires,
        ),
        index=index,
        labels=labels,
        inline=anchors.inline,
        assumptions=assumptions,
        not_checked=not_checked,
    )


_NEVER_CHECKED = bits_of(
    NotChecked.HARDWARE,
    NotChecked.NEIGHBOURS,
    NotChecked.MEMBER,
    NotChecked.OWN_WEIGHT,
    NotChecked.REINFORCEMENT,
    NotChecked.FIRE,
)


def _by_allowables(
    items: Rows,
    allowables: Allowables,
    rods: Rods,
    anchors: PackedAnchors,
    *,
    assumptions: Flags,
) -> None:
    """What is assumed or contradictory where chapter 17 isn't the method."""
    other = allowables.method != CHAPTER_17
    assumptions.clear(OF_THE_CODE, other)
    assumptions.set(Assumption.ANCHORS_ALONE, (allowables.method == TABLE) & anchors.layouts.several)
    by_strength = other & ~allowables.by_strength & (rods.rule == ROD_RULES["tensile_strength"])
    for at in places(by_strength):
        items.child("rod").flaw(
            at,
            "rule",
            "This point goes by allowable loads: name a rule for the rod that does as well.",
            code="contradiction",
            allowed=[name for name in RULE_NAMES if name != "tensile_strength"],
        )


def _rods(items: Rows, hangs: PackedHangs, *, factored: bool, assumptions: Flags, not_checked: Flags) -> Rods:
    rod = items.child("rod")
    read = stated_rods(rod)
    sprinkler, rule = hangs.hangs.sprinkler, read.rule
    for at in places(read.by_table & ~sprinkler):
        rod.flaw(
            at,
            "rule",
            "The size table is for sprinkler lines; for any other load name a rule that checks the load.",
            code="contradiction",
            allowed=LOAD_RULES,
        )
    assumptions.set(Assumption.ROD_RULE, read.by_default)
    by_strength = rule == ROD_RULES["tensile_strength"]
    assumptions.set(Assumption.ROD_MATERIAL, by_strength & ~read.graded)
    ruled = hangs.hangs.transient[:, 0, TRANSIENT.index("sprinkler_rule")] > 0
    not_checked.set(NotChecked.ROD_SPRINKLER_RULE, ruled & read.allowable)
    not_checked.set(NotChecked.ROD, ~read.stated)
    not_checked.set(NotChecked.ROD_SIZE, read.stated & (hangs.hangs.kind == PIPE) & ~sprinkler)
    if factored:
        not_checked.set(NotChecked.ROD_SERVICE_LOAD, read.allowable)
    return Rods(
        rule=rule,
        size_table=read.stated & sprinkler,
        d=read.d,
        pitch=read.pitch,
        k_root=read.k_root,
        k_stress=read.k_stress,
        f_u=read.f_u,
    )


def _bases(items: Rows, h_ef: Floats, kinds: Codes, f_ck_class: Floats | None, *, assumptions: Flags) -> Bases:
    """What carries the anchors; of each kind only what goes with it is required."""
    base = items.child("base")
    concrete = in_concrete(kinds)
    stated = base.codes("density", _DENSITY_CODES, what="The density class of the concrete", absent=0, where=concrete)
    density = stated * concrete
    lightweight = density > 0
    solid = anchored(kinds)
    thickness = base.quantity("thickness", LENGTH, what="The thickness of the member", fill=np.inf, where=solid)
    edges = base.child("edges")
    c_a = np.empty((len(items), len(EDGES)))
    for side, name in enumerate(EDGES):
        c_a[:, side] = edges.quantity(name, LENGTH, what=_EDGE_DISTANCES[name], fill=1.0, where=solid)
    c_a[~solid] = np.inf
    too_deep = h_ef >= thickness * (1 - _ROUNDING)
    for at in places(too_deep & (thickness > 0) & solid) if np.count_nonzero(too_deep) else ():
        items.flaw(
            at,
            "anchor/h_ef",
            "The embedment reaches or passes the far face of the member.",
            slug="impossible-geometry",
        )
    asked = "" if f_ck_class is not None else "The seismic design category"
    seismic = items.child("seismic").codes("category", _CATEGORIES, what=asked, absent=0, where=solid)
    (a_s_n, f_y_n), (a_s_v, f_y_v) = (_reinforcement(base, name) for name in ("tension", "shear"))
    assumptions.set(Assumption.NO_SUPPLEMENTARY, base.silent("supplementary"))
    face = base.codes("face", _FACES)
    silent = face < 0
    assumptions.set(Assumption.OVERHEAD, silent & (kinds != MASONRY))
    return Bases(
        f_c=specified_strength(base, kinds, assumptions) if f_ck_class is None else in_psi(f_ck_class),
        lightweight=lightweight,
        lambda_c=_lambda(base, density, lightweight, concrete, assumptions),
        cracked=_cracked(base, concrete, assumptions),
        thickness=thickness,
        c_a=c_a,
        supplementary=base.true("supplementary"),
        edge_reinforcement=base.codes("edge_reinforcement", _EDGE_REINFORCEMENT, absent=0),
        a_s_n=a_s_n,
        f_y_n=f_y_n,
        a_s_v=a_s_v,
        f_y_v=f_y_v,
        face=np.where(silent, _FACE_UNSTATED[kinds], face),
        category=seismic,
    )


def _reinforcement(base: Rows, direction: str) -> tuple[Floats, Floats]:
    """Area and yield strength of anchor reinforcement, zeros where none is stated."""
    if not base.gives("anchor_reinforcement"):
        nothing = filled(len(base), 0.0)
        return nothing, nothing
    bars = base.child("anchor_reinforcement").child(direction)
    area, f_y = bars.quantity("area", AREA, fill=0.0), bars.quantity("f_y", STRESS, fill=0.0)
    for at in places((area > 0) != (f_y > 0)):
        lacking = "f_y" if area[at] > 0 else "area"
        bars.flaw(at, lacking, f"Anchor reinforcement needs its {lacking} as well.", code="missing")
    return area, f_y


def _lambda(
    base: Rows, density: np.ndarray[Any, Any], lightweight: Bools, concrete: Bools, assumptions: Flags
) -> Floats:
    by_density = _LAMBDAS[density]
    if not base.gives("lambda"):
        assumptions.set(Assumption.LAMBDA, lightweight)
        return by_density
    own = np.where(concrete, base.numbers("lambda", np.nan), np.nan)
    for at in places(~lightweight & (own < 1)):
        base.flaw(
            at,
            "lambda",
            "lambda below 1 is for lightweight concrete; the density says normalweight.",
            code="contradiction",
        )
    silent = np.isnan(own)
    assumptions.set(Assumption.LAMBDA, lightweight & silent)
    return np.where(silent, by_density, own)


def _cracked(base: Rows, concrete: Bools, assumptions: Flags) -> Bools:
    state = np.where(concrete, base.codes("state", _STATES), 1)
    assumptions.set(Assumption.CRACKED, state < 0)
    uncracked = places(state == 0)
    decided = base.values("state_decided_by") if uncracked else ()
    for at in uncracked:
        if decided[at] is None:
            base.flaw(
                at,
                "state_decided_by",
                "Uncracked concrete needs who decided it, for instance the engineer of record.",
                code="missing",
            )
    return state != 0
