"""Drafts whose questions were answered, read by the reader: each layout gives its own readings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from footprint.read import read
from footprint.start import draft
from tests.start.sheets import (
    MONTHS,
    SHORT,
    YEAR,
    answered,
    days_of,
    hours_of,
    write,
    write_text,
)

NEW_YEAR = date(YEAR, 1, 1)
DAYS = days_of(NEW_YEAR, 365)


@dataclass(frozen=True)
class Layout:
    """Sheets of one layout, the tag of a meter in them and what its readings sum to."""

    name: str
    build: Callable[[Path], list[Path]]
    tag: str
    total: float


def streams_across(folder: Path) -> list[Path]:
    """Write a row a day and a column a stream."""
    rows = [["Date", "Feed gas (Nm3)", "Boiler fuel (Nm3)"], *[[day, 700.5, 90.5] for day in DAYS]]
    return [write(folder / "gas.xlsx", {"Daily": rows})]


def one_sheet_a_month(folder: Path) -> list[Path]:
    """Write a sheet a month, beside a cover."""
    sheets: dict[str, list[list[object]]] = {"Cover": [["Invented works"]]}
    for month, name in enumerate(SHORT, 1):
        days = [day for day in DAYS if day.month == month]
        sheets[name] = [["Date", "Feed gas (Nm3)"], *[[day, 700.5] for day in days]]
    return [write(folder / "gas.xlsx", sheets)]  # type: ignore[arg-type]


def one_file_a_stream(folder: Path) -> list[Path]:
    """Write files of nothing but dates and values."""
    return [
        write_text(
            folder / f"{name}.csv", ["Date;Value (Nm3)", *[f"{day};{value}" for day in DAYS]]
        )
        for name, value in (("feed_gas", 700.5), ("boiler_fuel", 90.5))
    ]


def months_across(folder: Path) -> list[Path]:
    """Write a row a stream, its unit beside it, and a column a month."""
    rows = [
        ["Stream", "Unit", *[f"{name} {YEAR}" for name in SHORT]],
        ["Power bought", "MWh", *[4900.5 + place % 2 for place in range(12)]],
    ]
    return [write(folder / "energy.xlsx", {"Year": rows})]


def months_across_without_a_heading(folder: Path) -> list[Path]:
    """Write months in a row with nothing in front of them."""
    rows = [[None, *MONTHS], ["Power bought (MWh)", *[4900.5 + place % 2 for place in range(12)]]]
    return [write(folder / "energy.xlsx", {"Year": rows})]


def months_without_their_year(folder: Path) -> list[Path]:
    """Write months that do not name their year."""
    rows = [
        ["Stream", *SHORT],
        ["Power bought (MWh)", *[4900.5 + place % 2 for place in range(12)]],
    ]
    return [write(folder / "energy.xlsx", {"Year": rows})]


def hourly(folder: Path) -> list[Path]:
    """Write the amount of each hour of the year."""
    rows = [["Time", "Feed gas (Nm3)"], *[[hour, 30.5] for hour in hours_of(NEW_YEAR, 8760)]]
    return [write(folder / "trend.xlsx", {"Trend": rows})]


def cumulative_index(folder: Path) -> list[Path]:
    """Write a counter each day, from 1 January to 1 January, that rolls over on the way."""
    days = days_of(NEW_YEAR, 366)
    rows = [["Date", "Feed gas index (Nm3)"]]
    rows += [[day, (99_500.0 + 100 * place) % 100_000] for place, day in enumerate(days)]  # type: ignore[list-item]
    return [write(folder / "index.xlsx", {"Index": rows})]


def tickets_gross_and_tare(folder: Path) -> list[Path]:
    """Write two loads a day by gross weight and tare."""
    lines = ["Date,Waybill,Gross (t),Tare (t)"]
    for place, day in enumerate(DAYS):
        lines += [f"{day},{2 * place},40.5,19.1", f"{day},{2 * place + 1},41.5,19.1"]
    return [write_text(folder / "ammonia_dispatch.csv", lines)]


LAYOUTS = [
    Layout("streams across", streams_across, "Feed gas", 365 * 700.5),
    Layout("one sheet a month", one_sheet_a_month, "Feed gas", 365 * 700.5),
    Layout("one file a stream", one_file_a_stream, "Value, boiler_fuel", 365 * 90.5),
    Layout("months across", months_across, "Power bought", 12 * 4900.5 + 6),
    Layout("no heading", months_across_without_a_heading, "Power bought", 12 * 4900.5 + 6),
    Layout("bare months", months_without_their_year, "Power bought", 12 * 4900.5 + 6),
    Layout("hourly", hourly, "Feed gas", 8760 * 30.5),
    Layout("cumulative index", cumulative_index, "Feed gas index", 365 * 100.0),
    Layout("tickets", tickets_gross_and_tare, "Gross", 365 * (21.4 + 22.4)),
]


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda one: one.name)
def test_answered_draft_gives_the_readings(layout: Layout, tmp_path: Path) -> None:
    """The keys of a draft lead the reader to every reading of the sheet, and to no other."""
    gas = [["Natural gas, dry, mol-%"], ["Sampled", "CH4", "N2", "CO2"], [NEW_YEAR, 98, 1.5, 0.5]]
    gas.append([date(YEAR, 7, 1), 98.1, 1.4, 0.5])
    laboratory = write(tmp_path / "lab.xlsx", {"Natural gas": gas})
    text = draft([laboratory, *layout.build(tmp_path)]).text
    (tmp_path / "site.toml").write_text(answered(text), encoding="utf-8")

    readings, findings = read(tmp_path)

    assert readings is not None, [one.in_words() for one in findings]
    assert np.sum(readings.series[layout.tag].values) == pytest.approx(layout.total, rel=1e-12)
