"""All named rows as data by key: units, values, formula, rule, origins in words."""

from __future__ import annotations

from typing import Any

from footprint.base.row import Row
from footprint.base.source import Origin, Reading
from footprint.base.units import label
from footprint.report.book import Book
from footprint.report.cells import shown
from footprint.report.lineage import lineage_of
from footprint.report.words import CANNOT_BE_GIVEN, formula_in_words


def as_json(book: Book) -> dict[str, Any]:
    """Return works, year, run and every named row by key; words where there is no figure.

    Args:
        book: what is shown. [book]

    Source: definition
    """
    rows = lineage_of(book.tops).rows
    known = {row.key for row in rows}
    return {
        "works": book.works,
        "operator": book.operator,
        "year": book.year,
        "rules": list(book.bases),
        "warming potentials": book.gwp_set,
        "plan": book.plan,
        "made by": f"footprint {book.tool_version}",
        "run": book.fingerprint,
        "is fit to file": book.is_fit_to_file,
        "rows": {row.key: _row(row, rows) for row in rows if not _is_year_of_another(row, known)},
    }


def _is_year_of_another(row: Row, known: set[str]) -> bool:
    return (
        row.axis.kind == "once"
        and row.key.endswith("/year")
        and row.key.removesuffix("/year") in known
    )


def _row(row: Row, rows: tuple[Row, ...]) -> dict[str, Any]:
    data: dict[str, Any] = {"words": row.words, "unit": label(row.unit), "periods": row.axis.words}
    if row.axis.kind == "once":
        data["year"] = _value(row, 0)
    else:
        data["values"] = {
            period: _value(row, place) for place, period in enumerate(row.axis.labels)
        }
        year = next((one for one in rows if one.key == f"{row.key}/year"), None)
        data |= {} if year is None else {"year": _value(year, 0)}
    if row.op:
        data |= {"formula": formula_in_words(row), "rule": row.because}
    data["origins"] = [_origin(origin) for origin in row.origins]
    return data


def _value(row: Row, index: int) -> float | str:
    value = shown(row, index)
    return CANNOT_BE_GIVEN if value is None else value


def _origin(origin: Origin | None) -> str:
    if origin is None:
        return "nothing written"
    return (
        f'{origin.words}, as written "{origin.written}"'
        if isinstance(origin, Reading)
        else origin.words
    )
