"""The index of a meter at the start of each period and at the end of the last."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Code, Finding
from footprint.read.holes import periods
from footprint.read.readings import Listed
from footprint.read.series import Source, origin_of
from footprint.read.site import Exchange, Index, Layout

START = "start of the day"


def boundaries(layout: Layout, year: int) -> list[date]:
    """Return the days at whose start an index is needed: of each period, and after the last.

    Args:
        layout: daily or monthly. [text]
        year: of the return. [year]

    Source: definition
    """
    return [*periods(layout, year), date(year + 1, 1, 1)]


def stamps(layout: Layout, year: int, index: Index) -> list[date]:
    """Return the date that each index is written at, in the order of the boundaries.

    An index read at the end of a day is dated by that day, one of a month's end by the month.

    Args:
        layout: daily or monthly. [text]
        year: of the return. [year]
        index: as declared. [entry]

    Source: definition
    """
    ends = boundaries(layout, year)
    if index.reads == START:
        return ends
    before = [day - timedelta(days=1) for day in ends]
    return [day.replace(day=1) for day in before] if layout == "monthly" else before


@dataclass(eq=False, slots=True)
class Log:
    """The index at each boundary, and what is found on the way.

    Attributes:
        source: where the readings stand. [source]
        index: as declared. [entry]
        ends: days at whose start an index is needed. [date]
        stamps: date that each is written at. [date]
        rows: of each boundary; None where there is none. [1]
        values: of each boundary; NaN where missing or refused. [unit]
        refused: places of boundaries with a finding of their own. [1]
        steps: readings that follow each other, as places of boundaries. [1]
        findings: by the periods that they touch. [findings]
    """

    source: Source
    index: Index
    ends: list[date]
    stamps: list[date]
    rows: list[int | None]
    values: NDArray[np.float64]
    refused: set[int]
    steps: list[tuple[int, int]] = field(default_factory=list)
    findings: list[tuple[Finding, set[int]]] = field(default_factory=list)

    def exchanges(self, first: int, last: int) -> list[Exchange]:
        """Return the exchanges between two boundaries, in the order of their days.

        Args:
            first: place of a boundary. [1]
            last: place of a later one. [1]

        Source: definition
        """
        span = (self.ends[first], self.ends[last])
        found = [one for one in self.index.exchanges if span[0] <= one.day < span[1]]
        return sorted(found, key=lambda one: one.day)

    def tell(self, code: Code, step: tuple[int, int], what: str) -> None:
        """Keep a finding about the readings at two boundaries.

        Args:
            code: of the finding. [code]
            step: places of the two. [1]
            what: without the tag. [text]

        Source: definition
        """
        column = self.source.column
        rows = [row for place in step if (row := self.rows[place]) is not None]
        cells = [one for row in rows if (one := column.sheet.at(row, column.column)) is not None]
        where = column.sheet.where(column.column, rows, column.heading)
        read = ", ".join(one.written for one in cells)
        told = code.at(where, f"{self.source.meter.tag}: {what}", read=read)
        self.findings.append((told, set(range(max(step[0] - 1, 0), step[1] + 1))))

    def parts(self, step: tuple[int, int]) -> list[float]:
        """Return what each meter grew by between two readings; two where one was exchanged.

        Args:
            step: places of two boundaries. [1]

        Source: definition
        """
        at = float(self.values[step[0]])
        grown: list[float] = []
        for one in self.exchanges(*step):
            grown.append(one.closing - at)
            at = one.opening
        return [*grown, float(self.values[step[1]]) - at]

    def length(self, step: tuple[int, int]) -> str:
        """Return how long it is between two boundaries, such as "3 days".

        Args:
            step: places of two boundaries. [1]

        Source: definition
        """
        return f"{(self.ends[step[1]] - self.ends[step[0]]).days} days"

    def listed(self) -> Listed:
        """Return the index at each boundary with its cells.

        Source: definition
        """
        column = self.source.column
        cells = [column.sheet.at(row, column.column) if row else None for row in self.rows]
        return Listed(self.values, tuple(origin_of(column, one) if one else None for one in cells))
