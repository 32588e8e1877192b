"""A meter, what it read, what the reader calls it, and who answers for its entry."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from footprint.base.axis import Axis
from footprint.base.cause import Error
from footprint.base.row import Row, leaf
from footprint.base.source import Assumption
from footprint.base.units import Unit
from footprint.measure.accuracy import Doubt, Read, days_of, errors_of
from footprint.read.readings import Listed, Series
from footprint.read.site import Meter, Site

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class MeterRead:
    """One meter of the site file with its series and its words."""

    site: Site
    series: Series
    words: str
    doubts: tuple[Doubt, ...] = ()

    @cached_property
    def meter(self) -> Meter:
        """The entry of the site file."""
        return self.site.meter(self.series.tag)

    @property
    def key(self) -> str:
        """Key that its rows begin with."""
        return f"meter/{self.series.tag}/{self.words}"

    def named(self, what: str) -> str:
        """Return what the reader calls one of its rows.

        Args:
            what: of the row. [text]

        Source: definition
        """
        return f"{self.words}, {what} ({self.series.tag})"

    @property
    def stated(self) -> Assumption:
        """Who answers for numbers of the entry."""
        works = self.site.works
        why = "stated in the site file"
        return Assumption(works.operator, why, works.plan.approved, f"meter {self.series.tag}")

    def listed(self, listed: Listed, unit: Unit, what: str, axis: Axis) -> Row:
        """Return a column beside the amounts as a row, with the meter's stated uncertainty.

        Args:
            listed: numbers with their cells. [any]
            unit: of the numbers. [unit]
            what: the column. [text]
            axis: its periods. [axis]

        Source: definition
        """
        return leaf(
            listed.values,
            unit,
            axis,
            key=f"{self.key}/{what}/as read",
            words=self.named(what),
            origins=listed.origins,
            errors=self.errors(listed.values, unit, days_of(axis), what),
        )

    def errors(
        self, values: Array, unit: Unit, days: tuple[date, ...], what: str = ""
    ) -> tuple[Error, ...]:
        """Return the errors of readings of this meter.

        Args:
            values: as read. [unit]
            unit: of the values. [unit]
            days: of the values. [date]
            what: the column, where a reading has several. [text]

        Source: JCGM 100:2008, clause 4.3 (from memory)
        """
        scale = self.meter.range.highest if self.meter.range else None
        return errors_of(self.doubts, Read(values, unit, days, scale, what))
