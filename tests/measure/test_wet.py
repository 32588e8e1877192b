"""Dry gas in a wet volume, against arithmetic on plain numbers."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.measure.analysis import gas_samples
from tests.sites.hand_made import HandMade

WET = 1.0e6  # Nm3
PRESSURE = 150.0  # kPa, absolute
CELSIUS = 26.85  # 300 K
SATURATION = 3.53658941  # kPa at 300 K: IAPWS R7-97(2012), table 35
CARBON_DIOXIDE = {"carbon dioxide": 98.0, "hydrogen": 2.0}


def wet_works(rows: str, humidity: float = 1.0) -> HandMade:
    """Return a works that meters CO2 saturated with water."""
    made = HandMade()
    made.gas("CO2 overhead", CARBON_DIOXIDE)
    made.meter("FT-1", "Nm3", WET, rows)
    made.meter("TT-1", "celsius", CELSIUS, rows)
    made.meter("PT-1", "kPa", PRESSURE, rows)
    water = {"temperature": "TT-1", "pressure": "PT-1", "relative_humidity": humidity}
    made.stream("CO2 removed", "CO2 removed", "FT-1", analysis="CO2 overhead", water=water)
    return made


def molar_volume(made: HandMade) -> float:
    """Return the molar volume of the dry gas."""
    quality = gas_samples(made.context(), "CO2 overhead").quality
    return float(quality.molar_volume["Nm3"].values[0])


@pytest.mark.parametrize(("rows", "periods"), [("daily", 31), ("monthly", 1)])
def test_the_water_takes_its_share_of_the_volume(rows: str, periods: int) -> None:
    """Dry gas is the wet volume less saturation pressure over pressure, over the molar volume.

    Source: saturation pressure from IAPWS R7-97(2012), table 35; Dalton's law.
    """
    made = wet_works(rows)

    amount = made.measured().gas["CO2 removed"].amount.values[0]

    dry = WET * (1 - SATURATION / PRESSURE) / molar_volume(made)
    assert amount == pytest.approx(periods * dry, rel=1e-9)


def test_half_the_humidity_is_half_the_water() -> None:
    """A relative humidity of 50 % takes off half as much as saturation."""
    volume = molar_volume(wet_works("monthly"))

    half, full = (
        WET / volume - wet_works("monthly", humidity).measured().gas["CO2 removed"].amount.values
        for humidity in (0.5, 1.0)
    )

    assert full == pytest.approx(2 * half, rel=1e-9)
    assert np.all(half > 0)


def test_dry_gas_is_left_as_it_is() -> None:
    """Without declared water the whole volume is gas."""
    made = wet_works("monthly")
    made.streams[0].pop("water")

    amount = made.measured().gas["CO2 removed"].amount.values

    assert amount == pytest.approx(np.full(12, WET / molar_volume(made)), rel=1e-12)
