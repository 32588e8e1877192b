"""Spreadsheets ready to fill in: headings, units to choose from, an example, the year's dates."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import xlsxwriter
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.workbook import Format, Workbook
from xlsxwriter.worksheet import Worksheet

from footprint.start.plan import FORMS, Column, Form

TITLE, HOW, HEADINGS, UNITS, EXAMPLE, FIRST = 0, 1, 3, 4, 5, 6  # rows, counted from 0
EXAMPLE_WORD = "example"
_HOW = (
    "Write your readings below the grey row. The grey row is an example: it is never read, "
    'because its date says "example". Choose the unit in row 5; write 0 for nothing, and leave '
    "a cell empty only where there is no reading."
)
_HOW_SAMPLES = (
    "One row a sample. Change the dates to the days of sampling, add rows or delete those that "
    "you do not need. The grey row is an example: it is never read, because its date says "
    '"example".'
)
_WIDTH, _NARROW = 17, 10
_SPARE_ROWS = 60  # of samples beyond the dates filled in, so that weekly ones have their checks too


def write_workbooks(folder: Path, year: int) -> list[Path]:
    """Return the paths of all workbooks after they were written.

    Args:
        folder: where they go; must exist. [path]
        year: whose dates are filled in. [year]

    Source: definition
    """
    by_file: dict[str, list[Form]] = {}
    for form in FORMS:
        by_file.setdefault(form.file, []).append(form)
    for name, forms in by_file.items():
        with xlsxwriter.Workbook(str(folder / name)) as book:
            book.set_properties({"created": datetime(year, 1, 1), "title": name})  # noqa: DTZ001  no zone
            for form in forms:
                _Pen(book, form, year).write()
    return [folder / name for name in by_file]


def dates_of(form: Form, year: int) -> list[date]:
    """Return the dates that are filled in.

    Args:
        form: the sheet. [form]
        year: of the return. [year]

    Source: definition
    """
    months = [date(year, month, 1) for month in range(1, 13)]
    if form.dates == "days":
        days = (date(year + 1, 1, 1) - months[0]).days
        return [months[0] + timedelta(days=day) for day in range(days)]
    return [*months, date(year + 1, 1, 1)] if form.dates == "turns of months" else months


class _Pen:
    """One sheet while it is written."""

    def __init__(self, book: Workbook, form: Form, year: int) -> None:
        self.form, self.dates = form, dates_of(form, year)
        self.sheet: Worksheet = book.add_worksheet(form.sheet)
        self.last = FIRST + len(self.dates) - 1 + (_SPARE_ROWS if form.gas else 0)
        self.looks: dict[str, Format] = {
            name: book.add_format(look) for name, look in _looks(form).items()
        }

    def write(self) -> None:
        """Write the whole sheet."""
        form, width = self.form, len(self.form.columns) + bool(self.form.choice)
        self.sheet.set_column(0, 0, 13)
        self.sheet.set_column(1, width, _NARROW if form.gas else _WIDTH)
        if form.choice:
            self.sheet.set_column(width, width, max(map(len, form.choice.words)))
        self.sheet.write_string(TITLE, 0, form.title, self.looks["title"])
        how = _HOW_SAMPLES if form.gas else _HOW
        self.sheet.merge_range(HOW, 0, HOW, max(width, 4), how, self.looks["how"])
        self.sheet.set_row(HOW, 48)
        self._dates()
        for place, column in enumerate(form.columns, 1):
            self._column(place, column)
        if form.choice:
            self._choice(width)
        self._paper(width)

    def _dates(self) -> None:
        """Write the column of dates with its heading and the mark of the example."""
        self.sheet.write_string(HEADINGS, 0, self.form.date_heading, self.looks["first heading"])
        self.sheet.write_string(UNITS, 0, "unit", self.looks["first unit"])
        self.sheet.write_string(EXAMPLE, 0, EXAMPLE_WORD, self.looks["example"])
        for row, day in enumerate(self.dates, FIRST):
            self.sheet.write_datetime(row, 0, datetime.combine(day, time()), self.looks["date"])
        for row in range(FIRST + len(self.dates), self.last + 1):
            self.sheet.write_blank(row, 0, None, self.looks["date"])

    def _column(self, place: int, column: Column) -> None:
        """Write heading, unit and example of a column, and what its cells are checked for."""
        self.sheet.write_string(HEADINGS, place, column.heading, self.looks["heading"])
        self.sheet.write_string(UNITS, place, column.units[0], self.looks["unit"])
        self.sheet.write_number(EXAMPLE, place, column.example, self.looks["example number"])
        for row in range(FIRST, self.last + 1):
            self.sheet.write_blank(row, place, None, self.looks["number"])
        if len(column.units) > 1:
            self.sheet.data_validation(UNITS, place, UNITS, place, _choice_of(column.units))
        self.sheet.data_validation(FIRST, place, self.last, place, _number(column))

    def _choice(self, place: int) -> None:
        """Write the column of words to choose from."""
        choice = self.form.choice
        if choice:
            self.sheet.write_string(HEADINGS, place, choice.heading, self.looks["words heading"])
            self.sheet.write_blank(UNITS, place, None, self.looks["first unit"])
            for row in range(FIRST, self.last + 1):
                self.sheet.write_blank(row, place, None, self.looks["words"])
            self.sheet.write_string(EXAMPLE, place, choice.words[0], self.looks["words example"])
            self.sheet.data_validation(FIRST, place, self.last, place, _choice_of(choice.words))

    def _paper(self, width: int) -> None:
        """Freeze the headings and set the print up: one page wide, headings on every page."""
        self.sheet.freeze_panes(FIRST, 1)
        self.sheet.print_area(0, 0, self.last, width)
        self.sheet.set_landscape()
        self.sheet.set_paper(9)  # A4, ISO 216
        self.sheet.fit_to_pages(1, 0)
        self.sheet.repeat_rows(HEADINGS, UNITS)
        self.sheet.set_footer("&L&F, &A&RPage &P of &N")


def _looks(form: Form) -> dict[str, dict[str, Any]]:
    """Return how each kind of cell looks."""
    grey = {"italic": True, "font_color": "#808080", "bg_color": "#EDEDED"}
    head = {"bold": True, "text_wrap": True, "valign": "bottom"}
    unit = {"bottom": 1, "font_color": "#1F3864"}
    line = {"bottom": 4, "bottom_color": "#A6A6A6"}
    day = "yyyy-mm" if form.dates == "months" else "yyyy-mm-dd"
    return {
        "title": {"bold": True, "font_size": 12},
        "how": {"text_wrap": True, "valign": "top", "font_color": "#404040"},
        "first heading": head,
        "heading": {**head, "align": "right"},
        "first unit": unit,
        "unit": {**unit, "align": "right"},
        "example": grey,
        "example number": {**grey, "num_format": "#,##0.###"},
        "date": {**line, "num_format": day, "align": "left"},
        "number": {**line, "num_format": "#,##0.###"},
        "words": {**line, "indent": 1},
        "words heading": {**head, "indent": 1},
        "words example": {**grey, "indent": 1},
    }


def _choice_of(words: Sequence[str]) -> dict[str, Any]:
    """Return the check of a cell that takes one of a few words."""
    return {
        "validate": "list",
        "source": list(words),
        "error_title": "Not in the list",
        "error_message": "Choose one of the words in the list.",
    }


def _number(column: Column) -> dict[str, Any]:
    """Return the check of cells that take a number; it asks, and does not forbid."""
    limits: dict[str, Any] = {"criteria": ">=", "value": -273.15}
    if not column.heading.endswith("temperature"):
        limits = {"criteria": ">=", "value": 0}
    if column.highest is not None:
        limits = {"criteria": "between", "minimum": 0, "maximum": column.highest}
    return {
        "validate": "decimal",
        **limits,
        "error_type": "warning",
        "error_title": "Is this meant?",
        "error_message": "A plain number is expected here, without unit, in the range that "
        "its meter can read. Leave the cell empty where there is no reading.",
    }


def cells_to_fill(form: Form, year: int) -> Iterable[tuple[str, float]]:
    """Yield each cell that waits for a reading, with the example of its column.

    Args:
        form: the sheet. [form]
        year: of the return. [year]

    Source: definition
    """
    for place, column in enumerate(form.columns, 1):
        for row in range(FIRST, FIRST + len(dates_of(form, year))):
            yield f"{xl_col_to_name(place)}{row + 1}", column.example
