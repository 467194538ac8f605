"""Family files to start from: fresh copies of the built-in ones, and a way to write them to disk."""

import json
from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import Any

import pytest


@pytest.fixture
def document() -> Callable[[str], dict[str, Any]]:
    def read(family: str) -> dict[str, Any]:
        return json.loads(resources.files("hangpoint.product").joinpath("data", f"{family}.json").read_text("utf-8"))

    return read


@pytest.fixture
def save(tmp_path: Path) -> Callable[..., Path]:
    def write(content: Any, name: str = "family.json") -> Path:
        file = tmp_path / name
        file.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return file

    return write
