"""The files that were read, each with the fingerprint of its bytes."""

from __future__ import annotations

from footprint.report.desk import Desk
from footprint.report.layout import FILES
from footprint.report.plan import FIRST

HEADINGS = ("File", "Size, bytes", "SHA-256", "Sheets", "Readings taken", "Left out, and why")
WIDTHS = (30, 12, 62, 22, 12, 40)
QUESTION = "Which files were read, byte for byte, and what in them was not used?"


def write_files(desk: Desk) -> None:
    """Write the input files.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(FILES, QUESTION, WIDTHS, HEADINGS)
    looks = desk.looks
    for at, file in enumerate(desk.layout.book.files, FIRST):
        sheet.text(at, 0, file.name, looks.of("text"))
        sheet.number(at, 1, file.size, looks.of("calculated", "#,##0", valign="top"))
        sheet.text(at, 2, file.sha256, looks.of("text", font_name="Courier New", font_size=8))
        sheet.text(at, 3, ", ".join(file.sheets) or "text file", looks.of("text"))
        sheet.number(at, 4, file.readings, looks.of("calculated", "#,##0", valign="top"))
        sheet.text(at, 5, file.left_out or "nothing", looks.of("text"))
        sheet.heighten(at, [(file.name, 30), (", ".join(file.sheets), 22), (file.left_out, 40)])
    at = FIRST + len(desk.layout.book.files) + 1
    sheet.text(at, 0, "all files together (run)", looks.of("text"))
    sheet.text(
        at, 2, desk.layout.book.fingerprint, looks.of("text", font_name="Courier New", font_size=8)
    )
