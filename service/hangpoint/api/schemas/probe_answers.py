"""What the answers of reverse questions, remedies, relocations and sensitivities share, and that of reverse questions.

A ``patch`` is a JSON Merge Patch (RFC 7396) of the item: merged into it, it makes an item that can be posted.
"""

from typing import Any, Literal, NotRequired

from pydantic import with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, CodeEdition, EdgeWord, LinkWord, Reason, StatusWord
from hangpoint.api.schemas.codes import FindingCode, ModeCode, TriageCode, Units
from hangpoint.api.schemas.problem import CLOSED, Problem
from hangpoint.api.schemas.words import Combinations, LoadStandard

Patch = dict[str, Any]


@with_config(CLOSED)
class Violation(TypedDict):
    """A finding that fails a point, with its clause and sentence."""

    code: FindingCode
    clause: str
    text: str


@with_config(CLOSED)
class ProbeGoverning(TypedDict):
    """What governs: the first largest utilisation in the order of links and modes."""

    link: LinkWord
    mode: ModeCode
    load_case: str
    text: str
    edge: NotRequired[EdgeWord]


@with_config(CLOSED)
class Outcome(TypedDict):
    """What the check says of an item. ``violations`` fail it whatever its utilisation.

    ``links`` has the utilisation of each link that was checked by one. ``reason`` stands where it is refused,
    ``problem`` where it is invalid. ``cautions`` and ``to_engineer`` are codes of what else the check says.
    """

    status: StatusWord
    utilisation: NotRequired[float]
    governing: NotRequired[ProbeGoverning]
    links: NotRequired[dict[LinkWord, float]]
    violations: list[Violation]
    cautions: list[FindingCode]
    to_engineer: list[TriageCode]
    reason: NotRequired[Reason]
    problem: NotRequired[Problem]


@with_config(CLOSED)
class AnswerHead(TypedDict):
    """What every such answer begins with; ``stated`` is the item as it came."""

    engine_version: str
    design_code: CodeEdition
    combinations: Combinations
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    id: str
    stated: Outcome
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]


Interval = with_config(CLOSED)(
    TypedDict("Interval", {"from": float, "to": float, "from_is_limit": bool, "to_is_limit": bool})
)
Interval.__doc__ = "Values that pass. An end that is no limit is that of the grid."


@with_config(CLOSED)
class Grid(TypedDict):
    """The values that were checked: how many, from where to where, and how they lie."""

    first: float
    last: float
    count: int
    text: str


@with_config(CLOSED)
class SweepRow(TypedDict):
    """One value of the grid and its check; ``because`` has the codes of what stands against it.

    They are those of `findings`, or of `refusals` where it is refused, or of the errors of the problem where it is
    invalid.
    """

    value: float
    status: StatusWord
    utilisation: NotRequired[float]
    mode: NotRequired[ModeCode]
    because: list[str]


@with_config(CLOSED)
class Beyond(TypedDict):
    """The nearest value that does not pass, and its check."""

    value: float
    outcome: Outcome


@with_config(CLOSED)
class SweptAnswer(TypedDict):
    """One value asked for.

    ``value`` is absent where nothing on the grid passes; then ``patch`` and ``at_limit`` are, too. ``stated`` is the
    value of the item, absent where it has none. ``quantity`` is a kind of quantity, or ``factor``; ``unit`` is that of
    all values here. ``by_engineer``: no change that one can build, but what the engineer would have to show.
    ``neighbour``, in place of ``patch``, is a patch of the neighbour whose distance was asked for.
    ``tolerance`` is the share of a value that its end was narrowed to, 0 for what comes in sizes.
    """

    of: str
    sense: Literal["largest", "least"]
    quantity: str
    unit: str
    stated: NotRequired[float]
    value: NotRequired[float]
    text: str
    by_engineer: bool
    intervals: list[Interval]
    grid: Grid
    tolerance: float
    at_limit: NotRequired[Outcome]
    beyond: NotRequired[Beyond]
    patch: NotRequired[Patch]
    neighbour: NotRequired[Patch]
    table: list[SweepRow]


@with_config(CLOSED)
class EnvelopePoint(TypedDict):
    """A point of the boundary. ``several``: farther out on this ray loads pass again, which is not counted.

    ``open``: the ray passes to its end, so the boundary is farther out.
    """

    tension: float
    shear: float
    several: bool
    open: bool
    outcome: Outcome
    patch: Patch


@with_config(CLOSED)
class EnvelopeAnswer(TypedDict):
    """Boundary of tension and shear together, from tension alone to shear alone; ``basis`` says what loads they are."""

    shear_angle: float
    basis: str
    unit: str
    text: str
    grid: str
    tolerance: float
    points: list[EnvelopePoint]


@with_config(CLOSED)
class ReverseCheckAnswer(AnswerHead):
    """Answer to a reverse question: one or two values, or an envelope."""

    question: str
    answers: list[SweptAnswer]
    envelope: NotRequired[EnvelopeAnswer]
