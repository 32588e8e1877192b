"""One line of a factor file: a value with its unit, its days and the document it is from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from footprint.base.source import Factor
from footprint.base.units import Unit

COLUMNS = (
    "quantity",
    "unit",
    "value",
    "low",
    "high",
    "jurisdiction",
    "first_day",
    "last_day",
    "document",
    "year",
    "place",
    "address",
    "evidence",
    "seen_date",
    "note",
)


@dataclass(frozen=True, slots=True)
class Series:
    """What makes lines editions of one value: the quantity and whose value it is."""

    quantity: str
    jurisdiction: str


@dataclass(frozen=True, slots=True)
class Span:
    """The days on which a value applies, both ends included; None is open."""

    first_day: date | None
    last_day: date | None

    def holds(self, day: date) -> bool:
        """Return whether a day lies within.

        Args:
            day: any day. [day]

        Source: definition
        """
        return (self.first_day or date.min) <= day <= (self.last_day or date.max)

    @property
    def words(self) -> str:
        """The span as the reader sees it."""
        if self.first_day is None and self.last_day is None:
            return "always"
        first = f"from {self.first_day:%Y-%m-%d}" if self.first_day else ""
        last = f"until {self.last_day:%Y-%m-%d}" if self.last_day else ""
        return " ".join(part for part in (first, last) if part)


@dataclass(frozen=True, slots=True)
class Line:
    """Where an entry stands: file and line number, as a text editor counts them."""

    file: str
    number: int


@dataclass(frozen=True, slots=True)
class Entry:
    """A value in force during a span of days.

    Attributes:
        series: quantity and jurisdiction. [text]
        unit: unit of the house. [unit]
        value: the figure. [unit of the entry]
        low: lower end of the published range, if any. [unit of the entry]
        high: upper end of the published range, if any. [unit of the entry]
        span: the days on which it applies. [days]
        source: document, year, place and how well it was checked. [origin]
        evidence: word of EVIDENCE. [text]
        line: where it stands. [place]
    """

    series: Series
    unit: Unit
    value: float
    low: float | None
    high: float | None
    span: Span
    source: Factor
    evidence: str
    line: Line

    @property
    def quantity(self) -> str:
        """What the value is, in plain words."""
        return self.series.quantity

    @property
    def jurisdiction(self) -> str:
        """Whose value it is; "any" for physics and science."""
        return self.series.jurisdiction

    @property
    def key(self) -> str:
        """The id that the workbook prints beside the value."""
        first = f"{self.span.first_day:%Y-%m-%d}" if self.span.first_day else "always"
        return f"factors/{self.jurisdiction}/{self.quantity}/{first}"

    @property
    def words(self) -> str:
        """What the reader calls it."""
        return (
            self.quantity
            if self.jurisdiction == "any"
            else f"{self.quantity} ({self.jurisdiction})"
        )
