"""A gas meter that counts the gas as it flows, brought to a reference condition."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from footprint.base.row import ancestry
from footprint.measure import measure
from footprint.measure.analysis import gas_samples
from tests.sites.hand_made import YEAR, HandMade, factors

EXAMPLES = Path(__file__).parents[1] / "published" / "gas_quality_examples.csv"
GAS_CONSTANT = 8.3144621  # kJ/(kmol K), ISO 6976:2016
LINE = {"temperature": "TT-1", "pressure": "PT-1"}
VOLUME = 1.0e4  # m3 as they flow
# Z of NIST's check gas at 400 K and 50 MPa: AGA 8 test programs of usnistgov/AGA8
CHECK_POINT = {"AGA 8 DETAIL": 1.1738013641473, "GERG-2008": 1.1746906663837}


def check_gas() -> dict[str, float]:
    """Return the 21 components of NIST's check gas, in mole per cent."""
    rows = csv.DictReader(EXAMPLES.read_text("utf-8").splitlines())
    text = next(row["composition"] for row in rows if row["example"] == "Z-NIST-DETAIL")
    parts = (part.split("=") for part in text.split("; "))
    return {name: 100 * float(x) for name, x in parts}


def fence(
    rows: str = "daily",
    metered: str = "m3_line",
    volume: float = VOLUME,
    celsius: float | list[float] = 126.85,
    pressure: tuple[str, float] = ("kPa", 50_000.0),
    **line: str,
) -> HandMade:
    """Return a fence meter with temperature and pressure of its line."""
    made = HandMade()
    made.gas("natural gas", check_gas())
    made.meter("FT-1", metered, volume, rows)
    made.meter("TT-1", "celsius", celsius, rows)
    made.meter("PT-1", *pressure, rows)
    made.stream("fence gas", "feed", "FT-1", analysis="natural gas", line={**LINE, **line})
    return made


def told(made: HandMade) -> dict[str, str]:
    """Return what was found by code."""
    found = measure(made.readings(), factors())[1]
    return {one.code: one.what for one in found if one.code != "uncertainty-not-stated"}


@pytest.mark.parametrize("rows", ["daily", "monthly"])
@pytest.mark.parametrize("equation", list(CHECK_POINT))
@pytest.mark.parametrize("reference", ["Nm3", "Sm3", "m3_20C"])
def test_line_volume_gives_the_tonnes_of_its_twin(rows: str, equation: str, reference: str) -> None:
    """A meter in line m3 gives carbon and energy of a twin in reference m3, to 1 in a million.

    Source: Z in the line from NIST's check points, Z at the reference from ISO 6976:2016.
    """
    made = fence(rows, equation=equation, reference=reference)
    kelvin = {"Nm3": 273.15, "Sm3": 288.15, "m3_20C": 293.15}[reference]
    z = gas_samples(made.context(), "natural gas").quality.compression[reference].values[0]
    by_hand = VOLUME * (50_000 / 101.325) * (kelvin / 400) * (z / CHECK_POINT[equation])
    twin = fence(rows, metered=reference, volume=by_hand)

    ours, theirs = (one.measured().gas["fence gas"] for one in (made, twin))

    for quantity in ("amount", "carbon", "net", "gross"):
        expected = getattr(theirs, quantity).values
        assert getattr(ours, quantity).values == pytest.approx(expected, rel=1e-6)


def test_amount_is_that_of_the_real_gas_law() -> None:
    """A month of 31 days holds 31 p V / (Z R T), whatever the reference condition.

    Source: real gas law; Z from NIST's check point.
    """
    amount = fence(equation="GERG-2008").measured().gas["fence gas"].amount.values[0]

    by_hand = 31 * 50_000 * VOLUME / (CHECK_POINT["GERG-2008"] * GAS_CONSTANT * 400)
    assert amount == pytest.approx(by_hand, rel=1e-6)


def test_another_program_gives_the_same_amount() -> None:
    """At 20 °C and 35 bar the amount is that by another program's Z, to 3 in 100 000.

    Source: Z of the Gulf Coast gas of AGA Report No. 8, computed with CoolProp 8.0, HEOS.
    """
    made = fence(celsius=20.0, pressure=("bar", 35.0), equation="GERG-2008")
    rows = csv.DictReader(EXAMPLES.read_text("utf-8").splitlines())
    text = next(row["composition"] for row in rows if row["example"] == "AGA8-Gulf-Coast")
    made.analyses, made.gases = [], {}
    parts = (part.split("=") for part in text.split("; "))
    made.gas("natural gas", {name: 100 * float(x) for name, x in parts})

    amount = made.measured().gas["fence gas"].amount.values[0]

    by_hand = 31 * 3500 * VOLUME / (0.931368 * GAS_CONSTANT * 293.15)
    assert amount == pytest.approx(by_hand, rel=3e-5)


def test_a_flow_computer_is_not_corrected_twice() -> None:
    """A meter that reads Nm3 is used as it is, although its stream states a line; this is told."""
    made = fence(metered="Nm3")
    plain = fence(metered="Nm3")
    plain.streams[0].pop("line")

    ours, theirs = (one.measured().gas["fence gas"].carbon.values for one in (made, plain))

    assert told(made)["line-conditions-not-used"].startswith('"fence gas": FT-1 reads Nm³')
    assert np.array_equal(ours, theirs)


def test_only_the_compression_factor_in_the_line_is_no_formula() -> None:
    """All rows behind the carbon are live, but for the one that a spreadsheet cannot compute."""
    rows = ancestry([fence().measured().gas["fence gas"].carbon])

    frozen = [row for row in rows if row.op == "FROZEN"]
    assert [row.key for row in frozen] == [
        "Ammonia/fence gas/compression factor/in the line, iterated"
    ]
    assert len(frozen[0].args) == 2 + 21


def test_each_day_is_corrected_by_its_own_state() -> None:
    """A day that is 100 K colder holds at least a fifth more gas, and changes no other month."""
    warm = [126.85] * 365
    made = fence(celsius=warm)
    cold = fence(celsius=[26.85, *warm[1:]])

    january = [one.measured().gas["fence gas"].amount.values for one in (made, cold)]

    assert january[1][0] > january[0][0] * (1 + 0.2 / 31)
    assert january[1][1:] == pytest.approx(january[0][1:])


def test_a_gauge_pressure_has_the_atmosphere_added() -> None:
    """48 bar (gauge) under 100 kPa are 4900 kPa absolute, and both give the same gas."""
    gauge = fence(celsius=20.0, pressure=("bar_gauge", 48.0))
    gauge.works = {**gauge.works, "atmospheric_pressure_kpa": 100.0}
    absolute = fence(celsius=20.0, pressure=("kPa", 4900.0))

    ours, theirs = (one.measured().gas["fence gas"] for one in (gauge, absolute))

    assert ours.amount.values == pytest.approx(theirs.amount.values, rel=1e-12)
    words = {row.words for row in ancestry([ours.amount])}
    assert "pressure of the atmosphere" in words


def test_a_temperature_may_be_read_in_kelvin() -> None:
    """400 K and 126.85 °C are the same line."""
    made = fence()
    made.series.pop("TT-1")
    made.meters = [one for one in made.meters if one["tag"] != "TT-1"]
    made.meter("TT-1", "kelvin", 400.0, "daily")

    ours, theirs = (one.measured().gas["fence gas"].amount.values for one in (made, fence()))

    assert ours == pytest.approx(theirs, rel=1e-12)


def test_a_state_outside_the_range_is_told_and_given() -> None:
    """400 K and 500 bar are outside the range of 0.1 %: the figure is given with a warning."""
    made = fence()

    found = told(made)

    assert found["line-state-outside-equation"] == (
        '"fence gas": 365 of 365 states outside the range of AGA 8 DETAIL, 2025-01-01: 126.85 °C, '
        "50000 kPa (abs)"
    )
    assert np.isfinite(made.measured().gas["fence gas"].carbon.values).all()


def test_a_composition_outside_the_range_is_told() -> None:
    """A gas of 60 % methane and 40 % nitrogen is outside the range of AGA 8 for pipeline gas."""
    made = fence(celsius=20.0, pressure=("kPa", 4000.0))
    made.analyses, made.gases = [], {}
    made.gas("natural gas", {"methane": 60.0, "nitrogen": 40.0})

    found = told(made)

    assert found["line-state-outside-equation"] == (
        '"fence gas": 1 of 1 samples outside the range of AGA 8 DETAIL, 2025-01-01: '
        "methane 60.00% is under 70.00%"
    )


def test_a_line_without_pressure_stops() -> None:
    """A pressure of nothing gives no density: it is told with its day, and no figure is given."""
    made = fence(celsius=20.0, pressure=("kPa", 0.0))

    found = told(made)

    assert found["line-state-without-density"] == (
        '"fence gas": 365 of 365 states outside the range of AGA 8 DETAIL, 2025-01-01: 20.00 °C, '
        "0 kPa (abs)"
    )
    assert np.isnan(made.measured().gas["fence gas"].carbon.values).all()


def test_a_component_that_the_equation_lacks_stops() -> None:
    """Ammonia in a gas metered at line conditions is told, and no figure is given."""
    made = fence()
    made.analyses, made.gases = [], {}
    made.gas("natural gas", {"methane": 98.0, "ammonia": 2.0})

    found = told(made)

    assert found["gas-not-in-line-equation"] == (
        '"fence gas" holds ammonia, which AGA 8 DETAIL lacks'
    )
    assert np.isnan(made.measured().gas["fence gas"].carbon.values).all()


def test_a_component_that_is_not_there_is_no_fault() -> None:
    """A column of ammonia with nothing but zeros does not keep the volume from its reference."""
    made = fence(celsius=20.0, pressure=("kPa", 4000.0))
    made.analyses, made.gases = [], {}
    made.gas("natural gas", {"methane": 100.0, "ammonia": 0.0})

    assert told(made) == {}
    assert np.isfinite(made.measured().gas["fence gas"].carbon.values).all()


def test_readings_of_the_line_must_have_the_rhythm_of_the_meter() -> None:
    """A daily volume with a monthly temperature is told, and no figure is given."""
    made = fence(celsius=20.0, pressure=("kPa", 4000.0))
    made.series.pop("TT-1")
    made.meters = [one for one in made.meters if one["tag"] != "TT-1"]
    made.meter("TT-1", "celsius", 20.0, "monthly")

    assert "rows-that-do-not-match" in told(made)
    assert np.isnan(made.measured().gas["fence gas"].carbon.values).all()


def test_a_gas_at_line_conditions_may_join_a_mixed_meter() -> None:
    """What a line meter counted is taken off a mixed meter in Nm3 at its reference condition."""
    made = fence(celsius=20.0, pressure=("kPa", 4000.0), volume=1000.0)
    made.streams[0] |= {"role": "purge gas", "to": "fuel"}
    made.meter("FT-2", "Nm3", 1.0e6, "daily")
    mixed = {"position": "after mixing", "mixed_with": ["fence gas"], "burner": "reformer"}
    made.stream("fuel gas", "fuel", "FT-2", analysis="natural gas", **mixed)

    measured = made.measured()
    both = measured.gas["fuel gas"].amount.values + measured.gas["fence gas"].amount.values

    plain = fence(metered="Nm3", volume=1.0e6).measured().gas["fence gas"].amount.values
    assert both == pytest.approx(plain, rel=1e-12)


def test_the_water_of_a_wet_gas_takes_its_share_in_the_line() -> None:
    """Saturated at 300 K and 4 MPa the dry gas is less by saturation pressure over pressure.

    Source: saturation pressure at 300 K by IAPWS R7-97(2012), table 35.
    """
    made = fence(celsius=26.85, pressure=("kPa", 4000.0))
    wet = fence(celsius=26.85, pressure=("kPa", 4000.0))
    wet.streams[0]["water"] = dict(LINE)

    dry, found = (one.measured().gas["fence gas"].amount.values for one in (made, wet))

    assert found == pytest.approx(dry * (1 - 3.53658941 / 4000), rel=1e-9)


def test_a_monthly_meter_takes_each_sample_by_its_days() -> None:
    """A month with two gases is shared by days, each with its own compression factor."""
    made = fence("monthly", celsius=20.0, pressure=("kPa", 4000.0))
    made.analyses, made.gases = [], {}
    both = {"methane": [100.0, 90.0], "ethane": [0.0, 10.0]}
    made.gas("natural gas", both, [date(YEAR, 1, 1), date(YEAR, 1, 11)])

    january = made.measured().gas["fence gas"].amount.values[0]

    alone = []
    for place, days in ((0, 10), (1, 21)):
        one = fence("monthly", celsius=20.0, pressure=("kPa", 4000.0), volume=VOLUME * days / 31)
        one.analyses, one.gases = [], {}
        one.gas("natural gas", {name: values[place] for name, values in both.items()})
        alone.append(one.measured().gas["fence gas"].amount.values[0])
    assert january == pytest.approx(sum(alone), rel=1e-12)
