from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from footprint.measure.calendar import Calendar
from footprint.measure.pieces import pieces_of

YEAR = Calendar(2025)


def test_a_sample_speaks_until_the_next_and_is_cut_at_the_month_end() -> None:
    """Samples of 20 January and 10 February cut both months in two, and the month end cuts too."""
    sampled = (date(2025, 1, 1), date(2025, 1, 20), date(2025, 2, 10))

    pieces = pieces_of(sampled, "until the next sample", YEAR, "feed gas")

    assert pieces.days[:4] == ((0, 19), (19, 31), (31, 40), (40, 59))
    assert pieces.samples[:4] == (0, 1, 1, 2)
    assert pieces.months[:2] == ((0, 2), (2, 4))
    assert pieces.uncovered == 0


def test_a_composite_sample_speaks_for_the_days_before_it() -> None:
    """A sample dated 10 January that speaks since the last one covers 4 to 10 January."""
    sampled = (date(2025, 1, 3), date(2025, 1, 10), date(2026, 1, 2))

    pieces = pieces_of(sampled, "since the last sample", YEAR, "feed gas")

    assert pieces.days[:2] == ((0, 3), (3, 10))
    assert pieces.samples[:3] == (0, 1, 2)
    assert pieces.uncovered == 0


def test_days_before_the_first_sample_are_counted() -> None:
    """Seven days before the first sample take it and are told."""
    pieces = pieces_of((date(2025, 1, 8),), "until the next sample", YEAR, "feed gas")

    assert pieces.uncovered == 7
    assert set(pieces.samples) == {0}


@given(st.sets(st.integers(-20, 380), min_size=1, max_size=80), st.booleans())
def test_pieces_cover_every_day_once(offsets: set[int], forward: bool) -> None:  # noqa: FBT001  a drawn case
    """Whatever the sampling days, the pieces hold each day once and none spans two months."""
    sampled = tuple(date(2025, 1, 1) + timedelta(days=offset) for offset in sorted(offsets))
    represents = "until the next sample" if forward else "since the last sample"

    pieces = pieces_of(sampled, represents, YEAR, "feed gas")

    assert [day for first, last in pieces.days for day in range(first, last)] == list(range(365))
    assert all(
        YEAR.dates[a].month == YEAR.dates[b - 1].month == m + 1
        for (a, b), m in zip(pieces.days, pieces.month_of, strict=True)
    )
    assert [piece for first, last in pieces.months for piece in range(first, last)] == list(
        range(len(pieces.days))
    )
