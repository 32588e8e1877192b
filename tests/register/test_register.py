"""Looking a factor up: by quantity, day and jurisdiction, never by default."""

from __future__ import annotations

from datetime import date

import pytest

from footprint.base.axis import ONCE
from footprint.base.finding import Where
from footprint.base.source import Factor
from footprint.base.units import unit
from footprint.register import Entry, NoFactorInForceError, Register
from footprint.register.entry import Line, Series, Span

CHANGE = date(2025, 1, 1)
DAY_BEFORE = date(2024, 12, 31)


def entry_of(
    value: float, span: Span, quantity: str = "steam factor", jurisdiction: str = "XX"
) -> Entry:
    """Return an invented entry."""
    source = Factor("Invented Act on Boilers", "annex", is_seen=False, evidence="memory")
    series = Series(quantity, jurisdiction)
    line = Line("made.csv", int(value))
    return Entry(series, unit("1"), value, None, None, span, source, "memory", line)


@pytest.fixture
def register() -> Register:
    """Return two editions of one factor and one of another jurisdiction."""
    return Register(
        [
            entry_of(2, Span(date(2020, 1, 1), DAY_BEFORE)),
            entry_of(3, Span(CHANGE, date(2026, 12, 31))),
            entry_of(4, Span(None, None), jurisdiction="YY"),
        ]
    )


@pytest.mark.parametrize(
    ("day", "value"),
    [(date(2020, 1, 1), 2), (DAY_BEFORE, 2), (CHANGE, 3), (date(2026, 12, 31), 3)],
)
def test_look_up_changes_on_the_day_of_the_change(
    register: Register, day: date, value: float
) -> None:
    """First and last day belong to their edition."""
    row = register.row("steam factor", day, "XX")

    assert row.values.tolist() == [value]


@pytest.mark.parametrize("day", [date(2019, 12, 31), date(2027, 1, 1)])
def test_nearest_edition_is_never_borrowed(register: Register, day: date) -> None:
    """One day before the first and one after the last edition there is no factor."""
    with pytest.raises(NoFactorInForceError, match="steam factor"):
        register.row("steam factor", day, "XX")


def test_jurisdiction_is_never_guessed(register: Register) -> None:
    """A factor of one jurisdiction does not serve another, nor science."""
    with pytest.raises(NoFactorInForceError, match='known for "YY" always'):
        register.row("steam factor", CHANGE)


def test_unknown_quantity_becomes_a_finding_with_the_place_that_asked(register: Register) -> None:
    """What the site file asks for in vain is told at that place."""
    with pytest.raises(NoFactorInForceError) as caught:
        register.row("GWP100 of CH4, AR7", CHANGE)

    finding = caught.value.finding(Where("site.toml", cell="gwp"))
    assert (finding.code, finding.level) == ("no-factor-in-force", "stop")
    assert finding.what == 'no factor "GWP100 of CH4, AR7" is in force on 2025-01-01 for "any"'
    assert finding.where.file == "site.toml"


def test_same_entry_gives_the_same_row(register: Register) -> None:
    """Asked twice, a factor is one cell and fully correlated with itself."""
    first = register.row("steam factor", CHANGE, "XX")
    second = register.row("steam factor", date(2026, 5, 5), "XX")
    other = register.row("steam factor", DAY_BEFORE, "XX")

    assert first is second
    assert first is not other


def test_row_carries_key_words_and_source(register: Register) -> None:
    """The workbook can print id, name and document of a factor."""
    row = register.row("steam factor", CHANGE, "XX")
    always = register.row("steam factor", CHANGE, "YY")

    assert row.axis is ONCE
    assert row.key == "factors/XX/steam factor/2025-01-01"
    assert always.key == "factors/YY/steam factor/always"
    assert row.words == "steam factor (XX)"
    origin = row.origin(0)
    assert origin is not None
    assert origin.words == "Invented Act on Boilers, annex (from memory: check before filing)"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["steam"], 3),
        (["BOILERS", "yy"], 1),
        (["steam act"], 3),
        (["steam", "ammonia"], 0),
        ([], 3),
    ],
)
def test_search_finds_entries_that_hold_all_words(
    register: Register, words: list[str], found: int
) -> None:
    """Words are sought in quantity, jurisdiction and document, capital or small."""
    entries = register.search(words)

    assert len(entries) == found
