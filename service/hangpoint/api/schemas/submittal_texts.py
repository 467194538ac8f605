"""What members of submittals hold, for the published schemas."""

from collections.abc import Mapping

_OPEN: Mapping[str, str] = {
    "code": "Its code.",
    "text": "In words, for people.",
    "ids": "Names of the items that it concerns; none where it is of the request as a whole.",
}
POINT: Mapping[str, str] = {
    "id": "Name of the item.",
    "index": "Its place in the request, from 0.",
    "status": "Verdict on the item.",
    "number": "Its place in the request, from 1.",
    "level": "Level that it states.",
    "member": "Member that it states.",
    "face": "Face that it hangs from; where none is stated, as assumed.",
    "facing": "Direction on plan that a side face looks to, from x towards y of the job, in degrees, where stated.",
    "x": "Its x in the axes of the job.",
    "y": "Its y in the axes of the job.",
    "z": "Its z in the axes of the job.",
    "product": "The product that was checked.",
    "mode": "Mode that governs.",
    "utilisation": "Demand divided by strength; above 1 it does not hold.",
}
"""Members of a point in its place."""
PARTS: Mapping[str, str] = {
    "statement": "What the cover says, sentence by sentence.",
    "parts": "The parts behind the cover, in their order.",
    "schedule": "A row an item, in the order of the request.",
    "load_map": "The loads on the structure, by place.",
    "installation_cards": "How the products that are used are set.",
    "calculation_sheets": "Which points have calculation sheets; their results have the trace.",
    "open_items": "What is open, assumed or not checked, each once.",
    "test_plan": "Which anchors are pulled, with what load.",
    "items": "The result of the check of an item each, in the order of the request.",
}
"""Members that a submittal has beside those of the check."""

SUBMITTAL_TEXTS: Mapping[str, Mapping[str, str]] = {
    "SubmittalPart": {
        "part": "Which part it is.",
        "number": "Its place in the document, from 1.",
        "title": "Its title.",
        "contents": "What it holds, as the cover says it.",
    },
    "ScheduleRow": {
        **POINT,
        "id": "Name of the item; null where it can't be read.",
        "number": "Its place in the request, from 1; its number on the load map.",
        "h_ef": "Effective embedment of the product.",
        "demand": "Loads that the anchor is checked with.",
    },
    "CalculationSheets": {
        "sheets": "How they were chosen; named by their ids.",
        "of": "The points that have one.",
        "left_out": "Ids of the points that could be read and have none.",
    },
    "SheetOf": {
        "id": "Name of the item.",
        "index": "Its place in the request, from 0.",
        "reason": "Why it has a sheet.",
    },
    "OpenItems": {
        "questions": "What to ask the engineer of record.",
        "findings": "Cautions and notes of the check; violations stand at their points.",
        "assumptions": "What was taken where the request is silent.",
        "not_checked": "What the check has not looked at.",
    },
    "SubmittalPlan": {
        "rule": "The rule that the anchors are tested by.",
        "summary": "Counts of anchors and tests.",
        "assumptions": "What the plan takes where the request is silent: sentences by code.",
        "not_checked": "What the plan has not looked at: sentences by code.",
        "groups": "Anchors of one product and use, and how many of them are tested how.",
        "log": "A row a test, to be filled in.",
        "items": "The points that are planned.",
        "not_tested": "The points that it has no test of.",
        "cautions": "Cautions that go with it.",
        "acceptance": "When a test is passed.",
        "after_failure": "What follows a failure.",
    },
    "NotTestedPoint": {
        "id": "Name of the item.",
        "index": "Its place in the request, from 0.",
        "reason": "Why it has no test.",
    },
    "EngineerQuestion": {
        **_OPEN,
        "question": "The question, in words for a request for information.",
    },
    "OpenFinding": {
        **_OPEN,
        "clause": "Clause or source of the finding.",
        "severity": "A caution, or a note.",
    },
    "OpenAssumption": _OPEN,
    "OpenNotChecked": _OPEN,
}
"""By the name of an object and of its member."""
