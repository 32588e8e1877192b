"""Sheets of anything at all: a draft is made, is TOML, and stays TOML when it is answered."""

from __future__ import annotations

import tempfile
import tomllib
from datetime import date
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.start import draft
from tests.start.sheets import Cell, answered, write

HEADINGS = ["Date", "Sampled", "CH4", "N2", "C6+", "Feed gas (Nm3)", "Flash (Nm3/h)", "Net (t)"]
WORDS = ["Total", "example", "Nm3", "mol-%", "final", "n/a", '"quoted"', "a\nb", "index", "Jan"]
DATES = ["2025-03", "01/02/2025", "31.12.2025", "1 Jan 2025", "Feb-30", date(2025, 1, 1)]
CELLS = st.sampled_from([*HEADINGS, *WORDS, *DATES, None, 0, -3, 2.5, 1e12, "1,234", date.max])
ROWS = st.lists(st.lists(CELLS, min_size=1, max_size=6), max_size=9)


@settings(max_examples=60, deadline=None)
@given(st.lists(ROWS, min_size=1, max_size=3))
def test_draft_of_anything_is_toml(sheets: list[list[list[Cell]]]) -> None:
    """Whatever stands in the sheets, the draft can be read, with and without its answers."""
    with tempfile.TemporaryDirectory() as folder:
        named = {f"S{number}": rows for number, rows in enumerate(sheets)}
        text = draft([write(Path(folder) / "a.xlsx", named)]).text

    assert tomllib.loads(text)["works"]["bases"]
    assert tomllib.loads(answered(text))["works"]["name"]
