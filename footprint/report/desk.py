"""What every sheet is written with: plan, looks, file, and the frame that all share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from xlsxwriter import Workbook
from xlsxwriter.format import Format

from footprint.base.row import Row
from footprint.report.cells import Live, contents
from footprint.report.layout import Layout
from footprint.report.looks import Looks, Role, role_of
from footprint.report.places import Place, in_words, target_of
from footprint.report.plan import HEADER, QUESTION, TITLE
from footprint.report.sheet import Paper, Sheet, Stored
from footprint.report.words import MONTH_NAMES

A4 = 9
LONGEST_IN_FOOTER = 60  # characters of the name of the works; a footer holds 255 in all
MARGINS = {"left": 0.4, "right": 0.4, "top": 0.5, "bottom": 0.6}
ALLOWED = {
    "objects": True,  # else "trace precedents" is greyed out
    "scenarios": True,
    "format_columns": True,
    "format_rows": True,
    "sort": True,
    "autofilter": True,
}
LIMITS = ("OPEN below", "LOOK below", "LOOK above", "OPEN above")
WORDS: dict[str, Any] = {
    "align": "right",
    "shrink": True,
    "font_size": 8,
}  # where a figure could stand
NUMERIC = frozenset(
    [*MONTH_NAMES, "Year", "Value", "Number", *LIMITS]
)  # headings that stand over right-aligned figures


def side_of(heading: str) -> str:
    """Return on which side of its column a heading stands.

    Args:
        heading: words. [text]

    Source: definition
    """
    return "right" if heading in NUMERIC else "left"


def _role(row: Row, index: int, words: float | str) -> Role:
    return role_of(row.origin(index), is_missing=isinstance(words, str))


@dataclass(frozen=True, eq=False)
class Desk:
    """Plan, file and looks of one workbook."""

    layout: Layout
    workbook: Workbook
    looks: Looks
    stored: Stored

    def sheet(
        self, name: str, question: str, widths: Sequence[float], headings: Sequence[str] = ()
    ) -> Sheet:
        """Return a new sheet with its title, its question, its head and its print set-up.

        Args:
            name: of the sheet. [text]
            question: that the sheet answers. [text]
            widths: of the columns. [characters]
            headings: of the columns; none leaves the head out. [text]

        Source: definition
        """
        book = self.layout.book
        sheet = Sheet(self.workbook.add_worksheet(name, Paper), self.stored)
        sheet.paper.set_row(TITLE, 24)
        sheet.text(TITLE, 0, f"{name}, {book.works}, {book.year}", self.looks.of("title"))
        sheet.text(QUESTION, 0, question, self.looks.of("note"))
        for column, width in enumerate(widths):
            sheet.paper.set_column(column, column, width)
        for column, words in enumerate(headings):
            sheet.text(HEADER, column, words, self.looks.of("heading", align=side_of(words)))
        sheet.heighten(HEADER, zip(headings, widths, strict=False))
        self._set_up(sheet, has_head=bool(headings))
        return sheet

    def _set_up(self, sheet: Sheet, *, has_head: bool) -> None:
        paper, book = sheet.paper, self.layout.book
        paper.hide_gridlines(2)
        paper.set_landscape()
        paper.set_paper(A4)
        paper.set_margins(**MARGINS)
        paper.fit_to_pages(1, 0)
        works = book.works[:LONGEST_IN_FOOTER].replace("&", "&&")
        paper.set_footer(
            f"&L&8{works}, {book.year}, run {book.fingerprint[:12]}&C&8&A&R&8page &P of &N"
        )
        paper.protect("", ALLOWED)
        if has_head:
            paper.freeze_panes(HEADER + 1, 1)
            paper.repeat_rows(HEADER)

    def fill(
        self, sheet: Sheet, row: Row, home: Place, *, role: Role | None = None, size: int = 0
    ) -> None:
        """Write all values of a row at one place of the workbook.

        Args:
            sheet: the sheet. [sheet]
            row: a named row. [row]
            home: first cell. [place]
            role: look of all cells; that of the origin or of a calculation when None. [role]
            size: number of cells; that of the row's axis when 0. [1]

        Source: definition
        """
        numbers = self.looks.numbers(row)
        owns = row.is_leaf or row.op == "FROZEN"
        made: dict[tuple[Role, bool], Format] = {}
        for index, what in enumerate(contents(self.layout, row, home, size)):
            words = what.value if isinstance(what, Live) else what
            used = role or (
                "calculated" if isinstance(what, Live) or not owns else _role(row, index, words)
            )
            look = used, isinstance(words, str)
            if look not in made:
                made[look] = self.looks.of(used, numbers, **(WORDS if look[1] else {}))
            sheet.put(*home.at(index), what, made[look])

    def links(
        self, sheet: Sheet, row: int, column: int, targets: Sequence[tuple[Place, int]]
    ) -> None:
        """Write links to other cells, one a column.

        Args:
            sheet: the sheet. [sheet]
            row: line of the links. [1]
            column: first column. [1]
            targets: first cells and number of values. [places]

        Source: definition
        """
        for offset, (place, size) in enumerate(targets):
            look = self.looks.of("link", font_size=8)
            sheet.link((row, column + offset), target_of(place, size), in_words(place, size), look)

    def sources(self, row: Row, most: int) -> list[tuple[Place, int]]:
        """Return where the operands of a row stand, for links; or the source it is shown from.

        Args:
            row: a named row. [row]
            most: how many at most. [1]

        Source: definition
        """
        if row in self.layout.evidence:
            return [(self.layout.evidence[row], row.axis.size)]
        rows = self.layout.lineage.operands[row]
        found = {self.layout.source(operand): operand.axis.size for operand in rows}
        return list(found.items())[:most]

    def uses(self, row: Row, most: int) -> list[tuple[Place, int]]:
        """Return where the rows stand that a row goes into, for links.

        Args:
            row: a named row. [row]
            most: how many at most. [1]

        Source: definition
        """
        users = self.layout.lineage.users.get(row, ())
        found = [(self.layout.place(user), user.axis.size) for user in users]
        if row in self.layout.evidence and row in self.layout.places:
            found.insert(0, (self.layout.places[row], row.axis.size))
        return found[:most]
