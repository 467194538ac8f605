"""Codes of answers as published: each a word of a closed list of the vocabulary, and the units that numbers are in."""

from collections.abc import Iterable
from enum import Enum
from typing import Annotated, Any

from typing_extensions import TypeAliasType

from hangpoint.api.problems import PROBLEMS
from hangpoint.core.hanger.rod import RULES
from hangpoint.core.vocabulary import (
    AsBuiltDeviation,
    AsBuiltField,
    AsBuiltUncompared,
    Assumption,
    Change,
    Finding,
    FixtureAssumption,
    FixtureFinding,
    FixtureNotChecked,
    Inapplicable,
    LoadAssumption,
    LoadFinding,
    LoadMapNote,
    LoadNotChecked,
    Mode,
    NotChecked,
    NotTested,
    Refusal,
    Rejection,
    RfiQuestion,
    SheetReason,
    TakeOffNotCounted,
    Triage,
)
from hangpoint.units import PRINTED


class _Words:
    """What a text may be, published with a sentence that says what it is."""

    def __init__(self, text: str, words: Iterable[str]) -> None:
        self._made: dict[str, Any] = {"description": text, "enum": list(words)}

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        return handler(core) | self._made


class _Codes(_Words):
    """A code of closed lists, each under its place in `GET /v1/quantities`, where its sentence and clause stand."""

    def __init__(self, **vocabularies: type[Enum]) -> None:
        lists = " or ".join(f"`{place.replace('__', '.')}`" for place in vocabularies)
        text = f"A code of {lists} of GET /v1/quantities, which has its sentence. A later version may add some."
        codes = (each.value.code for vocabulary in vocabularies.values() for each in vocabulary)
        super().__init__(text, dict.fromkeys(codes))


class _UnitsOfKinds:
    """The unit of every kind of quantity, under its name."""

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        names = list(PRINTED["us"])
        return {
            "type": "object",
            "description": "The unit of each kind of quantity in this answer, by the system of the request. Forces and"
            " strengths are in that of `force`; a trace alone is in units of its own lines.",
            "properties": {name: {"type": "string", "enum": [own[name] for own in PRINTED.values()]} for name in names},
            "required": names,
            "additionalProperties": False,
        }


ModeCode = TypeAliasType("ModeCode", Annotated[str, _Codes(modes=Mode)])
InapplicableCode = TypeAliasType("InapplicableCode", Annotated[str, _Codes(inapplicable=Inapplicable)])
FindingCode = TypeAliasType("FindingCode", Annotated[str, _Codes(findings=Finding)])
AssumptionCode = TypeAliasType("AssumptionCode", Annotated[str, _Codes(assumptions=Assumption)])
NotCheckedCode = TypeAliasType("NotCheckedCode", Annotated[str, _Codes(not_checked=NotChecked)])
RefusalCode = TypeAliasType("RefusalCode", Annotated[str, _Codes(refusals=Refusal)])
RfiCode = TypeAliasType("RfiCode", Annotated[str, _Codes(triage=Triage, rfis=RfiQuestion)])
TriageCode = TypeAliasType("TriageCode", Annotated[str, _Codes(triage=Triage)])
LoadFindingCode = TypeAliasType("LoadFindingCode", Annotated[str, _Codes(hanger_loads__findings=LoadFinding)])
LoadAssumptionCode = TypeAliasType(
    "LoadAssumptionCode", Annotated[str, _Codes(hanger_loads__assumptions=LoadAssumption)]
)
LoadNotCheckedCode = TypeAliasType(
    "LoadNotCheckedCode", Annotated[str, _Codes(hanger_loads__not_checked=LoadNotChecked)]
)
FixtureFindingCode = TypeAliasType("FixtureFindingCode", Annotated[str, _Codes(fixtures__findings=FixtureFinding)])
FixtureAssumptionCode = TypeAliasType(
    "FixtureAssumptionCode",
    Annotated[str, _Codes(fixtures__assumptions=FixtureAssumption, hanger_loads__assumptions=LoadAssumption)],
)
FixtureNotCheckedCode = TypeAliasType(
    "FixtureNotCheckedCode", Annotated[str, _Codes(fixtures__not_checked=FixtureNotChecked)]
)
RejectionCode = TypeAliasType(
    "RejectionCode", Annotated[str, _Codes(selections__rejections=Rejection, refusals=Refusal, findings=Finding)]
)
ChangeCode = TypeAliasType("ChangeCode", Annotated[str, _Codes(selections__changes=Change)])
DeviationCode = TypeAliasType("DeviationCode", Annotated[str, _Codes(as_built_lists__deviations=AsBuiltDeviation)])
NotRecordedCode = TypeAliasType("NotRecordedCode", Annotated[str, _Codes(as_built_lists__not_recorded=AsBuiltField)])
NotComparedCode = TypeAliasType(
    "NotComparedCode", Annotated[str, _Codes(as_built_lists__not_compared=AsBuiltUncompared)]
)
NotCountedCode = TypeAliasType("NotCountedCode", Annotated[str, _Codes(take_offs__not_counted=TakeOffNotCounted)])
LoadMapNoteCode = TypeAliasType("LoadMapNoteCode", Annotated[str, _Codes(load_maps__notes=LoadMapNote)])
SheetReasonCode = TypeAliasType("SheetReasonCode", Annotated[str, _Codes(submittals__sheets=SheetReason)])
NotTestedCode = TypeAliasType("NotTestedCode", Annotated[str, _Codes(submittals__not_tested=NotTested)])
RodRuleCode = TypeAliasType(
    "RodRuleCode", Annotated[str, _Words("The named rule that the rod was checked by: `rod_rules`.", RULES)]
)
QuantityCode = TypeAliasType(
    "QuantityCode",
    Annotated[
        str,
        _Words(
            "Kind of quantity of the numbers beside it: `units` has their unit under this name; a ratio has none.",
            (*PRINTED["us"], "ratio"),
        ),
    ],
)
ProblemType = TypeAliasType(
    "ProblemType",
    Annotated[
        str, _Words("Kind of problem; a GET of it is a page about it.", (f"/problems/{slug}" for slug in PROBLEMS))
    ],
)
Units = TypeAliasType("Units", Annotated[dict[str, str], _UnitsOfKinds()])
