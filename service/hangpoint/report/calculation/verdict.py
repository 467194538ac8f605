"""The box at the head of a calculation sheet: whether a point holds, and why not."""

from collections.abc import Mapping

from hangpoint.core.vocabulary import Status
from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.calculation.sections import anchors_text
from hangpoint.report.calculation.subject import Subject
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import error_texts, of_mode, percent, refusal, violations

_LEADS = {Status.PASSED: "Holds", Status.FAILED: "Does not hold", Status.REFUSED: "Not checked"}


def verdict(subject: Subject, units: Mapping[str, str]) -> str:
    """What does not hold stands before how far what was computed is used."""
    result = subject.result
    lead = _LEADS.get(result["status"], "Not understood")
    if result.get("on_assumptions") and result["status"] != Status.REFUSED:
        lead += ", on the assumptions listed below"
    shown = [*map(on_page, error_texts(result)), *map(sentence, (*refusal(result), *violations(result, units)))]
    if "governing" in result:
        shown.append(on_page(_most_used(subject)))
    lines = "".join(f"<p>{each}</p>" for each in shown)
    return f'<div class="verdict"><strong>{on_page(lead)}</strong>{lines}</div>\n'


def _most_used(subject: Subject) -> str:
    """How far a point is used; nothing governs one that was not checked, or that fails by something else."""
    result = subject.result
    governing, status = result["governing"], result["status"]
    used = percent(governing["utilisation"])
    if status == Status.REFUSED:
        return (
            f"Of what could be computed {used} is used: {of_mode(governing)}. It says nothing of what was not checked."
        )
    if status == Status.FAILED and governing["utilisation"] <= 1:
        return f"Of the strengths computed {used} is used at most: {of_mode(governing)}. They are not why it fails."
    own, others = governing.get("anchors", ()), subject.acting_with(governing["mode"])
    named = "".join(f", {each}" for each in anchors_text(own, others, lone=subject.lone))
    return f"{used} used: {governing['text']}{named}."
