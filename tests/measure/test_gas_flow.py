"""A gas stream by month: amount, carbon, energy."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.measure.analysis import gas_samples
from tests.sites.hand_made import DAYS_IN_MONTH, METHANE, HandMade


def methane(rows: str = "daily", sampled: tuple[date, ...] = (date(2025, 1, 1),)) -> HandMade:
    """Return a works that is fed with pure methane."""
    made = HandMade()
    made.gas("natural gas", METHANE, sampled)
    made.meter("FT-1", "Nm3", 1.0e6, rows)
    made.stream("feed", "feed", "FT-1", analysis="natural gas")
    return made


def test_pure_methane_has_the_figures_of_methane() -> None:
    """1 000 000 Nm3 of methane a day are 44.7 Mmol: a carbon atom and 802.6 MJ net in each kmol.

    Source: molar volume 22.360 m3/kmol, ISO 6976:1995 as 22.414 times Z = 0.9976; net calorific
    value 802.60 MJ/kmol at 25 °C, ISO 6976:1995, table 3; carbon 12.011, IUPAC; all from memory.
    """
    flow = methane().measured().gas["feed"]

    kilomoles = 1.0e6 / 22.360 * DAYS_IN_MONTH
    assert flow.amount.values == pytest.approx(kilomoles, rel=1e-4)
    assert flow.carbon.values == pytest.approx(kilomoles * 12.011e-3, rel=1.5e-4)
    assert flow.net.values == pytest.approx(kilomoles * 0.80260, rel=2e-4)
    assert flow.reducing.values == pytest.approx(8 * kilomoles, rel=1e-4)
    assert flow.nitrogen.values == pytest.approx(np.zeros(12))


def test_each_sample_weighs_by_the_volume_it_speaks_for() -> None:
    """A month of two gases holds the carbon of each in its own volume."""
    sampled = (date(2025, 1, 1), date(2025, 1, 11))
    made = HandMade()
    made.gas("gas", {"methane": [100.0, 50.0], "nitrogen": [0.0, 50.0]}, sampled)
    made.meter("FT-1", "Nm3", [3.0e6] * 10 + [1.0e6] * 355, "daily")
    made.stream("feed", "feed", "FT-1", analysis="gas")
    volumes = gas_samples(made.context(), "gas").quality.molar_volume["Nm3"].values

    carbon = made.measured().gas["feed"].carbon.values[0]

    atoms = 10 * 3.0e6 / volumes[0] * 1.0 + 21 * 1.0e6 / volumes[1] * 0.5
    assert carbon == pytest.approx(atoms * 12.0107e-3, rel=1e-9)


def test_days_that_no_sample_speaks_for_are_told() -> None:
    """Seven days before the first sample take it, with a word to the user."""
    made = methane(sampled=(date(2025, 1, 8),))

    assert made.codes() == ["days-without-analysis"]
    assert not np.isnan(made.measured().gas["feed"].carbon.values).any()


def test_a_day_without_reading_leaves_its_month_open() -> None:
    """A missing day makes the month that needs it unknown, and no other month."""
    values = np.full(365, 1.0e6)
    values[40] = np.nan
    made = HandMade()
    made.gas("natural gas", METHANE)
    made.meter("FT-1", "Nm3", list(values), "daily")
    made.stream("feed", "feed", "FT-1", analysis="natural gas")

    carbon = made.measured().gas["feed"].carbon.values

    assert np.isnan(carbon[1])
    assert not np.isnan(np.delete(carbon, 1)).any()
