"""A works made by hand, in memory: no files are read, so that each test says all that it needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from typing import Any

import numpy as np

from footprint.account import Account, account
from footprint.balance import Balance, balance
from footprint.base.source import Reading
from footprint.base.units import unit
from footprint.measure import Measured, measure
from footprint.measure.calendar import Calendar
from footprint.measure.context import Context
from footprint.read.readings import AnalysisSeries, Readings, Series
from footprint.read.site import Site
from footprint.register import Register, load

YEAR = 2025
CALENDAR = Calendar(YEAR)
DAYS_IN_MONTH = np.array([float(last - first) for first, last in CALENDAR.days_of_months])
METHANE = {"methane": 100.0}
DATES = {
    "daily": CALENDAR.dates,
    "monthly": CALENDAR.first_days,
    "stock": (*CALENDAR.first_days, date(YEAR + 1, 1, 1)),
}
WORKS = {
    "name": "Hand-made works",
    "operator": "Nobody",
    "country": "IE",
    "year": YEAR,
    "bases": ["IPCC 2006"],
    "gwp_set": "AR5",
    "plan": {"version": "1", "approved": date(2024, 11, 1), "valid_from": date(2025, 1, 1)},
}
UNIT = {"name": "Ammonia", "process": "steam reforming", "nameplate_t_per_day": 1000.0}


@cache
def factors() -> Register:
    """Return the delivered factors, loaded once.

    Source: definition
    """
    return load()[0]


@dataclass
class HandMade:
    """A works that grows by meters, gases and streams."""

    works: dict[str, Any] = field(default_factory=lambda: dict(WORKS))
    meters: list[dict[str, Any]] = field(default_factory=list)
    devices: list[dict[str, Any]] = field(default_factory=list)
    analyses: list[dict[str, Any]] = field(default_factory=list)
    streams: list[dict[str, Any]] = field(default_factory=list)
    substitutes: list[dict[str, Any]] = field(default_factory=list)
    gaps: list[dict[str, Any]] = field(default_factory=list)
    series: dict[str, Series] = field(default_factory=dict)
    gases: dict[str, AnalysisSeries] = field(default_factory=dict)
    more: dict[str, Any] = field(default_factory=dict)  # further tables of the site file

    def meter(
        self,
        tag: str,
        name: str,
        values: float | Sequence[float],
        rows: str = "monthly",
        dates: Sequence[date] = (),
        **keys: Any,
    ) -> None:
        """Add a meter and what it read.

        Args:
            tag: of the meter. [text]
            name: of the unit. [text]
            values: one a row, or the same in every row. [unit]
            rows: daily, monthly, stock or tickets. [text]
            dates: of the rows; needed for tickets. [date]
            keys: other keys of the site file. [any]

        Source: definition
        """
        days = tuple(dates) or DATES[rows]
        array = np.broadcast_to(np.asarray(values, dtype=float), (len(days),)).copy()
        origins = tuple(
            None if np.isnan(value) else Reading("hand.xlsx", tag, f"B{place}", f"{value:g}")
            for place, value in enumerate(array, 2)
        )
        self.meters.append({"tag": tag, "file": "hand.xlsx", "column": tag, "rows": rows, **keys})
        self.series[tag] = Series(tag, rows, days, array, unit(name), origins)  # type: ignore[arg-type]

    def stream(self, name: str, role: str, meter: str, **keys: Any) -> None:
        """Add a stream.

        Args:
            name: of the stream. [text]
            role: trade term. [text]
            meter: its tag. [text]
            keys: other keys of the site file. [any]

        Source: definition
        """
        self.streams.append({"name": name, "role": role, "meter": meter, **keys})

    def counted(self, name: str, role: str, unit_name: str, values: Any, **keys: Any) -> None:
        """Add a stream with a monthly meter of the same name.

        Args:
            name: of the stream, and tag of its meter. [text]
            role: trade term. [text]
            unit_name: of the meter. [text]
            values: one a month, or the same in every month. [unit]
            keys: other keys of the stream; what is said of errors goes to the meter. [any]

        Source: definition
        """
        of_meter = ("uncertainty", "repeatability", "devices", "calibrations")
        stated = {key: keys.pop(key) for key in of_meter if key in keys}
        self.meter(name, unit_name, values, **stated)
        self.stream(name, role, name, **keys)

    def gas(
        self,
        name: str,
        composition: Mapping[str, float | Sequence[float]],
        sampled: Sequence[date] = (date(YEAR, 1, 1),),
        **keys: Any,
    ) -> None:
        """Add the analyses of a gas.

        Args:
            name: of the gas. [text]
            composition: by component, one a sample or the same in all. [mol-%]
            sampled: day of each sample. [date]
            keys: other keys of the analyses. [any]

        Source: definition
        """
        values = np.array([np.broadcast_to(one, (len(sampled),)) for one in composition.values()])
        origin = Reading("hand.xlsx", name, "B2", "read")
        origins = tuple((origin,) * len(composition) for _ in sampled)
        self.analyses.append(
            {
                "gas": name,
                "file": "hand.xlsx",
                "unit": "mol-%",
                "moisture": "dry",
                "represents": "until the next sample",
                **keys,
            }
        )
        self.gases[name] = AnalysisSeries(
            name, tuple(sampled), tuple(composition), values.T.astype(float), origins
        )

    def readings(self) -> Readings:
        """Return the works as reading its folder would give it.

        Source: definition
        """
        site = Site.model_validate(
            {
                "works": self.works,
                "units": [UNIT],
                "meters": self.meters,
                "devices": self.devices,
                "analyses": self.analyses,
                "streams": self.streams,
                "substitutes": self.substitutes,
                "gaps": self.gaps,
                **self.more,
            }
        )
        return Readings(site, self.series, self.gases, ())

    def context(self) -> Context:
        """Return what every part of measuring needs.

        Source: definition
        """
        return Context(self.readings(), factors())

    def measured(self) -> Measured:
        """Return every stream by month.

        Source: definition
        """
        return measure(self.readings(), factors())[0]

    def codes(self) -> list[str]:
        """Return the codes of the findings of measuring, but for uncertainties not stated.

        Source: definition
        """
        codes = [one.code for one in measure(self.readings(), factors())[1]]
        return [code for code in codes if code != "uncertainty-not-stated"]

    def balanced(self) -> tuple[Measured, Balance]:
        """Return every stream by month and the solved carbon network.

        Source: definition
        """
        measured = self.measured()
        return measured, balance(measured)[0]

    def account(self) -> Account:
        """Return all figures of the works.

        Source: definition
        """
        return account(*self.balanced())[0]


def plain_works() -> HandMade:
    """Return a works that makes 30 000 t of ammonia a month from methane, feed and fuel.

    Feed and fuel are 22 and 9 GJ net by tonne of ammonia: common practice, no source.

    Source: definition
    """
    made = HandMade()
    made.gas("natural gas", METHANE)
    made.counted("feed gas", "feed", "Nm3", 18.43e6, analysis="natural gas")
    made.counted("fuel gas", "fuel", "Nm3", 7.54e6, analysis="natural gas")
    made.meter("LAB", "percent", 100.0)
    made.counted("ammonia", "ammonia produced", "t_NH3", 30_000.0, purity="LAB")
    made.counted("power", "power bought", "MWh", 1_500.0)
    return made
