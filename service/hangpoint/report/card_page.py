"""Installation cards as a page: one card a printed page, plain semantic HTML with a print style of its own."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from hangpoint.product.principles import EXACT_DEPTH
from hangpoint.report.calculation.mathml import sentence
from hangpoint.report.paper import INVENTED, Article, articles_page, listed, paper_of, project_block
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import error_texts, first_named

Card = Mapping[str, Any]

_MARGIN = "0.4in"
_MOST_USED = 40
_PAGES = """
@page { margin: 0.4in; }
* { box-sizing: border-box; }
body { margin: 0; color: #111; background: #fff; }
.card { max-width: 7.6in; margin: 0.2in auto; break-after: page; }
.card:last-child { break-after: auto; }
"""
CARD_STYLE = """
.card { font: 9pt/1.24 "Liberation Sans", Arial, Helvetica, sans-serif; padding: 0; }
.card header { border-bottom: 2pt solid #111; padding-bottom: 4pt; }
.card h1 { font-size: 14pt; line-height: 1.15; margin: 0 0 2pt; }
.card h2 { font-size: 9pt; margin: 5pt 0 1pt; border-bottom: 0.5pt solid #999; break-after: avoid; }
.card p { margin: 2pt 0; }
.card .banner { border: 1.5pt solid #111; padding: 3pt 6pt; margin: 5pt 0; font-weight: bold; }
.card dl:not(.project) { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 3pt; margin: 4pt 0; }
.card dl:not(.project) div { border: 0.75pt solid #777; padding: 2pt 4pt; }
.card dl .long { grid-column: span 2; }
.card dt { font-size: 8pt; color: #333; }
.card dl:not(.project) dd { margin: 0; font-size: 11pt; font-weight: bold; text-align: left; overflow-wrap: anywhere; }
.card dd small { display: block; font-size: 8pt; font-weight: normal; }
.card .two { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); column-gap: 14pt; }
.card ol, .card ul { margin: 2pt 0; padding-left: 15pt; }
.card li { margin: 0; }
.card .small { font-size: 8pt; line-height: 1.2; }
.dense { font-size: 8.1pt; line-height: 1.17; }
.dense .small { font-size: 7.6pt; line-height: 1.15; }
@media screen and (max-width: 40em) {
  .card .two { display: block; }
  .card dl:not(.project) { grid-template-columns: repeat(2, minmax(0, 1fr)); }
}
@media print { .card { margin: 0; max-width: none; padding: 0 1pt; } }
"""


_MOST_LETTERS = 24
"""Of a fact in one of four columns: a longer one takes two, so that cards stay on a page each."""


def cards_html(answer: Mapping[str, Any]) -> str:
    """All cards of an answer as one document; items that have no card are listed on a page of their own."""
    job = answer.get("job")
    return articles_page(
        title=f"Installation cards: {job}" if job else "Installation cards",
        style=_PAGES + CARD_STYLE,
        paper=paper_of(answer["units"]),
        articles=card_articles(answer),
    )


def card_articles(answer: Mapping[str, Any]) -> list[Article]:
    """The cards of an answer, and what lists the items without one."""
    assumed = list(answer["assumptions"].values())
    project = project_block(answer)
    cards = [_card(each, project, answer.get("job"), assumed) for each in answer["cards"]]
    return [*cards, *_wrong([each for each in answer["items"] if "problem" in each])]


def _card(card: Card, project: str, job: str | None, assumed: Sequence[str]) -> Article:
    steps = _section("Drill", [card["drilling"], *([card["bit"]] if "bit" in card else [])])
    steps += _section("Clean", card["cleaning"], ordered=True) + _section("Set", card["setting"], ordered=True)
    right = _section("How to see that it is set", card["checks"]) + _section("What spoils it", card["do_not"])
    right += _section("Afterwards", card["after_setting"])
    right += _used(card["used_by"])
    body = (
        f"<header>{project}<h1>{on_page(card['name'])}</h1>\n"
        f"<p><strong>{on_page(card['product'])}</strong> · {on_page(card['principle_text'])}"
        f" · In: {on_page(card['base_text'])} · Face: {on_page(card['face'])}"
        f"{' · ' + on_page(job) if job else ''}</p></header>\n"
        f'<p class="banner">{on_page(card["banner"])}</p>\n'
        f"{_attention(card['attention'])}<dl>{''.join(_fact(*each) for each in _facts(card))}</dl>\n"
        f'<div class="two"><div>{steps}</div><div>{right}</div></div>\n'
        f"{_middle(card)}"
        f'<div class="two small"><div>{_section("Cautions", card["cautions"])}{_section("Assumed", assumed)}'
        f"</div><div>{_inspection(card)}{_section('Not in the data', card['missing'])}"
        f"{_section('Notes', card['notes'])}</div></div>\n"
    )
    return Article(
        body=body,
        foot=card["name"],
        invented=card["data"] == INVENTED,
        kind="card dense" if "adhesive" in card else "card",
        margin=_MARGIN,
    )


def _facts(card: Card) -> Iterable[tuple[str, str, str]]:
    hole = card.get("hole")
    if hole:
        yield "Hole diameter", hole["diameter"]["text"], ""
        yield (
            "Hole depth, exactly" if card["principle"] in EXACT_DEPTH else "Hole depth, at least",
            hole["depth"]["text"],
            "",
        )
    marks = card["marks"]
    nominal = marks.get("h_nom")
    yield (
        ("Set to the mark h_nom", nominal["text"], f"h_ef {marks['h_ef']['text']}")
        if nominal
        else ("Effective embedment h_ef", marks["h_ef"]["text"], "")
    )
    torque = card.get("torque")
    if torque:
        value, _, rest = torque["text"].partition(", ")
        yield "Installation torque", value, rest
    else:
        yield "Installation torque", "none", "the data ask for none"
    thread = card.get("thread")
    if thread and "least" in thread:
        turns = f", {thread['turns_least']:g} to {thread['turns_most']:g} turns" if "turns_least" in thread else ""
        yield f"Rod {thread['size']}: engagement", f"{thread['least']['text']} to {thread['most']['text']}", turns[2:]
    elif thread:
        yield "Thread", thread["size"], ""
    for name, value in card["least"].items():
        yield f"Least {name.replace('_', ' ')}", value["text"], ""
    if "most_offset" in card:
        yield "Most offset from the centre", card["most_offset"]["text"], "of the flute"
    if "one_a_cell" in card:
        yield "Anchors a cell", "one", ""
    tool = card.get("setting_tool")
    if tool:
        yield "Setting tool", tool, ""
    if card.get("training"):
        yield "Who", "trained or certified people only", ""


def _fact(name: str, value: str, more: str) -> str:
    small = f"<small>{sentence(more)}</small>" if more else ""
    kind = ' class="long"' if len(value) > _MOST_LETTERS else ""
    return f"<div{kind}><dt>{sentence(name)}</dt><dd>{on_page(value)}{small}</dd></div>"


def _section(title: str, texts: Sequence[str], *, ordered: bool = False) -> str:
    return listed(title, [sentence(each) for each in texts], ordered=ordered)


def _attention(found: Sequence[Mapping[str, Any]]) -> str:
    """What stands against the setting of points, each sentence once with all of them."""
    ids: dict[str, list[str]] = {}
    for each in found:
        ids.setdefault(each["text"], []).append(each["id"])
    shown = [f"{on_page(', '.join(dict.fromkeys(own)))}: {sentence(text)}" for text, own in ids.items()]
    return listed("Do not set before the engineer has seen this", shown)


def _bar(card: Card) -> str:
    new = card.get("new_hole")
    more = [f"New hole at least {new['text']} away. {new['rule']}"] if new else []
    return _section("At reinforcement or a tendon", [*card["at_a_bar"], *more])


def _middle(card: Card) -> str:
    own = card.get("adhesive")
    if not own:
        return _bar(card)
    return f'<div class="two"><div>{_bar(card)}</div><div>{_adhesive(own)}</div></div>'


def _adhesive(own: Mapping[str, Any]) -> str:
    age = f"Concrete at least {own['least_age_days']:g} days old."
    return _section("Adhesive", [age, *own["conditions"], *own.get("stated", ()), own["cure"], own["installer"]])


def _inspection(card: Card) -> str:
    own = card["inspection"]
    kind = str(own["kind"]).replace("_", " ")
    return _section(f"Inspection: {kind}", [f"{own['text']} {own['clause']}."])


def _used(ids: Sequence[str]) -> str:
    return f"<section><h2>Used by</h2><p>{on_page(first_named(ids, _MOST_USED))}</p></section>"


def _wrong(items: Sequence[Mapping[str, Any]]) -> Iterable[Article]:
    lines = [f"{each['id'] or 'item without an id'}: {text}" for each in items for text in error_texts(each)]
    if lines:
        yield Article(body=listed("No card", map(on_page, lines)), foot="No card", kind="card", margin=_MARGIN)
