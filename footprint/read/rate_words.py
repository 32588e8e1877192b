"""Units of rates as people write them, parted into amount and time: "Nm3/h", "t/d", "MW"."""

from __future__ import annotations

import re

from footprint.base.finding import declare

TIMES = {
    "hour": ("h", "hr", "hour"),
    "day": ("d", "day"),
    "minute": ("min", "minute"),
    "second": ("s", "sec", "second"),
}
_TIME_OF = {alias: time for time, aliases in TIMES.items() for alias in aliases}
_PARTED = re.compile(
    rf"(?P<amount>.+?)\s*(?:/|\bper\b)\s*(?P<time>{'|'.join(_TIME_OF)})"
    r"(?P<rest>\s*\(.*\)|\s*\[.*\]|\s+[A-Za-z0-9]+)?",
    re.IGNORECASE,
)
_POWER = re.compile(r"(?P<prefix>[kMG])W(?:el|e|\(e\)|\(el\))?")
_SHORT = re.compile(r"(?P<amount>t|kg)p(?P<time>[hd])", re.IGNORECASE)

UNIT_IS_NO_RATE = declare(
    "unit-is-no-rate",
    "stop",
    means='A meter with counts = "rate" has a unit without a time.',
    effect="an amount of a day taken for a rate per hour makes the month 24 times too large",
    mend='write the unit with its time, such as "Nm3/h" or "t/d", or remove counts = "rate"',
    example='"Nm3" with counts = "rate"; mended: "Nm3/h"',
)


def parted(text: str) -> tuple[str, str]:
    """Return the unit of the amount and the house name of the time; no time where it is no rate.

    Args:
        text: as a heading, a unit row or the site file has it. [text]

    Source: definition
    """
    whole = " ".join(text.split())
    if match := _POWER.fullmatch(whole):
        return f"{match['prefix']}Wh", "hour"
    if match := _SHORT.fullmatch(whole):
        return match["amount"], _TIME_OF[match["time"].lower()]
    if match := _PARTED.fullmatch(whole):
        return f"{match['amount']}{match['rest'] or ''}", _TIME_OF[match["time"].lower()]
    return whole, ""
