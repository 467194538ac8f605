"""The folder of an answer: a file in each form that is wanted, there whole or not at all."""

import os
from codecs import BOM_UTF8
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

import orjson

from hangpoint.report.lines import answer_lines
from hangpoint.report.schedule import NOTHING_BESIDE, Beside, schedule_csv, schedule_table
from hangpoint.report.workbook import schedule_workbook

Answer = Mapping[str, Any]


def _csv(answer: Answer, beside: Beside) -> bytes:
    return schedule_csv(answer, beside).encode()


def _json(answer: Answer, _: Beside) -> bytes:
    return orjson.dumps(answer, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)


def _lines(answer: Answer, _: Beside) -> bytes:
    return answer_lines(answer)


def _xlsx(answer: Answer, beside: Beside) -> bytes:
    return schedule_workbook(answer, schedule_table(answer, beside))


FILES: Mapping[str, tuple[str, Callable[[Answer, Beside], bytes]]] = {
    "csv": ("schedule.csv", _csv),
    "json": ("answers.json", _json),
    "ndjson": ("answers.ndjson", _lines),
    "xlsx": ("schedule.xlsx", _xlsx),
}
"""Name and maker of the file of each form."""


def answer_files(answer: Answer, formats: Iterable[str], beside: Beside = NOTHING_BESIDE) -> dict[str, bytes]:
    """A file in each form, by its name; ``beside`` goes into schedules."""
    return {FILES[form][0]: FILES[form][1](answer, beside) for form in dict.fromkeys(formats)}


def write_files(folder: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Write files by name; the folder is made if it isn't there, and older files of the names are replaced.

    A CSV begins with the byte order mark of UTF-8: without it spreadsheets take it for the encoding of their place.

    Raises:
        OSError: the folder or a file can't be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        _replace(folder / name, BOM_UTF8 + content if name.endswith(".csv") else content)
    return [folder / name for name in files]


def remove_files(folder: Path, patterns: Iterable[str], *, but: Iterable[Path]) -> None:
    """Remove what an earlier run wrote under names of these patterns and this one did not.

    Raises:
        OSError: a file can't be removed.
    """
    for old in {path for pattern in patterns for path in folder.glob(pattern)}.difference(but):
        old.unlink()


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
