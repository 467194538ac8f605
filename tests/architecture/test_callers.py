"""Columns go to the parameters of their own name: the type checker can't see h_ef and f_c change places."""

import ast
from pathlib import Path

import hangpoint.core

CORE = Path(hangpoint.core.__file__).parent


def _is_record(node):
    return any(ast.unparse(decorator).startswith(("record", "dataclass")) for decorator in node.decorator_list)


def parameters(tree):
    """Parameter names of every function, and field names of every record and dataclass, of a module."""
    found = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            names = [a.arg for a in (*node.args.posonlyargs, *node.args.args) if a.arg not in ("self", "cls")]
            found[node.name] = (names, [*names, *(a.arg for a in node.args.kwonlyargs)])
        elif isinstance(node, ast.ClassDef) and _is_record(node):
            names = [part.target.id for part in node.body if isinstance(part, ast.AnnAssign)]
            found[node.name] = ([], names)
    return found


def _last_name(value):
    """The name that a value is known by: ``h_ef`` of ``h_ef``, ``anchors.h_ef`` and ``anchors.h_ef[rows]``."""
    while isinstance(value, ast.Subscript):
        value = value.value
    if isinstance(value, ast.Attribute):
        return value.attr
    return value.id if isinstance(value, ast.Name) else None


def _aliases(tree):
    return {
        alias.asname: alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
        if alias.asname
    }


def swaps(tree, known):
    """Arguments that carry the name of another parameter of the function they are given to."""
    aliases, found, seen = _aliases(tree), [], 0
    for call in ast.walk(tree):
        if not isinstance(call, ast.Call):
            continue
        name = _last_name(call.func)
        positional, every = known.get(aliases.get(name, name), ([], []))
        given = [(k.arg, k.value) for k in call.keywords if k.arg] + list(zip(positional, call.args, strict=False))
        for parameter, value in given:
            passed = _last_name(value)
            seen += parameter in every and passed is not None
            if passed in every and passed != parameter:
                found.append(f"line {call.lineno}: {name}({parameter}={ast.unparse(value)})")
    return found, seen


def _modules():
    return {path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(CORE.rglob("*.py"))}


def test_columns_go_to_parameters_of_their_own_name():
    modules = _modules()
    known = {}
    for tree in modules.values():
        known |= parameters(tree)
    found, seen = {}, 0
    for path, tree in modules.items():
        swapped, count = swaps(tree, known)
        seen += count
        if swapped:
            found[str(path.relative_to(CORE))] = swapped
    assert found == {}
    assert seen > 300, "the check no longer sees the calls of the core"


def test_columns_are_keyword_only():
    """Functions of two columns or more take them by keyword, so that no order can be mistaken."""
    for path, tree in _modules().items():
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                columns = [
                    a for a in node.args.args if a.annotation and ast.unparse(a.annotation) in ("Floats", "Bools")
                ]
                assert len(columns) < 2, f"{path.name}: {node.name}"


SNIPPET = """
from somewhere import strength as s

def strength(*, h_ef, f_c, cracked):
    return h_ef

def plain(spans, load):
    return spans

strength(h_ef=anchors.h_ef, f_c=basis.f_c[rows], cracked=anchors.cracked)
strength(h_ef=anchors.f_c, f_c=basis.h_ef[rows], cracked=anchors.cracked)
strength(h_ef=h_ef, f_c=anchors.f_c_specified, cracked=~cracked)
s(h_ef=cracked, f_c=f_c, cracked=h_ef)
plain(load, spans)
"""


def test_the_check_finds_a_swap():
    tree = ast.parse(SNIPPET)
    found, seen = swaps(tree, parameters(tree))
    assert [line.split("(", 1)[1] for line in found] == [
        "h_ef=anchors.f_c)",
        "f_c=basis.h_ef[rows])",
        "h_ef=cracked)",
        "cracked=h_ef)",
        "spans=load)",
        "load=spans)",
    ]
    assert seen == 13
