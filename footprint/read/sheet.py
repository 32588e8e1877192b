"""A workbook or text file as sparse cells, before any meaning is given to them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from openpyxl.utils import get_column_letter

Kind = Literal["number", "text", "date", "time", "truth", "error", "no result"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not empty.

    Attributes:
        row: counted from 1. [1]
        column: counted from 1. [1]
        kind: what the file says the cell holds. [text]
        value: the number, the text, the date; the text of the error. [as kind]
        written: what the user sees or typed. [text]
        is_percent: the cell is shown as per cent, so that 0.985 looks like 98.5 %. [flag]
        formula: as stored, with its equals sign; empty for a typed value. [text]
    """

    row: int
    column: int
    kind: Kind
    value: float | str | datetime | bool
    written: str
    is_percent: bool = False
    formula: str = ""

    @property
    def address(self) -> str:
        """The address as the spreadsheet shows it, such as D7."""
        return address_of(self.row, self.column)


@dataclass(frozen=True, slots=True)
class Merged:
    """A range of merged cells; its text stands in the first."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int

    def holds(self, row: int, column: int) -> bool:
        """Return whether a cell lies in the range.

        Args:
            row: counted from 1. [1]
            column: counted from 1. [1]

        Source: definition
        """
        is_row_in = self.first_row <= row <= self.last_row
        return is_row_in and self.first_column <= column <= self.last_column


@dataclass(frozen=True, eq=False, slots=True)
class Sheet:
    """The cells of one sheet that hold something, with what is hidden and merged."""

    file: str
    name: str
    cells: dict[tuple[int, int], Cell]
    is_hidden: bool = False
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    merged: tuple[Merged, ...] = ()
    by_row: dict[int, list[Cell]] = field(init=False)

    def __post_init__(self) -> None:
        """Sort the cells by row and column once."""
        rows: dict[int, list[Cell]] = {}
        for position in sorted(self.cells):
            rows.setdefault(position[0], []).append(self.cells[position])
        object.__setattr__(self, "by_row", rows)

    @property
    def is_text(self) -> bool:
        """Whether the sheet is a text file, where every cell is text."""
        return not self.name

    def at(self, row: int, column: int) -> Cell | None:
        """Return the cell at a position, or None where it is empty.

        Args:
            row: counted from 1. [1]
            column: counted from 1. [1]

        Source: definition
        """
        return self.cells.get((row, column))

    def heading_at(self, row: int, column: int) -> Cell | None:
        """Return the cell of a heading, where merged cells stand for their whole range.

        Args:
            row: counted from 1. [1]
            column: counted from 1. [1]

        Source: definition
        """
        area = self.merged_around(row, column)
        return self.at(area.first_row, area.first_column) if area else self.at(row, column)

    def merged_around(self, row: int, column: int) -> Merged | None:
        """Return the merged range that a cell belongs to, if any.

        Args:
            row: counted from 1. [1]
            column: counted from 1. [1]

        Source: definition
        """
        return next((area for area in self.merged if area.holds(row, column)), None)


@dataclass(frozen=True, eq=False, slots=True)
class Book:
    """One file that was opened; a text file has one sheet without a name."""

    name: str
    size: int
    sha256: str
    sheets: tuple[Sheet, ...]
    is_text: bool = False


def address_of(row: int, column: int) -> str:
    """Return the address of a cell as the spreadsheet shows it, such as D7.

    Args:
        row: counted from 1. [1]
        column: counted from 1. [1]

    Source: definition
    """
    return f"{get_column_letter(column)}{row}"
