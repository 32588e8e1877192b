"""Dates as text: every form of the grammar, what two countries read differently, what is none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from tests.corpus.item import POWER, Item, in_text, lines, text_of

MONTHS = tuple(f"2025-{month:02}-01" for month in range(1, 13))
NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
FULL_NAMES = ("January", "February", "March", "April", "May", "June")
LEAP_DAYS = [f"2024-02-{day:02}" for day in range(1, 30)]


def one(text: str, day: str = "2025-03-04", **keys: Any) -> Item:
    """Return a file with one date in a form that can only mean one day."""
    content = text_of(("12.5",), (f'"{text}"',))
    return Item(f"date {text}", "power.csv", content, {day: 12.5}, keys=keys)


def timed(text: str, day: str = "2025-03-04") -> Item:
    """Return a file with one date that carries a time of day, which is left out with a note."""
    told = (("time-of-day-left-out", in_text("A2", "Date")),)
    return replace(one(text, day), findings=told)


def days(name: str, texts: Mapping[str, str], **keys: Any) -> Item:
    """Return a file with several dates, and the day that each means."""
    content = text_of([f"{number}.5" for number in range(len(texts))], tuple(texts))
    values = {day: number + 0.5 for number, day in enumerate(texts.values())}
    return Item(name, "power.csv", content, values, keys=keys)


def no_date(text: str, code: str = "date-not-understood") -> Item:
    """Return a file with one date that is refused."""
    content = text_of(("12.5",), (f'"{text}"',))
    return Item(f"date {text} refused", "power.csv", content, {}, ((code, in_text("A2", "Date")),))


def months(name: str, *texts: str) -> Item:
    """Return a file of twelve monthly rows."""
    content = text_of([f"{number}.5" for number in range(12)], texts)
    values = {month: number + 0.5 for number, month in enumerate(MONTHS)}
    return Item(name, "power.csv", content, values, keys={"rows": "monthly"})


def february(name: str, days_left: list[str], *findings: tuple[str, str]) -> Item:
    """Return a leap year of daily rows, with February as given."""
    year = [f"2024-01-{day:02}" for day in range(1, 32)] + days_left
    year += [f"2024-{month:02}-{day:02}" for month in range(3, 13) for day in range(1, 32)]
    dates = [day for day in year if not day.endswith(("04-31", "06-31", "09-31", "11-31"))]
    rows = [f"{day};{number % 7}.5" for number, day in enumerate(dates)]
    values = {day: number % 7 + 0.5 for number, day in enumerate(dates) if dates.count(day) == 1}
    content = lines(f"Date;{POWER}", *rows)
    return Item(name, "power.csv", content, values, findings, {"rows": "daily"}, 2024)


DATE_ITEMS = [
    one("2025-03-04"),
    one("2025/03/04"),
    one("2025.3.4"),
    one("04.03.2025"),
    one("4.3.25"),
    one("4 March 2025"),
    one("4-Mar-25"),
    one("04 Mar. 2025"),
    one("4.Mar.2025"),
    one("March 4, 2025"),
    one("Mar 4 2025"),
    one("4 Sept 2025", "2025-09-04"),
    one("4 MAY 2025", "2025-05-04"),
    timed("2025-03-04 06:00"),
    timed("2025-03-04T06:00:00Z"),
    timed("2025-03-04 23:59:59.999"),
    one("2025-03-03 24:00"),
    one("2025-12-30 24:00", "2025-12-31"),
    one("03/03/2025", "2025-03-03"),
    timed("2025-03-30 02:30", "2025-03-30"),
    timed("2025-10-26 02:30", "2025-10-26"),
    one("31/03/2025", "2025-03-31"),
    one("03/31/2025", "2025-03-31"),
    days("day first, learned", {"04/03/2025": "2025-03-04", "13/03/2025": "2025-03-13"}),
    days("month first, learned", {"03/04/2025": "2025-03-04", "03/13/2025": "2025-03-13"}),
    days(
        "day first, by running on", {f"{day:02}/05/2025": f"2025-05-{day:02}" for day in (1, 2, 3)}
    ),
    days(
        "month first, by running on",
        {f"05/{day:02}/2025": f"2025-05-{day:02}" for day in (1, 2, 3)},
    ),
    days("day first, set", {"04/03/2025": "2025-03-04"}, date_order="day first"),
    days("month first, set", {"04/03/2025": "2025-04-03"}, date_order="month first"),
    Item(
        "day or month first is open",
        "power.csv",
        text_of(("1.5", "2.5"), ("03/04/2025", "05/04/2025")),
        {},
        (("ambiguous-date-order", in_text("A2:A3", "Date")),),
    ),
    Item(
        "dates of two countries in one column",
        "power.csv",
        text_of(("1.5", "2.5"), ("13/04/2025", "04/14/2025")),
        {},
        (("ambiguous-date-order", in_text("A2:A3", "Date")),),
    ),
    Item(
        "ISO dates stay beside dates of two countries",
        "power.csv",
        text_of(("1.5", "2.5", "3.5"), ("13/04/2025", "2025-04-15", "04/14/2025")),
        {"2025-04-15": 2.5},
        (("ambiguous-date-order", in_text("A2, A4", "Date")),),
    ),
    no_date("2025-02-30"),
    no_date("2025-02-29"),
    no_date("2025-13-01"),
    no_date("45/13/2025"),
    no_date("31 Mrz"),
    no_date("Feb-25"),
    no_date("2025-03-04 25:00"),
    no_date("2025-03-04 24:30"),
    no_date("2025-03-04 12:75"),
    no_date("20250304"),
    no_date("45720"),
    no_date("0000-03-04"),
    no_date("tomorrow"),
    no_date("2025-03-04 to 2025-03-05"),
    no_date("04-03/2025"),
    no_date("2052-03-04", "implausible-date"),
    no_date("1925-03-04", "implausible-date"),
    no_date("2024-12-31", "date-outside-year"),
    no_date("2026-01-01", "date-outside-year"),
    no_date("2025-12-31 24:00", "date-outside-year"),
    months("months as first days", *MONTHS),
    months("months as 2025-01", *(month[:7] for month in MONTHS)),
    months("months as 1/2025", *(f"{number}/2025" for number in range(1, 13))),
    months("months as Jan-25", *(f"{name}-25" for name in NAMES)),
    months("months as Jan 2025", *(f"{name} 2025" for name in NAMES)),
    months("months as JAN 25", *(f"{name.upper()} 25" for name in NAMES)),
    months("months in whole words", *(f"{name} 2025" for name in (*FULL_NAMES, *NAMES[6:]))),
    months("months out of order", *MONTHS),
    february("leap year", LEAP_DAYS),
    february(
        "leap year without 29 February",
        LEAP_DAYS[:-1],
        ("missing-row", in_text("A60:A61", "Date")),
    ),
    february(
        "leap year with 29 February twice",
        [*LEAP_DAYS[:-1], LEAP_DAYS[-1], LEAP_DAYS[-1]],
        ("repeated-date", in_text("A61:A62", "Date")),
    ),
]
