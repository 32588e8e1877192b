from __future__ import annotations

import json

import numpy as np
import pytest

from footprint.report import as_json, summary
from tests.report.works import book


def test_every_row_is_in_the_tables_by_its_key() -> None:
    """Programs read each row by key: unit, words, months, year, formula, rule."""
    works = book()

    row = as_json(works)["rows"]["unit 1/feed/CO2/tier 2"]

    assert row["unit"] == "t CO₂"
    assert row["words"] == "process CO2"
    assert list(row["values"])[:2] == ["2025-01", "2025-02"]
    assert row["year"] == pytest.approx(sum(row["values"].values()))
    assert row["formula"] == "feed carbon less purge × CO2 per carbon"
    assert row["rule"] == "a rule, equation 1"


def test_readings_and_factors_name_their_origin() -> None:
    """A reading names its cell and text as written; a factor its document and mark."""
    rows = as_json(book())["rows"]

    reading = rows["unit 1/ammonia/mass/as read"]["origins"][0]
    factor = rows["factors/any/molar volume of feed gas/always"]["origins"][0]

    assert reading == 'production.xlsx > Year > B2, as written "as written 0"'
    assert factor == "a handbook, 2016, table 3 (from memory: check before filing)"


def test_tables_hold_words_where_there_is_no_number() -> None:
    """What cannot be given is a word, so that the file is plain JSON."""
    data = as_json(book())

    text = json.dumps(data, allow_nan=False)

    assert (
        data["rows"]["unit 1/ammonia/CO2 per tonne/tier 2"]["values"]["2025-07"] == "no production"
    )
    assert data["rows"]["unit 1/CO2/vented/by difference"]["values"]["2025-01"] == "cannot be given"
    assert "NaN" not in text


def test_the_summary_gives_figures_verdicts_and_counts() -> None:
    """A screenful says what the year was, whether it may be filed, and what is open."""
    works = book()
    filed = works.headline[0].row

    text = summary(works)

    assert f"{np.round(filed.values[0]):,.0f}".replace(",", " ") in text
    assert "NOT FIT TO FILE" in text
    assert "LOOK  One month stands out." in text
    assert "checks: 5 PASS, 6 LOOK, 0 OPEN, 1 not judged" in text
    assert "findings: 1 stop, 0 warn, 1 note" in text
    assert "factors from memory: 7" in text
    assert works.fingerprint in text
    assert "safe to breathe in" in text
