"""A meter's statement of uncertainty as an error of its readings."""

from __future__ import annotations

import math

import numpy as np
import pytest

from footprint.base.slopes import standard_uncertainty
from tests.sites.hand_made import HandMade


def power(uncertainty: str | None) -> HandMade:
    """Return a works that buys 100 MWh a month."""
    made = HandMade()
    stated = {} if uncertainty is None else {"uncertainty": uncertainty}
    made.counted("power", "power bought", "MWh", 100.0, **stated)
    return made


@pytest.mark.parametrize(
    ("written", "month"),
    [
        ("2 % (k=2)", 1.0),
        ("2 % (k=1)", 2.0),
        ("3 % (limits)", 3 / math.sqrt(3)),
        ("4 MWh (k=2)", 2.0),
    ],
)
def test_a_calibration_error_is_shared_by_the_whole_year(written: str, month: float) -> None:
    """Twelve months of one meter are twelve times as unsure as one: errors shared add up.

    Source: JCGM 100:2008, 4.3.7 (limits over root 3) and 5.2.2 (full correlation), from memory.
    """
    measured = power(written).measured()
    bought = measured.power["power"]

    year = measured.context.year(bought)

    assert standard_uncertainty(bought, 0) == pytest.approx(month)
    assert standard_uncertainty(year) == pytest.approx(12 * month)


def test_a_meter_that_states_nothing_has_no_error() -> None:
    """Nothing is made up where nothing is stated."""
    measured = power(None).measured()

    assert standard_uncertainty(measured.power["power"], 0) == 0.0
    assert np.all(measured.power["power"].values == 100.0)
