from __future__ import annotations

from datetime import date

import pytest

from footprint.base.source import Assumption as Assumed
from footprint.measure.assumed import assumed_rows
from footprint.measure.unstated import Unstated
from footprint.read.site import Assumption
from footprint.register import load
from tests.sites.hand_made import plain_works


def assumption(name: str, value: float, unit: str) -> Assumption:
    """Return an entry of the site file."""
    return Assumption(
        name=name,
        value=value,
        unit=unit,
        author="A. Tester",
        why="boiler test",
        when=date(2025, 1, 7),
    )


def test_an_assumption_stands_in_place_of_its_factor() -> None:
    """The stated value is used with its author, and a note says so."""
    register, _ = load()
    stated = assumption("efficiency of steam supply", 0.93, "GJ (heat)/GJ (net)")
    site = plain_works().readings().site.model_copy(update={"assumptions": [stated]})

    rows, findings = assumed_rows(site, register, Unstated(register, date(2025, 12, 31)))

    row = rows["efficiency of steam supply"]
    assert row.values == pytest.approx([0.93])
    assert isinstance(row.origin(0), Assumed)
    assert [one.code for one in findings] == ["factor-assumed"]


@pytest.mark.parametrize(
    ("name", "unit", "words"),
    [
        ("steam efficiency", "1", "no factor that can be chosen"),
        ("efficiency of steam supply", "1", "is stated in"),
        ("molar mass of methane", "kg/kmol", "no factor that can be chosen"),
    ],
)
def test_an_assumption_that_fits_no_factor_is_refused(name: str, unit: str, words: str) -> None:
    """A wrong name, a wrong unit or a constant of physics is told, and nothing is replaced."""
    register, _ = load()
    site = (
        plain_works()
        .readings()
        .site.model_copy(update={"assumptions": [assumption(name, 0.93, unit)]})
    )

    rows, findings = assumed_rows(site, register, Unstated(register, date(2025, 12, 31)))

    assert rows == {}
    assert [one.code for one in findings] == ["assumption-without-factor"]
    assert words in findings[0].what
