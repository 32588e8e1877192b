"""The blemishes of the sample year: each is found at its cell, and settled by its rule."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from footprint import Result, run
from tests.sites.builders import WORDS_IN_A_CELL, clean_twin, twin_with_faults_that_stop
from tests.sites.sample_modules import SAMPLE

FOUND = {
    # code and level, file, sheet and cell of each finding
    ("gap-filled", "note", "gas_meters.xlsx", "Natural gas", ""),
    ("index-rolled-over", "note", "energy.xlsx", "Diesel", "B10:B11"),
    ("meter-exchanged", "note", "energy.xlsx", "Diesel", "B13:B14"),
    ("superseded-reading", "note", "energy.xlsx", "Power bought", "B7"),
    ("ticket-entered-twice", "warn", "co2_sales.csv", "", "E702:E703"),
    ("negative-ticket", "note", "co2_sales.csv", "", "E710"),
}


@pytest.fixture(scope="module")
def blemished() -> Result:
    """Return the run over the sample."""
    return run(SAMPLE)


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Result:
    """Return the run over the sample without its blemishes."""
    return run(clean_twin(tmp_path_factory.mktemp("clean")).folder)


def test_each_blemish_has_its_finding_and_the_year_is_fit_to_file(blemished: Result) -> None:
    """Every blemish is told with its place, nothing else is, and none stops a figure."""
    table = blemished.findings

    found = set(
        table[["code", "level", "file", "sheet", "cell"]].itertuples(index=False, name=None)
    )

    assert found == FOUND
    assert len(table) == len(FOUND)
    assert blemished.is_fit_to_file


def test_only_the_ticket_entered_twice_is_accepted(blemished: Result) -> None:
    """The warning stands with the reason and the name of who looked at it."""
    table = blemished.findings.set_index("code")

    accepted = table[table["accepted"].astype(bool)]

    assert list(accepted.index) == ["ticket-entered-twice"]
    assert accepted["author"].iloc[0] == "T. Quay, dispatch office"
    assert accepted["reason"].iloc[0] != ""


def test_the_clean_year_has_no_finding(clean: Result) -> None:
    """Without the blemishes there is nothing to tell."""
    assert len(clean.findings) == 0


def test_both_years_agree_in_every_figure(blemished: Result, clean: Result) -> None:
    """Counter, statement and cancelled ticket change no figure; the filled gap hardly one.

    Two of 365 days are filled from their neighbours, so that what rests on the boiler gas may
    move by the scatter of two days' readings, 2 in 10 000 of the total.
    """
    ours, theirs = (one.figures.set_index("words")["value"] for one in (blemished, clean))

    assert list(ours.index) == list(theirs.index)
    assert ours.to_numpy() == pytest.approx(theirs.to_numpy(), rel=2e-4, nan_ok=True)
    assert np.count_nonzero(ours.to_numpy() != theirs.to_numpy()) > 0


def test_faults_that_no_rule_settles_stop_the_year(tmp_path: Path) -> None:
    """Words in a cell stop it; a changed unit and a mean taken for a day are named as such."""
    result = run(twin_with_faults_that_stop(tmp_path).folder)

    table = result.findings
    stops = table[table["level"] == "stop"]
    bands = table[table["code"] == "figure-out-of-band"].set_index("sheet")["why"]
    units = table[table["code"] == "unit-may-have-changed"]
    assert not result.is_fit_to_file
    words = stops[stops["code"] == "text-in-number-cell"]
    assert set(stops["code"]) == {"text-in-number-cell", "figure-against-physics"}
    assert [tuple(row) for row in words[["file", "sheet", "cell"]].to_numpy()] == [WORDS_IN_A_CELL]
    assert len(units) == 1
    assert 'FT-111 ("feed gas") steps by' in units["what"].iloc[0]
    assert "2025-10-01 to 2025-12-31" in units["what"].iloc[0]
    assert (
        "amounts of a day taken for rates by the hour"
        in (bands["stock imbalance, share of production"])
    )
