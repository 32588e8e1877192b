"""Workbooks as people lay them out: titles, merged headings, units, totals, what is hidden."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from io import BytesIO
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from tests.corpus.item import DAYS, GOOD, POWER, VALUES, Item, in_book, lines

Rows = list[list[Any]]
HEADINGS = ["Date", POWER]
TABLE: Rows = [
    [datetime.fromisoformat(day), value] for day, value in zip(DAYS, VALUES, strict=True)
]
SUM, MEAN = sum(VALUES), sum(VALUES) / 3


def saved(rows: Rows, change: Callable[[Worksheet], Any] | None = None) -> bytes:
    """Return a workbook of one sheet of these rows."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.title = "Power"
    for row in rows:
        sheet.append(row)
    if change:
        change(sheet)
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def laid(
    name: str,
    rows: Rows,
    *codes: tuple[str, str],
    change: Callable[[Worksheet], Any] | None = None,
    **keys: Any,
) -> Item:
    """Return a workbook that gives the good values in this layout, with the findings named."""
    return Item(name, "power.xlsx", partial(saved, rows, change), GOOD, codes, keys)


def refused(name: str, rows: Rows, code: str, where: str) -> Item:
    """Return a workbook in which the power meter is not found or not understood."""
    return Item(name, "power.xlsx", partial(saved, rows), {}, ((code, where),))


def merged(area: str) -> Callable[[Worksheet], None]:
    """Return a change that merges cells."""
    return lambda sheet: sheet.merge_cells(area)


def hidden(kind: str, key: Any) -> Callable[[Worksheet], None]:
    """Return a change that hides a row or a column."""
    return lambda sheet: setattr(getattr(sheet, f"{kind}_dimensions")[key], "hidden", True)


def another_sheet(title: str, rows: Rows, state: str = "visible") -> Callable[[Worksheet], None]:
    """Return a change that adds a sheet to the workbook."""

    def change(sheet: Worksheet) -> None:
        assert sheet.parent is not None
        other = sheet.parent.create_sheet(title, 0)
        other.sheet_state = state
        for row in rows:
            other.append(row)

    return change


def wide(rows: Rows, *before: Any) -> Rows:
    """Return rows with columns in front."""
    return [[*before, *row] for row in rows]


SHOWN_IN_PER_CENT = [[day, value / 100] for day, value in TABLE]


def per_cent(sheet: Worksheet) -> None:
    """Give the readings a per cent format."""
    for row in range(2, 5):
        sheet.cell(row, 2).number_format = "0.0%"


TITLE: Rows = [["A works that does not exist"], ["Power, year 2025"], []]
TOTAL_AT = in_book("B5")
GOOD_ROWS = [HEADINGS, *TABLE]
LAYOUT_ITEMS = [
    laid("title rows above", [*TITLE, HEADINGS, *TABLE]),
    laid("empty rows and columns around", [[], [], *wide(GOOD_ROWS, None, None)]),
    laid("empty rows between", [HEADINGS, TABLE[0], [], [], TABLE[1], [], TABLE[2]]),
    laid("a hundred empty rows between", [HEADINGS, *TABLE[:2], *[[]] * 100, TABLE[2]]),
    laid("empty column between", [[row[0], None, row[1]] for row in GOOD_ROWS]),
    laid("columns in turned order", [row[::-1] for row in GOOD_ROWS]),
    laid("columns in front", wide(GOOD_ROWS, "remark")),
    laid("rows in turned order", [HEADINGS, *TABLE[::-1]]),
    laid("unit row", [["Date", "Power bought"], [None, "MWh"], *TABLE]),
    laid(
        "unit row with a word below the dates", [["Date", "Power bought"], ["day", "MWh"], *TABLE]
    ),
    laid("unit in the site file", [["Date", "Power bought"], *TABLE], unit="MWh"),
    laid("line end in the heading", [["Date", "Power\nbought\n(MWh)"], *TABLE]),
    laid("heading with blanks around", [[" Date ", "  Power  bought  (MWh) "], *TABLE]),
    laid("heading in small letters", [["date", "power bought (MWh)"], *TABLE]),
    laid(
        "heading merged over two rows",
        [HEADINGS, [], *TABLE],
        change=lambda sheet: [sheet.merge_cells(area) for area in ("A1:A2", "B1:B2")],
    ),
    Item(
        "heading merged over two columns",
        "power.xlsx",
        partial(saved, GOOD_ROWS, merged("B1:C1")),
        {},
        (("repeated-heading", "power.xlsx > Power > B1"),),
    ),
    laid("group heading above", [[None, "Electricity"], HEADINGS, *TABLE], change=merged("B1:C1")),
    laid("title merged over the table", [["Power 2025"], HEADINGS, *TABLE], change=merged("A1:F1")),
    laid("heading repeated further down", [HEADINGS, *TABLE[:2], HEADINGS, TABLE[2]]),
    laid("remark below", [*GOOD_ROWS, [], ["read by the shift leader"]]),
    laid("remark beside", [[*HEADINGS, "Remark"], *([*row, "ok"] for row in TABLE)]),
    laid("number in words beside", [[*HEADINGS, None], *([*row, "1 234,5"] for row in TABLE)]),
    laid("total that agrees", [*GOOD_ROWS, ["Total", SUM]]),
    laid(
        "subtotals and a grand total",
        [
            HEADINGS,
            *TABLE[:2],
            ["Subtotal", 3.75],
            TABLE[2],
            ["Subtotal", 1234.5],
            ["Grand total", SUM],
        ],
    ),
    laid(
        "mean, largest and smallest", [*GOOD_ROWS, ["Average", MEAN], ["Max", 1234.5], ["Min", 1.5]]
    ),
    laid("total above the readings", [HEADINGS, ["Total", SUM], *TABLE]),
    laid("total too high", [*GOOD_ROWS, ["Total", SUM + 100]], ("total-disagrees", TOTAL_AT)),
    laid(
        "total that leaves a row out",
        [*GOOD_ROWS, ["Sum", SUM - 2.25]],
        ("total-disagrees", TOTAL_AT),
    ),
    laid(
        "largest that is not the largest",
        [*GOOD_ROWS, ["Maximum", 9.0]],
        ("total-disagrees", TOTAL_AT),
    ),
    laid(
        "total without a word",
        [*GOOD_ROWS, [None, SUM]],
        ("total-without-label", in_book("A5", "Date")),
    ),
    laid(
        "number without date",
        [*GOOD_ROWS, [None, 7.0]],
        ("row-without-date", in_book("A5", "Date")),
    ),
    laid(
        "rows of the year before",
        [HEADINGS, [datetime.fromisoformat("2024-12-31"), 9.0], *TABLE],
        ("date-outside-year", in_book("A2", "Date")),
    ),
    laid(
        "hidden row",
        GOOD_ROWS,
        ("hidden-rows-read", in_book("A3", "Date")),
        change=hidden("row", 3),
    ),
    laid(
        "hidden column",
        GOOD_ROWS,
        ("hidden-rows-read", in_book("B1")),
        change=hidden("column", "B"),
    ),
    laid("hidden empty row", [HEADINGS, [], *TABLE], change=hidden("row", 2)),
    laid("another sheet without the table", GOOD_ROWS, change=another_sheet("Notes", [["hello"]])),
    laid(
        "hidden copy",
        GOOD_ROWS,
        ("hidden-sheet-left-out", "power.xlsx > Old"),
        change=another_sheet("Old", GOOD_ROWS, "hidden"),
    ),
    laid(
        "very hidden copy",
        GOOD_ROWS,
        ("hidden-sheet-left-out", "power.xlsx > Old"),
        change=another_sheet("Old", GOOD_ROWS, "veryHidden"),
    ),
    laid("sheet named among two", GOOD_ROWS, change=another_sheet("Old", GOOD_ROWS), sheet="Power"),
    laid(
        "sheet named in capitals",
        GOOD_ROWS,
        change=another_sheet("Old", GOOD_ROWS),
        sheet=" POWER ",
    ),
    Item(
        "two sheets fit",
        "power.xlsx",
        partial(saved, GOOD_ROWS, another_sheet("Old", GOOD_ROWS)),
        {},
        (("sheet-not-named", "power.xlsx"),),
    ),
    Item(
        "amounts shown as per cent",
        "power.xlsx",
        partial(saved, [HEADINGS, *SHOWN_IN_PER_CENT], per_cent),
        {},
        (("amount-shown-as-per-cent", in_book("B2:B4")),),
    ),
    Item(
        "csv named as workbook",
        "power.xlsx",
        lines("Date;" + POWER, *(f"{day};{value}" for day, value in GOOD.items())),
    ),
    Item("workbook named as csv", "power.csv", partial(saved, GOOD_ROWS)),
    refused("no heading row", TABLE, "missing-column", "power.xlsx > Power"),
    refused(
        "heading of dates elsewhere",
        [["Day", POWER], *TABLE],
        "missing-column",
        "power.xlsx > Power > row 1",
    ),
    refused(
        "heading twice in the sheet",
        [[*HEADINGS, POWER], *TABLE],
        "repeated-heading",
        "power.xlsx > Power > B1, C1",
    ),
    refused(
        "date heading twice in the sheet",
        [["Date", "Date", POWER], *TABLE],
        "repeated-heading",
        "power.xlsx > Power > A1, B1",
    ),
    refused(
        "no unit anywhere",
        [["Date", "Power bought"], *TABLE],
        "missing-unit",
        in_book("B1", "Power bought"),
    ),
    refused(
        "unit of another kind",
        [["Date", "Power bought (t)"], *TABLE],
        "bad-unit-for-role",
        in_book("B1", "Power bought (t)"),
    ),
    refused(
        "unit unknown",
        [["Date", "Power bought (MWxh)"], *TABLE],
        "unknown-unit",
        in_book("B1", "Power bought (MWxh)"),
    ),
    refused("empty sheet", [], "missing-column", "power.xlsx > Power"),
]
