from __future__ import annotations

import csv
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook

from footprint.read.site import Site
from tests.sites.builders import (
    MIXED_BURNER,
    Built,
    monthly_works,
    works_with_fuel_meter_after_mixing,
    works_without_removal_and_vent_meters,
)

BUILDERS = [
    monthly_works,
    works_with_fuel_meter_after_mixing,
    works_without_removal_and_vent_meters,
]


@pytest.mark.parametrize("build", BUILDERS)
def test_site_points_to_columns_that_exist(build: Callable[[Path], Built], tmp_path: Path) -> None:
    """Every meter of a built site has its file, sheet and heading, with one number a row."""
    folder = build(tmp_path).folder

    site = _site(folder)

    for meter in site.meters:
        rows = {"monthly": 12, "stock": 13, "tickets": len(_tickets(folder))}[meter.rows]
        if meter.rows != "tickets":
            assert len(_column(folder, meter.tag)) == rows


@pytest.mark.parametrize("build", BUILDERS)
def test_meters_without_error_read_the_truth(
    build: Callable[[Path], Built], tmp_path: Path
) -> None:
    """Volumes and masses written down are the true ones, to twelve digits."""
    built = build(tmp_path)

    for tag, name in {
        "FT-101": "purchased gas/volume at 15 °C",
        "FT-111": "feed gas/volume",
        "FT-131": "boiler fuel gas/volume",
        "FT-141": "purge gas/volume",
        "FT-211": "CO2 to urea/wet volume",
        "FT-301": "ammonia produced/product",
        "FT-511": "steam to urea",
    }.items():
        assert _column(built.folder, tag) == pytest.approx(_months(built, name), rel=1e-11)


def test_meter_after_mixing_counts_the_joining_gases(tmp_path: Path) -> None:
    """The mixed meter reads fuel, purge and flash gases; without them it would be the fuel alone.

    Volumes of different gases add up to 0.5 % only, because real gases mix.
    """
    built = works_with_fuel_meter_after_mixing(tmp_path)
    names = ("reformer fuel gas", "purge gas", "let-down gas", "solvent flash gas")

    parts = sum(sum(_months(built, f"{name}/volume")) for name in names)
    stream = next(s for s in _site(built.folder).streams if s.name == "reformer fuel gas")

    assert sum(_column(built.folder, "FT-121")) == pytest.approx(parts, rel=5e-3)
    assert sum(_column(built.folder, "FT-121")) > 1.4 * sum(_months(built, f"{names[0]}/volume"))
    assert stream.position == "after mixing"
    assert _site(built.folder).meter("FT-121").column == MIXED_BURNER


def test_twin_sites_have_the_same_truth(tmp_path: Path) -> None:
    """Moving the fuel meter behind the mixing changes what is read, not what flows."""
    folders = [tmp_path / name for name in ("before", "after")]
    for folder in folders:
        folder.mkdir()

    before = monthly_works(folders[0])
    after = works_with_fuel_meter_after_mixing(folders[1])

    assert before.truth == after.truth
    assert _column(before.folder, "FT-121") != _column(after.folder, "FT-121")


def test_unmetered_works_says_nothing_of_removal_and_vent(tmp_path: Path) -> None:
    """Neither the site file nor the spreadsheet knows the meters of removed and vented CO2."""
    built = works_without_removal_and_vent_meters(tmp_path)

    roles = {stream.role for stream in _site(built.folder).streams}
    headings = [
        str(value) for row in _rows(built.folder, "co2.xlsx", "CO2 header") for value in row
    ]

    assert roles.isdisjoint({"CO2 removed", "CO2 vented"})
    assert "CO2 to urea" in roles
    assert not any(word in heading for heading in headings for word in ("Overhead", "Vent"))


def _site(folder: Path) -> Site:
    return Site.model_validate(tomllib.loads((folder / "site.toml").read_text(encoding="utf-8")))


def _months(built: Built, name: str) -> list[float]:
    months: list[float] = built.truth["quantities"][name]["months"]
    return months


def _tickets(folder: Path) -> list[list[str]]:
    with (folder / "co2_sales.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))[1:]


def _rows(folder: Path, file: str, sheet: str) -> list[tuple[Any, ...]]:
    return list(load_workbook(folder / file, read_only=False)[sheet].values)


def _column(folder: Path, tag: str) -> list[float]:
    """Return the dated numbers below the heading of a meter."""
    meter = _site(folder).meter(tag)
    rows = _rows(folder, meter.file, str(meter.sheet))
    header = next(row for row in rows if row[0] == meter.date_column)
    place = next(
        n for n, words in enumerate(header) if str(words).partition(" (")[0] == meter.column
    )
    return [float(row[place]) for row in rows if hasattr(row[0], "year")]
