"""What members of requests for information hold, for the published schemas."""

from collections.abc import Mapping

from hangpoint.api.schemas.submittal_texts import POINT

_COUNTS: Mapping[str, str] = {
    "passed": "Points that pass.",
    "failed": "Points that fail.",
    "refused": "Points that are refused.",
}
_POINTS: Mapping[str, str] = {
    "summary": "Counts of the points that it concerns.",
    "most_used": "Largest utilisation of the points that it concerns; above 1 one does not hold.",
}

RFI_TEXTS: Mapping[str, Mapping[str, str]] = {
    "Rfi": {
        "number": "Its number in this answer, from 1.",
        "code": "Its code.",
        "text": "Why it is asked.",
        "question": "The question, in words for a request for information.",
        "clause": "Clause or source of the reason.",
        "ids": "Names of the points that it concerns.",
        **_POINTS,
        "answers": "Answers that may come back and can be computed.",
    },
    "PossibleAnswer": {
        "text": "The answer in words.",
        "patch": "The answer as a merge patch of each point that the question concerns.",
        **_POINTS,
        "changed": "Points whose verdict it changes.",
    },
    "RfiCounts": _COUNTS,
    "RfiSummary": {
        "total": "Items of the request.",
        "passed": "Items that passed.",
        "failed": "Items that failed.",
        "refused": "Items that were refused.",
        "invalid": "Items that can't be read or can't exist; nothing is asked of them.",
        "rfis": "Questions of the answer.",
    },
    "ChangedPoint": {
        "id": "Name of the item.",
        "index": "Its place in the request, from 0.",
        "before": "Verdict as the request states it.",
        "after": "Verdict with the answer.",
    },
    "RfiItem": {
        **POINT,
        "on_structure": "The most that its service loads pull on the structure with.",
        "rfis": "Numbers of the questions that concern it.",
    },
}
"""By the name of an object and of its member."""
RFI_MEMBERS: Mapping[str, str] = {
    "rfis": "The questions, each once.",
    "items": "The points, in the order of the request.",
}
"""Members that the answer has beside those of the check."""
