"""What was written down: series of readings and gas analyses, each value with its cell."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from footprint.base.source import Reading
from footprint.base.units import Unit, product_of, time_below
from footprint.read.site import Layout, Site


@dataclass(frozen=True, eq=False, slots=True)
class Listed:
    """Numbers of one column with their cells, where amounts follow from them.

    Attributes:
        values: as written; NaN where missing. [unit of the column]
        origins: the cell of each value; None where there is no cell. [readings]
    """

    values: NDArray[np.float64]
    origins: tuple[Reading | None, ...]


@dataclass(frozen=True, eq=False, slots=True)
class Indexes:
    """The index of a meter at the start of each period and at the end of the last.

    Attributes:
        index: one more than the series has periods. [unit of the series over the factor]
        spans: of each period: places of the index readings before and after it. [1]
        removed: index at which meters were taken out during the span of each period. [unit]
        fitted: index at which meters were put in during the span of each period. [unit]
        shares: days of each period over those of its span. [1]
    """

    index: Listed
    spans: tuple[tuple[int, int], ...]
    removed: NDArray[np.float64]
    fitted: NDArray[np.float64]
    shares: NDArray[np.float64]


@dataclass(frozen=True, eq=False, slots=True)
class Weights:
    """Gross and tare of each ticket."""

    gross: Listed
    tare: Listed


@dataclass(frozen=True, eq=False, slots=True)
class Bills:
    """Invoices by billing period, in the order of their first days.

    Attributes:
        first_days: of each period. [date]
        last_days: of each period, inclusive. [date]
        amounts: of each invoice; credit notes are negative. [unit of the series]
    """

    first_days: tuple[date, ...]
    last_days: tuple[date, ...]
    amounts: Listed


@dataclass(frozen=True, eq=False, slots=True)
class Dips:
    """Levels in a tank and the table of what it holds at each.

    Attributes:
        levels: one a date of the series. [unit of level]
        unit: of level. [unit]
        table: levels of the table, rising. [unit of level]
        contents: what the tank holds at each level of the table. [unit of the series]
        below: of each date: place in the table at or below the level. [1]
    """

    levels: Listed
    unit: Unit
    table: Listed
    contents: Listed
    below: tuple[int, ...]


Basis = Indexes | Weights | Bills | Dips


@dataclass(frozen=True, eq=False, slots=True)
class Series:
    """The readings of one meter, in the order of their dates.

    Attributes:
        tag: of the meter. [text]
        rows: daily (each day of the year), monthly (12), tickets (any number), stock (13). [text]
        dates: one a value; of a month its first day; of stock each 1st, up to 1 January. [date]
        values: as written, in `unit`, or what follows from `basis`; NaN where missing. Shape
            (number of dates,). [unit]
        unit: as the heading, the unit row or the site file names it. [unit]
        origins: the cell of each value; None where there is no cell. [readings]
        basis: what is written where the values follow from it, such as an index. [any]
    """

    tag: str
    rows: Layout
    dates: tuple[date, ...]
    values: NDArray[np.float64]
    unit: Unit
    origins: tuple[Reading | None, ...]
    basis: Basis | None = None

    @property
    def amount_unit(self) -> Unit:
        """Unit of the amount of a period, which for a rate is its unit times its time."""
        time = time_below(self.unit)
        return self.unit if time is None else product_of(self.unit, time)


@dataclass(frozen=True, eq=False, slots=True)
class AnalysisSeries:
    """The analyses of one gas, in the order of their dates.

    Attributes:
        gas: name of the gas. [text]
        dates: day of each sample. [date]
        components: names of the component table, in the order of the columns. [text]
        values: mole per cent as written, shape (samples, components); NaN where missing. [mol-%]
        origins: the cell of each value, by sample and component. [readings]
        lumped: heavier hydrocarbons as written, where the site file splits them into components
            of this series. [mol-%]
    """

    gas: str
    dates: tuple[date, ...]
    components: tuple[str, ...]
    values: NDArray[np.float64]
    origins: tuple[tuple[Reading, ...], ...]
    lumped: Listed | None = None


@dataclass(frozen=True, slots=True)
class InputFile:
    """One file that was read, with the fingerprint by which the same bytes are found again."""

    name: str
    size: int
    sha256: str
    sheets: tuple[str, ...]
    readings: int
    left_out: str  # rows and sheets not used, and why


@dataclass(frozen=True, eq=False, slots=True)
class Readings:
    """All that was read: the site file, the series by tag, the analyses by gas, the files."""

    site: Site
    series: dict[str, Series]
    analyses: dict[str, AnalysisSeries]
    files: tuple[InputFile, ...]
