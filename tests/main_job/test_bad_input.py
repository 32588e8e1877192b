"""Faults in the sample's files: found at the cell, and only what depends on them is lost."""

from __future__ import annotations

import math
import shutil
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest

import footprint
from footprint.cli import main
from tests.calc.recalculate import differences, formulas_of, needs_calc, recalculate, values_of
from tests.sites.sample_modules import SAMPLE

FEED = "process CO2: all feed carbon"
FUEL = "fuel CO2: all fuel carbon"
AMMONIA = "ammonia produced, 100 % NH3"
SOLD = "CO2 sold"


def cell(file: str, sheet: str, address: str, value: object) -> Callable[[Path], None]:
    """Return what writes a value into one cell of a copy."""

    def write(folder: Path) -> None:
        book = openpyxl.load_workbook(folder / file)
        book[sheet][address] = value
        book.save(folder / file)

    return write


def in_site(old: str, new: str) -> Callable[[Path], None]:
    """Return what changes the site file of a copy."""

    def write(folder: Path) -> None:
        text = (folder / "site.toml").read_text(encoding="utf-8")
        assert old in text
        (folder / "site.toml").write_text(text.replace(old, new, 1), encoding="utf-8")

    return write


def gone(file: str) -> Callable[[Path], None]:
    """Return what removes a file of a copy."""
    return lambda folder: (folder / file).unlink()


def rewritten(file: str, content: bytes) -> Callable[[Path], None]:
    """Return what replaces a file of a copy."""
    return lambda folder: (folder / file).write_bytes(content) and None


def place_of(file: str, sheet: str, heading: str, day: str) -> str:
    """Return the address of a reading in the sample."""
    book = openpyxl.load_workbook(SAMPLE / file)[sheet]
    headings = next(
        row for row in book.iter_rows(max_row=8) if str(row[0].value).startswith("Date")
    )
    column = next(one.column_letter for one in headings if str(one.value).startswith(heading))
    line = next(
        row[0].row
        for row in book.iter_rows(min_row=2, max_col=1)
        if str(row[0].value).startswith(day)
    )
    return f"{column}{line}"


FEED_CELL = place_of("gas_meters.xlsx", "Natural gas", "Feed gas", "2025-03-05")
AMMONIA_CELL = place_of("production.xlsx", "Ammonia", "Ammonia product", "2025-04-10")
CASES = {
    # name: (change, code, place in words, figures that cannot be given, figures that stay)
    "text in a number cell": (
        cell("gas_meters.xlsx", "Natural gas", FEED_CELL, "meter out"),
        "text-in-number-cell",
        f"gas_meters.xlsx > Natural gas > {FEED_CELL}",
        {FEED},
        {AMMONIA, SOLD},
    ),
    "a sign the role does not allow": (
        cell("production.xlsx", "Ammonia", AMMONIA_CELL, -5.0),
        "negative-reading",
        f"production.xlsx > Ammonia > {AMMONIA_CELL}",
        {AMMONIA},
        {FEED, FUEL, SOLD},
    ),
    "a blank reading": (
        cell("gas_meters.xlsx", "Natural gas", FEED_CELL, None),
        "missing-reading",
        f"gas_meters.xlsx > Natural gas > {FEED_CELL}",
        {FEED},
        {AMMONIA, SOLD},
    ),
    "a missing file": (
        gone("production.xlsx"),
        "missing-file",
        "production.xlsx",
        {AMMONIA},
        {FEED, FUEL, SOLD},
    ),
    "a wrong sheet name": (
        in_site('sheet = "Ammonia"', 'sheet = "Amonia"'),
        "missing-sheet",
        "production.xlsx",
        {AMMONIA},
        {FEED, FUEL, SOLD},
    ),
    "a wrong column name": (
        in_site('column = "Net weight"', 'column = "Net wieght"'),
        "missing-column",
        "co2_sales.csv",
        {SOLD},
        {FEED, FUEL, AMMONIA},
    ),
    "a bad unit": (
        in_site('column = "Starts"\nunit = "start"', 'column = "Starts"\nunit = "furlong"'),
        "unknown-unit",
        "site.toml",
        set(),
        {FEED, FUEL, AMMONIA, SOLD},
    ),
}


def copied(tmp_path: Path, change: Callable[[Path], None]) -> Path:
    """Return a copy of the sample with one change."""
    folder = tmp_path / "works"
    shutil.copytree(
        SAMPLE, folder, ignore=shutil.ignore_patterns("brackwater", "*.py", "*.png", "__pycache__")
    )
    change(folder)
    return folder


@pytest.fixture(scope="module")
def sound() -> dict[str, float]:
    """Return the figures of the untouched sample."""
    figures = footprint.run(SAMPLE).figures
    return dict(zip(figures["words"], figures["value"], strict=True))


@pytest.mark.parametrize("name", CASES)
def test_a_fault_blocks_only_what_depends_on_it(
    name: str, tmp_path: Path, sound: dict[str, float]
) -> None:
    """The finding names the cell; dependent figures cannot be given, the others stay."""
    change, code, place, lost, kept = CASES[name]
    folder = copied(tmp_path, change)

    result = footprint.run(folder)

    if result.book is None:  # a slip in the site file stops the run before any reading is used
        assert code == "unknown-unit"
        return
    figures = dict(zip(result.figures["words"], result.figures["value"], strict=True))
    found = [one for one in result.notices if one.code == code]
    assert [one for one in found if one.where.words.startswith(place) and one.why and one.mend]
    assert {words for words in lost if not math.isnan(figures[words])} == set()
    assert {words: figures[words] for words in kept} == pytest.approx(
        {words: sound[words] for words in kept}
    )
    assert not result.is_fit_to_file


def test_the_command_ends_with_one_and_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit status 1, the finding in words, and no traceback."""
    change, code, place, *_ = CASES["text in a number cell"]
    folder = copied(tmp_path, change)

    status = main(["report", str(folder), "--out", str(tmp_path / "out.xlsx")])

    printed = capsys.readouterr()
    assert status == 1
    assert f"[{code}]" in printed.out
    assert place in printed.out
    assert "Traceback" not in printed.out + printed.err


@needs_calc
@pytest.mark.calc
def test_the_workbook_of_a_faulty_year_is_marked_and_recalculates(tmp_path: Path) -> None:
    """It says NOT FIT TO FILE, lost figures are words, and every formula left recalculates."""
    change = CASES["text in a number cell"][0]
    path = tmp_path / "out.xlsx"
    footprint.run(copied(tmp_path, change)).write(path)
    stored = values_of(path)
    cells = list(formulas_of(path))

    texts = [str(value) for (sheet, _), value in stored.items() if sheet == "At a glance"]

    assert any("NOT FIT TO FILE" in text for text in texts)
    assert "cannot be given" in texts
    assert differences(stored, recalculate(path), cells) == []


BROKEN = {
    "a broken site file": in_site("[works]", "[works"),
    "an unknown key": in_site("[works]", '[works]\ncolour = "blue"'),
    "a workbook that is none": rewritten("gas_meters.xlsx", b"PK\x03\x04 not a workbook"),
    "an empty file": rewritten("production.xlsx", b""),
}


@pytest.mark.parametrize("name", BROKEN)
def test_nothing_is_written_when_a_file_cannot_be_opened(name: str, tmp_path: Path) -> None:
    """A broken site file or workbook: findings, exit status 1, the old output untouched."""
    folder = copied(tmp_path, BROKEN[name])
    out = tmp_path / "out.xlsx"
    out.write_bytes(b"the filing of last year")

    status = main(["report", str(folder), "--out", str(out)])

    assert status == 1
    assert out.read_bytes() == b"the filing of last year"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["out.xlsx", "works"]
