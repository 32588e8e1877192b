"""Days that start at another hour than midnight: how far that moves the months."""

from __future__ import annotations

from footprint.base.finding import Finding, declare
from footprint.read.headings import Column
from footprint.read.site import Meter

_HOURS_OF_A_DAY = 24
_HOURS_OF_A_MONTH = 744  # of 31 days; the share is largest in February, 672
_SHORTEST_MONTH = 672

DAY_STARTS_OFF_MIDNIGHT = declare(
    "day-starts-off-midnight",
    "note",
    means="The days of a meter start at another hour than midnight, as declared.",
    effect="hours at each end of a month count in the neighbouring month",
    mend="nothing, if the meter and its bill count such days",
    example='day_starts = "06:00", the gas day: 6 hours of 744, or 0.8 % of a month',
)


def day_starts_told(meter: Meter, column: Column) -> list[Finding]:
    """Return the note on days that do not start at midnight, with the bound of its effect.

    Args:
        meter: as declared. [meter]
        column: of its readings. [column]

    Findings:
        day-starts-off-midnight

    Source: definition
    """
    if meter.day_starts == "00:00" or meter.rows not in ("hourly", "daily", "weekly", "monthly"):
        return []
    hour, minute = (int(part) for part in meter.day_starts.split(":"))
    after = hour + minute / 60
    moved = min(after, _HOURS_OF_A_DAY - after)
    share = 100 * moved / _HOURS_OF_A_MONTH
    most = 100 * moved / _SHORTEST_MONTH
    what = (
        f"days start at {meter.day_starts}: {moved:.3g} hours at each month's end count elsewhere"
    )
    why = (
        f"{moved:.3g} hours are {share:.1f} % of a month of {_HOURS_OF_A_MONTH} hours "
        f"({most:.1f} % of February): no month can be further off at an even flow, "
        "and the year by no more than these hours"
    )
    where = column.sheet.where(column.date_column, [column.header_row], column.date_heading)
    return [DAY_STARTS_OFF_MIDNIGHT.at(where, what, why=why)]
