"""Inner schemas of the OpenAPI document by names, so that a maker of clients makes one type of each."""

from collections.abc import Iterator
from typing import Any, cast

REF = "#/components/schemas/{model}"
_KEPT = ("description", "deprecated")

SHARED = {
    "AnchorBase": "AllowableTable.base",
    "AnchorCategory": "Bond.category",
    "AnchorPrinciple": "Family.principle",
    "AnchorUse": "FoundAnchor.use",
    "AsceEdition": "FixturesRequest.load_standard",
    "BaseFace": "Base.face",
    "BaseKind": "Base.kind",
    "CheckDetail": "BatchRequest.detail",
    "CheckStatus": "CheckedResult.status",
    "Combinations": "BatchRequest.combinations",
    "ConcreteState": "Base.state",
    "DesignCodeId": "BatchRequest.design_code",
    "DirectionCount": "BracketItem.directions",
    "Drilling": "Needs.drilling",
    "EdgeSide": "AppliedMode.edge",
    "FaceAxis": "Deck.direction",
    "FiguresOrigin": "Card.data",
    "FindingSeverity": "FindingResult.severity",
    "FluteSide": "Deck.flute",
    "ForceUnit": "Units.force",
    "FoundBase": "FoundAnchor.base",
    "FoundCorrosion": "FoundAnchor.corrosion",
    "FoundDamage": "FoundAnchor.damage",
    "FoundPostTensioned": "FoundAnchor.post_tensioned",
    "FoundType": "FoundAnchor.type_seen",
    "HoleCondition": "AdhesiveConditions.hole",
    "JobObjective": "JobWant.objective",
    "LengthUnit": "Units.length",
    "LinkName": "CheckedResult.weakest_link",
    "LoadLevel": "Demand.level",
    "LoadNature": "BracketLoad.nature",
    "LoadStandard": "BatchRequest.load_standard",
    "LoadsDetail": "FixturesRequest.detail",
    "LoadsStatus": "FixtureResult.status",
    "MasonryMaterial": "Masonry.material",
    "MasonryUnits": "Masonry.units",
    "MapLoads": "LoadMapAnswer.loads",
    "MetalKind": "Environment.rod_metal",
    "NeighbourCheck": "BatchRequest.neighbours",
    "NotGoverning": "Embedment.n_p_cr",
    "Objective": "SelectionsAnswer.objective",
    "PipeContents": "PipeHangs.contents",
    "PipeMaterial": "PipeHangs.material",
    "PlacingWish": "JobWant.placing",
    "PlanDetail": "ExistingRequest.detail",
    "PointStatus": "Quantities.statuses",
    "ProductBasis": "Family.basis",
    "RodMaterial": "HangerRod.material",
    "RodThreadWish": "JobWant.rod_thread",
    "RunModel": "HangerRun.model",
    "RunUnit": "Units.distance",
    "SeatWish": "JobWant.seat",
    "SeismicCategory": "FixtureSeismic.category",
    "SeismicComponentKind": "FixtureSeismic.component",
    "SpacingRule": "Run.spacing_rule",
    "TestLoadBasis": "FoundAnchor.basis",
    "TestMethod": "LogRow.method",
    "TestRule": "LogRequest.rule",
    "TraceAxis": "FixtureTraceSection.axis",
    "TraitUse": "Traits.use",
    "UnitSystem": "BatchRequest.units",
    "WantedExposure": "JobWant.exposure",
    "WeightNature": "PointLoad.nature",
}
"""Names of the lists that stand in several places, each with one of its places."""


def name_word_lists(document: dict[str, Any]) -> None:
    """Put every closed list into the schemas of the document, and a reference where it stood.

    A list that stands in one place only is named by its object and member. Lists of queries refer to the same schemas
    where their words are the same; others stay.
    """
    schemas = cast(dict[str, dict[str, Any]], document["components"]["schemas"])
    places = [each for name in sorted(schemas) for each in _lists(schemas[name], name)]
    named = {_words(own): name for name, own in schemas.items() if "enum" in own}
    known = {place: _words(own) for place, own in reversed(places)}
    named |= {known[place]: name for name, place in SHARED.items()}
    for place, own in places:
        model, _, member = place.partition(".")
        name = named.setdefault(_words(own), model + member.title().replace("_", ""))
        schemas.setdefault(name, {"enum": own["enum"], "title": name, "type": own["type"]})
        _refer(own, name)
    document["components"]["schemas"] = dict(sorted(schemas.items()))
    for operation in (each for path in document["paths"].values() for each in path.values()):
        for parameter in operation.get("parameters", ()):
            name = named.get(_words(parameter["schema"]))
            if name is not None:
                _refer(parameter["schema"], name)


def name_forms_of_items(schemas: dict[str, dict[str, Any]]) -> None:
    """Name what may stand in a list of several forms, told by their kind, by the object of the list."""
    for model, schema in list(schemas.items()):
        for member, own in schema.get("properties", {}).items():
            if member == "items" and "oneOf" in own.get("items", ()):
                name = f"{model}Item"
                schemas[name] = {"title": name, **own["items"]}
                own["items"] = {"$ref": REF.format(model=name)}


def describe_defaults(schemas: dict[str, dict[str, Any]]) -> None:
    """Say defaults in words: a maker of clients may take a member with a default for one that is never absent."""
    for schema in schemas.values():
        for own in schema.get("properties", {}).values():
            default = own.pop("default", None)
            if default not in (None, [], {}) and not isinstance(default, dict):
                own["description"] = f"{own.get('description', '')} Where not stated: {_written(default)}.".strip()


def _written(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(str(each) for each in cast(list[Any], value))
    return str(value).lower() if isinstance(value, bool) else f"{value:g}" if isinstance(value, float) else str(value)


def _lists(schema: dict[str, Any], place: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Closed lists inside a schema with their places; one word alone is a constant, but among other forms a list."""
    for member, own in schema.get("properties", {}).items():
        yield from _inner(own, f"{place}.{member}", least=2)
    for form in ("items", "additionalProperties"):
        if isinstance(schema.get(form), dict):
            yield from _inner(schema[form], place, least=2)
    for form in (*schema.get("anyOf", ()), *schema.get("oneOf", ())):
        yield from _inner(form, place, least=1)


def _inner(own: dict[str, Any], place: str, *, least: int) -> Iterator[tuple[str, dict[str, Any]]]:
    if len(own.get("enum", ())) >= least:
        yield place, own
    else:
        yield from _lists(own, place)


def _words(schema: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(schema.get("enum", ()))


def _refer(own: dict[str, Any], name: str) -> None:
    kept = {key: own[key] for key in _KEPT if key in own}
    own.clear()
    own.update({"$ref": REF.format(model=name)} | kept)
