"""A quantity over the periods of the return: one equation gives numbers, formulas, words, slopes.

Domain code is plain arithmetic on rows. A *named* row owns a row of the workbook; a nameless one is
written inside the formula that uses it, so naming decides what the auditor sees. Equality is
identity: the same meter used twice is fully correlated with itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NoReturn, TypeVar

import numpy as np
from numpy.typing import NDArray

from footprint.base.axis import ONCE, Axis
from footprint.base.cause import Error
from footprint.base.operations import OPERATIONS, UnitMismatchError
from footprint.base.source import DEFINITION, Origin
from footprint.base.units import NONE, Unit, label

Array = NDArray[np.float64]
FREE_NUMBERS = frozenset([0.0, 1.0, 12.0, *(10.0**power for power in range(-9, 10))])


class AxisMismatchError(ValueError):
    """Two rows whose periods do not fit; the message names both origins."""


@dataclass(frozen=True, eq=False, slots=True, repr=False)
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
        return apply("+", self, operand(other, self))

    def __radd__(self, other: float) -> Row:
        """Sum with a free number."""
        return apply("+", operand(other, self), self)

    def __sub__(self, other: Row | float) -> Row:
        """Difference of two rows of one unit."""
        return apply("-", self, operand(other, self))

    def __rsub__(self, other: float) -> Row:
        """Difference from a free number."""
        return apply("-", operand(other, self), self)

    def __mul__(self, other: Row | float) -> Row:
        """Product; units multiply."""
        return apply("*", self, operand(other))

    def __rmul__(self, other: float) -> Row:
        """Product with a free number."""
        return apply("*", operand(other), self)

    def __truediv__(self, other: Row | float) -> Row:
        """Quotient; units divide."""
        return apply("/", self, operand(other))

    def __rtruediv__(self, other: float) -> Row:
        """Quotient of a free number."""
        return apply("/", operand(other), self)

    def __neg__(self) -> Row:
        """The row with its sign turned."""
        return apply("NEGATIVE", self)

    def __pow__(self, exponent: float) -> Row:
        """Power with a fixed exponent."""
        return apply("POWER", self, extra=exponent)

    def __lt__(self, other: Row | float) -> Row:
        """1 where smaller, else 0."""
        return apply("<", self, operand(other, self))

    def __le__(self, other: Row | float) -> Row:
        """1 where smaller or equal, else 0."""
        return apply("<=", self, operand(other, self))

    def __gt__(self, other: Row | float) -> Row:
        """1 where larger, else 0."""
        return apply(">", self, operand(other, self))

    def __ge__(self, other: Row | float) -> Row:
        """1 where larger or equal, else 0."""
        return apply(">=", self, operand(other, self))

    def __bool__(self) -> NoReturn:
        """Refuse: a Python branch would bake one outcome into the workbook."""
        raise TypeError("a row has no truth value: write choose(condition, first, second)")

    def __float__(self) -> NoReturn:
        """Refuse: arithmetic on bare numbers would lose the derivation."""
        raise TypeError(
            "a row is no single number: keep computing with the row, or read .values in judge or "
            "report"
        )

    def __repr__(self) -> str:
        """Name the row without the tree behind it, which may hold thousands."""
        return (
            f"<row {self.key or self.op or 'free number'}, {label(self.unit)}, {self.axis.words}>"
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


def operand(other: Row | float, beside: Row | None = None) -> Row:
    """Return a row as it is, or a free number as a nameless row: 0, 1, 12 and powers of ten.

    Args:
        other: what stands in the arithmetic. [row or number]
        beside: the row it stands beside, whose unit a zero takes. [row]

    Raises:
        ValueError: another number, which needs a name and a source.

    Source: definition
    """
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


def common_axis(op: str, args: Sequence[Row]) -> Axis:
    """Return the periods that operands share; a single value goes with any.

    Args:
        op: the operation, for the refusal. [text]
        args: the operands. [rows]

    Raises:
        AxisMismatchError: the periods do not fit; the message names both origins.

    Source: definition
    """
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
    result_axis = axis or common_axis(op, args)
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
