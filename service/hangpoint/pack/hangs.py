"""What hangs, as columns: weights, pipe runs with their point loads, and direct forces from their own module."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import repeat
from typing import Any, get_type_hints

import numpy as np

from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.hang_point.points import FORCES, PIPE, WEIGHT, Hangs, PointLoads, Runs
from hangpoint.core.hanger.run_reaction import MODELS
from hangpoint.core.hanger.spacing import RULE_NAMES, largest_spacing
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.loads.pipe_sizes import CONTENTS, MATERIALS
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.forces import SERVICE, PackedForces, Sums, pack_forces
from hangpoint.pack.masses import is_mass
from hangpoint.pack.pipes import GASES, pipe_contents, pipe_dimensions, test_fluid, weighed_short
from hangpoint.pack.pull import EMPTY, Object, Rows, filled, found_rows, places
from hangpoint.pack.spans import span_table
from hangpoint.product.table import DTYPES
from hangpoint.units import DENSITY, DISTANCE, LAYER
from hangpoint.units import WEIGHT as WEIGHT_KIND

KIND_CODES: Mapping[str | None, int] = {"forces": FORCES, "weight": WEIGHT, "pipe": PIPE}
_MODELS = {name: code for code, name in enumerate(MODELS)}
_SPACING_RULES = {name: code for code, name in enumerate(RULE_NAMES)}
_NO_RULE = np.inf
_CONTENT_ROWS = {name: row for row, name in enumerate(CONTENTS)}
_RHO_CONTENTS = np.array(list(CONTENTS.values()), dtype=np.float64)
_GAS = np.array([name in GASES for name in CONTENTS], dtype=np.bool_)


def _empty(table: type[Columns]) -> dict[str, Any]:
    """The columns of a table without rows."""
    return {name: np.zeros(0, dtype=DTYPES[kind]) for name, kind in get_type_hints(table).items()}


_NO_RUNS = replace(Runs(**_empty(Runs)), spans=np.zeros((0, 1)))
_NO_POINT_LOADS = PointLoads(**_empty(PointLoads))


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedHangs:
    """The loads side of a batch."""

    hangs: Hangs
    forces: PackedForces
    runs: Runs
    loads: PointLoads


def pack_hangs(
    items: Rows, *, factored: bool, assumptions: Flags, not_checked: Flags, by_en: bool = False
) -> PackedHangs:
    """Read ``hangs`` of every item, kind by kind. An item of another kind than the default takes nothing from it.

    By EN 1992-4, ``by_en``, earthquake is refused, and nothing is asked of it.
    """
    count = len(items)
    default: Object = items.default.get("hangs", EMPTY)
    own = items.child("hangs")
    kinds: Sequence[str | None] = own.stated("kind")
    if None in kinds:
        kinds = [default.get("kind") if kind is None else kind for kind in kinds]
        for at in [at for at, kind in enumerate(kinds) if kind is None]:
            items.flaw(at, "hangs", "hangs is required here or in the defaults.", code="missing")
    sums = Sums(count)
    direct = items.of_kind("hangs", "forces", kinds)
    forces = pack_forces(direct, sums, factored=factored, assumptions=assumptions)
    if "weight" in kinds:
        _weights(items.of_kind("hangs", "weight", kinds), sums, assumptions)
    if len(direct) or "weight" in kinds:
        assumptions.set(Assumption.CONTENTS_AS_DEAD, sums.has_contents())
    pipes = items.of_kind("hangs", "pipe", kinds)
    runs, loads = _pipes(pipes, sums, assumptions=assumptions, not_checked=not_checked)
    return PackedHangs(
        hangs=Hangs(
            kind=np.fromiter(map(KIND_CODES.get, kinds, repeat(FORCES)), dtype=np.int8, count=count),
            dead=sums.service[0],
            contents=sums.service[1],
            live=sums.service[2],
            v_dead=sums.v_service[0],
            v_contents=sums.v_service[1],
            v_live=sums.v_service[2],
            m_dead=sums.m_service[0],
            m_contents=sums.m_service[1],
            m_live=sums.m_service[2],
            at=sums.at,
            transient=sums.transient,
            earthquake=sums.earthquake,
            s_ds=_s_ds(items, forces, sums, assumptions, factored=factored, by_en=by_en),
            sprinkler=sums.sprinkler,
        ),
        forces=forces,
        runs=runs,
        loads=loads,
    )


def _s_ds(items: Rows, forces: PackedForces, sums: Sums, assumptions: Flags, *, factored: bool, by_en: bool) -> Floats:
    """S_DS of every point, 0 where not stated; one with earthquake by nature states it, for the vertical effect."""
    seismic = items.child("seismic")
    s_ds = seismic.numbers("s_ds", math.nan)
    if len(forces.components.nature):
        _natures(seismic, np.zeros(len(items)) if by_en else s_ds, sums, assumptions)
    return filled(len(items), 0.0) if factored or not seismic.gives("s_ds") else np.nan_to_num(s_ds)


def _natures(seismic: Rows, s_ds: Floats, sums: Sums, assumptions: Flags) -> None:
    """What is taken of direct forces by their nature, and what earthquake needs."""
    shaken = np.any(sums.earthquake, axis=1)
    for at in places(shaken & np.isnan(s_ds)):
        detail = (
            "Load of nature earthquake needs S_DS for the vertical effect, 0.2 S_DS times dead load and contents; 0"
            " where the components have it."
        )
        seismic.flaw(at, "s_ds", detail, code="missing")
    assumptions.set(Assumption.EARTHQUAKE_REVERSES, np.any(sums.earthquake[:, 1:], axis=1))
    assumptions.set(Assumption.EARTHQUAKE_PULLS, shaken & (sums.earthquake[:, 0] != 0))
    transient = np.any(sums.transient, axis=1)
    for member, name in ((Assumption.WIND_AS_GIVEN, "wind"), (Assumption.THERMAL_STAYS, "thermal")):
        assumptions.set(member, transient[:, TRANSIENT.index(name)])


def _weights(rows: Rows, sums: Sums, assumptions: Flags) -> None:
    weight = rows.quantity("weight", WEIGHT_KIND, what="The weight", fill=0.0)
    assumptions.set(
        Assumption.MASS_BY_GRAVITY,
        [is_mass(value, WEIGHT_KIND, rows.system) for value in rows.values("weight")],
        rows.local,
    )
    nature = rows.codes("nature", SERVICE, what="The nature of the weight", absent=0)
    sums.service[nature, rows.local] = weight


def _pipes(rows: Rows, sums: Sums, *, assumptions: Flags, not_checked: Flags) -> tuple[Runs, PointLoads]:
    if not len(rows):
        return _NO_RUNS, _NO_POINT_LOADS
    point = np.fromiter(rows.local, dtype=np.intp, count=len(rows))
    run = rows.child("run")
    material = rows.required("material", "The pipe's material", tuple(MATERIALS))
    size = rows.required("size", "The pipe's size")
    schedule = rows.values("schedule")
    dimensions = pipe_dimensions(rows, material, size)
    rows.required("sprinkler", "Whether the pipe is a sprinkler line")
    sprinkler = rows.true("sprinkler")
    sums.sprinkler[point] = sprinkler
    missing = "What the pipe holds is required here or in the defaults."
    names, water_assumed = pipe_contents(rows, sprinkler.tolist(), missing=missing)
    contents = np.fromiter(map(_CONTENT_ROWS.__getitem__, names), dtype=np.intp, count=len(names))
    if water_assumed is not None:
        assumptions.set(Assumption.CONTENTS_WATER, water_assumed, point)
    insulation = rows.child("insulation")
    thickness = insulation.quantity("thickness", LAYER)
    t_ins, unsaid = np.nan_to_num(thickness), np.isnan(thickness)
    rho_ins = insulation.quantity("density", DENSITY, fill=0.0)
    for at in places(((t_ins > 0) & (rho_ins == 0)) | (unsaid & (rho_ins > 0))):
        lacking = "density" if t_ins[at] > 0 else "thickness"
        insulation.flaw(at, lacking, f"Insulation needs its {lacking} as well.", code="missing")
    assumptions.set(Assumption.NO_INSULATION, unsaid, point)
    assumptions.set(Assumption.NO_ALLOWANCE, rows.silent("allowance"), point)
    spans, span_count = span_table(run, "spans", [value or () for value in run.required("spans", "The list of spans")])
    support, lost = _supports(run, span_count)
    assumptions.set(Assumption.RUN_MODEL, run.silent("model"), point)
    assumptions.set(Assumption.STRAIGHT_RUN, rows=point)
    allowance = rows.numbers("allowance", 0.0)
    assumptions.set(Assumption.PIPE_SHORT, weighed_short(material, schedule, dimensions[:, 2], allowance), point)
    empty = contents == _CONTENT_ROWS["empty"]
    assumptions.set(Assumption.CONTENTS_AS_DEAD, ~empty, point)
    assumptions.set(Assumption.EMPTY_UNTESTED, empty & rows.silent("hydrotest"), point)
    spacing_limit, spacing_covered = _spacing(run, material, size, schedule)
    not_checked.set(NotChecked.SPACING_RULE, run.silent("spacing_rule"), point)
    not_checked.set(NotChecked.LISTING, sprinkler, point)
    not_checked.set(NotChecked.LOSS_OF_SUPPORT, lost < 0, point)
    runs = Runs(
        point=point,
        d_o=dimensions[:, 0],
        t=dimensions[:, 1],
        rho_pipe=np.fromiter(map(MATERIALS.get, material, repeat(0.0)), dtype=np.float64, count=len(rows)),
        rho_contents=_RHO_CONTENTS[contents],
        rho_test=test_fluid(rows, _GAS[contents]),
        t_ins=t_ins,
        rho_ins=rho_ins,
        allowance=allowance,
        spans=spans,
        span_count=span_count,
        support=support,
        missing=lost,
        model=run.codes("model", _MODELS, absent=0),
        nominal=dimensions[:, 2],
        spacing_rule=run.codes("spacing_rule", _SPACING_RULES),
        spacing_limit=spacing_limit,
        spacing_covered=spacing_covered,
    )
    return runs, _point_loads(run, spans, assumptions)


def _supports(run: Rows, span_count: Any) -> tuple[Any, Any]:
    run.required("support", "Which support of its run this point is, 0 for the first,")
    support, missing = run.numbers("support", 0).astype(np.intp), run.numbers("missing_support", -1).astype(np.intp)
    for at in places(support > span_count):
        run.flaw(at, "support", f"The run has supports 0 to {span_count[at]}.", code="out-of-range")
    if not run.gives("missing_support"):
        return np.minimum(support, span_count), missing
    inner = (missing > 0) & (missing < span_count) & (missing != support)
    for at in places((missing >= 0) & ~inner):
        run.flaw(
            at,
            "missing_support",
            "The missing support is one between the ends of the run, and not the one that is checked.",
            code="out-of-range",
        )
    return np.minimum(support, span_count), np.where(inner, missing, -1)


def _point_loads(run: Rows, spans: Floats, assumptions: Flags) -> PointLoads:
    if not run.gives("point_loads"):
        return _NO_POINT_LOADS
    lists: list[Sequence[Mapping[str, Any]]] = [value or () for value in run.values("point_loads")]
    silent = [any("nature" not in load for load in several) for several in lists]
    assumptions.set(Assumption.POINT_LOAD_DEAD, silent, run.local)
    masses = [any(is_mass(load["weight"], WEIGHT_KIND, run.system) for load in several) for several in lists]
    assumptions.set(Assumption.MASS_BY_GRAVITY, masses, run.local)
    owner = np.array([at for at, several in enumerate(lists) for _ in several], dtype=np.intp)
    position = run.listed("point_loads", lists, DISTANCE, "at")
    weight = run.listed("point_loads", lists, WEIGHT_KIND, "weight")
    length = spans.sum(axis=1)
    for load in places(position > length[owner] * (1 + 1e-9)):
        run.flaw(int(owner[load]), "point_loads", "A point load lies beyond the end of the run.", code="out-of-range")
    natures = [load.get("nature") for several in lists for load in several]
    filled = [any(load.get("nature") == "contents" for load in several) for several in lists]
    assumptions.set(Assumption.CONTENTS_AS_DEAD, filled, run.local)
    return PointLoads(
        run=owner,
        position=np.minimum(position, length[owner]),
        weight=weight,
        contents=np.array([nature == "contents" for nature in natures], dtype=np.bool_),
        live=np.array([nature == "live" for nature in natures], dtype=np.bool_),
    )


def _spacing(run: Rows, material: Sequence[Any], size: Sequence[Any], schedule: Sequence[Any]) -> tuple[Floats, Bools]:
    """Largest spacing by the named rule, infinite without one, and whether the rule has a value for the pipe."""
    count = len(run)
    if not run.gives("spacing_rule"):
        return filled(count, _NO_RULE), filled(count, True, np.bool_)
    rules = run.values("spacing_rule")
    place, limits = found_rows(list(zip(rules, material, size, schedule, strict=True)), lambda key: _limit(*key))
    limit = np.array([*limits, _NO_RULE])[place]
    return limit, np.isfinite(limit) | run.silent("spacing_rule")


def _limit(rule: str | None, material: str | None, size: str | None, schedule: str | None) -> float | None:
    if rule is None or material is None or size is None:
        return None
    return largest_spacing(rule, material, size, schedule or "")
