"""Faults of tables in other shapes: many files or sheets, across, hours, weeks, status."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from tests.findings.case import Case, all_of
from tests.findings.site_folder import YEAR, SiteFolder

HOURS = [datetime(YEAR, 1, 1) + timedelta(hours=hour) for hour in range(8760)]  # noqa: DTZ001
WEEKS = [datetime(YEAR - 1, 12, 30) + timedelta(days=7 * week) for week in range(53)]  # noqa: DTZ001
STAMPS = 'feed.csv > {cell} (column "Date")'
FEED = 'feed.csv > {cell} (column "Feed gas (Nm3)")'


def berlin() -> list[datetime]:
    """Return the hours of the year on the wall in Berlin, one of them twice."""
    first = datetime(YEAR, 1, 1, tzinfo=ZoneInfo("Europe/Berlin")).timestamp()
    zone = ZoneInfo("Europe/Berlin")
    moments = (datetime.fromtimestamp(first + 3600 * hour, zone) for hour in range(8760))
    return [moment.replace(tzinfo=None, fold=0) for moment in moments]


def by_month(folder: SiteFolder) -> None:
    """Give each month of the gas meters a file of its own."""
    rows = folder.books["meters.xlsx"].pop("Gas")
    for month in range(1, 13):
        part = [row for row in rows[3:] if row[0].month == month]
        folder.books[f"gas_{month:02d}.xlsx"] = {"Gas": [*rows[:3], *part]}
    for tag in ("FT-1", "FT-2"):
        folder.meter(tag)["file"] = "gas_*.xlsx"


def sheet_by_month(folder: SiteFolder) -> None:
    """Give each month of the gas meters a sheet of its own, behind a cover."""
    rows = folder.books["meters.xlsx"].pop("Gas")
    folder.books["gas.xlsx"] = {"Cover": [["Gas meters"]]}
    for month in range(1, 13):
        part = [row for row in rows[3:] if row[0].month == month]
        folder.books["gas.xlsx"][f"Month {month}"] = [*rows[:3], *part]
    for tag in ("FT-1", "FT-2"):
        folder.meter(tag).update(file="gas.xlsx", sheet="*")


def text_rows(
    layout: str, dates: list[str], values: list[Any] | None = None, **keys: Any
) -> Callable[[SiteFolder], None]:
    """Return a change that gives the feed meter a text table of hours, weeks or days."""

    def change(folder: SiteFolder) -> None:
        amounts = values or [100] * len(dates)
        lines = [f"{day};{amount}" for day, amount in zip(dates, amounts, strict=True)]
        folder.use_text(["Date;Feed gas (Nm3)", *lines])
        folder.meter("FT-1").update(rows=layout, **keys)

    return change


def written(hours: list[datetime]) -> list[str]:
    """Return stamps as text."""
    return [f"{hour:%Y-%m-%d %H:%M}" for hour in hours]


def with_status(changes: dict[int, list[Any]], more: list[list[Any]]) -> Any:
    """Return a change that adds a column of status to the gas sheet; all are final but some."""

    def change(folder: SiteFolder) -> None:
        rows = folder.sheet("Gas")
        rows[2].append("Status")
        for row in rows[3:]:
            row.append("final")
        for number, values in changes.items():
            rows[number - 1][1:] = values
        rows.extend([rows[number - 1][0], *values] for number, *values in more)
        for tag in ("FT-1", "FT-2"):
            folder.meter(tag)["status_column"] = "Status"

    return change


def days_across(folder: SiteFolder) -> None:
    """Turn the gas sheet, so that the days run across."""
    rows = folder.sheet("Gas")
    width = max(len(row) for row in rows)
    full = [[*row, *[None] * (width - len(row))] for row in rows]
    folder.books["meters.xlsx"]["Gas"] = [list(line) for line in zip(*full, strict=True)]
    for tag in ("FT-1", "FT-2"):
        folder.meter(tag)["across"] = True


def meter(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change of the feed meter's entry."""
    return lambda folder: folder.meter("FT-1").update(keys)


def cell(name: str, sheet: str, row: int, values: list[Any]) -> Callable[[SiteFolder], None]:
    """Return a change of a row of a sheet in a book, counted from 1; an empty list removes it."""

    def change(folder: SiteFolder) -> None:
        rows = folder.books[name][sheet]
        rows[row - 1 : row] = [values] if values else []

    return change


def laboratory_by_half(folder: SiteFolder) -> None:
    """Give the analyses two files, the second with a column more."""
    rows = folder.books.pop("laboratory.xlsx")["Natural gas"]
    folder.books["laboratory_1.xlsx"] = {"Natural gas": rows[:8]}
    later = [[*row, 0.0] for row in rows[8:]]
    folder.books["laboratory_2.xlsx"] = {"Natural gas": [*rows[:2], [*rows[2], "H2"], *later]}
    folder.site["analyses"][0]["file"] = "laboratory_*.xlsx"


def bare_months(folder: SiteFolder) -> None:
    """Write the months of the power meter without their year."""
    for row in folder.sheet("Power")[3:]:
        row[0] = f"{row[0]:%B}"


HOURLY = written(HOURS)
WEEKLY = [f"{week:%Y-%m-%d}" for week in WEEKS]
SPLIT = (
    "week-across-months",
    FEED.format(cell="B2, B6, B10, B15 and 7 more"),
    "FT-1: 11 weeks cross the end of a month and are split by days",
)

SHAPE_CASES = [
    Case(
        "missing-file",
        meter(file="gas_2052-*.xlsx"),
        "gas_2052-*.xlsx",
        'no file fits "gas_2052-*.xlsx"',
    ),
    Case("missing-sheet", meter(sheet="Gass*"), "meters.xlsx", 'no sheet fits "Gass*"'),
    Case(
        "sheet-passed-over",
        sheet_by_month,
        "gas.xlsx > Cover",
        'sheet "Cover" has no such headings',
    ),
    Case(
        "repeated-date",
        all_of(by_month, cell("gas_03.xlsx", "Gas", 4, [datetime(YEAR, 2, 28), 5, 6])),  # noqa: DTZ001
        'gas_03.xlsx > Gas > A4 (column "Date")',
        "a date stands also in gas_02.xlsx > Gas > A31",
        also=("missing-row",),
    ),
    Case(
        "missing-row",
        all_of(by_month, cell("gas_06.xlsx", "Gas", 33, []), cell("gas_07.xlsx", "Gas", 4, [])),
        'gas_06.xlsx > Gas > A32 and gas_07.xlsx > Gas > A4 (column "Date")',
        "no row for 2025-06-30 to 2025-07-01 (2 days)",
    ),
    Case(
        "units-disagree",
        all_of(
            by_month,
            cell("gas_03.xlsx", "Gas", 3, ["Date", "Feed gas (kNm3)", "Fuel gas (Nm3)"]),
        ),
        'gas_03.xlsx > Gas > B3 (column "Feed gas (kNm3)")',
        'the heading says "kNm3", but "Nm3" in gas_01.xlsx > Gas > B3',
    ),
    Case(
        "components-differ",
        laboratory_by_half,
        "laboratory_2.xlsx > Natural gas > A3",
        "hydrogen: in this sheet or in laboratory_1.xlsx > Natural gas > A3, but not in both",
    ),
    Case(
        "text-in-number-cell",
        all_of(days_across, lambda folder: folder.sheet("Gas")[1].__setitem__(6, "n/a")),
        "meters.xlsx > Gas > G2",
        '"n/a" is not a number',
    ),
    Case(
        "month-without-year",
        bare_months,
        'meters.xlsx > Power > A4:A15 (column "Month")',
        "months are written without a year and read as of 2025",
    ),
    Case(
        "time-off-the-hour",
        text_rows("hourly", [*HOURLY[:100], "2025-01-05 04:15", *HOURLY[101:]]),
        STAMPS.format(cell="A102"),
        '"2025-01-05 04:15" is not a full hour',
    ),
    Case(
        "start-or-end-unclear",
        text_rows("hourly", HOURLY[3:-2]),
        STAMPS.format(cell="A1"),
        "the stamps may name the start or the end of each hour",
    ),
    Case(
        "start-or-end-unclear",
        text_rows("hourly", HOURLY, stamps="end"),
        STAMPS.format(cell="A1"),
        "the end of each hour is declared, but the stamps run like starts",
    ),
    Case(
        "repeated-hour",
        text_rows("hourly", written(berlin())),
        STAMPS.format(cell="A7155:A7156"),
        "an hour stands in more than one row",
        also=("missing-row",),
    ),
    Case(
        "hour-not-on-the-clock",
        text_rows("hourly", HOURLY, time_zone="Europe/Berlin"),
        STAMPS.format(cell="A2116"),
        "the clocks of the time zone left this hour out",
        also=("missing-row",),
    ),
    Case(
        "missing-row",
        text_rows("hourly", [*HOURLY[:100], *HOURLY[103:]]),
        STAMPS.format(cell="A98:A118"),
        "no row for 2025-01-05 04:00 to 06:00",
    ),
    Case(
        "missing-reading",
        text_rows("hourly", HOURLY, [*[100] * 50, "", "", *[100] * 8708]),
        FEED.format(cell="B52:B53"),
        "no reading for 2025-01-03 02:00, 03:00",
    ),
    Case(
        "date-outside-year",
        text_rows("hourly", [*HOURLY, "2026-01-01 00:00"], stamps="start"),
        STAMPS.format(cell="A8762"),
        "hours belong to no day of 2025",
    ),
    Case(
        "unknown-time-zone",
        meter(time_zone="Europe/Berlim"),
        "site.toml > meters[1] FT-1 > time_zone",
        '"Europe/Berlim" is no time zone',
    ),
    Case(
        "day-starts-off-the-hour",
        text_rows("hourly", HOURLY, day_starts="06:30"),
        STAMPS.format(cell="A1"),
        'day_starts = "06:30" cuts an hour',
        also=("day-starts-off-midnight",),
    ),
    Case(
        "day-starts-off-midnight",
        meter(day_starts="06:00"),
        'meters.xlsx > Gas > A3 (column "Date")',
        "days start at 06:00: 6 hours at each month's end count elsewhere",
    ),
    Case(SPLIT[0], text_rows("weekly", WEEKLY), *SPLIT[1:]),
    Case(
        "weeks-overlap",
        text_rows("weekly", [*WEEKLY[:20], "2025-05-16", *WEEKLY[21:]]),
        STAMPS.format(cell="A22"),
        "the week before reaches to 2025-05-18",
        also=("week-across-months", "missing-row"),
    ),
    Case(
        "start-or-end-unclear",
        text_rows("weekly", WEEKLY[1:50]),
        STAMPS.format(cell="A1"),
        "the stamps may name the start or the end of each week",
    ),
    Case(
        "superseded-reading",
        with_status({11: [7001, 3, "provisional"]}, [[11, 7002, None, "final"]]),
        'meters.xlsx > Gas > B11 (column "Feed gas (Nm3)")',
        "FT-1: final 7002 in B369 counts instead of provisional 7001",
        also=("provisional-reading-used",),
    ),
    Case(
        "provisional-reading-used",
        with_status({11: [7001, None, "provisional"]}, [[11, None, 3, "final"]]),
        'meters.xlsx > Gas > B11 (column "Feed gas (Nm3)")',
        "FT-1 has provisional readings",
    ),
    Case(
        "two-values-of-one-status",
        with_status({}, [[11, 7002, None, "final"]]),
        'meters.xlsx > Gas > B11, B369 (column "Feed gas (Nm3)")',
        "FT-1 is 700000 and 7002, both final",
    ),
    Case(
        "unknown-status",
        with_status({11: [7001, 3, "prelim."]}, []),
        'meters.xlsx > Gas > D11 (column "Status")',
        '"prelim." is no status',
    ),
    Case(
        "missing-column",
        all_of(with_status({}, []), meter(status_column="State")),
        "meters.xlsx > Gas",
        'no heading "State" beside "Feed gas (Nm3)"',
    ),
    Case(
        "status-without-period",
        meter(rows="tickets", status_column="Status"),
        "site.toml > meters[1] FT-1 > status_column",
        'meter "FT-1" has rows = "tickets" and a column of status',
    ),
]
