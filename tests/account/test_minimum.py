"""The least feed energy of a month's own feeds, against the same equations on plain numbers."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.account.minimum import Minimum
from footprint.gas import theory
from tests.sites.hand_made import HandMade, plain_works

AIR = 0.78084 / 0.20946  # nitrogen to oxygen of dry air: common practice, no source
AMMONIA = 0.01703052  # t/kmol: ISO 6976:2016, annex A.2


def minimum_of(made: HandMade) -> Minimum:
    """Return the minimum of a works with feeds."""
    found = made.account().minimum
    assert found is not None
    return found


def months(made: HandMade) -> np.ndarray:
    """Return the least feed energy by month."""
    row = minimum_of(made).by_tonne.months
    assert row is not None
    return row.values


def test_the_minimum_of_methane_is_that_of_its_equations() -> None:
    """One kmol of methane, 0.802554 GJ, 8 reducing equivalents, no nitrogen, and air.

    Source: net calorific value of methane at 25 °C, ISO 6976:2016 (890.58 - 2 x 44.013 MJ/kmol).
    """
    numbers = theory.stoichiometry(AIR)
    made = theory.ammonia_from(8.0, 0.0, numbers)

    least = theory.least_feed_energy(0.80255, made.ammonia, AMMONIA)

    assert months(plain_works()) == pytest.approx(np.full(12, least), rel=1e-5)


def test_the_minimum_of_methane_is_near_the_published_one() -> None:
    """The least feed of methane is 20.9 GJ net by tonne within 1 %.

    Source: Appl, Ammonia (1999), stoichiometric minimum of steam reforming, from memory.
    """
    assert months(plain_works()) == pytest.approx(np.full(12, 20.9), rel=0.01)


def test_the_minimum_does_not_depend_on_what_was_made() -> None:
    """Twice the ammonia from the same gas leaves the minimum as it is."""
    more = plain_works()
    more.series["ammonia"].values[:] = 60_000.0

    assert months(more) == pytest.approx(months(plain_works()))


def test_all_feeds_count_together() -> None:
    """Bought hydrogen brings energy, equivalents and no carbon: the sums go into one equation.

    Source: net calorific value of hydrogen 0.241817 GJ/kmol, ISO 6976:2016 (285.83 - 44.013).
    """
    made = plain_works()
    made.gas("hydrogen", {"hydrogen": 100.0})
    made.counted("hydrogen", "hydrogen bought", "Nm3", 5.0e6, analysis="hydrogen")
    measured = made.measured()
    methane, hydrogen = (
        float(measured.gas[name].amount.values[0]) for name in ("feed gas", "hydrogen")
    )

    most = theory.ammonia_from(8 * methane + 2 * hydrogen, 0.0, theory.stoichiometry(AIR))
    energy = 0.80255 * methane + 0.24182 * hydrogen

    least = theory.least_feed_energy(energy, most.ammonia, AMMONIA)
    assert months(made) == pytest.approx(np.full(12, least), rel=2e-5)


def test_the_least_co2_is_all_feed_carbon_on_the_most_ammonia() -> None:
    """Methane leaves 44.0095 t of CO2 on each kmol-thousand of its most ammonia.

    Source: molar mass of CO2, ISO 6976:2016, annex A.2.
    """
    made = theory.ammonia_from(8.0, 0.0, theory.stoichiometry(AIR))

    row = minimum_of(plain_works()).co2_by_tonne.months

    assert row is not None
    least = theory.process_co2(0.0440095, made.ammonia, AMMONIA)
    assert row.values == pytest.approx(np.full(12, least), rel=1e-9)


def test_a_month_without_feed_has_no_minimum() -> None:
    """A month in which no feed flowed shows words, and the year stays that of the other months."""
    made = plain_works()
    made.series["feed gas"].values[7] = 0.0
    line = minimum_of(made).by_tonne

    assert line.months is not None
    assert line.year is not None
    assert np.isnan(line.months.values[7])
    assert line.year.values == pytest.approx(line.months.values[:1])


def test_a_works_without_feeds_has_no_minimum() -> None:
    """Without feed there is nothing to hold the energy against."""
    made = plain_works()
    made.streams = [one for one in made.streams if one["role"] != "feed"]

    assert made.account().minimum is None
