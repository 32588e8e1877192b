"""How the workbook works: method, how to read and trace, protection, legend."""

from __future__ import annotations

from footprint.report.desk import Desk
from footprint.report.layout import HOW
from footprint.report.looks import Role
from footprint.report.plan import HEADER
from footprint.report.sheet import Sheet

QUESTION = "How do the figures come about, and how can one of them be followed back?"
READING_IT = (
    (
        "Follow a figure",
        (
            "Every figure is a live formula. On a sheet of months the columns after the year "
            "say in words how a line is computed, by which rule, and link to the cells it "
            "comes from. Follow the links until you reach Readings, Gas analyses or Factors; "
            "there, file, sheet and cell (or document and place) stand beside the value. "
            "Input files holds the SHA-256 of each file: compare it with that of the file you "
            "were sent."
        ),
    ),
    (
        "Try a change",
        (
            "Cells for readings can be typed over, and all formulas follow. Iterated values "
            "do not follow: the check beside them turns from HOLDS to OPEN. Pictures of flows "
            "do not follow either."
        ),
    ),
    (
        "Words in place of numbers",
        (
            '"no data": nothing readable stood in the cell. "cannot be given": something that '
            'the figure needs is missing. Such cells hold words, not formulas. "no '
            'production" and the like: there is nothing to divide by; that formula is live.'
        ),
    ),
    (
        "Names of readings",
        (
            "The id of a reading is made from file, sheet and cell, so it stays the same when "
            "other files join. The key names a row in this workbook and in the tables that "
            "the tool writes."
        ),
    ),
    (
        "Digits",
        (
            "Shown digits are rounded, stored ones are not. Only a line that says so rounds "
            "its value, half away from zero."
        ),
    ),
    (
        "Protection",
        (
            "Sheets are protected against slips, without a password: Review, Unprotect Sheet. "
            "Cells to type in are unlocked. There are no macros, no hidden sheets and no "
            "links to other workbooks."
        ),
    ),
    (
        "Print",
        (
            "Sheets print on A4, landscape, one page wide. Of the sheets of months the "
            "columns up to the year are printed; formulas in words, rules, keys and links are "
            "for the screen."
        ),
    ),
)
LEGEND: tuple[tuple[Role, str, str], ...] = (
    ("reading", "reading (entry)", "unlocked, may be typed over; file, sheet and cell beside it"),
    ("estimated", "estimated or substituted", "letter E under Treatment"),
    ("missing", "missing", 'the words "no data"'),
    ("assumption", "assumption", "author, day and reason beside it"),
    ("factor", "factor", "stands on Factors, with its document"),
    ("frozen", "iterated value", "HOLDS or OPEN beside it"),
    ("calculated", "calculated", "a formula"),
    ("total", "total", "bold, with a line above"),
    ("passed", "PASS", "the word"),
    ("look", "LOOK", "the word: unusual, look at it"),
    ("open", "OPEN", "the word: outside what is possible or allowed"),
    ("link", "link", "underlined"),
)


def write_how(desk: Desk) -> None:
    """Write how the workbook works.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(HOW, QUESTION, (30, 110))
    at = HEADER
    for title, text in (*desk.layout.book.how, *READING_IT):
        sheet.text(at, 0, title, desk.looks.of("text", bold=True))
        for paragraph in text.split("\n\n"):
            sheet.text(at, 1, paragraph, desk.looks.of("text"))
            sheet.heighten(at, [(paragraph, 110)])
            at += 1
    _write_legend(desk, sheet, at + 1)


def _write_legend(desk: Desk, sheet: Sheet, at: int) -> None:
    sheet.text(at, 0, "Colours and second marks", desk.looks.of("section"))
    sheet.blank(at, 1, desk.looks.of("section"))
    for offset, (role, name, mark) in enumerate(LEGEND, 1):
        sheet.text(at + offset, 0, name, desk.looks.of(role))
        sheet.text(at + offset, 1, mark, desk.looks.of("text", indent=1))
