"""What the invented works buys, sells and keeps in tanks, and the whole year put together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

import numpy as np

from .gas import Array
from .process import Conditions
from .works import Works, run
from .year import (
    DAYS,
    TRIPS,
    WEEKLY_SAMPLES,
    Surroundings,
    by_month,
    conditions,
    surroundings,
    wander,
)

VEHICLES = ("TK 11", "TK 12", "TK 14", "TK 15", "TK 19", "TK 21", "TK 22")
SUNDAY = 6


@dataclass(frozen=True)
class Ticket:
    """A lorry of liquid CO2 over the weighbridge."""

    day: date
    number: int
    vehicle: str
    net: float  # t


@dataclass(frozen=True)
class LiquidCo2:
    """Lorries, and the tank at 13 month boundaries in t."""

    tickets: tuple[Ticket, ...]
    stock: Array

    @property
    def sold(self) -> Array:
        """CO2 sold, t a day."""
        sold = np.zeros(len(DAYS))
        for ticket in self.tickets:
            sold[(ticket.day - DAYS[0]).days] += ticket.net
        return sold


@dataclass(frozen=True)
class Ammonia:
    """Ammonia sold and lost in t NH3 a day, and the tank at 13 month boundaries in t NH3."""

    sold: Array
    lost: Array
    stock: Array


@dataclass(frozen=True)
class Utilities:
    """Power in MWh, steam in t and diesel in litres, by month."""

    power_bought: Array
    power_made: Array
    power_to_urea: Array
    power_to_liquefaction: Array
    steam_to_urea: Array
    diesel: Array


@dataclass(frozen=True)
class Year:
    """The whole year as it truly was."""

    samples: tuple[date, ...]
    given: Conditions
    works: Works
    around: Surroundings
    liquid_co2: LiquidCo2
    ammonia: Ammonia
    utilities: Utilities


def build(samples: Sequence[date] = WEEKLY_SAMPLES, *, is_monthly: bool = False) -> Year:
    """Return the year.

    Args:
        samples: days from which a new composition of every gas holds. [dates]
        is_monthly: temperatures and purities hold for a month, for a works that logs months. [flag]

    Source: definition
    """
    given = conditions(samples)
    works = run(given)
    around = surroundings()
    return Year(
        samples=tuple(samples),
        given=given,
        works=works,
        around=around.held_for_a_month() if is_monthly else around,
        liquid_co2=_liquid_co2(works),
        ammonia=_ammonia(works),
        utilities=_utilities(works, given),
    )


def _is_last_of_month(day: date) -> bool:
    return (day + timedelta(days=1)).day == 1


def _liquid_co2(works: Works) -> LiquidCo2:
    """Return lorries and tank; more of them come when the tank is full, none on Sundays."""
    chance, tank, stock = Random("Brackwater lorries"), 640.0, [640.0]
    tickets: list[Ticket] = []
    for day, made in zip(DAYS, works.liquid_co2_mass, strict=True):
        tank += made
        lorries = 0 if day.weekday() == SUNDAY else round(8.4 + 0.35 * (tank - 620) / 22)
        for _ in range(max(0, lorries)):
            net = 0.02 * round((21.6 + chance.gauss(0, 0.5)) / 0.02)  # scale division 20 kg
            if tank - net < 40:
                break
            tank -= net
            tickets.append(Ticket(day, 50211 + len(tickets), chance.choice(VEHICLES), net))
        if _is_last_of_month(day):
            stock.append(tank)
    return LiquidCo2(tuple(tickets), np.array(stock))


def _ammonia(works: Works) -> Ammonia:
    """Return ammonia sold and lost; less is sold when the tank runs low."""
    chance, tank, stock = Random("Brackwater ammonia"), 11200.0, [11200.0]
    sold, lost = np.zeros(len(DAYS)), np.array([4.25 if day in TRIPS else 0.25 for day in DAYS])
    stored = works.ammonia_mass - works.ammonia_to_urea_mass - lost
    for place, day in enumerate(DAYS):
        wanted = 0.0 if day.weekday() == SUNDAY else 415 * (1 + chance.gauss(0, 0.06))
        sold[place] = wanted * min(1.35, max(0.2, (tank - 1500) / 9000))
        tank += stored[place] - sold[place]
        if _is_last_of_month(day):
            stock.append(tank)
    return Ammonia(sold, lost, np.array(stock))


def _utilities(works: Works, given: Conditions) -> Utilities:
    """Return power, steam and diesel."""
    urea = by_month(works.urea_mass)
    own = by_month(24 + 0.040 * works.ammonia_mass)
    made = by_month(0.9 * given.loop_hours)
    to_urea = 30 + 0.058 * urea
    to_liquefaction = 6 + 0.185 * by_month(works.liquid_co2_mass)
    return Utilities(
        power_bought=own + to_urea + to_liquefaction - made,
        power_made=made,
        power_to_urea=to_urea,
        power_to_liquefaction=to_liquefaction,
        steam_to_urea=urea * (0.62 + wander("steam to urea", 12, 0.01)),
        diesel=np.array([2400.0] * 5 + [9100.0] + [2500.0] * 6) + wander("diesel", 12, 300, 0),
    )
