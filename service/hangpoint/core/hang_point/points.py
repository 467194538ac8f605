"""Hang points as columns: everything that the chain reads, one row a point. Units: in, ft along a run, lbf, psi."""

from typing import Self

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.allowables import CHAPTER_17, FASTENER, Allowables
from hangpoint.core.hang_point.basis import Basis as Basis
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.fires import Fires
from hangpoint.core.hang_point.opposed import Apart
from hangpoint.core.hang_point.surroundings import Decks, Environments, Surroundings
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.rows import some

FORCES, WEIGHT, PIPE = 0, 1, 2
SOFFIT, SIDE, TOP = 0, 1, 2
NO_OPTION = -1
DUCTILE_STEEL, YIELDING, NON_YIELDING, OVERSTRENGTH = 0, 1, 2, 3
"""Options of 17.10.5.3; those of 17.10.6.3 are the last three."""
NO_ROD = -1
MOST_ANCHORS = 64
"""Anchors that one layout, or a group of neighbouring points, may have."""
NOT_QUALIFIED, IN_FIGURES, NOT_GOVERNING = 0, 1, 2
"""States of a pullout strength in the data of a product."""
BY_LAMBDA_A, TESTED, NOT_ALLOWED = 0, 1, 2
"""What the data of a product say of lightweight concrete: lambda_a on N_p, N_p tested there, not to be used there."""


@frozen
class Hangs(Columns):
    """What a point states directly as service loads by nature.

    ``dead``, ``contents``, ``live`` are service tensions, lbf; a pipe adds its reaction to them. Those with ``v_`` are
    shears, (points, 2) along x and y, those with ``m_`` moments about x, y and z, (points, 3), lbf*in, right-handed.
    ``at`` (points, 3) is where all direct forces act, in from the origin of the layout, z out of the base.
    ``transient`` (points, 6, natures) are the natures of `TRANSIENT`, each as tension, shear along x and y, moments
    about x, y and z; ``earthquake`` (points, 6) its horizontal effect, and ``s_ds`` S_DS, above 0
    also where only its vertical effect acts.
    """

    kind: Codes
    dead: Floats
    contents: Floats
    live: Floats
    v_dead: Floats
    v_contents: Floats
    v_live: Floats
    m_dead: Floats
    m_contents: Floats
    m_live: Floats
    at: Floats
    transient: Floats
    earthquake: Floats
    s_ds: Floats
    sprinkler: Bools

    def parts(self) -> list[tuple[Floats, Floats, Floats]]:
        """Tension (points,), shear (points, 2) and moments (points, 3) of each nature that any point has."""
        found = [
            (self.dead, self.v_dead, self.m_dead),
            (self.contents, self.v_contents, self.m_contents),
            (self.live, self.v_live, self.m_live),
        ]
        further = [self.earthquake, *(np.moveaxis(self.transient, 2, 0) if some(self.transient) else ())]
        return [*found, *((own[:, 0], own[:, 1:3], own[:, 3:]) for own in further if some(own))]


@frozen
class GivenLoads(Columns):
    """Factored loads as the request gives them: one row or more a point, rising, or none at all by nature.

    ``name`` is the index of the load case's name. ``n`` tension lbf, ``v`` (rows, 2) shear, ``m`` (rows, 3) moments
    lbf*in, acting where `Hangs.at` says, are all but earthquake; ``n_e``, ``v_e`` and ``m_e`` what that adds to them.
    ``sustained_fraction`` is of the load with it.
    """

    point: Index
    name: Index
    n: Floats
    v: Floats
    m: Floats
    n_e: Floats
    v_e: Floats
    m_e: Floats
    sustained_fraction: Floats

    @classmethod
    def none(cls, point: Index) -> Self:
        """Rows of these points without any load."""
        count, zero = len(point), np.zeros(len(point))
        shears, moments = np.zeros((count, 2)), np.zeros((count, 3))
        return cls(
            point=point,
            name=np.zeros(count, dtype=np.intp),
            n=zero,
            v=shears,
            m=moments,
            n_e=zero,
            v_e=shears,
            m_e=moments,
            sustained_fraction=zero,
        )

    def parts(self) -> list[tuple[Floats, Floats, Floats]]:
        """Tension, shear and moments without earthquake, and of it."""
        return [(self.n, self.v, self.m), (self.n_e, self.v_e, self.m_e)]


@frozen
class Runs(Columns):
    """Pipe runs; ``point`` is the row of the hang point, ``spans`` is zero-padded (runs, spans), ft.

    ``rho_test`` is the density of the fluid of a test, lb/ft3, 0 where the pipe isn't tested with water.

    ``missing`` is the index of a support that is not there, -1 for none; ``model`` 0 larger, 1 tributary,
    2 continuous. ``spacing_rule`` is the index of a named rule, -1 for none; ``spacing_limit`` is infinite without one
    and ``spacing_covered`` False where it has no value for the pipe.
    """

    point: Index
    d_o: Floats
    t: Floats
    rho_pipe: Floats
    rho_contents: Floats
    rho_test: Floats
    t_ins: Floats
    rho_ins: Floats
    allowance: Floats
    spans: Floats
    span_count: Index
    support: Index
    missing: Index
    model: Codes
    nominal: Floats
    spacing_rule: Codes
    spacing_limit: Floats
    spacing_covered: Bools


@frozen
class PointLoads(Columns):
    """Point loads on runs: row of the run, distance from its first support (ft), weight (lbf), whether it is contents
    or live load; else it is dead load.
    """

    run: Index
    position: Floats
    weight: Floats
    contents: Bools
    live: Bools


@frozen
class Rods(Columns):
    """Rods: ``rule`` is a rod rule or `NO_ROD`; ``size_table`` where the size table of sprinkler lines holds as well.

    ``d`` and ``pitch`` in; ``k_root`` and ``k_stress`` are the coefficients of the two thread areas.
    """

    rule: Codes
    size_table: Bools
    d: Floats
    pitch: Floats
    k_root: Floats
    k_stress: Floats
    f_u: Floats


@frozen
class Bases(Columns):
    """Concrete around the anchors; ``c_a`` (points, 4) are the edges, from the origin of the layout.

    ``category`` is 0 for seismic design category A to 5 for F. ``edge_reinforcement`` 0 none, 1 an edge bar, 2 with
    stirrups. Anchor reinforcement in tension (``_n``) and shear (``_v``): area in2 and yield strength psi, 0 where
    there is none.
    """

    f_c: Floats
    lightweight: Bools
    lambda_c: Floats
    cracked: Bools
    thickness: Floats
    c_a: Floats
    supplementary: Bools
    edge_reinforcement: Codes
    a_s_n: Floats
    f_y_n: Floats
    a_s_v: Floats
    f_y_v: Floats
    face: Codes
    category: Codes


@frozen
class Layouts(Columns):
    """Anchors of the points on one flat axis, rising by point, one or more each; in from the origin of the layout.

    ``resists_x`` and ``resists_y``: whether the hole lets the anchor take shear along that axis.
    """

    point: Index
    x: Floats
    y: Floats
    resists_x: Bools
    resists_y: Bools


@frozen
class Plates(Columns):
    """Rectangular plates, in from the origin of the layout; zeros where none is stated.

    ``contact``: the plate bears on the concrete or on grout; otherwise it hangs free of it, on its anchors alone.
    """

    stated: Bools
    x0: Floats
    x1: Floats
    y0: Floats
    y1: Floats
    contact: Bools


@frozen
class Fixings(Columns):
    """How the attachment brings its load to the anchor, and the options taken.

    ``thickness`` of the steel a stud is welded to and ``gap`` of free anchor, in, 0 where not stated; the options of
    17.10.5.3 and 17.10.6.3 by index, `NO_OPTION` where none is stated; ``stretch_length`` in, 0 where not stated;
    ``oblique`` 0 vector, 1 separate, 2 linear; ``power`` the interaction with exponent 5/3; ``bounding`` A_Nc and A_Na
    of a group by the rectangle around its squares; ``survives_loss`` what hangs is shown to stay up when this point
    fails; ``ceiling`` it is a suspended ceiling.
    """

    welded: Bools
    thickness: Floats
    grout_pad: Bools
    gap: Floats
    tension_option: Codes
    shear_option: Codes
    stretch_length: Floats
    upset_threads: Bools
    oblique: Codes
    power: Bools
    bounding: Bools
    survives_loss: Bools
    ceiling: Bools


@frozen
class Bonds(Columns):
    """Bond of adhesive anchors in the stated condition of the hole; neutral numbers for all others.

    ``tau_cr`` and ``tau_uncr`` psi, 0 where not qualified in that state; ``alpha_n_seis`` 0 without seismic tests;
    ``open_share`` the least phi tau of the conditions that are left open over that of the one taken;
    ``upward`` qualified for horizontal and upward installation; ``age`` and ``least_age`` of the concrete in days, the
    former -1 where not stated; ``confirmed`` a certified installer and continuous inspection are.
    """

    tau_cr: Floats
    tau_uncr: Floats
    alpha_n_seis: Floats
    exponent: Floats
    f_c_ref: Floats
    open_share: Floats
    upward: Bools
    age: Floats
    least_age: Floats
    confirmed: Bools
    temperature_stated: Bools


@frozen
class Products(Columns):
    """Product data of each point's anchor.

    The states of N_p and ``lightweight_data`` are the codes above. ``thread_d`` is the nominal diameter of an internal
    thread, 0 without one; ``c_min_code`` and ``s_min_code`` the least edge distance and spacing of 17.9.2, 0 where
    tests stand in their place. ``european``: figures for EN 1992-4. ``adhesive`` holds by bond of chapter 17;
    ``bonded`` by adhesive, be it by EN 1992-4 or by tables.
    """

    invented: Bools
    has_source: Bools
    table_only: Bools
    european: Bools
    adhesive: Bools
    bonded: Bools
    post_installed: Bools
    undercut: Bools
    screw: Bools
    d_a: Floats
    a_se_n: Floats
    f_uta: Floats
    f_ya: Floats
    ductile: Bools
    thread_d: Floats
    h_ef: Floats
    h_min: Floats
    c_min: Floats
    c_min_code: Floats
    s_min: Floats
    s_min_code: Floats
    c_ac: Floats
    category: Codes
    product_k_c: Bools
    k_cr: Floats
    k_uncr: Floats
    pullout_method: Codes
    a_brg: Floats
    e_h: Floats
    n_p_cr: Floats
    n_p_uncr: Floats
    n_p_eq: Floats
    n_p_cr_state: Codes
    n_p_uncr_state: Codes
    n_p_eq_state: Codes
    n_exponent: Floats
    f_c_ref: Floats
    lightweight_data: Codes
    tension_overhead: Bools
    sustained_tension: Bools
    concrete_allowed: Bools
    seismic_qualified: Bools
    thickness_tested: Bools
    removable: Bools
    v_sa: Floats
    v_sa_tested: Bools
    v_sa_eq: Floats
    v_sa_eq_tested: Bools
    welded_stud: Bools
    distance_sleeve: Bools
    pin: Bools
    ceiling_only: Bools


@frozen
class Sites:
    """Where points are in the face of their member, and which of them may be near each other.

    ``x``, ``y`` (points,) of the origin of the layout, in; ``family`` (points,) codes the product family. ``a`` and
    ``b`` (pairs,) are the lower and the higher point of each pair, all pairs that can be near and maybe more.
    ``crowded`` (points,) marks a point with more neighbours than were listed, ``disputed`` (points,) one whose edges
    are elsewhere by what a point near it states. ``level`` (points,) codes the level, -1 where none is stated, ``same``
    (points,) the set of anchors that points are under loads which act one at a time, -1 of a point that is no such one.
    """

    x: Floats
    y: Floats
    family: Index
    level: Index
    a: Index
    b: Index
    crowded: Bools
    disputed: Bools
    same: Index


@frozen
class Points:
    """A batch of hang points. ``given_names`` are the names of load cases that `GivenLoads` has.

    ``sites`` is None where no two points of it can be near each other, ``allowables`` where every point is in concrete
    and goes by chapter 17, ``apart`` where no point states loads of one nature against each other. With ``fasteners``
    all points go by EN 1992-4; ``fires`` is None where none of them is to withstand one.
    """

    count: int
    hangs: Hangs
    given: GivenLoads
    given_names: tuple[str, ...]
    runs: Runs
    loads: PointLoads
    rods: Rods
    bases: Bases
    fixings: Fixings
    bonds: Bonds
    products: Products
    decks: Decks
    surroundings: Surroundings
    environments: Environments
    layouts: Layouts
    plates: Plates
    sites: Sites | None = None
    allowables: Allowables | None = None
    apart: Apart | None = None
    fasteners: Fasteners | None = None
    fires: Fires | None = None

    @property
    def method(self) -> Codes:
        """(points,) the method that each is checked by."""
        if self.fasteners is not None:
            return np.full(self.count, FASTENER, dtype=np.int8)
        if self.allowables is None:
            return np.full(self.count, CHAPTER_17, dtype=np.int8)
        return self.allowables.method
