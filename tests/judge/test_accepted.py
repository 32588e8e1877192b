"""Findings that somebody accepts: which entry means which finding, and which may be accepted."""

from __future__ import annotations

from datetime import date

import pytest

from footprint.base.finding import CODES, Finding, Where, worst
from footprint.judge import accept
from footprint.read.site import Accepted


def entry(code: str = "jumping-reading", **place: str) -> Accepted:
    """Return an entry of the site file."""
    return Accepted(
        code=code, reason="seen in the log", author="A. Nobody", when=date(2026, 1, 8), **place
    )


def finding(code: str = "jumping-reading", cell: str = "B7") -> Finding:
    """Return a finding in one cell."""
    return CODES[code].at(Where("gas.xlsx", "Flow", cell), "something")


@pytest.mark.parametrize(
    ("wanted", "cell"),
    [
        ("B7", "B7"),
        ("B2:B9", "B7"),
        ("B2:B9", "B3:B5, B8"),
        ("$A$1:$C$9", "B7"),
        ("B:B", "B7"),
        ("B2:B3, B7", "B7"),
        ("", "B7"),
    ],
)
def test_an_entry_accepts_the_cell_it_names_or_holds(wanted: str, cell: str) -> None:
    """The cell itself, or a range, column or sheet that holds it, is accepted with its reason."""
    (marked,) = accept([finding(cell=cell)], [entry(file="gas.xlsx", sheet="Flow", cell=wanted)])

    assert marked.acceptance is not None
    assert marked.acceptance.words == "A. Nobody, 2026-01-08: seen in the log"
    assert marked.level == "warn"
    assert worst([marked]) is None


@pytest.mark.parametrize(
    ("place", "cell"),
    [
        ({"file": "gas.xlsx", "cell": "B8"}, "B7"),
        ({"file": "gas.xlsx", "cell": "B7"}, "B7:B9"),
        ({"file": "gas.xlsx", "cell": "B1:B9"}, "B3, B5, B7, B9 and 4 more"),
        ({"file": "gas.xlsx", "sheet": "Other"}, "B7"),
        ({"file": "other.xlsx"}, "B7"),
        ({}, "B7"),
    ],
)
def test_an_entry_for_another_place_accepts_nothing(place: dict[str, str], cell: str) -> None:
    """Another cell, a part of the cells, another sheet or file: the finding counts as before."""
    first, told = accept([finding(cell=cell)], [entry(**place)])

    assert first.acceptance is None
    assert (told.code, told.level) == ("accepted-finding-not-there", "note")
    assert told.where.words == "site.toml > accepted[1] jumping-reading > code"


def test_a_stop_that_says_a_figure_cannot_be_given_stays() -> None:
    """No signature makes a missing reading: the stop counts, and the entry is told."""
    stop = finding("missing-reading")

    kept, told = accept([stop], [entry("missing-reading", file="gas.xlsx")])

    assert kept is stop
    assert told.code == "stop-that-cannot-be-accepted"
    assert worst([kept, told]) == "stop"


def test_an_accepted_finding_shows_its_reason() -> None:
    """On the terminal an accepted finding says so and names author, day and reason."""
    (marked,) = accept([finding()], [entry(file="gas.xlsx")])

    text = marked.in_words()

    assert text.startswith("accepted warn[jumping-reading]")
    assert "by:    A. Nobody, 2026-01-08: seen in the log" in text
