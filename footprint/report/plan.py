"""The shape of each sheet before anything is written: which line or column stands where."""

from __future__ import annotations

from dataclasses import dataclass, field

from footprint.base.axis import Axis
from footprint.base.listing import Bars, Listing, Shown
from footprint.base.row import Row
from footprint.judge.check import Check

TITLE, QUESTION, HEADER, FIRST = 0, 1, 3, 4  # rows of every sheet, counted from 0
QUANTITY, UNIT, JANUARY, YEAR = 0, 1, 2, 14  # columns of every sheet of months
LINES_ABOVE = (
    "Quantity",
    "Unit",
    "How it is computed",
    "Rule or source",
    "Key",
    "Comes from",
    "Goes into",
)


@dataclass(frozen=True, slots=True)
class Heading:
    """The title of a section."""

    at: int
    text: str


@dataclass(frozen=True, slots=True)
class Note:
    """A sentence under a heading."""

    at: int
    text: str


@dataclass(frozen=True, eq=False, slots=True)
class Entry:
    """One line of a sheet of months: months across, the year at their end."""

    at: int
    months: Row | None
    year: Row | None
    is_total: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class Tested:
    """Two lines of the checks: the figure tested, and below it the outcome."""

    at: int
    check: Check


Part = Heading | Note | Entry | Tested


@dataclass(eq=False, slots=True)
class MonthSheet:
    """A sheet with the months across."""

    name: str
    question: str
    parts: list[Part] = field(default_factory=list)
    next_row: int = FIRST


@dataclass(frozen=True, eq=False, slots=True)
class ListedLine:
    """One entry of a listing."""

    at: int
    cells: tuple[Shown, ...]


@dataclass(frozen=True, slots=True)
class ListedBars:
    """A chart of bars below a part of a listing; its figures begin at a line of the sheet."""

    at: int
    first: int
    bars: Bars


def rows_of_bars(bars: Bars) -> int:
    """Return how many rows of a sheet a chart of bars covers.

    Args:
        bars: the chart. [bars]

    Source: definition
    """
    return 7 + 2 * bars.count


@dataclass(eq=False, slots=True)
class ListSheet:
    """A sheet of entries."""

    listing: Listing
    parts: list[Heading | Note | ListedLine | ListedBars] = field(default_factory=list)
    next_row: int = FIRST

    @property
    def name(self) -> str:
        """Name of the sheet."""
        return self.listing.name


@dataclass(eq=False, slots=True)
class Table:
    """Rows of one axis side by side, periods down; above them properties, by column."""

    title: str
    axis: Axis
    columns: tuple[Row, ...]
    is_copy: bool = False
    properties: list[tuple[int, tuple[Row, ...]]] = field(
        default_factory=list
    )  # first column, rows
    at: int = 0

    @property
    def first_property(self) -> int:
        """Row of the first property."""
        return self.at + 1 + len(LINES_ABOVE)

    @property
    def first_period(self) -> int:
        """Row of the first period."""
        return self.first_property + len(self.properties)

    @property
    def after(self) -> int:
        """The row after the table and a gap."""
        return self.first_period + self.axis.size + 1


@dataclass(eq=False, slots=True)
class TableSheet:
    """A sheet of tables, one below the other."""

    name: str
    question: str
    first_column: int
    tables: list[Table] = field(default_factory=list)


@dataclass(frozen=True, eq=False, slots=True)
class ReadingBlock:
    """The readings of one row, one a line, under a line with its name."""

    at: int
    row: Row


@dataclass(frozen=True, eq=False, slots=True)
class FactorLine:
    """One line of the factors: a single value, or one edition of several."""

    at: int
    row: Row
    index: int = 0


@dataclass(eq=False, slots=True)
class FactorSheet:
    """Sections of single values with their sources; at the end the iterated values."""

    sections: list[tuple[Heading, list[FactorLine]]] = field(default_factory=list)
    iterated: list[FactorLine] = field(default_factory=list)
    iterated_heading: Heading | None = None
