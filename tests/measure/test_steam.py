"""Heat in steam above its feedwater."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest

from footprint.measure import measure
from tests.sites.hand_made import HandMade, factors

STATED = {"author": "N. Body", "why": "design point", "when": date(2025, 1, 15)}


def steam(pressure: float, temperature: float) -> HandMade:
    """Return 1 000 t of steam a month, made from water of 3 MPa and 300 K."""
    state: dict[str, Any] = {
        "pressure_bar_abs": pressure,
        "temperature_c": temperature,
        "feedwater_pressure_bar_abs": 30.0,
        "feedwater_temperature_c": 26.85,
        **STATED,
    }
    made = HandMade()
    made.counted("steam to urea", "steam exported", "t_steam", 1000.0, steam=state)
    return made


def test_heat_is_mass_times_the_enthalpy_gained() -> None:
    """Steam of 700 K and 0.0035 MPa carries 3335.68375 less 115.331273 kJ in each kg.

    Source: IAPWS R7-97(2012), tables 5 and 15.
    """
    heat = steam(0.035, 426.85).measured().heat["steam to urea"]

    gained = (3335.68375 - 115.331273) / 1000  # GJ/t
    assert heat.values == pytest.approx(np.full(12, 1000 * gained), rel=1e-8)


def test_a_state_outside_the_tables_is_told_and_gives_no_heat() -> None:
    """Steam near the critical point has no enthalpy here; the finding names state and stream."""
    measured, findings = measure(steam(250.0, 376.85).readings(), factors())

    assert [one.code for one in findings if one.level == "stop"] == ["steam-state-outside-tables"]
    assert findings[0].what == (
        'steam of "steam to urea" at 250 bar and 376.85 °C is not in the steam tables'
    )
    assert np.isnan(measured.heat["steam to urea"].values).all()
