"""A run as a table: figures, rows and findings for those who compute on."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from footprint import Result, run
from footprint.base.finding import CODES, Where
from tests.sites.builders import clean_twin
from tests.sites.sample_modules import SAMPLE

BY_INDEX = ("meter/TK-601/diesel/as read", "meter/TK-601/diesel/index growth/as read")


@cache
def sample() -> Result:
    """Return the run over the sample."""
    return run(SAMPLE)


def test_figures_name_unit_and_key() -> None:
    """Every figure of the year is a number with its unit and the key of its row."""
    figures = sample().figures

    keys = set(sample().rows["key"])
    assert np.isfinite(figures["value"]).all()
    assert set(figures["key"]) <= keys
    assert (figures["unit"] != "").all()


def test_rows_hold_a_line_for_each_period() -> None:
    """A monthly row has twelve lines, and they add up to the line of its year."""
    rows = sample().rows
    key = sample().figures.set_index("words").loc["process CO2: all feed carbon", "key"]

    months = rows[rows["key"] == str(key).removesuffix("/year")]
    year = rows[rows["key"] == key]

    assert list(months["period"]) == [f"2025-{month:02d}" for month in range(1, 13)]
    assert months["value"].sum() == pytest.approx(year["value"].iloc[0])


def test_readings_name_their_cell() -> None:
    """A value that was read says file, sheet and cell; one that was computed says its rule."""
    rows = sample().rows

    read = rows[rows["key"].str.endswith("/as read") & rows["key"].str.startswith("meter/")]

    has_cell = read["origin"].str.contains(".xlsx > |.csv > ")
    is_missing = (rows["key"] == "meter/FT-131/boiler fuel gas/as read") & rows["value"].isna()
    is_difference = read["key"].isin(BY_INDEX)
    assert (has_cell | is_difference | read["value"].isna()).all()
    assert read[is_difference]["origin"].str.startswith(("growth of", "index after")).all()
    assert list(rows[is_missing]["period"]) == ["2025-08-12", "2025-08-13"]
    assert (rows[~is_missing]["origin"] != "").all()


def test_findings_have_a_column_for_each_part() -> None:
    """A finding is a line with its place in columns of their own."""
    where = Where("a.xlsx", "Sheet", "B2", "Flow")
    one = CODES["figure-out-of-band"].at(where, "something", read="7")

    table = Result(None, (one,)).findings

    said = ["code", "level", "what", "file", "sheet", "cell", "column", "read", "why", "mend"]
    assert list(table.columns) == [*said, "accepted", "author", "when", "reason"]
    assert list(table.iloc[0][["file", "sheet", "cell", "column"]]) == (
        ["a.xlsx", "Sheet", "B2", "Flow"]
    )


def test_a_run_without_findings_has_an_empty_table(tmp_path: Path) -> None:
    """The columns stand there even when nothing was found."""
    table = run(clean_twin(tmp_path).folder).findings

    assert list(table.columns)[:2] == ["code", "level"]
    assert len(table) == 0


def test_a_folder_that_cannot_be_read_gives_findings_and_no_figures(tmp_path: Path) -> None:
    """Nothing is raised for what is missing; asking for the workbook then says why not."""
    result = run(tmp_path)

    assert not result.is_fit_to_file
    assert list(result.findings["code"]) == ["no-site-file"]
    assert result.figures.empty
    assert result.rows.empty
    with pytest.raises(ValueError, match="mend the findings first"):
        result.write(tmp_path / "a.xlsx")
    assert list(tmp_path.iterdir()) == []
