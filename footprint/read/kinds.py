"""How a meter's column is read: by what it counts and by what its rows are."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from footprint.base.finding import Finding
from footprint.read.bills import bills_of
from footprint.read.dips import dips_of
from footprint.read.index_log import stamps
from footprint.read.indexes import index_of
from footprint.read.library import Library
from footprint.read.roles import Purpose
from footprint.read.rows import Wanted
from footprint.read.series import Result, Source, series_of
from footprint.read.site import Index, Meter
from footprint.read.tickets import tickets_of


def wanted_of(meter: Meter, year: int) -> Wanted:
    """Return what the dates of a meter's table must be.

    An index is wanted at both ends of the year; invoices may begin before it and end after it.

    Args:
        meter: as declared. [meter]
        year: of the return. [year]

    Source: definition
    """
    span = None
    if meter.counts == "index":
        written = stamps(meter.rows, year, meter.index or Index())
        span = (written[0], written[-1])
    elif meter.rows == "invoices":
        span = (date(year - 1, 1, 1), date(year + 1, 12, 31))
    return Wanted(meter.rows, year, meter.date_order, span)


def result_of(
    source: Source, library: Library, purposes: Sequence[Purpose]
) -> Result | list[Finding]:
    """Return the series of a meter, or why it is not read.

    Args:
        source: where its readings stand, and what they must be. [source]
        library: the files of the site. [library]
        purposes: roles and uses of the meter. [text]

    Findings:
        the codes of `series`, `indexes`, `tickets`, `bills` and `dips`.

    Source: definition
    """
    meter = source.meter
    if meter.counts == "index":
        return index_of(source)
    if meter.rows == "tickets":
        return tickets_of(source)
    if meter.rows == "invoices":
        return bills_of(source)
    if meter.dips is not None:
        return dips_of(source, library, purposes)
    return series_of(source)
