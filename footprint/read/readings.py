"""What was written down: series of readings and gas analyses, each value with its cell."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from footprint.base.source import Reading
from footprint.base.units import Unit
from footprint.read.site import Layout, Site


@dataclass(frozen=True, eq=False, slots=True)
class Series:
    """The readings of one meter, in the order of their dates.

    Attributes:
        tag: of the meter. [text]
        rows: daily (each day of the year), monthly (12), tickets (any number), stock (13). [text]
        dates: one a value; of a month its first day; of stock each 1st, up to 1 January. [date]
        values: as written, in `unit`; NaN where missing. Shape (number of dates,). [unit]
        unit: as the heading, the unit row or the site file names it. [unit]
        origins: the cell of each value; None where there is no cell. [readings]
    """

    tag: str
    rows: Layout
    dates: tuple[date, ...]
    values: NDArray[np.float64]
    unit: Unit
    origins: tuple[Reading | None, ...]


@dataclass(frozen=True, eq=False, slots=True)
class AnalysisSeries:
    """The analyses of one gas, in the order of their dates.

    Attributes:
        gas: name of the gas. [text]
        dates: day of each sample. [date]
        components: names of the component table, in the order of the columns. [text]
        values: mole per cent as written, shape (samples, components); NaN where missing. [mol-%]
        origins: the cell of each value, by sample and component. [readings]
    """

    gas: str
    dates: tuple[date, ...]
    components: tuple[str, ...]
    values: NDArray[np.float64]
    origins: tuple[tuple[Reading, ...], ...]


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
