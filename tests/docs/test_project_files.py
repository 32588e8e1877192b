"""The project speaks of the product alone, and leaves nothing half done."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.sites.sample_modules import ROOT

FOLDERS = ("footprint", "tests", "factors", "sample_inputs", ".ci")
KINDS = {".py", ".md", ".toml", ".csv", ""}
# written so that this file does not hold what it looks for
HALF_DONE = re.compile(r"\b(TO[D]O|FIX[M]E|X[X]X)\b")
PLACE_OF_A_MACHINE = re.compile(r"(?<![\w.:/])/(?:home|root|opt|tmp|mnt|Users|work)/\w")
READINGS = ("series.values", "listed.values", "index.values", "table.values")  # numbers still
NUMBERS_OF_A_ROW = re.compile(r"\.values\b(?!\()")
STAGES_OF_FORMULAS = ("measure", "balance", "account", "bases")
DOCUMENT = re.compile(r"[\w/]+\.md\b")


def files() -> Iterator[Path]:
    """Return the text files of the project."""
    yield from (ROOT / name for name in ("README.md", "DEVELOPERS.md", "pyproject.toml"))
    for folder in FOLDERS:
        for path in sorted((ROOT / folder).rglob("*")):
            is_hidden = any(part.startswith((".", "__py")) for part in path.parts[-3:-1])
            if path.is_file() and path.suffix in KINDS and not (is_hidden and folder != ".ci"):
                yield path


def found_in(pattern: re.Pattern[str]) -> list[str]:
    """Return file, line number and text wherever a pattern stands."""
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
        for path in files()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if pattern.search(line)
    ]


@pytest.mark.parametrize("pattern", [HALF_DONE, PLACE_OF_A_MACHINE], ids=["half done", "places"])
def test_no_file_holds_what_belongs_to_a_workshop(pattern: re.Pattern[str]) -> None:
    """No note of work left over, and no path of somebody's machine, stands in a file."""
    assert found_in(pattern) == []


def test_formulas_never_read_numbers() -> None:
    """Measuring, balance, account and bases compute with rows, so that every figure stays live.

    Only readings, which are numbers still, are touched as such.
    """
    places = [
        line
        for line in found_in(NUMBERS_OF_A_ROW)
        if line.startswith(tuple(f"footprint/{stage}/" for stage in STAGES_OF_FORMULAS))
    ]

    assert [line for line in places if not any(one in line for one in READINGS)] == []


def test_documents_that_are_named_exist() -> None:
    """No file refers to a page that a reader of the project cannot open."""
    named = {
        match.lstrip("/")
        for path in files()
        for match in DOCUMENT.findall(path.read_text(encoding="utf-8"))
    }

    assert "README.md" in named
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []


def test_the_patterns_find_what_they_look_for() -> None:
    """The checks above can fail."""
    assert HALF_DONE.search("# TO" + "DO: finish")
    assert PLACE_OF_A_MACHINE.search("see /" + "home/somebody/notes")
    assert not PLACE_OF_A_MACHINE.search("https://example.org/home/page")
    assert len(list(files())) > 150
