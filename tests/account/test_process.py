"""Process and fuel CO2, split twice, and the bridge between the splits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.base.row import Row
from tests.sites.hand_made import HandMade, plain_works

PURGE = {"hydrogen": 60.0, "nitrogen": 20.0, "methane": 20.0}
VOLUMES = st.floats(0.0, 5.0e6)


def with_off_gas(to_fuel: float, to_flare: float, sold: float) -> HandMade:
    """Return the plain works with three off-gases, each to another place."""
    made = plain_works()
    made.gas("purge", PURGE)
    for name, role, to, volume in (
        ("purge gas", "purge gas", "fuel", to_fuel),
        ("let-down gas", "let-down gas", "flare", to_flare),
        ("flash gas", "flash gas", "sold", sold),
    ):
        made.counted(name, role, "Nm3", volume, analysis="purge", to=to)
    return made


def row(made: HandMade, words: str) -> Row:
    """Return a row of the fuel page by the words it starts with."""
    sections = made.account().split.fuel_sections
    rows = [line.row for section in sections for line in section.lines]
    return next(one for one in rows if one.words.startswith(words))


@settings(max_examples=15, deadline=None)
@given(VOLUMES, VOLUMES, VOLUMES)
def test_the_bridge_adds_up(to_fuel: float, to_flare: float, sold: float) -> None:
    """By purpose and by point of release are one total, wherever the off-gas goes."""
    made = with_off_gas(to_fuel, to_flare, sold)
    split = made.account().split

    left = row(made, "by purpose less by release")

    assert split.gross.values == pytest.approx(split.process.values + split.fuel.values)
    assert left.values == pytest.approx(np.zeros(12), abs=1e-6)


def test_feed_carbon_is_process_co2_whatever_becomes_of_it() -> None:
    """Purge gas that is burnt leaves process CO2 by purpose as it is, and adds to the stack."""
    without, burnt = plain_works(), with_off_gas(2.0e6, 0.0, 0.0)

    assert burnt.account().split.process.values == pytest.approx(
        without.account().split.process.values
    )
    purge = burnt.account().split.burnt.values
    assert row(burnt, "CO2 released at stacks").values == pytest.approx(
        without.account().split.fuel.values + purge
    )


def test_off_gas_counts_where_it_goes() -> None:
    """Of 2, 1 and 0.5 million Nm3 of one gas, the first is burnt, then flared, then sold.

    Without a destination it is burnt.
    """
    made = with_off_gas(2.0e6, 1.0e6, 0.5e6)
    nowhere = with_off_gas(2.0e6, 1.0e6, 0.5e6)
    nowhere.streams[-1].pop("to")

    split, burnt = made.account().split, nowhere.account().split.burnt

    assert split.burnt.values == pytest.approx(2 * split.flared.values)
    assert split.flared.values == pytest.approx(2 * split.sold_as_gas.values)
    assert np.all(split.sold_as_gas.values > 0)
    assert burnt.values == pytest.approx(split.burnt.values + split.sold_as_gas.values)


def test_feed_carbon_becomes_co2_by_molar_mass() -> None:
    """A tonne of carbon is 3.664 t of CO2: ISO 6976:2016, annex A.2, 44.0095/12.0107."""
    account = plain_works().account()

    carbon = account.record.feeds[0].carbon.values

    assert account.split.process.values == pytest.approx(carbon * 44.0095 / 12.0107)


def test_other_fuels_are_fuel_co2() -> None:
    """100 t of diesel are 318.5 t of CO2.

    Source: 2006 IPCC Guidelines, volume 2: 43.0 TJ/Gg and 74 100 kg CO2/TJ (tables 1.2 and 2.3),
    which is 20.2 kg C/GJ rounded; molar masses differ from 44/12 by 0.07 %.
    """
    made = plain_works()
    made.counted("diesel", "other fuel", "tonne", 100.0, fuel="gas or diesel oil")

    more = made.account().split.fuel.values - plain_works().account().split.fuel.values

    assert more == pytest.approx(np.full(12, 100 * 43.0 * 74.1e-3), rel=1.5e-3)


def test_figures_by_tonne_say_words_in_a_month_without_ammonia() -> None:
    """Process CO2 by tonne is no division by zero, and the year takes all months."""
    made = plain_works()
    made.series["ammonia"].values[3] = 0.0
    split = made.account().split

    by_tonne = split.process_sections[-1].lines[0]

    assert by_tonne.months is not None
    assert by_tonne.year is not None
    assert np.isnan(by_tonne.months.values[3])
    assert by_tonne.year.values[0] == pytest.approx(split.process.values.sum() / (11 * 30_000))
