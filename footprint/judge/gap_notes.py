"""What filled gaps did to the totals, and what each method would put into holes still open."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Finding, declare
from footprint.base.row import Row
from footprint.base.units import label
from footprint.judge.carbon_effect import CarbonEffect
from footprint.judge.places import days_in_words, where_of
from footprint.judge.running import metered
from footprint.measure.gap_places import runs_of, windows
from footprint.measure.gaps import FilledGap
from footprint.read.readings import Series

ALIKE = 0.9  # correlation of two meters that see the same gas: common practice, no source
FEWEST_ALIKE = 10  # readings that both need

GAP_NOT_FILLED = declare(
    "gap-not-filled",
    "stop",
    means="A [[gaps]] entry of site.toml names a method that gives no value for a missing reading.",
    effect="the reading stays missing, and the figures that need it can't be given",
    mend="name another method or another meter, or state a conservative value",
    example="a redundant meter that did not read on the same days either",
)
GAP_FILLED = declare(
    "gap-filled",
    "note",
    means="Missing readings were filled by the method that a [[gaps]] entry of site.toml names.",
    effect="the filled values count like readings; each is shown with its formula and author",
    mend="nothing, if the method is the one that the monitoring plan asks for",
    example='method = "neighbouring periods" for 2025-03-04 to 2025-03-06',
)
COULD_BE_FILLED = declare(
    "hole-that-could-be-filled",
    "note",
    means="Readings are missing, and the methods for gaps would give values.",
    effect="nothing is filled by itself: the figures that need these readings can't be given",
    mend="write the readings, or add a [[gaps]] entry with one of the methods, author and reason",
    example="an empty D66, where the mean of the days around it is 184320",
)


def gaps_judged(effect: CarbonEffect) -> list[Finding]:
    """Return what each gap did, and for each hole still open what would fill it.

    Args:
        effect: the year's CO2 with other readings. [effect]

    Findings:
        gap-filled, gap-not-filled, hole-that-could-be-filled

    Source: definition
    """
    filled = [told for one in effect.context.filled for told in _filled(effect, one)]
    return [*filled, *_not_filled(effect), *_candidates(effect)]


def _not_filled(effect: CarbonEffect) -> Iterator[Finding]:
    """Return the gaps that leave holes."""
    context = effect.context
    for gap in context.site.gaps:
        series, row = (
            context.readings.series.get(gap.meter),
            context.made.get(f"reading/{gap.meter}"),
        )
        if series is None or row is None:
            continue
        left = [
            place
            for place in np.flatnonzero(np.isnan(row.values)).tolist()
            if gap.first_day <= series.dates[place] <= gap.last_day
        ]
        if left:
            days = days_in_words(series, left)
            what = f'{gap.meter}: "{gap.method}" gives no value for {days}'
            yield GAP_NOT_FILLED.at(where_of(series, left), what)


def _filled(effect: CarbonEffect, one: FilledGap) -> Iterator[Finding]:
    """Return the note on one gap: how many periods, which method, what it does to the totals."""
    tag, context = one.gap.meter, effect.context
    series = context.readings.series[tag]
    values = np.asarray(context.made[f"reading/{tag}"].values, dtype=float)
    places = [place for place in one.places if not np.isnan(values[place])]
    if not places:
        return
    added, without = float(values[places].sum()), values.copy()
    without[places] = 0.0
    whole = float(np.nansum(values))
    what = (
        f'{tag}: {days_in_words(series, places)} filled by "{one.gap.method}", by {one.gap.author}'
    )
    share = f", {added / whole:.2%} of the year's total" if whole else ""
    told = effect.words(tag, without, "without them")
    parts = (f"{added:,.6g} {label(series.unit)} were put in{share}", told)
    why = "; ".join(text for text in parts if text)
    yield GAP_FILLED.at(where_of(series, places), what, why=why)


def _candidates(effect: CarbonEffect) -> Iterator[Finding]:
    context = effect.context
    for _, series in metered(context):
        row = context.made.get(f"reading/{series.tag}")
        if row is None or series.rows in {"tickets", "invoices"} or np.isnan(row.values).all():
            continue
        for first, last in runs_of([int(at) for at in np.flatnonzero(np.isnan(row.values))]):
            offered = ", ".join(_offers(effect, series, row, (first, last)))
            days = days_in_words(series, list(range(first, last + 1)))
            what = f"{series.tag}, {days}: by period, {offered}"
            yield COULD_BE_FILLED.at(where_of(series, range(first, last + 1)), what)


def _offers(effect: CarbonEffect, series: Series, row: Row, run: tuple[int, int]) -> Iterator[str]:
    """Return what each method would give, as a mean of the hole's periods."""
    values, unit = np.asarray(row.values, dtype=float), label(series.unit)
    around = [values[first:last] for first, last in windows(values, run)]
    near = np.concatenate(around)
    if near.size:
        yield f'"neighbouring periods" {float(near.mean()):,.6g} {unit}'
    other = _most_alike(effect, series, values, run)
    if other is not None:
        yield f'"redundant meter" or "production" by {other[0]} {other[1]:,.6g} {unit}'
    yield f'"conservative value" {float(np.nanmax(values)):,.6g} {unit} (largest of the year)'


def _most_alike(
    effect: CarbonEffect, series: Series, values: NDArray[np.float64], run: tuple[int, int]
) -> tuple[str, float] | None:
    """Return the meter that goes along best, and what its ratio gives for the hole."""
    best: tuple[str, float] | None = None
    highest = ALIKE
    for tag, other in effect.context.readings.series.items():
        hole = other.values[run[0] : run[1] + 1]
        if tag == series.tag or other.dates != series.dates or np.isnan(hole).any():
            continue
        both = ~np.isnan(values) & ~np.isnan(other.values)
        mine, theirs = values[both], other.values[both]
        if both.sum() < FEWEST_ALIKE or not mine.std() or not theirs.std() or not theirs.sum():
            continue
        alike = float(np.corrcoef(mine, theirs)[0, 1])
        if alike > highest:
            highest, best = alike, (tag, float(hole.mean() * mine.sum() / theirs.sum()))
    return best
