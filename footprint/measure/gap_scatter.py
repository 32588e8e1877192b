"""How far a filled reading may lie from what flowed: the scatter of the method that filled it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from footprint.base.cause import Cause, Error
from footprint.measure.accuracy import Read, doubts_of, errors_of, stated
from footprint.measure.gap_places import runs_of, windows
from footprint.measure.unstated import Unstated
from footprint.read.readings import Series
from footprint.read.site import Gap

Array = NDArray[np.float64]
LEAST = 2  # readings that make a scatter


def gap_errors(
    gap: Gap, series: Series, places: Sequence[int], other_series: Series | None, unstated: Unstated
) -> tuple[Error, ...]:
    """Return the errors of filled readings; 0 in all other periods.

    Neighbouring periods: each hole scatters like the readings around it, and their mean is wrong by
    that over the root of their number. Another meter: as the readings scatter about its rate times
    the other's, where both read. A stated value: what the site file states, else a default.

    Args:
        gap: as declared. [entry]
        series: of the meter. [series]
        places: of the periods that are filled. [1]
        other_series: of the other meter, where the method has one. [series]
        unstated: defaults. [defaults]

    Source: JCGM 100:2008, clause 4.2 (from memory): scatter as a standard deviation
    """
    key = f"filling of {gap.meter} from {gap.first_day.isoformat()}"
    mask = np.zeros(len(series.values))
    mask[list(places)] = 1.0
    accuracy = stated(gap.uncertainty)
    if accuracy is None and gap.method == "conservative value":
        accuracy = unstated.take("conservative value of a gap", f"{gap.meter}")
    if accuracy is not None:
        level = gap.value if gap.value is not None else _mean(series.values)
        read = Read(mask * level, series.unit, series.dates)
        errors = errors_of(doubts_of(key, accuracy), read)
        return tuple(Error(one.cause, one.size * mask, one.draw) for one in errors)
    if other_series is not None:
        return (_about_rate(key, series.values, other_series.values, mask),)
    return _around(key, series.values, places)


def _around(key: str, values: Array, places: Sequence[int]) -> tuple[Error, ...]:
    """Return the scatter of each hole and the error of the mean around it."""
    each, mean = np.zeros(len(values)), np.zeros(len(values))
    draw, numbers = np.zeros(len(values), dtype=np.int64), []
    for place, run in enumerate(runs_of(places)):
        near = np.concatenate([values[slice(*one)] for one in dict.fromkeys(windows(values, run))])
        scatter = _deviation(near if len(near) >= LEAST else values)
        inside = slice(run[0], run[1] + 1)
        each[inside], mean[inside] = scatter, scatter / math.sqrt(max(len(near), 1))
        draw[inside] = place
        numbers.append(len(near))
    freedom = float(max(min(numbers, default=LEAST) - 1, 1))
    words = f"{key}: scatter of the readings around"
    scattered = Cause(key, "normal", freedom, words)
    of_mean = Cause(f"{key}, mean", "normal", freedom, f"{words}, error of their mean")
    counting = np.arange(len(values), dtype=np.int64)
    return Error(scattered, each, counting), Error(of_mean, mean, draw)


def _about_rate(key: str, values: Array, others: Array, mask: Array) -> Error:
    """Return the scatter of readings about the rate by the other meter."""
    both = ~np.isnan(values) & ~np.isnan(others)
    whole = float(others[both].sum())
    rate = float(values[both].sum()) / whole if whole else 0.0
    residuals = values[both] - rate * others[both]
    freedom = float(max(len(residuals) - 1, 1))
    cause = Cause(key, "normal", freedom, f"{key}: scatter about the rate by the other meter")
    return Error(cause, mask * _deviation(residuals), np.arange(len(values), dtype=np.int64))


def _deviation(values: Array) -> float:
    known = values[~np.isnan(values)]
    return float(known.std(ddof=1)) if len(known) >= LEAST else 0.0


def _mean(values: Array) -> float:
    known = values[~np.isnan(values)]
    return float(known.mean()) if len(known) else 0.0
