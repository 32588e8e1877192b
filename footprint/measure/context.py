"""What every part of measure needs: the site, its year, the factors, and the rows read so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from footprint.base.axis import Axis
from footprint.base.finding import Finding
from footprint.base.line import Line
from footprint.base.row import Row, choose, constant, is_read, leaf, span, step, total
from footprint.base.source import Assumption, Origin
from footprint.base.units import unit
from footprint.measure.accuracy import calibration_error
from footprint.measure.calendar import Calendar, spans_by_month
from footprint.measure.properties import Physics
from footprint.read.readings import Readings, Series
from footprint.read.site import Meter, Site, Substitute
from footprint.register import Register


@dataclass
class Context:
    """The works, the year, the factors and what was read; each meter becomes one row, made once."""

    readings: Readings
    register: Register
    findings: list[Finding] = field(default_factory=list)
    made: dict[str, Row] = field(default_factory=dict)

    @property
    def site(self) -> Site:
        """The site file."""
        return self.readings.site

    @property
    def unit_name(self) -> str:
        """Name of the process unit."""
        return self.site.units[0].name

    @property
    def calendar(self) -> Calendar:
        """The year of the return."""
        return Calendar(self.site.works.year)

    @property
    def last_day(self) -> date:
        """The day whose factors apply."""
        return date(self.site.works.year, 12, 31)

    def factor(self, quantity: str, jurisdiction: str = "any") -> Row:
        """Return a factor in force on the last day of the year.

        Args:
            quantity: as in the factor files. [text]
            jurisdiction: whose value. [text]

        Source: definition
        """
        return self.register.row(quantity, self.last_day, jurisdiction)

    @cached_property
    def per_percent(self) -> Row:
        """One hundredth, for each per cent."""
        return constant(
            0.01, unit("1/percent"), "units/percent/1/conversion", "parts of one in one %"
        )

    @cached_property
    def co2_per_carbon(self) -> Row:
        """Mass of CO2 made from a mass of carbon, by atomic weights."""
        return self.factor("ratio of CO2 to carbon")

    @cached_property
    def physics(self) -> Physics:
        """Component table and constants on the last day of the year."""
        return Physics(self.register, self.last_day)

    def key(self, stream: str, quantity: str, basis: str) -> str:
        """Return the key of a row of this works.

        Args:
            stream: name of the stream or topic. [text]
            quantity: what is counted. [text]
            basis: how it was found. [text]

        Source: definition
        """
        return f"{self.unit_name}/{stream}/{quantity}/{basis}"

    def reading(self, tag: str, words: str) -> Row:
        """Return the readings of a meter, missing ones replaced where the site file says by what.

        Args:
            tag: of the meter. [text]
            words: what the reader calls it. [text]

        Source: definition
        """
        key = f"reading/{tag}"
        if key not in self.made:
            series = self.readings.series[tag]
            meter = self.site.meter(tag)
            read = _as_leaf(series, meter, self._axis_of(series), words)
            substitutes = [one for one in self.site.substitutes if one.meter == tag]
            self.made[key] = _used(read, series, substitutes) if substitutes else read
        return self.made[key]

    def by_month(self, row: Row, key: str, words: str) -> Row:
        """Return the sum of a row over each month; a monthly row is named again.

        Args:
            row: daily, monthly or by ticket. [any]
            key: key of the result. [text]
            words: what the reader calls it. [text]

        Source: definition
        """
        if row.axis.kind == "months":
            return step(row, key, words, "as read, by month")
        if row.axis.kind == "days":
            return step(
                span(row, self.calendar.days_of_months, self.calendar.months),
                key,
                words,
                "sum of the days of the month",
            )
        dates = tuple(date.fromisoformat(label.partition(" ")[0]) for label in row.axis.labels)
        return step(
            span(row, spans_by_month(dates), self.calendar.months),
            key,
            words,
            "sum of the tickets of the month",
        )

    def year(self, row: Row) -> Row:
        """Return the sum over the year of a monthly row, under the same key with /year; made once.

        Args:
            row: a named row over months. [any]

        Source: definition
        """
        key = f"{row.key}/year"
        if key not in self.made:
            self.made[key] = step(total(row), key, f"{row.words}, year", "sum of the months")
        return self.made[key]

    def line(self, row: Row, *, is_total: bool = False) -> Line:
        """Return a line that shows a monthly row and its sum over the year.

        Args:
            row: a named row over months. [any]
            is_total: whether it is set off as a total. [flag]

        Source: definition
        """
        return Line(row, self.year(row), is_total)

    def _axis_of(self, series: Series) -> Axis:
        if series.rows == "daily":
            return self.calendar.days
        if series.rows == "monthly":
            return self.calendar.months
        if series.rows == "stock":
            return self.calendar.boundaries
        labels = tuple(
            f"{day.isoformat()} no. {place}" for place, day in enumerate(series.dates, 1)
        )
        return Axis("tickets", labels, series.tag)


def _as_leaf(series: Series, meter: Meter, axis: Axis, words: str) -> Row:
    return leaf(
        series.values,
        series.unit,
        axis,
        key=f"meter/{meter.tag}/{words}/as read",
        words=f"{words}, as read ({meter.tag})",
        origins=series.origins,
        errors=calibration_error(meter, series.values, series.unit),
    )


def _used(read: Row, series: Series, substitutes: list[Substitute]) -> Row:
    """Replace missing readings by the values that somebody answers for."""
    values = [float("nan")] * read.axis.size
    origins: list[Origin | None] = [None] * read.axis.size
    for one in substitutes:
        origin = Assumption(one.author, one.why, one.when, f"substitutes for {one.meter}")
        for place, day in enumerate(series.dates):
            if one.first_day <= day <= one.last_day:
                values[place], origins[place] = one.value, origin
    instead = leaf(
        values,
        read.unit,
        read.axis,
        key=f"{read.key}, substitute",
        words=f"{read.words}, substitute",
        origins=origins,
    )
    return step(
        choose(is_read(read), read, instead),
        f"{read.key}, used",
        f"{read.words}, used",
        "the reading; where there is none, the substitute named in the site file",
    )
