"""Puts the picture of the year's carbon on the sheet whose figures it shows."""

from __future__ import annotations

import io

from footprint.report.desk import Desk
from footprint.report.layout import BALANCE
from footprint.report.sankey import alt_text, carbon_picture
from footprint.report.sheet import Sheet

SHRINK = 0.9  # of the picture's own size, so that its print matches that of the sheet
DOTS_PER_ROW = 29  # of the picture, shrunk, at its 140 dots an inch
NOTE = "The picture shows the figures as computed; it does not follow a cell that is typed over."


def write_picture(desk: Desk, sheet: Sheet, at: int) -> int:
    """Write the picture of flows, if it belongs on this sheet; return the next free row.

    Args:
        desk: plan, file and looks. [desk]
        sheet: a sheet of months. [sheet]
        at: first free row. [1]

    Source: definition
    """
    book = desk.layout.book
    if not book.flows or sheet.name != _home(desk):
        return at
    title = f"Carbon of the year, {book.works}, {book.year}"
    sheet.text(at, 0, NOTE, desk.looks.of("note"))
    picture = carbon_picture(book.flows, title)
    facts = {
        "image_data": io.BytesIO(picture),
        "object_position": 2,
        "description": alt_text(book.flows, title),
        "x_scale": SHRINK,
        "y_scale": SHRINK,
        "y_offset": 6,
    }
    sheet.image(at + 1, "carbon.png", facts)
    count = 2 + int(_height_of(picture) * SHRINK / DOTS_PER_ROW)
    sheet.hold_rows(at + 1, count)
    return at + count


def _height_of(picture: bytes) -> int:
    """Return the height in dots that a PNG file names in its head."""
    return int.from_bytes(picture[20:24], "big")


def _home(desk: Desk) -> str:
    """Return the sheet of the carbon balance, else the one on which most flows stand."""
    layout = desk.layout
    names = [page.name for page in layout.pages]
    if BALANCE in names:
        return BALANCE
    stands = [layout.place(flow.year).sheet for flow in layout.book.flows]
    return max((name for name in names), key=stands.count, default="")
