"""Requests for information as a page: a register of them, and a form for each with room for its answer."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.calculation.style import STYLE
from hangpoint.report.load_map.page import POINTS_STYLE
from hangpoint.report.load_map.tables import Column, amount, column_table, place_columns
from hangpoint.report.load_map.tiles import Point
from hangpoint.report.paper import INVENTED, STAMP_STYLE, Article, articles_page, head, listed, paper_of, signatures
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import bracketed, first_named, invalid_texts, percent

Answer = Mapping[str, Any]

_STYLE = """
dl:not([class]) { display: grid; grid-template-columns: repeat(4, 1fr); gap: 3pt; margin: 8pt 0; }
dl:not([class]) div { border: 0.5pt solid #777; padding: 2pt 4pt; font-size: 8.5pt; }
dl:not([class]) dd { min-height: 14pt; }
"""
_LEAD = "Request for information"
_BLANKS = ("Number", "To", "From", "Answer needed by")
_SIGNED = ("Asked by, date", "Answered by, date", "Engineer, seal, date")
_STATUSES = ("passed", "failed", "refused")
_MOST_IDS = 12
"""Ids of changed points that are written out in a row."""
_UNDECIDED = (
    "What an answer changes is computed with nothing else changed. The engineer of record decides: that points would"
    " pass is no reason for an answer."
)


def sheet_count(answer: Answer) -> int:
    """The sheets of a page, that of the register among them."""
    return len(answer["rfis"]) + 1


def rfi_page(answer: Answer, _: object = ()) -> str:
    """The register and the forms of an answer as one document."""
    name = answer.get("project", {}).get("name")
    return articles_page(
        title=f"Requests for information: {name}" if name else "Requests for information",
        style=STYLE + POINTS_STYLE + STAMP_STYLE + _STYLE,
        paper=paper_of(answer["units"]),
        articles=[_register(answer), *(_form(answer, each) for each in answer["rfis"])],
    )


def _is_invented(points: Sequence[Point]) -> bool:
    return any(each.get("product", {}).get("data") == INVENTED for each in points)


def _register(answer: Answer) -> Article:
    summary = answer["summary"]
    counts = ", ".join(f"{summary[name]} {name}" for name in (*_STATUSES, "invalid") if summary[name])
    wrong = invalid_texts(answer["items"])
    catalogue = on_page(answer["catalogue"]["hash"])
    body = (
        head(answer, "Requests for information", "Register"),
        f"<p>{summary['total']} points: {counts}.</p>\n",
        _register_table(answer["rfis"]) if answer["rfis"] else "<p>The check leaves no question to the engineer.</p>\n",
        f'<p class="small">{_UNDECIDED}</p>\n' if answer["rfis"] else "",
        listed("Invalid items: not checked, and in no question", map(on_page, wrong)),
        listed("Assumptions, where the request is silent", map(sentence, answer["assumptions"].values())),
        listed("Not checked", map(sentence, answer["not_checked"].values())),
        listed("Cautions", map(on_page, answer["cautions"])),
        f'<p class="small">Request {on_page(answer["request_digest"])}, catalogue {catalogue}.</p>\n',
    )
    return Article(body="".join(body), foot="Register", invented=_is_invented(answer["items"]))


def _register_table(rfis: Sequence[Mapping[str, Any]]) -> str:
    rows = "".join(
        f'<tr><td>{each["number"]} <a href="#{_place(each)}">{sentence(each["text"])}</a></td>'
        f'<td class="number">{len(each["ids"])}</td><td class="number">{_not_passing(each)}</td>'
        f"<td>{on_page(_decides(each))}</td></tr>"
        for each in rfis
    )
    return (
        "<table><thead><tr><th>Subject</th><th>Points</th><th>Not passing</th><th>What answers change</th></tr></thead>"
        f"<tbody>{rows}</tbody></table>\n"
    )


def _not_passing(rfi: Mapping[str, Any]) -> int:
    return rfi["summary"]["failed"] + rfi["summary"]["refused"]


def _decides(rfi: Mapping[str, Any]) -> str:
    """In words how many verdicts hang on the answer."""
    if not rfi["answers"]:
        return "not computed"
    changed = {each["index"] for answer in rfi["answers"] for each in answer["changed"]}
    return f"{len(changed)} verdict{'s' * (len(changed) != 1)}" if changed else "no verdict"


def _place(rfi: Mapping[str, Any]) -> str:
    return f"rfi-{rfi['number']}"


def _form(answer: Answer, rfi: Mapping[str, Any]) -> Article:
    ids = set(rfi["ids"])
    points = [each for each in answer["items"] if each["id"] in ids and "rfis" in each]
    reason = " ".join((rfi["text"], *bracketed(rfi["clause"])))
    blanks = "".join(f"<div><dt>{each}</dt><dd>&#160;</dd></div>" for each in _BLANKS)
    body = (
        head(answer, _LEAD, f"Request {rfi['number']}"),
        f"<dl>{blanks}</dl>\n",
        f'<div class="verdict"><strong>{sentence(rfi["question"])}</strong><p>{sentence(reason)}</p></div>\n',
        _effects(rfi),
        f"<section><h2>Points concerned: {len(points)}</h2>{_points(points, answer['units'])}</section>\n",
        f'<section class="end"><div class="stamp">Answer</div>{signatures(_SIGNED)}</section>\n',
    )
    foot = f"Request for information {rfi['number']} · request {answer['request_digest'][:12]}"
    return Article(body="".join(body), foot=foot, invented=_is_invented(points), place=_place(rfi))


def _effects(rfi: Mapping[str, Any]) -> str:
    title = "<h2>What an answer changes</h2>"
    if not rfi["answers"]:
        text = "Computed for no answer: the points are checked again when it is here."
        return f"<section>{title}<p>{text}</p></section>\n"
    now: Mapping[str, Any] = {**rfi, "text": "None: as taken now.", "changed": []}
    effects: list[Mapping[str, Any]] = [now, *rfi["answers"]]
    table = column_table(effects, list(_effect_columns(effects)))
    return f'<section>{title}{table}<p class="small">{_UNDECIDED}</p></section>\n'


def _effect_columns(effects: Sequence[Mapping[str, Any]]) -> Iterator[Column]:
    yield Column(title="Answer", cell=lambda each: each["text"], number=False, wide=1)
    for name in _STATUSES:
        if any(each["summary"][name] for each in effects):
            yield Column(title=name, cell=_count(name))
    yield Column(title="Most used", cell=lambda each: percent(each["most_used"]) if "most_used" in each else "")
    yield Column(title="Verdicts that change", cell=lambda each: _changes(each["changed"]), number=False, wide=2)


def _changes(changed: Sequence[Mapping[str, Any]]) -> str:
    """What becomes of how many points, those first that pass then."""
    kinds = sorted({(each["after"], each["before"]) for each in changed}, key=lambda kind: _STATUSES.index(kind[0]))
    texts: list[str] = []
    for after, before in kinds:
        ids = [str(each["id"]) for each in changed if (each["after"], each["before"]) == (after, before)]
        texts.append(f"{before} to {after}: {first_named(ids, _MOST_IDS)}")
    return "; ".join(texts) or "none"


def _points(points: Sequence[Point], units: Mapping[str, str]) -> str:
    note = f"Coordinates in {units['coordinate']}, loads in {units['force']}. Points that do not pass are in bold."
    table = column_table(points, list(_columns(points, units)), strong=("failed", "refused"))
    return f'<p class="small">{sentence(note)}</p>{table}'


def _columns(points: Sequence[Point], units: Mapping[str, str]) -> Iterator[Column]:
    yield Column(title="No.", cell=lambda each: str(each["number"]))
    yield Column(title="Id", cell=lambda each: each["id"], number=False, wide=1)
    for name in ("level", "member"):
        if any(name in each for each in points):
            yield Column(title=name.capitalize(), cell=_text(name), number=False)
    yield from place_columns(points, units["coordinate"], axes="xyz")
    if any("on_structure" in each for each in points):
        yield Column(title="on structure", cell=_load(units["force"]))
    yield Column(title="Governs", cell=lambda each: each.get("mode", "").replace("_", " "), number=False, wide=1)
    yield Column(title="Used", cell=lambda each: percent(each["utilisation"]) if "utilisation" in each else "")
    yield Column(title="Verdict", cell=lambda each: each["status"], number=False, whole=True)


def _text(name: str) -> Callable[[Point], str]:
    return lambda each: each.get(name, "")


def _count(name: str) -> Callable[[Point], str]:
    return lambda each: str(each["summary"][name])


def _load(unit: str) -> Callable[[Point], str]:
    return lambda each: amount(each["on_structure"], unit) if "on_structure" in each else ""
