"""Write the spreadsheets of the invented Brackwater Works, and what truly flowed there.

Run it with `python sample_inputs/make_sample.py`; it writes the same bytes each time. The works is
a small physical model that closes on every element; its meters then read with an error of their
own, drawn within the uncertainty that `site.toml` states for them, and its sheets have the
blemishes of a real year.
"""

from __future__ import annotations

import json
from pathlib import Path

from brackwater.blemishes import noted_tables, noted_tickets
from brackwater.instruments import Instruments, exact
from brackwater.laboratory import analyses
from brackwater.magnitudes import magnitudes
from brackwater.sheets import Table, daily_tables, monthly_tables
from brackwater.trade import Year, build
from brackwater.truth import quantities, truth
from brackwater.writing import write_tickets, write_workbooks

HERE = Path(__file__).resolve().parent
TRUTH = HERE.parent / "tests" / "sites" / "brackwater_truth.json"


def write_sample(folder: Path, year: Year) -> None:
    """Return nothing; write all spreadsheets of the sample into a folder.

    Args:
        folder: where the files go; must exist. [path]
        year: the year at the works. [year]

    Source: definition
    """
    write_workbooks(folder, noted_tables(read_tables(year)), exact)
    write_tickets(folder / "co2_sales.csv", noted_tickets(year.liquid_co2.tickets))


def read_tables(year: Year) -> list[Table]:
    """Return all sheets with what the meters read, still without a blemish.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    instruments = Instruments.of_site(HERE / "site.toml")
    return [
        instruments.read(table)
        for table in (*daily_tables(year), *monthly_tables(year), *analyses(year))
    ]


def truth_as_text(year: Year) -> str:
    """Return what truly flowed, as the text of the file that tests read.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    return json.dumps(truth(year), indent=1, ensure_ascii=False) + "\n"


def print_magnitudes(year: Year) -> None:
    """Return nothing; print each monthly figure beside its band.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    for figure in magnitudes(quantities(year)):
        months = " ".join(f"{value:8.6g}" for value in figure.values)
        word = "inside" if figure.is_inside else "OUTSIDE"
        print(f"{figure.name:24} {months}  {word} {figure.low:g} to {figure.high:g}")


if __name__ == "__main__":
    sample = build()
    write_sample(HERE, sample)
    TRUTH.write_text(truth_as_text(sample), encoding="utf-8")
    print_magnitudes(sample)
