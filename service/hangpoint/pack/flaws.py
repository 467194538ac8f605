"""What is wrong with items of a request, each with its place: an item with a flaw is invalid, the others go on."""

from collections.abc import Iterable
from dataclasses import dataclass, field

MAX_ALLOWED = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """One thing wrong with one item.

    ``path`` is the place inside the item (``base/thickness``); ``from_defaults`` says that the value came from the
    defaults of the request. ``slug`` names the kind of problem; ``allowed`` what would have done.
    """

    path: str
    slug: str
    code: str
    detail: str
    allowed: tuple[str, ...] = ()
    from_defaults: bool = False


@dataclass(slots=True)
class Flaws:
    """Flaws by row of the batch."""

    by_row: dict[int, list[Flaw]] = field(default_factory=dict[int, list[Flaw]])

    def add(
        self,
        row: int,
        path: str,
        detail: str,
        *,
        slug: str = "validation",
        code: str = "",
        allowed: Iterable[str] = (),
        from_defaults: bool = False,
    ) -> None:
        """Note a flaw of the item in this row."""
        self.by_row.setdefault(row, []).append(
            Flaw(
                path=path,
                slug=slug,
                code=code or slug,
                detail=detail,
                allowed=tuple(allowed)[:MAX_ALLOWED],
                from_defaults=from_defaults,
            )
        )
