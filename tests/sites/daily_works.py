"""A works that reads its meters every day, with a load that wanders: invented."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Finding
from footprint.judge import judge
from tests.sites.hand_made import CALENDAR, METHANE, HandMade

FEED, FUEL, AMMONIA = 606_000.0, 248_000.0, 986.0  # Nm3, Nm3, t by day
SIZE = len(CALENDAR.dates)


def load() -> NDArray[np.float64]:
    """Return the load of each day: 1 within a few per cent, never twice the same."""
    noise = np.random.default_rng(7)
    walk = np.cumsum(noise.normal(0, 0.002, SIZE))
    return 1 + walk - walk.mean() + noise.normal(0, 0.001, SIZE)


def daily_works(**keys: Any) -> HandMade:
    """Return a works with daily feed, fuel, ammonia and hours on line.

    Args:
        keys: of the feed meter in the site file. [any]

    Source: definition
    """
    made, share = HandMade(), load()
    made.gas("natural gas", METHANE, CALENDAR.first_days)
    made.meter("FT-1", "Nm3", FEED * share, "daily", **keys)
    made.meter("FT-2", "Nm3", FUEL * share * _noise(1), "daily")
    made.meter("LAB", "percent", 100.0, "daily")
    made.meter("WB-3", "t_NH3", AMMONIA * share * _noise(2), "daily")
    made.meter("CLOCK", "hour", 24.0, "daily")
    made.stream("feed gas", "feed", "FT-1", analysis="natural gas")
    made.stream("fuel gas", "fuel", "FT-2", analysis="natural gas")
    made.stream("ammonia", "ammonia produced", "WB-3", purity="LAB")
    made.stream("clock", "hours on line", "CLOCK")
    return made


def _noise(seed: int) -> NDArray[np.float64]:
    """Return 1 within a few thousandths, day by day."""
    return 1 + np.random.default_rng(seed).normal(0, 0.002, SIZE)


def place(day: date) -> int:
    """Return the place of a day in the year."""
    return CALENDAR.dates.index(day)


def found(made: HandMade, code: str) -> list[Finding]:
    """Return what judging finds of one kind."""
    return [one for one in judge(made.account())[1] if one.code == code]


def gap(method: str, first: date, last: date, **keys: Any) -> dict[str, Any]:
    """Return an entry of the site file that fills holes of the feed meter."""
    who = {"author": "A. Nobody", "why": "transmitter failed", "when": date(2025, 4, 1)}
    return {
        "meter": "FT-1",
        "method": method,
        "first_day": first,
        "last_day": last,
        **who,
        **keys,
    }
