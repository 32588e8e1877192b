"""Values that somebody answers for in place of readings that are missing."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from footprint.base.cause import Error
from footprint.base.row import Row, leaf
from footprint.base.source import Assumption, Origin
from footprint.measure.accuracy import Read, doubts_of, errors_of, stated
from footprint.measure.unstated import Unstated
from footprint.read.readings import Series
from footprint.read.site import Substitute


def substituted(
    read: Row, series: Series, substitutes: Sequence[Substitute], unstated: Unstated
) -> Row:
    """Return the substitutes of a meter over its periods; each has one error all through.

    Args:
        read: the readings. [any]
        series: the same with its days. [series]
        substitutes: of the meter. [entries]
        unstated: defaults. [defaults]

    Source: definition
    """
    values = np.full(len(series.dates), np.nan)
    origins: list[Origin | None] = [None] * len(series.dates)
    errors: list[Error] = []
    for one in substitutes:
        origin = Assumption(one.author, one.why, one.when, f"substitutes for {one.meter}")
        own = np.zeros(len(series.dates))
        for place, day in enumerate(series.dates):
            if one.first_day <= day <= one.last_day:
                values[place], origins[place], own[place] = one.value, origin, 1.0
        key = f"substitute for {one.meter} from {one.first_day.isoformat()}"
        accuracy = stated(one.uncertainty) or unstated.take("substitute", one.meter)
        found = errors_of(
            doubts_of(key, accuracy), Read(own * one.value, series.unit, series.dates)
        )
        errors += [Error(error.cause, error.size * own, error.draw) for error in found]
    return leaf(
        values,
        read.unit,
        read.axis,
        key=f"{read.key}, substitute",
        words=f"{read.words}, substitute",
        origins=origins,
        errors=errors,
    )
