"""Committed answers: how they are made and how they are compared.

They are change detectors and verify nothing: each was written by the service itself. Run this file to write them
anew, and read the difference line by line before it is committed:

    python tests/regression/answers.py
"""

import csv
import io
import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hangpoint.api.resources import RESOURCES

ROOT = Path(__file__).resolve().parents[2]
REQUESTS = ROOT / "examples" / "requests"
WORKED_DAY = ROOT / "examples" / "worked-day"
JOB = ROOT / "examples" / "invented-clinic" / "hang_points.csv"
HERE = Path(__file__).resolve().parent
SCHEDULE = HERE / "invented_clinic.schedule.csv"
MODES = HERE / "invented_clinic.modes.csv"

RTOL = 1e-9
VOLATILE = {"/engine_version", "/request_digest", "/catalogue/hash"}
"""Places of an answer that name what made it."""

PATHS = {"item": "/v1/hang-point", "group": "/v1/anchor-group", "items": "/v1/hang-points"}
"""Addresses by the member of a body that says what is checked; items of a kind are hanger loads."""

HANGER_LOADS = "/v1/hanger-loads"

MODE_COLUMNS = ("id", "mode", "edge", "load_case", "design_strength", "demand", "utilisation")


def requests() -> list[Path]:
    """Every example of a request: what is neither an answer nor a file of defaults."""
    every = (path for folder in (REQUESTS, WORKED_DAY) for path in sorted(folder.glob("*.json")))
    return [path for path in every if not path.name.endswith(".answer.json") and address(path)]


def answer_file(request: Path) -> Path:
    """Where the answer to an example stands."""
    return request.with_name(f"{request.stem}.answer.json")


def post(client: Any, request: Path) -> Any:
    """Send an example to its address."""
    return client.post(address(request), content=request.read_bytes(), headers={"Content-Type": "application/json"})


def address(request: Path) -> str | None:
    """Where a body goes: by the resource that its name begins with, else by what it has; None where it asks nothing."""
    named = [each.path for each in RESOURCES if request.stem.startswith(noun(each.path))]
    if named:
        return max(named, key=len)
    stated = json.loads(request.read_bytes())
    if any("kind" in item for item in stated.get("items", ())):
        return HANGER_LOADS
    return next((PATHS[name] for name in PATHS if name in stated), None)


def noun(path: str) -> str:
    """What the files of examples of a resource begin with."""
    return path.removeprefix("/v1/").replace("-", "_")


def differences(old: Any, new: Any, place: str = "") -> Iterator[str]:
    """Where two answers differ by more than the tolerance."""
    if place in VOLATILE:
        return
    if isinstance(old, dict) and isinstance(new, dict):
        if list(old) != list(new):
            yield f"{place}: {list(old)} became {list(new)}"
            return
        for key in old:
            yield from differences(old[key], new[key], f"{place}/{key}")
    elif isinstance(old, list) and isinstance(new, list):
        if len(old) != len(new):
            yield f"{place}: {len(old)} entries became {len(new)}"
            return
        for at, pair in enumerate(zip(old, new, strict=True)):
            yield from differences(*pair, f"{place}/{at}")
    elif isinstance(old, float) and isinstance(new, float):
        if not math.isclose(old, new, rel_tol=RTOL):
            yield f"{place}: {old!r} became {new!r}"
    elif old != new or type(old) is not type(new):
        yield f"{place}: {old!r} became {new!r}"


def table(text: str) -> list[list[Any]]:
    """A CSV with its numbers as numbers."""
    return [[_number(cell) for cell in row] for row in csv.reader(io.StringIO(text, newline=""))]


def _number(cell: str) -> Any:
    try:
        return float(cell)
    except ValueError:
        return cell


def job_tables() -> tuple[str, str]:
    """Schedule of the job, and every mode of every point, as CSV."""
    from hangpoint.api.batch import Limits
    from hangpoint.api.run import CSV, RunOptions, run_batch
    from hangpoint.product.catalogue import load_catalogue
    from hangpoint.report.schedule import schedule_csv

    options = RunOptions(catalogue=load_catalogue(None), limits=Limits(), detail="modes")
    run = run_batch(JOB.read_bytes(), CSV, options)
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(MODE_COLUMNS)
    for item in run.answer["items"]:
        for mode in item.get("modes", ()):
            if mode["applies"]:
                writer.writerow([item["id"], *(mode.get(name, "") for name in MODE_COLUMNS[1:])])
    return schedule_csv(run.answer).replace("\r\n", "\n"), out.getvalue()


def write() -> None:
    """Write every committed answer anew."""
    from starlette.testclient import TestClient

    from hangpoint.app import create_app

    client = TestClient(create_app())
    for request in requests():
        answer_file(request).write_text(json.dumps(post(client, request).json(), indent=2) + "\n", encoding="utf-8")
    for path, text in zip((SCHEDULE, MODES), job_tables(), strict=True):
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    write()
