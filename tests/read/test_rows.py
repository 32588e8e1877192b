from __future__ import annotations

from datetime import date, datetime

from footprint.read.headings import Column, locate
from footprint.read.rows import Rows, TotalRow, Wanted, rows_of
from footprint.read.totals import totals_checked
from tests.read.sheets import Value, sheet_of

HEADINGS: list[Value] = ["Date", "Feed gas (Nm3)"]


def day(number: int, month: int = 3, year: int = 2025) -> datetime:
    """Return a stored date of March."""
    return datetime(year, month, number)  # noqa: DTZ001


def table(*rows: list[Value]) -> Column:
    """Return the column of feed gas in a sheet of these rows."""
    found = locate(sheet_of([HEADINGS, *rows]), "Date", "Feed gas")
    assert isinstance(found, Column)
    return found


def rows_in(column: Column, layout: str = "daily") -> Rows:
    """Return the rows of a table of daily readings."""
    return rows_of(column, [column.column], Wanted(layout, 2025))


def codes(rows: Rows) -> list[str]:
    """Return the codes of the faults in the column of dates."""
    return [fault.refusal.code.code for fault in rows.faults]


def test_each_dated_row_gets_its_day() -> None:
    """Rows with a date are days, in any order; rows with a remark alone are none."""
    column = table([day(2), 5], [day(1), 6], ["checked by A.", None])

    rows = rows_in(column)

    assert rows.days == {2: date(2025, 3, 2), 3: date(2025, 3, 1)}
    assert rows.left_out["remark"] == 1
    assert codes(rows) == []


def test_heading_repeated_on_the_next_page_is_skipped() -> None:
    """A heading that is repeated further down is no reading."""
    rows = rows_in(table([day(1), 5], HEADINGS, [day(2), 6]))

    assert list(rows.days) == [2, 4]
    assert codes(rows) == []


def test_example_row_is_set_aside() -> None:
    """A row whose date says "example" is no reading, no fault, and in no total."""
    column = table(["Example", 900], [day(1), 5], [day(2), 6], ["Total", 11])

    rows = rows_in(column)

    assert list(rows.days) == [3, 4]
    assert rows.left_out["example row"] == 1
    assert codes(rows) == []
    assert totals_checked(column, rows) == []


def test_gap_of_many_rows_does_not_end_the_table() -> None:
    """Readings far below others are not dropped silently."""
    rows = rows_in(table([day(1), 5], *[[] for _ in range(50)], [day(2), 6]))

    assert list(rows.days) == [2, 53]


def test_week_column_in_front_is_no_total() -> None:
    """A word like Week 9 beside a date does not make the row a total."""
    sheet = sheet_of([["Week", *HEADINGS], ["Week 9", day(1), 5], ["Total", None, 5]])
    column = locate(sheet, "Date", "Feed gas")
    assert isinstance(column, Column)

    rows = rows_in(column)

    assert list(rows.days) == [2]
    assert rows.totals == [TotalRow(3, "sum")]


def test_same_day_without_reading_is_no_repetition() -> None:
    """A second row of a day that holds no reading does not block the first."""
    rows = rows_in(table([day(1), 5], [day(1), None]))

    assert rows.days == {2: date(2025, 3, 1)}
    assert codes(rows) == []


def test_tickets_may_share_a_day() -> None:
    """Several tickets of one day are all kept."""
    rows = rows_in(table([day(1), 5], [day(1), 6]), "tickets")

    assert len(rows.days) == 2
    assert codes(rows) == []


def test_rows_of_other_years_at_the_ends_are_set_aside() -> None:
    """Rows before and after the year are set aside with a warning, not with a stop."""
    column = table([day(31, 12, 2024), 5], [day(1), 6], [day(1, 1, 2026), 7])

    rows = rows_in(column)

    assert list(rows.days) == [3]
    assert codes(rows) == ["date-outside-year"] * 2


def test_stock_counts_the_first_of_the_next_year() -> None:
    """The stock of 1 January of the next year belongs to the year; 31 December is refused."""
    rows = rows_in(table([day(1, 1), 5], [day(31, 12), 6], [day(1, 1, 2026), 7]), "stock")

    assert list(rows.days.values()) == [date(2025, 1, 1), date(2026, 1, 1)]
    assert codes(rows) == ["not-the-first-of-a-month"]


def test_sample_before_the_year_is_kept() -> None:
    """The last sample before the year holds in it until the next, so that it is kept."""
    rows = rows_in(table([day(31, 12, 2024), 5], [day(1), 6]), "samples")

    assert len(rows.days) == 2
    assert codes(rows) == []


def test_total_of_the_week_and_of_all_are_both_right() -> None:
    """A total may count the rows since the total before, or all rows above it."""
    column = table([day(1), 5], ["Week 1", 5], [day(2), 6], ["Week 2", 6], ["Total", 11])

    assert totals_checked(column, rows_in(column)) == []


def test_total_that_leaves_a_row_out_is_told() -> None:
    """A total that is not the sum of the rows is told with the difference."""
    column = table([day(1), 50], [day(2), 60], ["Total", 60])

    (fault,) = totals_checked(column, rows_in(column))

    assert fault.refusal.what == "the total is 50 below the sum of the rows above it"


def test_total_row_may_hold_the_mean_of_per_cent_alone() -> None:
    """A row named Total may hold a mean under per cent, but not under an amount."""
    rows: list[list[Value]] = [[day(1), 50], [day(2), 60], ["Total", 55]]
    amounts = table(*rows)
    shares = locate(sheet_of([["Date", "Purity (%)"], *rows]), "Date", "Purity")
    assert isinstance(shares, Column)

    assert totals_checked(shares, rows_in(shares)) == []
    assert len(totals_checked(amounts, rows_in(amounts))) == 1


def test_mean_may_be_weighted_but_not_outside_its_values() -> None:
    """A mean between the smallest and the largest value is right, one beyond is told."""
    weighted = table([day(1), 5], [day(2), 6], ["Average", 5.9])
    wrong = table([day(1), 5], [day(2), 6], ["Average", 7])

    assert totals_checked(weighted, rows_in(weighted)) == []
    assert len(totals_checked(wrong, rows_in(wrong))) == 1


def test_largest_and_smallest_are_checked() -> None:
    """Rows named Max and Min are held against the values above."""
    column = table([day(1), 5], [day(2), 6], ["Max", 6], ["Min", 4])

    (fault,) = totals_checked(column, rows_in(column))

    assert fault.refusal.what == "the total is 1 below the smallest of the rows above it"
