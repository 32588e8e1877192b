"""Reading a site folder: the site file, then every file it names, each once."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from footprint.base.finding import Finding, Where, declare
from footprint.base.units import Unit, label
from footprint.gas.names import name_of
from footprint.read.accuracy_words import (
    UNCLEAR_UNCERTAINTY,
    Accuracy,
    accuracy_of,
    standard_in,
)
from footprint.read.analyses import analysis_of
from footprint.read.column_units import unit_of
from footprint.read.components import is_analysis
from footprint.read.fault import cells_in_words, merged_findings
from footprint.read.headings import Column, locate
from footprint.read.holes import hole_findings
from footprint.read.library import Library, sheet_of
from footprint.read.readings import AnalysisSeries, InputFile, Readings, Series
from footprint.read.role_needs import needs_of_unit, place_of
from footprint.read.roles import Purpose
from footprint.read.rows import Rows, Wanted, rows_of
from footprint.read.series import Result, Source, series_of
from footprint.read.sheet import Book, Sheet, address_of
from footprint.read.site import Meter, Site
from footprint.read.site_file import SITE_FILE, parse_site
from footprint.read.totals import totals_checked

HIDDEN_ROWS_READ = declare(
    "hidden-rows-read",
    "note",
    means="Rows or columns that are hidden or filtered out hold readings.",
    effect="they count like the others",
    mend="nothing, or show them and look whether they should count",
    example="rows 40 to 45 hidden by a filter",
)

TableKey = tuple[str, str, int, int, str, str | None]


@dataclass(eq=False, slots=True)
class _Reader:
    """What is known while a folder is read."""

    site: Site
    library: Library
    findings: list[Finding] = field(default_factory=list)
    series: dict[str, Series] = field(default_factory=dict)
    analyses: dict[str, AnalysisSeries] = field(default_factory=dict)
    left_out: dict[str, Counter[str]] = field(default_factory=dict)


def read(folder: Path) -> tuple[Readings | None, list[Finding]]:
    """Return all that is written in a site folder, and everything that is wrong with it.

    Readings are None where the site file must be mended first or a file that is there can't be
    opened. A missing file, or a column that can't be found or understood, leaves its meters and
    gases without an entry; a cell that can't be read is NaN.

    Args:
        folder: that holds site.toml and the files it names. [path]

    Findings:
        the codes of all modules of this package.

    Source: definition
    """
    site, findings = parse_site(folder)
    if site is None:
        return None, findings
    reader = _Reader(site, Library(folder))
    _read_meters(reader)
    _read_analyses(reader)
    findings = [*findings, *reader.library.findings, *reader.findings]
    slips = [one for one in findings if one.where.file == SITE_FILE and one.level == "stop"]
    if slips or reader.library.is_nothing_open or reader.library.has_unreadable:
        return None, findings
    return Readings(site, reader.series, reader.analyses, _files(reader)), findings


def _read_meters(reader: _Reader) -> None:
    """Read the series of all meters, table by table."""
    tables: dict[TableKey, list[tuple[Meter, Column]]] = {}
    for meter in reader.site.meters:
        column = _column_of(reader, meter)
        if column is not None:
            place = (column.sheet.file, column.sheet.name, column.header_row, column.date_column)
            tables.setdefault((*place, meter.rows, meter.date_order), []).append((meter, column))
    for meters in tables.values():
        _read_table(reader, meters)
    _ask_for_what_units_need(reader)


def _column_of(reader: _Reader, meter: Meter) -> Column | None:
    """Return where a meter's readings stand, or None with a finding."""
    book = reader.library.book(meter.file)
    if book is None:
        return None
    sheet, findings = sheet_of(book, meter, partial(_has_column, meter))
    _add(reader, findings)
    if sheet is None:
        return None
    column = locate(sheet, meter.date_column, meter.column)
    if isinstance(column, Finding):
        _add(reader, [column])
        return None
    return column


def _has_column(meter: Meter, sheet: Sheet) -> bool:
    """Return whether a sheet has the columns of a meter."""
    return isinstance(locate(sheet, meter.date_column, meter.column), Column)


def _add(reader: _Reader, findings: list[Finding]) -> None:
    """Keep findings, each once: meters of one sheet share its faults."""
    reader.findings += [one for one in findings if one not in reader.findings]


def _read_table(reader: _Reader, meters: list[tuple[Meter, Column]]) -> None:
    """Read the columns of one table and report its faults once."""
    first, column = meters[0]
    unit_row = max((one.unit_row or 0 for _, one in meters), default=0) or None
    column = replace(column, unit_row=unit_row)
    year = reader.site.works.year
    columns = [one.column for _, one in meters]
    rows = rows_of(column, columns, Wanted(first.rows, year, first.date_order))
    reader.left_out.setdefault(column.sheet.file, Counter()).update(rows.left_out)
    _add(reader, merged_findings(rows.faults))
    _add(reader, _hidden(rows, [one for _, one in meters]))
    results = [
        result for meter, one in meters if (result := _series(reader, meter, one, rows)) is not None
    ]
    holes = [hole for result in results for hole in result.holes]
    _add(reader, hole_findings(holes, first.rows))


def _series(reader: _Reader, meter: Meter, column: Column, rows: Rows) -> Result | None:
    """Read the series of one meter, or None where its unit is refused."""
    site = reader.site
    purposes = purposes_of(site, meter.tag)
    metered, findings = unit_of(column, meter.unit, purposes)
    _add(reader, findings)
    if metered is None:
        return None
    _add(reader, _accuracy(site, meter, metered))
    substitutes = [one for one in site.substitutes if one.meter == meter.tag]
    result = series_of(Source(meter, column, rows, metered, purposes, substitutes, site.works.year))
    _add(reader, merged_findings([*result.faults, *totals_checked(column, rows)]))
    _add(reader, result.findings)
    reader.series[meter.tag] = result.series
    return result


def _accuracy(site: Site, meter: Meter, metered: Unit) -> list[Finding]:
    """Return a finding where an uncertainty is stated in a unit that the meter does not read."""
    stated = accuracy_of(meter.uncertainty) if meter.uncertainty else None
    if not isinstance(stated, Accuracy) or stated.unit is None:
        return []
    if standard_in(stated, metered) is not None:
        return []
    where = place_of("meters", site.meters.index(meter), meter.tag, "uncertainty")
    what = f'"{meter.uncertainty}" is in another unit than the readings, {label(metered)}'
    return [UNCLEAR_UNCERTAINTY.at(where, what)]


def purposes_of(site: Site, tag: str) -> list[Purpose]:
    """Return the roles and uses of a meter, each once.

    Args:
        site: as declared. [site]
        tag: of the meter. [text]

    Source: definition
    """
    purposes: list[Purpose] = []
    for stream in site.streams:
        named: list[tuple[str | None, Purpose]] = [
            (stream.meter, stream.role),
            (stream.purity, "purity"),
            (stream.nitrogen, "nitrogen content"),
            (stream.water.temperature if stream.water else None, "gas temperature"),
            (stream.water.pressure if stream.water else None, "gas pressure"),
        ]
        purposes += [purpose for name, purpose in named if name == tag]
    return list(dict.fromkeys(purposes))


def _hidden(rows: Rows, columns: list[Column]) -> list[Finding]:
    """Return notes on hidden rows and columns that hold readings."""
    sheet = columns[0].sheet
    hidden = [row for row in rows.days if row in sheet.hidden_rows]
    findings: list[Finding] = []
    if hidden:
        cells = cells_in_words(columns[0].date_column, hidden)
        where = Where(sheet.file, sheet.name, cells, columns[0].date_heading)
        findings.append(HIDDEN_ROWS_READ.at(where, "hidden rows hold readings"))
    for column in columns:
        if column.column in sheet.hidden_columns:
            cell = address_of(column.header_row, column.column)
            where = Where(sheet.file, sheet.name, cell, column.heading)
            findings.append(HIDDEN_ROWS_READ.at(where, f'the column "{column.heading}" is hidden'))
    return findings


def _ask_for_what_units_need(reader: _Reader) -> None:
    """Ask for the keys that a stream needs because of the unit of its meter."""
    for index, stream in enumerate(reader.site.streams):
        series = reader.series.get(stream.meter)
        needed = needs_of_unit(index, stream, series.unit) if series else None
        if needed:
            reader.findings.append(needed)


def _read_analyses(reader: _Reader) -> None:
    """Read the analyses of all gases."""
    for analysis in reader.site.analyses:
        book = reader.library.book(analysis.file)
        is_named = all(name_of(component) for component in analysis.components.values())
        if book is None or not is_named:
            continue
        sheet, findings = sheet_of(book, analysis, partial(is_analysis, analysis))
        _add(reader, findings)
        if sheet is None:
            continue
        series, rows, findings = analysis_of(sheet, analysis, reader.site.works.year)
        reader.left_out.setdefault(book.name, Counter()).update(rows.left_out)
        _add(reader, findings)
        if series is not None:
            reader.analyses[analysis.gas] = series


def _files(reader: _Reader) -> tuple[InputFile, ...]:
    """Return the files that were read, their fingerprints and how many readings each gave."""
    counts: Counter[str] = Counter()
    for series in reader.series.values():
        counts.update(one.file for one in series.origins if one is not None)
    for analysis in reader.analyses.values():
        counts.update(one.file for sample in analysis.origins for one in sample)
    return tuple(
        InputFile(
            name,
            book.size,
            book.sha256,
            tuple(sheet.name for sheet in book.sheets if sheet.name),
            counts[name],
            _left_out_in_words(book, reader.left_out.get(name, Counter())),
        )
        for name, book in reader.library.books.items()
        if book is not None
    )


def _left_out_in_words(book: Book, left_out: Counter[str]) -> str:
    """Return what of a file was not used, such as "1 row of totals, 2 hidden sheets"."""
    counts = Counter(left_out)
    counts["hidden sheet"] = sum(sheet.is_hidden for sheet in book.sheets)
    plural = {"row of totals": "rows of totals", "row of another year": "rows of another year"}
    return ", ".join(
        f"{count} {what if count == 1 else plural.get(what, what + 's')}"
        for what, count in counts.items()
        if count
    )
