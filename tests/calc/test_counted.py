"""The workbook of a works whose meters count no amounts, recalculated by engines not ours."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from footprint.read import read
from footprint.report import report
from footprint.run import Result, run
from tests.calc.recalculate import (
    POISON,
    Values,
    differences,
    formulas_of,
    needs_calc,
    recalculate,
    recalculate_small,
    values_of,
)
from tests.findings.cases_cells import put
from tests.findings.cases_counted import LEVELS, dipped, exchange, indexed, invoices, monthly_bills
from tests.findings.site_folder import SiteFolder, good_site

ENGINES = [
    pytest.param(recalculate_small, id="small engine"),
    pytest.param(recalculate, id="LibreOffice", marks=[needs_calc, pytest.mark.calc]),
]
ROLLS_OVER_AT = 200_000_000


def counted_works(path: Path) -> SiteFolder:
    """Return a works with an index, a rate, tickets with tare, invoices and a tank table."""
    folder = good_site(path)
    indexed(rolls_over_at=float(ROLLS_OVER_AT), exchanges=[exchange()], factor=1.01)(folder)
    _count_on(folder)
    put("B66", None)(folder)
    _end_early(folder)
    folder.put("Gas", "C3", "Fuel gas (Nm3/h)")
    folder.meter("FT-2").update(counts="rate", time_zone="Europe/Dublin")
    rows = monthly_bills()
    rows[2:4] = ["2025-03-01;2025-04-30;6710.0"]
    invoices(*rows)(folder)
    dipped(LEVELS)(folder)
    _sell(folder)
    return folder


def _end_early(folder: SiteFolder) -> None:
    """Leave the index out at the year's end and state what the last day used."""
    folder.sheet("Gas").pop()
    day, stated = (
        date(2025, 12, 31),
        {"author": "A. Tester", "why": "log", "when": date(2026, 1, 9)},
    )
    entry = {"meter": "FT-1", "first_day": day, "last_day": day, "value": 650_000.0}
    folder.site["substitutes"] = [{**entry, **stated}]


def _count_on(folder: SiteFolder) -> None:
    """Let the new meter begin at 90 million short of its roll-over, so that it passes zero."""
    closing = exchange()["closing"]
    opening = float(ROLLS_OVER_AT - 90_000_000)
    folder.meter("FT-1")["index"]["exchanges"] = [{**exchange(), "opening": opening}]
    for row in folder.sheet("Gas")[3 + 125 :]:
        row[1] = int(row[1] - closing + opening) % ROLLS_OVER_AT


def _sell(folder: SiteFolder) -> None:
    """Sell CO2 by tickets with gross and tare."""
    rows = [f"2025-{month:02d}-14;38.5;14.0;{month}" for month in range(1, 13)]
    folder.texts["sales.csv"] = "\n".join(["Date;Gross (t);Tare (t);Ticket", *rows]) + "\n"
    meter: dict[str, Any] = {"tag": "WB-9", "file": "sales.csv", "rows": "tickets"}
    weights = {"column": "Gross", "tare_column": "Tare", "number_column": "Ticket"}
    folder.site["meters"].append({**meter, **weights, "decimal_mark": "."})
    sold = {"name": "CO2 sold", "role": "CO2 sold", "meter": "WB-9", "use": "food"}
    folder.site["streams"].append({**sold, "is_counted_elsewhere": True})


def written(path: Path) -> Result:
    """Return what a run over the works finds."""
    folder = counted_works(path)
    _, findings = folder.read()
    assert not [one.in_words() for one in findings if one.level == "stop"]
    return run(path)


@pytest.mark.parametrize("engine", ENGINES)
def test_rows_of_counted_meters_recalculate_to_what_is_stored(
    engine: Callable[[Path], Values], tmp_path: Path
) -> None:
    """Indexes, rates, tickets, invoices and levels are live formulas that others compute alike."""
    book = written(tmp_path).book
    assert book is not None
    clean, poisoned = tmp_path / "clean.xlsx", tmp_path / "poisoned.xlsx"
    report(book, clean)
    report(book, poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = engine(poisoned)

    assert differences(values_of(clean), computed, cells) == []


def test_amounts_in_rows_are_those_that_were_read(tmp_path: Path) -> None:
    """What the rows compute from index, tickets, invoices and levels is what reading found."""
    result = written(tmp_path)
    readings, _ = read(tmp_path)
    assert readings is not None

    rows = result.rows
    for tag in ("FT-1", "WB-9", "EM-4", "LT-5"):
        key = rows["key"].str.match(rf"meter/{tag}/[^/]+/as read$")
        assert rows[key]["value"].to_numpy() == pytest.approx(
            readings.series[tag].values, nan_ok=True
        ), tag


def test_substitute_stands_for_the_amount_of_an_index(tmp_path: Path) -> None:
    """Where the index of the year's end is missing, the last day is what somebody answers for."""
    rows = written(tmp_path).rows

    used = rows[rows["key"].str.match(r"meter/FT-1/[^/]+/as read, used$")]["value"].to_numpy()

    assert used[-1] == 650_000.0
    assert used[0] == pytest.approx(707_000.0)


def test_rate_is_integrated_over_the_hours_of_each_month(tmp_path: Path) -> None:
    """A rate of 300 000 Nm3/h over 8760 hours is 2.628e9 Nm3: 23 and 25 hours cancel."""
    rows = written(tmp_path).rows

    daily = rows[rows["key"].str.match(r"meter/FT-2/[^/]+/by rate$")]["value"].to_numpy()

    assert daily.sum() == pytest.approx(300_000 * 8760)
    assert np.unique(daily / 300_000).tolist() == [23.0, 24.0, 25.0]
