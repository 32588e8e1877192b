"""A folder with filled gaps and accepted findings: run, workbook, commands."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from footprint import Result, cli, run
from footprint.report import report
from tests.calc.recalculate import (
    POISON,
    Values,
    differences,
    formulas_of,
    needs_calc,
    recalculate,
    recalculate_small,
    values_of,
)
from tests.findings.site_folder import SiteFolder, good_site

ENGINES = [
    pytest.param(recalculate_small, id="small engine"),
    pytest.param(recalculate, id="LibreOffice", marks=[needs_calc, pytest.mark.calc]),
]
WHO = {"author": "A. Nobody", "when": date(2026, 1, 8)}
METHODS: dict[str, dict[str, Any]] = {
    "neighbouring periods": {},
    "redundant meter": {"other_meter": "FT-2"},
    "production": {"other_meter": "WB-3"},
    "conservative value": {"value": 750_000.0},
}


def folder_with_gaps(path: Path) -> SiteFolder:
    """Return a site with four holes in the feed, each filled by another method."""
    folder = good_site(path)
    folder.site["gaps"] = []
    for month, (method, keys) in enumerate(METHODS.items(), 3):
        first, last = date(2025, month, 4), date(2025, month, 5)
        for day in (first, last):
            folder.put("Gas", f"B{(day - date(2025, 1, 1)).days + 4}", None)
        entry = {"meter": "FT-1", "method": method, "first_day": first, "last_day": last}
        folder.site["gaps"].append({**entry, **keys, **WHO, "why": "transmitter failed"})
    folder.site["accepted"] = [
        {
            "code": "sample-repeats-the-one-before",
            "file": "laboratory.xlsx",
            "sheet": "Natural gas",
            **WHO,
            "reason": "a gas of one composition, by contract",
        }
    ]
    folder.read()
    return folder


@pytest.fixture(scope="module")
def result(tmp_path_factory: pytest.TempPathFactory) -> Result:
    """Return the run over the site."""
    return run(folder_with_gaps(tmp_path_factory.mktemp("site")).path)


def texts(path: Path, sheet: str) -> list[str]:
    """Return all texts of a sheet of a workbook."""
    rows = openpyxl.load_workbook(path)[sheet].iter_rows()
    return [str(cell.value) for row in rows for cell in row if cell.value is not None]


def test_filled_gaps_stop_nothing_and_are_noted(result: Result) -> None:
    """Each gap is a note with its method; no reading is missing any more."""
    notes = [one.what for one in result.notices if one.code == "gap-filled"]

    assert result.is_fit_to_file
    assert [next(name for name in METHODS if name in note) for note in notes] == list(METHODS)
    assert not any(one.code.startswith("missing") for one in result.notices)


def test_the_table_of_findings_says_who_accepts_what(result: Result) -> None:
    """The accepted finding is kept, with author, day and reason in columns of their own."""
    table = result.findings.set_index("code")

    accepted = table.loc["sample-repeats-the-one-before"]

    assert bool(accepted["accepted"])
    assert accepted["author"] == "A. Nobody"
    assert accepted["when"] == "2026-01-08"
    assert accepted["reason"] == "a gas of one composition, by contract"
    assert not table.drop("sample-repeats-the-one-before")["accepted"].any()


def test_the_workbook_lists_gaps_and_accepted_findings(result: Result, tmp_path: Path) -> None:
    """A page shows each gap with its author, the findings end with what is accepted."""
    path = tmp_path / "out.xlsx"

    result.write(path)

    page, findings = texts(path, "Gaps and judgements"), texts(path, "Findings")
    for place, method in enumerate(METHODS, 3):
        assert f"FT-1, 2025-0{place}-04 to 2025-0{place}-05: {method}" in page
    assert any("A. Nobody, 2026-01-08: transmitter failed" in text for text in page)
    assert "Accepted warn: sample-repeats-the-one-before" in page
    assert findings.index("Accepted, with reason") < findings.index("sample-repeats-the-one-before")


@pytest.mark.parametrize("engine", ENGINES)
def test_filled_readings_are_live_formulas(
    engine: Callable[[Path], Values], result: Result, tmp_path: Path
) -> None:
    """With wrong results stored, an engine of others finds each filled reading again."""
    clean, poisoned = tmp_path / "clean.xlsx", tmp_path / "poisoned.xlsx"
    assert result.book is not None
    report(result.book, clean)
    report(result.book, poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = engine(poisoned)

    assert len(cells) > 1500
    assert differences(values_of(clean), computed, cells) == []


def test_check_for_a_program_holds_the_acceptance(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With --json each finding says by whom and why it is accepted, or null."""
    folder = folder_with_gaps(tmp_path)

    status = cli.main(["check", str(folder.path), "--json"])

    data = json.loads(capsys.readouterr().out)
    by_code = {one["code"]: one["acceptance"] for one in data}
    assert status == cli.GOOD
    assert by_code["sample-repeats-the-one-before"] == {
        "reason": "a gas of one composition, by contract",
        "author": "A. Nobody",
        "when": "2026-01-08",
    }
    assert by_code["gap-filled"] is None


def test_check_counts_accepted_findings_apart(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The last line counts stops, warnings and notes without those that somebody accepts."""
    cli.main(["check", str(folder_with_gaps(tmp_path).path)])

    last = capsys.readouterr().out.strip().splitlines()[-1]

    assert last.startswith("findings: 0 stop, ")
    assert last.endswith(", 1 accepted")
