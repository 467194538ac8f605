"""Lists on a terminal: the columns of a CSV, and the families of a catalogue."""

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table

from hangpoint.report.terminal_texts import styled

Line = tuple[str, str]


def print_list(console: Console, sections: Iterable[tuple[str, Sequence[Line]]]) -> None:
    """Sections of lines, each a name and what is said of it, beneath a title."""
    for title, lines in sections:
        if not lines:
            continue
        console.print(styled(title, "bold"))
        table = Table(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 2), expand=True)
        table.add_column(overflow="fold", max_width=max(24, min(44, console.width // 2)))
        table.add_column(overflow="fold", ratio=1)
        for name, text in lines:
            table.add_row(styled(name), styled(text))
        console.print(table)
        console.print()
