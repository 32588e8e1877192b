"""A sheet of entries: words and single figures side by side, each entry a line."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.row import Row


@dataclass(frozen=True, eq=False, slots=True)
class OfPeriod:
    """One period of a row, such as March."""

    row: Row
    index: int


Shown = str | Row | OfPeriod | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a listing: its heading, and its width in characters."""

    words: str
    width: float
    is_number: bool = False


@dataclass(frozen=True, slots=True)
class Bars:
    """A chart of bars over some lines of a part: their first cell names the bar.

    Attributes:
        title: of the chart. [text]
        unit: of the figures. [text]
        first: first line. [1]
        count: number of lines. [1]
        column: of the figures. [1]
    """

    title: str
    unit: str
    first: int
    count: int
    column: int


@dataclass(frozen=True, eq=False, slots=True)
class Entries:
    """Entries under one heading, each as long as the listing has columns."""

    title: str
    lines: tuple[tuple[Shown, ...], ...]
    note: str = ""
    bars: Bars | None = None


@dataclass(frozen=True, eq=False, slots=True)
class Listing:
    """One sheet of entries: its name, the question it answers, its columns and parts."""

    name: str
    question: str
    columns: tuple[Column, ...]
    parts: tuple[Entries, ...]

    def __post_init__(self) -> None:
        """Refuse an entry that does not fit the columns."""
        for part in self.parts:
            for line in part.lines:
                if len(line) != len(self.columns):
                    raise ValueError(
                        f"{self.name}, {part.title}: {len(line)} cells in a line of "
                        f"{len(self.columns)} columns"
                    )

    @property
    def rows(self) -> list[Row]:
        """All rows that the sheet shows, in the order of showing."""
        shown = [cell for part in self.parts for line in part.lines for cell in line]
        rows = [cell.row if isinstance(cell, OfPeriod) else cell for cell in shown]
        return [row for row in rows if isinstance(row, Row)]
