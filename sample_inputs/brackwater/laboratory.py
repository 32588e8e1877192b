"""The laboratory of the invented works: one sheet a gas, one row a sample, mole per cent."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np

from .gas import Array, component, composition
from .sheets import Column, Table
from .trade import Year
from .year import DAYS, TURNAROUND, YEAR

NATURAL_GAS = {
    "CH4": "CH4",
    "C2H6": "C2H6",
    "C3H8": "C3H8",
    "i-C4H10": "i-C4H10",
    "n-C4H10": "n-C4H10",
    "C5+": "n-C5H12",
    "N2": "N2",
    "CO2": "CO2",
}  # heading: component
LOOP_GAS = {formula: formula for formula in ("H2", "N2", "CH4", "Ar", "NH3")}
SYNTHESIS_GAS = {formula: formula for formula in ("H2", "N2", "CO2", "CO", "CH4", "Ar")}
SOLVENT_GAS = {formula: formula for formula in ("CO2", "H2", "N2", "CH4", "CO")}


def analyses(year: Year) -> list[Table]:
    """Return the sheets of gas analyses; in the turnaround only natural gas is sampled.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    process = year.works.process
    running = [
        sample for sample in year.samples if (sample.year, sample.month) != (YEAR, TURNAROUND)
    ]
    sheets = (
        ("Natural gas", year.given.natural_gas, NATURAL_GAS, year.samples, 3),
        ("Raw synthesis gas", process.raw, SYNTHESIS_GAS, running, 3),
        ("Purge gas", process.purge, LOOP_GAS, running, 2),
        ("Let-down gas", process.let_down, LOOP_GAS, running, 2),
        ("Solvent flash gas", process.solvent_flash, SOLVENT_GAS, running, 2),
        ("CO2 overhead", process.overhead, SOLVENT_GAS, running, 3),
    )
    return [_sheet(*sheet) for sheet in sheets]


def _sheet(
    name: str, flow: Array, headings: dict[str, str], samples: Sequence[date], decimals: int
) -> Table:
    """Return the sheet of one gas."""
    days = [max(0, (sample - DAYS[0]).days) for sample in samples]
    fractions = composition(flow)[days]
    return Table(
        "gas_analyses.xlsx",
        name,
        f"Laboratory, gas chromatograph: {name}, mole per cent of dry gas",
        tuple(
            _component(heading, 100 * component(fractions, formula), decimals)
            for heading, formula in headings.items()
        ),
        date_heading="Sampled",
        dates=samples,
    )


def _component(heading: str, per_cent: Array, decimals: int) -> Column:
    """Return the column of one component; a chromatograph repeats to 0.1 % and a little more."""
    jitter = 0.001 * float(np.mean(per_cent)) + 0.001
    return Column("", heading, "", per_cent, decimals, jitter, is_level=True)
