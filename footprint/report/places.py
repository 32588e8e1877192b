"""Where a row stands in the workbook, and how a formula on another sheet refers to it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from xlsxwriter.utility import xl_col_to_name

Runs = Literal["once", "across", "down"]
_PLAIN_NAME = re.compile(r"[A-Za-z_]+\Z")


class LayoutError(ValueError):
    """A row that has no place in the workbook, or two that claim one: our own mistake."""


@dataclass(frozen=True, slots=True)
class Place:
    """The first cell of a row, and the way it runs from there; counted from 0."""

    sheet: str
    row: int
    column: int
    runs: Runs = "once"

    def at(self, index: int) -> tuple[int, int]:
        """Return row and column of one value.

        Args:
            index: place on the axis. [1]

        Source: definition
        """
        if self.runs == "across":
            return self.row, self.column + index
        return self.row + (index if self.runs == "down" else 0), self.column


@cache
def quoted_sheet(name: str) -> str:
    """Return a sheet name as a formula writes it, with its exclamation mark.

    Args:
        name: of the sheet. [text]

    Source: ECMA-376, part 1, clause 18.17.2.3 (from memory)
    """
    return f"{name}!" if _PLAIN_NAME.match(name) else "'" + name.replace("'", "''") + "'!"


@cache
def _letters(column: int, *, is_fixed: bool) -> str:
    return str(xl_col_to_name(column, is_fixed))


def address(row: int, column: int, *, is_fixed: bool) -> str:
    """Return the address of a cell, such as D12 or $D$12.

    Args:
        row: counted from 0. [1]
        column: counted from 0. [1]
        is_fixed: with dollar signs. [flag]

    Source: definition
    """
    return f"{_letters(column, is_fixed=is_fixed)}{'$' if is_fixed else ''}{row + 1}"


def range_of(first: tuple[int, int], last: tuple[int, int], *, is_fixed: bool) -> str:
    """Return the address of a range; of one cell when both corners are one.

    Args:
        first: row and column of one corner. [1]
        last: row and column of the other. [1]
        is_fixed: with dollar signs. [flag]

    Source: definition
    """
    one = address(*first, is_fixed=is_fixed)
    return one if first == last else f"{one}:{address(*last, is_fixed=is_fixed)}"


def in_words(place: Place, size: int = 1) -> str:
    """Return a place as the reader sees it: sheet and cells.

    Args:
        place: first cell. [place]
        size: number of values. [1]

    Source: definition
    """
    last = place.at(size - 1)
    return f"{place.sheet}, {range_of((place.row, place.column), last, is_fixed=False)}"


def target_of(place: Place, size: int = 1) -> str:
    """Return a place as an internal link names it.

    Args:
        place: first cell. [place]
        size: number of values. [1]

    Source: definition
    """
    cells = range_of((place.row, place.column), place.at(size - 1), is_fixed=False)
    return f"internal:{quoted_sheet(place.sheet)}{cells}"
