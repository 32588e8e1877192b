"""A quantity over the periods of the return: one equation gives numbers, formulas, words, slopes.

Domain code is plain arithmetic on rows. A *named* row owns a row of the workbook; a nameless one is
written inside the formula that uses it, so naming decides what the auditor sees. Equality is
identity: the same meter used twice is fully correlated with itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NoReturn, Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

from footprint.base.axis import ONCE, Axis
from footprint.base.cause import Error
from footprint.base.operations import OPERATIONS, UnitMismatchError
from footprint.base.source import DEFINITION, Iterated, Origin
from footprint.base.units import NONE, Unit, label, ratio_of

Array = NDArray[np.float64]
FREE_NUMBERS = frozenset([0.0, 1.0, 12.0, *(10.0**power for power in range(-9, 10))])


class Amount(Protocol):
    """A thing that adds, subtracts, multiplies and divides: a row, a float, an uncertain number."""

    def __add__(self, other: Any, /) -> Any: ...  # noqa: D105  the names say it
    def __sub__(self, other: Any, /) -> Any: ...  # noqa: D105
    def __mul__(self, other: Any, /) -> Any: ...  # noqa: D105
    def __truediv__(self, other: Any, /) -> Any: ...  # noqa: D105


class AxisMismatchError(ValueError):
    """Two rows whose periods do not fit; the message names both origins."""


@dataclass(frozen=True, eq=False, slots=True)
class Row:
    """A quantity over the periods of one axis.

    Attributes:
        values: shape (..., size of axis); NaN is a missing reading or a figure that cannot be
            given. [unit of the row]
        unit: unit of the house. [unit]
        axis: the periods. [axis]
        key: unit/stream/quantity/basis, unique; empty for a nameless row. [text]
        words: what the reader calls it. [text]
        because: the rule it was computed by. [text]
        origins: of a reading, factor or assumption: one for all values, or one a value. [origins]
        op: entry of the operation table; empty for a leaf. [text]
        args: the operands. [rows]
        extra: what dates or the author fix: indices, spans, digits, words. [any]
        errors: of a leaf: what may be wrong with it. [errors]
    """

    values: Array
    unit: Unit
    axis: Axis
    key: str = ""
    words: str = ""
    because: str = ""
    origins: tuple[Origin | None, ...] = ()
    op: str = ""
    args: tuple[Row, ...] = ()
    extra: Any = None
    errors: tuple[Error, ...] = ()

    def __add__(self, other: Row | float) -> Row:
        """Sum of two rows of one unit."""
        return apply("+", self, _operand(other, self))

    def __radd__(self, other: float) -> Row:
        """Sum with a free number."""
        return apply("+", _operand(other, self), self)

    def __sub__(self, other: Row | float) -> Row:
        """Difference of two rows of one unit."""
        return apply("-", self, _operand(other, self))

    def __rsub__(self, other: float) -> Row:
        """Difference from a free number."""
        return apply("-", _operand(other, self), self)

    def __mul__(self, other: Row | float) -> Row:
        """Product; units multiply."""
        return apply("*", self, _operand(other))

    def __rmul__(self, other: float) -> Row:
        """Product with a free number."""
        return apply("*", _operand(other), self)

    def __truediv__(self, other: Row | float) -> Row:
        """Quotient; units divide."""
        return apply("/", self, _operand(other))

    def __rtruediv__(self, other: float) -> Row:
        """Quotient of a free number."""
        return apply("/", _operand(other), self)

    def __neg__(self) -> Row:
        """The row with its sign turned."""
        return apply("NEGATIVE", self)

    def __pow__(self, exponent: float) -> Row:
        """Power with a fixed exponent."""
        return apply("POWER", self, extra=exponent)

    def __lt__(self, other: Row | float) -> Row:
        """1 where smaller, else 0."""
        return apply("<", self, _operand(other, self))

    def __le__(self, other: Row | float) -> Row:
        """1 where smaller or equal, else 0."""
        return apply("<=", self, _operand(other, self))

    def __gt__(self, other: Row | float) -> Row:
        """1 where larger, else 0."""
        return apply(">", self, _operand(other, self))

    def __ge__(self, other: Row | float) -> Row:
        """1 where larger or equal, else 0."""
        return apply(">=", self, _operand(other, self))

    def __bool__(self) -> NoReturn:
        """Refuse: a Python branch would bake one outcome into the workbook."""
        raise TypeError("a row has no truth value: write choose(condition, first, second)")

    def __float__(self) -> NoReturn:
        """Refuse: arithmetic on bare numbers would lose the derivation."""
        raise TypeError(
            "a row is no single number: keep computing with the row, or read .values in judge or "
            "report"
        )

    @property
    def is_leaf(self) -> bool:
        """Whether the row was read, looked up or assumed, not computed."""
        return not self.op

    @property
    def is_named(self) -> bool:
        """Whether the row owns cells of its own."""
        return bool(self.key)

    def origin(self, index: int) -> Origin | None:
        """Return where one value comes from.

        Args:
            index: place on the axis. [1]

        Source: definition
        """
        return self.origins[index if len(self.origins) > 1 else 0] if self.origins else None

    def replaced(self, **changes: Any) -> Row:
        """Return a copy with some attributes changed; it is another row, with another identity.

        Args:
            changes: attributes and their new values. [any]

        Source: definition
        """
        return replace(self, **changes)


def _operand(other: Row | float, beside: Row | None = None) -> Row:
    if isinstance(other, Row):
        return other
    number = float(other)
    if number not in FREE_NUMBERS:
        raise ValueError(f"{number:g} needs a name and a source: make it a factor or constant(...)")
    unit_taken = beside.unit if beside is not None and number == 0 else NONE
    return Row(np.array([number]), unit_taken, ONCE)


def describe(row: Row) -> str:
    """Return unit, name and first origin of a row, for refusals.

    Args:
        row: any row. [row]

    Source: definition
    """
    for leaf in ancestry([row]):
        if leaf.origins and leaf.origins[0] is not None:
            return f"{label(row.unit)} ({row.words or 'nameless'}; {leaf.origins[0].words})"
    return f"{label(row.unit)} ({row.words or 'nameless'})"


def _common_axis(op: str, args: Sequence[Row]) -> Axis:
    axes = {arg.axis for arg in args if arg.axis.kind != "once"}
    if len(axes) > 1:
        named = " and ".join(
            f"{arg.axis.words} ({describe(arg)})" for arg in args if arg.axis.kind != "once"
        )
        raise AxisMismatchError(f"{op} needs rows over the same periods, not {named}")
    return axes.pop() if axes else ONCE


def apply(op: str, *args: Row, extra: Any = None, axis: Axis | None = None) -> Row:
    """Return the nameless row that an operation makes of its operands.

    Args:
        op: entry of the operation table. [text]
        args: the operands. [rows]
        extra: indices, spans, digits or words that the operation needs. [any]
        axis: the axis of the result, for operations that cross axes. [axis]

    Raises:
        UnitMismatchError: the units do not fit; the message names both origins.
        AxisMismatchError: the periods do not fit.

    Source: definition
    """
    rule = OPERATIONS[op]
    result_axis = axis or _common_axis(op, args)
    try:
        result_unit = rule.unit(*(arg.unit for arg in args), extra=extra)
    except UnitMismatchError:
        named = " and ".join(describe(arg) for arg in args)
        raise UnitMismatchError(f"{op} cannot join {named}") from None
    values = rule.number(*(arg.values for arg in args), extra=extra)
    return Row(
        np.asarray(values, dtype=float), result_unit, result_axis, op=op, args=args, extra=extra
    )


def leaf(  # noqa: PLR0913  what is read has seven parts, four of them by name
    values: Sequence[float] | Array,
    unit: Unit,
    axis: Axis,
    *,
    key: str,
    words: str,
    origins: Sequence[Origin | None],
    errors: Sequence[Error] = (),
) -> Row:
    """Return a row that was read, looked up or assumed.

    Args:
        values: one a period. [unit]
        unit: unit of the house. [unit]
        axis: the periods. [axis]
        key: unit/stream/quantity/basis. [text]
        words: what the reader calls it. [text]
        origins: one for all values, or one a value; None where nothing was written. [origins]
        errors: what may be wrong with the values. [errors]

    Source: definition
    """
    array = np.asarray(values, dtype=float)
    if array.shape[-1] != axis.size or len(origins) not in {1, axis.size}:
        raise ValueError(
            f"{key}: {array.shape[-1]} values and {len(origins)} origins for {axis.size} periods"
        )
    return Row(array, unit, axis, key, words, "", tuple(origins), errors=tuple(errors))


def constant(value: float, unit: Unit, key: str, words: str, origin: Origin = DEFINITION) -> Row:
    """Return a single value with its source, such as a molar mass.

    Args:
        value: the number. [unit]
        unit: unit of the house. [unit]
        key: unit/stream/quantity/basis. [text]
        words: what the reader calls it. [text]
        origin: document, assumption or definition. [origin]

    Source: definition
    """
    return leaf([value], unit, ONCE, key=key, words=words, origins=[origin])


Stepped = TypeVar("Stepped", Row, float)


def step(row: Stepped, key: str, words: str, because: str) -> Stepped:
    """Return the row under a name, so that it owns cells; a bare number passes through.

    A row that has a name already, or was read, is referred to by a new "=" row: it stays one
    reading.

    Args:
        row: the result to name. [row or number]
        key: unit/stream/quantity/basis, unique in a run. [text]
        words: what the reader calls it. [text]
        because: the rule, with its place. [text]

    Source: definition
    """
    if not isinstance(row, Row):
        return row
    base = apply("=", row) if row.is_leaf or row.is_named else row
    return replace(base, key=key, words=words, because=because)


def choose(condition: Row, first: Row, second: Row | float) -> Row:
    """Return the first row where the condition holds, else the second; spelled IF.

    Args:
        condition: 1 or 0. [1]
        first: value where the condition is not 0. [any]
        second: value where it is 0; a row or a free number. [any]

    Source: definition
    """
    return apply("CHOOSE", condition, first, _operand(second, first))


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
    _common_axis("DOT", (left, right))
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


def ancestry(tops: Iterable[Row]) -> list[Row]:
    """Return all rows behind the given ones, each after those it is made from.

    Args:
        tops: any rows. [rows]

    Source: definition
    """
    order: dict[Row, None] = {}
    stack: list[tuple[Row, bool]] = [(top, False) for top in reversed(list(tops))]
    while stack:
        row, is_ready = stack.pop()
        if row in order:
            continue
        if is_ready:
            order[row] = None
        else:
            stack.append((row, True))
            stack.extend((arg, False) for arg in reversed(row.args) if arg not in order)
    return list(order)


def evaluate(tops: Sequence[Row], given: Mapping[Row, Array]) -> list[Array]:
    """Return the same tree on other numbers, such as (draws, periods) arrays.

    Args:
        tops: the rows wanted. [rows]
        given: other values for some leaves. [unit of each row]

    Source: definition
    """
    known: dict[Row, Array] = dict(given)
    for row in ancestry(tops):
        if row in known:
            continue
        if row.op:
            number = OPERATIONS[row.op].number
            known[row] = np.asarray(
                number(*(known[arg] for arg in row.args), extra=row.extra), dtype=float
            )
        else:
            known[row] = row.values
    return [known[top] for top in tops]
