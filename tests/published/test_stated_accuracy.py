"""Statements of uncertainty against published examples, by the same rows that reports rest on."""

from __future__ import annotations

import math

import numpy as np
import pytest

from footprint.base.row import step
from footprint.base.slopes import standard_uncertainty
from footprint.read.accuracy_words import Accuracy, accuracy_of
from tests.sites.hand_made import METHANE, HandMade

# tonnes and mass fraction of twelve months, one of them a shutdown: an example constructed to part
# lasting from fresh errors, solved in closed form and by 10⁶ draws
QUANTITY = [8123, 7410, 8234, 7954, 8011, 3012, 0, 7650, 8090, 8201, 7987, 8150]
FRACTION = [
    *(0.7342, 0.7338, 0.7351, 0.7345, 0.7329, 0.7340),
    *(0.7340, 0.7355, 0.7347, 0.7333, 0.7339, 0.7344),
]
PER_CARBON = 44.009 / 12.011


def annual(**of_quantity: str) -> tuple[float, float]:
    """Return the year of the example and its standard uncertainty, in t CO2."""
    made = HandMade()
    by_laboratory = {"uncertainty": "0.2 % (k=1)", "repeatability": "0.4 % (k=1)"}
    made.meter("LAB", "percent", [100 * one for one in FRACTION], **by_laboratory)
    values = [float(one) for one in QUANTITY]
    made.counted("q", "ammonia produced", "t_NH3", values, purity="LAB", **of_quantity)
    measured = made.measured()
    year = measured.context.year(measured.mass["q"])
    return year.values[0] * PER_CARBON, standard_uncertainty(year) * PER_CARBON


def test_a_year_of_months_with_lasting_and_fresh_errors() -> None:
    """222 810 t with u = 1408 t: 0.5 % and 0.2 % last, 1 % and 0.4 % are drawn anew each month.

    u² = (us² + uc²)(sum E)² + (uq² + ur²) sum E², derived and checked by simulation.
    """
    co2, u = annual(uncertainty="0.5 % (k=1)", repeatability="1 % (k=1)")

    assert co2 == pytest.approx(222_809.79, abs=0.01)
    assert u == pytest.approx(1408.04, abs=0.01)


def test_the_same_year_with_all_of_the_meter_lasting_is_less_sure() -> None:
    """One lasting error of 1.118 % gives the year far more doubt than the parted statement."""
    both = math.hypot(0.5, 1.0)

    _, u = annual(uncertainty=f"{both:.9f} % (k=1)")

    parted = annual(uncertainty="0.5 % (k=1)", repeatability="1 % (k=1)")[1]
    assert u > 1.7 * parted


def test_corrections_of_a_gas_meter_add_in_squares() -> None:
    """1.5 % of volume, 0.5 % of temperature and of pressure correction give 1.658 %.

    Source: European Commission, guidance document No. 4 on uncertainty (from memory: text not
    seen; the arithmetic is the root of the sum of squares). It misses 1.5 %, the fourth tier.
    """
    made = HandMade()
    made.gas("gas", METHANE, uncertainty="0 % (k=2)")
    stated = {"uncertainty": "1.5 % (k=2)", "devices": ["TT-1", "PT-1"]}
    made.counted("feed gas", "feed", "Nm3", 18.43e6, analysis="gas", **stated)
    made.devices += [{"tag": tag, "uncertainty": "0.5 % (k=2)"} for tag in ("TT-1", "PT-1")]
    measured = made.measured()
    year = measured.context.year(measured.gas["feed gas"].amount)

    assert 200 * standard_uncertainty(year) / year.values[0] == pytest.approx(1.658, abs=1e-3)


def test_sum_of_independent_meters() -> None:
    """12, 8 and 5 million with 1, 1.5 and 2 % sum to 25 with 0.788 %.

    Source: sum rule of the same guidance (from memory), worked out with exact fractions.
    """
    made = HandMade()
    for name, amount, width in (("a", 12.0, "1"), ("b", 8.0, "1.5"), ("c", 5.0, "2.0")):
        made.counted(name, "power bought", "MWh", amount, uncertainty=f"{width} % (k=2)")
    power = made.measured().power
    total = step(power["a"] + power["b"] + power["c"], "t/p/s/sum", "sum", "sum")

    assert 200 * standard_uncertainty(total) / total.values[0] == pytest.approx(0.7879086241)


@pytest.mark.parametrize(
    ("text", "limits"),
    [
        ("class 0.2S", 0.2),  # IEC 62053-22: limits in % at rated current, power factor 1
        ("class 0.5S", 0.5),
        ("class C", 0.5),  # EN 50470-3: A, B, C are 2, 1 and 0.5 %
        ("class B", 1.0),
        ("class A", 2.0),
        ("class 1.0", 1.0),  # Directive 2014/32/EU, annex IV: gas meters from Qt to Qmax
        ("class 1.5", 1.5),
        ("accuracy class 1.5 in service", 3.0),  # twice the initial limits
    ],
)
def test_classes_are_limits_in_per_cent(text: str, limits: float) -> None:
    """A class is named after its limits; standards as beside each line, from memory."""
    found = accuracy_of(text)

    assert isinstance(found, Accuracy)
    assert found.of_reading == pytest.approx(limits / 100 / np.sqrt(3))
