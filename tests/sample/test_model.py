from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from openpyxl import load_workbook

from footprint.read.site import Site
from tests.sites.sample_modules import SAMPLE, TRUTH, brackwater, make_sample

WORKBOOKS = (
    "gas_meters.xlsx",
    "gas_analyses.xlsx",
    "co2.xlsx",
    "stocks.xlsx",
    "production.xlsx",
    "energy.xlsx",
    "operation.xlsx",
)
AIR = {"N": 2 * 0.78084, "O": 2 * 0.20946, "Ar": 0.0097}  # atoms in one molecule of dry air


@pytest.fixture(scope="module")
def year() -> Any:
    """Return the year at the works."""
    return brackwater("trade").build()


@pytest.fixture(scope="module")
def written(year: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with freshly written spreadsheets."""
    folder = tmp_path_factory.mktemp("sample")
    make_sample().write_sample(folder, year)
    return folder


@pytest.mark.parametrize("element", ["C", "H", "N", "O", "Ar"])
def test_atoms_that_enter_the_process_leave_it(year: Any, element: str) -> None:
    """Feed, air and steam hold as many atoms as all that leaves, every day of the year.

    Source: conservation of atoms.
    """
    gas, p = brackwater("gas"), year.works.process
    outlets = (p.start_up_vent, p.overhead, p.solvent_flash, p.purge, p.let_down, p.dissolved)

    entering = gas.atoms(p.feed, element) + p.air * AIR.get(element, 0.0)
    leaving = sum(gas.atoms(flow, element) for flow in outlets)
    entering = entering + (p.water_in - p.water_out) * {"H": 2, "O": 1}.get(element, 0)
    leaving = leaving + p.ammonia * {"N": 1, "H": 3}.get(element, 0)

    assert leaving == pytest.approx(entering, rel=1e-9, abs=1e-9)
    assert entering.sum() > 0


def test_carbon_bought_is_carbon_that_leaves(year: Any) -> None:
    """Carbon over the fence leaves as stack gas, vents, urea, liquid CO2, losses or in ammonia.

    Source: conservation of atoms.
    """
    truth = brackwater("truth").quantities(year)
    per_carbon = 44.0095 / 12.0107

    bought = truth["purchased gas/carbon"][1]
    leaving = (
        truth["stack/CO2"][1] / per_carbon
        + truth["start-up vent/carbon"][1]
        + truth["CO2 to urea/carbon"][1]
        + truth["CO2 to liquefaction/carbon"][1]
        + truth["CO2 vented/carbon"][1]
        + truth["gas dissolved in ammonia/carbon"][1]
    )

    assert leaving == pytest.approx(bought, rel=1e-9)


def test_tanks_hold_what_came_and_did_not_go(year: Any) -> None:
    """Stock changes of ammonia and liquid CO2 equal what was made less what left.

    Source: conservation of mass.
    """
    truth = {name: months for name, (_, months) in brackwater("truth").quantities(year).items()}

    ammonia = truth["ammonia produced"] - truth["ammonia to urea"]
    ammonia = ammonia - truth["ammonia sold"] - truth["ammonia losses"]
    co2 = truth["CO2 to liquefaction/CO2"] - truth["CO2 liquefaction loss/CO2"]
    co2 = co2 - truth["CO2 sold/CO2"]

    assert ammonia == pytest.approx(truth["ammonia stock change"], abs=1e-6)
    assert co2 == pytest.approx(truth["liquid CO2 stock change/CO2"], abs=1e-6)
    assert min(*year.ammonia.stock, *year.liquid_co2.stock) > 0


def test_a_section_that_loses_carbon_is_refused(year: Any) -> None:
    """A works whose vent leaves out a thousandth of its carbon does not pass its own check."""
    works = brackwater("works")
    leaking = replace(year.works, co2_vented=year.works.co2_vented * 0.999)

    with pytest.raises(ValueError, match="CO2 header does not close"):
        works._check(leaking)  # noqa: SLF001


def test_gas_volume_and_heat_meet_the_standards_example() -> None:
    """Molar volume and molar mass of the example gas come out as printed.

    Source: ISO 6976:2016, annex D, example 2 (15 °C); seen as quoted in public implementations.
    """
    gas = brackwater("gas")
    flow = gas.gas_of(1, CH4=0.933212, C2H6=0.025656, C3H8=0.015368, N2=0.01035, CO2=0.015414)

    volume, mass = gas.volume(flow, 15)[0], (flow @ gas.MOLAR_MASS)[0]

    assert volume == pytest.approx(23.591917, abs=1e-6)
    assert mass == pytest.approx(17.38843, abs=1e-5)


def test_methane_heat_meets_the_test_gas() -> None:
    """Net heat of methane is that of test gas G20, but for combustion at 25 instead of 15 °C.

    Source: EN 437:2003, table 2, G20: 34.02 MJ/m3 at 15 °C; from memory.
    """
    gas = brackwater("gas")
    methane = gas.gas_of(1, CH4=1.0)

    net = 1000 * gas.net_energy(methane)[0] / gas.volume(methane, 15)[0]

    assert net == pytest.approx(34.02, rel=1e-3)


def test_vapour_pressure_meets_the_steam_table() -> None:
    """Vapour pressure at 300 K is that of the steam table, within the two formulations' difference.

    Source: IAPWS R7-97(2012), table 35: 3.53658941 kPa at 300 K.
    """
    pressure = brackwater("gas").saturation_pressure(np.array(26.85))

    assert float(pressure) == pytest.approx(3.53658941, rel=2e-4)


def test_works_lies_where_real_works_lie(year: Any) -> None:
    """Each figure per tonne lies in its band, in every month with production.

    Source: as named beside each band in the model; mostly common practice.
    """
    figures = brackwater("magnitudes").magnitudes(brackwater("truth").quantities(year))

    outside = [figure.name for figure in figures if not figure.is_inside]

    assert len(figures) == 20
    assert outside == []


def test_feed_stays_above_what_chemistry_allows(year: Any) -> None:
    """No month makes ammonia from less methane-like feed, or with less CO2, than stoichiometry.

    Source: CH4 + 0.3034 O2 + 1.1311 N2 + 1.3932 H2O -> CO2 + 2.2621 NH3, from memory (Ullmann).
    """
    truth = {name: months for name, (_, months) in brackwater("truth").quantities(year).items()}
    made = np.delete(truth["ammonia produced"], 5)

    energy = np.delete(truth["feed gas/net energy"], 5) / made
    co2 = np.delete(truth["all feed carbon as CO2"], 5) / made

    assert energy.min() > 802.6 / (17.0305 * 2.2621)
    assert co2.min() > 44.0095 / (17.0305 * 2.2621)


def test_turnaround_month_makes_nothing_and_burns_a_little(year: Any) -> None:
    """June has no feed and no ammonia, but fuel, sales from stock and power."""
    june = {n: months[5] for n, (_, months) in brackwater("truth").quantities(year).items()}

    assert june["feed gas/volume"] == 0
    assert june["ammonia produced"] == 0
    assert june["natural gas burnt/CO2"] > 0
    assert june["ammonia sold"] > 0
    assert june["power bought"] > 0


def test_no_meter_is_off_by_more_than_its_certificate_says() -> None:
    """Every bias is within the uncertainty that the site file states, and some are not 0."""
    instruments = brackwater("instruments").Instruments.of_site(SAMPLE / "site.toml")

    share = [instruments.bias(tag) / stated for tag, stated in instruments.expanded.items()]

    assert max(map(abs, share)) <= 1
    assert max(share) > 0.3
    assert min(share) < -0.3


def test_site_file_declares_every_column_that_is_read(year: Any) -> None:
    """Site file and spreadsheets name the same meters, files, sheets and headings."""
    site = Site.model_validate(_toml(SAMPLE / "site.toml"))
    blemishes = brackwater("blemishes")
    tables = blemishes.noted_tables(make_sample().read_tables(year))

    kept = {(c.tag, t.file, t.sheet, c.heading) for t in tables for c in t.columns if c.tag}
    declared = {(m.tag, m.file, m.sheet, m.column) for m in site.meters if m.rows != "tickets"}

    assert declared == kept


def test_site_file_says_of_the_diesel_counter_what_the_model_does() -> None:
    """Roll-over and exchange of the counter are the same in site file and model."""
    site, model = Site.model_validate(_toml(SAMPLE / "site.toml")), brackwater("blemishes")

    index = site.meter(model.DIESEL_METER).index

    assert index is not None
    assert index.rolls_over_at == model.ROLLS_OVER_AT
    assert [(one.day, one.closing, one.opening) for one in index.exchanges] == [
        (model.EXCHANGED, model.CLOSING, model.OPENING)
    ]


def _toml(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def test_same_run_gives_the_same_bytes(written: Path, tmp_path: Path) -> None:
    """A second run writes every file with the same bytes."""
    make_sample().write_sample(tmp_path, brackwater("trade").build())

    names = sorted(path.name for path in tmp_path.iterdir())

    assert names == sorted((*WORKBOOKS, "co2_sales.csv"))
    assert [n for n in names if (tmp_path / n).read_bytes() != (written / n).read_bytes()] == []


@pytest.mark.parametrize("name", WORKBOOKS)
def test_kept_workbook_is_what_the_script_writes(written: Path, name: str) -> None:
    """The workbooks kept with the sample hold, cell by cell, what the script writes today."""
    kept, fresh = (_cells(folder / name) for folder in (SAMPLE, written))

    assert kept == fresh
    assert len(kept) > 20


def test_kept_tickets_and_truth_are_what_the_script_writes(year: Any, written: Path) -> None:
    """The tickets and the truth kept with the sample are what the script writes today."""
    kept_truth = json.loads(TRUTH.read_text(encoding="utf-8"))
    fresh_truth = json.loads(make_sample().truth_as_text(year))

    assert (SAMPLE / "co2_sales.csv").read_bytes() == (written / "co2_sales.csv").read_bytes()
    assert kept_truth["quantities"].keys() == fresh_truth["quantities"].keys()
    for name, quantity in fresh_truth["quantities"].items():
        assert kept_truth["quantities"][name]["unit"] == quantity["unit"]
        kept_months = kept_truth["quantities"][name]["months"]
        assert kept_months == pytest.approx(quantity["months"], rel=1e-9, abs=1e-6)


def test_daily_sheets_have_a_row_for_every_day(written: Path) -> None:
    """Each daily sheet holds 365 dated rows; only two readings of the boiler gas are missing."""
    missing = []
    daily = {
        "gas_meters.xlsx": ("Natural gas", "Fuel gases"),
        "co2.xlsx": ("CO2 header", "Start-up vent"),
        "production.xlsx": ("Ammonia", "Urea"),
        "operation.xlsx": ("Log",),
    }

    for name, sheets in daily.items():
        book = load_workbook(written / name)
        for sheet in sheets:
            rows = [row for row in book[sheet].values if hasattr(row[0], "year")]
            assert len({row[0] for row in rows}) == len(rows) == 365
            missing += [(row[0].date(), row.index(None)) for row in rows if None in row]
    assert missing == [(day, 4) for day in brackwater("blemishes").WITHOUT_READING]


def _cells(path: Path) -> dict[tuple[str, str], object]:
    """Return every cell of a workbook that is not empty, formulas as written."""
    book = load_workbook(path)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }
