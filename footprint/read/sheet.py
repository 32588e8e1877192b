"""A workbook or text file as sparse cells, before any meaning is given to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Literal

from openpyxl.utils import get_column_letter

from footprint.base.finding import Where
from footprint.read.refusal import Refusal

RANGES_SHOWN = 4

Kind = Literal["number", "text", "date", "time", "truth", "error", "no result", "refused"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that is not empty.

    Attributes:
        row: counted from 1. [1]
        column: counted from 1. [1]
        kind: what the file says the cell holds. [text]
        value: the number, the text, the date; the text of the error; of a sum that can't be
            given, why. [as kind]
        written: what the user sees or typed. [text]
        is_percent: the cell is shown as per cent, so that 0.985 looks like 98.5 %. [flag]
        formula: as stored, with its equals sign; empty for a typed value. [text]
        own: address in the file, where rows were moved, turned or summed while reading. [text]
    """

    row: int
    column: int
    kind: Kind
    value: float | str | datetime | bool | Refusal
    written: str
    is_percent: bool = False
    formula: str = ""
    own: str = ""

    @property
    def address(self) -> str:
        """The address as the spreadsheet shows it, such as D7."""
        return self.own or address_of(self.row, self.column)


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
class Home:
    """Where a row that was moved while reading stands in its file.

    Attributes:
        file: name of the file. [text]
        name: of the sheet. [text]
        row: counted from 1. [1]
        columns: own column by column of the sheet in memory, where they differ. [1]
    """

    file: str
    name: str
    row: int
    columns: dict[int, int]


@dataclass(frozen=True, eq=False, slots=True)
class Sheet:
    """The cells of one sheet that hold something, with what is hidden and merged.

    Sheets may be turned (rows and columns exchanged), joined or summed by day while reading; the
    addresses they give are those of the files.

    Attributes:
        file: name of the file, of joined sheets of the first. [text]
        name: of the sheet. [text]
        cells: by row and column. [cells]
        is_hidden, hidden_rows, hidden_columns, merged: as the file says. [any]
        is_turned: rows of the file are columns here. [flag]
        is_folded: a row here stands for several of the file, or for a part of one. [flag]
        homes: by row, where rows were moved. [places]
    """

    file: str
    name: str
    cells: dict[tuple[int, int], Cell]
    is_hidden: bool = False
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    merged: tuple[Merged, ...] = ()
    is_turned: bool = False
    is_folded: bool = False
    homes: dict[int, Home] = field(default_factory=dict)
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

    def turned(self) -> Sheet:
        """Return the sheet with rows and columns exchanged.

        Source: definition
        """
        cells = {
            (column, row): replace(cell, row=column, column=row, own=cell.address)
            for (row, column), cell in self.cells.items()
        }
        return replace(
            self,
            cells=cells,
            hidden_rows=self.hidden_columns,
            hidden_columns=self.hidden_rows,
            merged=tuple(
                Merged(one.first_column, one.first_row, one.last_column, one.last_row)
                for one in self.merged
            ),
            is_turned=not self.is_turned,
        )

    def home(self, row: int) -> Home:
        """Return where a row stands in its file.

        Args:
            row: counted from 1. [1]

        Source: definition
        """
        return self.homes.get(row) or Home(self.file, self.name, row, {})

    def address(self, row: int, column: int) -> str:
        """Return the address of a cell in its file, also of an empty one.

        Args:
            row: counted from 1. [1]
            column: counted from 1. [1]

        Source: definition
        """
        if cell := self.at(row, column):
            return cell.address
        home = self.home(row)
        own = home.columns.get(column, column)
        return address_of(own, home.row) if self.is_turned else address_of(home.row, own)

    def where(self, column: int, rows: Iterable[int], heading: str = "") -> Where:
        """Return the place of cells in one column, such as "D7:D9, D12".

        The heading of a column is named with it; what runs across has none.

        Args:
            column: counted from 1. [1]
            rows: counted from 1, at least one. [1]
            heading: of the column. [text]

        Source: definition
        """
        by_file: dict[tuple[str, str], list[int]] = {}
        for row in sorted(set(rows)):
            home = self.home(row)
            by_file.setdefault((home.file, home.name), []).append(row)
        (file, name), first = next(iter(by_file.items()))
        texts = [self._cells_in_words(column, first)]
        for (other, sheet), found in list(by_file.items())[1:]:
            place = Where(
                other if other != file else "", sheet, self._cells_in_words(column, found)
            )
            texts.append(place.words)
        return Where(file, name, " and ".join(texts), "" if self.is_turned else heading)

    def _cells_in_words(self, column: int, rows: list[int]) -> str:
        """Return the addresses of cells in rows of one file."""
        if self.is_folded:
            texts = list(dict.fromkeys(self.address(row, column) for row in rows))
            left = len(texts) - RANGES_SHOWN
            return ", ".join(texts[:RANGES_SHOWN]) + (f" and {left} more" if left > 0 else "")
        runs: list[list[int]] = []
        for row in rows:
            is_next = runs and self.home(row).row == self.home(runs[-1][-1]).row + 1
            runs[-1].append(row) if is_next else runs.append([row])
        shown = [
            ":".join(self.address(row, column) for row in dict.fromkeys((run[0], run[-1])))
            for run in runs[:RANGES_SHOWN]
        ]
        left = sum(len(run) for run in runs[RANGES_SHOWN:])
        return ", ".join(shown) + (f" and {left} more" if left else "")

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
