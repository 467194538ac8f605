"""The pages that a newcomer reads, README and guides, as what they hold: commands and blocks, in their order."""

import json
import math
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
GUIDES = sorted((ROOT / "examples" / "guides").glob("*.md"))
PAGES = [ROOT / "README.md", *GUIDES]
FENCE = re.compile(r"(?:^<!-- (?P<mark>[^\n]*) -->\n)?^```(?P<kind>\w*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
RTOL = 1e-9


@dataclass(frozen=True)
class Block:
    """A fenced block: ``mark`` is the comment above it, which says what it is."""

    mark: str
    kind: str
    text: str


def parts(page: Path) -> list[str | Block]:
    """Commands, which are indented by four, and fenced blocks."""
    text = page.read_text("utf-8")
    found: list[str | Block] = []
    end = 0
    for fence in FENCE.finditer(text):
        found += commands(text[end : fence.start()])
        found.append(Block(fence["mark"] or "", fence["kind"], fence["text"]))
        end = fence.end()
    return found + commands(text[end:])


def commands(text: str) -> list[str]:
    """Lines that are indented by four; one that ends with a backslash goes on."""
    joined = re.sub(r"\\\n *", "", text)
    return [line.strip() for line in joined.splitlines() if line.startswith("    ")]


def is_part(shown: Any, whole: Any) -> bool:
    """Whether an answer that is shown says nothing but what the whole one says.

    Members may be left out, and entries of a list of objects; what is shown keeps its order. Floats: to ``RTOL``.
    """
    if isinstance(shown, dict):
        return isinstance(whole, dict) and all(key in whole and is_part(shown[key], whole[key]) for key in shown)
    if isinstance(shown, list) and shown and isinstance(shown[0], dict):
        rest = iter(whole if isinstance(whole, list) else ())
        return all(any(is_part(each, other) for other in rest) for each in shown)
    if isinstance(shown, list):
        return isinstance(whole, list) and len(shown) == len(whole) and all(map(is_part, shown, whole))
    if isinstance(shown, float) and isinstance(whole, float):
        return math.isclose(shown, whole, rel_tol=RTOL)
    return type(shown) is type(whole) and shown == whole


def heads(page: Path) -> set[str]:
    """Anchors of the headings of a page, as what shows Markdown makes them of their words."""
    text = re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
    return {anchor(head) for head in re.findall(r"^#+ (.*)$", text, flags=re.MULTILINE)}


def anchor(head: str) -> str:
    """The anchor of a heading."""
    return re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-")


def links(page: Path) -> list[str]:
    """Addresses of the links of a page that lead into the repository."""
    text = re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
    return [link for link in re.findall(r"\]\(([^)\s]+)\)", text) if "://" not in link]


def shown(block: Block) -> Any:
    """What a block of JSON says."""
    return json.loads(block.text)
