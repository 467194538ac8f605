"""Spacing of hangers: the strictest of the named rules for each line, and every rule that has a value for it."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import Lines, Runs, Spacings
from hangpoint.core.hanger.spacing import (
    END_RULES,
    RULE_NAMES,
    lacks_size,
    largest_spacing,
    rules_for,
    spacing_rules,
    spacing_sizes,
    strictest,
)
from hangpoint.core.loads.pipe_sizes import nominal
from hangpoint.core.vocabulary import LoadNotChecked
from hangpoint.pack.hanger_items.notes import Notes
from hangpoint.pack.pull import found_rows

Key = tuple[str, str, str]
"""Material, size and schedule as the rules know them; blank where a line has none."""

_RULE_CODES = {name: code for code, name in enumerate(RULE_NAMES)}
_NO_LIMIT = (np.inf, -1.0)
_NO_FIT = [False] * (2 + len(RULE_NAMES))
_SPRINKLER_END, _CONDUIT_END = "sprinkler_end", "box_3_ft"
_UNIFORM_ONLY = {rule.name for rule in spacing_rules() if rule.uniform_only}
_VAPOUR = {rule.name for rule in spacing_rules() if rule.vapour}
_DUCTS = {"round": "round_duct"}


def spacing_key(line: Mapping[str, Any]) -> Key:
    """What the spacing rules know a line by; a line of stated weight they don't know."""
    match line["kind"]:
        case "pipe":
            return line["material"], line["size"], line.get("schedule", "")
        case "conduit":
            return "pvc_conduit" if line["type"].startswith("pvc") else line["type"], line["size"], ""
        case "tray":
            return "tray", line.get("load_class", ""), ""
        case "duct":
            return _DUCTS.get(line["shape"], "duct"), "", ""
        case _:
            return "", "", ""


def rules_of_lines(keys: Sequence[Key], lines: Lines, horizontal: Sequence[bool]) -> list[Mapping[str, float]]:
    """Every rule that has a value for a line, with it in ft; none for a line of a riser, where no rule here holds.

    ``horizontal`` (items,) says which items have lines that lie.
    """
    place, found = found_rows(keys, lambda key: rules_for(*key))
    items: list[int] = lines.item.tolist()
    return [found[at] if horizontal[item] else {} for at, item in zip(place.tolist(), items, strict=True)]


def pack_spacings(
    keys: Sequence[Key], lines: Lines, runs: Runs, rules: Sequence[Sequence[str] | None], notes: Notes
) -> Spacings:
    """Limits of the lines whose run names rules.

    Args:
        keys: (lines,) as `spacing_key` gives them.
        lines: of all items.
        runs: of runs and trapezes.
        rules: (runs,) the names, None where a run names none.
        notes: takes the items whose spacing isn't checked.
    """
    named: list[tuple[str, ...]] = [()] * notes.count
    for item, names in zip(runs.item.tolist(), rules, strict=True):
        named[item] = tuple(names or ())
    item_of_line: list[int] = lines.item.tolist()
    notes.leave_unchecked(LoadNotChecked.SPACING, [not named[item] for item in item_of_line], item_of_line)
    checked = [line for line, item in enumerate(item_of_line) if named[item]]
    ruled = [(named[item_of_line[line]], keys[line]) for line in checked]
    place, limits = found_rows(ruled, _strictest)
    columns = np.array([*limits, _NO_LIMIT])[place]
    fit_place, fits = found_rows(ruled, _fit)
    fit = np.array([*fits, _NO_FIT], dtype=np.bool_)[fit_place]
    sprinkler: list[bool] = lines.sprinkler.tolist()
    ends = [(keys[line], sprinkler[line]) for line in checked]
    end_place, end_limits = found_rows(ends, _end_limit)
    return Spacings(
        line=np.array(checked, dtype=np.intp),
        limit=columns[:, 0],
        rule=columns[:, 1].astype(np.intp),
        covered=fit[:, 0],
        lacking=fit[:, 2:],
        uniform_only=np.array([not _UNIFORM_ONLY.isdisjoint(names) for names, _ in ruled], dtype=np.bool_),
        vapour=fit[:, 1],
        end_limit=np.array([*end_limits, np.inf])[end_place],
    )


def _strictest(key: tuple[tuple[str, ...], Key]) -> tuple[float, float] | None:
    """Least spacing of the named rules, ft, and the code of its rule."""
    found = strictest(key[0], *key[1])
    return None if found is None else (found[1], float(_RULE_CODES[found[0]]))


def _fit(key: tuple[tuple[str, ...], Key]) -> Sequence[bool]:
    """Whether any named rule has a value, whether one for vapour has, and of each rule whether it alone lacks one."""
    named, own = key
    with_value = [rule for rule in named if largest_spacing(rule, *own) is not None]
    lacking = [rule in named and bool(with_value) and lacks_size(rule, *own) for rule in RULE_NAMES]
    return [bool(with_value), not _VAPOUR.isdisjoint(with_value), *lacking]


def _end_limit(key: tuple[Key, bool]) -> float | None:
    """How far a line may reach beyond its last hanger, ft: sprinkler pipe and conduit have such a rule."""
    (material, size, _), sprinkler = key
    name = _SPRINKLER_END if sprinkler else _CONDUIT_END
    if size not in spacing_sizes(material):
        return None
    for rule in END_RULES:
        if rule.name == name and rule.material == material and rule.first <= nominal(size) <= rule.last:
            return rule.distance
    return None
