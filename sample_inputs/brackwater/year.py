"""The year 2025 at the invented works: gas that drifts, trips, a turnaround, summer and winter.

Every drift hangs on the name of what drifts and on nothing else, so that each run gives the same
year and a new stream leaves the others as they were.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from datetime import date, timedelta
from random import Random

import numpy as np
from numpy.typing import NDArray

from .gas import Array, gas_of
from .process import Conditions

YEAR = 2025
DAYS = tuple(date(YEAR, 1, 1) + timedelta(days=n) for n in range(365))
MONTHS = tuple(date(YEAR, month, 1) for month in range(1, 13))
BOUNDARIES = (*MONTHS, date(YEAR + 1, 1, 1))
MONTH_OF_DAY: NDArray[np.int64] = np.array([day.month - 1 for day in DAYS])
WEEKLY_SAMPLES = tuple(date(2024, 12, 31) + timedelta(days=7 * n) for n in range(53))

# day: (hours of the front end, hours of the loop); all other days outside the turnaround have 24
SHORT_DAYS = {
    date(YEAR, 2, 14): (17.0, 12.0),
    date(YEAR, 5, 31): (18.0, 18.0),
    date(YEAR, 7, 1): (16.0, 3.0),
    date(YEAR, 7, 2): (24.0, 18.0),
    date(YEAR, 9, 22): (9.0, 9.0),
    date(YEAR, 9, 23): (15.0, 8.0),
    date(YEAR, 11, 18): (20.0, 16.0),
}
STARTS = (date(YEAR, 2, 14), date(YEAR, 7, 1), date(YEAR, 9, 23), date(YEAR, 11, 18))
TRIPS = (date(YEAR, 2, 14), date(YEAR, 9, 22), date(YEAR, 11, 18))
TURNAROUND = 6  # month
UREA_STOPS = (
    *(date(YEAR, 3, day) for day in (11, 12, 13)),
    date(YEAR, 8, 5),
    *(date(YEAR, 10, day) for day in (14, 15, 16)),
)
HEAT_UP = {27: 900.0, 28: 1900.0, 29: 3100.0, 30: 4600.0}  # day of June: GJ net
NATURAL_GAS = {  # mole per cent: mean, spread of the drift; CH4 is the rest
    "C2H6": (4.10, 0.45),
    "C3H8": (0.95, 0.14),
    "i-C4H10": (0.14, 0.02),
    "n-C4H10": (0.17, 0.03),
    "n-C5H12": (0.06, 0.01),
    "N2": (1.15, 0.18),
    "CO2": (0.83, 0.12),
}

Drift = Callable[[str, float, float], Array]  # name, mean and spread to a value a day


@dataclass(frozen=True)
class Surroundings:
    """What lies around the process, by day: temperatures in °C, absolute pressures in kPa."""

    ambient: Array
    overhead_celsius: Array
    overhead_kilopascal: Array
    urea_celsius: Array
    urea_kilopascal: Array
    vent_celsius: Array
    vent_kilopascal: Array
    purity: Array  # mass of NH3 in ammonia product
    urea_purity: Array  # mass of urea in urea product

    def held_for_a_month(self) -> Surroundings:
        """Return surroundings that change with the month only, each at its mean.

        Source: definition
        """
        days = np.bincount(MONTH_OF_DAY)
        means = (by_month(getattr(self, field.name)) / days for field in fields(self))
        return Surroundings(*(mean[MONTH_OF_DAY] for mean in means))


def by_month(daily: Array) -> Array:
    """Return the sum of each month.

    Args:
        daily: 365 values. [unit a day]

    Source: definition
    """
    return np.array([daily[month == MONTH_OF_DAY].sum() for month in range(12)])


def wander(name: str, count: int, spread: float, memory: float = 0.75) -> Array:
    """Return a slow random drift around zero that never leaves twice its spread.

    Args:
        name: what drifts; the same name gives the same drift. [text]
        count: number of values. [1]
        spread: standard deviation. [unit of the value]
        memory: share of the last value that stays. [1]

    Source: definition
    """
    chance, value, values = Random(f"Brackwater {name}"), 0.0, []
    for _ in range(count):
        value = memory * value + math.sqrt(1 - memory**2) * chance.gauss(0, 1)
        values.append(max(-2.0, min(2.0, value)))
    return spread * np.array(values)


def conditions(samples: Sequence[date]) -> Conditions:
    """Return what is given to the model; compositions change on the days of sampling only.

    Args:
        samples: first days of a new composition; the first is 1 January or before. [dates]

    Source: definition
    """
    of_day = _sample_of_day(samples)

    def drift(name: str, mean: float, spread: float) -> Array:
        return mean + wander(name, len(samples), spread)[of_day]

    front_end, loop = _hours()
    monoxide = drift("CO slip", 0.0020, 0.00008) + _ageing(samples)[of_day]
    share, load = front_end / 24, 1158 - 14 * _season() + wander("load", 365, 9, 0.9)
    cold = 14 * (10 - _ambient())
    return Conditions(
        natural_gas=_natural_gas(drift),
        load=load,
        front_end_hours=front_end,
        loop_hours=loop,
        methane_slip=drift("methane slip", 0.0030, 0.00018),
        carbon_monoxide_slip=monoxide,
        co2_slip=drift("CO2 slip", 350e-6, 40e-6),
        purge_inerts=drift("inerts", 0.165, 0.006),
        purge_ammonia=drift("NH3 in purge", 0.020, 0.002),
        purge_ratio=drift("purge ratio", 2.92, 0.04),
        urea=_planned_urea(),
        liquefaction=168 + 8 * _season() + wander("liquefaction", 365, 4),
        liquefaction_loss=drift("liquefaction loss", 0.032, 0.003),
        reformer_duty=share * (1100 + 7.75 * load + cold) + _heat_up(),
        boiler_duty=500 + cold + share * 2.35 * load,
    )


def surroundings() -> Surroundings:
    """Return temperatures, pressures and purities.

    Source: definition
    """
    warm = _ambient()
    return Surroundings(
        ambient=warm,
        overhead_celsius=36 + 0.35 * warm + wander("overhead t", 365, 0.5),
        overhead_kilopascal=140 + wander("overhead p", 365, 1.2),
        urea_celsius=33 + 0.35 * warm + wander("urea t", 365, 0.5),
        urea_kilopascal=133 + wander("urea p", 365, 1.2),
        vent_celsius=35 + 0.35 * warm + wander("vent t", 365, 0.6),
        vent_kilopascal=106 + wander("vent p", 365, 0.8),
        purity=0.9978 + wander("purity", 365, 0.00025),
        urea_purity=0.9915 + wander("urea purity", 365, 0.0008),
    )


def _sample_of_day(samples: Sequence[date]) -> NDArray[np.int64]:
    """Return for every day the place of the sample that holds."""
    starts = [sample.toordinal() for sample in samples]
    return np.searchsorted(starts, [day.toordinal() for day in DAYS], side="right") - 1


def _ageing(samples: Sequence[date]) -> Array:
    """Return the CO that an ageing shift catalyst lets through; the turnaround brings a new one."""
    turnaround = date(YEAR, TURNAROUND, 1)
    bought = [turnaround if sample >= turnaround else date(2022, 12, 1) for sample in samples]
    ages = [(sample - first).days / 30 for sample, first in zip(samples, bought, strict=True)]
    return 0.00005 * np.array(ages)


def _natural_gas(drift: Drift) -> Array:
    """Return mole fractions of natural gas."""
    parts = {
        formula: drift(f"natural gas {formula}", mean, spread) / 100
        for formula, (mean, spread) in NATURAL_GAS.items()
    }
    methane = 1 - np.sum(list(parts.values()), axis=0)
    return gas_of(len(DAYS), CH4=methane, **parts)


def _season() -> Array:
    """Return -1 in mid January and 1 in mid July."""
    return -np.cos(2 * np.pi * (np.arange(len(DAYS)) - 14) / 365)


def _ambient() -> Array:
    """Return the mean temperature of each day."""
    return 10.5 + 6 * _season() + wander("ambient", 365, 2.6)


def _hours() -> tuple[Array, Array]:
    """Return the hours of the front end and of the loop."""
    pairs = [
        (0.0, 0.0) if day.month == TURNAROUND else SHORT_DAYS.get(day, (24.0, 24.0)) for day in DAYS
    ]
    front_end, loop = np.array(pairs).T
    return front_end, loop


def _planned_urea() -> Array:
    """Return the urea planned, nothing on the days of a stop."""
    is_stopped = np.array([day in UREA_STOPS for day in DAYS])
    return np.where(is_stopped, 0.0, 1370 + wander("urea", 365, 25))


def _heat_up() -> Array:
    """Return the heat fired to warm the reformer at the end of the turnaround."""
    in_june = (day.month == TURNAROUND for day in DAYS)
    return np.array(
        [HEAT_UP.get(day.day, 0.0) * is_june for day, is_june in zip(DAYS, in_june, strict=True)]
    )
