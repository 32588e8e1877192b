"""The places of one series: one sheet, or all sheets and files that a pattern stands for."""

from __future__ import annotations

import re
from collections.abc import Callable

from footprint.base.finding import Finding, Where, declare
from footprint.read.components import component_of
from footprint.read.headings import (
    MISSING_COLUMN,
    Column,
    headings_in,
    locate,
    locate_any,
)
from footprint.read.joined import joined, part_of
from footprint.read.library import (
    HIDDEN_SHEET_LEFT_OUT,
    MISSING_SHEET,
    Library,
    is_fitting_name,
    sheet_of,
)
from footprint.read.nearest import nearest
from footprint.read.sheet import Book, Sheet
from footprint.read.site import Analysis, Source

_ROW = re.compile(r"row (?P<row>[0-9]+)", re.IGNORECASE)

SHEET_PASSED_OVER = declare(
    "sheet-passed-over",
    "note",
    means="A sheet fits the pattern in site.toml, but has none of the headings sought.",
    effect="it was taken for a cover or a summary and is not read",
    mend="nothing, if it holds no readings; else mend its headings",
    example='a sheet "Cover" beside twelve months where sheet = "*"',
)

COMPONENTS_DIFFER = declare(
    "components-differ",
    "stop",
    means="The sheets of one gas's analyses do not all have the same components.",
    effect="a component without a column is not zero: the samples can't stand in one series",
    mend="give every sheet the same headings, with 0 where a component was not found",
    example="CO2 in laboratory_01.xlsx and not in laboratory_02.xlsx",
)

Finder = Callable[[Sheet], Column | Finding]


def finder_of(source: Source, wanted: str) -> Finder:
    """Return what finds a heading in a sheet that is read the way its entry says.

    Args:
        source: the entry, with the heading of the dates. [entry]
        wanted: heading of the values. [text]

    Source: definition
    """
    numbered = _ROW.fullmatch(source.date_column.strip()) if source.across else None
    if numbered:
        return lambda sheet: locate(sheet, int(numbered["row"]), wanted)
    return lambda sheet: locate(sheet, source.date_column, wanted)


def columns_of(
    library: Library, source: Source, find: Finder
) -> tuple[list[Column], list[Finding]]:
    """Return where a series stands, one column a sheet; none where one of them is not found.

    Args:
        library: the files of the site. [files]
        source: the entry of the site file. [entry]
        find: the column in a sheet, or what is missing. [function]

    Findings:
        missing-file, missing-sheet, missing-column, sheet-passed-over and those of `library`.

    Source: definition
    """
    columns: list[Column] = []
    findings: list[Finding] = []
    is_broken = False
    for name in library.names(source.file):
        book = library.book(name)
        sheets, told = _sheets(library, book, source, find) if book else ([], [])
        findings += told
        is_broken = is_broken or not sheets
        for sheet in sheets:
            found = find(sheet)
            if isinstance(found, Finding):
                findings.append(found)
                is_broken = True
            else:
                columns.append(found)
    return ([] if is_broken else columns), findings


def sheet_of_analysis(library: Library, analysis: Analysis) -> tuple[Sheet | None, list[Finding]]:
    """Return the sheet of a gas's analyses, joined where they stand in several.

    Args:
        library: the files of the site. [files]
        analysis: the entry of the site file. [entry]

    Findings:
        components-differ and those of `columns_of`.

    Source: definition
    """

    def find(sheet: Sheet) -> Column | Finding:
        found = locate_any(
            sheet, analysis.date_column, lambda text: component_of(text, analysis) is not None
        )
        where = Where(sheet.file, sheet.name)
        what = f'no heading is a known component of "{analysis.gas}"'
        return found or MISSING_COLUMN.at(where, what)

    is_pattern = "*" in analysis.file or "*" in (analysis.sheet or "")
    if not is_pattern:
        book = library.book(analysis.file)
        sheets, findings = _sheets(library, book, analysis, find) if book else ([], [])
        return (sheets[0] if sheets else None), findings
    columns, findings = columns_of(library, analysis, find)
    if not columns:
        return None, findings
    differing = _components_differing(columns, analysis)
    if differing:
        return None, [*findings, differing]
    return joined([part_of([one]) for one in columns]), findings


def _components_differing(columns: list[Column], analysis: Analysis) -> Finding | None:
    """Return the finding of a sheet with another set of components than the first."""
    known = [_components(one, analysis) for one in columns]
    for column, names in zip(columns, known, strict=True):
        if names != known[0]:
            listed = ", ".join(sorted(names ^ known[0]))
            first = columns[0].sheet.where(columns[0].date_column, [columns[0].header_row])
            where = column.sheet.where(column.date_column, [column.header_row])
            what = f"{listed}: in this sheet or in {first.words}, but not in both"
            return COMPONENTS_DIFFER.at(where, what)
    return None


def _components(column: Column, analysis: Analysis) -> set[str]:
    """Return the components that the headings of a sheet name."""
    headings = headings_in(column.sheet, column.header_row)
    named = (component_of(str(cell.value), analysis) for _, cell in headings)
    return {name for name in named if name}


def _sheets(
    library: Library, book: Book, source: Source, find: Finder
) -> tuple[list[Sheet], list[Finding]]:
    """Return the sheets of one file that hold a part of the series, the way they are read."""

    def is_fitting(sheet: Sheet) -> bool:
        return isinstance(find(library.as_read(sheet, is_across=source.across)), Column)

    if book.is_text or source.sheet is None or "*" not in source.sheet:
        sheet, findings = sheet_of(book, source, is_fitting)
        found = [library.as_read(sheet, is_across=source.across)] if sheet else []
        return found, findings
    named = [one for one in book.sheets if is_fitting_name(one.name, source.sheet)]
    visible = [library.as_read(one, is_across=source.across) for one in named if not one.is_hidden]
    findings = [
        HIDDEN_SHEET_LEFT_OUT.at(
            Where(one.file, one.name), f'hidden sheet "{one.name}" is not read'
        )
        for one in named
        if one.is_hidden
    ]
    if not visible:
        return [], [*findings, _no_sheet(book, source.sheet)]
    return _with_headings(visible, find, findings)


def _no_sheet(book: Book, pattern: str) -> Finding:
    """Return the finding of a pattern that no sheet fits, with the nearest."""
    near = nearest(pattern, [one.name for one in book.sheets])
    mend = f'mend the pattern; the nearest sheet is "{near}"' if near else ""
    return MISSING_SHEET.at(Where(book.name), f'no sheet fits "{pattern}"', mend=mend)


def _with_headings(
    visible: list[Sheet], find: Finder, findings: list[Finding]
) -> tuple[list[Sheet], list[Finding]]:
    """Return the sheets that hold anything sought; a sheet with a part of it is not passed over."""
    found = [(sheet, find(sheet)) for sheet in visible]
    bare = [sheet for sheet, one in found if isinstance(one, Finding) and _is_without(one, sheet)]
    if len(bare) == len(visible):
        return visible, findings
    findings = findings + [
        SHEET_PASSED_OVER.at(Where(one.file, one.name), f'sheet "{one.name}" has no such headings')
        for one in bare
    ]
    return [sheet for sheet in visible if sheet not in bare], findings


def _is_without(finding: Finding, sheet: Sheet) -> bool:
    """Return whether a sheet has neither heading, so that the finding names no row of headings."""
    return finding.code == "missing-column" and finding.where == Where(sheet.file, sheet.name)
