"""A year of hours: how they are stamped, and the nights on which the clocks change.

30 March and 26 October 2025 are the days of the change in Berlin (Directive 2000/84/EC: the last
Sundays of March and October).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from tests.corpus.item import POWER, Item, in_text, lines

HOURS = [datetime(2025, 1, 1) + timedelta(hours=hour) for hour in range(8760)]  # noqa: DTZ001
DAYS = sorted({hour.date().isoformat() for hour in HOURS})
BERLIN = {"time_zone": "Europe/Berlin"}
SPRING, AUTUMN = "2025-03-30", "2025-10-26"


def on_the_wall() -> list[datetime]:
    """Return what a clock in Berlin shows at the start of each hour of the year."""
    zone = ZoneInfo("Europe/Berlin")
    first = datetime(2025, 1, 1, tzinfo=zone).timestamp()
    moments = [datetime.fromtimestamp(first + 3600 * hour, zone) for hour in range(8760)]
    return [moment.replace(tzinfo=None) for moment in moments]


def ends(hours: Sequence[datetime]) -> list[str]:
    """Return the ends of hours; that of a day is 24:00."""
    return [f"{hour:%Y-%m-%d} {hour.hour + 1:02}:00" for hour in hours]


def starts(hours: Sequence[datetime]) -> list[str]:
    """Return the starts of hours."""
    return [f"{hour:%Y-%m-%d %H:%M}" for hour in hours]


def year(
    name: str,
    stamps: Callable[[], Sequence[str]],
    changed: dict[str, float | None],
    *findings: tuple[str, str],
    **keys: Any,
) -> Item:
    """Return a file of half a MWh an hour; a day gives 12 MWh but for those changed or missing."""
    values = dict.fromkeys(DAYS, 12.0) | changed

    def content() -> bytes:
        """Return the bytes of the file."""
        return lines(f"Date;{POWER}", *(f"{stamp};0.5" for stamp in stamps()))

    kept = {day: value for day, value in values.items() if value is not None}
    return Item(name, "power.csv", content, kept, findings, {"rows": "hourly", **keys})


def place_of(day: str, hour: int) -> int:
    """Return the row of an hour in the file of a clock that never changes."""
    return HOURS.index(datetime.fromisoformat(f"{day} {hour:02}:00")) + 2


FIRST = place_of(SPRING, 0)
HOUR_ITEMS = [
    year("hours by their start", lambda: starts(HOURS), {}),
    year("hours by their end, with 24:00", lambda: ends(HOURS), {}),
    year(
        "hours by their end, at midnight",
        lambda: starts([hour + timedelta(hours=1) for hour in HOURS]),
        {},
    ),
    year(
        "days of 23 and 25 hours",
        lambda: starts(on_the_wall()),
        {SPRING: 11.5, AUTUMN: 12.5},
        **BERLIN,
    ),
    year(
        "hours of a clock that never changes, said to change",
        lambda: starts(HOURS),
        {SPRING: 11.5, AUTUMN: None},
        ("hour-not-on-the-clock", in_text(f"A{FIRST + 2}", "Date")),
        ("missing-row", in_text(f"A{place_of(AUTUMN, 0)}:A{place_of(AUTUMN, 23)}", "Date")),
        **BERLIN,
    ),
    year(
        "an hour is missing",
        lambda: starts([hour for hour in HOURS if f"{hour:%m-%d %H}" != "06-15 07"]),
        {"2025-06-15": None},
        ("missing-row", in_text("A3962:A3984", "Date")),
    ),
    year(
        "an hour stands twice",
        lambda: starts(sorted([*HOURS, HOURS[100]])),
        {"2025-01-05": None},
        ("repeated-hour", in_text("A102:A103", "Date")),
    ),
]
