"""Faults of meters that count no amounts: indexes, rates, tickets, invoices, levels in a tank."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, datetime
from typing import Any

from tests.findings.case import Case, all_of
from tests.findings.cases_cells import put
from tests.findings.site_folder import DAYS, STOCK_DAYS, YEAR, SiteFolder, table

FEED = 'meters.xlsx > Gas > {cell} (column "Feed gas (Nm3)")'
TICKETS = 'feed.csv > {cell} (column "{heading}")'
BILLS = 'power.csv > {cell} (column "{heading}")'
DIPS = 'meters.xlsx > Dips > {cell} (column "{heading}")'
FIRST_INDEX, DAILY_GROWTH = 1_000_000, 700_000
NEXT_YEAR = datetime(YEAR + 1, 1, 1)  # noqa: DTZ001
LEVELS = [[0, 0.0], [5000, 4000.0], [10000, 9000.0]]
MONTH_ENDS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def indexed(**index: Any) -> Callable[[SiteFolder], None]:
    """Return a change that makes the feed meter count up, with with its index at both year ends."""

    def change(folder: SiteFolder) -> None:
        folder.meter("FT-1").update(counts="index", index=index)
        for place in range(len(DAYS)):
            folder.put("Gas", f"B{place + 4}", FIRST_INDEX + DAILY_GROWTH * place)
        last = FIRST_INDEX + DAILY_GROWTH * len(DAYS)
        folder.sheet("Gas").append([NEXT_YEAR, last, None])

    return change


def without_last_index(folder: SiteFolder) -> None:
    """Remove the index of the next year's first day."""
    folder.sheet("Gas").pop()


def across_zero(folder: SiteFolder) -> None:
    """Let the index begin again at 0 where it passes 200 million."""
    indexed(rolls_over_at=2e8)(folder)
    for row in folder.sheet("Gas")[3:]:
        row[1] %= 200_000_000


def exchange() -> dict[str, Any]:
    """Return the exchange of a meter at noon on 5 May, where the new one begins at 0."""
    before = FIRST_INDEX + DAILY_GROWTH * 124
    return {"day": date(YEAR, 5, 5), "closing": before + 350_000.0, "opening": 0.0}


def exchanged(folder: SiteFolder) -> None:
    """Exchange the feed meter on 5 May."""
    one = exchange()
    indexed(exchanges=[one])(folder)
    for row in folder.sheet("Gas")[3 + 125 :]:
        row[1] -= int(one["closing"])


def hours(folder: SiteFolder) -> None:
    """Add a log of hours on line, in which a day has 240."""
    rows = folder.sheet("Gas")
    rows[2].append("On line (h)")
    for row in rows[3:]:
        row.append(24.0)
    rows[65][3] = 240.0
    meter = {**folder.meter("FT-1"), "tag": "HR-6", "column": "On line"}
    meter.pop("uncertainty")
    folder.site["meters"].append(meter)
    folder.site["streams"].append({"name": "hours", "role": "hours on line", "meter": "HR-6"})


def tickets(*rows: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that makes the feed come by tickets with gross, tare, number and vehicle."""

    def change(folder: SiteFolder) -> None:
        head = "Date;Gross (Nm3);Tare (Nm3);Ticket;Vehicle"
        named = {"number_column": "Ticket", "vehicle_column": "Vehicle"}
        weights = {"column": "Gross", "tare_column": "Tare", "decimal_mark": "."}
        folder.use_text([head, *rows], **(weights | named | keys))

    return change


def invoices(*rows: str) -> Callable[[SiteFolder], None]:
    """Return a change that makes the power come by invoices."""

    def change(folder: SiteFolder) -> None:
        folder.texts["power.csv"] = "\n".join(["From;To;Power bought (MWh)", *rows]) + "\n"
        meter = folder.meter("EM-4")
        meter.update(file="power.csv", rows="invoices", date_column="From", to_column="To")
        meter.update(decimal_mark=".")
        meter.pop("sheet")

    return change


def monthly_bills() -> list[str]:
    """Return an invoice of 100 MWh a day for each month."""
    return [
        f"2025-{month:02d}-01;2025-{month:02d}-{days};{days * 100}.0"
        for month, days in enumerate(MONTH_ENDS, start=1)
    ]


def bills(place: int, *instead: str) -> Callable[[SiteFolder], None]:
    """Return a change that puts other invoices in the place of one month's."""
    rows = monthly_bills()
    rows[place : place + 1] = instead
    return invoices(*rows)


def dipped(rows: Sequence[Sequence[Any]], level: float = 7500) -> Callable[[SiteFolder], None]:
    """Return a change that reads the tank by its level, with a table of its own."""

    def change(folder: SiteFolder) -> None:
        folder.books["meters.xlsx"]["Stock"] = table(["Date", "Level (mm)"], STOCK_DAYS, [level])
        dips = [["Level (mm)", "Content (t)"], *[list(row) for row in rows]]
        folder.books["meters.xlsx"]["Dips"] = dips
        where = {"file": "meters.xlsx", "sheet": "Dips"}
        named = {"level_column": "Level", "content_column": "Content"}
        folder.meter("LT-5").update(column="Level", dips={**where, **named})

    return change


def meter_keys(tag: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change of a meter's entry."""
    return lambda folder: folder.meter(tag).update(keys)


INDEX_CASES = [
    Case(
        "index-falls",
        all_of(indexed(), put("B66", 100)),
        FEED.format(cell="B65:B66"),
        "FT-1: the index falls from 43700000 to 100",
    ),
    Case(
        "index-falls",
        all_of(indexed(rolls_over_at=1e9), put("B66", 100)),
        FEED.format(cell="B65:B66"),
        "FT-1: the index falls from 43700000 to 100; a roll-over at 1000000000 would make it "
        "956300100",
    ),
    Case(
        "index-rolled-over",
        across_zero,
        FEED.format(cell="B288:B289"),
        "FT-1: the index rolled over from 199800000 to 500000, 700000 were counted",
    ),
    Case(
        "meter-exchanged",
        exchanged,
        FEED.format(cell="B128:B129"),
        "FT-1: exchanged on 2025-05-05, closing 88150000, opening 0",
    ),
    Case(
        "index-falls",
        indexed(exchanges=[{"day": date(YEAR, 5, 5), "closing": 100.0, "opening": 0.0}]),
        FEED.format(cell="B128:B129"),
        "FT-1: the index falls from 87800000 to 88500000, with an exchange on 2025-05-05",
    ),
    Case(
        "index-not-read",
        all_of(indexed(), put("B66", None)),
        FEED.format(cell="B65, B67"),
        "FT-1: no index for 2025-03-04; 1400000 in all was spread evenly over 2 days",
    ),
    Case(
        "index-missing-at-year-end",
        all_of(indexed(), without_last_index),
        FEED.format(cell="B368"),
        "FT-1 has no index for 2026-01-01",
    ),
    Case(
        "text-in-number-cell",
        all_of(indexed(), put("B66", "n/a")),
        FEED.format(cell="B66"),
        '"n/a" is not a number',
    ),
]
RATE_CASES = [
    Case(
        "unit-is-no-rate",
        meter_keys("FT-1", counts="rate"),
        'meters.xlsx > Gas > B3 (column "Feed gas (Nm3)")',
        'unit "Nm3" has no time below',
    ),
    Case(
        "unit-is-no-rate",
        all_of(put("B3", "Feed gas (Nm3/h)"), meter_keys("FT-1", counts="rate", unit="Nm3")),
        "site.toml > meters[1] FT-1 > unit",
        'unit "Nm3" has no time below',
        also=("unit-is-no-rate",),
    ),
    Case(
        "more-hours-than-the-day-has",
        hours,
        'meters.xlsx > Gas > D66 (column "On line (h)")',
        "240 hours are more than the 24 of the day",
    ),
    Case(
        "unknown-time-zone",
        meter_keys("FT-1", time_zone="GMT+1"),
        "site.toml > meters[1] FT-1 > time_zone",
        '"GMT+1" is no time zone',
    ),
    Case(
        "meter-key-does-not-fit",
        meter_keys("FT-1", tare_column="Tare"),
        "site.toml > meters[1] FT-1 > tare_column",
        'tare_column is of tickets, not of rows = "daily"',
    ),
    Case(
        "meter-key-does-not-fit",
        meter_keys("FT-1", index={"factor": 2.0}),
        "site.toml > meters[1] FT-1 > index",
        'an index stands beside counts = "amount"',
    ),
]
TICKET_CASES = [
    Case(
        "ticket-entered-twice",
        tickets(
            "2025-03-04;38.5;14.0;4711;12-D-345",
            "2025-03-04;38.5;14.0;4711;12-D-345",
            "2025-03-04;38.5;14.0;4712;12-D-345",
        ),
        TICKETS.format(cell="B2:B3", heading="Gross (Nm3)"),
        "ticket 4711, vehicle 12-D-345 of 2025-03-04 stands in 2 rows",
    ),
    Case(
        "tare-above-gross",
        tickets("2025-03-04;14.0;38.5;4711;A", "2025-03-05;38.5;14.0;4712;A"),
        TICKETS.format(cell="C2", heading="Tare (Nm3)"),
        "tare 38.5 with a gross weight of 14",
    ),
    Case(
        "missing-reading",
        tickets("2025-03-04;38.5;;4711;A", "2025-03-05;38.5;14.0;4712;A"),
        TICKETS.format(cell="C2", heading="Tare (Nm3)"),
        "no reading for 2025-03-04",
    ),
    Case(
        "missing-column",
        tickets("2025-03-04;38.5;14.0;4711;A", tare_column="Empty weight"),
        "feed.csv > row 1",
        'no heading "Empty weight" in row 1',
    ),
]
BILL_CASES = [
    Case(
        "billing-period-turned-round",
        bills(2, "2025-03-01;2025-02-28;3100.0"),
        BILLS.format(cell="B4", heading="To"),
        "the period from 2025-03-01 ends on 2025-02-28",
        also=("days-not-billed",),
    ),
    Case(
        "days-not-billed",
        bills(2, "2025-03-01;2025-03-30;3000.0"),
        BILLS.format(cell="A1", heading="From"),
        "EM-4: no invoice for 2025-03-31",
    ),
    Case(
        "days-billed-twice",
        bills(2, "2025-02-28;2025-03-31;3200.0"),
        BILLS.format(cell="C3:C4", heading="Power bought (MWh)"),
        "2025-02-01 to 2025-02-28 and 2025-02-28 to 2025-03-31 share 1 day",
        also=("invoice-spread-over-months",),
    ),
    Case(
        "credit-note",
        bills(
            2,
            "2025-03-01;2025-03-31;3100.0",
            "2025-03-01;2025-03-31;-3100.0",
            "2025-03-01;2025-03-31;3000.0",
        ),
        BILLS.format(cell="C5", heading="Power bought (MWh)"),
        "1 below zero were taken as credit notes, -3100 MWh in all",
    ),
    Case(
        "invoice-spread-over-months",
        bills(2, "2025-03-01;2025-03-15;1500.0", "2025-03-16;2025-04-30;4600.0"),
        BILLS.format(cell="C5", heading="Power bought (MWh)"),
        "1 of 13 invoices run over the end of a month",
        also=("days-billed-twice",),
    ),
]
DIP_CASES = [
    Case(
        "level-outside-dip-table",
        all_of(dipped(LEVELS), put("B6", 12400, "Stock")),
        'meters.xlsx > Stock > B6 (column "Level (mm)")',
        "12400 is not between 0 and 10000 mm",
    ),
    Case(
        "dip-table-not-rising",
        dipped([[0, 0.0], [5000, 4000.0], [10000, 3900.0]]),
        DIPS.format(cell="B4", heading="Content (t)"),
        "3900 at 10000 follows 4000 at 5000",
    ),
    Case(
        "dip-table-incomplete",
        dipped([[0, 0.0], [5000, None], [10000, 9000.0]]),
        DIPS.format(cell="B3", heading="Content (t)"),
        "rows hold a level without content, or the reverse",
    ),
    Case(
        "dip-table-incomplete",
        dipped([[0, 0.0]]),
        DIPS.format(cell="B1", heading="Content (t)"),
        "the table has fewer than two rows",
    ),
]
COUNTED_CASES = [*INDEX_CASES, *RATE_CASES, *TICKET_CASES, *BILL_CASES, *DIP_CASES]
