"""Small rows for the tests of the shared vocabulary."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from footprint.base.axis import ONCE, Axis
from footprint.base.cause import Cause, Error, independent, shared
from footprint.base.row import Row, constant, leaf
from footprint.base.source import Factor, Reading
from footprint.base.units import unit

QUARTERS = Axis("months", ("2025-01", "2025-02", "2025-03", "2025-04"))
DAYS = Axis("days", tuple(f"2025-01-{day:02d}" for day in range(1, 9)), "feed")
CALIBRATION = Cause("meter FT-1/calibration")
READ = Cause("meter FT-1/reading")


def read(
    values: Sequence[float],
    unit_name: str = "tonne",
    *,
    words: str = "feed gas",
    axis: Axis = QUARTERS,
    errors: Sequence[Error] = (),
) -> Row:
    """Return a reading over four months, or over another axis."""
    origins = [
        Reading("feed.xlsx", "Daily", f"B{place + 2}", str(one)) for place, one in enumerate(values)
    ]
    return leaf(
        values,
        unit(unit_name),
        axis,
        key=f"test/{words}/value/as read",
        words=words,
        origins=origins,
        errors=errors,
    )


def factor(value: float, unit_name: str = "", *, words: str = "factor") -> Row:
    """Return a single published value."""
    return constant(
        value,
        unit(unit_name),
        f"test/{words}/value/published",
        words,
        Factor("a handbook", "table 1"),
    )


def sure(size: float, count: int = 4) -> list[Error]:
    """Return an error that all values share."""
    return [shared(CALIBRATION, np.full(count, size))]


def scattered(size: float, count: int = 4) -> list[Error]:
    """Return an error that is drawn anew for each value."""
    return [independent(READ, np.full(count, size))]


__all__ = ["CALIBRATION", "DAYS", "ONCE", "QUARTERS", "READ", "factor", "read", "scattered", "sure"]
