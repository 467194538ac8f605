"""Choosing the products of a whole job: request and answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.answer import CatalogueVersion, CodeEdition, InvalidResult, Summary
from hangpoint.api.schemas.choices import MAX_JOB_POINTS, JobObjective, OpenPoint, PartialOpenPoint, Traits
from hangpoint.api.schemas.codes import FindingCode, TriageCode, Units
from hangpoint.api.schemas.layouts import STRICT
from hangpoint.api.schemas.problem import CLOSED
from hangpoint.api.schemas.selections import GoverningMode, NamedAnchor, Nearest, Needs
from hangpoint.api.schemas.words import Combinations, DesignCode, LoadStandard, Neighbours, UnitSystem
from hangpoint.product.family import Principle

MAX_KINDS = 20
Kinds = Annotated[int, Field(ge=1, le=MAX_KINDS)]


@with_config(STRICT)
class JobWant(Traits, total=False):
    """What the job has least of, over all its anchors, and the traits that every product has."""

    objective: JobObjective


@with_config(STRICT)
class JobLimits(TypedDict, total=False):
    """At most so many different products, diameters of bits, and families; no limit where none is stated."""

    products: Kinds
    bits: Kinds
    families: Kinds


@with_config(STRICT)
class JobSelectionsRequest(TypedDict):
    """The points of a job without products. ``most_products`` is where the list of what each further kind saves ends.

    It ends before where no further product saves anything.
    """

    units: UnitSystem
    design_code: NotRequired[DesignCode]
    combinations: NotRequired[Combinations]
    load_standard: NotRequired[LoadStandard]
    neighbours: NotRequired[Neighbours]
    want: NotRequired[JobWant]
    limits: NotRequired[JobLimits]
    most_products: NotRequired[Kinds]
    defaults: NotRequired[PartialOpenPoint]
    items: Annotated[list[OpenPoint], Field(min_length=1, max_length=MAX_JOB_POINTS)]


@with_config(CLOSED)
class JobTotals(TypedDict):
    """Sums over anchors; cost index and minutes are absent where the data of a product state none."""

    points: int
    anchors: int
    cost_index: NotRequired[float]
    minutes: NotRequired[float]
    drilled_depth: float


@with_config(CLOSED)
class JobProduct(JobTotals):
    """A product of the plan, and how many points and anchors it is for."""

    product: str
    name: str
    data: Literal["invented", "supplied"]
    principle: Principle
    anchor: NamedAnchor
    needs: Needs


@with_config(CLOSED)
class CurveEntry(TypedDict):
    """The least sum of the objective with at most so many products; ``saves`` against one product fewer."""

    products: int
    total: float
    gap: float
    saves: NotRequired[float]


@with_config(CLOSED)
class ProductPlan(TypedDict):
    """What is planned.

    ``total`` is the sum of the objective, ``bound`` what no plan can be below, ``gap`` their difference by the total.
    ``fewest_products`` hold every point that can be held; absent where the other limits forbid it. Where
    ``recheck.planned_anew`` has points, all of it is of the products left there. Beside neighbours not every mix of
    products is tried.
    """

    status: Literal["planned", "nothing_held", "limits_too_tight", "timed_out"]
    text: str
    total: NotRequired[float]
    bound: NotRequired[float]
    gap: NotRequired[float]
    fewest_products: NotRequired[int]
    totals: NotRequired[JobTotals]
    products: list[JobProduct]
    bits: list[float]
    curve: list[CurveEntry]


@with_config(CLOSED)
class Recheck(TypedDict):
    """The chosen points checked once more together, neighbours and all; those that don't pass by their id.

    ``reserve_not_kept``: those that pass, and use more of anchor and base than the wanted reserve leaves.
    ``planned_anew``: those with another product than the least would be without neighbours, because of these.
    """

    summary: Summary
    not_passed: list[str]
    reserve_not_kept: list[str]
    planned_anew: list[str]
    text: str


@with_config(CLOSED)
class JobPointCheck(TypedDict):
    """The point in the check of all together; what governs may be its rod.

    ``reserve_kept`` is of anchor and base, by loads as well that may be absent or act in another sense.
    """

    status: Literal["passed", "failed", "refused", "invalid"]
    utilisation: NotRequired[float]
    text: NotRequired[str]
    reserve_kept: NotRequired[bool]
    near: list[str]


@with_config(CLOSED)
class JobPoint(TypedDict):
    """A point of the job. ``candidates`` hold it, each alone; utilisation is of anchor and base, alone.

    ``cautions`` and ``to_engineer`` are codes of its check.
    """

    id: str
    index: int
    status: Literal["held", "not_held", "not_planned"]
    candidates: int
    product: NotRequired[str]
    anchor: NotRequired[NamedAnchor]
    utilisation: NotRequired[float]
    governing: NotRequired[GoverningMode]
    cautions: NotRequired[list[FindingCode]]
    to_engineer: NotRequired[list[TriageCode]]
    recheck: NotRequired[JobPointCheck]
    nearest: NotRequired[Nearest]


@with_config(CLOSED)
class JobSummary(TypedDict):
    """Counts of points; ``situations`` are different ones, ``checks`` pairs of situation and candidate."""

    total: int
    held: int
    not_held: int
    not_planned: int
    invalid: int
    situations: int
    checks: int


@with_config(CLOSED)
class JobSelectionsAnswer(TypedDict):
    """The products of a job."""

    engine_version: str
    design_code: CodeEdition
    combinations: Combinations
    load_standard: LoadStandard
    catalogue: CatalogueVersion
    units: Units
    objective: JobObjective
    reserve: float
    request_digest: str
    summary: JobSummary
    plan: ProductPlan
    recheck: NotRequired[Recheck]
    assumptions: dict[str, str]
    not_checked: dict[str, str]
    cautions: list[str]
    items: list[JobPoint | InvalidResult]
