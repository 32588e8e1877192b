"""Sums, roots and positive parts that work alike on numbers, numbers with uncertainty and rows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from footprint.base.formulas import block_product, block_sum, choose, square_root
from footprint.base.row import Row

Number = TypeVar("Number", float, Row)


def weighted_sum(fractions: Sequence[Number], values: Sequence[Number]) -> Number:
    """Return the sum of fraction times value over the components.

    Args:
        fractions: one a component; of rows, those that the layout keeps adjacent. [any]
        values: one a component, in the same order. [any]

    Source: definition
    """
    first = fractions[0]
    if isinstance(first, Row):
        return block_product(fractions, values)
    return sum(a * b for a, b in zip(fractions, values, strict=True))


def total_of(values: Sequence[Number]) -> Number:
    """Return the sum over the components.

    Args:
        values: one a component; of rows, those that the layout keeps adjacent. [any]

    Source: definition
    """
    first = values[0]
    if isinstance(first, Row):
        return block_sum(values)
    return sum(values)


def root(value: Number) -> Number:
    """Return the square root.

    Args:
        value: not negative. [any]

    Source: definition
    """
    if isinstance(value, Row):
        return square_root(value)
    result: float = value**0.5  # a power, not math.sqrt: numbers with uncertainty have no other
    return result


def positive_part(value: Number) -> Number:
    """Return the value where it is above zero, else zero.

    Args:
        value: of either sign; a row must have a name, for it is written more than once. [any]

    Source: definition
    """
    if isinstance(value, Row):
        return choose(value > 0, value, 0 * value)
    return value if value > 0 else 0 * value
