"""What a submittal leaves open, each said once with the points that it concerns."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.paper import head, listed
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import bracketed
from hangpoint.report.submittal.concerned import Concerned

Answer = Mapping[str, Any]

_TITLES = {
    "questions": "Questions to the engineer",
    "findings": "Cautions and notes",
    "assumptions": "Assumptions, where the request is silent",
    "not_checked": "Not checked",
}


def open_items(answer: Answer, title: str) -> str:
    """What stands in the part."""
    concerned = Concerned(answer)
    lists = "".join(listed(name, _shown(answer["open_items"][kind], concerned)) for kind, name in _TITLES.items())
    return head(answer, "Submittal of hang points", title) + lists


def _shown(found: Sequence[Mapping[str, Any]], concerned: Concerned) -> Iterator[str]:
    for each in found:
        severity = f"{each['severity']}: " if "severity" in each else ""
        texts = (each["text"], *([each["question"]] if "question" in each else ()), *bracketed(each.get("clause", "")))
        yield f"{sentence(severity + ' '.join(texts))} <small>Concerns {on_page(concerned.text(each['ids']))}.</small>"
