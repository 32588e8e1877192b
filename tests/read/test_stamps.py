from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from footprint.base.finding import Code
from footprint.read.clock import changes_of
from footprint.read.date_words import AMBIGUOUS_DATE_ORDER, DATE_NOT_UNDERSTOOD
from footprint.read.fault import Refusal
from footprint.read.stamps import TIME_OFF_THE_HOUR, Stamped, stamps_in
from tests.read.sheets import Value, cell_of


def at(hour: int, day: int = 4, month: int = 3) -> datetime:
    """Return a full hour of 2025."""
    return datetime(2025, month, day, hour)  # noqa: DTZ001


def read(*values: Value) -> list[datetime | Code]:
    """Return the moments in a column, or the codes of what was refused."""
    cells = [cell_of(row, 1, value) for row, value in enumerate(values, start=2)]
    found = stamps_in(cells, 2025, None)
    return [one.moment if isinstance(one, Stamped) else one.code for one in found]


@pytest.mark.parametrize(
    ("written", "moment"),
    [
        ("2025-03-04 02:00", at(2)),
        ("2025-03-04T02:00:00Z", at(2)),
        ("04.03.2025 2:00", at(2)),
        ("4 Mar 2025 02:00", at(2)),
        ("2025-03-04 24:00", at(0, 5)),
        ("2025-03-04 12:00 AM", at(0)),
        ("2025-03-04 12:00 pm", at(12)),
        ("2025-03-04 1:00 PM", at(13)),
        (at(2), at(2)),
        (45720.0 + 2 / 24, at(2)),
    ],
)
def test_full_hours_are_read(written: Value, moment: datetime) -> None:
    """A day and a full hour in one cell are read, as text, as date or as serial number.

    45720 is the serial number of 4 March 2025, by a spreadsheet program (common practice, no
    source).
    """
    assert read(written) == [moment]


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("2025-03-04 02:15", TIME_OFF_THE_HOUR),
        ("2025-03-04 02:00:01", TIME_OFF_THE_HOUR),
        ("2025-03-04 24:01", DATE_NOT_UNDERSTOOD),
        ("2025-03-04 25:00", DATE_NOT_UNDERSTOOD),
        ("2025-03-04 13:00 PM", DATE_NOT_UNDERSTOOD),
        ("2025-03-04", DATE_NOT_UNDERSTOOD),
        ("2025-03-04 02:00 about", DATE_NOT_UNDERSTOOD),
        ("03/04/2025 02:00", AMBIGUOUS_DATE_ORDER),
    ],
)
def test_what_is_no_full_hour_is_refused(written: str, code: Code) -> None:
    """Minutes, hours that no clock has, days alone and open orders are refused."""
    assert read(written) == [code]


def test_column_settles_the_order_of_its_dates() -> None:
    """Of 12/04 and 13/04 one order alone makes both a date."""
    assert read("12/04/2025 01:00", "13/04/2025 01:00") == [at(1, 12, 4), at(1, 13, 4)]


def test_hour_of_midnight_marks_ends() -> None:
    """24:00 is told apart from the 00:00 of the next day, since it can only be an end."""
    cells = [cell_of(2, 1, "2025-03-04 24:00"), cell_of(3, 1, "2025-03-05 00:00")]

    found = [one for one in stamps_in(cells, 2025, None) if not isinstance(one, Refusal)]

    assert [one.is_24 for one in found] == [True, False]
    assert found[0].moment == found[1].moment


@pytest.mark.parametrize(
    ("zone", "out", "twice"),
    [
        ("Europe/Dublin", at(1, 30, 3), at(1, 26, 10)),
        ("Europe/Berlin", at(2, 30, 3), at(2, 26, 10)),
        ("America/Chicago", at(2, 9, 3), at(1, 2, 11)),
    ],
)
def test_clocks_change_on_their_days(zone: str, out: datetime, twice: datetime) -> None:
    """The hours left out and passed twice are those of the law.

    Europe: Directive 2000/84/EC, 01:00 UTC on the last Sundays of March and October. Chicago:
    Energy Policy Act of 2005, section 110, 02:00 on the second Sunday of March and the first of
    November. Both from memory.
    """
    changes = changes_of(ZoneInfo(zone), 2025)

    assert changes.left_out == {out}
    assert changes.passed_twice == {twice}
    assert {out.date(), twice.date()} < {date(2025, month, day) for month, day in SUNDAYS}


SUNDAYS = [(3, 9), (3, 30), (10, 26), (11, 2)]
