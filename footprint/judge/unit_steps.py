"""A step in daily readings by the factor of a known confusion: the unit may have changed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from footprint.base.finding import Finding, declare
from footprint.judge.carbon_effect import CarbonEffect
from footprint.judge.mixup import likely_confusion
from footprint.judge.places import days_in_words, where_of
from footprint.judge.running import days_running, is_daily, metered
from footprint.read.readings import Series
from footprint.read.site import Stream

WINDOW = 10  # days on each side of a step, and the least that it must last: own choice
LASTING = 40  # days on each side over which a confusion must still show: own choice
SHARP = 6.0  # a step is this many times the scatter of the days around it: own choice
NEXT = 3  # days between the last reading before a step and the first after it: own choice
TO_SIGMA = 1.4826  # median absolute deviation to standard deviation of a normal distribution

UNIT_MAY_HAVE_CHANGED = declare(
    "unit-may-have-changed",
    "warn",
    means="Daily readings step by the factor of a known confusion of units, and stay there.",
    effect="from there on the readings would be off by that factor",
    mend="ask which unit was written from that day; if it changed, convert the readings or name "
    "the unit of each part",
    example="feed gas that steps up by 1.055 on 1 May, while ammonia stays",
)


@dataclass(frozen=True, eq=False, slots=True)
class Step:
    """A step: place of its first reading, the factor, and the confusion it looks like, if any."""

    place: int
    factor: float
    words: str


def unit_steps(effect: CarbonEffect) -> tuple[list[Finding], frozenset[str]]:
    """Return readings whose unit may have changed, and the tags of their meters.

    Args:
        effect: the year's CO2 with other readings. [effect]

    Findings:
        unit-may-have-changed

    A unit shows in the readings themselves and in what they are by tonne of ammonia; a change of
    load shows in the first alone, a change of the process in the second.

    Source: limits are the project's own choice
    """
    context = effect.context
    runs, findings, tags = days_running(context), list[Finding](), set[str]()
    for stream, series in metered(context):
        if not is_daily(context, series):
            continue
        own = _logarithms(series, runs)
        made = _made(effect, stream)
        beside = own if made is None else own - _logarithms(made, runs)
        alone = {step.place for step in steps_in(own)}
        both = [step for step in steps_in(beside) if step.place in alone and step.words]
        findings_here = _told(effect, stream, series, both)
        findings += findings_here
        if findings_here:
            tags.add(series.tag)
    return findings, frozenset(tags)


def _made(effect: CarbonEffect, stream: Stream) -> Series | None:
    """Return the daily ammonia, or for ammonia itself the feed, that the readings go with."""
    context = effect.context
    role = "feed" if stream.role == "ammonia produced" else "ammonia produced"
    for other in context.site.streams:
        series = context.readings.series.get(other.meter)
        if other.role == role and series is not None and is_daily(context, series):
            return series
    return None


def _logarithms(series: Series, runs: NDArray[np.bool_]) -> NDArray[np.float64]:
    is_usable = runs & (series.values > 0)
    return np.log(np.where(is_usable, series.values, np.nan))


def steps_in(logarithms: NDArray[np.float64]) -> list[Step]:
    """Return the sharp and lasting steps of a series, in order.

    Args:
        logarithms: of readings, by day; NaN on days that don't count. [1]

    Source: medians of the days before and after: the project's own choice
    """
    days = np.flatnonzero(~np.isnan(logarithms))
    if len(days) < 2 * WINDOW:
        return []
    kept = logarithms[days]
    windows = sliding_window_view(kept, WINDOW)
    medians = np.median(windows, axis=1)
    scatter = TO_SIGMA * np.median(np.abs(windows - medians[:, None]), axis=1)
    before, after = medians[:-WINDOW], medians[WINDOW:]
    height = after - before
    noise = SHARP * np.maximum(scatter[:-WINDOW], scatter[WINDOW:])
    first, last = kept[WINDOW : len(kept) - WINDOW + 1], kept[WINDOW - 1 : len(kept) - WINDOW]
    is_sharp = (np.abs(first - before) > np.abs(height) / 2) & (
        np.abs(last - before) < np.abs(height) / 2
    )
    is_next = days[WINDOW : len(days) - WINDOW + 1] - days[WINDOW - 1 : len(days) - WINDOW] <= NEXT
    found: list[Step] = []
    for at in np.flatnonzero(is_sharp & is_next & (np.abs(height) > noise)):
        factor = math.exp(float(height[at]))
        at_first = at + WINDOW
        wide = kept[at_first : at_first + LASTING], kept[max(0, at_first - LASTING) : at_first]
        lasting = math.exp(float(np.median(wide[0]) - np.median(wide[1])))
        words = likely_confusion(factor, 1.0) if likely_confusion(lasting, 1.0) else ""
        found.append(Step(int(days[at_first]), factor, words))
    return found


def _told(
    effect: CarbonEffect, stream: Stream, series: Series, steps: Sequence[Step]
) -> list[Finding]:
    """Return one finding for each step; one that takes the step before back ends it."""
    findings: list[Finding] = []
    waiting = list(steps)
    while waiting:
        step = waiting.pop(0)
        end = len(series.values)
        if waiting:
            end = waiting[0].place
            if abs(math.log(step.factor * waiting[0].factor)) < 0.02:  # noqa: PLR2004  takes it back
                waiting.pop(0)
        places = [place for place in range(step.place, end) if series.values[place] > 0]
        instead = series.values.copy()
        instead[places] /= step.factor
        what = (
            f'{series.tag} ("{stream.name}") steps by {step.factor:.4g}, '
            f"{days_in_words(series, places)}"
        )
        told = effect.words(series.tag, instead, "without the step")
        why = "; ".join(text for text in (step.words, told) if text)
        findings.append(UNIT_MAY_HAVE_CHANGED.at(where_of(series, places), what, why=why))
    return findings
