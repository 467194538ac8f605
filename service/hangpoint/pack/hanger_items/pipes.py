"""Lines of pipe: dimensions, contents, test fluid, insulation."""

import numpy as np

from hangpoint.core.hanger.items import PipeLines
from hangpoint.core.loads.pipe_sizes import CONTENTS, MATERIALS
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pipes import GASES, TOO_LIGHT, WATER, pipe_contents, pipe_dimensions, test_fluid, weighed_short
from hangpoint.pack.pull import Rows
from hangpoint.units import AREA_WEIGHT, DENSITY, LAYER

_MISSING = "Give what the pipe holds by name, or contents_density."


def pack_pipes(rows: Rows, item: Index, notes: Notes) -> PipeLines:
    """Read lines of kind pipe, of the items ``item``.

    Flaws: those of `pipes.pipe_dimensions` and `pipes.pipe_contents`; contents by name and by density; contents lighter
    than water without a word on the test; a quantity out of range.
    """
    material = rows.values("material")
    dimensions = pipe_dimensions(rows, material, rows.values("size"))
    rho_contents, light = _contents(rows, item, notes)
    insulation = rows.child("insulation")
    t_ins = insulation.quantity("thickness", LAYER, fill=0.0)
    notes.assume(LoadAssumption.NO_SPRINKLER, rows.silent("sprinkler"), item)
    notes.assume(LoadAssumption.NO_INSULATION, insulation.silent("thickness"), item)
    notes.assume(LoadAssumption.CONTENTS_AS_DEAD, rho_contents > 0, item)
    notes.assume(LoadAssumption.EMPTY_UNTESTED, (rho_contents == 0) & rows.silent("hydrotest"), item)
    allowance = rows.numbers("allowance", 0.0)
    short = weighed_short(material, rows.values("schedule"), dimensions[:, 2], allowance)
    notes.assume(LoadAssumption.PIPE_SHORT, short, item)
    notes.masses(insulation.values("jacket"), AREA_WEIGHT, rows, item)
    return PipeLines(
        line=np.array(rows.local, dtype=np.intp),
        d_o=dimensions[:, 0],
        t=dimensions[:, 1],
        rho_pipe=np.array([MATERIALS[name] for name in material], dtype=np.float64),
        rho_contents=rho_contents,
        rho_test=test_fluid(rows, light),
        t_ins=t_ins,
        rho_ins=insulation.quantity("density", DENSITY, fill=0.0),
        q_jacket=insulation.quantity("jacket", AREA_WEIGHT, fill=0.0),
        allowance=allowance,
        nominal=dimensions[:, 2],
    )


def _contents(rows: Rows, item: Index, notes: Notes) -> tuple[Floats, Bools]:
    """Density of what each pipe holds, lb/ft3, and where that is a gas."""
    rho = rows.quantity("contents_density", DENSITY).copy()
    by_density = ~np.isnan(rho)
    sprinkler = rows.true("sprinkler")
    named = stated(rows, "contents")
    flaw_where(
        rows,
        by_density & named,
        "contents_density",
        "Give contents or contents_density, not both.",
        code="contradiction",
    )
    flaw_where(rows, by_density & sprinkler & (rho < WATER), "contents_density", TOO_LIGHT)
    places: list[int] = np.flatnonzero(~by_density).tolist()
    by_name = rows.taken(places)
    names, assumed = pipe_contents(by_name, sprinkler[places].tolist(), missing=_MISSING)
    rho[places] = [CONTENTS[name] for name in names]
    if assumed is not None:
        notes.assume(LoadAssumption.CONTENTS_WATER, assumed, item[places])
    gas = by_density & (rho > 0) & (rho < WATER) & ~sprinkler & ~named
    gas[places] = [name in GASES for name in names]
    return rho, gas
