"""Which anchors of a group are tested: spread over levels, areas, crews and days, the same for the same ids.

No random number: the order within a stratum is that of a hash of the id, so it looks like chance, nobody can choose,
and the order of the request does not matter.
"""

import hashlib
from collections.abc import Hashable, Mapping, Sequence


def sampled(ids: Sequence[str], strata: Sequence[Hashable], tests: int) -> list[int]:
    """Places of the anchors that are tested, rising.

    Every stratum has one at least where ``tests`` suffice; the rest is spread by the sizes of the strata (largest
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
    """Number of tests of each stratum, at least one where there are as many tests as strata."""
    total = sum(sizes.values())
    whole = {each: tests * size // total for each, size in sizes.items()}
    by_need = sorted(sizes, key=lambda each: (whole[each] > 0, -(tests * sizes[each] % total), _order(str(each))))
    for each in by_need[: tests - sum(whole.values())]:
        whole[each] += 1
    for empty in (each for each in by_need if not whole[each]):
        fullest = max(whole, key=lambda each: (whole[each], _order(str(each))))
        if whole[fullest] < 2:
            break
        whole[fullest] -= 1
        whole[empty] += 1
    return whole


def _order(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
