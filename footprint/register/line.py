"""One line of a factor file turned into an entry, with all that is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from footprint.base.finding import Code, Finding, Where
from footprint.base.source import EVIDENCE, Factor
from footprint.base.units import NONE, Unit, unit
from footprint.register import faults
from footprint.register.allowed import allowed_for
from footprint.register.entry import Entry, Line, Series, Span

_NUMBER = re.compile(r"-?\d+(\.\d+)?([eE][+-]?\d+)?")
_UNIT = re.compile(r"(1|[A-Za-z]\w*)([*/][A-Za-z]\w*)*")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
NO_VALUE = float("nan")
Ends = tuple[float | None, float | None]


@dataclass
class Cells:
    """The cells of one line, with what was found wrong in them so far."""

    written: Mapping[str, str]
    line: Line
    findings: list[Finding] = field(default_factory=list)

    def text(self, column: str) -> str:
        """Return a cell without blanks around it.

        Args:
            column: heading. [text]

        Source: definition
        """
        return self.written[column].strip()

    def blame(self, code: Code, column: str, what: str, why: str = "") -> None:
        """Note a fault in one cell.

        Args:
            code: kind of fault. [code]
            column: heading. [text]
            what: one line, lower case. [text]
            why: the consequence; the kind's own words when empty. [text]

        Source: definition
        """
        where = Where(self.line.file, cell=f"line {self.line.number}", column=column)
        self.findings.append(code.at(where, what, read=self.text(column), why=why))

    def number(self, column: str) -> float | None:
        """Return a number, or None where the cell is blank or no number.

        Args:
            column: heading. [text]

        Findings:
            factor-not-a-number: something else is written there

        Source: definition
        """
        text = self.text(column)
        if _NUMBER.fullmatch(text):
            return float(text)
        if text:
            self.blame(faults.NOT_A_NUMBER, column, f'"{text}" is not a plain number')
        return None

    def day(self, column: str) -> date | None:
        """Return a day of the calendar, or None where the cell is blank or no day.

        Args:
            column: heading. [text]

        Findings:
            factor-day-impossible: no such day, or written another way

        Source: definition
        """
        text = self.text(column)
        if not text:
            return None
        try:
            if _DAY.fullmatch(text):
                return date.fromisoformat(text)
        except ValueError:
            pass
        self.blame(faults.DAY_IMPOSSIBLE, column, f'"{text}" is not a day such as 2025-01-31')
        return None


def entry_of(cells: Cells) -> Entry:
    """Return the entry of one line; `cells.findings` says whether it may be used.

    Args:
        cells: one line. [cells]

    Source: definition
    """
    series, evidence = _series(cells), _evidence(cells)
    value = cells.number("value")
    if not cells.text("value"):
        cells.blame(faults.NOT_A_NUMBER, "value", "no value is given")
    low, high = cells.number("low"), cells.number("high")
    _check_size(cells, series.quantity, value, (low, high))
    span = _span(cells)
    return Entry(
        series,
        _unit(cells),
        NO_VALUE if value is None else value,
        low,
        high,
        span,
        _source(cells, evidence, span),
        evidence,
        cells.line,
    )


def _series(cells: Cells) -> Series:
    for column in ("quantity", "jurisdiction"):
        text = cells.text(column)
        if not text:
            cells.blame(faults.NAME_UNUSABLE, column, f"no {column} is given")
        elif "/" in text:
            cells.blame(faults.NAME_UNUSABLE, column, f'"{text}" holds a slash')
    return Series(cells.text("quantity"), cells.text("jurisdiction"))


def _unit(cells: Cells) -> Unit:
    text = cells.text("unit")
    try:
        if _UNIT.fullmatch(text):
            return unit(text)
    except AttributeError:
        pass  # how the units library refuses a name
    what = f'"{text}" is not a known unit' if text else "no unit is given"
    cells.blame(faults.UNIT_UNKNOWN, "unit", what)
    return NONE


def _evidence(cells: Cells) -> str:
    if not cells.text("document"):
        cells.blame(faults.WITHOUT_SOURCE, "document", "no document is named")
    word = cells.text("evidence")
    if word not in EVIDENCE:
        what = (
            f'"{word}" does not say how well the value was checked'
            if word
            else "no evidence is named"
        )
        cells.blame(faults.WITHOUT_SOURCE, "evidence", what)
    return word


def _check_size(cells: Cells, quantity: str, value: float | None, ends: Ends) -> None:
    low, high = ends
    if value is None:
        return
    if (low is not None and value < low) or (high is not None and value > high):
        what = f"{cells.text('value')} lies outside {cells.text('low')} to {cells.text('high')}"
        cells.blame(faults.OUTSIDE_RANGE, "value", what)
    allowed = allowed_for(quantity)
    if allowed is not None and not allowed.admits(value):
        cells.blame(faults.OUTSIDE_ALLOWED, "value", f'"{quantity}" must be {allowed.words}')


def _span(cells: Cells) -> Span:
    first_day, last_day = cells.day("first_day"), cells.day("last_day")
    if first_day is not None and last_day is not None and last_day < first_day:
        what = f"the last day {last_day} is before the first day {first_day}"
        cells.blame(faults.DAYS_REVERSED, "last_day", what)
    return Span(first_day, last_day)


def _source(cells: Cells, evidence: str, span: Span) -> Factor:
    return Factor(
        document=cells.text("document"),
        place=cells.text("place"),
        year=cells.text("year"),
        address=cells.text("address"),
        is_seen=evidence == "seen",
        seen_on=cells.day("seen_date"),
        first_day=span.first_day,
        last_day=span.last_day,
        note=cells.text("note"),
        evidence=evidence,
    )
