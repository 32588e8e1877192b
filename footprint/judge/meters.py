"""Meters day by day: overdue, out of range, stuck, jumping, zero while the works runs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Code, Finding, declare
from footprint.base.units import label
from footprint.judge.carbon_effect import CarbonEffect
from footprint.judge.places import days_in_words, where_of
from footprint.judge.running import (
    days_running,
    hours_by_day,
    is_continuous,
    is_daily,
    metered,
)
from footprint.read.readings import Series
from footprint.read.site import Meter, Stream

LEAST_STUCK = 5  # days: common practice, no source
COARSE = 3.0  # usual change over the least one, below which readings tie by rounding: own choice
LEAP = 30.0  # times the median: common practice, no source

CALIBRATION_OVERDUE = declare(
    "calibration-overdue",
    "warn",
    means="A meter was read after the day on which its next calibration was due.",
    effect="its stated uncertainty no longer holds for these readings",
    mend="have it calibrated and write the new days into calibrated and calibration_due",
    example="calibration_due = 2025-06-18 while readings run to 2025-12-31",
)
OUT_OF_RANGE = declare(
    "reading-outside-range",
    "warn",
    means="A reading lies outside the range that site.toml states for its meter.",
    effect="a meter outside its range reads wrong or is cut off at its end",
    mend="compare with another meter; write what flowed, or state the right range",
    example="912 000 Nm3 from a meter with range = { lowest = 60000, highest = 900000 }",
)
STUCK = declare(
    "stuck-reading",
    "warn",
    means="A meter gave exactly the same value on five days or more while the works ran.",
    effect="the meter or its transmitter may have stood still, or a value was copied down",
    mend="look at the meter's log; write what flowed, or empty the cells and say by [[gaps]] how "
    "they are filled",
    example="184320 on each day from 4 to 9 March",
)
JUMPING = declare(
    "jumping-reading",
    "warn",
    means="A reading is over 30 times the median of the days the works ran, or under a thirtieth.",
    effect="a decimal mark, a unit or a digit is probably wrong",
    mend="look the reading up and write it into the cell",
    example="18432000 among readings near 184000",
)
ZERO_WHILE_RUNNING = declare(
    "zero-while-running",
    "warn",
    means="A meter of a stream that flows whenever the works runs reads zero on a day with more "
    "than 12 hours on line.",
    effect="what flowed on that day is left out",
    mend="write what flowed, or empty the cell and say by [[gaps]] how it is filled",
    example="0 Nm3 of feed gas on a day with 24 hours on line",
)


@dataclass(frozen=True, eq=False, slots=True)
class Watched:
    """A meter of a stream, its readings, and the days the works ran."""

    stream: Stream
    meter: Meter
    series: Series
    runs: NDArray[np.bool_]
    is_daily: bool
    effect: CarbonEffect

    @property
    def median(self) -> float:
        """Median of the readings that are not zero, on days the works ran."""
        values = self.series.values
        kept = values[self.runs & (values != 0) & ~np.isnan(values)]
        return float(np.median(kept)) if kept.size else float("nan")

    def found(self, code: Code, places: Sequence[int], what: str) -> Finding:
        """Return a finding on some readings, with what they do to the year's CO2.

        Args:
            code: kind of finding. [code]
            places: of the readings. [1]
            what: one line, without the days. [text]

        Source: definition
        """
        instead = self.series.values.copy()
        instead[list(places)] = self.median
        told = self.effect.words(self.series.tag, instead, "with the median of the year instead")
        named = f'{self.series.tag} ("{self.stream.name}") {what}, {self.days(places)}'
        why = "; ".join(text for text in (code.effect, told) if text)
        return code.at(where_of(self.series, places), named, why=why)

    def days(self, places: Sequence[int]) -> str:
        """Return the days of some readings in words.

        Args:
            places: of the readings. [1]

        Source: definition
        """
        return days_in_words(self.series, places)

    def number(self, value: float) -> str:
        """Return a reading with its unit.

        Args:
            value: of the meter. [unit]

        Source: definition
        """
        return f"{value:,.6g} {label(self.series.unit)}"


def meters_judged(effect: CarbonEffect, skipped: Iterable[str] = ()) -> list[Finding]:
    """Return what is doubtful about the meters of the works.

    Args:
        effect: the year's CO2 with other readings. [effect]
        skipped: tags whose jumps are told otherwise. [text]

    Findings:
        calibration-overdue, reading-outside-range, stuck-reading, jumping-reading,
        zero-while-running

    Source: limits are common practice, no source
    """
    apart = set(skipped)
    findings: list[Finding] = []
    for one in _watched(effect):
        findings += [*_overdue(one), *_outside(one), *_stuck(one), *_zero(one)]
        findings += [] if one.series.tag in apart else _jumping(one)
    return findings


def _watched(effect: CarbonEffect) -> Iterator[Watched]:
    context, runs = effect.context, days_running(effect.context)
    for stream, series in metered(context):
        daily = is_daily(context, series)
        days = runs if daily else np.ones(len(series.dates), dtype=bool)
        yield Watched(stream, context.site.meter(series.tag), series, days, daily, effect)


def _overdue(one: Watched) -> list[Finding]:
    due, series = one.meter.calibration_due, one.series
    if due is None or due >= date(one.effect.context.site.works.year, 12, 31):
        return []
    places = [place for place, day in enumerate(series.dates) if day > due]
    if not places:
        return []
    instead = series.values.copy()
    instead[places] = 0.0
    carried = one.effect.of(series.tag, instead)
    resting = f"{abs(carried):,.0f} t of the year's gross CO2 rest on them" if carried else ""
    when = "before its first reading" if len(places) == len(series.dates) else "in the year"
    what = (
        f'{series.tag} ("{one.stream.name}") was due for calibration on {due.isoformat()}, {when}: '
        f"{len(places)} readings since"
    )
    why = "; ".join(text for text in (CALIBRATION_OVERDUE.effect, resting) if text)
    return [CALIBRATION_OVERDUE.at(where_of(series, places), what, why=why)]


def _outside(one: Watched) -> list[Finding]:
    span = one.meter.range
    if span is None:
        return []
    values = one.series.values
    places = _places((values < span.lowest) | (values > span.highest))
    if not places:
        return []
    worst = max(
        (float(values[place]) for place in places), key=lambda value: abs(value - one.median)
    )
    limits = f"{one.number(span.lowest)} to {one.number(span.highest)}"
    return [one.found(OUT_OF_RANGE, places, f"reads {one.number(worst)}, outside {limits}")]


def _stuck(one: Watched) -> list[Finding]:
    if not one.is_daily or _is_coarse(one.series.values[one.runs]):
        return []
    found: list[Finding] = []
    for value, run in _runs_of_one_value(one):
        if len(run) >= LEAST_STUCK and value != 0:
            found.append(one.found(STUCK, run, f"reads {one.number(value)} without a change"))
    return found


def _is_coarse(values: NDArray[np.float64]) -> bool:
    """Return whether readings are rounded so much that days tie by chance."""
    changes = np.abs(np.diff(values[~np.isnan(values)])).round(9)
    changes = changes[changes > 0]
    return bool(changes.size) and float(np.median(changes)) < COARSE * float(changes.min())


def _runs_of_one_value(one: Watched) -> Iterator[tuple[float, list[int]]]:
    """Return the days that follow each other with one value, while the works ran."""
    values = one.series.values
    days = [
        place for place in range(len(values)) if one.runs[place] and not np.isnan(values[place])
    ]
    for (_, value), group in groupby(
        enumerate(days), key=lambda pair: (pair[1] - pair[0], float(values[pair[1]]))
    ):
        yield value, [place for _, place in group]


def _jumping(one: Watched) -> list[Finding]:
    values, median = one.series.values, one.median
    if not np.isfinite(median) or one.series.rows in {"tickets", "stock", "invoices"}:
        return []
    size, usual = np.abs(values), abs(median)
    is_leap = size > LEAP * usual
    if one.is_daily and is_continuous(one.stream):
        is_leap |= (size > 0) & (size < usual / LEAP) & one.runs
    places = _places(is_leap)
    if not places:
        return []
    first = float(values[places[0]])
    what = f"reads {one.number(first)}, the median is {one.number(median)}"
    return [one.found(JUMPING, places, what)]


def _zero(one: Watched) -> list[Finding]:
    is_known = hours_by_day(one.effect.context) is not None
    if not (is_known and one.is_daily and is_continuous(one.stream)):
        return []
    places = _places((one.series.values == 0) & one.runs)
    return (
        [one.found(ZERO_WHILE_RUNNING, places, "reads zero while the works runs")] if places else []
    )


def _places(is_meant: NDArray[np.bool_]) -> list[int]:
    return [int(place) for place in np.flatnonzero(is_meant)]
