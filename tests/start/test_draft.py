"""What every draft promises, whatever the sheets look like."""

from __future__ import annotations

import json
import tomllib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.cli import main
from footprint.start import draft
from footprint.start.draft_streams import streams_text
from footprint.start.notes import known, question, remark
from tests.sites.sample_modules import SAMPLE
from tests.start.sheets import MONTHS, YEAR, answered, days_of, write, write_text


def test_the_sample_is_drafted_with_its_own_roles() -> None:
    """Each stream of the drafted sample has the role that its author gave it; none is missed."""
    written = tomllib.loads((SAMPLE / "site.toml").read_text(encoding="utf-8"))
    files = [*sorted(SAMPLE.glob("*.xlsx")), SAMPLE / "co2_sales.csv"]

    drafted = tomllib.loads(draft(files).text)

    assert _roles(drafted) == _roles(written)


def _roles(site: dict[str, list[dict[str, str]]]) -> dict[tuple[str, str, str], str]:
    """Return the role of each stream by file, sheet and column of its meter."""
    places = {
        one["tag"]: (one["file"], one.get("sheet", ""), one["column"]) for one in site["meters"]
    }
    return {places[one["meter"]]: one["role"] for one in site["streams"]}


def test_answered_draft_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With every question answered by its own beginning, a draft is a site file that is read."""
    rows = [["Date", "Feed gas (Nm3)", "Ammonia produced (t)", "Purity (% by mass)"]]
    rows += [[day, 1_230_000.5, 2000.5, 99.8] for day in days_of(date(YEAR, 1, 1), 365)]
    gas = [["Natural gas, dry, mol-%"], ["Sampled", "CH4", "N2", "CO2"]]
    gas += [[month, 98.0, 1.5, 0.5] for month in MONTHS]
    files = [
        write(tmp_path / "works.xlsx", {"Daily": rows}),
        write(tmp_path / "lab.xlsx", {"Natural gas": gas}),
    ]

    text = draft(files).text
    (tmp_path / "site.toml").write_text(answered(text), encoding="utf-8")
    main(["check", str(tmp_path), "--json"])

    found = json.loads(capsys.readouterr().out)
    places = {one["where"]["file"] for one in found if one["level"] == "stop"}
    assert "QUESTION" in text
    assert places <= {"figures"}, [one["what"] for one in found]


def test_draft_alone_is_no_site_file(tmp_path: Path) -> None:
    """What no sheet can know stays out of a draft until the user writes it."""
    rows = [["Month", "Power bought (MWh)"], *[[month, 4900.5] for month in MONTHS]]

    site = tomllib.loads(draft([write(tmp_path / "a.xlsx", {"A": rows})]).text)

    assert site["works"] == {"year": YEAR, "bases": ["IPCC 2006"]}
    assert "nameplate_t_per_day" not in site["units"][0]


def test_guess_stands_with_its_cells(tmp_path: Path) -> None:
    """Behind each guess stands the cell that it rests on, also of a tag above the heading."""
    rows = [[None, "EM-501"], ["Month", "Power bought"], ["", "MWh"]]
    rows += [[month, 4900.5] for month in MONTHS]

    lines = draft([write(tmp_path / "a.xlsx", {"A": rows})]).text.splitlines()

    meter = [line for line in lines if line.startswith(("tag", "rows", "date_column", "column"))]
    assert meter == [
        'tag = "EM-501"                    # in or beside B2 "Power bought"',
        'rows = "monthly"                  # 12 dates, each the first of a month, from A4:A15',
        'date_column = "Month"             # A2',
        'column = "Power bought"           # B2 "Power bought": 12 numbers in B4:B15, unit "MWh"',
    ]


def test_heading_that_stands_twice_is_a_question(tmp_path: Path) -> None:
    """Where the reader could not tell two columns apart, their column is asked for."""
    rows = [["Month", "Power bought (MWh)", "Power bought (MWh)"]]
    rows += [[month, 1.5, 2.5] for month in MONTHS]

    drafted = draft([write(tmp_path / "a.xlsx", {"A": rows})])

    assert '# column = "Power bought"' in drafted.text
    assert all("column" not in one for one in tomllib.loads(drafted.text)["meters"])


def test_open_unit_date_and_decimal_mark_are_questions(tmp_path: Path) -> None:
    """What two readers could read in two ways is asked for: the unit, the date, the number."""
    lines = ["Date;Feed gas (m3)", "01/02/2025;101,001", "02/03/2025;102,001"]

    text = draft([write_text(tmp_path / "a.csv", lines)]).text

    assert '# unit = "Nm3"' in text
    assert '# date_order = "day first"' in text
    assert '# decimal_mark = "."' in text


def test_file_that_cannot_be_read_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file that is no spreadsheet is named with its reason, and the others are drafted."""
    broken = tmp_path / "broken.xlsx"
    broken.write_bytes(b"PK\x03\x04 cut short")
    rows = [["Month", "Power bought (MWh)"], *[[month, 4900.5] for month in MONTHS]]
    good = write(tmp_path / "good.xlsx", {"A": rows})

    status = main(["draft", str(broken), str(good)])

    out, err = capsys.readouterr()
    assert status == 1
    assert "unsafe-workbook" in err
    assert tomllib.loads(out)["streams"][0]["role"] == "power bought"


def test_draft_writes_no_file_over_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """--out writes a new file and refuses one that exists."""
    rows = [["Month", "Power bought (MWh)"], *[[month, 4900.5] for month in MONTHS]]
    path = write(tmp_path / "a.xlsx", {"A": rows})
    out = tmp_path / "draft.toml"

    first = main(["draft", str(path), "--out", str(out)])
    text = out.read_text(encoding="utf-8")
    second = main(["draft", str(path), "--out", str(out)])

    assert (first, second) == (0, 2)
    assert tomllib.loads(text)["meters"][0]["file"] == "a.xlsx"
    assert "exists already" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == text


def test_draft_of_a_file_that_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    """A wrong name is refused in words."""
    status = main(["draft", "nowhere.xlsx"])

    assert status == 2
    assert 'there is no file "nowhere.xlsx"' in capsys.readouterr().err


@given(st.text(), st.text(), st.text())
def test_whatever_stands_in_a_sheet_the_draft_is_toml(key: str, value: str, reason: str) -> None:
    """No text of a sheet breaks the file that it is written into."""
    text = remark(reason) + question(reason, key or "key", value) + known("name", value, reason)

    read = tomllib.loads(text)

    assert read == {"name": value}


def test_without_meters_there_are_no_streams() -> None:
    """Nothing found leads to nothing drafted."""
    text = streams_text([], [])

    assert text == ""


@pytest.mark.parametrize("rows", [[], [["Only a title"]], [["Date", "Feed gas"]], [[1.5, 2.5]]])
def test_sheet_without_table_is_left_out(tmp_path: Path, rows: list[list[str | float]]) -> None:
    """A sheet without dates under headings is named as left out."""
    drafted = draft([write(tmp_path / "a.xlsx", {"A": rows})])

    assert "a.xlsx > A was left out" in drafted.text
    assert drafted.meters == 0
    assert "meters" not in tomllib.loads(drafted.text)
