"""What the products that come into question for a point ask of its base, while both are still being described."""

from collections.abc import Mapping
from typing import Any

from hangpoint.pack.allowables import LIMITS, masonry_bolts, tested_at
from hangpoint.pack.anchors import inline_products, product_rows
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.pull import EMPTY, Rows
from hangpoint.product.allowable_rows import AllowableLoad
from hangpoint.product.catalogue import Catalogue
from hangpoint.product.table import ProductTable
from hangpoint.units import System


def product_of(anchor: Mapping[str, Any], *, system: System, catalogue: Catalogue) -> ProductTable | None:
    """The product that an anchor names or states inline, a table of one row; None where it is none that a check takes.

    Args:
        anchor: as the item states it.
        system: of the request.
        catalogue: products by address.
    """
    flaws = Flaws()
    rows = Rows([anchor], default=EMPTY, path="anchor/", index=[0], local=[0], system=system, flaws=flaws)
    table, row = product_rows(rows, catalogue, inline_products(rows))
    return None if flaws.by_row else table.take(row)


def distances_asked(products: ProductTable, kind: str, stated: Mapping[str, Any]) -> frozenset[str]:
    """Paths within the base of the distances that tables of some products limit, as far as the place is known.

    Args:
        products: that come into question.
        kind: of the base.
        stated: what is stated of a base of that kind.
    """
    location = stated.get("location") or ("face" if kind == "masonry" else None)

    def holds(load: AllowableLoad) -> bool:
        """Whether a row may be that of the point."""
        return (
            load.family_base == kind
            and stated.get("units") in (None, load.units)
            and stated.get("material") in (None, load.material)
            and (location is None or tested_at(load, location))
        )

    found = [load for own in products.loads for load in own if holds(load)]
    return frozenset(path for path, limit in LIMITS.items() if any(getattr(load, limit) > 0 for load in found))


def goes_by_formula(product: ProductTable, kind: str, stated: Mapping[str, Any]) -> bool:
    """Whether the one product is a bolt that goes by formula where it is."""
    return kind == "masonry" and stated.get("units") == "grouted" and bool(masonry_bolts(product).all())
