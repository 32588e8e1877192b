"""Numbers of single cells where nothing is at stake but a comparison."""

from __future__ import annotations

import re

from footprint.read.number_words import meanings
from footprint.read.sheet import Cell


def number_of(cell: Cell | None) -> float | None:
    """Return the number in a cell if it can only be one number.

    Args:
        cell: or None for an empty one. [cell]

    Source: definition
    """
    if cell is None or cell.kind not in ("number", "text"):
        return None
    if isinstance(cell.value, float):
        return cell.value
    values = set(meanings(str(cell.value)).values())
    return values.pop() if len(values) == 1 else None


def is_equal(number: float, other: float, cell: Cell) -> bool:
    """Return whether two numbers agree within half the last digit that a cell shows.

    Args:
        number: in the cell. [unit]
        other: computed. [unit]
        cell: that shows the number. [cell]

    Source: definition
    """
    decimals = len(re.split(r"[.,]", cell.written)[-1]) if re.search(r"[.,]", cell.written) else 0
    return abs(number - other) <= max(0.5 * 10.0**-decimals, 1e-9 * abs(other))
