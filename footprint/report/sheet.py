"""The only way to the file: typed calls, formulas with results, trouble is an error."""

from __future__ import annotations

import gc
import warnings
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from textwrap import wrap
from typing import Any

from xlsxwriter.chart import Chart
from xlsxwriter.exceptions import XlsxWriterException
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from footprint.report.cells import Content, Live

Stored = Callable[[float | str], float | str]
ROW_HEIGHT = 15.0  # points
POINTS = 13.0  # of a line of print
LONGEST_TEXT = 32767  # characters that a cell of the file format holds
MOST_LINKS = 65530  # that a sheet of the file format holds


class WorkbookError(RuntimeError):
    """The file format refuses what was to be written: our own mistake."""


@contextmanager
def strict() -> Iterator[None]:
    """Turn warnings of the writing library into errors while a workbook is made.

    Source: definition
    """
    was_on = gc.isenabled()
    gc.disable()  # a workbook is a few hundred thousand small things, none of them garbage
    with warnings.catch_warnings():
        warnings.simplefilter("error", UserWarning)
        try:
            yield
        except (XlsxWriterException, UserWarning) as trouble:
            raise WorkbookError(str(trouble)) from trouble
        finally:
            if was_on:
                gc.enable()


class Paper(Worksheet):  # type: ignore[misc]  # the library carries no types
    """A sheet of the writing library, less its search for functions that we never use."""

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: FBT001, FBT002  theirs
        del (
            expand_future_functions
        )  # the search takes half of the time that a year of formulas needs
        return formula.removeprefix("=")


class Sheet:
    """One sheet of the workbook."""

    def __init__(self, worksheet: Worksheet, stored: Stored) -> None:
        """Wrap a sheet; `stored` lets tests falsify the results beside formulas."""
        self.paper = worksheet
        self.name = str(worksheet.get_name())
        self.stored = stored

    def text(self, row: int, column: int, words: str, look: Format | None = None) -> None:
        """Write words; they never become a formula, a number or a link.

        Args:
            row: counted from 0. [1]
            column: counted from 0. [1]
            words: any text. [text]
            look: format. [format]

        Source: definition
        """
        if len(words) > LONGEST_TEXT:
            words = words[: LONGEST_TEXT - 3] + "..."
        _insist(self.paper.write_string(row, column, words, look))

    def number(self, row: int, column: int, value: float, look: Format | None = None) -> None:
        """Write a number.

        Args:
            row: counted from 0. [1]
            column: counted from 0. [1]
            value: the number. [any]
            look: format. [format]

        Source: definition
        """
        _insist(self.paper.write_number(row, column, value, look))

    def formula(self, row: int, column: int, live: Live, look: Format | None = None) -> None:
        """Write a formula with the result that was computed for it.

        Args:
            row: counted from 0. [1]
            column: counted from 0. [1]
            live: formula and result. [formula]
            look: format. [format]

        Source: definition
        """
        _insist(
            self.paper.write_formula(row, column, "=" + live.formula, look, self.stored(live.value))
        )

    def put(self, row: int, column: int, what: Content, look: Format | None = None) -> None:
        """Write a number, words or a formula.

        Args:
            row: counted from 0. [1]
            column: counted from 0. [1]
            what: the content. [content]
            look: format. [format]

        Source: definition
        """
        if isinstance(what, Live):
            self.formula(row, column, what, look)
        elif isinstance(what, str):
            self.text(row, column, what, look)
        else:
            self.number(row, column, what, look)

    def link(self, at: tuple[int, int], target: str, words: str, look: Format) -> None:
        """Write a link to another place of the workbook.

        Args:
            at: row and column. [1]
            target: the place, as `target_of` names it. [text]
            words: what the reader sees. [text]
            look: format. [format]

        Source: definition
        """
        _insist(self.paper.write_url(*at, target, look, words))

    def merge(self, cells: tuple[int, int, int, int], words: str, look: Format) -> None:
        """Write words over several cells.

        Args:
            cells: first row and column, last row and column. [1]
            words: any text. [text]
            look: format. [format]

        Source: definition
        """
        _insist(self.paper.merge_range(*cells, "", look))
        self.text(cells[0], cells[1], words, look)

    def blank(self, row: int, column: int, look: Format) -> None:
        """Give an empty cell a look.

        Args:
            row: counted from 0. [1]
            column: counted from 0. [1]
            look: format. [format]

        Source: definition
        """
        _insist(self.paper.write_blank(row, column, None, look))

    def heighten(
        self, row: int, texts: Iterable[tuple[str, float]], points: float = POINTS
    ) -> None:
        """Make a row high enough for wrapped words.

        Args:
            row: counted from 0. [1]
            texts: words and the width of their column in characters. [text, 1]
            points: height of a line of print. [point]

        Source: definition
        """
        lines = max((lines_of(words, width) for words, width in texts), default=1)
        if lines > 1:
            _insist(self.paper.set_row(row, lines * points + 2))

    def image(self, row: int, name: str, facts: dict[str, Any]) -> None:
        """Put a picture on the sheet.

        Args:
            row: of its upper edge. [1]
            name: of the file inside the workbook. [text]
            facts: bytes, alternative text, size. [options]

        Source: definition
        """
        _insist(self.paper.insert_image(row, 0, name, facts))

    def hold_rows(self, first: int, count: int) -> None:
        """Fix the height of rows under a picture, lest another program squash it.

        Args:
            first: row of its upper edge. [1]
            count: number of rows. [1]

        Source: definition
        """
        for row in range(first, first + count):
            self.paper.set_row(row, ROW_HEIGHT)

    def chart(self, row: int, chart: Chart, facts: dict[str, Any]) -> None:
        """Put a chart on the sheet.

        Args:
            row: of its upper edge. [1]
            chart: as made by the workbook. [chart]
            facts: alternative text, offsets. [options]

        Source: definition
        """
        _insist(self.paper.insert_chart(row, 0, chart, facts) or 0)


def lines_of(words: str, width: float) -> int:
    """Return how many lines words take in a column.

    Args:
        words: any text. [text]
        width: of the column. [characters]

    Source: definition
    """
    if len(words) <= width:
        return 1
    return sum(len(wrap(paragraph, max(int(width), 4))) for paragraph in words.split("\n"))


def _insist(code: Any) -> None:
    if code != 0:
        raise WorkbookError(f"the writing library refused a cell (code {code})")
