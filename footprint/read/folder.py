"""Reading a site folder: the site file, then every file it names, each once."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from footprint.base.finding import Finding, declare
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
from footprint.read.day_starts import day_starts_told
from footprint.read.fault import merged_findings
from footprint.read.headings import Column
from footprint.read.holes import hole_findings
from footprint.read.kinds import result_of
from footprint.read.library import Library
from footprint.read.places import sheet_of_analysis
from footprint.read.purposes import purposes_of
from footprint.read.readings import AnalysisSeries, InputFile, Readings, Series
from footprint.read.role_needs import needs_of_unit, place_of
from footprint.read.rows import Rows, rows_of
from footprint.read.series import Result, Source
from footprint.read.shapes import shaped
from footprint.read.sheet import Book
from footprint.read.site import Meter, Site
from footprint.read.site_file import SITE_FILE, parse_site
from footprint.read.statuses import settled
from footprint.read.tables import Table, tables_of
from footprint.read.totals import totals_checked

HIDDEN_ROWS_READ = declare(
    "hidden-rows-read",
    "note",
    means="Rows or columns that are hidden or filtered out hold readings.",
    effect="they count like the others",
    mend="nothing, or show them and look whether they should count",
    example="rows 40 to 45 hidden by a filter",
)


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
    tables, findings = tables_of(reader.site, reader.library)
    _add(reader, findings)
    for table in tables:
        _read_table(reader, table)
    _ask_for_what_units_need(reader)


def _add(reader: _Reader, findings: list[Finding]) -> None:
    """Keep findings, each once: meters of one sheet share its faults."""
    reader.findings += [one for one in dict.fromkeys(findings) if one not in reader.findings]


def _read_table(reader: _Reader, table: Table) -> None:
    """Read the columns of one table and report its faults once."""
    first, column = table.meters[0]
    every = [one for _, one in table.meters]
    rows = rows_of(column, [one.column for one in every], table.wanted)
    if table.is_first:
        reader.left_out.setdefault(column.sheet.file, Counter()).update(rows.left_out)
    _add(reader, [*merged_findings(rows.faults), *_hidden(rows, every)])
    if first.status_column:
        settling = settled(first, column, rows)
        _add(reader, settling.findings)
        if settling.rows is None:
            return
        rows = settling.rows
    _add(reader, day_starts_told(first, column))
    by_day = shaped(table.meters, rows, reader.site)
    _add(reader, by_day.findings)
    results = [
        result
        for meter, one in by_day.meters
        if (result := _series(reader, meter, one, by_day.rows)) is not None
    ]
    holes = [hole for result in results for hole in result.holes]
    _add(
        reader, hole_findings(holes, "daily" if first.rows in ("hourly", "weekly") else first.rows)
    )


def _series(reader: _Reader, meter: Meter, column: Column, rows: Rows) -> Result | None:
    """Read the series of one meter, or None where its unit is refused."""
    site = reader.site
    purposes = purposes_of(site, meter.tag)
    of_column = [] if meter.dips else purposes  # a tank read as a level is in metres
    is_rate = meter.counts == "rate"
    metered, findings = unit_of(column, meter.unit, of_column, is_rate=is_rate)
    _add(reader, findings)
    if metered is None:
        return None
    _add(reader, _accuracy(site, meter, metered))
    source = Source(
        meter, column, rows, metered, of_column, site.stand_ins(meter.tag), site.works.year
    )
    result = result_of(source, reader.library, purposes)
    if not isinstance(result, Result):
        _add(reader, result)
        return None
    totals = totals_checked(column, rows) if meter.counts == "amount" else []
    _add(reader, merged_findings([*result.faults, *totals]))
    _add(reader, result.findings)
    reader.series[meter.tag] = result.series
    return result


def _accuracy(site: Site, meter: Meter, metered: Unit) -> list[Finding]:
    """Return a finding where an uncertainty is stated in a unit that the meter does not read."""
    devices = [device for tag in meter.devices if (device := site.device(tag)) is not None]
    texts = [("uncertainty", meter.uncertainty), ("repeatability", meter.repeatability)]
    texts += [(f"devices > {device.tag}", device.uncertainty) for device in devices]
    findings: list[Finding] = []
    for key, text in texts:
        stated = accuracy_of(text) if text else None
        if not isinstance(stated, Accuracy) or meter.dips is not None:
            continue
        if any(part.unit and standard_in(part, metered) is None for part in stated.parts):
            where = place_of("meters", site.meters.index(meter), meter.tag, key)
            what = f'"{text}" is in another unit than the readings, {label(metered)}'
            findings.append(UNCLEAR_UNCERTAINTY.at(where, what))
    return findings


def _hidden(rows: Rows, columns: list[Column]) -> list[Finding]:
    """Return notes on hidden rows and columns that hold readings."""
    sheet = columns[0].sheet
    hidden = [row for row in rows.days if row in sheet.hidden_rows]
    findings: list[Finding] = []
    if hidden:
        where = sheet.where(columns[0].date_column, hidden, columns[0].date_heading)
        what = f"hidden {'columns' if sheet.is_turned else 'rows'} hold readings"
        findings.append(HIDDEN_ROWS_READ.at(where, what))
    for column in columns:
        if column.column in sheet.hidden_columns:
            where = sheet.where(column.column, [column.header_row], column.heading)
            line = "row" if sheet.is_turned else "column"
            what = f'the {line} "{column.heading}" is hidden'
            findings.append(HIDDEN_ROWS_READ.at(where, what))
    return findings


def _ask_for_what_units_need(reader: _Reader) -> None:
    """Ask for the keys that a stream needs because of the unit of its meter."""
    for index, stream in enumerate(reader.site.streams):
        series = reader.series.get(stream.meter)
        needed = needs_of_unit(index, stream, series.amount_unit) if series else None
        if needed:
            reader.findings.append(needed)


def _read_analyses(reader: _Reader) -> None:
    """Read the analyses of all gases."""
    for analysis in reader.site.analyses:
        is_named = all(name_of(component) for component in analysis.components.values())
        sheet, findings = sheet_of_analysis(reader.library, analysis) if is_named else (None, [])
        _add(reader, findings)
        if sheet is None:
            continue
        series, rows, findings = analysis_of(sheet, analysis, reader.site.works.year)
        reader.left_out.setdefault(sheet.file, Counter()).update(rows.left_out)
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
