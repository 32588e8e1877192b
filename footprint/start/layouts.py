"""How the rows of a table are dated: by the hour, the day, the month, by ticket or sample."""

from __future__ import annotations

from calendar import monthrange
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import median

from footprint.gas.names import name_of
from footprint.read.date_words import AMBIGUOUS_DATE_ORDER, Dated, dates_in, meanings
from footprint.read.fault import Refusal
from footprint.read.headings import name_without_unit
from footprint.start.tables import Heading, Table
from footprint.start.trade_words import plain

FEWEST_HOURS = 20  # of a day, for a table by the hour with some rows missing
FEWEST_COMPONENTS = 3
_DAYS_OF_WEEK = 7
_USUAL = 0.8  # share of the steps from date to date that must be alike
_TICKET_WORDS = ("ticket", "vehicle", "truck", "gross", "tare", "weighbridge", "waybill")
_LAST_DAY = {"to", "until", "till", "end", "ends", "ended", "through", "last"}
_STOCK_WORDS = ("tank", "stock", "inventory", "level", "dip")


@dataclass(frozen=True)
class Layout:
    """How rows are dated, why that is thought, and the doubt where there is one."""

    rows: str
    because: str
    doubt: str = ""


def components_in(table: Table) -> list[Heading]:
    """Return the columns whose headings are components of a gas; none where they are too few.

    Args:
        table: as found. [table]

    Source: common practice, no source
    """
    found = [one for one in table.headings if name_of(name_without_unit(one.text)[0])]
    return found if len(found) >= FEWEST_COMPONENTS else []


def days_of(tables: Sequence[Table], year: int) -> tuple[list[date], str]:
    """Return the days of the rows, and a text that may be two days, empty where none is.

    Args:
        tables: whose rows follow each other. [tables]
        year: of the return. [year]

    Source: definition
    """
    days: list[date] = []
    open_text = ""
    for table in tables:
        for one in dates_in(table.dates, "month", year):
            if isinstance(one, Dated):
                days.append(one.day)
            elif isinstance(one, Refusal) and one.code is AMBIGUOUS_DATE_ORDER:
                open_text = open_text or one.what
    return days, open_text


def years_of(table: Table) -> Counter[int]:
    """Return how many dates of a table lie in each year.

    Args:
        table: as found. [table]

    Source: definition
    """
    years: Counter[int] = Counter()
    for cell in table.dates:
        if hasattr(cell.value, "year"):
            years[cell.value.year] += 1
        else:
            years.update({day.year for day in meanings(str(cell.value), "month").values()})
    return years


def layout_of(tables: Sequence[Table], days: Sequence[date]) -> Layout:
    """Return how the rows of one or more tables are dated.

    Args:
        tables: whose rows follow each other. [tables]
        days: of their rows. [date]

    Source: common practice, no source
    """
    words = plain(" ".join([tables[0].title, *(one.text for one in tables[0].headings)]))
    times = Counter(days)
    count = f"{len(days)} dates"
    if _LAST_DAY & {word for one in tables[0].other_dates[:1] for word in plain(one).split()}:
        return Layout("invoices", f"two columns of dates, {_quoted(tables[0])}")
    if times and median(times.values()) >= FEWEST_HOURS:
        return Layout("hourly", f"{count}, about {int(median(times.values()))} a day")
    if word := next((one for one in _TICKET_WORDS if one in words), ""):
        return Layout("tickets", f'{count}, with the word "{word}"')
    if days and all(day.day == 1 for day in times) and len(times) > 1:
        return _monthly(words, times, count)
    if (
        days
        and all(day.day == monthrange(day.year, day.month)[1] for day in times)
        and len(times) > 1
    ):
        doubt = "the dates are the last days of months: amounts of the month, or stocks?"
        return Layout("monthly", f"{count}, each the last day of a month", doubt)
    return _stepped(times, count, has_repeated=max(times.values(), default=0) > 1)


def _quoted(table: Table) -> str:
    return " and ".join(f'"{one}"' for one in (table.date_heading, *table.other_dates))


def _monthly(words: str, times: Counter[date], count: str) -> Layout:
    """Return months, or the turns of months at which a stock is read."""
    word = next((one for one in _STOCK_WORDS if one in words), "")
    is_with_next = {day.month for day in times} == set(range(1, 13)) and len(times) > 12  # noqa: PLR2004  months
    if word and is_with_next:
        return Layout("stock", f'{count}, with 1 January of two years, and the word "{word}"')
    if word or is_with_next:
        doubt = "a stock at the turn of each month, or the amount of the month?"
        return Layout("stock" if word else "monthly", f"{count}, each the first of a month", doubt)
    return Layout("monthly", f"{count}, each the first of a month")


def _stepped(times: Counter[date], count: str, *, has_repeated: bool) -> Layout:
    """Return the layout that the steps from day to day speak for."""
    days = sorted(times)
    steps = [(later - earlier).days for earlier, later in pairwise(days)]
    if has_repeated:
        doubt = "some days stand in several rows: tickets, or a slip?"
        return Layout("tickets", f"{count} on {len(times)} days", doubt)
    for step, rows in ((1, "daily"), (_DAYS_OF_WEEK, "weekly")):
        if steps and steps.count(step) >= _USUAL * len(steps):
            return Layout(rows, f"{count}, most {step} day{'s' if step > 1 else ''} apart")
    return Layout("tickets", f"{count} at no regular distance", "tickets, or something else?")
