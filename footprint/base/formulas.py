"""What can be made of rows: choices, sums, ranges of other axes, conversions."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from footprint.base.axis import ONCE, Axis
from footprint.base.row import Row, apply, common_axis, constant, operand, step
from footprint.base.source import Iterated
from footprint.base.units import Unit, label, ratio_of


def choose(condition: Row, first: Row, second: Row | float) -> Row:
    """Return the first row where the condition holds, else the second; spelled IF.

    Args:
        condition: 1 or 0. [1]
        first: value where the condition is not 0. [any]
        second: value where it is 0; a row or a free number. [any]

    Source: definition
    """
    return apply("CHOOSE", condition, first, operand(second, first))


def is_read(row: Row) -> Row:
    """Return 1 where a reading exists, 0 where it is missing.

    Args:
        row: a reading. [any]

    Source: definition
    """
    return apply("IS_READ", row)


def ratio(above: Row, below: Row, otherwise: str = "no production") -> Row:
    """Return a quotient that shows words where there is nothing below the line.

    Args:
        above: what is divided. [any]
        below: what it is divided by; may be 0. [any]
        otherwise: shown where `below` is 0. [text]

    Source: definition
    """
    return apply("RATIO", above, below, extra=otherwise)


def given(condition: Row, figure: Row, otherwise: str) -> Row:
    """Return a figure where a condition holds, words where it does not.

    Args:
        condition: 1 or 0. [1]
        figure: shown where the condition is not 0. [any]
        otherwise: shown where it is 0. [text]

    Source: definition
    """
    return apply("GIVEN", condition, figure, extra=otherwise)


def total(row: Row) -> Row:
    """Return the sum over all periods.

    Args:
        row: any row over periods. [any]

    Source: definition
    """
    return apply("TOTAL", row, axis=ONCE)


def sum_of(rows: Sequence[Row]) -> Row:
    """Return the sum of several rows of one unit.

    Args:
        rows: at least one. [any]

    Source: definition
    """
    return rows[0] if len(rows) == 1 else apply("SUM", *rows)


MOST_ADDED = 7  # operands of one sum, so that its formula can be read in the cell


def named_sum(rows: Sequence[Row], key: str, words: str, because: str) -> Row:
    """Return the named sum of any number of rows; a long one is made of named parts.

    Args:
        rows: at least one, of one unit. [any]
        key: key of the sum. [text]
        words: what the reader calls it. [text]
        because: the rule. [text]

    Source: definition
    """
    parts = list(rows)
    while len(parts) > MOST_ADDED:
        place = len(parts) - MOST_ADDED
        first, rest = parts[:MOST_ADDED], parts[MOST_ADDED:]
        named = step(sum_of(first), f"{key}/part before {place} more", f"{words}, part", because)
        parts = [named, *rest]
    return step(sum_of(parts), key, words, because)


def smallest(*rows: Row) -> Row:
    """Return the smallest of several rows, period by period.

    Args:
        rows: at least one. [any]

    Source: definition
    """
    return apply("MIN", *rows)


def largest(*rows: Row) -> Row:
    """Return the largest of several rows, period by period.

    Args:
        rows: at least one. [any]

    Source: definition
    """
    return apply("MAX", *rows)


def absolute(row: Row) -> Row:
    """Return the row without its sign.

    Args:
        row: any row. [any]

    Source: definition
    """
    return apply("ABS", row)


def square_root(row: Row) -> Row:
    """Return the square root.

    Args:
        row: not negative. [any]

    Source: definition
    """
    return apply("SQRT", row)


def rounded(row: Row, digits: int) -> Row:
    """Return the row rounded half away from zero, as a filed figure is.

    Args:
        row: any row. [any]
        digits: decimal places. [1]

    Source: definition
    """
    return apply("ROUND", row, extra=digits)


def in_words(row: Row, *words: str) -> Row:
    """Return a row of small whole numbers that is shown as words: 0 the first, 1 the second.

    Args:
        row: 0, 1, 2 and so on. [1]
        words: what each number is shown as. [text]

    Source: definition
    """
    return apply("WORDS", row, extra=words)


def block_sum(rows: Sequence[Row]) -> Row:
    """Return the sum of a block, such as a composition, period by period; spelled as one range.

    Args:
        rows: rows of one unit that the layout keeps adjacent. [any]

    Source: definition
    """
    return apply("BLOCK_SUM", *rows)


def block_product(left: Sequence[Row], right: Sequence[Row]) -> Row:
    """Return the sum of products of two blocks, such as composition and component property.

    Args:
        left: rows that the layout keeps adjacent. [any]
        right: as many rows, in the same order. [any]

    Source: definition
    """
    return apply("SUMPRODUCT", *left, *right)


def pick(row: Row, places: Sequence[int], axis: Axis) -> Row:
    """Return cells of another axis: place i of the result is place places[i] of the row.

    Args:
        row: a named row. [any]
        places: one a period of the result. [1]
        axis: the periods of the result. [axis]

    Source: definition
    """
    return apply("PICK", row, extra=tuple(places), axis=axis)


def span(row: Row, spans: Sequence[tuple[int, int]], axis: Axis) -> Row:
    """Return sums over ranges of another axis.

    Args:
        row: a named row. [any]
        spans: first place and the place after the last, one a period of the result. [1]
        axis: the periods of the result. [axis]

    Source: definition
    """
    return apply("SPAN", row, extra=tuple(spans), axis=axis)


def count(row: Row, spans: Sequence[tuple[int, int]], axis: Axis) -> Row:
    """Return how many readings exist in ranges of another axis.

    Args:
        row: a named row. [any]
        spans: first place and the place after the last, one a period of the result. [1]
        axis: the periods of the result. [axis]

    Source: definition
    """
    return apply("COUNT", row, extra=tuple(spans), axis=axis)


def dot(left: Row, right: Row, spans: Sequence[tuple[int, int]], axis: Axis) -> Row:
    """Return sums of products over ranges of another axis, such as volume times composition.

    Args:
        left: a named row. [any]
        right: a named row on the same axis. [any]
        spans: first place and the place after the last, one a period of the result. [1]
        axis: the periods of the result. [axis]

    Source: definition
    """
    common_axis("DOT", (left, right))
    return apply("DOT", left, right, extra=tuple(spans), axis=axis)


def frozen(
    function: Callable[..., Any], unit: Unit, *rows: Row, key: str, words: str, method: str
) -> Row:
    """Return the result of a calculation that a spreadsheet cannot hold, to 12 significant digits.

    Args:
        function: takes the operands' arrays, returns an array. [function]
        unit: unit of the result. [unit]
        rows: the operands. [rows]
        key: unit/stream/quantity/basis. [text]
        words: what the reader calls it. [text]
        method: the calculation and its source, in words. [text]

    Source: definition
    """
    bare = apply("FROZEN", *rows, extra=function)
    if bare.values.shape[-1] != bare.axis.size:
        raise ValueError(
            f"{key}: an iterated row needs one result a period, or its slopes are wrong"
        )
    return replace(
        bare, unit=unit, key=key, words=words, because=method, origins=(Iterated(method),)
    )


def convert(
    row: Row, unit: Unit, key: str, words: str, because: str = "conversion of units"
) -> Row:
    """Return the row in another unit by a visible factor; the row itself when nothing changes.

    Args:
        row: a named row. [any]
        unit: unit wanted. [unit]
        key: key of the converted row. [text]
        words: what the reader calls it. [text]
        because: the reason shown. [text]

    Raises:
        ValueError: the units measure different things.

    Source: definition
    """
    if row.unit == unit:
        return row
    factor = conversion(row.unit, unit)
    return step(row * factor, key, words, because)


_CONVERSIONS: dict[tuple[Unit, Unit], Row] = {}


def conversion(have: Unit, want: Unit) -> Row:
    """Return the factor that turns one unit into another; the same row for the same pair.

    Args:
        have: unit to turn. [unit]
        want: unit wanted. [unit]

    Source: definition
    """
    if (have, want) not in _CONVERSIONS:
        words = f"{label(want)} in one {label(have)}"
        made = constant(
            ratio_of(have, want), want / have, f"units/{have:C}/{want:C}/conversion", words
        )
        _CONVERSIONS[have, want] = made
    return _CONVERSIONS[have, want]
