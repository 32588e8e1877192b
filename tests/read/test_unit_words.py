from __future__ import annotations

import pytest

from footprint.base.units import ratio_of, unit
from footprint.read.fault import Refusal
from footprint.read.unit_words import is_unit_like, unit_named

KNOWN = [
    *[(text, "Nm3") for text in ("Nm3", "Nm³", "Nm^3", "nm3", "NM3", "Nm3 (0 °C, 101.325 kPa)")],
    *[(text, "kNm3") for text in ("kNm3", "1000 Nm3", "thousand Nm³", "10^3 Nm3")],
    *[(text, "MNm3") for text in ("MNm3", "million Nm3")],
    *[(text, "Sm3") for text in ("Sm3", "Sm³", "Sm3 (15 °C, 101.325 kPa)", "m3 (15 °C)")],
    ("m3 (20 °C)", "m3_20C"),
    *[(text, "m3_line") for text in ("m3 (line)", "m³ line", "m3 at line conditions", "Am3")],
    ("1000 m3 (line)", "km3_line"),
    ("scf (60 °F)", "scf_60F"),
    ("kscf (60 °F)", "kscf_60F"),
    ("MMscf (60 °F)", "Mscf_60F"),
    *[(text, "tonne") for text in ("t", "T", "tonnes", "metric ton")],
    *[(text, "t_NH3") for text in ("t NH3", "t NH₃", "t (100 % NH3)", "tonnes ammonia")],
    *[(text, "kg_CO2") for text in ("kg CO2", "kg CO₂")],
    *[(text, "MWh") for text in ("MWh", "MWH", "MWh el")],
    *[(text, "GJ_gross") for text in ("GJ (gross)", "GJ HHV", "GJ (GCV)")],
    *[(text, "kWh_gross") for text in ("kWh (gross)", "kWh HHV")],
    *[(text, "MWh_net") for text in ("MWh (net)", "MWh LHV")],
    *[(text, "hour") for text in ("h", "hrs", "hours")],
    *[(text, "percent") for text in ("%", "% N", "wt-%", "% by mass", "% m/m")],
    *[(text, "celsius") for text in ("°C", "deg C", "ºC")],
    *[(text, "bar") for text in ("bar(a)", "bara", "bar abs")],
    *[(text, "kPa") for text in ("kPa(a)", "kPa abs", "kPaa")],
    *[(text, "litre") for text in ("L", "l", "litres")],
]
REFUSED = {
    "gas-volume-without-conditions": ("m3", "m³", "1000 m3", "scf", "ft3", "kscf"),
    "unit-is-a-rate": ("Nm3/h", "t/d", "MW", "kg/hr", "tpd", "Nm3 per hour", "kNm3/day"),
    "gauge-pressure": ("bar(g)", "barg", "kPa (g)", "bar gauge"),
    "pressure-without-reference": ("kPa", "bar"),
    "energy-without-net-or-gross": ("GJ", "TJ", "MMBtu", "therm"),
    "ambiguous-unit": ("ton", "tons", "MT", "Mscf", "Mscf (60 °F)", "Mcf"),
    "per-cent-by-mole": ("mol-%", "mol %", "mole %", "mol.-%"),
    "unknown-unit": ("Nm4", "foo", "", "bbl", "mNm3"),
}


@pytest.mark.parametrize(("text", "name"), KNOWN)
def test_unit_is_known_as_people_write_it(text: str, name: str) -> None:
    """The usual spellings of a unit are understood, and stand for a unit of the house."""
    assert unit_named(text) == name
    assert ratio_of(unit(name), unit(name)) == 1


@pytest.mark.parametrize(("code", "text"), [(code, t) for code, ts in REFUSED.items() for t in ts])
def test_unit_that_leaves_something_open_is_refused(code: str, text: str) -> None:
    """A unit that leaves something open is refused with the name of what is open."""
    found = unit_named(text)

    assert isinstance(found, Refusal)
    assert found.code.code == code


def test_unknown_unit_offers_the_nearest() -> None:
    """A misspelt unit is refused with an offer."""
    found = unit_named("Nm4")

    assert isinstance(found, Refusal)
    assert found.mend == 'write "Nm3", if that is meant'


def test_word_that_is_no_unit_is_told_from_one() -> None:
    """The tail of a heading is a unit if it is one, or one that leaves something open."""
    assert is_unit_like("m3")
    assert is_unit_like("Nm3")
    assert not is_unit_like("corrected")
