"""What a result says of each failure mode, and of each link of the chain, as JSON."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import orjson

from hangpoint.core.hang_point.allowables import TABLE
from hangpoint.core.hang_point.anchor_checks import method_of
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.hanger.rod import RodSize
from hangpoint.core.outcome import EDGES
from hangpoint.core.quantity import Bools
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Inapplicable, Link, Mode, position
from hangpoint.pack.json_text import ABSENT, RowText
from hangpoint.pack.printed import in_request_units
from hangpoint.pack.which_anchors import anchor_lists
from hangpoint.units import FORCE, System

EDGE_TEXTS = (*(orjson.dumps(edge) for edge in EDGES), ABSENT)
"""By edge; the last place is that of no edge."""

_LOAD = RowText.constant({"link": Link.LOAD, "checked": True})
_CHECKED = {
    link: {"link": RowText.constant(link), "checked": RowText.constant(True)}
    for link in (Link.ROD, Link.ANCHOR, Link.BASE)
}
_WITHOUT_NUMBER = {link: RowText.object(members) for link, members in _CHECKED.items()}
_UNCHECKED = {link: RowText.constant({"link": link, "checked": False}) for link in _CHECKED}


@dataclass(frozen=True, slots=True, kw_only=True)
class ModeWords:
    """What is said of modes in every batch, a place a mode.

    ``links`` and ``codes`` are JSON, ``texts`` sentences; ``heads`` begin the object of a mode that applies, ``absent``
    are the objects of one that doesn't, by reason. ``of_link`` and ``of_method`` are the places of the modes of a link
    and of a method of the anchor; those of the rod are of no method.
    """

    links: tuple[bytes, ...]
    codes: tuple[bytes, ...]
    texts: tuple[str, ...]
    heads: tuple[dict[str, RowText], ...]
    absent: tuple[tuple[bytes, ...], ...]
    ratio: tuple[bool, ...]
    of_link: dict[Link, list[int]]
    of_method: dict[int, list[int]]


@lru_cache(maxsize=32)
def words_of(modes: tuple[Mode, ...]) -> ModeWords:
    """What is said of these modes."""
    methods = [None if mode.link is Link.ROD else method_of(mode) for mode in modes]
    return ModeWords(
        links=tuple(orjson.dumps(mode.link) for mode in modes),
        codes=tuple(orjson.dumps(mode.value.code) for mode in modes),
        texts=tuple(mode.value.text for mode in modes),
        heads=tuple(_head(mode) for mode in modes),
        absent=tuple(_absent(mode) for mode in modes),
        ratio=tuple(mode.is_ratio for mode in modes),
        of_link={link: [at for at, mode in enumerate(modes) if mode.link is link] for link in _CHECKED},
        of_method={
            method: [at for at, own in enumerate(methods) if own == method]
            for method in dict.fromkeys(methods)
            if method is not None
        },
    )


def _head(mode: Mode) -> dict[str, RowText]:
    return {
        "mode": RowText.constant(mode.value.code),
        "applies": RowText.constant(True),
        "clause": RowText.constant(mode.value.clause),
    }


def _absent(mode: Mode) -> tuple[bytes, ...]:
    """What is said of the mode where it doesn't apply, by reason."""
    head = {"mode": mode.value.code, "applies": False}
    tail = {"clause": mode.value.clause}
    return tuple(orjson.dumps({**head, "reason": reason.value.code, **tail}) for reason in Inapplicable)


def mode_texts(
    verdicts: Verdicts, words: ModeWords, *, cases: Sequence[bytes], several: Bools, system: System
) -> RowText:
    """Every mode of the point's method; of a refused point only those of its rod, because its anchor isn't checked.

    Args:
        verdicts: of the points.
        words: of their modes.
        cases: names of the load cases by index, as JSON.
        several: (points,) of `several_anchors`.
        system: unit system of the numbers.
    """
    modes = _modes(verdicts, words, cases, several, system)
    rods = [modes[at] for at in words.of_link[Link.ROD]]
    text = RowText.array(rods)
    for method in sorted(set(verdicts.method.tolist())):
        of_method, holds = words.of_method.get(method, ()), (verdicts.refusal < 0) & (verdicts.method == method)
        text = RowText.where(holds, RowText.array([*rods, *(modes[at] for at in of_method)]), text)
        silent = np.array([holds & _unsaid(verdicts.modes[at]) for at in of_method])
        if not some(silent):
            continue
        kinds, kind = np.unique(silent[:, holds], axis=1, return_inverse=True)
        place = np.full(len(holds), -1)
        place[holds] = kind.reshape(-1)
        for number, left_out in enumerate(kinds.T.tolist()):
            fewer = [modes[at] for at, out in zip(of_method, left_out, strict=True) if not out]
            text = RowText.where(place == number, RowText.array([*rods, *fewer]), text)
    return text


_UNSAID = {
    Mode.EN_SEISMIC_INTERACTION: Inapplicable.EN_NO_EARTHQUAKE,
    Mode.EN_COMBINED: Inapplicable.EN_NOT_BONDED,
    Mode.EN_LEVER_ARM: Inapplicable.EN_NO_LEVER_ARM,
}
"""Modes of some points alone, and why the others don't mention them."""


def _unsaid(mode: PointMode) -> Bools:
    """(points,) where a mode isn't mentioned, as what it is of isn't there."""
    reason = _UNSAID.get(mode.mode)
    if reason is None:
        return np.zeros(len(mode.applies), dtype=np.bool_)
    return ~mode.applies & (mode.reason == position(reason))


def _modes(
    verdicts: Verdicts, words: ModeWords, cases: Sequence[bytes], several: Bools, system: System
) -> list[RowText]:
    """The text of each mode; the numbers of all that apply anywhere are written at once."""
    found = RowText.fragments(words.absent, np.array([mode.reason for mode in verdicts.modes]))
    places: list[int] = np.flatnonzero(np.array([mode.applies for mode in verdicts.modes]).any(axis=1)).tolist()
    if not places:
        return found
    modes = [verdicts.modes[at] for at in places]
    table = np.array([(mode.design_strength, mode.demand, mode.utilisation) for mode in modes])
    by_force = [not words.ratio[at] for at in places]
    table[by_force, :2] = in_request_units(table[by_force, :2], FORCE, system)
    numbers = iter(RowText.number_columns(table.reshape(-1, verdicts.count)))
    load_cases = RowText.fragments([cases] * len(modes), np.array([mode.load_case for mode in modes]))
    edges: list[bool] = np.any(np.array([mode.edge for mode in modes]) >= 0, axis=1).tolist()
    shared = bool(several.any())
    for at, mode, load_case, edge in zip(places, modes, load_cases, edges, strict=True):
        has = RowText.object(
            {
                **words.heads[at],
                "design_strength": next(numbers),
                "demand": next(numbers),
                "utilisation": next(numbers),
                "load_case": load_case,
            },
            ({"edge": RowText.fragment(EDGE_TEXTS, mode.edge)} if edge else {})
            | ({"anchors": anchor_lists(mode, verdicts, several)} if shared else {}),
        )
        found[at] = RowText.where(mode.applies, has, found[at])
    return found


def link_texts(verdicts: Verdicts, words: ModeWords) -> RowText:
    """Utilisation of each link, or that it isn't checked; the load itself is always known.

    A rod that only the size table could judge, for want of a service load, is checked without a utilisation: it
    suffices or it is a finding. So is an anchor by a table of allowable loads, which is one for anchor and base: its
    utilisation is that of the base.
    """
    applies = np.array([mode.applies for mode in verdicts.modes])
    utilisation = np.where(applies, np.array([mode.utilisation for mode in verdicts.modes]), -1.0)
    peaks = np.array([utilisation[own].max(axis=0) for own in words.of_link.values()])
    links = {
        link: RowText.where(peak >= 0, RowText.object({**_CHECKED[link], "utilisation": number}), _UNCHECKED[link])
        for link, peak, number in zip(words.of_link, peaks, RowText.number_columns(peaks), strict=True)
    }
    by_table = [section.row >= 0 for section in verdicts.sections if isinstance(section.record, RodSize)]
    if by_table:
        by_size_alone = np.any(by_table, axis=0) & (peaks[list(words.of_link).index(Link.ROD)] < 0)
        links[Link.ROD] = RowText.where(by_size_alone, _WITHOUT_NUMBER[Link.ROD], links[Link.ROD])
    if TABLE in words.of_method:
        tested = (verdicts.method == TABLE) & (peaks[list(words.of_link).index(Link.BASE)] >= 0)
        links[Link.ANCHOR] = RowText.where(tested, _WITHOUT_NUMBER[Link.ANCHOR], links[Link.ANCHOR])
    return RowText.array([_LOAD, *links.values()])
