"""The [[analyses]] of a draft: one for each table whose headings are components of a gas."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footprint.gas.names import COMPONENTS, name_of
from footprint.read.components import is_no_component, is_plus_fraction
from footprint.read.fault import Refusal
from footprint.read.headings import clean, name_without_unit
from footprint.read.nearest import nearest
from footprint.read.sheet import Book
from footprint.read.unit_words import PER_CENT_BY_MOLE, unit_named
from footprint.start.draft_meters import place_lines
from footprint.start.groups import Group
from footprint.start.layouts import FEWEST_COMPONENTS, components_in
from footprint.start.notes import commented, known, listed, question, remark
from footprint.start.site_words import line_text
from footprint.start.tables import Heading, Table, table_in
from footprint.start.trade_words import plain

_NAMES = ("natural gas", "purge gas", "let-down gas", "solvent flash gas", "raw synthesis gas")


@dataclass(frozen=True)
class Analysed:
    """The analyses of a gas as the draft describes them."""

    gas: str
    text: str


def analysed(group: Group, taken: Sequence[str]) -> Analysed:
    """Return the lines of the analyses of a gas, under a name that no other has.

    Args:
        group: tables whose headings are components. [group]
        taken: names of gases drafted before. [text]

    Source: definition
    """
    table = group.table
    gas, reason = _gas_of(group)
    while gas in taken:
        gas = f"{gas}, other"
    lines = [
        group_remark(group),
        "\n[[analyses]]\n",
        known("gas", gas, reason),
        *place_lines(group, "samples"),
        _unit(table),
        _moisture(table),
        question(
            "does a sample hold until the next one, or since the last?",
            "represents",
            "until the next sample",
        ),
        *_more(table),
    ]
    return Analysed(gas, "".join(lines))


def group_remark(group: Group) -> str:
    """Return the remark that says which components were found where.

    Args:
        group: tables whose headings are components. [group]

    Source: definition
    """
    table = group.table
    found = components_in(table)
    cells = [table.place(table.header_row, one.column) for one in found]
    count = f"{len(found)} components in {cells[0]} to {cells[-1]}, {len(group.days)} samples"
    return "\n" + remark(f"--- {group.place}: {count}")


def _gas_of(group: Group) -> tuple[str, str]:
    """Return the name of the gas: by the words around the table, else the sheet or file."""
    words = plain(f"{group.table.title} {group.context}")
    named = [name for name in _NAMES if plain(name) in words]
    if len(named) == 1:
        return named[0], f'the words "{named[0]}" in the title, or the name of sheet or file'
    name = group.sheet or group.context
    return name.replace("*", "").strip() or "gas", "the name of the sheet or file"


def _unit(table: Table) -> str:
    """Return the unit where a heading, the row of units or the title says mole per cent."""
    for one in components_in(table):
        for text in (one.unit_text, name_without_unit(one.text)[1]):
            found = unit_named(text) if text else None
            if isinstance(found, Refusal) and found.code is PER_CENT_BY_MOLE:
                cell = table.place(table.header_row, one.column)
                return known("unit", "mol-%", f'"{text}" at {cell}')
    if re.search(r"\bmol(e|ar)?\b", plain(table.title)):
        return known("unit", "mol-%", "the title")
    return question("are the shares mole per cent? nothing in the sheet says so", "unit", "mol-%")


def _moisture(table: Table) -> str:
    """Return that the analyses are dry where the title says so."""
    words = f"{table.title} {' '.join(one.text for one in table.headings)}"
    if re.search(r"\bdry\b", plain(words)):
        return known("moisture", "dry", 'the word "dry" above or in the headings')
    return question(
        "are the shares those of the dry gas? nothing in the sheet says so", "moisture", "dry"
    )


def _more(table: Table) -> Iterable[str]:
    """Yield the method, the lumped fraction, and headings that are no known component."""
    unknown: dict[str, str] = {}
    for one in table.headings:
        cell = f'{table.place(table.header_row, one.column)} "{one.text}"'
        if plain(one.text).startswith("method") and not one.is_of_numbers:
            yield known("method_column", one.text, cell)
        elif found := _unknown(one):
            asked, component = found
            unknown[name_without_unit(one.text)[0]] = component
            yield question(f"{cell} {asked}")
    if unknown:
        yield commented(line_text("components", unknown))


def _unknown(one: Heading) -> tuple[str, str] | None:
    """Return what to ask of numbers under no known component, and a component to begin with."""
    name = name_without_unit(one.text)[0]
    if name_of(name) or not one.is_of_numbers:
        return None
    if is_plus_fraction(one.text):
        return "sums up heavier hydrocarbons: what does it count as?", "n-hexane"
    if is_no_component(one.text):
        return None
    component = nearest(name, COMPONENTS) or "nitrogen"
    return "is no known component: which one is it, if any?", component


def certificates_in(books: Iterable[Book]) -> list[str]:
    """Return a question for each sheet that holds one sample, its components one below another.

    Args:
        books: that were opened. [books]

    Source: common practice, no source
    """
    asked: list[str] = []
    for book in books:
        for sheet in book.sheets:
            texts = [cell for cell in sheet.cells.values() if cell.kind == "text"]
            names = [cell for cell in texts if name_of(clean(str(cell.value)))]
            columns = {cell.column for cell in names}
            if sheet.is_hidden or table_in(sheet) or len(names) < FEWEST_COMPONENTS:
                continue
            if len(columns) == 1:
                place = " > ".join(part for part in (book.name, sheet.name) if part)
                shown = listed((clean(str(cell.value)) for cell in names[:2]), "and")
                asked.append(
                    f"{place} holds {shown} one below another, from {names[0].address}: is it the "
                    "certificate of one sample? put all samples into one sheet, a row a sample, "
                    "with a column Sampled, and draft again"
                )
    return asked
