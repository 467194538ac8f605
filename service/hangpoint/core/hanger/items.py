"""What hangs, as columns: runs of lines, risers, trapezes and equipment on their hangers.

Flat tables point at the rows of others by index. Units: ft along runs and bars, in for sections, sizes and places of
supports under equipment, lbf, lbf/ft, lbf/ft2, lbf/ft3, psi, degrees.
"""

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Codes, Floats, Index

RUN, RISER, TRAPEZE, EQUIPMENT = 0, 1, 2, 3
NO_HANGER = -1
ANY_HANGER = -2
"""``missing`` of a run: none, or each hanger between two others in turn."""


@frozen
class Lines:
    """Lines of runs, risers and trapezes. ``tier`` is the row of `Tiers` of a line on a trapeze, at ``at`` ft from its
    first rod, -1 elsewhere; ``number`` alike ones stand for one row; ``sprinkler`` is a sprinkler line.
    """

    item: Index
    tier: Index
    at: Floats
    number: Floats
    sprinkler: Bools


@frozen
class PipeLines:
    """Arguments of `loads.pipe.pipe_weight`; ``line`` is the row of `Lines`, ``nominal`` the size, 0 without one."""

    line: Index
    d_o: Floats
    t: Floats
    rho_pipe: Floats
    rho_contents: Floats
    rho_test: Floats
    t_ins: Floats
    rho_ins: Floats
    q_jacket: Floats
    allowance: Floats
    nominal: Floats


@frozen
class DuctLines:
    """Arguments of `loads.duct.duct_weight`."""

    line: Index
    shape: Codes
    a: Floats
    b: Floats
    q_sheet: Floats
    reinforcement: Floats
    t_liner: Floats
    rho_liner: Floats
    t_wrap: Floats
    rho_wrap: Floats


@frozen
class ConduitLines:
    """Arguments of `loads.conduit.conduit_weight`."""

    line: Index
    w_conduit: Floats
    d_i: Floats
    fill: Floats
    rho_fill: Floats
    w_cables: Floats


@frozen
class TrayLines:
    """Arguments of `loads.cable_tray.tray_weight`."""

    line: Index
    w_tray: Floats
    w_class: Floats
    w_cables: Floats
    p_static: Floats
    l_span: Floats


@frozen
class StatedLines:
    """Arguments of `loads.line.line_weight`."""

    line: Index
    w_stated: Floats
    w_filling: Floats
    allowance: Floats


@frozen
class Runs:
    """Spans between hangers, one row for each item of kind `RUN` or `TRAPEZE`, rising by item.

    ``spans`` (runs, S) zero padded with ``span_count``; ``start`` and ``end`` overhangs. ``support`` is the hanger that
    a trapeze is, 0 for runs. ``missing`` is a hanger between two others, `NO_HANGER` or `ANY_HANGER`; ``model`` a code
    of `run_reaction.MODELS`.
    """

    item: Index
    spans: Floats
    span_count: Index
    start: Floats
    end: Floats
    support: Index
    missing: Index
    model: Codes


@frozen
class PointLoads:
    """Loads on runs or bars: the row they are on, place in ft from its first support, weight, and what may be absent.

    ``contents`` and ``live`` may, each by itself; what is neither is dead load.
    """

    row: Index
    position: Floats
    weight: Floats
    contents: Bools
    live: Bools


@frozen
class Tiers:
    """Bars of trapezes: rods at the ends of ``spans``, as `Runs` has them. All tiers of an item have the same rods.

    ``w_bar`` lbf/ft. ``checked`` where a section is stated: ``s_x`` in3, ``i_x`` in4, ``f_b`` and ``e`` psi, and the
    span over the largest deflection, ``limit``; neutral numbers elsewhere.
    """

    item: Index
    spans: Floats
    span_count: Index
    start: Floats
    end: Floats
    w_bar: Floats
    checked: Bools
    s_x: Floats
    i_x: Floats
    f_b: Floats
    e: Floats
    limit: Floats


@frozen
class Risers:
    """Vertical lines apart from the run: length, supports that share it, and whether one of them must carry all."""

    item: Index
    length: Floats
    supports: Index
    one_carries: Bools


@frozen
class Equipment:
    """Bodies on rods: dead and contents in lbf, centre of gravity in in, model a code of `carried.BODY_MODELS`."""

    item: Index
    dead: Floats
    contents: Floats
    x_g: Floats
    y_g: Floats
    model: Codes


@frozen
class EquipmentRods:
    """Rods of equipment, rising by ``body``, the row of `Equipment`."""

    body: Index
    x: Floats
    y: Floats


@frozen
class Rods:
    """Rods of every item, a row an item: ``rule`` for the load a code of `rod_checks.ROD_RULES`, -1 without a rod.

    ``l_rod`` ft, ``l_free`` in, between what holds it sideways, infinite if not known; ``angle`` out of plumb in
    degrees; ``d``, ``pitch`` in, 0 without a rod.
    """

    rule: Codes
    d: Floats
    pitch: Floats
    k_root: Floats
    k_stress: Floats
    f_u: Floats
    l_rod: Floats
    l_free: Floats
    angle: Floats


@frozen
class Given:
    """Loads that a request states at a hanger of an item.

    ``nature`` is an index of `hanger_cases.NATURES`; ``n`` tension, ``v`` (rows, 2) shear, lbf.
    """

    item: Index
    hanger: Index
    nature: Index
    n: Floats
    v: Floats


@frozen
class Seismic:
    """Items with a component seismic force, a row each, in rising order of ``item``.

    ``newer`` by ASCE 7-22, else 7-16; the arguments of `loads.seismic_component` of the other edition are neutral.
    ``braced`` with a brace every ``l_brace`` ft along a run (equipment: ``braces`` in all share the force) at
    ``theta_v`` degrees from the vertical; ``along`` 0 braces across the run, 1 along it. ``distributes`` raceways,
    ducts or pipes; ``ceiling`` by the name of the component.
    """

    item: Index
    newer: Bools
    ceiling: Bools
    distributes: Bools
    s_ds: Floats
    i_p: Floats
    isolator_gap: Bools
    z: Floats
    h: Floats
    a_p: Floats
    r_p: Floats
    omega_0: Floats
    c_ar: Floats
    r_po: Floats
    omega_0p: Floats
    at_grade: Bools
    period_known: Bools
    t_a: Floats
    system_known: Bools
    r: Floats
    i_e: Floats
    omega_building: Floats
    category: Codes
    braced: Bools
    l_brace: Floats
    braces: Floats
    theta_v: Floats
    along: Codes
    bending_free: Bools


@frozen
class Spacings:
    """Lines of runs and trapezes whose spacing is checked: ``line``, the least limit of the named rules and its rule.

    ``limit`` ft, infinite where no named rule has a value, ``rule`` an index of `spacing.RULE_NAMES` or -1; ``covered``
    where any named rule has a value, ``lacking`` (rows, rules) which of the named ones have none though others do and
    though they are for such lines. ``uniform_only`` where any doesn't hold beside concentrated loads, ``vapour`` where
    any that has a value is for vapour in the pipe. ``end_limit`` ft beyond the last hanger, infinite without one.
    """

    line: Index
    limit: Floats
    rule: Index
    covered: Bools
    lacking: Bools
    uniform_only: Bools
    vapour: Bools
    end_limit: Floats


@frozen
class Items:
    """A batch of what hangs.

    A row an item in ``kind``, ``spare`` (share of what hangs that is kept free on a trapeze), ``impact`` (factor on the
    weight of equipment) and ``erection`` (live load at one hanger at a time, lbf).
    """

    count: int
    kind: Codes
    spare: Floats
    impact: Floats
    erection: Floats
    lines: Lines
    pipes: PipeLines
    ducts: DuctLines
    conduits: ConduitLines
    trays: TrayLines
    stated: StatedLines
    runs: Runs
    run_loads: PointLoads
    tiers: Tiers
    bar_loads: PointLoads
    risers: Risers
    equipment: Equipment
    equipment_rods: EquipmentRods
    rods: Rods
    spacings: Spacings
    given: Given
    seismic: Seismic
