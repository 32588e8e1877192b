"""Every figure that is judged has its limits in the register."""

from __future__ import annotations

import pytest

from footprint.judge.figures import figures_of, limits_of_closure
from tests.sites.hand_made import factors, plain_works
from tests.sites.sample_year import sample

ENDS = ("stop low", "warn low", "warn high", "stop high")
MINIMUM = "stop low, share of the minimum"


def limits_of(name: str) -> dict[str, float]:
    """Return the limits of a figure, by their ends."""
    return {
        entry.quantity.removeprefix(f"{name}: "): entry.value
        for entry in factors().entries
        if entry.quantity.startswith(f"{name}: ")
    }


def test_every_figure_of_the_sample_has_four_limits_in_rising_order() -> None:
    """The fullest works at hand judges no figure whose limits are missing or out of order."""
    _, _, account = sample()

    figures = figures_of(account)

    assert len(figures) > 12
    for figure in figures:
        found = limits_of(figure.name)
        lowest = MINIMUM if figure.least is not None else "stop low"
        assert set(found) == {lowest, *ENDS[1:]}
        rising = [found[end] for end in (ENDS if lowest == "stop low" else ENDS[1:])]
        assert rising == sorted(rising)


def test_a_limit_has_the_unit_of_its_figure() -> None:
    """A figure is never held against a limit in another unit."""
    context = plain_works().context()

    for figure in figures_of(plain_works().account()):
        for end in ENDS[1:]:
            assert context.factor(f"{figure.name}: {end}").unit == figure.months.unit


@pytest.mark.parametrize("node", ["gas header", "CO2 removal", "CO2 header", "synthesis loop"])
def test_the_closure_of_a_node_has_limits(node: str) -> None:
    """Each node that can be checked is held against limits that exist and are symmetrical."""
    found = limits_of(limits_of_closure(node))

    assert found["warn low"] == -found["warn high"]
    assert found["stop low"] == -found["stop high"]
