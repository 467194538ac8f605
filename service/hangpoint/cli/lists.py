"""``hangpoint columns`` and ``hangpoint families``: what may stand in a file of hang points."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hangpoint.cli.options import UnitSystem
from hangpoint.cli.refusal import refuse, usable_catalogue, usable_settings

if TYPE_CHECKING:
    from hangpoint.api.column_list import ListedColumn
    from hangpoint.product.family import Family


def columns(
    csv: Annotated[bool, typer.Option("--csv", help="Print the list as CSV.")] = False,
    template: Annotated[
        Path | None, typer.Option(help="Write an empty CSV with the needed and usual columns to this new file.")
    ] = None,
    units: Annotated[UnitSystem, typer.Option(help="Units in the titles of --template.")] = UnitSystem.US,
) -> None:
    """List the columns of a CSV of hang points: names, units, words, and which are needed."""
    from hangpoint.api.column_list import columns_csv, empty_csv, listed_columns

    if template is not None:
        _write_new(template, empty_csv(units.value))
        typer.echo(f"Written: {template}")
        return
    if csv:
        typer.echo(columns_csv(), nl=False)
        return
    from rich.console import Console

    from hangpoint.report.terminal_lists import print_list

    known = listed_columns()
    print_list(
        Console(highlight=False),
        [
            ("Needed, in the file or by --defaults", [_line(each) for each in known if each.needed]),
            ("Usual", [_line(each) for each in known if each.usual and not each.needed]),
            ("Others; a number is a place in a list, from 0", [_line(each) for each in known if _is_other(each)]),
            ("Of a take-off only", [_line(each) for each in known if each.take_off_only]),
            ("Not read but handed back", [_notes()]),
        ],
    )


def _is_other(column: "ListedColumn") -> bool:
    return not (column.needed or column.usual or column.take_off_only)


def _line(column: "ListedColumn") -> tuple[str, str]:
    from hangpoint.report.reasons import some_words

    name = f"{column.short}  ({column.path})" if column.short else column.path
    holds = [f"[{' or '.join(dict.fromkeys(column.units))}]"] if column.units else []
    if column.words:
        holds.append(f"{'or ' if holds else ''}{some_words(column.words)}.")
    if column.listed:
        holds.append("Several with ; between them.")
    return name, " ".join([column.text, *holds])


def _notes() -> tuple[str, str]:
    from hangpoint.api.csv_columns import NOTES

    return ", ".join(NOTES), "Notes of your own; more words may follow: note on price."


def _write_new(file: Path, text: str) -> None:
    try:
        with file.open("x", encoding="utf-8", newline="") as opened:
            opened.write(text)
    except OSError as error:
        refuse(f"{file}: the file can't be written: {error.strerror}.")


def families(
    only: Annotated[
        list[str] | None, typer.Argument(help="Families of which the addresses are listed.", show_default=False)
    ] = None,
    catalogue: Annotated[
        Path | None, typer.Option(help="File or folder of families used instead of the built-in ones.")
    ] = None,
) -> None:
    """List the families of the catalogue with sizes and embedments: what family, anchor_size and h_ef may be."""
    from difflib import get_close_matches

    from rich.console import Console

    from hangpoint.report.terminal_lists import print_list

    loaded = usable_catalogue(catalogue or usable_settings().catalogue)
    for name in only or ():
        if name not in loaded.families:
            near = get_close_matches(name[:64], loaded.families, n=5, cutoff=0.3)
            refuse(f"There is no family {name}." + (f" Possible: {', '.join(near)}." if near else ""))
    console = Console(highlight=False)
    if only:
        print_list(console, [(name, _addresses(loaded.families[name])) for name in only])
        return
    lines = [(family.id, _family_text(family)) for family in loaded.families.values()]
    print_list(console, [(f"Families of the catalogue {loaded.version}", lines)])


def _addresses(family: "Family") -> list[tuple[str, str]]:
    from hangpoint.product.table import depth_text

    return [
        (f"{family.id}/{size.size}/{depth_text(each.h_ef)}", f"h_ef {depth_text(each.h_ef)} {_length_unit(family)}")
        for size in family.sizes
        for each in size.embedments
    ]


def _family_text(family: "Family") -> str:
    from hangpoint.product.table import depth_text

    sizes = "; ".join(
        f"{size.size} at {', '.join(depth_text(each.h_ef) for each in size.embedments)}" for size in family.sizes
    )
    head = f"{family.name}. Basis: {family.basis}; in {', '.join(family.traits.bases)}"
    data = "invented" if family.invented else "supplied"
    return f"{head}; data {data}. h_ef by size, {_length_unit(family)}: {sizes}."


def _length_unit(family: "Family") -> str:
    from hangpoint.units import LENGTH, PRINTED

    return PRINTED[family.units][LENGTH.name]
