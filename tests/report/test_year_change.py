"""The same data under the rules of two years: only what moves is listed, with the reason."""

from __future__ import annotations

from footprint.base.row import Row, constant, step
from footprint.base.source import Factor
from footprint.base.units import unit
from footprint.bases import Basis, Filed
from footprint.report.year_change import NEW, NOTHING, year_change_of

CO2E, CH4 = unit("t_CO2e"), unit("t_CH4")
MASS = constant(2.0, CH4, "test/methane/mass/given", "methane vented")
RULE = "a rule"


def basis_of(year: int, warming: float) -> Basis:
    """Return a basis with one line that depends on a factor and one that does not."""
    origin = Factor("an annex", "table 1", str(year))
    factor = constant(
        warming, unit("t_CO2e/t_CH4"), f"factors/GWP of CH4/{year}", "GWP of CH4", origin
    )
    moved = step(MASS * factor, f"test/CH4/CO2e/rules of {year}", "CH4 as CO2e", RULE)
    lines = (filed("1", "methane", MASS), filed("2", "methane as CO2e", moved))
    return Basis("a basis", "Return, a basis", lines, (), (), moved)


def filed(number: str, words: str, row: Row) -> Filed:
    """Return a line that files the exact figure."""
    return Filed(number, words, row, row, RULE, "seen")


def test_only_lines_that_move_are_listed_with_the_factor_that_changed() -> None:
    """A warming potential that changes moves its line, and the reason names both values."""
    sheet = year_change_of(2025, [basis_of(2025, 28.0)], [basis_of(2024, 25.0)])

    (part,) = sheet.parts
    (line,) = part.lines
    assert line[:2] == ("2", "methane as CO2e")
    moved = line[5]
    assert isinstance(moved, Row)
    assert moved.values[0] == 6.0
    assert line[6] == "GWP of CH4: 25 before, 28 now"


def test_rules_that_did_not_change_say_so() -> None:
    """Where no line moves the sheet says that nothing does."""
    sheet = year_change_of(2025, [basis_of(2025, 28.0)], [basis_of(2024, 28.0)])

    assert sheet.parts[0].note == NOTHING
    assert sheet.parts[0].lines == ()


def test_a_basis_without_rules_for_last_year_says_so() -> None:
    """A basis that had no figures under last year's rules is no zero."""
    sheet = year_change_of(2025, [basis_of(2025, 28.0)], [])

    assert sheet.parts[0].note == NEW
