"""Days and months without a reading: which are covered by a substitute, which are open."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from footprint.base.finding import Finding, Where, declare
from footprint.read.headings import Column
from footprint.read.site import Gap, Layout, Substitute

MISSING_READING = declare(
    "missing-reading",
    "stop",
    means="A day or month of the year has a row but no reading.",
    effect="a blank is never zero: the figures that need this reading can't be given",
    mend="write the reading, or add a [[gaps]] entry with a method, or a [[substitutes]] entry "
    "with a value, each with author and reason",
    example="an empty D66; mended: 184320 in D66",
)
MISSING_ROW = declare(
    "missing-row",
    "stop",
    means="Days or months of the year have no row in the table.",
    effect="the figures that need their readings can't be given",
    mend="add the rows, or add a [[gaps]] entry with a method, or a [[substitutes]] entry with a "
    "value, each with author and reason",
    example="2025-03-03 in A66 and 2025-03-05 in A67",
)
READING_SUBSTITUTED = declare(
    "reading-substituted",
    "note",
    means="A missing reading is covered by a [[substitutes]] entry of site.toml.",
    effect="the substitute is used, with its author's name beside it",
    mend="nothing, if the substitute is right",
    example="an empty D66 with a substitute for 2025-03-04",
)
SUBSTITUTE_NOT_NEEDED = declare(
    "substitute-not-needed",
    "warn",
    means="A [[substitutes]] or [[gaps]] entry covers days whose readings are there.",
    effect="the readings are used, not the substitute",
    mend="empty the cells if the readings are wrong, or shorten the entry",
    example="a substitute for 2025-03-04 while D66 holds 184320",
)


@dataclass(frozen=True, slots=True)
class Hole:
    """One or more periods in a row without a reading that no substitute covers.

    Attributes:
        column: of the table. [column]
        tag: of the meter. [text]
        days: first days of the periods. [date]
        rows: of the empty cells; where the table has no such row, of the dates around. [1]
        has_row: whether the table has rows for the periods. [flag]
    """

    column: Column
    tag: str
    days: tuple[date, ...]
    rows: tuple[int, ...]
    has_row: bool


def periods(layout: Layout, year: int) -> list[date]:
    """Return the first days of the periods that a series must hold; none for tickets.

    Args:
        layout: daily, monthly, stock or tickets. [text]
        year: of the return. [year]

    Source: definition
    """
    first = date(year, 1, 1)
    if layout == "daily":
        return [first + timedelta(days=day) for day in range((date(year + 1, 1, 1) - first).days)]
    if layout == "tickets":
        return []
    months = [date(year, month, 1) for month in range(1, 13)]
    return [*months, date(year + 1, 1, 1)] if layout == "stock" else months


def runs(
    items: Sequence[date], wanted: Sequence[date], kind: Callable[[date], object]
) -> list[list[date]]:
    """Return days that follow each other in the wanted order and are of one kind, run by run.

    Args:
        items: some of the wanted days, in order. [date]
        wanted: all days, in order. [date]
        kind: what must be equal within a run. [function]

    Source: definition
    """
    place = {day: index for index, day in enumerate(wanted)}
    found: list[list[date]] = []
    for day in items:
        if found and place[day] == place[found[-1][-1]] + 1 and kind(day) == kind(found[-1][-1]):
            found[-1].append(day)
        else:
            found.append([day])
    return found


def around(run: Sequence[date], row_of: Mapping[date, int], header_row: int) -> tuple[int, ...]:
    """Return the rows between which the rows of a run are missing.

    Args:
        run: days without a row. [date]
        row_of: row of each day that has one. [1]
        header_row: of the table. [1]

    Source: definition
    """
    before = [row for day, row in row_of.items() if day < run[0]]
    after = [row for day, row in row_of.items() if day > run[-1]]
    return (max(before, default=header_row), *([min(after)] if after else []))


def explained(
    missing: Sequence[date], wanted: Sequence[date], row_of: Mapping[date, int], refused: set[int]
) -> set[date]:
    """Return the days without a row that stand in rows whose date was refused.

    As many rows with a refused date as days are missing, between the same neighbours, are those
    days: the finding of the date says it all.

    Args:
        missing: days without a row, in order. [date]
        wanted: all days, in order. [date]
        row_of: row of each day that has one. [1]
        refused: rows whose date was refused. [1]

    Source: definition
    """
    found: set[date] = set()
    for run in runs(missing, wanted, lambda _: True):
        first, *rest = around(run, row_of, 0)
        last = rest[0] if rest else max(refused, default=0) + 1
        if sum(first < row < last for row in refused) == len(run):
            found |= set(run)
    return found


def substitute_for(entries: Iterable[Substitute | Gap], day: date) -> Substitute | Gap | None:
    """Return the entry of the site file that covers a day, if any.

    Args:
        entries: substitutes and gaps of one meter. [entries]
        day: without a reading. [date]

    Source: definition
    """
    return next((one for one in entries if one.first_day <= day <= one.last_day), None)


def span_in_words(days: Sequence[date], layout: Layout) -> str:
    """Return days or months in words, such as "2025-03-04 to 2025-03-09 (6 days)".

    Args:
        days: first days of the periods, in order. [date]
        layout: of the series. [text]

    Source: definition
    """
    shown = [f"{day:%Y-%m}" if layout == "monthly" else day.isoformat() for day in days]
    if len(days) == 1:
        return shown[0]
    noun = "months" if layout == "monthly" else "dates" if layout == "stock" else "days"
    return f"{shown[0]} to {shown[-1]} ({len(days)} {noun})"


def substituted(hole: Hole, substitute: Substitute, layout: Layout) -> Finding:
    """Return the note that a substitute covers a hole.

    Args:
        hole: that is covered. [hole]
        substitute: that covers it. [entry]
        layout: of the series. [text]

    Source: definition
    """
    column = hole.column
    span = span_in_words(hole.days, layout)
    what = f"{hole.tag}, {span}: {substitute.value:.10g} instead, by {substitute.author}"
    if hole.has_row:
        where = column.sheet.where(column.column, hole.rows, column.heading)
    else:
        where = Where(column.sheet.file, column.sheet.name, "", column.heading)
    return READING_SUBSTITUTED.at(where, what)


def needless(
    substitute: Substitute | Gap, column: Column, days: Sequence[date], layout: Layout
) -> Finding:
    """Return the warning that a substitute covers days which have readings.

    Args:
        substitute: as declared. [entry]
        column: of the readings. [column]
        days: that have readings. [date]
        layout: of the series. [text]

    Source: definition
    """
    sheet = column.sheet
    span = span_in_words(days, layout)
    what = f"{substitute.meter} has readings for {span}, which a substitute covers"
    return SUBSTITUTE_NOT_NEEDED.at(Where(sheet.file, sheet.name, "", column.heading), what)


def hole_findings(holes: Iterable[Hole], layout: Layout) -> list[Finding]:
    """Return one finding for each run of empty cells, and one for each missing row of a table.

    Args:
        holes: of all meters of one table. [holes]
        layout: of the table. [text]

    Findings:
        missing-reading, missing-row

    Source: definition
    """
    findings: list[Finding] = []
    without_row: dict[tuple[date, ...], list[Hole]] = {}
    for hole in holes:
        if not hole.has_row:
            without_row.setdefault(hole.days, []).append(hole)
            continue
        where = hole.column.sheet.where(hole.column.column, hole.rows, hole.column.heading)
        findings.append(
            MISSING_READING.at(where, f"no reading for {span_in_words(hole.days, layout)}")
        )
    for days, same in without_row.items():
        column = same[0].column
        where = column.sheet.where(column.date_column, same[0].rows, column.date_heading)
        tags = ", ".join(dict.fromkeys(hole.tag for hole in same))
        what = f"no row for {span_in_words(days, layout)}"
        findings.append(MISSING_ROW.at(where, what, why=f"no reading of {tags} can be used for it"))
    return findings
