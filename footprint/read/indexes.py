"""A meter that only counts up: amounts are what its index grew by between two readings."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import declare
from footprint.read.fault import Fault
from footprint.read.holes import span_in_words, substitute_for
from footprint.read.index_log import Log, boundaries, stamps
from footprint.read.readings import Indexes, Series
from footprint.read.series import (
    Result,
    Source,
    needless_findings,
    rows_refused,
    substituted_findings,
    values_of,
)
from footprint.read.site import Index

MOST_AFTER_ROLL_OVER = 10.0  # times the usual growth: more is a slip; common practice, no source

INDEX_FALLS = declare(
    "index-falls",
    "stop",
    means="The index of a meter is lower than the one before, without roll-over or exchange.",
    effect="one of the two is wrong; neither is used, and the amounts around them can't be given",
    mend="look both up in the log, or add rolls_over_at or an exchange to the meter's index",
    example="184320 below 184990; mended: 185320",
)
INDEX_ROLLED_OVER = declare(
    "index-rolled-over",
    "note",
    means="The index of a meter ran past its last digit and began again at zero.",
    effect="the amount was counted across zero",
    mend="nothing, if the meter shows as many digits as rolls_over_at says",
    example="12 below 999990 with rolls_over_at = 1000000: 22 were counted",
)
METER_EXCHANGED = declare(
    "meter-exchanged",
    "note",
    means="A meter was taken out and another put in, as site.toml says.",
    effect="the amount is counted up to the closing index and on from the opening index",
    mend="nothing, if closing and opening index are those of the exchange record",
    example="closing = 184320.0, opening = 12.0",
)
INDEX_NOT_READ = declare(
    "index-not-read",
    "note",
    means="An index is missing between two that were read.",
    effect="the amount between them is known and was spread evenly over its days",
    mend="write the index, if it was read",
    example="an empty B66 between 184320 in B65 and 185960 in B67: 820 on each of the two days",
)
YEAR_END_MISSING = declare(
    "index-missing-at-year-end",
    "stop",
    means="The index at the start or at the end of the year is missing.",
    effect="the amounts up to the next reading can't be given",
    mend="write the index of 1 January 00:00 of the year and of the next year",
    example="daily rows that end on 2025-12-31; mended: a row for 2026-01-01",
)


def index_of(source: Source) -> Result:
    """Return the amounts of a meter that counts up, by day or month, with its index beside them.

    Args:
        source: where the readings stand, and what they must be. [source]

    Findings:
        index-falls: names both cells; index-rolled-over, meter-exchanged, index-not-read.
        index-missing-at-year-end: the first or last amounts are open.
        reading-substituted, substitute-not-needed; the codes of `cell_values`.

    Source: definition
    """
    read, faults = values_of(source)
    log = _log(source, read, faults)
    _follow(log)
    series = _series(log)
    bare = {place for place, value in enumerate(series.values) if np.isnan(value)}
    covered = [one for one in sorted(bare) if substitute_for(source.substitutes, series.dates[one])]
    present = [day for place, day in enumerate(series.dates) if place not in bare]
    _ends_missing(log, bare - set(covered))
    findings = [
        one
        for one, touched in log.findings
        if one.level != "stop" or not touched & bare <= set(covered)
    ]
    days = [series.dates[place] for place in covered]
    findings += substituted_findings(source, days, {}) + needless_findings(source, present)
    return Result(series, _open(log, faults, set(covered)), [], findings)


def _log(source: Source, read: dict[int, float], faults: Sequence[Fault]) -> Log:
    """Return the index at each boundary, as far as it was read."""
    layout, index = source.meter.rows, source.meter.index or Index()
    written = stamps(layout, source.year, index)
    row_of = {day: row for row, day in source.rows.days.items()}
    rows = [row_of.get(day) for day in written]
    refused = rows_refused(faults)
    return Log(
        source,
        index,
        boundaries(layout, source.year),
        written,
        rows,
        np.array([read.get(row or 0, np.nan) for row in rows]),
        {
            place
            for place, (row, day) in enumerate(zip(rows, written, strict=True))
            if row in refused or day in source.rows.blocked
        },
    )


def _follow(log: Log) -> None:
    """Find readings that follow each other; refuse both where the index falls."""
    read = [place for place, value in enumerate(log.values) if not np.isnan(value)]
    usual = _usual_growth(log, read)
    fallen: set[int] = set()
    for step in pairwise(read):
        if (what := _fall(log, step, usual)) is not None:
            log.tell(INDEX_FALLS, step, what)
            fallen |= set(step)
    log.values[list(fallen)] = np.nan
    log.refused |= fallen
    for step in pairwise(read):
        is_broken = any(step[0] <= place <= step[1] for place in log.refused)
        if not is_broken:
            log.steps.append(step)
            _tell_step(log, step)


def _usual_growth(log: Log, read: Sequence[int]) -> float:
    """Return the median growth by period of steps that do not fall; 0 where there are none."""
    grown = [
        sum(parts) / (last - first)
        for first, last in pairwise(read)
        if min(parts := list(log.parts((first, last)))) >= 0
    ]
    return float(np.median(grown)) if grown else 0.0


def _fall(log: Log, step: tuple[int, int], usual: float) -> str | None:
    """Return why an index can't follow the one before, or None where it can."""
    parts, limit = list(log.parts(step)), log.index.rolls_over_at
    falls = [part for part in parts if part < 0]
    if not falls:
        return None
    before, after = (f"{log.values[place]:.10g}" for place in step)
    grown = sum(parts) + (limit or 0.0)
    is_likely = usual <= 0 or grown <= MOST_AFTER_ROLL_OVER * usual * (step[1] - step[0])
    if limit and len(falls) == 1 and sum(parts) < 0 <= grown and is_likely:
        return None
    beside = f", with an exchange on {log.exchanges(*step)[0].day}" if len(parts) > 1 else ""
    if limit:
        beside += f"; a roll-over at {limit:.10g} would make it {grown:.10g}"
    return f"the index falls from {before} to {after}{beside}"


def _tell_step(log: Log, step: tuple[int, int]) -> None:
    """Note what had to be done to count from one reading to the next."""
    grown, limit = sum(log.parts(step)), log.index.rolls_over_at or 0.0
    before, after = (f"{log.values[place]:.10g}" for place in step)
    if grown < 0:
        grown += limit
        what = f"the index rolled over from {before} to {after}, {grown:.10g} were counted"
        log.tell(INDEX_ROLLED_OVER, step, what)
    for one in log.exchanges(*step):
        what = f"exchanged on {one.day}, closing {one.closing:.10g}, opening {one.opening:.10g}"
        log.tell(METER_EXCHANGED, step, what)
    if step[1] - step[0] > 1:
        missing = log.stamps[step[0] + 1 : step[1]]
        span = span_in_words(missing, log.source.meter.rows)
        amount = grown * log.index.factor
        spread = f"{amount:.10g} in all was spread evenly over {log.length(step)}"
        log.tell(INDEX_NOT_READ, step, f"no index for {span}; {spread}")


def _ends_missing(log: Log, bare: set[int]) -> None:
    """Tell of an index that is missing before the first reading or after the last."""
    read = [place for place, value in enumerate(log.values) if not np.isnan(value)]
    known = sorted({*read, *log.refused})
    last = len(log.ends) - 1
    sides = [(0, known[0]), (known[-1], last)] if known else [(0, last)]
    for first, after in sides:
        touched = set(range(first, after)) & bare
        if not touched:
            continue
        end = 0 if first == 0 else last
        column = log.source.column
        rows = [row for place in (first, after) if (row := log.rows[place]) is not None]
        count = f"{(log.ends[after] - log.ends[first]).days} days"
        what = f"{log.source.meter.tag} has no index for {log.stamps[end].isoformat()}"
        why = f"the amounts of {count} can't be given"
        where = column.sheet.where(column.column, rows or [column.header_row], column.heading)
        log.findings.append((YEAR_END_MISSING.at(where, what, why=why), touched))


def _series(log: Log) -> Series:
    """Return the amounts, and the index that they follow from."""
    last = len(log.ends) - 1
    spans = [(place, place + 1) for place in range(last)]
    for step in log.steps:
        spans[step[0] : step[1]] = [step] * (step[1] - step[0])
    removed, fitted = (np.zeros(last), np.zeros(last))
    for place, step in enumerate(spans):
        removed[place] = sum(one.closing for one in log.exchanges(*step))
        fitted[place] = sum(one.opening for one in log.exchanges(*step))
    days = np.array([(after - day).days for day, after in pairwise(log.ends)], dtype=float)
    shares = days / np.array([days[first:after].sum() for first, after in spans])
    basis = Indexes(log.listed(), tuple(spans), removed, fitted, shares)
    return Series(
        log.source.meter.tag,
        log.source.meter.rows,
        tuple(log.ends[:-1]),
        _amounts(log, basis),
        log.source.unit,
        tuple(basis.index.origins[after] for _, after in spans),
        basis,
    )


def _amounts(log: Log, basis: Indexes) -> NDArray[np.float64]:
    """Return what was counted in each period; NaN where an index is missing."""
    first, after = (np.array(places) for places in zip(*basis.spans, strict=True))
    values = basis.index.values
    grown = values[after] - values[first] + basis.removed - basis.fitted
    turned = np.where(grown < 0, log.index.rolls_over_at or 0.0, 0.0)
    amounts: NDArray[np.float64] = (grown + turned) * basis.shares * log.index.factor
    return amounts


def _open(log: Log, faults: list[Fault], covered: set[int]) -> list[Fault]:
    """Return the faults of cells, without those whose periods a substitute covers."""
    last = len(log.ends) - 1
    settled = {
        row
        for place, row in enumerate(log.rows)
        if row and {one for one in (place - 1, place) if 0 <= one < last} <= covered
    }
    return [one for one in faults if one.refusal.code.level != "stop" or one.row not in settled]
