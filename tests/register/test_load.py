"""Loading factor files: what is refused, and that all of it is told in one run."""

from __future__ import annotations

from pathlib import Path

import pytest

from footprint.base.finding import CODES
from footprint.register import load
from footprint.register.entry import COLUMNS

HEADING = ",".join(COLUMNS)
SOUND = {
    "quantity": "invented factor",
    "unit": "kg_CO2/TJ_net",
    "value": "10",
    "jurisdiction": "XX",
    "document": "invented act",
    "evidence": "seen",
}


def line_of(**changes: str) -> str:
    """Return one line of a factor file: a sound one, with some cells changed."""
    cells = {**SOUND, **changes}
    return ",".join(f'"{cells.get(column, "")}"' for column in COLUMNS)


def folder_with(folder: Path, *lines: str, heading: str = HEADING) -> Path:
    """Return the folder, now holding one factor file of these lines."""
    (folder / "made.csv").write_text("\n".join([heading, *lines, ""]), encoding="utf-8")
    return folder


def test_sound_line_is_loaded_without_finding(tmp_path: Path) -> None:
    """A line with all it needs becomes an entry with its source."""
    folder = folder_with(tmp_path, line_of(low="8", high="12", year="2025", place="annex"))

    register, findings = load(folder)

    assert findings == []
    (entry,) = register.entries
    assert (entry.value, entry.low, entry.high) == (10.0, 8.0, 12.0)
    assert entry.source.words == "invented act, 2025, annex"


@pytest.mark.parametrize(
    ("changes", "code", "column"),
    [
        ({"value": "16,04"}, "factor-not-a-number", "value"),
        ({"value": ""}, "factor-not-a-number", "value"),
        ({"value": "nan"}, "factor-not-a-number", "value"),
        ({"value": "1_000"}, "factor-not-a-number", "value"),
        ({"low": "about 5"}, "factor-not-a-number", "low"),
        ({"high": "inf"}, "factor-not-a-number", "high"),
        ({"low": "10.1"}, "factor-outside-its-range", "value"),
        ({"high": "9.9"}, "factor-outside-its-range", "value"),
        ({"unit": "kg_CO2/TJ"}, "factor-unit-unknown", "unit"),
        ({"unit": "kg_CO2/("}, "factor-unit-unknown", "unit"),
        ({"unit": "2*kg"}, "factor-unit-unknown", "unit"),
        ({"unit": ""}, "factor-unit-unknown", "unit"),
        ({"document": " "}, "factor-without-source", "document"),
        ({"evidence": ""}, "factor-without-source", "evidence"),
        ({"evidence": "sure"}, "factor-without-source", "evidence"),
        ({"first_day": "2025-02-30"}, "factor-day-impossible", "first_day"),
        ({"last_day": "31.12.2025"}, "factor-day-impossible", "last_day"),
        ({"seen_date": "20250131"}, "factor-day-impossible", "seen_date"),
        (
            {"first_day": "2025-01-01", "last_day": "2024-12-31"},
            "factor-days-reversed",
            "last_day",
        ),
        ({"quantity": ""}, "factor-name-unusable", "quantity"),
        ({"quantity": "gas/diesel oil"}, "factor-name-unusable", "quantity"),
        ({"jurisdiction": ""}, "factor-name-unusable", "jurisdiction"),
        (
            {"quantity": "molar mass of a gas", "value": "0"},
            "factor-outside-allowed",
            "value",
        ),
        ({"quantity": "GWP100 of a gas", "value": "-1"}, "factor-outside-allowed", "value"),
        ({"quantity": "mole fraction of a gas", "value": "1.2"}, "factor-outside-allowed", "value"),
        (
            {"quantity": "standard uncertainty of a thing", "value": "-0.1"},
            "factor-outside-allowed",
            "value",
        ),
    ],
)
def test_faulty_cell_is_named_and_its_line_left_out(
    tmp_path: Path, changes: dict[str, str], code: str, column: str
) -> None:
    """One fault gives one finding with file, line and column, and the value is not used."""
    folder = folder_with(tmp_path, line_of(quantity="other factor"), line_of(**changes))

    register, findings = load(folder)

    (finding,) = findings
    assert finding.code == code
    assert (finding.where.file, finding.where.cell, finding.where.column) == (
        "made.csv",
        "line 3",
        column,
    )
    assert [entry.quantity for entry in register.entries] == ["other factor"]


def test_all_faults_are_told_in_one_run(tmp_path: Path) -> None:
    """Several faults on one line and on several lines all appear at once."""
    folder = folder_with(
        tmp_path,
        line_of(value="ten", unit="lumps", document=""),
        line_of(quantity="other factor", first_day="soon"),
    )

    _, findings = load(folder)

    assert sorted(finding.code for finding in findings) == [
        "factor-day-impossible",
        "factor-not-a-number",
        "factor-unit-unknown",
        "factor-without-source",
    ]


def test_zero_is_allowed_where_nature_allows_it(tmp_path: Path) -> None:
    """A gas that does not burn has a calorific value of 0, and hydrogen has no CO2."""
    folder = folder_with(
        tmp_path,
        line_of(quantity="gross calorific value of a gas", value="0"),
        line_of(quantity="CO2 emission factor of a gas", value="0"),
    )

    register, findings = load(folder)

    assert findings == []
    assert len(register.entries) == 2


def test_repeated_line_is_refused_with_both_places(tmp_path: Path) -> None:
    """Two values for the same days are both left out, and the finding names the other line."""
    folder = folder_with(tmp_path, line_of(), line_of(value="11"))

    register, findings = load(folder)

    (finding,) = findings
    assert finding.code == "factor-repeated"
    assert finding.where.cell == "line 3"
    assert "line 2 of made.csv" in finding.what
    assert register.entries == ()


@pytest.mark.parametrize(
    ("earlier", "later"),
    [
        (("2020-01-01", "2024-12-31"), ("2024-12-31", "")),
        (("", ""), ("2025-01-01", "")),
        (("2020-01-01", ""), ("2025-01-01", "2025-12-31")),
    ],
)
def test_overlapping_editions_are_refused(
    tmp_path: Path, earlier: tuple[str, str], later: tuple[str, str]
) -> None:
    """Editions that share a day are both left out, whichever of them is open-ended."""
    folder = folder_with(
        tmp_path,
        line_of(first_day=earlier[0], last_day=earlier[1]),
        line_of(first_day=later[0], last_day=later[1], value="11"),
    )

    register, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-spans-overlap"]
    assert register.entries == ()


def test_edition_inside_a_longer_one_is_refused_though_another_stands_between(
    tmp_path: Path,
) -> None:
    """An overlap is seen even with an edition that is not its direct neighbour."""
    folder = folder_with(
        tmp_path,
        line_of(first_day="2020-01-01", last_day="2025-12-31"),
        line_of(first_day="2021-01-01", last_day="2021-12-31", value="11"),
        line_of(first_day="2023-01-01", last_day="2023-12-31", value="12"),
    )

    _, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-spans-overlap"] * 2
    assert [finding.where.cell for finding in findings] == ["line 3", "line 4"]


def test_gap_between_editions_is_told_with_its_days(tmp_path: Path) -> None:
    """Days without an edition are named; the editions themselves stay usable."""
    folder = folder_with(
        tmp_path,
        line_of(last_day="2024-06-30"),
        line_of(first_day="2024-08-01", value="11"),
    )

    register, findings = load(folder)

    (finding,) = findings
    assert finding.code == "factor-span-gap"
    assert "from 2024-07-01 to 2024-07-31" in finding.what
    assert len(register.entries) == 2


def test_adjoining_editions_and_other_jurisdictions_do_not_disturb_each_other(
    tmp_path: Path,
) -> None:
    """An edition may begin on the day after the last, and two jurisdictions may differ."""
    folder = folder_with(
        tmp_path,
        line_of(last_day="2024-12-31"),
        line_of(first_day="2025-01-01", value="11"),
        line_of(jurisdiction="YY", value="12"),
    )

    register, findings = load(folder)

    assert findings == []
    assert len(register.entries) == 3


def test_faulty_value_does_not_make_a_gap(tmp_path: Path) -> None:
    """An edition whose value is mistyped still fills its days: one fault, one finding."""
    folder = folder_with(
        tmp_path,
        line_of(last_day="2023-12-31"),
        line_of(first_day="2024-01-01", last_day="2024-12-31", value="eleven"),
        line_of(first_day="2025-01-01", value="12"),
    )

    _, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-not-a-number"]


def test_editions_of_unlike_units_are_told(tmp_path: Path) -> None:
    """A series that turns from net to gross energy would change its meaning."""
    folder = folder_with(
        tmp_path,
        line_of(last_day="2024-12-31"),
        line_of(first_day="2025-01-01", unit="kg_CO2/TJ_gross"),
    )

    _, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-units-differ"]


def test_unknown_unit_is_not_also_told_as_unlike(tmp_path: Path) -> None:
    """A unit that is not known is one fault, not two."""
    folder = folder_with(
        tmp_path,
        line_of(last_day="2024-12-31"),
        line_of(first_day="2025-01-01", unit="lumps"),
    )

    _, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-unit-unknown"]


def test_wrong_heading_refuses_the_file(tmp_path: Path) -> None:
    """Columns in another order are not guessed."""
    swapped = HEADING.replace("unit,value", "value,unit")
    folder = folder_with(tmp_path, line_of(), heading=swapped)

    register, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-heading-wrong"]
    assert register.entries == ()


def test_line_with_a_decimal_comma_is_misshapen(tmp_path: Path) -> None:
    """A decimal comma makes a cell too many; the line is left out and its number told."""
    folder = folder_with(tmp_path, "invented factor,1,10,5,,,XX,,,invented act,,,,seen,,")

    register, findings = load(folder)

    (finding,) = findings
    assert (finding.code, finding.where.cell) == ("factor-line-misshapen", "line 2")
    assert "16 cells instead of 15" in finding.what
    assert register.entries == ()


def test_blank_lines_are_passed_over(tmp_path: Path) -> None:
    """Blank lines at the end or between are no fault."""
    folder = folder_with(tmp_path, "", line_of(), ",,,")

    register, findings = load(folder)

    assert findings == []
    assert len(register.entries) == 1


def test_file_in_another_encoding_is_told(tmp_path: Path) -> None:
    """A file saved in an old code page is refused with a way out, not with a traceback."""
    (tmp_path / "old.csv").write_bytes(HEADING.encode() + b"\nvalue at 25 \xb0C\n")

    _, findings = load(tmp_path)

    (finding,) = findings
    assert (finding.code, finding.where.file) == ("factor-file-unreadable", "old.csv")


def test_byte_order_mark_is_accepted(tmp_path: Path) -> None:
    """A file saved as "CSV UTF-8" by a spreadsheet program begins with a mark that is no text."""
    text = f"{HEADING}\n{line_of()}\n"
    (tmp_path / "made.csv").write_text(text, encoding="utf-8-sig")

    register, findings = load(tmp_path)

    assert findings == []
    assert len(register.entries) == 1


@pytest.mark.parametrize("name", ["", "missing"])
def test_folder_without_factor_files_is_told(tmp_path: Path, name: str) -> None:
    """An empty or missing folder is a finding."""
    folder = tmp_path / name

    register, findings = load(folder)

    assert [finding.code for finding in findings] == ["factor-folder-empty"]
    assert register.entries == ()


def test_every_finding_of_the_loader_is_declared() -> None:
    """Each code of this stage can be explained."""
    wanted = {"no-factor-in-force", "factor-folder-empty", "factor-span-gap", "factor-repeated"}

    assert wanted <= set(CODES)
