"""What the site file says of a meter settles units that are refused without it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from footprint.base.finding import Finding
from footprint.base.units import unit
from footprint.read.readings import Readings
from tests.findings.site_folder import MONTHS, SiteFolder, good_site, table


def with_line(path: Path, feed: str = "Feed gas (m3)", pressure: str = "bar(a)") -> SiteFolder:
    """Return the good site with a feed meter at line conditions."""
    folder = good_site(path)
    sheet = folder.sheet("Gas")
    sheet[2] = [sheet[2][0], feed, sheet[2][2], "Line temperature (°C)", f"Pressure ({pressure})"]
    for row in sheet[3:]:
        row += [15.0, 20.0]
    common = {"file": "meters.xlsx", "sheet": "Gas"}
    folder.site["meters"] += [
        {"tag": "TT-1", "column": "Line temperature", **common},
        {"tag": "PT-1", "column": "Pressure", **common},
    ]
    folder.stream("feed")["line"] = {"temperature": "TT-1", "pressure": "PT-1"}
    return folder


def with_bill(path: Path, heading: str, amount: float = 1.0e6) -> SiteFolder:
    """Return the good site with a supplier's bill for its feed gas."""
    folder = good_site(path)
    folder.books["meters.xlsx"]["Bills"] = table(["Month", heading], MONTHS, [amount])
    bill = {"tag": "BILL", "file": "meters.xlsx", "sheet": "Bills", "column": "Billed"}
    folder.site["meters"].append({**bill, "rows": "monthly", "date_column": "Month"})
    folder.stream("feed")["invoiced"] = "BILL"
    return folder


def units_read(folder: SiteFolder, tag: str) -> tuple[Any, list[str]]:
    """Return the unit of a meter and the codes of all findings."""
    readings, findings = folder.read()
    assert isinstance(readings, Readings)
    series = readings.series.get(tag)
    return series.unit if series else None, codes(findings)


def codes(findings: list[Finding]) -> list[str]:
    """Return the codes of findings."""
    return [one.code for one in findings]


@pytest.mark.parametrize(
    ("heading", "name"),
    [
        ("Feed gas (m3)", "m3_line"),
        ("Feed gas, m³", "m3_line"),
        ("Feed gas [m3 (line)]", "m3_line"),
        ("Feed gas, m3 line", "m3_line"),
        ("Feed gas (1000 m3)", "km3_line"),
        ("Feed gas (m3 at line conditions)", "m3_line"),
    ],
)
def test_a_cubic_metre_of_a_stream_with_a_line_flows(
    heading: str, name: str, tmp_path: Path
) -> None:
    """Where the stream states its line, a bare cubic metre is one as it flows."""
    assert units_read(with_line(tmp_path, heading), "FT-1") == (unit(name), [])


def test_a_bare_cubic_metre_without_a_line_stays_refused(tmp_path: Path) -> None:
    """Without a line nothing tells what a cubic metre holds."""
    folder = with_line(tmp_path)
    folder.stream("feed").pop("line")

    found, told = units_read(folder, "FT-1")

    assert found is None
    assert "gas-volume-without-conditions" in told


def test_a_cubic_foot_is_not_settled_by_a_line(tmp_path: Path) -> None:
    """A cubic foot does not become a cubic metre."""
    found, told = units_read(with_line(tmp_path, "Feed gas (ft3)"), "FT-1")

    assert found is None
    assert told == ["gas-volume-without-conditions"]


@pytest.mark.parametrize(
    ("written", "name"), [("m3 at line conditions", "m3_line"), ("Nm3", "Nm3")]
)
def test_the_unit_in_the_site_file_settles_the_heading(
    written: str, name: str, tmp_path: Path
) -> None:
    """The site file's own unit of a meter decides, also against the line of the stream."""
    folder = with_line(tmp_path)
    folder.meter("FT-1")["unit"] = written

    assert units_read(folder, "FT-1") == (unit(name), [])


def test_a_gauge_pressure_is_read_where_the_atmosphere_is_stated(tmp_path: Path) -> None:
    """With the pressure of the atmosphere in the site file, bar(g) is a unit like others."""
    folder = with_line(tmp_path, pressure="bar(g)")
    folder.site["works"]["atmospheric_pressure_kpa"] = 101.0

    assert units_read(folder, "PT-1") == (unit("bar_gauge"), [])


@pytest.mark.parametrize("written", ["barg", "kPa (g)", "kPa gauge", "MPag"])
def test_gauge_pressures_as_people_write_them(written: str, tmp_path: Path) -> None:
    """The usual spellings of a gauge pressure are understood."""
    folder = with_line(tmp_path, pressure=written)
    folder.site["works"]["atmospheric_pressure_kpa"] = 101.0

    found, told = units_read(folder, "PT-1")

    assert (found, told) == (unit({"b": "bar", "k": "kPa", "M": "MPa"}[written[0]] + "_gauge"), [])


def test_a_gauge_pressure_below_the_atmosphere_is_a_reading(tmp_path: Path) -> None:
    """A slight vacuum is a negative gauge pressure and no fault."""
    folder = with_line(tmp_path, pressure="bar(g)")
    folder.site["works"]["atmospheric_pressure_kpa"] = 101.0
    folder.put("Gas", "E66", -0.02)

    assert units_read(folder, "PT-1") == (unit("bar_gauge"), [])


def test_a_gauge_pressure_without_the_atmosphere_stays_refused(tmp_path: Path) -> None:
    """Without the pressure of the atmosphere a gauge pressure cannot be used."""
    found, told = units_read(with_line(tmp_path, pressure="bar(g)"), "PT-1")

    assert (found, told) == (None, ["gauge-pressure"])


@pytest.mark.parametrize(
    ("heading", "name"),
    [
        ("Billed, MWh (gross)", "MWh_gross"),
        ("Billed, GJ (gross)", "GJ_gross"),
        ("Billed, kWh (GCV)", "kWh_gross"),
    ],
)
def test_a_bill_is_in_gross_energy(heading: str, name: str, tmp_path: Path) -> None:
    """A supplier's bill is read in gross energy, and no finding says that it is not used."""
    assert units_read(with_bill(tmp_path, heading), "BILL") == (unit(name), [])


@pytest.mark.parametrize("heading", ["Billed, MWh", "Billed, GJ (net)", "Billed, Nm3"])
def test_a_bill_in_another_unit_is_refused(heading: str, tmp_path: Path) -> None:
    """Electricity, net energy and volume are no gross energy."""
    assert units_read(with_bill(tmp_path, heading), "BILL") == (None, ["bad-unit-for-role"])


def test_a_month_of_credit_is_no_fault(tmp_path: Path) -> None:
    """A bill may be below zero, because a supplier pays back."""
    folder = with_bill(tmp_path, "Billed, MWh (gross)", -20.0)

    assert units_read(folder, "BILL") == (unit("MWh_gross"), [])
