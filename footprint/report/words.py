"""Figures and formulas in print: names instead of cells, digits that mean something."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from decimal import Decimal

import numpy as np

from footprint.base.row import Row
from footprint.base.spelling import Names, spell
from footprint.base.units import NONE, label

NO_DATA, CANNOT_BE_GIVEN = "no data", "cannot be given"
MONTH_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
MEANINGFUL_DIGITS = 4  # shown of the largest value of a row that is no whole amount
_MARKED = re.compile("\x01([^\x02]*)\x02")
_SIGN = re.compile(r'"[^"]*"|ISNUMBER\(|SUMPRODUCT\(|[A-Z]+\(|<=|>=|[*/+,<>=-]')
_READABLE = {
    "ISNUMBER(": "is read(",
    "SUMPRODUCT(": "sum of products(",
    "POWER(": "power(",
    "SQRT(": "root(",
    "ROUND(": "rounded(",
    "ABS(": "size of(",
    "MIN(": "smallest(",
    "MAX(": "largest(",
    "CHOOSE(": "word(",
    "*": " × ",
    "/": " ÷ ",
    "+": " + ",
    "-": " − ",
    ",": "; ",
    "<=": " ≤ ",
    ">=": " ≥ ",
    "<": " < ",
    ">": " > ",
    "=": " = ",
}


class _MarkedNames(Names):
    """Names in marks, so that a hyphen inside a name is not taken for a minus."""

    def cell(self, row: Row, index: int) -> str:
        return f"\x01{super().cell(row, index)}\x02"

    def cells(self, row: Row, first: int, last: int) -> str:
        return f"\x01{super().cells(row, first, last)}\x02"

    def block(self, rows: Sequence[Row], index: int) -> str:
        return f"\x01{super().block(rows, index)}\x02"


def formula_in_words(row: Row) -> str:
    """Return how a row is computed, with the names of its operands; empty for a leaf.

    Args:
        row: a named row. [row]

    Source: definition
    """
    if row.is_leaf:
        return ""
    if row.op == "FROZEN":
        return f"iterated from {', '.join(arg.words or 'a value' for arg in row.args)}"
    text = spell(row, 0, _MarkedNames())
    pieces = _MARKED.split(text)  # every second piece is a name
    return "".join(
        piece if place % 2 else _readable(piece) for place, piece in enumerate(pieces)
    ).replace("( −", "(−")


def _readable(piece: str) -> str:
    def in_words(found: re.Match[str]) -> str:
        sign = found[0]
        return sign if sign.startswith('"') else _READABLE.get(sign, sign.lower())

    return _SIGN.sub(in_words, piece)


def is_share(row: Row) -> bool:
    """Return whether a plain number is a part of a whole, to be shown in per cent.

    Args:
        row: a named row. [row]

    Source: definition
    """
    if row.unit != NONE or np.all(np.isin(row.values[np.isfinite(row.values)], (0.0, 1.0))):
        return False  # a flag is no share
    named = f"{row.key} {row.words}".casefold()
    return any(word in named for word in ("share", "fraction"))


def decimals(row: Row) -> int:
    """Return how many decimals are shown: none of tonnes and volumes, four digits of rates.

    Args:
        row: a named row. [row]

    Source: definition
    """
    finite = np.abs(row.values[np.isfinite(row.values)])
    largest = float(finite.max()) if finite.size else 0.0
    if is_share(row):
        return 3 if row.axis.kind == "samples" else 1
    if largest == 0 or (np.all(finite == np.round(finite)) and "/" not in label(row.unit)):
        return 0
    if largest >= 100 and "/" not in label(row.unit):  # noqa: PLR2004  amounts from a hundred up are shown whole
        return 0
    fewest = 2 if "/" in label(row.unit) and largest < 1000 else 0  # noqa: PLR2004  rates: 0.00
    return min(max(fewest, MEANINGFUL_DIGITS - 1 - math.floor(math.log10(largest))), 12)


def published_decimals(value: float) -> int:
    """Return how many decimals a factor was published with.

    Args:
        value: the number. [any]

    Source: definition
    """
    exponent = Decimal(f"{value:.15g}").as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


def in_figures(row: Row, value: float) -> str:
    """Return a number with the digits that the row is shown with and a thin gap at the thousands.

    Args:
        row: whose digits. [row]
        value: the number; NaN gives words. [unit of the row]

    Source: definition
    """
    if math.isnan(value):
        return NO_DATA if row.is_leaf else CANNOT_BE_GIVEN
    if is_share(row):
        return f"{100 * value:.{decimals(row)}f} %"
    return f"{value + 0.0:,.{decimals(row)}f}".replace(",", " ")
