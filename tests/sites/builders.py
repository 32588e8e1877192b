"""Small sites with known truth: the sample's works, logged by the month with meters without error.

Every gas is sampled on the first day of each month and keeps its composition until the next, so
that what is written down leads to the truth exactly, but for the rounding to twelve digits.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from tests.sites.sample_modules import SAMPLE, brackwater
from tests.sites.site_text import site_text

FUEL_METER = "FT-121"
REMOVAL_METERS = ("FT-201", "TT-201", "PT-201")
VENT_METERS = ("FT-221", "TT-221", "PT-221")
OFF_GASES = ("purge gas", "let-down gas", "solvent flash gas")
MIXED_BURNER = "Reformer fuel gas with purge and flash gases"


@dataclass(frozen=True)
class Built:
    """A folder with a site file and spreadsheets, and what truly flowed there."""

    folder: Path
    truth: dict[str, Any]


def monthly_works(folder: Path) -> Built:
    """Return the works with every meter in place, each fuel meter before the mixing.

    Args:
        folder: where the files go; must exist. [path]

    Source: definition
    """
    return _built(folder, _monthly_site(), _monthly_tables())


def works_with_fuel_meter_after_mixing(folder: Path) -> Built:
    """Return the works whose reformer fuel meter counts purge and flash gases with the fuel.

    The meter counts the real gas of the mixture. The truth is that of `monthly_works`.

    Args:
        folder: where the files go; must exist. [path]

    Source: definition
    """
    site = _monthly_site()
    fuel = next(stream for stream in site["streams"] if stream["meter"] == FUEL_METER)
    fuel |= {"position": "after mixing", "mixed_with": list(OFF_GASES)}
    meter = next(meter for meter in site["meters"] if meter["tag"] == FUEL_METER)
    meter["column"] = MIXED_BURNER
    return _built(folder, site, [_with_mixed_fuel(table) for table in _monthly_tables()])


def works_without_removal_and_vent_meters(folder: Path) -> Built:
    """Return the works that meters neither the CO2 it removes nor the CO2 it vents.

    Args:
        folder: where the files go; must exist. [path]

    Source: definition
    """
    unmetered = (*REMOVAL_METERS, *VENT_METERS)
    site = _monthly_site()
    site["meters"] = [meter for meter in site["meters"] if meter["tag"] not in unmetered]
    site["streams"] = [stream for stream in site["streams"] if stream["meter"] not in unmetered]
    tables = [_without(table, unmetered) for table in _monthly_tables()]
    return _built(folder, site, tables)


@cache
def _year() -> Any:
    """Return the year, its compositions held from the first day of each month."""
    year = brackwater("year")
    return brackwater("trade").build(year.MONTHS, is_monthly=True)


def _built(folder: Path, site: dict[str, Any], tables: Sequence[Any]) -> Built:
    """Return the folder after the site file and all spreadsheets were written."""
    writing, year = brackwater("writing"), _year()
    (folder / "site.toml").write_text(site_text(site), encoding="utf-8")
    everything = [*tables, *brackwater("laboratory").analyses(year)]
    writing.write_workbooks(folder, everything, brackwater("instruments").exact)
    writing.write_tickets(folder / "co2_sales.csv", year.liquid_co2.tickets)
    return Built(folder, brackwater("truth").truth(year))


def _monthly_site() -> dict[str, Any]:
    """Return the site file of the sample, with a row a month where the sample has a row a day."""
    site = tomllib.loads((SAMPLE / "site.toml").read_text(encoding="utf-8"))
    for meter in site["meters"]:
        if meter.get("rows", "daily") == "daily":
            meter |= {"rows": "monthly", "date_column": "Month"}
    return site


def _monthly_tables() -> list[Any]:
    """Return the sheets, days summed or averaged to months."""
    sheets, year = brackwater("sheets"), _year()
    return [*map(_by_month, sheets.daily_tables(year)), *sheets.monthly_tables(year)]


def _by_month(table: Any) -> Any:
    """Return a sheet with a row a month instead of a row a day."""
    months = brackwater("year")
    days = np.bincount(months.MONTH_OF_DAY)

    def monthly(column: Any) -> Any:
        values = months.by_month(column.values)
        return replace(column, values=values / days if column.is_level else values)

    return replace(
        table,
        columns=tuple(map(monthly, table.columns)),
        date_heading="Month",
        dates=months.MONTHS,
        date_format=brackwater("sheets").MONTH,
    )


def _with_mixed_fuel(table: Any) -> Any:
    """Return a sheet whose reformer fuel column counts what joins the fuel as well."""
    works = _year().works
    mixed = works.reformer_fuel + np.sum(list(works.off_gases.values()), axis=0)
    volume = brackwater("year").by_month(brackwater("gas").volume(mixed))
    return _changed(
        table,
        lambda column: (
            replace(column, heading=MIXED_BURNER, values=volume)
            if column.tag == FUEL_METER
            else column
        ),
    )


def _changed(table: Any, change: Callable[[Any], Any]) -> Any:
    """Return a sheet with each column changed."""
    return replace(table, columns=tuple(map(change, table.columns)))


def _without(table: Any, tags: Sequence[str]) -> Any:
    """Return a sheet without the columns of some meters."""
    kept = tuple(column for column in table.columns if column.tag not in tags)
    return replace(table, columns=kept)
