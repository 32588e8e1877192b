"""The sheets that the invented works keeps: what stands in which column, still without errors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from .gas import NITROGEN_IN_UREA, Array, mass, volume, wet_volume
from .trade import Year
from .year import BOUNDARIES, DAYS, MONTHS, STARTS, TRIPS, by_month

DAY, MONTH = "dd/mm/yyyy", "mmm yyyy"


@dataclass(frozen=True)
class Column:
    """One column of readings.

    Attributes:
        tag: of the meter in the site file; empty for a column that nobody reads. [text]
        heading: without the unit. [text]
        unit: as the sheet writes it. [text]
        values: what truly was, one a row. [unit]
        decimals: that are written down. [1]
        jitter: standard deviation of one reading where it is not a share. [unit]
        is_level: a level, whose month is a mean and not a sum. [flag]
    """

    tag: str
    heading: str
    unit: str
    values: Array
    decimals: int
    jitter: float = 0.0
    is_level: bool = False


@dataclass(frozen=True)
class Table:
    """A sheet: title rows, one header row, perhaps a row of units, one row a date.

    Attributes:
        file: name of the workbook. [text]
        sheet: name of the sheet. [text]
        title: rows above the header. [text]
        columns: of readings. [columns]
        date_heading: of the first column. [text]
        dates: one a row. [dates]
        date_format: how a date is shown. [text]
        has_unit_row: units stand in a row of their own. [flag]
        has_total: a last row sums each column. [flag]
        status: words of a last column that says whether a reading is final; none without it. [text]
    """

    file: str
    sheet: str
    title: str
    columns: tuple[Column, ...]
    date_heading: str = "Date"
    dates: Sequence[date] = DAYS
    date_format: str = DAY
    has_unit_row: bool = False
    has_total: bool = False
    status: tuple[str, ...] = ()


def daily_tables(year: Year) -> list[Table]:
    """Return the sheets with a row a day.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    return [*_gas_tables(year), *_product_tables(year)]


def _gas_tables(year: Year) -> list[Table]:
    """Return the daily sheets of gases."""
    meters, co2 = "gas_meters.xlsx", "co2.xlsx"
    totals = "Natural gas, flow computer totals 00:00 to 24:00"
    burners = "Purge and flash gases to the reformer burners"
    header = "Carbon dioxide from the regenerator, gas saturated with water at each meter"
    vent = "Synthesis gas vented at start-up, dry, from valve position and pressure"
    return [
        Table(meters, "Natural gas", totals, _natural_gas(year), has_total=True),
        Table(meters, "Fuel gases", burners, _fuel_gases(year), has_unit_row=True),
        Table(co2, "CO2 header", header, _co2(year), has_unit_row=True),
        Table(co2, "Start-up vent", vent, _vent(year), has_total=True),
    ]


def _product_tables(year: Year) -> list[Table]:
    """Return the daily sheets of products and operation."""
    product, log = "Ammonia product with laboratory purity", "Ammonia plant, shift log summary"
    belt = "Urea product over the belt weigher"
    return [
        Table("production.xlsx", "Ammonia", product, _ammonia(year)),
        Table("production.xlsx", "Urea", belt, _urea(year), has_total=True),
        Table("operation.xlsx", "Log", log, _log(year), has_total=True),
    ]


def monthly_tables(year: Year) -> list[Table]:
    """Return the sheets with a row a month, and the tanks with a row a month boundary.

    Args:
        year: the year at the works. [year]

    Source: definition
    """

    def monthly(file: str, sheet: str, title: str, columns: tuple[Column, ...]) -> Table:
        return Table(file, sheet, title, columns, "Month", MONTHS, MONTH, has_total=True)

    return [
        monthly("energy.xlsx", "Power and steam", "Power and steam over the fence", _energy(year)),
        monthly("energy.xlsx", "Diesel", "Fire pumps and emergency generator", _diesel(year)),
        monthly("co2.xlsx", "Liquefaction", "Statement of the liquefaction unit", _loss(year)),
        Table(
            "stocks.xlsx",
            "Tanks",
            "Tank contents at 00:00 on the first day of the month",
            _tanks(year),
            dates=BOUNDARIES,
        ),
    ]


def _natural_gas(year: Year) -> tuple[Column, ...]:
    works = year.works
    return (
        Column("FT-101", "Natural gas at the fence", "Sm3 (15 °C)", volume(works.fence, 15), 0),
        Column("FT-111", "Feed gas", "Nm3", volume(works.process.feed), 0),
        Column("FT-121", "Reformer fuel gas", "Nm3", volume(works.reformer_fuel), 0),
        Column("FT-131", "Auxiliary boiler gas", "Nm3", volume(works.boiler_fuel), 0),
    )


def _fuel_gases(year: Year) -> tuple[Column, ...]:
    gases = year.works.off_gases
    return (
        Column("FT-141", "Purge gas", "Nm3", volume(gases["purge gas"]), 0),
        Column("FT-142", "Let-down flash gas", "Nm3", volume(gases["let-down gas"]), 0),
        Column("FT-143", "Solvent flash gas", "Nm3", volume(gases["solvent flash gas"]), 0),
    )


def _co2(year: Year) -> tuple[Column, ...]:
    works, around = year.works, year.around
    overhead = works.process.overhead
    return (
        *_wet_gas("201", "Overhead", overhead, around.overhead_celsius, around.overhead_kilopascal),
        *_wet_gas("211", "To urea", works.co2_to_urea, around.urea_celsius, around.urea_kilopascal),
        *_wet_gas("221", "Vent", works.co2_vented, around.vent_celsius, around.vent_kilopascal),
    )


def _wet_gas(
    number: str, name: str, flow: Array, celsius: Array, kilopascal: Array
) -> tuple[Column, ...]:
    """Return flow, temperature and pressure of gas saturated with water."""
    wet, bar = wet_volume(flow, celsius, kilopascal), kilopascal / 100
    return (
        Column(f"FT-{number}", f"{name} wet gas", "Nm3", wet, 0),
        Column(f"TT-{number}", f"{name} temperature", "°C", celsius, 1, 0.15, is_level=True),
        Column(f"PT-{number}", f"{name} pressure", "bar abs", bar, 3, 0.002, is_level=True),
    )


def _vent(year: Year) -> tuple[Column, ...]:
    return (Column("FT-231", "Start-up vent", "Nm3", volume(year.works.process.start_up_vent), 0),)


def _ammonia(year: Year) -> tuple[Column, ...]:
    works, sales, purity = year.works, year.ammonia, year.around.purity
    return (
        Column("FT-301", "Ammonia product", "t", works.ammonia_mass / purity, 1),
        Column("LAB-301", "Purity", "% by mass", purity * 100, 2, 0.01, is_level=True),
        Column("FT-302", "Ammonia to urea", "t", works.ammonia_to_urea_mass / purity, 1),
        Column("WB-303", "Ammonia sold", "t", sales.sold / purity, 2),
        Column("EST-304", "Ammonia losses", "t", sales.lost / purity, 2),
    )


def _urea(year: Year) -> tuple[Column, ...]:
    purity = year.around.urea_purity
    nitrogen = purity * NITROGEN_IN_UREA * 100
    return (
        Column("WT-401", "Urea product", "t", year.works.urea_mass / purity, 1),
        Column("LAB-401", "Nitrogen", "% N", nitrogen, 2, 0.02, is_level=True),
    )


def _log(year: Year) -> tuple[Column, ...]:
    starts, trips = (np.array([float(day in days) for day in DAYS]) for days in (STARTS, TRIPS))
    return (
        Column("HOURS", "Hours on line", "h", year.given.loop_hours, 1),
        Column("STARTS", "Starts", "", starts, 0),
        Column("TRIPS", "Trips", "", trips, 0),
        Column("", "Ambient mean temperature", "°C", year.around.ambient, 1, is_level=True),
    )


def _energy(year: Year) -> tuple[Column, ...]:
    used = year.utilities
    return (
        Column("EM-501", "Power bought", "MWh", used.power_bought, 1),
        Column("EM-502", "Power made", "MWh", used.power_made, 1),
        Column("EM-503", "Power to urea", "MWh", used.power_to_urea, 1),
        Column("EM-504", "Power to CO2 liquefaction", "MWh", used.power_to_liquefaction, 1),
        Column("FT-511", "Steam to urea", "t", used.steam_to_urea, 0),
        Column("", "Condensate returned", "t", used.steam_to_urea * 0.83, 0),
    )


def _diesel(year: Year) -> tuple[Column, ...]:
    return (Column("TK-601", "Diesel used", "litres", year.utilities.diesel, 0),)


def _loss(year: Year) -> tuple[Column, ...]:
    works = year.works
    loss = by_month(mass(works.co2_to_liquefaction, "CO2") - works.liquid_co2_mass)
    return (Column("LIQ-222", "CO2 lost with inerts", "t", loss, 1),)


def _tanks(year: Year) -> tuple[Column, ...]:
    in_tank = year.around.purity[[*(DAYS.index(month) for month in MONTHS), -1]]
    return (
        Column("LT-305", "Ammonia tank", "t", year.ammonia.stock / in_tank, 1),
        Column("LT-225", "Liquid CO2 tank", "t", year.liquid_co2.stock, 1),
    )
