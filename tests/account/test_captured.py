"""CO2 taken out of the synthesis gas and where it went."""

from __future__ import annotations

import math

import numpy as np
import pytest

from footprint.account import Account
from footprint.base.line import Line
from tests.sites.hand_made import HandMade, plain_works

# tonnes a month and expanded uncertainty in per cent, k = 2
REMOVED, TO_UREA, SOLD = (37_500.0, 1.5), (30_000.0, 1.5), (7_000.0, 1.0)


def header(*, is_vent_metered: bool = False) -> HandMade:
    """Return a works that weighs the CO2 it removes, turns to urea and sells."""
    made = plain_works()
    for name, role, (tonnes, per_cent) in (
        ("CO2 removed", "CO2 removed", REMOVED),
        ("CO2 to urea", "CO2 to urea", TO_UREA),
        ("liquid CO2", "CO2 sold", SOLD),
    ):
        stated = f"{per_cent} % (k=2)"
        made.counted(name, role, "t_CO2", tonnes, uncertainty=stated, is_counted_elsewhere=False)
    made.streams[-3].pop("is_counted_elsewhere")
    if is_vent_metered:
        made.counted("vent stack", "CO2 vented", "t_CO2", 600.0)
    return made


def vent_lines(account: Account) -> dict[str, Line]:
    """Return the lines of the vent section, by their words."""
    section = account.captured.sections[-1]
    assert section.title.startswith("CO2 vented")
    return {line.row.words: line for line in section.lines}


def months(line: Line) -> float:
    """Return the figure that every month has."""
    assert line.months is not None
    assert np.ptp(line.months.values) == pytest.approx(0.0, abs=1e-9)
    return float(line.months.values[0])


def year(line: Line) -> float:
    """Return the figure of the year."""
    assert line.year is not None
    return float(line.year.values[0])


def test_each_way_out_of_the_header_has_its_own_line() -> None:
    """Removed, to urea, sold and vented stand apart, and what no meter counts follows."""
    captured = header().account().captured

    assert captured.removed is not None
    assert captured.vented is not None
    assert captured.removed.values == pytest.approx(np.full(12, 37_500.0))
    assert captured.by_flow["CO2 to urea"].values == pytest.approx(np.full(12, 30_000.0))
    assert captured.by_flow["liquid CO2"].values == pytest.approx(np.full(12, 7_000.0))
    assert captured.vented.values == pytest.approx(np.full(12, 500.0))


def test_the_interval_is_the_difference_and_twice_its_uncertainty() -> None:
    """500 t a month left over of 37 500 t is known to 750 t: the interval reaches below zero.

    Source: JCGM 100:2008, equation 10 and 6.3.3 (from memory), worked out here on plain numbers.
    """
    lines = vent_lines(header().account())
    parts = [tonnes * per_cent / 200 for tonnes, per_cent in (REMOVED, TO_UREA, SOLD)]
    combined = math.sqrt(sum(part**2 for part in parts))

    low, high = (months(line) for words, line in lines.items() if "end of the interval" in words)

    assert low == pytest.approx(500.0 - 2 * combined)
    assert high == pytest.approx(500.0 + 2 * combined)
    assert low < 0 < high


def test_calibration_lasts_all_year_in_the_interval_of_the_year() -> None:
    """The year is twelve times as unsure as a month, not root twelve times: calibration is shared.

    Source: JCGM 100:2008, 5.2.2 (from memory).
    """
    lines = vent_lines(header().account())
    line = lines["CO2 vented by difference: standard uncertainty"]

    assert year(line) == pytest.approx(12 * months(line))


def test_a_metered_vent_stands_beside_the_difference() -> None:
    """A meter on the vent is held against what the other meters leave over."""
    account = header(is_vent_metered=True).account()
    lines = vent_lines(account)

    assert months(lines["vent stack: as CO2"]) == pytest.approx(600.0)
    assert months(lines["CO2 vented, by difference"]) == pytest.approx(500.0)


def test_a_difference_below_zero_keeps_its_sign() -> None:
    """More used than removed is shown as it is."""
    made = header()
    made.series["CO2 removed"].values[:] = 36_000.0

    vented = made.account().captured.vented

    assert vented is not None
    assert vented.values == pytest.approx(np.full(12, -1_000.0))


def test_no_interval_is_made_up_where_the_removal_follows_too() -> None:
    """With CO2 removed by difference the errors at the header are not those of its meters."""
    made = header()
    made.streams = [one for one in made.streams if one["name"] != "CO2 removed"]
    made.gas("purge", {"hydrogen": 60.0, "nitrogen": 20.0, "methane": 20.0})
    made.counted("purge gas", "purge gas", "Nm3", 2.0e6, analysis="purge", to="fuel")

    account = made.account()

    assert account.captured.vented is not None
    section = account.captured.sections[-1]
    assert "interval" not in section.title
    assert len(section.lines) == 1
    assert section.note.startswith("No interval is given")


def test_urea_binds_what_its_mass_says() -> None:
    """CO2 bound in urea is a line of its own.

    Source: 44.0095/60.05526 t CO2 in a tonne of urea, ISO 6976:2016, annex A.2.
    """
    made = header()
    made.counted("urea", "urea", "t_urea", 40_000.0)

    bound = made.account().captured.bound

    assert bound is not None
    assert bound.values == pytest.approx(np.full(12, 40_000 * 44.0095 / 60.05526))


def test_two_removal_meters_are_added() -> None:
    """Two absorbers with a meter each give one figure of CO2 removed."""
    made = header()
    made.counted("second absorber", "CO2 removed", "t_CO2", 2_500.0)

    removed = made.account().captured.removed

    assert removed is not None
    assert removed.values == pytest.approx(np.full(12, 40_000.0))
