"""A meter's statement of uncertainty as an error of its readings."""

from __future__ import annotations

import math

import numpy as np
import pytest

from footprint.base.row import step
from footprint.base.slopes import standard_uncertainty
from footprint.measure import measure
from tests.sites.hand_made import HandMade, factors


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


def test_a_meter_that_states_nothing_takes_the_default_of_its_kind_and_is_told() -> None:
    """An electricity meter without statement is 2.5 % off at most, and the finding says so."""
    made = power(None)
    measured, findings = measure(made.readings(), factors())

    assert np.all(measured.power["power"].values == 100.0)
    assert standard_uncertainty(measured.power["power"], 0) == pytest.approx(2.5 / math.sqrt(3))
    (told,) = [one for one in findings if one.code == "uncertainty-not-stated"]
    assert told.what == "1 x electricity meter states no uncertainty; taken: ±2.5 % (limits)"
    assert told.where.words == "site.toml > power"
    assert told.level == "note"


def test_meters_of_a_kind_share_one_finding_but_no_error() -> None:
    """Two electricity meters without statement are told once; their errors are their own."""
    made = power(None)
    made.counted("more", "power bought", "MWh", 100.0)
    measured, findings = measure(made.readings(), factors())

    total = step(measured.power["power"] + measured.power["more"], "t/p/s/sum", "sum", "sum")

    assert [one.code for one in findings] == ["uncertainty-not-stated"]
    assert findings[0].what.startswith("2 x electricity meter state no")
    assert standard_uncertainty(total, 0) == pytest.approx(2.5 / math.sqrt(3) * math.sqrt(2))


def test_hours_are_counted_and_take_no_default() -> None:
    """A clock that counts hours on line states nothing and has no error."""
    made = HandMade()
    made.counted("on line", "hours on line", "hour", 700.0)
    measured, findings = measure(made.readings(), factors())

    assert findings == []
    assert standard_uncertainty(measured.count["on line"], 0) == 0
