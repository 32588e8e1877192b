"""Sites with known truth: the sample's works without its blemishes, with faults, or by the month.

The works by the month has meters without error. There every gas is sampled on the first day of
each month and keeps its composition until the next, so that what is written down leads to the
truth exactly, but for the rounding to twelve digits.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from tests.sites.sample_modules import SAMPLE, brackwater, make_sample
from tests.sites.site_text import site_text

FUEL_METER = "FT-121"
REMOVAL_METERS = ("FT-201", "TT-201", "PT-201")
VENT_METERS = ("FT-221", "TT-221", "PT-221")
OFF_GASES = ("purge gas", "let-down gas", "solvent flash gas")
MIXED_BURNER = "Reformer fuel gas with purge and flash gases"
WORDS_IN_A_CELL = ("gas_meters.xlsx", "Natural gas", "D234")  # reformer fuel gas of 18 August
UNIT_CHANGES = date(2025, 10, 1)  # feed gas is written in thousands from then on
HOURS_OF_A_DAY = 24


@dataclass(frozen=True)
class Built:
    """A folder with a site file and spreadsheets, and what truly flowed there."""

    folder: Path
    truth: dict[str, Any]


def clean_twin(folder: Path) -> Built:
    """Return the sample as its meters read it, without a blemish in what is written down.

    Args:
        folder: where the files go; must exist. [path]

    Source: definition
    """
    writing, year = brackwater("writing"), brackwater("trade").build()
    (folder / "site.toml").write_text(site_text(_clean_site()), encoding="utf-8")
    writing.write_workbooks(
        folder, make_sample().read_tables(year), brackwater("instruments").exact
    )
    writing.write_tickets(folder / "co2_sales.csv", year.liquid_co2.tickets)
    return Built(folder, brackwater("truth").truth(year))


def twin_with_faults_that_stop(folder: Path) -> Built:
    """Return the sample with three faults more, which no rule of its site file settles.

    Words stand in a cell of the reformer fuel gas; the feed gas is written in another unit from
    October on, and nothing says so; and the ammonia product is read from a column of hourly means.

    Args:
        folder: where the files go; must exist. [path]

    Source: definition
    """
    make_sample().write_sample(folder, brackwater("trade").build())
    site = tomllib.loads((SAMPLE / "site.toml").read_text(encoding="utf-8"))
    _meter(site, "FT-301")["column"] = "Ammonia product, mean of the day"
    (folder / "site.toml").write_text(site_text(site), encoding="utf-8")
    gas = openpyxl.load_workbook(folder / "gas_meters.xlsx")
    gas["Natural gas"][WORDS_IN_A_CELL[2]] = "meter out"
    _change_unit(gas["Natural gas"])
    gas.save(folder / "gas_meters.xlsx")
    product = openpyxl.load_workbook(folder / "production.xlsx")
    _add_means(product["Ammonia"])
    product.save(folder / "production.xlsx")
    return Built(folder, brackwater("truth").truth(brackwater("trade").build()))


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
    _meter(site, FUEL_METER)["column"] = MIXED_BURNER
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


def _clean_site() -> dict[str, Any]:
    """Return the site file of the sample without what its blemishes need."""
    site = tomllib.loads((SAMPLE / "site.toml").read_text(encoding="utf-8"))
    del site["gaps"], site["accepted"]
    diesel, power, tickets = (_meter(site, tag) for tag in ("TK-601", "EM-501", "WB-223"))
    del diesel["counts"], diesel["index"], power["status_column"]
    del tickets["number_column"], tickets["vehicle_column"]
    diesel |= {"column": "Diesel used", "date_column": "Month"}
    power["sheet"] = "Power and steam"
    return site


def _meter(site: dict[str, Any], tag: str) -> dict[str, Any]:
    """Return the entry of a meter."""
    entry: dict[str, Any] = next(meter for meter in site["meters"] if meter["tag"] == tag)
    return entry


def _monthly_site() -> dict[str, Any]:
    """Return the clean site file, with a row a month where the sample has a row a day."""
    site = _clean_site()
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


def _change_unit(sheet: Worksheet) -> None:
    """Write the feed gas in thousands from a day on, under the heading of single cubic metres."""
    for row in sheet.iter_rows(max_col=3):
        day, feed = row[0].value, row[2]
        if isinstance(day, datetime) and day.date() >= UNIT_CHANGES:
            feed.value = round(float(str(feed.value)) / 1000, 2)


def _add_means(sheet: Worksheet) -> None:
    """Write a column of hourly means of the ammonia product, in tonnes, as its unit says."""
    place = sheet.max_column + 1
    for row in sheet.iter_rows(max_col=2):
        if isinstance(row[0].value, datetime):
            mean = float(str(row[1].value)) / HOURS_OF_A_DAY
            sheet.cell(row[0].row, place, round(mean, 2))
        elif row[0].value == "Date":
            sheet.cell(row[0].row, place, "Ammonia product, mean of the day (t)")
