"""What the sheets ready to fill in ask for: one column a meter.

The example figures belong together: a works of about 1 170 t a day that closes on carbon and on
ammonia within a few per cent. They are invented.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from footprint.read.site import Layout

Dates = Literal["days", "months", "turns of months", "samples"]

GAS_UNITS = ("Nm3", "kNm3", "Sm3 (15 °C)", "m3 (20 °C)", "scf (60 °F)")
MASS_UNITS = ("t", "kg")
POWER_UNITS = ("MWh", "kWh", "GWh")
PRESSURE_UNITS = ("bar abs", "kPa abs")


@dataclass(frozen=True)
class Column:
    """A column of readings.

    Attributes:
        tag: of the meter in the site file. [text]
        heading: without its unit. [text]
        units: to choose from; the first is filled in. [text]
        example: a reading as it may look. [unit]
        highest: above it the sheet asks whether the number is meant; None for no limit. [unit]
    """

    tag: str
    heading: str
    units: tuple[str, ...]
    example: float
    highest: float | None = None


@dataclass(frozen=True)
class Choice:
    """A column of words to choose from, for the reader of the sheet alone."""

    heading: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Form:
    """A sheet ready to fill in.

    Attributes:
        file: name of the workbook. [text]
        sheet: name of the sheet. [text]
        title: what is asked, in a sentence. [text]
        dates: how its rows are dated. [text]
        columns: of readings; of a gas analysis, one a component. [columns]
        choice: a last column of words, if any. [column]
        gas: analysed, if it is a sheet of analyses. [text]
    """

    file: str
    sheet: str
    title: str
    dates: Dates
    columns: tuple[Column, ...]
    choice: Choice | None = None
    gas: str = ""

    @property
    def date_heading(self) -> str:
        """The heading of the column of dates."""
        return {"months": "Month", "samples": "Sampled"}.get(self.dates, "Date")

    @property
    def rows(self) -> Layout:
        """The word of the site file for the rows of a meter's sheet."""
        known: dict[Dates, Layout] = {"months": "monthly", "turns of months": "stock"}
        return known.get(self.dates, "daily")


def _gas(tag: str, heading: str, example: float) -> Column:
    return Column(tag, heading, GAS_UNITS, example)


def _mass(tag: str, heading: str, example: float) -> Column:
    return Column(tag, heading, MASS_UNITS, example)


def _wet(tag: str, heading: str, figures: tuple[float, float, float]) -> tuple[Column, ...]:
    """Return the columns of a gas saturated with water: volume, temperature, pressure."""
    volume, celsius, bar = figures
    return (
        _gas(tag, heading, volume),
        Column(f"{tag} temperature", f"{heading}, temperature", ("°C", "K"), celsius),
        Column(f"{tag} pressure", f"{heading}, pressure", PRESSURE_UNITS, bar),
    )


def _analysis(gas: str, sheet: str, shares: dict[str, float]) -> Form:
    columns = tuple(Column("", name, ("mol-%",), share, 100.0) for name, share in shares.items())
    title = f"Analyses of {gas}, dry, one row a sample, shares in mole per cent (0 = none found)"
    kinds = Choice("Sample kind", ("spot", "mean of several spots", "collected over the period"))
    return Form("gas_analyses.xlsx", sheet, title, "samples", columns, kinds, gas)


_LOOP = {"H2": 60.6, "N2": 20.7, "CH4": 12.0, "Ar": 4.8, "NH3": 1.9}
_LET_DOWN = {"H2": 45.6, "N2": 18.3, "CH4": 19.6, "Ar": 4.5, "NH3": 12.0}
_FLASH = {"CO2": 48.2, "H2": 39.6, "N2": 10.6, "CH4": 1.0, "CO": 0.6}
_OVERHEAD = {"CO2": 98.9, "H2": 0.85, "N2": 0.22, "CH4": 0.02, "CO": 0.01}
_NATURAL = {
    "CH4": 92.3,
    "C2H6": 4.2,
    "C3H8": 1.1,
    "i-C4H10": 0.15,
    "n-C4H10": 0.15,
    "i-C5H12": 0.03,
    "n-C5H12": 0.02,
    "n-C6H14": 0.01,
    "N2": 1.14,
    "CO2": 0.9,
}

FORMS: tuple[Form, ...] = (
    Form(
        "gas_meters.xlsx",
        "Natural gas",
        "Natural gas, amount of each day",
        "days",
        (
            _gas("gas bought", "Gas bought", 1_020_000),
            _gas("feed gas", "Feed gas", 721_000),
            _gas("reformer fuel", "Reformer fuel gas", 208_500),
            _gas("boiler fuel", "Boiler fuel gas", 90_500),
        ),
    ),
    Form(
        "gas_meters.xlsx",
        "Process gases",
        "Purge and flash gases burnt in the reformer, amount of each day",
        "days",
        (
            _gas("purge gas", "Purge gas", 187_000),
            _gas("let-down gas", "Let-down gas", 13_300),
            _gas("solvent flash gas", "Solvent flash gas", 13_600),
        ),
    ),
    _analysis("natural gas", "Natural gas", _NATURAL),
    _analysis("purge gas", "Purge gas", _LOOP),
    _analysis("let-down gas", "Let-down gas", _LET_DOWN),
    _analysis("solvent flash gas", "Solvent flash gas", _FLASH),
    _analysis("CO2 gas", "CO2 gas", _OVERHEAD),
    Form(
        "co2.xlsx",
        "CO2 gas",
        "CO2 from the removal section, gas saturated with water, amount of each day",
        "days",
        (
            *_wet("CO2 removed", "CO2 removed", (778_000, 37.3, 1.395)),
            *_wet("CO2 to urea", "CO2 to urea", (543_000, 33.7, 1.338)),
            *_wet("CO2 vented", "CO2 vented", (144_000, 36.5, 1.06)),
        ),
    ),
    Form(
        "co2.xlsx",
        "CO2 sold",
        "CO2 sold, amount of each month",
        "months",
        (_mass("CO2 sold", "CO2 sold", 5_200),),
    ),
    Form(
        "production.xlsx",
        "Ammonia",
        "Ammonia, amount of each day as weighed or metered, and its purity",
        "days",
        (
            _mass("ammonia produced", "Ammonia produced", 1_170),
            Column("ammonia purity", "Purity", ("% by mass",), 99.8, 100.0),
            _mass("ammonia to urea", "Ammonia to urea", 795),
            _mass("ammonia sold", "Ammonia sold", 375),
        ),
    ),
    Form(
        "production.xlsx",
        "Urea",
        "Urea, amount of each day, and its nitrogen",
        "days",
        (
            _mass("urea", "Urea produced", 1_390),
            Column("urea nitrogen", "Nitrogen", ("% N",), 46.2, 100.0),
        ),
    ),
    Form(
        "production.xlsx",
        "Tanks",
        "Content of the ammonia tanks at 00:00 on the first day of each month",
        "turns of months",
        (_mass("ammonia tank", "Ammonia in tanks", 11_000),),
    ),
    Form(
        "energy.xlsx",
        "Power and steam",
        "Power, steam and diesel over the fence, amount of each month",
        "months",
        (
            Column("power bought", "Power bought", POWER_UNITS, 4_900),
            Column("power made", "Power made", POWER_UNITS, 670),
            Column("power to urea", "Power to urea", POWER_UNITS, 2_450),
            _mass("steam to urea", "Steam to urea", 27_000),
            Column("diesel", "Diesel used", ("litres", "t", "kg"), 2_500),
        ),
    ),
    Form(
        "operation.xlsx",
        "Running",
        "Hours on line of the synthesis loop, starts and trips of each day",
        "days",
        (
            Column("hours on line", "Hours on line", ("h",), 24, 24.0),
            Column("starts", "Starts", ("count",), 0),
            Column("trips", "Trips", ("count",), 0),
        ),
        Choice("State", ("running", "starting up", "shut down", "turnaround")),
    ),
)
