"""What every part of measure needs: the site, its year, the factors, and the rows read so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from footprint.base.axis import Axis
from footprint.base.finding import Finding
from footprint.base.formulas import choose, is_read, span, total
from footprint.base.line import Line
from footprint.base.row import Row, constant, leaf, step
from footprint.base.units import time_below, unit
from footprint.gas.quality import GasQuality
from footprint.measure.accuracy import Doubt, doubts_of, doubts_of_meter
from footprint.measure.assumed import assumed_rows
from footprint.measure.calendar import Calendar, spans_by_month
from footprint.measure.counted import amount_of_rate, written
from footprint.measure.gap_scatter import gap_errors
from footprint.measure.gaps import FilledGap, Hole, filled, open_places
from footprint.measure.meter_read import MeterRead
from footprint.measure.properties import Physics
from footprint.measure.substituted import substituted
from footprint.measure.unstated import Unstated, kind_of_meter
from footprint.read.purposes import purposes_of
from footprint.read.readings import Readings, Series
from footprint.read.site import Gap, Site, Substitute
from footprint.register import Register


@dataclass
class Context:
    """The works, the year, the factors and what was read; each meter becomes one row, made once."""

    readings: Readings
    register: Register
    findings: list[Finding] = field(default_factory=list)
    made: dict[str, Row] = field(default_factory=dict)
    qualities: dict[str, GasQuality] = field(default_factory=dict)
    filled: list[FilledGap] = field(default_factory=list)

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
        """Return a factor in force on the last day of the year, or what the site file assumes.

        Args:
            quantity: as in the factor files. [text]
            jurisdiction: whose value. [text]

        Source: definition
        """
        published = self.register.row(quantity, self.last_day, jurisdiction)
        return self.assumed.get(quantity, published)

    @cached_property
    def assumed(self) -> dict[str, Row]:
        """What the site file assumes instead of a factor, by the name of the factor."""
        rows, findings = assumed_rows(self.site, self.register, self.unstated)
        self.findings.extend(findings)
        return rows

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
        """Return the amounts of a meter, missing ones replaced where the site file says by what.

        Args:
            tag: of the meter. [text]
            words: what the reader calls it. [text]

        Source: definition
        """
        key = f"reading/{tag}"
        if key not in self.made:
            series, read = self.readings.series[tag], self.as_read(tag, words)
            substitutes = [one for one in self.site.substitutes if one.meter == tag]
            used = self._used(read, series, substitutes) if substitutes else read
            self.made[key] = self._filled(used, read, series)
        return self._amount(tag, words)

    def _amount(self, tag: str, words: str) -> Row:
        """Return the readings of a meter, or the amounts where they are rates; made once."""
        series, key = self.readings.series[tag], f"amount/{tag}"
        if time_below(series.unit) is None:
            return self.made[f"reading/{tag}"]
        if key not in self.made:
            one = self.meter_read(tag, words)
            self.made[key] = amount_of_rate(self.made[f"reading/{tag}"], one)
        return self.made[key]

    def as_read(self, tag: str, words: str = "") -> Row:
        """Return the readings of a meter as they stand in the sheet, holes left open; made once.

        Args:
            tag: of the meter. [text]
            words: what the reader calls it; the stream of the meter when empty. [text]

        Source: definition
        """
        key = f"as read/{tag}"
        if key not in self.made:
            named = words or next((s.name for s in self.site.streams if s.meter == tag), tag)
            one = self.meter_read(tag, named)
            axis = self._axis_of(one.series)
            row = written(one, axis, self.calendar)
            self.made[key] = _as_leaf(one, axis) if row is None else row
        return self.made[key]

    def meter_read(self, tag: str, words: str) -> MeterRead:
        """Return a meter with its series and all that makes its readings unsure.

        Args:
            tag: of the meter. [text]
            words: what the reader calls it. [text]

        Source: definition
        """
        return MeterRead(self.site, self.readings.series[tag], words, self.doubts(tag))

    def doubts(self, tag: str) -> tuple[Doubt, ...]:
        """Return what is stated about a meter, with the default of its kind where nothing is.

        Args:
            tag: of the meter. [text]

        Source: definition
        """
        series, meter = self.readings.series[tag], self.site.meter(tag)
        stated = doubts_of_meter(self.site, meter)
        kind = kind_of_meter(purposes_of(self.site, tag), series.rows, series.amount_unit)
        if kind is None or any(not one.is_anew for one in stated):
            return stated
        taken = self.unstated.take(kind, tag)
        days = meter.calibrations
        return (*doubts_of(f"calibration of {tag}", taken, calibrations=days), *stated)

    @cached_property
    def unstated(self) -> Unstated:
        """What is taken where the site file states no uncertainty."""
        return Unstated(self.register, self.last_day)

    def _used(self, read: Row, series: Series, substitutes: list[Substitute]) -> Row:
        """Replace missing readings by the values that somebody answers for."""
        instead = substituted(read, series, substitutes, self.unstated)
        return step(
            choose(is_read(read), read, instead),
            f"{read.key}, used",
            f"{read.words}, used",
            "the reading; where there is none, the substitute named in the site file",
        )

    def open_periods(self, tag: str) -> tuple[int, ...]:
        """Return the places of periods without a reading that no stated substitute covers.

        Args:
            tag: of a meter that was read. [text]

        Source: definition
        """
        stated = [one for one in self.site.substitutes if one.meter == tag]
        return tuple(open_places(self.readings.series[tag], stated))

    def _filled(self, used: Row, read: Row, series: Series) -> Row:
        """Return the readings with the holes filled that the site file has a method for."""
        gaps = [one for one in self.site.gaps if one.meter == series.tag]
        stated = [one for one in self.site.substitutes if one.meter == series.tag]
        left = open_places(series, stated)
        for gap in gaps:
            days = series.dates
            places = tuple(at for at in left if gap.first_day <= days[at] <= gap.last_day)
            other = self._other(gap, read)
            if places and (other is not None or gap.other_meter is None):
                beside = None if other is None else self.readings.series[str(gap.other_meter)]
                errors = gap_errors(gap, series, places, beside, self.unstated)
                self.filled.append(filled(used, Hole(gap, series, read, places, other, errors)))
                used = self.filled[-1].used
                left = [at for at in left if at not in places]
        return used

    def _other(self, gap: Gap, read: Row) -> Row | None:
        """Return the other meter of a gap, where it reads over the same periods."""
        if gap.other_meter not in self.readings.series:
            return None
        other = self.as_read(gap.other_meter)
        return other if other.axis == read.axis else None

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


def _as_leaf(one: MeterRead, axis: Axis) -> Row:
    series = one.series
    return leaf(
        series.values,
        series.unit,
        axis,
        key=f"{one.key}/as read",
        words=f"{one.words}, as read ({series.tag})",
        origins=series.origins,
        errors=one.errors(series.values, series.unit, series.dates),
    )
