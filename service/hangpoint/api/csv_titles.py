"""What a title that names no column may mean: offers for whoever wrote it, never taken unsaid.

A word of the trade for a column, a title with its unit but without brackets, or one that is nearly spelt as a column.
"""

import re
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from hangpoint.api.csv_columns import column_path, columns, ends, meanings, short_names
from hangpoint.pack.trade_texts import unit_text
from hangpoint.units import unit_factor

NEAR = 0.75
"""Least share of letters, as `difflib` counts them, that a misspelt title has in common with what is offered."""
MOST = 5
"""Names that are offered."""
_LEAST = 4
"""Letters of a title that can be misspelt: of fewer too many words are near."""

_EDGES = tuple(f"base.edges.{side}" for side in ("x_minus", "x_plus", "y_minus", "y_plus"))
_WEIGHT = ("hangs.weight",)
_FAMILY = ("anchor.family",)
MEANT: Mapping[str, Sequence[str]] = {
    **dict.fromkeys(
        (
            *("hanger", "hanger_id", "hanger_no", "hanger_number", "item", "item_no", "label", "mark_no", "name"),
            *("no", "nr", "number", "point", "point_id", "point_no", "ref", "reference", "support_no"),
            *("hanger_mark", "hanger_name", "hanger_tag", "point_name", "point_tag", "tag_no", "tag_number"),
        ),
        ("id",),
    ),
    **dict.fromkeys(("anchor_id", "anchor_no"), ("id",)),
    "mark": ("id", *_FAMILY),
    "tag": ("id", "tags"),
    "type": ("hangs.kind", "base.kind", *_FAMILY),
    **dict.fromkeys(("anchor", "anchor_type", "fastener", "product"), (*_FAMILY, "product")),
    **dict.fromkeys(("floor", "storey", "story"), ("at.level", "level")),
    **dict.fromkeys(("date", "test_date", "tested_on"), ("day",)),
    **dict.fromkeys(("actual", "actual_load", "applied_load", "load_applied", "gauge", "reading"), ("applied",)),
    **dict.fromkeys(("proof_load", "required_load", "target", "target_load"), ("test_load",)),
    **dict.fromkeys(("max_load", "maximum_load"), ("most_load",)),
    **dict.fromkeys(("duration", "hold", "hold_time", "time_held"), ("held_seconds", "hold_seconds")),
    **dict.fromkeys(("held", "held_for"), ("held_seconds",)),
    **dict.fromkeys(("deflection", "movement", "slip"), ("displacement", "moved")),
    **dict.fromkeys(("installer", "installed_by"), ("crew",)),
    **dict.fromkeys(("inspected_by", "tested_by", "tester", "witness"), ("inspector",)),
    **dict.fromkeys(("east", "easting"), ("at.x",)),
    **dict.fromkeys(("north", "northing"), ("at.y",)),
    **dict.fromkeys(("elev", "elevation", "height"), ("at.z",)),
    "pipe": ("hangs.size", "hangs.material"),
    **dict.fromkeys(("dn", "nominal_size", "nps"), ("hangs.size",)),
    **dict.fromkeys(("fluid", "medium"), ("hangs.contents",)),
    **dict.fromkeys(("service", "system"), ("hangs.contents", "trade")),
    **dict.fromkeys(("insulation", "ins"), ("hangs.insulation.thickness", "hangs.insulation.density")),
    "sprinkler_line": ("hangs.sprinkler",),
    **dict.fromkeys(("hanger_spacing", "hgr_spacing", "rod_spacing", "span"), ("hangs.run.spans",)),
    "spacing": ("hangs.run.spans", "anchor.layout.spacing"),
    "size": ("hangs.size", "rod.size", "anchor.size"),
    "diameter": ("hangs.size", "rod.size", "anchor.size", "anchor.layout.diameter"),
    **dict.fromkeys(("load", "loads", "dead_load", "point_load"), (*_WEIGHT, "applied", "test_load")),
    "hangs": ("hangs.kind",),
    "load_type": ("hangs.nature",),
    **dict.fromkeys(("pull", "tension", "uplift"), ("hangs.components.0.tension",)),
    "shear": ("hangs.components.0.shear_x", "hangs.components.0.shear_y"),
    "rod": ("rod.size",),
    "length": ("rod.length",),
    **dict.fromkeys(("count", "qty"), ("quantity",)),
    **dict.fromkeys(
        ("f_c", "compressive_strength", "concrete_strength", "strength", "slab_strength"), ("base.strength.f_c",)
    ),
    "concrete": ("base.kind", "base.density", "base.strength.f_c"),
    **dict.fromkeys(("base", "base_material", "structure", "substrate"), ("base.kind",)),
    **dict.fromkeys(("matl", "mat_l", "pipe_matl"), ("hangs.material",)),
    **dict.fromkeys(("weight_per_hanger", "weight_per_point", "hanger_load", "hanger_weight"), _WEIGHT),
    **dict.fromkeys(("fp", "sprinklers", "fire_protection"), ("hangs.sprinkler",)),
    **dict.fromkeys(("conc_type", "concrete_type"), ("base.density", "base.kind")),
    "slab": ("base.thickness", "base.kind", "base.member"),
    "beam": ("base.member",),
    "cracked": ("base.state",),
    "overhead": ("base.face",),
    **dict.fromkeys(
        ("edge", "edges", "edge_distance", "edge_distances", "edge_dist", "min_edge", "nearest_edge"), _EDGES
    ),
    **dict.fromkeys((f"edge_{side}" for side in (*"lrfbnsew1234", "left", "right", "north", "south")), _EDGES),
    "edge_x": _EDGES[:2],
    "edge_y": _EDGES[2:],
    **dict.fromkeys(("sdc", "seismic", "seismic_design_category"), ("seismic.category",)),
}
"""Columns that words of the trade may stand for; those of words in `_WORDS` are of the longer word."""
_WORDS: Mapping[str, str] = {
    **dict.fromkeys(("dia", "diam", "diameter"), "size"),
    **dict.fromkeys(("thk", "thick"), "thickness"),
    **dict.fromkeys(("sch", "sched"), "schedule"),
    **dict.fromkeys(("wt", "wgt"), "weight"),
    **dict.fromkeys(("emb", "embed", "embedment", "hef"), "h_ef"),
    **dict.fromkeys(("insul", "ins"), "insulation"),
    **dict.fromkeys(("conc", "concrete", "slab"), "base"),
    **dict.fromkeys(("hgr", "hngr"), "hanger"),
    "anch": "anchor",
    "pipe": "hangs",
    "fc": "f_c",
    "lvl": "level",
    "mat": "material",
    "qty": "quantity",
}
_OMITTED = {"eff", "effective", "depth", "nominal", "nom"}
_PROJECT: Mapping[str, str] = {
    **dict.fromkeys(("client", "job", "job_name", "project", "project_name"), "name"),
    **dict.fromkeys(("job_no", "job_number", "project_no", "project_number"), "number"),
    **dict.fromkeys(("rev", "revision"), "revision"),
    **dict.fromkeys(("by", "prepared_by"), "prepared_by"),
}
"""Titles of what is stated once for a job, and the member of ``project`` that holds it."""
_QUOTES = re.compile(r"['’′`´]")
_OTHER = re.compile(r"[^0-9a-z]+")


def offers(name: str, unit: str, item: Any, wider: Any = None) -> tuple[str, ...]:
    """Titles that may be meant by one that names no column, the likeliest first; none where nothing is near.

    Args:
        name: the title without its brackets.
        unit: what stands in them.
        item: typed dictionary of a row.
        wider: one that has more columns, of another use of the same file.
    """
    known = {*columns(item), *(() if wider is None else columns(wider))}
    split = _with_brackets(name, item) if not unit else None
    if split is not None:
        return (split,)
    key = _key(name)
    meant = [*MEANT.get(key, ()), *meanings(name, item), *meanings(key, item)]
    words = "_".join(_WORDS.get(word, word) for word in key.split("_") if word not in _OMITTED)
    for each in dict.fromkeys((key, words)):
        path = column_path(each, item)
        meant += [path] if path else MEANT.get(each, ())
    if meant:
        return tuple(dict.fromkeys(path for path in meant if path in known))[:MOST]
    return near_names(name, item)


def near_names(name: str, item: Any) -> tuple[str, ...]:
    """Columns, short names and ends of paths that a name is nearly spelt as; no places of lists but the first."""
    spelt = {_spelt(path): path for path in columns(item) if not re.search(r"\.[1-9]", path)}
    for end, paths in ends(item).items():
        if len(paths) == 1:
            spelt.setdefault(_spelt(end), paths[0])
    spelt |= {_spelt(short): short for short in short_names(item)}
    if len(_spelt(name)) < _LEAST:
        return ()
    found = get_close_matches(_spelt(name[:64]), spelt, n=MOST, cutoff=NEAR)
    return tuple(dict.fromkeys(spelt[each] for each in found))


def project_member(name: str) -> str | None:
    """The member of ``project`` that a title is of; None where it is of none."""
    return _PROJECT.get(_key(name))


def _with_brackets(name: str, item: Any) -> str | None:
    """A title that ends in a unit of its column, as it is to be written."""
    words, _, unit = name.rpartition(" ") if " " in name else name.rpartition("/")
    words = words.rstrip(" ,;/:-")
    path = column_path(words, item) or column_path(_key(words), item)
    kind = None if path is None else columns(item)[path].kind
    return None if kind is None or unit_factor(kind, unit_text(unit, kind.name)) is None else f"{words} [{unit}]"


def _key(name: str) -> str:
    return _OTHER.sub("_", _QUOTES.sub("", name.casefold())).strip("_")


def _spelt(name: str) -> str:
    return _key(name).replace("_", "")
