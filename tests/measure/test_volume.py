"""Volumes as meters saw them."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.base.units import unit
from footprint.measure.pieces import pieces_of
from footprint.measure.volume import condition_of, daily_volume, metered_volume, volume_by_piece
from footprint.read.site import Stream
from tests.sites.hand_made import CALENDAR, METHANE, HandMade


def mixed_fuel(purge_unit: str, purge: float) -> HandMade:
    """Return a fuel meter that stands after purge gas has joined."""
    made = HandMade()
    made.gas("natural gas", METHANE)
    made.counted("purge gas", "purge gas", purge_unit, purge, analysis="natural gas", to="fuel")
    made.meter("FT-1", "Nm3", 5.0e6)
    made.stream(
        "fuel gas",
        "fuel",
        "FT-1",
        analysis="natural gas",
        position="after mixing",
        mixed_with=["purge gas"],
    )
    return made


def stream_of(made: HandMade, name: str) -> Stream:
    """Return a stream by its name."""
    return next(one for one in made.readings().site.streams if one.name == name)


@pytest.mark.parametrize(("name", "size"), [("Nm3", 1.0e6), ("kNm3", 1.0e3)])
def test_gas_that_joined_before_the_meter_is_taken_off(name: str, size: float) -> None:
    """A meter after the mixing counts its own gas only: 5 less 1 million Nm3, in either unit."""
    made = mixed_fuel(name, size)

    volume = metered_volume(made.context(), stream_of(made, "fuel gas"))

    assert volume.unit == unit("Nm3")
    assert volume.values == pytest.approx(np.full(12, 4.0e6))


def test_carbon_of_gas_that_joined_is_counted_once() -> None:
    """Of a pure methane header, fuel and purge gas together hold what the mixed meter saw."""
    measured = mixed_fuel("Nm3", 1.0e6).measured()

    fuel, purge = (measured.gas[name].carbon.values for name in ("fuel gas", "purge gas"))

    assert fuel == pytest.approx(4 * purge, rel=1e-12)


def test_a_monthly_volume_is_shared_by_days() -> None:
    """A month whose gas changes after 10 of 31 days is shared 10 to 21, and this is told."""
    made = HandMade()
    made.gas("natural gas", METHANE, (date(2025, 1, 1), date(2025, 1, 11)))
    made.counted("feed", "feed", "Nm3", 3.1e6, analysis="natural gas")
    context, stream = made.context(), stream_of(made, "feed")
    sampled = made.gases["natural gas"].dates
    pieces = pieces_of(sampled, "until the next sample", CALENDAR, "feed")

    volume = volume_by_piece(context, stream, pieces)

    assert volume.values[:2] == pytest.approx([1.0e6, 2.1e6])
    assert volume.values.sum() == pytest.approx(12 * 3.1e6)
    assert [one.code for one in context.findings] == ["analyses-weighted-by-time"]


def test_daily_volumes_are_summed_by_what_a_sample_speaks_for() -> None:
    """Ten days of 100 and 21 of 200 stay apart when a sample parts them."""
    made = HandMade()
    made.gas("natural gas", METHANE, (date(2025, 1, 1), date(2025, 1, 11)))
    made.meter("FT-1", "kNm3", [0.1] * 10 + [0.2] * 355, "daily")
    made.stream("feed", "feed", "FT-1", analysis="natural gas")
    context, stream = made.context(), stream_of(made, "feed")
    pieces = pieces_of(made.gases["natural gas"].dates, "until the next sample", CALENDAR, "feed")

    volume = volume_by_piece(context, stream, pieces)

    assert volume.unit == unit("Nm3")
    assert volume.values[:2] == pytest.approx([1000.0, 4200.0])
    assert context.findings == []


@pytest.mark.parametrize("name", ["Nm3", "Sm3", "m3_20C", "scf_60F", "scf_68F"])
def test_a_volume_keeps_its_reference_condition(name: str) -> None:
    """Thousands of a cubic metre or foot become plain ones of the same reference condition."""
    made = HandMade()
    made.meter("FT-1", f"k{name}", 2.0, "daily")
    made.stream("feed", "feed", "FT-1")

    volume = daily_volume(made.context(), stream_of(made, "feed"))

    assert condition_of(volume) == name
    assert volume.values == pytest.approx(np.full(365, 2000.0))
