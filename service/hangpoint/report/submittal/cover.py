"""The cover of a submittal: what it is of, whether its points hold, its parts, and room to sign and to stamp."""

from collections.abc import Mapping
from typing import Any

from hangpoint.core.vocabulary import MODE_TEXTS
from hangpoint.report.paper import head, listed, signatures
from hangpoint.report.printable import on_page

Answer = Mapping[str, Any]

COVER_STYLE = """
th.page, td.page { display: none; }
"""
_SIGNED = (
    "All parts are made of one check of one request: the first twelve signs of its digest stand at the foot of every"
    " page. Who signs or stamps this cover does so for the points that pass and for no others."
)
_COUNTS = {
    "passed": "pass",
    "passed_on_assumptions": "of them on assumptions",
    "failed": "fail",
    "refused": "refused: not checked",
    "invalid": "invalid: not checked",
    "total": "all",
}


def cover(answer: Answer) -> str:
    """What stands on the cover."""
    summary = answer["summary"]
    lines = "".join(f"<p>{on_page(each)}</p>" for each in answer["statement"])
    title = answer.get("project", {}).get("name", "Hang points")
    return (
        f"{head(answer, 'Submittal of hang points', title)}"
        f'<div class="verdict"><strong>{on_page(_lead(summary))}</strong>{lines}</div>\n'
        f"{_parts(answer)}"
        f'<div class="two"><div>{_counts(summary)}</div><div>{_governing(summary)}</div></div>\n'
        f"{listed('Cautions', map(on_page, answer['cautions']))}"
        f'<section class="end"><p class="small">{on_page(_SIGNED)} Request {on_page(answer["request_digest"])},'
        f" catalogue {on_page(answer['catalogue']['hash'])}.</p>"
        f'{signatures()}<div class="stamp">Review stamp</div></section>\n'
    )


def _lead(summary: Mapping[str, int]) -> str:
    if summary["failed"]:
        return "This submittal contains points that fail"
    if summary["refused"] or summary["invalid"]:
        return "This submittal contains points that were not checked"
    return "Every point of this submittal passes"


def _parts(answer: Answer) -> str:
    head_row = '<tr><th>Part</th><th>Contents</th><th class="page">Page</th></tr>'
    rows = "".join(
        f'<tr><td>{each["number"]} <a href="#{place_of(each)}">{on_page(each["title"])}</a></td>'
        f'<td>{on_page(each["contents"])}</td><td class="page"><a class="page" href="#{place_of(each)}"></a></td></tr>'
        for each in answer["parts"]
    )
    return f"<section><h2>Parts</h2><table><thead>{head_row}</thead><tbody>{rows}</tbody></table></section>\n"


def place_of(part: Mapping[str, Any]) -> str:
    """Where a part begins."""
    return f"part-{part['number']}"


def _counts(summary: Mapping[str, int]) -> str:
    return _facts("Points", {text: summary[name] for name, text in _COUNTS.items()})


def _governing(summary: Mapping[str, Any]) -> str:
    counts = sorted(summary["governing"].items(), key=lambda each: -each[1])
    return _facts("What governs", {str(MODE_TEXTS.get(mode, mode)): count for mode, count in counts}) if counts else ""


def _facts(title: str, facts: Mapping[str, Any]) -> str:
    rows = "".join(
        f'<tr><td>{on_page(name)}</td><td class="number">{on_page(text)}</td></tr>' for name, text in facts.items()
    )
    return f"<section><h2>{title}</h2><table><tbody>{rows}</tbody></table></section>"
