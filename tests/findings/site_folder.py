"""A small site without fault, in which each test makes one fault."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from footprint.base.finding import Finding
from footprint.read import read
from footprint.read.readings import Readings
from tests.sites.site_text import site_text

YEAR = 2025
DAYS = [datetime(YEAR, 1, 1) + timedelta(days=day) for day in range(365)]  # noqa: DTZ001
MONTHS = [datetime(YEAR, month, 1) for month in range(1, 13)]  # noqa: DTZ001
STOCK_DAYS = [*MONTHS, datetime(YEAR + 1, 1, 1)]  # noqa: DTZ001
FIRST_ROW = 4  # below a title, a blank row and the headings
SAMPLE_VALUES = [94.0, 3.0, 2.0, 1.0]


@dataclass
class SiteFolder:
    """The site file as tables, the sheets as rows, and what is done to a workbook before saving."""

    path: Path
    site: dict[str, Any]
    books: dict[str, dict[str, list[list[Any]]]]
    texts: dict[str, str | bytes] = field(default_factory=dict)
    touches: list[tuple[str, Callable[[openpyxl.Workbook], None]]] = field(default_factory=list)

    def meter(self, tag: str) -> dict[str, Any]:
        """Return the entry of a meter."""
        return next(one for one in self.site["meters"] if one["tag"] == tag)

    def stream(self, name: str) -> dict[str, Any]:
        """Return the entry of a stream."""
        return next(one for one in self.site["streams"] if one["name"] == name)

    def sheet(self, name: str) -> list[list[Any]]:
        """Return the rows of a sheet, from whichever book."""
        return next(book[name] for book in self.books.values() if name in book)

    def put(self, sheet: str, address: str, value: Any) -> None:
        """Write one cell of a sheet."""
        column, row = ord(address[0]) - ord("A"), int(address[1:]) - 1
        self.sheet(sheet)[row][column] = value

    def touch(self, sheet: str, change: Callable[[Worksheet], None]) -> None:
        """Do something to a sheet that its rows can't say, such as hiding or merging."""
        name = next(name for name, book in self.books.items() if sheet in book)
        self.touches.append((name, lambda book: change(book[sheet])))

    def use_text(self, rows: list[str], **keys: Any) -> None:
        """Give the feed meter a text file of its own, with keys such as decimal_mark."""
        self.texts["feed.csv"] = "\n".join(rows) + "\n"
        meter = self.meter("FT-1")
        meter |= {"file": "feed.csv", "rows": "tickets", **keys}
        meter.pop("sheet")

    def read(self) -> tuple[Readings | None, list[Finding]]:
        """Write all files and read the folder."""
        self.write()
        return read(self.path)

    def write(self) -> None:
        """Write all files."""
        (self.path / "site.toml").write_text(site_text(self.site), encoding="utf-8")
        for name, sheets in self.books.items():
            book = openpyxl.Workbook()
            book.remove(book.worksheets[0])
            for title, rows in sheets.items():
                sheet = book.create_sheet(title)
                for row in rows:
                    sheet.append(row)
            for touched, change in self.touches:
                if touched == name:
                    change(book)
            book.save(self.path / name)
        for name, content in self.texts.items():
            raw = content if isinstance(content, bytes) else content.encode("utf-8")
            (self.path / name).write_bytes(raw)


def table(headings: list[str], dates: list[datetime], values: list[Any]) -> list[list[Any]]:
    """Return the rows of a sheet: a title, a blank row, the headings, and a row for each date."""
    rows: list[list[Any]] = [["A works that does not exist"], [], list(headings)]
    return rows + [[day, *values] for day in dates]


def good_site(path: Path) -> SiteFolder:
    """Return a site of six meters and one gas, in which nothing is wrong."""
    return SiteFolder(path, _site(), _books())


def _meter(tag: str, sheet: str, column: str, **keys: Any) -> dict[str, Any]:
    """Return the entry of a meter."""
    return {"tag": tag, "file": "meters.xlsx", "sheet": sheet, "column": column, **keys}


def _site() -> dict[str, Any]:
    """Return the tables of the site file."""
    plan = {"version": "1", "approved": date(2024, 11, 1), "valid_from": date(2025, 1, 1)}
    works = {
        "name": "Test works",
        "operator": "Nobody",
        "country": "IE",
        "year": YEAR,
        "bases": ["IPCC 2006"],
        "gwp_set": "AR5",
        "plan": plan,
    }
    unit = {"name": "Ammonia", "process": "steam reforming", "nameplate_t_per_day": 1000.0}
    meters = [
        _meter("FT-1", "Gas", "Feed gas", uncertainty="1.5 % (k=2)"),
        _meter("FT-2", "Gas", "Fuel gas"),
        _meter("WB-3", "Product", "Ammonia"),
        _meter("LAB-3", "Product", "Purity"),
        _meter("EM-4", "Power", "Power bought", rows="monthly", date_column="Month"),
        _meter("LT-5", "Stock", "Ammonia tank", rows="stock"),
    ]
    gas = {
        "gas": "natural gas",
        "file": "laboratory.xlsx",
        "sheet": "Natural gas",
        "unit": "mol-%",
        "moisture": "dry",
        "represents": "until the next sample",
    }
    streams = [
        {"name": "feed", "role": "feed", "meter": "FT-1", "analysis": "natural gas"},
        {"name": "fuel", "role": "fuel", "meter": "FT-2", "analysis": "natural gas"},
        {"name": "ammonia", "role": "ammonia produced", "meter": "WB-3", "purity": "LAB-3"},
        {"name": "power", "role": "power bought", "meter": "EM-4"},
        {"name": "tank", "role": "ammonia stock", "meter": "LT-5"},
    ]
    return {
        "works": works,
        "units": [unit],
        "meters": meters,
        "analyses": [gas],
        "streams": streams,
    }


def _books() -> dict[str, dict[str, list[list[Any]]]]:
    """Return the sheets of all workbooks."""
    first = datetime(YEAR - 1, 12, 31)  # noqa: DTZ001
    return {
        "meters.xlsx": {
            "Gas": table(["Date", "Feed gas (Nm3)", "Fuel gas (Nm3)"], DAYS, [700000, 300000]),
            "Product": table(["Date", "Ammonia (t)", "Purity (% by mass)"], DAYS, [1000.5, 99.8]),
            "Power": table(["Month", "Power bought (MWh)"], MONTHS, [4800.5]),
            "Stock": table(["Date", "Ammonia tank (t)"], STOCK_DAYS, [11000.5]),
        },
        "laboratory.xlsx": {
            "Natural gas": table(
                ["Sampled", "CH4", "C2H6", "N2", "CO2"], [first, *MONTHS], SAMPLE_VALUES
            )
        },
    }
