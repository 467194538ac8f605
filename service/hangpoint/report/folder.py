"""The folder of an answer: `schedule.csv` and `answers.json`, each there whole or not at all."""

import os
from collections.abc import Mapping
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import orjson

from hangpoint.report.schedule import schedule_csv

SCHEDULE = "schedule.csv"
ANSWERS = "answers.json"


def write_answer(answer: Mapping[str, Any], folder: Path) -> None:
    """Write both files; the folder is made if it isn't there, and files of an earlier answer are replaced.

    Raises:
        OSError: the folder or a file can't be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    options = orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE
    _replace(folder / SCHEDULE, schedule_csv(answer).encode())
    _replace(folder / ANSWERS, orjson.dumps(answer, option=options))


def _replace(path: Path, content: bytes) -> None:
    """Write to a temporary name and rename, so that a reader sees the old file or the new one, never a part."""
    with NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}.", delete=False) as temporary:
        try:
            temporary.write(content)
            temporary.close()
            os.chmod(temporary.name, 0o666 & ~_umask())
            os.replace(temporary.name, path)
        except OSError:
            Path(temporary.name).unlink(missing_ok=True)
            raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
