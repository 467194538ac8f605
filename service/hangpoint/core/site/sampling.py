"""Which anchors of a group are tested: spread over levels, areas, crews and days, the same for the same ids.

No random number: the order within a stratum is that of a hash of the id, so it looks like chance, nobody can choose,
and the order of the request does not matter.
"""

import hashlib
from collections.abc import Hashable, Mapping, Sequence


def sampled(ids: Sequence[str], strata: Sequence[Hashable], tests: int) -> list[int]:
    """Places of the anchors that are tested, rising.

    Every stratum has one at least where ``tests`` suffice; the rest is spread by what is left of each (largest
    remainder).

    Args:
        ids: of the anchors, each once.
        strata: of each anchor.
        tests: number to choose, at most that of the anchors.
    """
    members: dict[Hashable, list[int]] = {}
    for place, stratum in enumerate(strata):
        members.setdefault(stratum, []).append(place)
    shares = _shares({stratum: len(own) for stratum, own in members.items()}, tests)
    chosen: list[int] = []
    for stratum, own in members.items():
        chosen += sorted(own, key=lambda place: _order(ids[place]))[: shares[stratum]]
    return sorted(chosen)


def _shares(sizes: Mapping[Hashable, int], tests: int) -> dict[Hashable, int]:
    """Number of tests of each stratum: one of each, as far as they go, and the rest by what is left of each."""
    ordered = sorted(sizes, key=lambda each: _order(str(each)))
    shares = {each: int(place < tests) for place, each in enumerate(ordered)}
    rest, left = tests - sum(shares.values()), sum(sizes.values()) - len(sizes)
    if not rest:
        return shares
    for each in ordered:
        shares[each] += rest * (sizes[each] - 1) // left
    by_remainder = sorted(ordered, key=lambda each: -(rest * (sizes[each] - 1) % left))
    for each in by_remainder[: tests - sum(shares.values())]:
        shares[each] += 1
    return shares


def _order(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
