"""Keys of a meter that fit neither its rows nor what it counts."""

from __future__ import annotations

from collections.abc import Iterator

from footprint.base.finding import Finding, declare
from footprint.read.role_needs import place_of
from footprint.read.site import Meter, Site

METER_KEY_DOES_NOT_FIT = declare(
    "meter-key-does-not-fit",
    "stop",
    means="A meter has a key that its rows or its counts have no use for, or lacks one they need.",
    effect="the readings would be taken for something else than the entry says",
    mend="remove the key, or mend rows and counts of the meter",
    example='tare_column = "Tare" with rows = "daily"; mended: rows = "tickets"',
)
_OF_TICKETS = ("tare_column", "number_column", "vehicle_column")
_INDEXED = ("daily", "monthly")
_WITHOUT_RATE = ("tickets", "stock", "invoices")


def meter_keys(site: Site) -> list[Finding]:
    """Return keys of meters that do not fit each other.

    Args:
        site: as declared. [site]

    Findings:
        meter-key-does-not-fit

    Source: definition
    """
    return [
        METER_KEY_DOES_NOT_FIT.at(place_of("meters", index, meter.tag, key), what)
        for index, meter in enumerate(site.meters)
        for key, what in _misfits(meter)
    ]


def _misfits(meter: Meter) -> Iterator[tuple[str, str]]:
    """Yield each key that does not fit, with the reason."""
    rows = f'rows = "{meter.rows}"'
    for key in _OF_TICKETS:
        if getattr(meter, key) is not None and meter.rows != "tickets":
            yield key, f"{key} is of tickets, not of {rows}"
    if meter.to_column is not None and meter.rows != "invoices":
        yield "to_column", f"to_column is of invoices, not of {rows}"
    if meter.to_column is None and meter.rows == "invoices":
        yield "to_column", "invoices need to_column, the last day of each billing period"
    if meter.dips is not None and meter.rows != "stock":
        yield "dips", f"a table of dips is of stocks, not of {rows}"
    if meter.index is not None and meter.counts != "index":
        yield "index", f'an index stands beside counts = "{meter.counts}"'
    if meter.counts == "index" and meter.rows not in _INDEXED:
        yield "counts", f"an index is read by the day or the month, not with {rows}"
    if meter.counts == "rate" and meter.rows in _WITHOUT_RATE:
        yield "counts", f"a rate has a time, which {rows} do not have"
