"""Parts of a drawing as SVG; sizes in px, kinds are classes of the drawing's own style."""

from hangpoint.report.printable import on_page

Spot = tuple[float, float]


def box(one: Spot, other: Spot, kind: str) -> str:
    """A rectangle between its upper left and its lower right corner."""
    (x0, y0), (x1, y1) = one, other
    return f'<rect class="{kind}" x="{x0:.1f}" y="{y0:.1f}" width="{x1 - x0:.1f}" height="{y1 - y0:.1f}"/>'


def line(one: Spot, other: Spot, kind: str) -> str:
    """A line between two places."""
    return f'<line class="{kind}" x1="{one[0]:.1f}" y1="{one[1]:.1f}" x2="{other[0]:.1f}" y2="{other[1]:.1f}"/>'


def caption(at: Spot, text: str, kind: str = "") -> str:
    """A text at a place, in the middle of it unless its kind says otherwise."""
    named = f' class="{kind}"' if kind else ""
    return f'<text{named} x="{at[0]:.1f}" y="{at[1]:.1f}">{on_page(text)}</text>'
