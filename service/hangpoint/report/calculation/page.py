"""Calculation sheets as a page: plain semantic HTML with formulas in MathML and a print style of its own."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from hangpoint.core.vocabulary import MODE_TEXTS, Assumption, Severity, Status
from hangpoint.report.calculation import mathml, sketch
from hangpoint.report.calculation.anchor_tables import with_tables
from hangpoint.report.calculation.formulas_shown import unit_text
from hangpoint.report.calculation.load_cases import load_cases
from hangpoint.report.calculation.metric import has_other_units, metric_sections
from hangpoint.report.calculation.place import Place
from hangpoint.report.calculation.push import Push, push_of
from hangpoint.report.calculation.section_page import compared, of_part, table
from hangpoint.report.calculation.sections import Section, anchors_text, edge_text, sections
from hangpoint.report.calculation.stated import Stated, place_words, value_words
from hangpoint.report.calculation.style import STYLE
from hangpoint.report.calculation.subject import Result, Subject
from hangpoint.report.calculation.surface import Surface, surface_of
from hangpoint.report.calculation.verdict import verdict
from hangpoint.report.paper import (
    INVENTED,
    STANDARDS,
    Article,
    articles_page,
    listed,
    paper_of,
    project_block,
    signatures,
)
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import finding_text, percent
from hangpoint.units import AREA, System, bare_factor

_DEFAULT = " (default)"
_READING = re.compile(r"\breading [0-9]+")
_GOVERNS = ' class="governs"'

_CODE, _COMBINED = Assumption.DESIGN_CODE.value.code, Assumption.COMBINATIONS.value.code
_UNITS_OF_CODE = "In the units of the design code."
_UNITS_OF_CODE_FROM_SI = (
    "In the units of the design code: 1 lbf is 4.44822 N, 1 in is 25.4 mm, 1 lbf·in is 0.112985 N·m, 1 psi is"
    " 0.00689476 N/mm²."
)
_UNITS_OF_EN = "In N and mm, the units of EN 1992-4, and runs in m."
_OTHERS_OF_EN = " What stands in lbf, in, ft or psi has factors that belong to these units."
_ZEROS = " Loads that are 0 are left out, with what they are multiplied by; the trace of the answer has all lines."
_READINGS = (
    '<p class="small">Where a number, "reading 29", stands in place of a clause, the standard leaves a point open:'
    " it is how this project reads it, and DEVELOPERS.md of the project lists its readings.</p>\n"
)


def calculation_page(answer: Mapping[str, Any], subjects: Sequence[Subject], *, system: System) -> str:
    """All sheets of an answer as one document, each on pages of its own."""
    title = "Calculation sheets" if len(subjects) > 1 else f"Calculation sheet {_name(subjects[0].result)}"
    articles = calculation_articles(answer, subjects, system=system)
    return articles_page(title=title, style=STYLE, paper=paper_of(answer["units"]), articles=articles)


def calculation_articles(answer: Mapping[str, Any], subjects: Sequence[Subject], *, system: System) -> list[Article]:
    """The sheets of an answer."""
    whole = {kind: _of_the_request(answer, kind) for kind in ("assumptions", "not_checked")}
    return [_sheet(answer, subject, whole, system) for subject in subjects]


def _name(result: Result) -> str:
    return result["id"] or f"row {result['index'] + 1}"


def _of_the_request(answer: Mapping[str, Any], kind: str) -> list[str]:
    """Codes of what is said of the request and of no item."""
    of_items = {code for item in answer["items"] for code in item.get(kind, ())}
    return [code for code in answer[kind] if code not in of_items]


def _sheet(answer: Mapping[str, Any], subject: Subject, whole: Mapping[str, Sequence[str]], system: System) -> Article:
    result = subject.result
    parts = [_header(answer, subject), verdict(subject, answer["units"]), _stated(subject.stated, system)]
    if subject.place is not None:
        parts.append(_sketches(subject.place, subject, system))
    parts += [_modes(subject, answer["units"]), _neighbours(answer, result), _demand(result, answer["units"])]
    parts.append(_load_cases(answer, subject))
    made = sections(result, lone=subject.lone)
    made = metric_sections(made) if subject.by_en else made
    if made:
        zeros = _ZEROS if any(line.left_out for each in made for line in each.lines) else ""
        parts.append(
            '<section><h2>Calculation</h2><p class="small lead">'
            f"{_units(subject, system, made)} Numbers are printed to five figures and computed"
            f" with all; the answer as JSON has them. What is given without a clause is as stated, of the data"
            f" of the product or of a section before.{zeros}</p></section>"
        )
        parts += [of_part(each, answer["units"]["force"], subject.lone) for each in with_tables(made)]
    parts += [_findings(result, answer["units"]), _lists(answer, result, whole)]
    readings = _READINGS if _READING.search("".join(parts)) else ""
    parts.append(_end(answer, result, whole, readings))
    return Article(body="".join(parts), foot=_name(result), invented=_is_invented(result))


def _units(subject: Subject, system: System, made: Sequence[Section]) -> str:
    if subject.by_en:
        return _UNITS_OF_EN + (_OTHERS_OF_EN if has_other_units(made) else "")
    return _UNITS_OF_CODE if system == "us" else _UNITS_OF_CODE_FROM_SI


def _load_cases(answer: Mapping[str, Any], subject: Subject) -> str:
    demand = subject.result.get("demand")
    if not demand:
        return ""
    return load_cases(
        answer,
        service=_is_allowable(subject.result),
        ruled=bool(demand["sprinkler"]),
        by_en=answer["load_standard"] == "en1990",
    )


def _is_invented(result: Result) -> bool:
    return result.get("product", {}).get("data") == INVENTED


def _header(answer: Mapping[str, Any], subject: Subject) -> str:
    result = subject.result
    product = result.get("product")
    catalogue = answer["catalogue"]
    what = f"<p>{on_page(product['address'])} ({on_page(product['data'])} data)</p>" if product else ""
    return (
        f"<header>{project_block(answer)}<p>Calculation sheet</p><h1>{on_page(_name(result))}</h1>{what}"
        f"<p>{on_page(_method(answer, subject))} · catalogue {on_page(catalogue['version'])}"
        f" · hangpoint {on_page(answer['engine_version'])}</p></header>\n"
    )


def _is_allowable(result: Result) -> bool:
    """Whether service loads were compared with allowable ones."""
    return result.get("demand", {}).get("level") == "allowable"


def _is_bolt(result: Result) -> bool:
    """Whether it was checked as a bolt in grouted masonry."""
    return any(mode["applies"] and mode["mode"].startswith("masonry_") for mode in result.get("modes", ()))


def _method(answer: Mapping[str, Any], subject: Subject) -> str:
    """By what a point was checked, and how its loads were combined."""
    result = subject.result
    combined = "allowable stress" if _is_allowable(result) else answer["combinations"]
    if _is_bolt(result):
        older = any(each.place == "options.masonry_edition" and "13" in each.text for each in subject.stated)
        method = f"Bolts in grouted masonry by TMS 402-{'13' if older else '16'}"
    elif result["status"] == Status.REFUSED and subject.in_masonry:
        method = "Masonry, by TMS 402 or tables of the product"
    elif _is_allowable(result):
        method = "Allowable loads of the product's tables"
    else:
        method = answer["design_code"]["edition"]
    return f"{method} · combinations: {combined.replace('_', ' ')}, {STANDARDS[answer['load_standard']]}"


def _stated(stated: Sequence[Stated], system: System) -> str:
    if not stated:
        return ""
    of_en = any(each.place.startswith("anchor.product.embedment.en.") for each in stated)
    facts = "".join(
        f"<div><dt>{mathml.worded(place_words(each.place, of_en=of_en))}</dt>"
        f"<dd>{on_page(value_words(each.place, each.text))}{_DEFAULT * each.is_default}</dd></div>"
        for each in stated
    )
    inline = any(each.place.startswith("anchor.product.") for each in stated)
    return (
        f'<section><h2>As stated</h2><dl class="facts">{facts}</dl>'
        f'<p class="small">Numbers that were stated without a unit have that of the unit system {system} here'
        f"{'; those of the product are in the units that it names' * inline}.</p></section>\n"
    )


def _sketches(place: Place, subject: Subject, system: System) -> str:
    surface, push = surface_of(subject.result, place), push_of(subject.result)
    drawings = sketch.plan(place, system, surface, push) + sketch.section(place, system)
    legend = "".join(
        (_numbering(subject), *_legend(place, surface, system), _of_push(push, subject), _not_drawn(subject))
    )
    return (
        f'<section><h2>Sketch</h2><div class="sketches">{drawings}</div>'
        '<p class="small">Not to be measured from. Looking at the face, x to the right; distances are from the origin'
        f" of the layout; dashed: no edge; ≈: drawn nearer than it is.{legend}</p></section>\n"
    )


def _numbering(subject: Subject) -> str:
    return "" if subject.lone else " Anchors are counted from 1; the answer as JSON counts them from 0."


def _not_drawn(subject: Subject) -> str:
    """What was stated and the sketch doesn't show."""
    has_deck = any(each.place.startswith("base.deck.") for each in subject.stated)
    return " Not drawn: the ribs of the deck." if has_deck else ""


def _of_push(push: Push | None, subject: Subject) -> str:
    if push is None:
        return ""
    shear = mathml.worded("V_Ed" if subject.by_en else "V_a" if _is_allowable(subject.result) else "V_ua")
    return f" Arrow: {shear} of load case {on_page(push.load_case)}, as it pushes the anchors."


def _legend(place: Place, surface: Surface | None, system: System) -> Iterator[str]:
    """What else stands in the sketch."""
    if surface is not None:
        yield f" Shaded: {mathml.worded('A_Nc')} of the concrete breakout below, {_area(surface.area, system)}."
    near = sketch.drawn_near(place)
    if any(each.together for each in near):
        yield " Dark: neighbours that act together with it."
    if not all(each.together for each in near):
        yield " Dotted: neighbours that are not alike."
    left = len(place.near) - len(near)
    if left:
        yield f" Too far to be drawn: {left} of the neighbours."


def _area(area: float, system: System) -> str:
    """An area, in2, in the unit of the code's equations and in that of the request."""
    shown = f"{mathml.number(area)} in²"
    if system == "us":
        return shown
    return f"{mathml.number(area / bare_factor(AREA, system))} mm² ({shown})"


def _modes(subject: Subject, units: Mapping[str, str]) -> str:
    modes = subject.result.get("modes", ())
    if not modes:
        return ""
    head = f"<tr><th>Checked</th>{compared(units['force'])}<th>Load case</th></tr>"
    rows = "".join(_mode(mode, subject) for mode in modes if mode["applies"])
    others = "; ".join(
        f"{MODE_TEXTS.get(mode['mode'], mode['mode'])}: {mode['reason'].replace('-', ' ')}"
        for mode in modes
        if not mode["applies"]
    )
    rest = f'<p class="small">Does not apply: {on_page(others)}.</p>' if others else ""
    return f"<section><h2>Modes</h2>{table(head, rows) if rows else ''}{rest}</section>\n"


def _mode(mode: Result, subject: Subject) -> str:
    governs = mode["mode"] == subject.result.get("governing", {}).get("mode")
    name = f"{MODE_TEXTS.get(mode['mode'], mode['mode'])} ({_clause(mode, subject.result)})"
    edge = [edge_text(mode["edge"])] if "edge" in mode else []
    own = anchors_text(mode.get("anchors", ()), subject.acting_with(mode["mode"]), lone=subject.lone)
    about = "".join(f", {each}" for each in (*edge, *own))
    ratio = " <small>(ratios, not forces)</small>" if mode["mode"].endswith("interaction") else ""
    return (
        f"<tr{_GOVERNS if governs else ''}><td>{on_page(name + about)}{' — governs' if governs else ''}{ratio}</td>"
        f'<td class="number">{mathml.number(mode["design_strength"])}</td>'
        f'<td class="number">{mathml.number(mode["demand"])}</td>'
        f'<td class="number">{percent(mode["utilisation"])}</td><td>{on_page(mode["load_case"])}</td></tr>'
    )


def _clause(mode: Result, result: Result) -> str:
    """The clause of a mode at the level of the point, which its trace has."""
    traced = (made["clause"] for made in result.get("trace", ()) if made.get("mode") == mode["mode"])
    return next(traced, mode["clause"])


def _neighbours(answer: Mapping[str, Any], result: Result) -> str:
    near = result.get("neighbours")
    if not near:
        return ""
    alone = near["alone"]
    mode = MODE_TEXTS.get(alone.get("mode", ""), "")
    texts = [f"Checked together with {', '.join(near['together'])}."] if near["together"] else []
    texts += list(_brought(answer, near["together"]))
    texts += [f"Unlike, the concrete is divided: {', '.join(near['unlike'])}."] if near["unlike"] else []
    beside = near.get("by_spacing")
    texts += [f"Near, looked at by their distance alone: {', '.join(beside)}."] if beside else []
    texts.append(f"Alone it would be used to {percent(alone['utilisation'])}{f', by {mode}' if mode else ''}.")
    return _list("Neighbours", texts)


def _brought(answer: Mapping[str, Any], together: Sequence[str]) -> Iterator[str]:
    """What the points bring that are in the demands of a group: it is computed on sheets of their own."""
    force = unit_text(answer["units"]["force"])
    demands = {each["id"]: each["demand"] for each in answer["items"] if "demand" in each}
    for own in together:
        if own in demands:
            demand = demands[own]
            shear = demand["factored_shear"]
            sheared = f", in shear {mathml.number(shear)} {force}" if shear else ""
            pulled = f"{mathml.number(demand['factored_tension'])} {force} ({demand['load_case']})"
            yield f"{own} brings at most {pulled} in tension{sheared}: see its own sheet."


_LARGEST = ", largest of all load cases"
_DEMANDS: Mapping[str, str] = {
    "load_case": "load case of the tension",
    "level": "level of the loads",
    "sustained_tension": f"sustained tension{_LARGEST}",
    "factored_shear": f"factored shear{_LARGEST}",
    "service_shear": f"service shear{_LARGEST}",
}
"""Members of a demand that say less by their names."""
_ALWAYS = ("factored_tension", "service_tension")
"""Members that stand there also where they are 0."""


def _demand(result: Result, units: Mapping[str, str]) -> str:
    demand = result.get("demand")
    if not demand:
        return ""
    if _is_allowable(result):
        demand = {name.replace("factored_", "service_"): value for name, value in demand.items()}
    stated = {name: value for name, value in demand.items() if value != 0 or name in _ALWAYS}
    zeros = '<p class="small">Loads that are 0 are left out.</p>' if len(stated) < len(demand) else ""
    facts = "".join(
        f"<div><dt>{_DEMANDS.get(name, on_page(name.replace('_', ' ')))}</dt>"
        f"<dd>{_amount(value, units['moment' if 'moment' in name else 'force'])}</dd></div>"
        for name, value in stated.items()
    )
    return f'<section class="whole"><h2>Demand</h2><dl class="facts">{facts}</dl>{zeros}</section>\n'


def _amount(value: Any, unit: str) -> str:
    return on_page(value) if isinstance(value, str) else f"{mathml.number(value)} {unit_text(unit)}"


def _findings(result: Result, units: Mapping[str, str]) -> str:
    found = result.get("findings", ())
    if not found:
        return ""
    order = list(Severity)
    texts = [
        f"{each['severity']}: {finding_text(each, units)}"
        for each in sorted(found, key=lambda each: order.index(each["severity"]))
    ]
    return _list("Findings", texts, mathml.sentence)


def _lists(answer: Mapping[str, Any], result: Result, whole: Mapping[str, Sequence[str]]) -> str:
    asked = result.get("to_engineer", ())
    return _list(
        "Assumptions, where the request is silent", _said("assumptions", answer, result, whole), mathml.sentence
    ) + _list("Questions to the engineer", [f"{each['text']} {each['question']}" for each in asked], mathml.sentence)


def _said(kind: str, answer: Mapping[str, Any], result: Result, whole: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """The sentences of a kind, of the point and of the whole request but for what is not taken of this point."""
    others = {_COMBINED} if _is_allowable(result) else set[str]()
    others |= {_CODE} if _is_bolt(result) or _is_allowable(result) else set[str]()
    for code in (*result.get(kind, ()), *whole[kind]):
        if code not in others:
            yield answer[kind][code]


def _list(title: str, texts: Iterable[str], shown: Callable[[str], str] = on_page) -> str:
    """A list under a heading; ``shown`` brings what the project words itself on the page with its symbols."""
    return listed(title, map(shown, texts))


def _end(answer: Mapping[str, Any], result: Result, whole: Mapping[str, Sequence[str]], readings: str) -> str:
    """What was not checked, cautions, signatures and digests, which stay together: who signs has them in view.

    The lists stand side by side: the lower the block, the less of the page before it stays empty.

    Nobody signs what was not checked.
    """
    open_ = _list("Not checked", _said("not_checked", answer, result, whole), mathml.sentence)
    cautions = _list("Cautions", answer["cautions"])
    signed = signatures() if result["status"] in (Status.PASSED, Status.FAILED) else ""
    return (
        f'<section class="end"><div class="two"><div>{open_}</div><div>{cautions}</div></div>{readings}{signed}'
        f'<p class="small">The same request gives the same sheet. Request {on_page(answer["request_digest"])},'
        f" catalogue {on_page(answer['catalogue']['hash'])}.</p></section>\n"
    )
