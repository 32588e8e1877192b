"""What a stage shows: lines under a heading, each with its months and its year."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.row import Row


@dataclass(frozen=True, eq=False, slots=True)
class Line:
    """One line of a sheet: a row over the months, the figure of the year, or both in one unit."""

    months: Row | None
    year: Row | None = None
    is_total: bool = False

    def __post_init__(self) -> None:
        """Refuse two units on one line."""
        if self.months is not None and self.year is not None and self.months.unit != self.year.unit:
            raise ValueError(f"{self.months.key}: months and year have different units")

    @property
    def row(self) -> Row:
        """The row that names the line."""
        row = self.months if self.months is not None else self.year
        if row is None:
            raise ValueError("a line needs a row")
        return row


@dataclass(frozen=True, eq=False, slots=True)
class Section:
    """Lines under one heading."""

    title: str
    lines: tuple[Line, ...]
    note: str = ""


@dataclass(frozen=True, eq=False, slots=True)
class Page:
    """One sheet of lines: its name, the question it answers, its sections."""

    name: str
    question: str
    sections: tuple[Section, ...]
