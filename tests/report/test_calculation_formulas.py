"""Formulas on calculation sheets: what is shown, computed by another reader, is what the trace says."""

import ast
import math
import re
from xml.etree import ElementTree

import numpy as np
import pytest

from architecture.printed_formula import evaluate as by_columns
from architecture.random_records import GENERATORS, Columns
from hangpoint.core.hanger.run_reaction import BY_MODEL, RunReaction
from hangpoint.core.quantity import Kind, columns
from hangpoint.report.calculation import mathml
from hangpoint.report.calculation.formula import UnknownValueError, evaluate, parse, taken, without
from hangpoint.report.calculation.formulas_shown import formula, sized, unit_text
from hangpoint.report.calculation.procedures import PROCEDURES
from hangpoint.report.calculation.style import STYLE
from report.shown_formulas import NoNumberError, computed, sections_of, widest

ROWS = 25
IN_NUMBERS = re.compile(r'<span class="numbers">(.*?)</span>', re.DOTALL)


def shown(cls):
    return sections_of(cls, ROWS)


@pytest.fixture
def all_figures(monkeypatch):
    monkeypatch.setattr(mathml, "_FIGURES", 17)


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_what_is_shown_in_numbers_gives_the_value(cls, all_figures):
    """The formula of every line in numbers, read from its MathML, by the branch that is shown."""
    done = 0
    for section in shown(cls):
        for line in section.lines:
            if line.taken is None or not isinstance(line.value, float) or not math.isfinite(line.value):
                continue
            found = IN_NUMBERS.search(formula(line, section))
            if found is None:
                continue
            try:
                result = computed(found[1])
            except NoNumberError:
                continue
            assert result == pytest.approx(line.value, rel=1e-9, abs=1e-12), (line.name, found[1])
            done += 1
    formulas = [q.formula for q in columns(cls).values() if q.kind is Kind.FORMULA and q.axis is None]
    assert done or all(re.search(r"where|[<>]|==", text) for text in formulas)


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_every_formula_can_be_broken_into_lines_of_its_column(cls):
    """A browser breaks a formula between its pieces only; what is wider stands over the value beside it."""
    shown_lines = ((line, section) for section in shown(cls) for line in section.lines if line.taken is not None)
    assert all(widest(formula(line, section)) <= 64 for line, section in shown_lines)


def test_numbers_of_several_models_stand_under_each_other():
    line = next(line for section in shown(RunReaction) for line in section.lines if line.name == "total")
    assert sized(line).count("\N{NO-BREAK SPACE}") == len(BY_MODEL)
    assert ".lines .number { white-space: normal; }" in STYLE


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_the_branch_shown_is_that_of_the_whole_formula(cls):
    """The tests' own reader over columns has the whole formula; the branch must give the same."""
    made = GENERATORS[cls](Columns())
    values = {name: getattr(made, name) for name in columns(cls)}
    for name, q in columns(cls).items():
        if q.kind is not Kind.FORMULA or values[name].ndim > 1:
            continue
        whole = np.broadcast_to(by_columns(q.formula, values, np.ones(len(values[name]), bool)), values[name].shape)
        for row in range(ROWS):
            numbers = {each: float(column[row]) for each, column in values.items() if column.ndim == 1}
            try:
                branch = evaluate(taken(q.formula, numbers).tree, numbers)
            except (UnknownValueError, ArithmeticError):
                continue
            assert branch == pytest.approx(float(whole[row]), rel=1e-12, nan_ok=True), (name, q.formula)


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_terms_of_0_that_are_left_out_change_no_value(cls):
    """Each name by itself, and all forces at once, are made 0: what is left of a formula gives what the whole gave."""
    made = GENERATORS[cls](Columns())
    named = columns(cls)
    values = {name: getattr(made, name) for name in named}
    forces = {name for name, q in named.items() if q.unit.startswith("lbf")}
    for q in named.values():
        if q.kind is not Kind.FORMULA:
            continue
        used = {node.id for node in ast.walk(parse(q.formula)) if isinstance(node, ast.Name)} & set(values)
        for own in (*({name} for name in used), used & forces):
            numbers = {each: float(column[0]) for each, column in values.items() if column.ndim == 1}
            numbers |= dict.fromkeys(own, 0.0)
            tree = taken(q.formula, numbers).tree
            try:
                whole = evaluate(tree, numbers)
                rest = without(tree, own)
                left = 0.0 if rest is None else evaluate(rest, numbers)
            except (UnknownValueError, ArithmeticError):
                continue
            if math.isnan(whole):  # Of a random row that no hang point has.
                continue
            assert left == pytest.approx(whole, rel=1e-12, abs=1e-12), (q.formula, own)


@pytest.mark.parametrize(
    ("text", "zeros", "left"),
    [
        ("a + b*c + d", {"b"}, "a + d"),
        ("a - b", {"a"}, "-b"),
        ("a - b", {"b"}, "a"),
        ("k*(a + b)", {"a", "b"}, None),
        ("k*(a + b)", {"a"}, "k * b"),
        ("max(a, 0)*k + b", {"a"}, "b"),
        ("max(a, b)", {"a"}, "max(a, b)"),
        ("sqrt(a**2 + b**2)", {"a"}, "sqrt(b ** 2)"),
        ("sqrt(a**2 + b**2)", {"a", "b"}, None),
        ("b/a", {"b"}, None),
    ],
)
def test_what_is_left_of_a_formula(text, zeros, left):
    rest = without(parse(text), zeros)
    assert (None if rest is None else ast.unparse(rest)) == left


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_every_line_is_well_formed(cls):
    for section in shown(cls):
        for line in section.lines:
            text = f"<p>{formula(line, section)}{mathml.math_of(mathml.symbol(line.symbol))} {sized(line)}</p>"
            assert "".join(ElementTree.fromstring(text).itertext()).strip()  # noqa: S314


def test_conditions_of_the_branch_are_noted():
    found = taken("where(cracked, where(c_a < 4, k, 2), 17)*sqrt(f_c)", {"cracked": 1.0, "c_a": 3.0, "k": 24.0})
    assert [holds for _, holds in found.because] == [True, True]
    assert mathml.tree(found.tree, lambda name: f"[{name}]") == "[k]<mo>·</mo><msqrt>[f_c]</msqrt>"
    assert parse("where(cracked, 1, 2)") is parse("where(cracked, 1, 2)")


def test_a_choice_by_place_stays():
    """Whether a model is picked differs from model to model: no branch of all."""
    found = taken("max(where(picked, dead, min(dead)))", {})
    assert found.because == ()


def test_a_choice_that_is_the_same_at_every_place_is_taken():
    """The largest of all models: the formula is their largest, and that all of them are taken stands beside it."""
    kinds = set()
    for section in shown(RunReaction):
        picked, dead = set(section.line("picked").value.values()), section.line("r_dead")
        left = {node.id for node in ast.walk(dead.taken.tree) if isinstance(node, ast.Name)}
        assert ("picked" not in left) == (len(picked) == 1)
        kinds.add(len(picked))
    assert kinds == {1, 2}


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (1.1368683772161603e-16, "0"),
        (-2e-14, "0"),
        (0.1190991, "0.1191"),
        (5843.88, "5843.9"),
        (1234567.8, "1234568"),
        (-69.4044, "−69.404"),
        (0.000012345678, "0.000012346"),
        (4.0, "4"),
        (99999.96, "100000"),
        (math.inf, "∞"),
    ],
)
def test_numbers(value, text):
    assert mathml.number(value) == text


@pytest.mark.parametrize(
    ("symbol", "text"),
    [
        ("f'_c", "<msub><mi>f′</mi><mtext>c</mtext></msub>"),
        ("e'_N,x", "<msub><mi>e′</mi><mtext>N,x</mtext></msub>"),
        ("V_x, dead", "<msub><mi>V</mi><mtext>x</mtext></msub><mtext>, dead</mtext>"),
        ("N_ua / φN_n", "<msub><mi>N</mi><mtext>ua</mtext></msub><mo>/</mo><msub><mi>φN</mi><mtext>n</mtext></msub>"),
        ("E_s/E_c", "<msub><mi>E</mi><mtext>s</mtext></msub><mo>/</mo><msub><mi>E</mi><mtext>c</mtext></msub>"),
        ("gap above 1/4 in", "<mtext>gap above 1/4 in</mtext>"),
        ("x < y", "<mtext>x &lt; y</mtext>"),
    ],
)
def test_symbols(symbol, text):
    assert mathml.symbol(symbol) == text


@pytest.mark.parametrize(
    ("symbol", "words"),
    [
        ("V_cb along the edge, ψ_ed,V = 1", " along the edge,  = 1"),
        ("by the bond in cracked concrete", "by the bond in cracked concrete"),
        ("N_ua / φN_n in all", " /  in all"),
        ("V_x, dead", ", dead"),
        ("f'_c", ""),
        ("E_s/E_c", ""),
        ("n", ""),
    ],
)
def test_words_of_a_symbol_that_stands_alone_can_be_broken(symbol, words):
    shown = mathml.label(symbol)
    assert re.sub(r"<math.*?</math>", "", shown) == words
    assert re.sub(r"<[^>]*>|\s", "", shown) == re.sub(r"<[^>]*>|\s", "", mathml.symbol(symbol))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("(a + b)*c", "<mrow><mo>(</mo>a<mo>+</mo>b<mo>)</mo></mrow><mo>·</mo>c"),
        ("a - (b - c)", "a<mo>−</mo><mrow><mo>(</mo>b<mo>−</mo>c<mo>)</mo></mrow>"),
        ("a - b*c", "a<mo>−</mo>b<mo>·</mo>c"),
        ("(a*b)**2", "<msup><mrow><mrow><mo>(</mo>a<mo>·</mo>b<mo>)</mo></mrow></mrow><mrow><mn>2</mn></mrow></msup>"),
        ("-a*b", "<mo>−</mo>a<mo>·</mo>b"),
    ],
)
def test_brackets_only_where_they_are_needed(text, expected):
    assert mathml.tree(parse(text), lambda name: name) in (expected, expected.replace("<mo>−</mo>a", _NEGATIVE))


_NEGATIVE = "<mrow><mo>(</mo><mo>−</mo>a<mo>)</mo></mrow>"


def test_pieces_are_the_whole():
    def show(name):
        return f"<mi>{name}</mi>"

    text = "gamma_dead*n_dead + gamma_live*(n_of_live_load + n_of_everything_else_that_there_is) - max(first_of_all, 0)"
    pieces = mathml.pieces(parse(text), show)
    assert len(pieces) == 6
    whole = re.sub("<[^>]*>", "", mathml.tree(parse(text), show))
    assert re.sub("<[^>]*>", "", "".join(pieces)) == whole


def test_units_are_printed_with_raised_powers():
    assert unit_text("in2") == "in²"
    assert unit_text("lbf*in") == "lbf·in"


def test_every_procedure_of_a_hang_point_has_a_sentence():
    """The others are of resources without sheets."""
    used = {q.formula for cls in GENERATORS for q in columns(cls).values() if q.kind is Kind.PROCEDURE}
    assert used - PROCEDURES.keys() == {
        *("tangent", "slenderness_of_stress", "bar_moment", "bar_deflection", "support_sums", "any_three"),
        *("direction", "farthest_edge", "edge_sums", "corner_tensions"),
        *("rounded_up", "whole_lengths", "whole_pieces", "cutting_plan", "least_bars"),
    }


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        (
            "N_b, h_ef^1.5",
            "<msup><mrow><msub><mi>h</mi><mtext>ef</mtext></msub></mrow><mrow><mn>1.5</mn></mrow></msup>",
        ),
        ("h'_ef^(5/3) allowed", "<mi>h′</mi><mtext>ef</mtext></msub></mrow><mrow><mn>5/3</mn></mrow></msup>"),
        ("N_ua,s / 0.55φN_ba", "<mn>0.55</mn><msub><mi>φN</mi><mtext>ba</mtext></msub>"),
        ("E of V_ua,x", "<msub><mi>V</mi><mtext>ua,x</mtext></msub>"),
        ("λ_a of N_p", "<msub><mi>N</mi><mtext>p</mtext></msub>"),
        ("edges nearer than 1.5h_ef", "<mn>1.5</mn><msub><mi>h</mi><mtext>ef</mtext></msub>"),
    ],
)
def test_no_symbol_is_left_as_a_word(text, shown):
    for made in (mathml.label(text), mathml.symbol(text)):
        assert shown in made
        assert not re.search(r"[_^]", made)


def test_a_ratio_takes_its_power_in_brackets():
    """The square of a slope is not that of the length that it is by."""
    shown = mathml.tree(parse("a**2"), lambda _: mathml.symbol("∂σ/∂x"))
    assert "<mo>(</mo>" in shown
    assert "<mo>(</mo>" not in mathml.tree(parse("a**2"), lambda _: mathml.symbol("V_x"))


@pytest.mark.parametrize(
    ("unit", "shown"), [("psi0.5", "psi⁰·⁵"), ("lbf0.75", "lbf⁰·⁷⁵"), ("in2", "in²"), ("lbf*in", "lbf·in")]
)
def test_powers_of_units_are_raised(unit, shown):
    assert unit_text(unit) == shown


def test_a_condition_has_no_factor_of_1():
    (shown,) = mathml.logic(parse("a*1 == 1"), lambda name: f"<mi>{name}</mi>", {"a"})
    assert shown == "<mi>a</mi>"


@pytest.mark.parametrize("cls", GENERATORS, ids=lambda cls: cls.__name__)
def test_no_symbol_of_a_formula_stands_for_two_numbers(cls):
    """Of names that one formula has, or that it and its result have, no two read alike."""
    fields = columns(cls)
    for name, q in fields.items():
        if q.kind is not Kind.FORMULA:
            continue
        own = {each.id for each in ast.walk(parse(q.formula)) if isinstance(each, ast.Name)} & fields.keys() | {name}
        symbols = [fields[each].symbol for each in sorted(own) if not fields[each].when]
        assert len(symbols) == len(set(symbols)), (name, symbols)
