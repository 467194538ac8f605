"""Exceptions of the project.

    HangpointError
    ├── CatalogueError      a family file can't be loaded: file, path, reason
    └── NonFiniteError      a number that is not finite reached a verdict or the packer: a defect of ours, never the
                            caller's

A point that can't be computed is not an exception: it is a status of that point (see ``vocabulary``).
"""


class HangpointError(Exception):
    """Root of every exception raised on purpose."""


class CatalogueError(HangpointError):
    """A family file can't be used. Says which file, where in it, why, and what to do."""

    def __init__(self, file: str, path: str, reason: str) -> None:
        self.file = file
        self.path = path
        self.reason = reason
        super().__init__(f"{file}: {path}: {reason}")


class NonFiniteError(HangpointError):
    """A strength, demand or utilisation that is not a finite number was about to leave the service."""
