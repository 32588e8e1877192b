"""Ammonia made and what became of it."""

from __future__ import annotations

import numpy as np
import pytest

from tests.sites.hand_made import HandMade, plain_works


def with_tank(gauged: list[float]) -> HandMade:
    """Return the plain works, selling 29 000 t a month from a gauged tank."""
    made = plain_works()
    made.counted("sold", "ammonia sold", "t_NH3", 29_000.0, purity="LAB")
    made.meter("tank", "t_NH3", gauged, "stock")
    made.stream("tank", "ammonia stock", "tank")
    return made


def test_what_is_made_and_neither_used_nor_stored_is_the_imbalance() -> None:
    """30 000 t made, 29 000 t sold, 900 t more in the tank: 100 t are not accounted for."""
    made = with_tank([5_000.0 + 900.0 * place for place in range(13)])

    imbalance = made.account().ammonia.imbalance

    assert imbalance is not None
    assert imbalance.months is not None
    assert imbalance.year is not None
    assert imbalance.months.values == pytest.approx(np.full(12, 100 / 30_000))
    assert imbalance.year.values == pytest.approx([100 / 30_000])


def test_bought_ammonia_enters_the_stock_balance_and_is_not_produced() -> None:
    """Ammonia from elsewhere goes into the tank but not into the figures by tonne."""
    made = with_tank([5_000.0 + 1_200.0 * place for place in range(13)])
    made.counted("bought", "ammonia bought", "t_NH3", 200.0)

    ammonia = made.account().ammonia

    assert ammonia.produced.values == pytest.approx(np.full(12, 30_000.0))
    assert ammonia.imbalance is not None
    assert ammonia.imbalance.year is not None
    assert ammonia.imbalance.year.values == pytest.approx([0.0], abs=1e-12)


def test_without_a_tank_there_is_no_stock_balance() -> None:
    """A works that gauges no tank shows no imbalance."""
    assert plain_works().account().ammonia.imbalance is None


def test_months_that_made_ammonia_are_marked() -> None:
    """The flag is 1 where ammonia was made, for each month and for the year."""
    made = plain_works()
    made.series["ammonia"].values[[0, 8]] = 0.0

    ammonia = made.account().ammonia

    assert list(np.flatnonzero(ammonia.runs.values == 0.0)) == [0, 8]
    assert ammonia.runs_year.values == pytest.approx([1.0])
