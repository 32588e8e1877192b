from __future__ import annotations

from datetime import datetime
from itertools import permutations
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.read.small_table import MONTHS, Layout, Rows, read_text, read_workbook, rows_in

EXAMPLES = settings(deadline=None, max_examples=25)
VALUES = st.lists(
    st.integers(1, 10**9).map(lambda number: number / 1000), min_size=12, max_size=12, unique=True
)
MONTH_ROWS = st.integers(1, 12)
HEADINGS = ("Date", "Power bought (MWh)", "Remark")


def expected(values: list[float]) -> dict[str, float]:
    """Return the readings by month."""
    return {day.date().isoformat(): value for day, value in zip(MONTHS, values, strict=True)}


@EXAMPLES
@given(VALUES, st.integers(0, 30), st.integers(0, 20))
def test_moving_a_table_changes_no_value(values: list[float], down: int, right: int) -> None:
    """Wherever a table stands in its sheet, the same values are read."""
    rows = rows_in(Layout(rows_above=down, columns_before=right), values)

    read = read_workbook(rows)

    assert read.values == expected(values)
    assert read.findings == []


@EXAMPLES
@given(VALUES, st.frozensets(st.integers(0, 12)))
def test_blank_rows_change_no_value(values: list[float], places: frozenset[int]) -> None:
    """Empty rows below the headings and between the months change nothing."""
    rows = rows_in(Layout(blank_after=places), values)

    read = read_workbook(rows)

    assert read.values == expected(values)
    assert read.findings == []


@EXAMPLES
@given(VALUES, st.sampled_from(list(permutations(range(3)))))
def test_order_of_columns_changes_no_value(values: list[float], order: tuple[int, ...]) -> None:
    """In whatever order date, reading and remark stand, the same values are read."""
    rows = rows_in(Layout(order=order), values)

    read = read_workbook(rows)

    assert read.values == expected(values)
    assert read.findings == []


@EXAMPLES
@given(VALUES, st.lists(st.booleans(), min_size=20, max_size=20))
def test_case_of_headings_changes_no_value(values: list[float], capitals: list[bool]) -> None:
    """Capital and small letters in the words of headings change nothing."""
    words = [
        "".join(
            sign.upper() if is_capital else sign.lower()
            for sign, is_capital in zip(text, capitals, strict=False)
        )
        for text in ("date", "power bought")
    ]
    rows = rows_in(Layout(headings=(words[0], f"{words[1]} (MWh)", "Remark")), values)

    read = read_workbook(rows)

    assert read.values == expected(values)
    assert read.findings == []


@EXAMPLES
@given(VALUES, st.sampled_from([(".", ";"), (",", ";"), (".", ","), (",", "\t"), (".", "|")]))
def test_decimal_mark_changes_no_value(values: list[float], signs: tuple[str, str]) -> None:
    """Decimal mark and delimiter are learned from the file; what stays open is never a value."""
    mark, sign = signs

    read = read_text(rows_in(Layout(), values), mark, sign)

    if {one.code for one in read.findings} == {"ambiguous-decimal-mark"}:
        assert read.values == {}
        assert all(str(value)[::-1].find(".") == 3 for value in values)
    else:
        assert read.values == expected(values)
        assert read.findings == []


@EXAMPLES
@given(VALUES, st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]))
def test_encoding_changes_no_value(values: list[float], encoding: str) -> None:
    """In whatever encoding a text file comes, the same values are read."""
    rows = rows_in(Layout(headings=("Date", "Power bought (MWh)", "geprüft für März")), values)

    read = read_text(rows, encoding=encoding)

    codes = ["old-encoding"] if encoding == "cp1252" else []
    assert read.values == expected(values)
    assert [one.code for one in read.findings] == codes


def told_or_changed(rows: Rows, values: list[float]) -> bool:
    """Return whether a finding is told, or another value is read than before."""
    read = read_workbook(rows)
    return bool(read.findings) or read.values != expected(values)


@EXAMPLES
@given(VALUES, MONTH_ROWS, st.integers(0, 1))
def test_deleted_cell_is_told(values: list[float], row: int, column: int) -> None:
    """A date or a reading that is gone raises a finding, and its month has no value."""
    rows = rows_in(Layout(), values)
    rows[row][column] = None

    read = read_workbook(rows)

    left = {day: one for day, one in expected(values).items() if day != _day(row)}
    assert read.findings
    assert read.values == left


@EXAMPLES
@given(VALUES, MONTH_ROWS)
def test_deleted_row_is_told(values: list[float], row: int) -> None:
    """A month that is gone raises a finding, and the others keep their values."""
    rows = rows_in(Layout(), values)
    del rows[row]

    read = read_workbook(rows)

    left = {day: one for day, one in expected(values).items() if day != _day(row)}
    assert read.findings
    assert read.values == left


@EXAMPLES
@given(VALUES, MONTH_ROWS, st.integers(1, 13))
def test_doubled_row_is_told(values: list[float], row: int, place: int) -> None:
    """A month that stands twice raises a finding, and neither of its readings is used."""
    rows = rows_in(Layout(), values)
    rows.insert(place, list(rows[row]))

    read = read_workbook(rows)

    left = {day: one for day, one in expected(values).items() if day != _day(row)}
    assert read.findings
    assert read.values == left


@EXAMPLES
@given(VALUES, st.permutations(range(1, 13)))
def test_doubled_cell_is_told_or_changes_a_value(values: list[float], places: list[int]) -> None:
    """A reading or a date written over that of another month never goes unseen."""
    first, second = places[:2]

    for column in (0, 1):
        rows = rows_in(Layout(), values)
        rows[second][column] = rows[first][column]

        assert told_or_changed(rows, values)


OTHERS = st.one_of(
    st.none(),
    st.booleans(),
    st.floats(allow_nan=False, allow_infinity=False),
    st.integers(-(10**6), 10**6),
    st.dates().map(lambda day: datetime(day.year, day.month, day.day)),  # noqa: DTZ001
    st.text(st.characters(min_codepoint=32, max_codepoint=0x2FFF), max_size=12),
)


@settings(deadline=None, max_examples=120)
@given(VALUES, MONTH_ROWS, st.integers(0, 1), OTHERS)
def test_altered_cell_is_told_or_changes_a_value(
    values: list[float], row: int, column: int, other: Any
) -> None:
    """Whatever is written over a date or a reading raises a finding or changes a value."""
    rows = rows_in(Layout(), values)
    is_same = not isinstance(other, bool) and other == rows[row][column]
    rows[row][column] = other

    assert is_same or told_or_changed(rows, values)


@EXAMPLES
@given(VALUES, st.sampled_from(HEADINGS[:2]), st.text("abcDEF ()/", max_size=12))
def test_altered_heading_is_told(values: list[float], heading: str, other: str) -> None:
    """Another heading over dates or readings raises a finding, and nothing is read."""
    headings = tuple(f"{other}x" if one == heading else one for one in HEADINGS)

    read = read_workbook(rows_in(Layout(headings=headings), values))

    assert read.findings
    assert read.values == {}


def _day(row: int) -> str:
    """Return the date that stands in a row of the table."""
    return MONTHS[row - 1].date().isoformat()
