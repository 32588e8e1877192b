"""Sheets that hold parts of one table, joined into one, each cell with its own file and address."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import count

from footprint.base.finding import Finding
from footprint.read.column_units import UNITS_DISAGREE
from footprint.read.headings import Column, clean, headings_in, name_without_unit
from footprint.read.sheet import Cell, Home, Sheet
from footprint.read.unit_words import unit_named


@dataclass(frozen=True, eq=False, slots=True)
class Part:
    """One sheet of a table that stands in several.

    Attributes:
        sheet: where it stands. [sheet]
        header_row: the row of its headings. [1]
        first_row: the first below headings and units. [1]
        columns: own column of each column that is read, dates first. [1]
    """

    sheet: Sheet
    header_row: int
    first_row: int
    columns: tuple[int, ...]


def part_of(columns: Sequence[Column]) -> Part:
    """Return the part of a table that columns of one sheet make.

    Args:
        columns: of one sheet, with the same dates. [columns]

    Source: definition
    """
    first = columns[0]
    head = max((one.unit_row or one.header_row) for one in columns)
    own = (first.date_column, *(one.column for one in columns))
    return Part(first.sheet, first.header_row, head + 1, own)


def joined(parts: Sequence[Part]) -> Sheet:
    """Return one sheet with the headings of the first part and the rows of all.

    Columns that are read stand where the first part has them, others where its heading of the
    same name stands.

    Args:
        parts: in the order of the table. [parts]

    Source: definition
    """
    first = parts[0]
    cells = dict(first.sheet.cells)
    homes: dict[int, Home] = {}
    hidden = set(first.sheet.hidden_rows)
    last = max((row for row, _ in cells), default=first.first_row)
    spare = count(max((column for _, column in cells), default=1) + 1)
    for part in parts[1:]:
        place = _places(first, part, spare)
        shift = last + 1 - part.first_row
        back = {there: own for own, there in place.items()}
        for row, found in part.sheet.by_row.items():
            if row < part.first_row:
                continue
            home = part.sheet.home(row)
            homes[row + shift] = Home(home.file, home.name, home.row, back)
            last = row + shift
            for cell in found:
                there = place[cell.column]
                cells[(last, there)] = _moved(cell, last, there)
            if row in part.sheet.hidden_rows:
                hidden.add(last)
    return replace(first.sheet, cells=cells, homes=homes, hidden_rows=frozenset(hidden))


def units_in_parts(columns: Sequence[Column]) -> Finding | None:
    """Return the finding of a column whose unit differs between the sheets of its table.

    Args:
        columns: the same column in each sheet. [columns]

    Findings:
        units-disagree

    Source: definition
    """
    first = columns[0]
    for one in columns[1:]:
        if _unit_said(one) != _unit_said(first):
            here, there = (" ".join(text) or "nothing" for text in (_said(one), _said(first)))
            before = first.sheet.where(first.column, [first.header_row])
            what = f'the heading says "{here}", but "{there}" in {before.words}'
            where = one.sheet.where(one.column, [one.header_row], one.heading)
            return UNITS_DISAGREE.at(where, what)
    return None


def _said(column: Column) -> list[str]:
    """Return what the heading and the row below say of the unit."""
    return [text for text in (column.tail, column.unit_text) if text]


def _unit_said(column: Column) -> set[str]:
    """Return the units that a column names, or its own words where they are none."""
    named = ((text, unit_named(text)) for text in _said(column))
    return {unit if isinstance(unit, str) else text for text, unit in named}


def _places(first: Part, part: Part, spare: Iterator[int]) -> dict[int, int]:
    """Return the column of the joined table for each column of a part."""
    place = dict(zip(part.columns, first.columns, strict=True))
    by_name = {_name(cell): column for column, cell in headings_in(first.sheet, first.header_row)}
    names = {column: _name(cell) for column, cell in headings_in(part.sheet, part.header_row)}
    for own in sorted({column for _, column in part.sheet.cells}):
        if own in place:
            continue
        there = by_name.get(names.get(own, ""))
        is_free = there is not None and there not in place.values()
        place[own] = there if is_free and there is not None else next(spare)
    return place


def _name(cell: Cell) -> str:
    """Return a heading without its unit, to be compared."""
    return name_without_unit(clean(str(cell.value)))[0].casefold()


def _moved(cell: Cell, row: int, column: int) -> Cell:
    """Return a cell at another place, with the address that it has in its file."""
    return Cell(
        row,
        column,
        cell.kind,
        cell.value,
        cell.written,
        is_percent=cell.is_percent,
        formula=cell.formula,
        own=cell.address,
    )
