from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.base.cause import Cause, independent, shared
from footprint.base.line import Line
from footprint.base.source import Assumption, Factor, Reading, place_in_words, seen_or_memory
from tests.base.rows import read


def test_a_place_is_told_as_the_user_sees_it() -> None:
    """File, sheet and cell with signs between; parts that do not apply are left out."""
    assert place_in_words("a.xlsx", "March", "D7", "Flow") == 'a.xlsx > March > D7 (column "Flow")'
    assert place_in_words("a.csv", "", "D7") == "a.csv > D7"
    assert Reading("a.xlsx", "March", "D7", "4 310,0").words == "a.xlsx > March > D7"


def test_a_factor_from_memory_says_so() -> None:
    """A value that was not read in its document carries the remark wherever it is named."""
    seen, memory = Factor("a standard", "table 1", "2016"), Factor("a rule", "eq. 2", is_seen=False)

    assert seen.words == "a standard, 2016, table 1"
    assert memory.words == "a rule, eq. 2 (from memory: check before filing)"
    assert [seen_or_memory(one) for one in (seen, memory)] == ["seen", "memory"]


def test_an_assumption_names_author_day_and_reason() -> None:
    """Who, when, why."""
    origin = Assumption("A. Officer", "no meter", date(2025, 3, 1))

    assert origin.words == "A. Officer, 2025-03-01: no meter"
    assert seen_or_memory(origin) == ""


def test_a_line_has_one_unit() -> None:
    """Months and year of a line cannot have different units."""
    with pytest.raises(ValueError, match="different units"):
        Line(read([1, 2, 3, 4], "t_C"), read([1, 2, 3, 4], "t_CO2"))


def test_a_line_needs_a_row() -> None:
    """A line of nothing cannot be named."""
    with pytest.raises(ValueError, match="needs a row"):
        _ = Line(None).row


def test_errors_share_a_draw_or_have_one_each() -> None:
    """A shared error has one draw for all values, an independent one a draw a value."""
    cause, size = Cause("meter"), np.full(4, 0.5)

    assert shared(cause, size).draw.tolist() == [0, 0, 0, 0]
    assert independent(cause, size).draw.tolist() == [0, 1, 2, 3]
