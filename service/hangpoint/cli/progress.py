"""A bar over the stages of a command that takes its time."""

from collections.abc import Callable, Generator
from contextlib import contextmanager


@contextmanager
def progress(stages: list[str]) -> Generator[Callable[[str], None]]:
    """A bar over the stages of a check on the error stream; nothing where that is no terminal."""
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

    console = Console(stderr=True)
    shown = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    with Progress(*shown, console=console, disable=not console.is_terminal) as bar:
        task = bar.add_task(stages[0], total=len(stages))

        def stage(name: str) -> None:
            bar.update(task, description=name, completed=stages.index(name))

        yield stage
        bar.update(task, description="done", completed=len(stages))
