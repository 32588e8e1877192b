"""Missing readings filled by a named method, each as a live formula with its author."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from footprint.base.axis import Axis
from footprint.base.formulas import choose, count, given, is_read, pick, ratio, span, total
from footprint.base.row import Row, constant, leaf, step
from footprint.base.source import DEFINITION, Assumption
from footprint.base.units import NONE
from footprint.read.readings import Series
from footprint.read.site import Gap, GapMethod, Substitute

RULES: dict[GapMethod, str] = {
    "neighbouring periods": "mean of as many readings before and after as the hole has periods",
    "redundant meter": "reading of the other meter, times the ratio of both where both read",
    "production": "reading by unit of the other meter where both read, times its quantity",
    "conservative value": "the value that the site file states",
}
NOT_HERE = "not filled here"


@dataclass(frozen=True, eq=False, slots=True)
class FilledGap:
    """A gap of the site file and what it did to the readings of its meter.

    Attributes:
        gap: as declared. [entry]
        places: of the periods that it fills, on the meter's axis. [1]
        is_filled: 1 in these periods, else 0. [1]
        substitute: what is put there, words elsewhere. [any]
        used: the readings with these holes filled. [any]
    """

    gap: Gap
    places: tuple[int, ...]
    is_filled: Row
    substitute: Row
    used: Row


@dataclass(frozen=True, eq=False, slots=True)
class Hole:
    """What a gap is filled from.

    Attributes:
        gap: as declared. [entry]
        series: of the meter. [series]
        read: the same as a row. [any]
        places: of the periods to fill. [1]
        other: readings of the other meter, over the same periods, where the method needs one. [any]
    """

    gap: Gap
    series: Series
    read: Row
    places: tuple[int, ...]
    other: Row | None


def open_places(series: Series, substitutes: Sequence[Substitute]) -> list[int]:
    """Return the places of the periods without a reading that no stated substitute covers.

    Args:
        series: of a meter. [series]
        substitutes: of the meter. [entries]

    Source: definition
    """
    return [
        place
        for place in np.flatnonzero(np.isnan(series.values)).tolist()
        if not any(one.first_day <= series.dates[place] <= one.last_day for one in substitutes)
    ]


def filled(used: Row, hole: Hole) -> FilledGap:
    """Return the readings with some holes filled, and the rows by which they are.

    Args:
        used: the readings, as far as they are filled by other entries. [any]
        hole: what is filled, and from what. [hole]

    Source: definition
    """
    gap, read, places = hole.gap, hole.read, hole.places
    key = f"{used.key}, {gap.method} from {gap.first_day.isoformat()}"
    words = f"{read.words}, {gap.method} from {gap.first_day.isoformat()}"
    origin = Assumption(gap.author, gap.why, gap.when, f"gaps of {gap.meter}")
    is_filled = leaf(
        [1.0 if place in places else 0.0 for place in range(read.axis.size)],
        NONE,
        read.axis,
        key=f"{key}, is filled",
        words=f"{words}: 1 where filled",
        origins=[origin if place in places else DEFINITION for place in range(read.axis.size)],
    )
    figure = _figure(hole, key, origin)
    rule = RULES[gap.method]
    substitute = step(given(is_filled, figure, NOT_HERE), f"{key}, value", f"{words}: value", rule)
    because = f"the reading; where there is none, {rule}"
    whole = step(choose(is_read(used), used, substitute), f"{key}, used", f"{words}: used", because)
    return FilledGap(gap, places, is_filled, substitute, whole)


def _figure(hole: Hole, key: str, origin: Assumption) -> Row:
    """Return what a method puts into the holes; what stands elsewhere is not used."""
    if hole.gap.method == "neighbouring periods":
        return _neighbours(hole, key)
    if hole.other is not None:
        return hole.other * _rate(hole, key, hole.other)
    value = float("nan") if hole.gap.value is None else hole.gap.value
    return constant(
        value, hole.read.unit, f"{key}, stated", f"{hole.gap.meter}: stated value", origin
    )


def _rate(hole: Hole, key: str, other: Row) -> Row:
    """Return the readings by unit of the other meter's, over the periods in which both read."""
    read, words = hole.read, f"{hole.read.words} and {other.words}"
    both = step(
        is_read(read) * is_read(other), f"{key}, both read", f"{words}: both read", "1 where both"
    )
    sums = []
    for row, name in ((read, "own"), (other, "other")):
        shared = step(
            choose(both, row, 0),
            f"{key}, {name} where both read",
            f"{row.words}, where {hole.gap.meter} and {hole.gap.other_meter} both read",
            "0 where one of both has no reading",
        )
        sums.append(step(total(shared), f"{shared.key}/year", f"{shared.words}, year", "sum"))
    return step(
        ratio(sums[0], sums[1], "never both"),
        f"{key}, rate",
        f"{hole.gap.meter} by unit of {hole.gap.other_meter}",
        "over the periods in which both read",
    )


def _neighbours(hole: Hole, key: str) -> Row:
    """Return the mean of the readings around each hole, on the axis of the readings."""
    read, series = hole.read, hole.series
    runs = runs_of(hole.places)
    labels = tuple(f"{read.axis.labels[a]} to {read.axis.labels[b]}" for a, b in runs)
    axis = Axis("pieces", labels, f"{hole.gap.meter}, holes from {hole.gap.first_day.isoformat()}")
    around = [windows(series.values, run) for run in runs]
    sums, counts = [], []
    for side, name in enumerate(("before", "after")):
        spans = [both[side] for both in around]
        named = f"{hole.gap.meter}, readings {name} the hole"
        sums.append(step(span(read, spans, axis), f"{key}, sum {name}", f"{named}, sum", "sum"))
        counts.append(
            step(count(read, spans, axis), f"{key}, count {name}", f"{named}, number", "counted")
        )
    mean = step(
        ratio(sums[0] + sums[1], counts[0] + counts[1], "no reading"),
        f"{key}, mean",
        f"{hole.gap.meter}, mean around the hole",
        RULES["neighbouring periods"],
    )
    near = [
        max([at for at, (first, _) in enumerate(runs) if first <= place], default=0)
        for place in range(read.axis.size)
    ]
    words = f"{hole.gap.meter}, mean around the last hole"
    return step(pick(mean, near, read.axis), f"{key}, mean by period", words, "of the hole")


def runs_of(places: Sequence[int]) -> list[tuple[int, int]]:
    """Return first and last of places that follow each other, run by run.

    Args:
        places: in rising order. [1]

    Source: definition
    """
    groups = groupby(enumerate(places), key=lambda pair: pair[1] - pair[0])
    runs = [[place for _, place in group] for _, group in groups]
    return [(run[0], run[-1]) for run in runs]


def windows(
    values: np.typing.NDArray[np.float64], run: tuple[int, int], most: int | None = None
) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return the readings before and after a hole, as many as it is long, as far as they go.

    They end at the next hole.

    At the end of the year, where one side has none, the other side stands for both.

    Args:
        values: readings; NaN where missing. [any]
        run: first and last place of the hole. [1]
        most: readings on each side; as many as the hole is long when None. [1]

    Source: common practice, no source
    """
    first, last = run
    length = last - first + 1 if most is None else most
    is_there = ~np.isnan(values)
    start, end = first, last + 1
    while start > max(0, first - length) and is_there[start - 1]:
        start -= 1
    while end < min(len(values), last + 1 + length) and is_there[end]:
        end += 1
    before, after = (start, first), (last + 1, end)
    if start == first:
        return after, after
    return before, before if end == last + 1 else after
