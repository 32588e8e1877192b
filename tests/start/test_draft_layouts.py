"""Drafts of sheets that are laid out in many ways; every layout is common practice, no source."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from footprint.start import Draft, draft
from tests.start.sheets import MONTHS, SHORT, YEAR, days_of, hours_of, write, write_text


def entries(drafted: Draft, kind: str) -> dict[str, dict[str, Any]]:
    """Return the active entries of a draft by tag, name or gas."""
    name = {"meters": "tag", "streams": "name", "analyses": "gas"}[kind]
    return {one[name]: one for one in tomllib.loads(drafted.text).get(kind, [])}


def asked(drafted: Draft) -> str:
    """Return all questions of a draft and the keys below them, on one line."""
    lines = [line for line in drafted.text.splitlines() if line.startswith("#")]
    return " ".join(line.removeprefix("# ") for line in lines)


def test_streams_across(tmp_path: Path) -> None:
    """One sheet, a row a day, a column a stream: heading, unit, rows and role of each are found."""
    rows = [
        ["Invented works"],
        [],
        ["Date", "Feed gas (Nm3)", "Reformer fuel gas (Nm3)", "Ammonia produced (t)"],
        *[[day, 721_000.5, 208_000.5, 1170.5] for day in days_of(date(YEAR, 1, 1), 31)],
    ]
    path = write(tmp_path / "gas.xlsx", {"Daily": rows})

    drafted = draft([path])

    meters, streams = entries(drafted, "meters"), entries(drafted, "streams")
    assert meters["Feed gas"] == {
        "tag": "Feed gas",
        "file": "gas.xlsx",
        "sheet": "Daily",
        "rows": "daily",
        "date_column": "Date",
        "column": "Feed gas",
    }
    assert streams["Feed gas"]["role"] == "feed"
    assert streams["Reformer fuel gas"]["burner"] == "reformer"
    assert streams["Ammonia produced"]["role"] == "ammonia produced"
    assert 'B3 "Feed gas (Nm3)": 31 numbers in B4:B34, unit "Nm3"' in drafted.text


def test_one_sheet_a_month(tmp_path: Path) -> None:
    """Twelve sheets with the same headings are one series; the cover is no part of it."""
    sheets: dict[str, Any] = {"Cover": [["Invented works, gas of the year"]]}
    for name, first in zip(SHORT, MONTHS, strict=True):
        days = [[day, 700_000.5 + day.day] for day in days_of(first, 28)]
        sheets[name] = [["Date", "Feed gas (Nm3)"], *days]
    path = write(tmp_path / "gas.xlsx", sheets)

    drafted = draft([path])

    meter = entries(drafted, "meters")["Feed gas"]
    assert (meter["sheet"], meter["rows"]) == ("*", "daily")
    assert len(entries(drafted, "meters")) == 1
    assert "12 tables with the same headings" in drafted.text
    assert "gas.xlsx > Cover was left out" in asked(drafted)


def test_one_sheet_a_month_beside_another_table(tmp_path: Path) -> None:
    """Where the pattern of sheets also fits another table, the pattern is a question."""
    sheets: dict[str, Any] = {
        name: [["Date", "Feed gas (Nm3)"], *[[day, 7.5] for day in days_of(first, 28)]]
        for name, first in zip(SHORT, MONTHS, strict=True)
    }
    sheets["Power"] = [["Month", "Power bought (MWh)"], *[[month, 4900.5] for month in MONTHS]]
    path = write(tmp_path / "works.xlsx", sheets)

    drafted = draft([path])

    assert "sheet" not in entries(drafted, "meters")["Feed gas"]
    assert 'the pattern also fits "Power": does that belong to it? sheet = "*"' in asked(drafted)


def test_one_file_a_month(tmp_path: Path) -> None:
    """Files with the same headings and months that follow each other are one series."""
    paths = [
        write_text(
            tmp_path / f"gas_{first:%Y-%m}.csv",
            [
                "Date;Feed gas (Nm3)",
                *[f"{day};{700_000 + day.day},5" for day in days_of(first, 28)],
            ],
        )
        for first in MONTHS[:3]
    ]

    drafted = draft(paths)

    meter = entries(drafted, "meters")["Feed gas"]
    assert meter["file"] == "gas_2025-0*.csv"
    assert "sheet" not in meter


def test_one_file_a_stream(tmp_path: Path) -> None:
    """Files with nothing but Date and Value take their role from the name of the file."""
    paths = [
        write_text(
            tmp_path / f"{name}.csv",
            ["Date,Value (Nm3)", *[f"{day},{700.5 + day.day}" for day in days_of(MONTHS[0], 31)]],
        )
        for name in ("feed_gas", "boiler_fuel", "purge_gas")
    ]

    drafted = draft(paths)

    roles = {one["role"] for one in entries(drafted, "streams").values()}
    assert roles == {"feed", "fuel", "purge gas"}
    assert len(entries(drafted, "meters")) == 3
    assert 'role = "feed"                     # the words of B1 "Value (Nm3)" in "feed_gas"' in (
        drafted.text
    )


def test_months_across(tmp_path: Path) -> None:
    """Months in a row, a stream a row: the sheet is read across, with the row of its months."""
    rows = [
        ["Energy, invented works"],
        [],
        ["Stream", "Unit", *[f"{name} {YEAR}" for name in SHORT]],
        ["Power bought", "MWh", *[4900.5 + place for place in range(12)]],
        ["Steam to urea", "t", *[27_000.5 - place for place in range(12)]],
    ]
    path = write(tmp_path / "energy.xlsx", {"Year": rows})

    drafted = draft([path])

    meter = entries(drafted, "meters")["Power bought"]
    assert meter["across"] is True
    assert meter["rows"] == "monthly"
    assert meter["date_column"] == "Stream"
    assert entries(drafted, "streams")["Steam to urea"]["role"] == "steam exported"
    assert '12 numbers in C4:N4, unit "MWh"' in drafted.text


def test_months_without_their_year(tmp_path: Path) -> None:
    """Months that do not name their year are read as those of the works' year, which is asked."""
    rows = [["Stream", *SHORT], ["Power bought (MWh)", *[4900.5 + place for place in range(12)]]]
    path = write(tmp_path / "energy.xlsx", {"Year": rows})

    drafted = draft([path])

    assert entries(drafted, "meters")["Power bought"]["rows"] == "monthly"
    assert "year" not in tomllib.loads(drafted.text)["works"]
    assert "no date names a year: which year? year = 2025" in asked(drafted)
    assert "the months in B1:M1 stand without their year" in asked(drafted)


def test_hourly_with_blanks(tmp_path: Path) -> None:
    """Hours are told from their number a day, blanks are named by cell, a rate is a question."""
    hours = hours_of(date(YEAR, 1, 1), 24 * 10)
    rows = [["Time stamp", "FT-101 Feed gas"], ["", "Nm3/h"]]
    rows += [[hour, None if place in (5, 6) else 30_000.5] for place, hour in enumerate(hours)]
    path = write(tmp_path / "hours.xlsx", {"Trend": rows})

    drafted = draft([path])

    meter = entries(drafted, "meters")["FT-101"]
    assert (meter["rows"], meter["column"]) == ("hourly", "FT-101 Feed gas")
    assert "counts" not in meter
    assert '"Nm3/h" is per time: is each reading the mean of its period? counts = "rate"' in asked(
        drafted
    )
    assert "2 dates have no reading, B8, B9" in asked(drafted)


def test_hours_of_the_day_of_the_clock_change(tmp_path: Path) -> None:
    """A day of 23 rows asks for the time zone."""
    hours = [hour for hour in hours_of(date(YEAR, 3, 28), 24 * 5) if f"{hour:%d%H}" != "3001"]
    rows = [["Time", "Feed gas (Nm3)"], *[[hour, 30_000.5] for hour in hours]]
    path = write(tmp_path / "hours.xlsx", {"Trend": rows})

    drafted = draft([path])

    assert 'in which zone? time_zone = "Europe/Dublin"' in asked(drafted)


def test_cumulative_index(tmp_path: Path) -> None:
    """A column that says index and only grows is a counter; where it falls, that is a question."""
    values = [99_500.0 + 100 * day for day in range(5)] + [20.0 + 100 * day for day in range(26)]
    days = days_of(date(YEAR, 1, 1), 31)
    rows = [["Date", "Feed gas, meter index (Nm3)"]]
    rows += [[day, value] for day, value in zip(days, values, strict=True)]
    path = write(tmp_path / "index.xlsx", {"Index": rows})

    drafted = draft([path])

    meter = next(iter(entries(drafted, "meters").values()))
    assert meter["counts"] == "index"
    assert "the heading says so, and 29 of 30 steps in B2:B32 go up" in drafted.text
    assert "goes back from 99900 to 20: did it roll over, at 100000" in asked(drafted)
    assert "index = { rolls_over_at = 100000.0 }" in asked(drafted)


def test_growing_column_that_does_not_say_index(tmp_path: Path) -> None:
    """Numbers that only grow, under a heading of an amount, are a question and nothing more."""
    days = days_of(date(YEAR, 1, 1), 31)
    rows = [["Date", "Feed gas (Nm3)"]]
    rows += [[day, 5_000_000.0 + 700 * place] for place, day in enumerate(days)]
    path = write(tmp_path / "gas.xlsx", {"Gas": rows})

    drafted = draft([path])

    assert "counts" not in entries(drafted, "meters")["Feed gas"]
    assert (
        'B2:B32 only grows: is it a counter, whose differences are the amounts? counts = "index"'
        in (asked(drafted))
    )


def test_tickets_with_net_weight(tmp_path: Path) -> None:
    """A list of loads is read by its net weight; numbers of tickets are no readings."""
    lines = ["Date,Ticket,Vehicle,Gross (t),Tare (t),Net (t)"]
    for place, day in enumerate(days_of(date(YEAR, 1, 1), 40)):
        lines += [f"{day},{5000 + 2 * place + load},TK 1,40.5,19.1,21.4" for load in (0, 1)]
    path = write_text(tmp_path / "co2_sales.csv", lines)

    drafted = draft([path])

    meters = entries(drafted, "meters")
    assert list(meters) == ["Net"]
    assert meters["Net"]["rows"] == "tickets"
    assert entries(drafted, "streams")["Net"]["role"] == "CO2 sold"
    assert "is_counted_elsewhere = false" in asked(drafted)


def test_tickets_with_gross_and_tare(tmp_path: Path) -> None:
    """Without a column of net weights, the tare is named beside the gross weight."""
    lines = ["Date,Waybill,Gross (t),Tare (t)"]
    lines += [f"{day},{day.day},40.5,19.1" for day in days_of(date(YEAR, 1, 1), 31)]
    path = write_text(tmp_path / "ammonia_dispatch.csv", lines)

    drafted = draft([path])

    meter = entries(drafted, "meters")["Gross"]
    assert (meter["column"], meter["tare_column"]) == ("Gross", "Tare")
    assert entries(drafted, "streams")["Gross"]["role"] == "ammonia sold"


def test_analysis_certificates_by_sample(tmp_path: Path) -> None:
    """Components in the headings make an analysis: method and dry are found, the rest is asked."""
    rows = [
        ["Natural gas, chromatograph, mole per cent, dry"],
        ["Sampled", "Method", "CH4", "C2H6", "C6+", "N2", "CO2", "Total"],
        *[[day, "ISO 6974", 92.1, 4.2, 0.1, 2.6, 1.0, 100] for day in MONTHS],
    ]
    path = write(tmp_path / "lab.xlsx", {"Natural gas": rows})

    drafted = draft([path])

    analysis = entries(drafted, "analyses")["natural gas"]
    assert (analysis["unit"], analysis["moisture"]) == ("mol-%", "dry")
    assert analysis["method_column"] == "Method"
    assert "represents" not in analysis
    assert "does a sample hold until the next one" in asked(drafted)
    assert 'E2 "C6+" sums up heavier hydrocarbons' in asked(drafted)
    assert "Total" not in asked(drafted)
    assert entries(drafted, "meters") == {}


def test_components_down_and_samples_across(tmp_path: Path) -> None:
    """A table with components one below another and a column a sample is read across."""
    rows = [
        ["Component", *MONTHS],
        ["CH4 (mol-%)", *[92.5] * 12],
        ["C2H6 (mol-%)", *[5.0] * 12],
        ["N2 (mol-%)", *[2.5] * 12],
    ]
    path = write(tmp_path / "lab.xlsx", {"Natural gas": rows})

    drafted = draft([path])

    analysis = entries(drafted, "analyses")["natural gas"]
    assert analysis["across"] is True
    assert analysis["date_column"] == "Component"
    assert "are the shares those of the dry gas?" in asked(drafted)


def test_certificate_of_one_sample(tmp_path: Path) -> None:
    """A sheet with one sample, components one below another, asks for a table of all samples."""
    rows = [["Certificate 17"], ["Methane", 92.5], ["Ethane", 5.0], ["Nitrogen", 2.5]]
    path = write(tmp_path / "certificate.xlsx", {"Sheet1": rows})

    drafted = draft([path])

    assert entries(drafted, "analyses") == {}
    assert "is it the certificate of one sample?" in asked(drafted)


def test_invoices(tmp_path: Path) -> None:
    """Two columns of dates are the first and the last day of a billing period."""
    rows = [["From", "To", "Gas purchased (GJ gross)"]]
    rows += [[first, days_of(first, 28)[-1], 1_150_000.5] for first in MONTHS]
    path = write(tmp_path / "bills.xlsx", {"Bills": rows})

    drafted = draft([path])

    meter = entries(drafted, "meters")["Gas purchased"]
    assert (meter["rows"], meter["date_column"], meter["to_column"]) == ("invoices", "From", "To")


def test_second_column_of_dates_that_ends_no_period(tmp_path: Path) -> None:
    """A date of entry beside the day of a reading makes no bill of it."""
    rows = [["Date", "Feed gas (Nm3)", "Entered on"]]
    rows += [[day, 700.5, day] for day in days_of(MONTHS[0], 31)]
    path = write(tmp_path / "gas.xlsx", {"Gas": rows})

    drafted = draft([path])

    assert entries(drafted, "meters")["Feed gas"]["rows"] == "daily"
    assert "to_column" not in drafted.text


def test_stock_at_the_turn_of_months(tmp_path: Path) -> None:
    """Thirteen first days of months under the word tank are a stock."""
    turns = [*MONTHS, date(YEAR + 1, 1, 1)]
    rows = [["Date", "Ammonia tank (t)"], *[[day, 11_000.5] for day in turns]]
    path = write(tmp_path / "stock.xlsx", {"Tanks": rows})

    drafted = draft([path])

    assert entries(drafted, "meters")["Ammonia tank"]["rows"] == "stock"
    assert entries(drafted, "streams")["Ammonia tank"]["role"] == "ammonia stock"


def test_weekly_rows(tmp_path: Path) -> None:
    """Dates seven days apart are weekly rows."""
    days = days_of(date(YEAR, 1, 6), 7 * 20)[::7]
    rows = [["Week from", "Feed gas (Nm3)"], *[[day, 5_000_000.5] for day in days]]
    path = write(tmp_path / "gas.xlsx", {"Gas": rows})

    drafted = draft([path])

    assert entries(drafted, "meters")["Feed gas"]["rows"] == "weekly"


@pytest.mark.parametrize(
    ("heading", "role"),
    [
        ("Process feed", "feed"),
        ("Boiler gas (Nm3)", "fuel"),
        ("Purge gas", "purge gas"),
        ("MDEA flash gas", "solvent flash gas"),
        ("CO2 overhead", "CO2 removed"),
        ("CO₂ to urea", "CO2 to urea"),
        ("CO2 vent", "CO2 vented"),
        ("Urea production", "urea"),
        ("NH3 sold", "ammonia sold"),
        ("Power import", "power bought"),
        ("Electricity generated", "power made"),
        ("Steam export", "steam exported"),
        ("Diesel", "other fuel"),
        ("Running hours", "hours on line"),
        ("Starts", "starts"),
        ("Trips", "trips"),
    ],
)
def test_trade_words_speak_for_a_role(tmp_path: Path, heading: str, role: str) -> None:
    """A heading in the words of the trade leads to the role of its stream."""
    rows = [["Month", heading], *[[month, 10.5] for month in MONTHS]]
    path = write(tmp_path / "sheet.xlsx", {"Sheet1": rows})

    drafted = draft([path])

    assert [one["role"] for one in entries(drafted, "streams").values()] == [role]


@pytest.mark.parametrize(
    ("heading", "doubt"),
    [
        ("Natural gas (Nm3)", '"purchased gas", "feed" or "fuel"'),
        ("Flash gas (Nm3)", '"let-down gas", "flash gas" or "solvent flash gas"'),
        ("CO2 (t)", '"CO2 removed", "CO2 to urea", "CO2 sold" or "CO2 vented"'),
        ("Power (MWh)", '"power bought", "power made" or "power exported"'),
        ("Ammonia produced (MWh)", '"ammonia produced" is counted in tonnes, not in MWh'),
    ],
)
def test_doubtful_words_are_a_question(tmp_path: Path, heading: str, doubt: str) -> None:
    """A heading that may mean several roles, or whose unit does not fit, makes no stream."""
    rows = [["Month", heading], *[[month, 10.5] for month in MONTHS]]
    path = write(tmp_path / "sheet.xlsx", {"Sheet1": rows})

    drafted = draft([path])

    assert entries(drafted, "streams") == {}
    assert doubt in asked(drafted)


def test_provisional_and_final_values(tmp_path: Path) -> None:
    """A column that holds nothing but provisional, final and corrected is named with its words."""
    rows = [["Month", "Power bought (MWh)", "State of value"]]
    rows += [[month, 4900.5, "final" if month.month < 6 else "provisional"] for month in MONTHS]
    path = write(tmp_path / "energy.xlsx", {"Power": rows})

    drafted = draft([path])

    assert entries(drafted, "meters")["Power bought"]["status_column"] == "State of value"
    assert "it holds final, provisional" in drafted.text


def test_two_columns_of_states_are_a_question(tmp_path: Path) -> None:
    """Of two columns that both hold final values' words, none is taken."""
    rows = [["Month", "Power bought (MWh)", "Ours", "Theirs"]]
    rows += [[month, 4900.5, "final", "provisional"] for month in MONTHS]
    path = write(tmp_path / "energy.xlsx", {"Power": rows})

    drafted = draft([path])

    assert "status_column" not in entries(drafted, "meters")["Power bought"]
    assert 'whether a value is final: "Ours" or "Theirs"?' in asked(drafted)
