"""The request behind a question: situation, item, its check as stated, and the head of every answer."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint import __version__
from hangpoint.api.batch import DESIGN_CODES, assumed_of
from hangpoint.api.bodies import plain_json, read_whole
from hangpoint.api.check_rows import WHAT
from hangpoint.api.load_standards import EN1992_4, load_standard_of
from hangpoint.api.problems import FieldError, ProblemError, too_many, without_defaults
from hangpoint.api.reverse.merge_patch import merged
from hangpoint.api.reverse.probes import ITEM, Outcome, Probes, Situation, packed_probes, probe
from hangpoint.api.reverse.words import outcome_json
from hangpoint.core.hang_point.cases import by_service, case_rows, row_counts
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Index
from hangpoint.core.vocabulary import CAUTIONS
from hangpoint.pack.objects import value_at
from hangpoint.product.catalogue import Catalogue
from hangpoint.units import PRINTED, System

LARGEST_LAYOUT = 16
"""Anchors of a layout that is checked hundreds of times: larger ones have thousands of sets of anchors each."""

MAX_ROWS = 128
"""Anchors times load cases of what is checked hundreds of times."""

MAX_PAIR_ROWS = 640
"""The same of two points near each other, in the senses of their earthquake and the patterns of their loads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A request as read. ``item`` is plain JSON; ``own`` are the probes of it alone, ``stated`` is what it gives."""

    body: Mapping[str, Any]
    situation: Situation
    item: Mapping[str, Any]
    own: Probes
    stated: Outcome

    @property
    def system(self) -> System:
        """Unit system of the request."""
        return self.situation.units

    @property
    def by_en(self) -> bool:
        """The item goes by EN 1992-4."""
        return self.situation.design_code == EN1992_4

    @property
    def by_allowable(self) -> bool:
        """Whether the item is held against an allowable load alone, which service loads meet."""
        found = by_service(self.own.packed.points)
        return found is not None and bool(found.all())

    def changed(self, told: Iterable[Mapping[str, Any]]) -> list[Any]:
        """The item with the patch of each part of an answer that has one."""
        return [merged(self.item, each["patch"]) for each in told if "patch" in each]

    def head(self, told: Sequence[Any] = ()) -> dict[str, Any]:
        """The members that every answer begins with.

        ``told`` are the items that the answer tells of beside that of the request: what is assumed of them, or not
        checked, is said with what is of that.
        """
        code = self.situation.design_code or "aci318_19"
        packed = packed_probes([self.item, *told], self.situation).packed if told else self.own.packed
        catalogue = self.situation.catalogue
        return {
            "engine_version": __version__,
            "design_code": {"id": code, "edition": DESIGN_CODES[code]},
            "combinations": self.situation.combinations or "strength",
            "load_standard": load_standard_of(self.situation.design_code, self.situation.load_standard),
            "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
            "units": PRINTED[self.system],
            "id": self.item["id"],
            "stated": outcome_json(self.stated),
            "assumptions": assumed_of(self.situation.batch([self.item], {}), packed),
            "not_checked": packed.not_checked.said(),
            "cautions": list(CAUTIONS),
        }


def read_asked(request: Any, body: bytes, catalogue: Catalogue) -> Asked:
    """Read a request about one item, and check the item as it is stated.

    Args:
        request: its typed dictionary.
        body: as it came.
        catalogue: products by address.

    Raises:
        ProblemError: not JSON, not valid, or the item can't be checked at all, or is too large.
    """
    read_whole(request, body)
    plain = plain_json(body)
    situation = Situation(
        units=plain["units"],
        design_code=plain.get("design_code"),
        combinations=plain.get("combinations"),
        load_standard=plain.get("load_standard"),
        catalogue=catalogue,
    )
    _refuse_large(plain["item"], situation)
    own = probe([plain["item"]], situation)
    return Asked(body=plain, situation=situation, item=plain["item"], own=own, stated=own.outcome(0))


def _refuse_large(item: Any, situation: Situation) -> None:
    own = packed_probes([item], situation)
    if not own.packed.points.count:
        raise invalid(own.outcome(0))
    anchors = len(own.packed.points.layouts.point)
    if anchors > LARGEST_LAYOUT:
        raise unanswerable(
            "#/item/anchor/layout",
            f"The layout has {anchors} anchors; questions that check an item hundreds of times take {LARGEST_LAYOUT}.",
            code="out-of-range",
        )
    refuse_rows(own.packed.points, situation)


def refuse_rows(points: Points, situation: Situation, group: Index | None = None) -> None:
    """Refuse points that are checked hundreds of times with more rows than `MAX_ROWS`; near ones also with more than
    `MAX_PAIR_ROWS` in all senses and patterns.

    Raises:
        ProblemError: too many.
    """
    stated = row_counts(points, situation.basis) if group is None else case_rows(points, situation.basis, group)
    _refuse(int(stated.sum()), MAX_ROWS)
    if group is not None:
        _refuse(int(row_counts(points, situation.basis, group).sum()), MAX_PAIR_ROWS)


def _refuse(rows: int, most: int) -> None:
    if rows > most:
        raise too_many(WHAT, rows, most, who="question", instead="State the load cases that may govern only.")


def invalid(outcome: Outcome, place: str = ITEM) -> ProblemError:
    """The problem of an item that can't be checked; ``place`` is the pointer of it in the body."""
    problem = placed(outcome.problem or {}, place)
    errors = [
        FieldError(
            pointer=each["pointer"], code=each["code"], detail=each["detail"], allowed=tuple(each.get("allowed", ()))
        )
        for each in problem["errors"]
    ]
    return ProblemError(str(problem["type"]).removeprefix("/problems/"), problem["detail"], errors=errors)


def needed(asked: Asked, *path: str) -> Any:
    """What the item states at a place that a question is about.

    Raises:
        ProblemError: it states nothing there, as in a base whose anchors are not checked.
    """
    found = value_at(asked.item, *path)
    if found in (None, {}):
        raise unanswerable(
            "/".join(("#/item", *path)), "The question is about what the item does not state.", code="missing"
        )
    return found


def placed(problem: Mapping[str, Any], place: str) -> dict[str, Any]:
    """A problem of a probe with the place of its item in the body, which has no defaults."""
    errors = [
        {**each, "pointer": each["pointer"].replace(ITEM, place, 1), "detail": without_defaults(each["detail"])}
        for each in problem["errors"]
    ]
    detail = without_defaults(str(problem["detail"]).replace(ITEM, place, 1))
    return {**problem, "detail": detail, "errors": errors}


def unanswerable(
    place: str, detail: str, *, code: str = "contradiction", allowed: tuple[str, ...] = ()
) -> ProblemError:
    """The problem of a question that this item has no answer to."""
    error = FieldError(pointer=place, code=code, detail=detail, allowed=allowed)
    return ProblemError("validation", f"{place}: {detail}", errors=[error])
