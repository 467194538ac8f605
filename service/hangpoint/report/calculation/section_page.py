"""Sections of a calculation sheet as HTML: what is given, the formulas line by line, the sets of anchors."""

from collections.abc import Mapping, Sequence

from hangpoint.report.calculation import mathml
from hangpoint.report.calculation.anchor_tables import AnchorTable, Unloaded
from hangpoint.report.calculation.formulas_shown import formula, sized, unit_text
from hangpoint.report.calculation.sections import Line, Result, Section, anchors_text, edge_text
from hangpoint.report.printable import on_page
from hangpoint.report.reasons import percent

_COLUMNS = '<col style="width:23%"><col style="width:45%"><col style="width:17%"><col style="width:15%">'


def of_part(part: Section | AnchorTable | Unloaded, force: str, lone: bool) -> str:
    """A part of the calculation; ``force`` is the unit of forces of the request, ``lone``: it is of a lone anchor."""
    match part:
        case AnchorTable():
            return _of_anchors(part)
        case Unloaded():
            return _of_unloaded(part)
        case Section():
            return _of_section(part, force, lone)


def _of_section(section: Section, force: str, lone: bool) -> str:
    tail = f" <small>{on_page('; '.join(section.about))}</small>" if section.about else ""
    governs = " — governs" if section.governs else ""
    given = "".join(f"<span>{_given(line)}</span>" for line in section.lines if line.is_given and not line.left_out)
    rows = "".join(_made(line, section) for line in section.lines if not (line.is_given or line.left_out))
    converted = "".join(
        f"<p>{on_page(name.replace('_', ' '))} in the unit of the request: {mathml.number(value)} {on_page(force)}</p>"
        for name, value in section.converted.items()
    )
    return (
        f"<section><h3>{section.number}. {on_page(_capital(section.title))}{governs}{tail}</h3>"
        + (f'<p class="with">{given}</p>' if given else "")
        + (f'<table class="lines">{_COLUMNS}{rows}</table>' if rows else "")
        + f"{converted}{_rows(section.rows, force, lone)}</section>\n"
    )


def _of_unloaded(made: Unloaded) -> str:
    """Sections without load in one line."""
    first, last = made.sections[0], made.sections[-1]
    number = f"{first.number}" if first is last else f"{first.number} to {last.number}"
    tail = f" <small>{on_page(first.about[0])}</small>" if first.about else ""
    return f"<section><h3>{number}. {on_page(_capital(first.title))}{tail}</h3><p>{on_page(made.text)}</p></section>\n"


def _given(line: Line) -> str:
    clause = f" <small>({on_page(line.clause)})</small>" if line.clause else ""
    between = ":" if isinstance(line.value, bool | str | Mapping) else " ="
    return f"{mathml.label(line.symbol)}{between} {sized(line)}{clause}"


def _made(line: Line, section: Section) -> str:
    left = mathml.label(line.symbol)
    how = formula(line, section) if line.taken is not None else f'<span class="how">{mathml.sentence(line.how)}</span>'
    return (
        f'<tr><td>{left}</td><td>{how}</td><td class="number">{sized(line)}</td>'
        f'<td class="clause">{on_page(line.clause)}</td></tr>'
    )


def _rows(rows: Sequence[Result], force: str, lone: bool) -> str:
    if len(rows) < 2:
        return ""
    head = f"<tr><th>All sets of the load case</th>{compared(force)}</tr>"
    lines = "".join(
        f"<tr><td>{on_page(_set_text(row, lone))}</td>"
        f'<td class="number">{mathml.number(row["design_strength"])}</td>'
        f'<td class="number">{mathml.number(row["demand"])}</td>'
        f'<td class="number">{percent(row["utilisation"])}</td></tr>'
        for row in rows
    )
    return table(head, lines)


def table(head: str, rows: str) -> str:
    """A table whose titles stand again on the next page."""
    return f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"


def _set_text(row: Result, lone: bool) -> str:
    own = anchors_text(row.get("anchors", ()), row.get("points", ()), lone=lone) or ["alone"] * lone
    return ", ".join([*own, *([edge_text(row["edge"])] if "edge" in row else [])])


def _of_anchors(made: AnchorTable) -> str:
    """The sections of some anchors: their formulas in symbols, then a table with a line for each anchor."""
    first, last = made.sections[0], made.sections[-1]
    given = "".join(f"<span>{_given(line)}</span>" for line in made.common)
    formulas = "".join(
        f'<tr><td>{mathml.label(line.symbol)}</td><td>{_how(line, first)}</td><td class="number"></td>'
        f'<td class="clause">{on_page(line.clause)}</td></tr>'
        for line in made.made
    )
    titles = [line for line in first.lines if line.name in made.columns]
    head = "".join(f'<th class="number">{mathml.label(line.symbol)}{_in_unit(line)}</th>' for line in titles)
    return (
        f"<section><h3>{first.number} to {last.number}. {on_page(_capital(first.title))}"
        f" <small>{on_page('; '.join(made.about))}</small></h3>"
        + (f'<p class="with">{given}</p>' if given else "")
        + (f'<table class="lines">{_COLUMNS}{formulas}</table>' if formulas else "")
        + table(f"<tr><th>Anchor</th>{head}</tr>", "".join(_anchor(each, made.columns) for each in made.sections))
        + "</section>\n"
    )


def _how(line: Line, section: Section) -> str:
    if line.taken is None:
        return f'<span class="how">{mathml.sentence(line.how)}</span>'
    return formula(line, section, in_numbers=False)


def _in_unit(line: Line) -> str:
    return f", {unit_text(line.unit)}" if line.unit else ""


def _anchor(section: Section, columns: Sequence[str]) -> str:
    cells = "".join(
        f'<td class="number">{sized(line, with_unit=False)}</td>' for line in section.lines if line.name in columns
    )
    number = "" if section.anchor is None else section.anchor + 1
    return f"<tr><td>{number}</td>{cells}</tr>"


def _capital(title: str) -> str:
    return title[:1].upper() + title[1:]


def compared(force: str) -> str:
    """The titles of what a mode compares: strength, demand and the ratio of both."""
    titles = (f"Strength, {force}", f"Demand, {force}", "Used")
    return "".join(f'<th class="number">{on_page(title)}</th>' for title in titles)
