"""What of an error is common: to readings, to meters, between calibrations, or to none."""

from __future__ import annotations

import math
from datetime import date

import numpy as np
import pytest

from footprint.base.row import Row, step
from footprint.base.slopes import standard_uncertainty, variances
from tests.sites.hand_made import DAYS_IN_MONTH, HandMade

MWH = 100.0


def power(*names: str, **stated: object) -> HandMade:
    """Return a works with meters that each read 100 MWh a month."""
    made = HandMade()
    for name in names:
        made.counted(name, "power bought", "MWh", MWH, **stated)
    return made


def year_of(made: HandMade, name: str = "power") -> Row:
    """Return the sum of the year of one stream."""
    measured = made.measured()
    return measured.context.year(measured.power[name])


def test_repeatability_falls_with_the_root_of_the_number_of_readings() -> None:
    """Twelve months of 1 % each, drawn anew, leave 1 % over root 12 of the year.

    Source: JCGM 100:2008, clause 4.2.3 (from memory).
    """
    made = power("power", uncertainty="0 % (k=2)", repeatability="2 % (k=2)")

    assert standard_uncertainty(year_of(made)) == pytest.approx(math.sqrt(12) * 1.0)


def test_lasting_and_fresh_part_add_in_squares() -> None:
    """U of the year is the root of (12 x 1)² + 12 x 2²."""
    made = power("power", uncertainty="2 % (k=2)", repeatability="4 % (k=2)")

    expected = math.hypot(12.0, math.sqrt(12) * 2.0)
    assert standard_uncertainty(year_of(made)) == pytest.approx(expected)


def test_an_error_is_another_one_after_a_calibration() -> None:
    """Calibrated on 1 May: four months share one error, eight another."""
    made = power("power", uncertainty="2 % (k=2)", calibrations=[date(2025, 5, 1)])

    assert standard_uncertainty(year_of(made)) == pytest.approx(math.hypot(4.0, 8.0))


def test_meters_with_a_common_device_share_its_error() -> None:
    """A flow computer off by 1 % moves the sum of two meters by 2, and their difference by 0."""
    made = power("power", "more", devices=["FC-1"])
    made.devices.append({"tag": "FC-1", "uncertainty": "2 % (k=2)"})
    both = made.measured().power

    total = step(both["power"] + both["more"], "t/p/s/sum", "sum", "sum")
    left = step(both["power"] - both["more"], "t/p/s/left", "left", "left")

    assert standard_uncertainty(total, 0) == pytest.approx(2.0)
    assert standard_uncertainty(left, 0) == pytest.approx(0.0, abs=1e-12)


def test_a_device_beside_an_own_error_is_partial_sharing() -> None:
    """Own 1 % and common 1 % each: the sum of two has root of 2 x 1² + 2²."""
    made = power("power", "more", uncertainty="2 % (k=2)", devices=["FC-1"])
    made.devices.append({"tag": "FC-1", "uncertainty": "2 % (k=2)"})
    both = made.measured().power

    total = step(both["power"] + both["more"], "t/p/s/sum", "sum", "sum")

    assert standard_uncertainty(total, 0) == pytest.approx(math.sqrt(2 + 4))


def test_share_of_full_scale_is_the_same_amount_at_every_reading() -> None:
    """1 % of 400 MWh is 4 MWh, however little flows."""
    made = HandMade()
    meter_range = {"lowest": 0.0, "highest": 400.0}
    made.meter("EM", "MWh", MWH, uncertainty="1 % of full scale (k=1)", range=meter_range)
    made.stream("power", "power bought", "EM")

    assert standard_uncertainty(made.measured().power["power"], 0) == pytest.approx(4.0)


def test_the_growth_of_a_stock_is_free_of_the_zero_of_its_gauge() -> None:
    """A gauge that is 30 t off all year leaves growth alone; what it draws anew counts twice."""
    made = HandMade()
    made.meter("LT", "t_NH3", 1000.0, "stock", uncertainty="30 t (k=1)", repeatability="2 t (k=1)")
    made.stream("tank", "ammonia stock", "LT")
    stock = made.measured().stock["tank"]

    assert standard_uncertainty(stock.opening, 0) == pytest.approx(math.hypot(30, 2))
    assert standard_uncertainty(stock.growth, 0) == pytest.approx(2 * math.sqrt(2))
    assert variances(stock.growth, 0)["calibration of LT"] == pytest.approx(0.0, abs=1e-15)


def test_a_filled_gap_carries_the_scatter_of_the_readings_around() -> None:
    """Two days filled from 98, 102, 100, 104: each scatters by s, and their mean by s over root 4.

    Source: JCGM 100:2008, clauses 4.2.2 and 4.2.3 (from memory).
    """
    values = np.full(365, 100.0)
    values[31:37] = [98.0, 102.0, np.nan, np.nan, 100.0, 104.0]
    made = HandMade()
    made.meter("EM", "MWh", list(values), "daily", uncertainty="0 % (k=2)")
    made.stream("power", "power bought", "EM")
    made.gaps.append(
        {
            "meter": "EM",
            "method": "neighbouring periods",
            "first_day": date(2025, 2, 3),
            "last_day": date(2025, 2, 4),
            "author": "A. Nobody",
            "why": "away",
            "when": date(2025, 3, 1),
        }
    )
    measured = made.measured()

    scatter = np.std([98.0, 102.0, 100.0, 104.0], ddof=1)
    expected = math.sqrt(2 * scatter**2 + (2 * scatter / 2) ** 2)
    february = measured.power["power"]
    assert february.values[1] == pytest.approx(98 + 102 + 101 + 101 + 100 + 104 + 22 * 100)
    assert standard_uncertainty(february, 1) == pytest.approx(expected)
    assert standard_uncertainty(february, 0) == 0.0


def test_a_substitute_has_one_error_over_all_its_days() -> None:
    """Two months put at 90 MWh ± 10 % (limits, by default) are wrong together."""
    made = HandMade()
    values = [MWH] * 10 + [float("nan")] * 2
    made.meter("EM", "MWh", values, uncertainty="0 % (k=2)")
    made.stream("power", "power bought", "EM")
    made.substitutes.append(
        {
            "meter": "EM",
            "first_day": date(2025, 11, 1),
            "last_day": date(2025, 12, 31),
            "value": 90.0,
            "author": "A. Nobody",
            "why": "lost",
            "when": date(2026, 1, 9),
        }
    )

    assert standard_uncertainty(year_of(made)) == pytest.approx(2 * 9.0 / math.sqrt(3))


def test_normalised_fractions_are_unsure_but_sum_to_one() -> None:
    """A share of one component is known as the others allow; the sum of all has no error.

    Of x = a/(a+b): u(x) = x (1-x) root(ra² + rb²) for relative ra, rb of the two readings.
    """
    made = HandMade()
    stated = {"methane": "1 % (k=1)", "others": "2 % (k=1)"}
    made.gas("gas", {"methane": 90.0, "nitrogen": 10.0}, uncertainty=stated)
    made.counted("feed gas", "feed", "Nm3", 1e6, analysis="gas")
    quality = made.measured().context.qualities["gas"]
    methane, nitrogen = quality.fractions

    total = step(methane + nitrogen, "t/g/s/sum", "sum", "sum")

    assert standard_uncertainty(methane) == pytest.approx(0.9 * 0.1 * math.hypot(0.01, 0.02))
    assert standard_uncertainty(total) == pytest.approx(0.0, abs=1e-12)


def test_gases_of_one_chromatograph_share_its_error() -> None:
    """The same calibration gas makes methane of both gases wrong by the same share."""
    made = HandMade()
    for name in ("one", "two"):
        made.gas(name, {"methane": 90.0, "nitrogen": 10.0}, analyser="GC-1")
        made.counted(f"{name} gas", "fuel", "Nm3", 1e6, analysis=name, uncertainty="0 % (k=2)")
    made.devices.append({"tag": "GC-1", "uncertainty": "1 % (k=1)"})
    made.streams = [{**one, "position": "before mixing"} for one in made.streams]
    gas = made.measured().gas

    first, second = (gas[f"{name} gas"].carbon for name in ("one", "two"))
    left = step(first - second, "t/g/s/left", "left", "left")

    assert math.sqrt(variances(first, 0)["analyser GC-1: methane"]) > 1e-4 * first.values[0]
    assert variances(left, 0)["analyser GC-1: methane"] == pytest.approx(0.0, abs=1e-12)


def test_samples_draw_their_part_anew() -> None:
    """Twelve samples of one gas share the chromatograph, but each is a sample of its own."""
    made = HandMade()
    sampled = [date(2025, month, 1) for month in range(1, 13)]
    made.gas(
        "gas",
        {"methane": 90.0, "nitrogen": 10.0},
        sampled,
        sampling={"methane": "1 % (k=1)"},
        uncertainty="0 % (k=1)",
    )
    flows = list(DAYS_IN_MONTH * 1e6)
    made.counted("feed gas", "feed", "Nm3", flows, analysis="gas", uncertainty="0 % (k=1)")
    measured = made.measured()
    carbon, key = measured.gas["feed gas"].carbon, "sampling of gas: methane"

    whole = math.sqrt(variances(measured.context.year(carbon))[key]) / carbon.values.sum()
    january = math.sqrt(variances(carbon, 0)[key]) / carbon.values[0]

    assert january > 1e-4
    assert whole == pytest.approx(january * math.sqrt((DAYS_IN_MONTH**2).sum()) / 365)


def test_unstated_analysis_takes_the_precision_by_level() -> None:
    """Methane of 90 mol-% takes 0.15 for two laboratories and 0.10 for two results.

    Source: ASTM D1945, precision by level (from memory); both are 2.8 standard deviations.
    """
    made = HandMade()
    made.gas("gas", {"methane": 90.0, "nitrogen": 10.0})
    made.counted("feed gas", "feed", "Nm3", 1e6, analysis="gas")
    context = made.measured().context
    methane = context.qualities["gas"].fractions[0]

    found = variances(methane)

    two = math.sqrt(2) * 1.959964
    assert math.sqrt(found["analysis of gas: methane"]) == pytest.approx(
        0.15 / two / 100 * 0.1, rel=1e-4
    )
    assert math.sqrt(found["sampling of gas: methane"]) == pytest.approx(
        0.10 / two / 100 * 0.1, rel=1e-4
    )
