"""Gives places to rows over months and to single figures: pages, checks, steps."""

from __future__ import annotations

from collections.abc import Iterable

from footprint.base.axis import Axis
from footprint.base.line import Line, Page
from footprint.base.listing import Listing
from footprint.base.row import Row
from footprint.base.spelling import Names
from footprint.report.layout import CHECKS, STEPS, BlockPlace, Layout
from footprint.report.lineage import Side
from footprint.report.places import LayoutError, Place
from footprint.report.plan import (
    JANUARY,
    YEAR,
    Entry,
    Heading,
    ListedBars,
    ListedLine,
    ListSheet,
    MonthSheet,
    Note,
    Tested,
    rows_of_bars,
)

CHECKS_QUESTION = (
    "Does each figure lie where chemistry, practice and the works' own past say it should?"
)
STEPS_QUESTION = "Which steps lie between the readings and the figures on the other sheets?"


def place_pages(layout: Layout) -> None:
    """Give every line of every page its place, in the order of the pages.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    for page in layout.book.pages:
        made = _listing(layout, page) if isinstance(page, Listing) else _page(layout, page)
        layout.pages.append(made)


def _listing(layout: Layout, listing: Listing) -> ListSheet:
    sheet = ListSheet(listing)
    for part in listing.parts:
        for kind, text in ((Heading, part.title), (Note, part.note)):
            if text:
                sheet.parts.append(kind(sheet.next_row, text))
                sheet.next_row += 1
        first = sheet.next_row
        for cells in part.lines:
            sheet.parts.append(ListedLine(sheet.next_row, cells))
            for column, cell in enumerate(cells):
                if isinstance(cell, Row) and not _stands_with_its_source(cell):
                    layout.put(cell, Place(sheet.name, sheet.next_row, column))
            sheet.next_row += 1
        if part.bars is not None:
            at = sheet.next_row + 1
            sheet.parts.append(ListedBars(at, first + part.bars.first, part.bars))
            sheet.next_row = at + rows_of_bars(part.bars)
        sheet.next_row += 1
    return sheet


def _page(layout: Layout, page: Page) -> MonthSheet:
    sheet = MonthSheet(page.name, page.question)
    for section in page.sections:
        _head(sheet, section.title, section.note)
        for line in section.lines:
            _add(layout, sheet, *_parted(layout, line), is_total=line.is_total)
        sheet.next_row += 1
    return sheet


def _head(sheet: MonthSheet, title: str, note: str = "") -> None:
    for part, text in ((Heading, title), (Note, note)):
        if text:
            sheet.parts.append(part(sheet.next_row, text))
            sheet.next_row += 1


def _parted(layout: Layout, line: Line) -> tuple[Row | None, Row | None]:
    """Return what stands in the months and in the year, which is found by its key."""
    months, year = line.months, line.year
    if months is not None and months.axis.kind == "once":
        months, year = None, months
    if months is not None and months.axis.kind != "months":
        raise LayoutError(f"{months.key} runs over {months.axis.words} and fits no line of months")
    return months, year if year is not None else _year_of(layout, months)


def _year_of(layout: Layout, months: Row | None) -> Row | None:
    if months is None:
        return None
    wanted = f"{months.key}/year"
    return next((row for row in layout.lineage.users.get(months, ()) if row.key == wanted), None)


def _add(
    layout: Layout,
    sheet: MonthSheet,
    months: Row | None,
    year: Row | None,
    *,
    is_total: bool = False,
) -> None:
    at = sheet.next_row
    sheet.parts.append(Entry(at, months, year, is_total))
    sheet.next_row += 1
    if months is not None and months.axis.kind == "months":
        layout.put(months, Place(sheet.name, at, JANUARY, "across"))
    if year is not None and not _stands_with_its_source(year):
        layout.put(year, Place(sheet.name, at, YEAR))


def _stands_with_its_source(row: Row) -> bool:
    """Return whether a single value stands elsewhere with its source, and is referred to."""
    is_sourced = row.is_leaf and any(origin is not None for origin in row.origins)
    return row.axis.kind == "once" and (is_sourced or row.op == "FROZEN")


def place_checks(layout: Layout) -> None:
    """Give every figure tested and every outcome its place, where no page shows it.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    sheet = layout.checks = MonthSheet(CHECKS, CHECKS_QUESTION)
    for check in layout.book.checks:
        sheet.parts.append(Tested(sheet.next_row, check))
        for row in (check.value, check.outcome):
            if row.axis.kind == "months":
                layout.put(row, Place(CHECKS, sheet.next_row, JANUARY, "across"))
            elif not _stands_with_its_source(row):
                layout.put(row, Place(CHECKS, sheet.next_row, YEAR))
            sheet.next_row += 1


def place_steps(layout: Layout) -> None:
    """Give a place to all rows over months and single figures that have none yet.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    sheet = MonthSheet(STEPS, STEPS_QUESTION)
    for use in layout.lineage.blocks:
        for side in use.sides:
            if use.axis.kind == "months" and (side, use.axis) not in layout.blocks:
                layout.blocks[side, use.axis] = _run_of(layout, side) or _new_run(
                    layout, sheet, side, use.axis
                )
    waiting = [row for row in layout.lineage.rows if row not in layout.places]
    waiting = [row for row in waiting if row.axis.kind in {"months", "once"}]
    for stream in dict.fromkeys(stream_of(row) for row in waiting):
        _place_stream(layout, sheet, stream, [row for row in waiting if stream_of(row) == stream])
    if sheet.parts:
        layout.pages.append(sheet)


def _place_stream(layout: Layout, sheet: MonthSheet, stream: str, rows: Iterable[Row]) -> None:
    _head(sheet, stream)
    for row in rows:
        if row in layout.places:  # the year's figure beside its months
            continue
        if row.axis.kind == "months":
            year = _year_of(layout, row)
            _add(
                layout, sheet, row, year if year is not None and year not in layout.places else None
            )
        else:
            _add(layout, sheet, None, row)
    sheet.next_row += 1


def stream_of(row: Row) -> str:
    """Return the stream or topic that the key of a row names.

    Args:
        row: a named row. [row]

    Source: definition
    """
    parts = row.key.split("/")
    return parts[1] if len(parts) > 1 else parts[0]


def _run_of(layout: Layout, side: Side) -> BlockPlace | None:
    """Return the cells of a block whose rows stand one below the other already."""
    places = [layout.places.get(row) for row in side]
    first = places[0]
    if first is None or first.runs == "down":
        return None
    for offset, place in enumerate(places):
        if place != Place(first.sheet, first.row + offset, first.column, first.runs):
            return None
    return BlockPlace(
        first.sheet,
        first.row,
        first.column,
        len(side),
        is_upright=True,
        runs=first.runs == "across",
    )


def _new_run(layout: Layout, sheet: MonthSheet, side: Side, axis: Axis) -> BlockPlace:
    _head(sheet, Names().block(side, 0))
    runs = any(row.axis == axis for row in side)
    first = sheet.next_row
    for row in side:
        _add(layout, sheet, row if runs else None, None if runs else row)
    sheet.next_row += 1
    return BlockPlace(
        sheet.name, first, JANUARY if runs else YEAR, len(side), is_upright=True, runs=runs
    )
