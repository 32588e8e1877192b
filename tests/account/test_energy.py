"""Energy by tonne of ammonia, final and primary."""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest

from footprint.account.energy import Energy
from footprint.base.line import Line
from tests.sites.hand_made import HandMade, plain_works

AMMONIA = 30_000.0  # t a month
MWH = 3.6  # GJ


def figures(line: Line) -> np.ndarray:
    """Return the months of a line."""
    assert line.months is not None
    return line.months.values


def month(energy: Energy, name: str) -> float:
    """Return the figure by tonne of the first month."""
    return float(figures(energy.by_tonne[name])[0])


def with_steam_to_urea(tonnes: float) -> HandMade:
    """Return the plain works, exporting steam of 700 K made from water of 300 K."""
    state: dict[str, Any] = {
        "pressure_bar_abs": 0.035,
        "temperature_c": 426.85,
        "feedwater_pressure_bar_abs": 30.0,
        "feedwater_temperature_c": 26.85,
        "author": "N. Body",
        "why": "design point",
        "when": date(2025, 1, 15),
    }
    made = plain_works()
    made.counted("steam to urea", "steam exported", "t_steam", tonnes, steam=state)
    return made


def test_power_is_three_point_six_as_final_energy() -> None:
    """1 500 MWh on 30 000 t are 0.18 GJ by tonne: definition of the watt-hour."""
    energy = plain_works().account().energy

    assert month(energy, "power") == pytest.approx(1_500 * MWH / AMMONIA)
    assert month(energy, "net") == pytest.approx(
        month(energy, "feed") + month(energy, "fuel") + month(energy, "power")
    )


def test_power_sold_and_exported_is_taken_off() -> None:
    """What leaves the boundary is not the ammonia's, whoever takes it."""
    made = plain_works()
    made.counted("to the grid", "power sold", "MWh", 400.0)
    made.counted("to urea", "power exported", "MWh", 300.0)

    energy = made.account().energy

    assert energy.power.values == pytest.approx(np.full(12, 800.0))
    assert month(energy, "power") == pytest.approx(800 * MWH / AMMONIA)


def test_power_made_inside_neither_enters_nor_leaves() -> None:
    """A generator inside the boundary is paid for by its fuel."""
    made = plain_works()
    made.counted("own turbine", "power made", "MWh", 5_000.0)

    assert made.account().energy.power.values == pytest.approx(np.full(12, 1_500.0))


def test_exports_inside_the_fence_are_not_taken_off_at_the_fence() -> None:
    """The figure of the whole site keeps the power that goes to a neighbour on the site."""
    made = plain_works()
    made.counted("to urea", "power exported", "MWh", 300.0)

    energy = made.account().energy

    gas = month(energy, "feed and fuel")
    assert month(energy, "site fence") == pytest.approx(gas + 1_500 * MWH / AMMONIA)
    assert month(energy, "net") == pytest.approx(gas + 1_200 * MWH / AMMONIA)


def test_steam_counts_one_to_one_as_final_energy() -> None:
    """1 000 t of exported steam carry 3 220 GJ above their feedwater, and these are taken off.

    Source: IAPWS R7-97(2012), tables 5 and 15: 3335.68375 less 115.331273 kJ/kg.
    """
    energy = with_steam_to_urea(1000.0).account().energy

    heat = 1000 * (3335.68375 - 115.331273) / 1000
    assert month(energy, "steam") == pytest.approx(-heat / AMMONIA, rel=1e-8)


def test_primary_energy_counts_the_fuel_it_takes_elsewhere() -> None:
    """Power weighs 2.55 times, steam over 0.9, gas as it is.

    Source: LBNL best practice tables: power 0.29 final is 0.74 primary; steam 3.87 is 4.30.
    """
    energy = with_steam_to_urea(1000.0).account().energy

    ratio = month(energy, "power, primary") / month(energy, "power")
    assert ratio == pytest.approx(0.74 / 0.29, abs=0.02)
    steam = month(energy, "steam, primary") / month(energy, "steam")
    assert steam == pytest.approx(4.30 / 3.87, abs=0.005)
    assert month(energy, "net, primary") == pytest.approx(
        month(energy, "feed and fuel")
        + month(energy, "power, primary")
        + month(energy, "steam, primary")
    )


def test_a_month_without_production_has_no_figure_and_stays_in_the_year() -> None:
    """Energy burnt while nothing is made has no figure by tonne, and weighs on the year."""
    made = plain_works()
    made.series["ammonia"].values[5] = 0.0
    energy = made.account().energy

    net = energy.by_tonne["net"]
    assert net.year is not None
    assert np.isnan(figures(net)[5])
    assert np.isfinite(np.delete(figures(net), 5)).all()
    assert net.year.values[0] == pytest.approx(figures(net)[0] * 12 / 11)


def test_the_distance_to_the_least_is_a_ratio_and_a_difference() -> None:
    """Net energy over the minimum, and above it, month by month."""
    account = plain_works().account()
    energy, minimum = account.energy, account.minimum

    assert minimum is not None
    assert energy.over_minimum is not None
    assert energy.distance is not None
    net, least = figures(energy.by_tonne["net"]), figures(minimum.by_tonne)
    assert figures(energy.over_minimum) == pytest.approx(net / least)
    assert figures(energy.distance) == pytest.approx(net - least)


def test_other_fuels_count_as_fuel() -> None:
    """100 t of diesel add 4 300 GJ to the fuel: 2006 IPCC Guidelines, volume 2, table 1.2."""
    made = plain_works()
    made.counted("diesel", "other fuel", "tonne", 100.0, fuel="gas or diesel oil")

    more = month(made.account().energy, "fuel") - month(plain_works().account().energy, "fuel")

    assert more == pytest.approx(4_300 / AMMONIA, rel=1e-6)
