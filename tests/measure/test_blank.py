"""A meter that could not be read blocks what depends on it, and nothing else."""

from __future__ import annotations

import numpy as np
import pytest

from tests.sites.hand_made import HandMade, plain_works


def unread(made: HandMade, tag: str) -> HandMade:
    """Return the works after one meter could not be read."""
    del made.series[tag]
    return made


def test_a_feed_without_readings_blocks_process_co2_and_energy() -> None:
    """Process CO2 and energy by tonne cannot be given; ammonia and fuel CO2 can."""
    account = unread(plain_works(), "feed gas").account()

    net = account.energy.by_tonne["net"].months
    assert net is not None
    assert np.isnan(account.split.process.values).all()
    assert np.isnan(net.values).all()
    assert np.isfinite(account.split.fuel.values).all()
    assert account.ammonia.produced.values == pytest.approx(np.full(12, 30_000.0))


def test_a_year_with_an_unread_month_cannot_be_given() -> None:
    """The sum over the year is not the sum of the months that happen to be known."""
    made = plain_works()
    made.series["feed gas"].values[4] = np.nan
    account = made.account()

    year = account.measured.context.year(account.split.process)

    assert np.isnan(year.values[0])
    assert np.isfinite(np.delete(account.split.process.values, 4)).all()


@pytest.mark.parametrize(
    ("role", "unit_name", "keys"),
    [
        ("ammonia stock", "t_NH3", {}),
        ("power bought", "MWh", {}),
        ("hours on line", "hour", {}),
        ("urea", "t_urea", {}),
        ("CO2 sold", "t_CO2", {}),
        ("other fuel", "tonne", {"fuel": "gas or diesel oil"}),
    ],
)
def test_every_kind_of_stream_can_be_without_data(
    role: str, unit_name: str, keys: dict[str, str]
) -> None:
    """A stream of any kind whose meter was not read stands there without data, in its own unit."""
    rows = "stock" if "stock" in role else "monthly"
    made = plain_works()
    made.meter("X-1", unit_name, 1.0, rows)
    made.stream("unread", role, "X-1", **keys)

    measured = unread(made, "X-1").measured()

    found = [
        measured.mass.get("unread"),
        measured.power.get("unread"),
        measured.count.get("unread"),
        measured.stock["unread"].growth if "unread" in measured.stock else None,
        measured.fuel["unread"].carbon if "unread" in measured.fuel else None,
    ]
    rows_found = [row for row in found if row is not None]
    assert len(rows_found) == 1
    assert np.isnan(rows_found[0].values).all()
    assert rows_found[0].axis.kind == "months"
