"""Amounts of a meter that counts up: live differences of its index, over the days between."""

from __future__ import annotations

from datetime import date

import numpy as np
from numpy.typing import NDArray

from footprint.base.axis import ONCE, Axis
from footprint.base.formulas import choose, pick
from footprint.base.row import Row, constant, leaf, step
from footprint.base.source import DEFINITION
from footprint.base.units import NONE
from footprint.measure.accuracy import Read, days_of, errors_of
from footprint.measure.meter_read import MeterRead
from footprint.read.readings import Indexes
from footprint.read.site import Index


def amount_by_index(one: MeterRead, basis: Indexes, axes: tuple[Axis, Axis]) -> Row:
    """Return what an index grew by in each period, times the factor of the meter.

    A stated uncertainty by reading is one of the amount; an absolute one shifts every index alike
    and leaves the differences as they are.

    Args:
        one: the meter. [meter]
        basis: its index. [index]
        axes: the periods, and the dates at which they begin and end. [axes]

    Source: definition
    """
    index = one.meter.index or Index()
    grown = _grown(one, basis, axes)
    if index.rolls_over_at is not None:
        limit = constant(
            index.rolls_over_at,
            one.series.unit,
            f"{one.key}/index/rolls over at",
            one.named("index at which the meter rolls over"),
            one.stated,
        )
        grown = step(
            grown + choose(grown < 0, limit, 0.0),
            f"{one.key}/index growth/across zero",
            one.named("growth of the index across zero"),
            "where the index falls it rolled over: the range of the meter is added",
        )
    amount = grown * _factor(one, index, axes[0])
    share = _shares(one, basis, axes[0])
    return step(
        amount if share is None else amount * share,
        f"{one.key}/as read",
        one.named("by index"),
        "growth of the index times the factor of the meter",
    )


def _grown(one: MeterRead, basis: Indexes, axes: tuple[Axis, Axis]) -> Row:
    """Return the index after each period less the one before, across exchanged meters."""
    read = _index(one, basis, axes[1])
    before, after = (
        step(
            pick(read, [span[side] for span in basis.spans], axes[0]),
            f"{one.key}/index/{name}",
            one.named(f"index {name}"),
            f"the index read last {name}",
        )
        for side, name in enumerate(("before", "after"))
    )
    grown = after - before
    if basis.removed.any() or basis.fitted.any():
        taken_out, put_in = (
            _stated(one, values, axes[0], name)
            for values, name in ((basis.removed, "taken out"), (basis.fitted, "put in"))
        )
        grown = grown + taken_out - put_in
    return step(
        grown,
        f"{one.key}/index growth/as read",
        one.named("growth of the index"),
        "index after less index before; of exchanged meters up to the one and on from the other",
    )


def _index(one: MeterRead, basis: Indexes, axis: Axis) -> Row:
    """Return the index as read, with what is stated in its unit; shares act on the amount."""
    doubts = [doubt for doubt in one.doubts if not doubt.is_by_reading]
    values, unit = basis.index.values, one.series.unit
    scale = one.meter.range.highest if one.meter.range else None
    return leaf(
        values,
        unit,
        axis,
        key=f"{one.key}/index/as read",
        words=one.named("index"),
        origins=basis.index.origins,
        errors=errors_of(doubts, Read(values, unit, days_of(axis), scale)),
    )


def _stated(one: MeterRead, values: NDArray[np.float64], axis: Axis, name: str) -> Row:
    """Return the index at which meters were taken out or put in; 0 where none was."""
    return leaf(
        values,
        one.series.unit,
        axis,
        key=f"{one.key}/index/{name}",
        words=one.named(f"index of meters {name}"),
        origins=[one.stated],
    )


def _shares(one: MeterRead, basis: Indexes, axis: Axis) -> Row | None:
    """Return the share of each period in the days between two readings; None where all are whole.

    The days are those of the calendar, so that the amount is spread evenly.
    """
    if np.all(basis.shares == 1):
        return None
    return leaf(
        basis.shares,
        NONE,
        axis,
        key=f"{one.key}/share of the days between readings/days",
        words=one.named("share of the days between two readings of the index"),
        origins=[DEFINITION],
    )


def _factor(one: MeterRead, index: Index, axis: Axis) -> Row:
    """Return the factor of the meter, with the uncertainty that is stated by reading.

    It stands by period where its error changes within the year: at a calibration, at an exchange
    of the meter, or with each reading.
    """
    doubts = [doubt for doubt in one.doubts if doubt.is_by_reading]
    is_alike = all(not doubt.is_anew and not doubt.calibrations for doubt in doubts)
    periods = ONCE if is_alike else axis
    values = np.full(periods.size, index.factor)
    days = (date.min,) if is_alike else one.series.dates
    return leaf(
        values,
        NONE,
        periods,
        key=f"{one.key}/factor of the index/stated",
        words=one.named("factor of the index"),
        origins=[one.stated],
        errors=errors_of(doubts, Read(values, NONE, days)),
    )
