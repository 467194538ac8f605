"""A product stated in a request instead of taken from the catalogue: one row, in the schema of a family file.

Sub-models, ranges and the rules of presence and order are those of a file. Values beyond 17.3.4, 17.6.3.2.2b or 17.9,
or below the spacing of EN 1992-4, 7.2.2.5(4), are left to the check, which reports them with the point.
"""

from typing import Annotated, Any, Self

from pydantic import Field, model_validator

from hangpoint.product import consistency
from hangpoint.product.allowable_table import AllowableTable
from hangpoint.product.embedment import Embedment
from hangpoint.product.family import Base, Basis, Material, Principle, SizeData, Source, Suitability
from hangpoint.product.fields import Model, Units
from hangpoint.product.product_row import product_row
from hangpoint.product.table import INLINE_FAMILY, ProductTable, one_row_table

ADDRESS = "inline"


class InlineTraits(Suitability):
    """What the product is fit for. Whatever is silent is taken as not so; the base is then concrete."""

    removable: Annotated[bool, Field(description="Can be taken out. It must not be set again (17.1.3).")] = False
    internally_threaded: Annotated[
        bool, Field(description="Takes a rod in an internal thread; `thread` is then stated.")
    ] = False
    bases: Annotated[
        tuple[Base, ...],
        Field(strict=False, min_length=1, max_length=4, description="Bases that the product is made for."),
    ] = ("concrete",)
    tension_overhead: Annotated[
        bool, Field(description="May hang loads from a soffit. Silent or false: refused overhead.")
    ] = False
    sustained_tension: Annotated[
        bool, Field(description="May carry tension that stays (17.5.2.2 for adhesive anchors).")
    ] = False


class InlineProduct(Model):
    """One product: one size with one embedment. Supplied figures name their document and date (`source`)."""

    units: Annotated[Units, Field(description="Unit system of every number of the product.")]
    principle: Annotated[Principle, Field(description="How it holds, in the words of ACI 355.2 and 355.4.")]
    basis: Annotated[Basis, Field(description="What the figures are.")]
    name: Annotated[str | None, Field(min_length=1, max_length=256, description="Name in words.")] = None
    source: Annotated[Source | None, Field(description="Where the figures come from; absent: a violation.")] = None
    material: Annotated[Material | None, Field(description="Steel and coating; absent: corrosion can't be judged.")] = (
        None
    )
    traits: InlineTraits = InlineTraits()
    size: SizeData
    embedment: Embedment
    tables: Annotated[
        tuple[AllowableTable, ...],
        Field(
            strict=False,
            max_length=20,
            description="Tables of allowable service loads; rows of the size and embedment of the product.",
        ),
    ] = ()

    @model_validator(mode="after")
    def _consistent(self) -> Self:
        consistency.refuse_first(consistency.record_flaws(self))
        return self

    def to_table(self) -> ProductTable:
        """The product as a table of one row, with the address "inline"; never marked as invented."""
        row: dict[str, Any] = product_row(
            principle=self.principle,
            basis=self.basis,
            units=self.units,
            traits=self.traits,
            size=self.size,
            embedment=self.embedment,
            tables=self.tables,
            material=self.material,
        )
        return one_row_table(
            row
            | {
                "address": ADDRESS,
                "family_index": INLINE_FAMILY,
                "invented": False,
                "has_source": self.source is not None,
            }
        )
