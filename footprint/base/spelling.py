"""A row as text: with cell addresses it is the live formula, with names it is the audit trail."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from footprint.base.operations import FUNCTION, OPERATIONS, TRUTHS
from footprint.base.row import Row

ADDRESS_ONLY = frozenset(["PICK", "SPAN", "DOT", "COUNT"])


class Labels(Protocol):
    """What to call a named value, a range of one row, and a block of adjacent rows."""

    def cell(self, row: Row, index: int) -> str:
        """Return the label of one value.

        Args:
            row: a named row. [row]
            index: place on its axis. [1]

        Source: definition
        """

    def cells(self, row: Row, first: int, last: int) -> str:
        """Return the label of a range.

        Args:
            row: a named row. [row]
            first: first place. [1]
            last: the place after the last. [1]

        Source: definition
        """

    def block(self, rows: Sequence[Row], index: int) -> str:
        """Return the label of adjacent rows at one place.

        Args:
            rows: that the layout keeps adjacent. [rows]
            index: place on their axis. [1]

        Source: definition
        """


class Names:
    """Labels that are words: the audit trail."""

    def cell(self, row: Row, index: int) -> str:
        """Return the row's own words.

        Args:
            row: a named row. [row]
            index: place on its axis. [1]

        Source: definition
        """
        return row.words or f"{row.values[..., min(index, row.axis.size - 1)]:g}"

    def cells(self, row: Row, first: int, last: int) -> str:
        """Return the row's own words; the periods are named beside it.

        Args:
            row: a named row. [row]
            first: first place. [1]
            last: the place after the last. [1]

        Source: definition
        """
        del first, last
        return row.words

    def block(self, rows: Sequence[Row], index: int) -> str:
        """Return the words that the rows of a block share.

        Args:
            rows: that the layout keeps adjacent. [rows]
            index: place on their axis. [1]

        Source: definition
        """
        del index
        shared = rows[0].words.partition(" of ")[0]
        return f"{shared} of each component"


def spell(row: Row, index: int, labels: Labels) -> str:
    """Return the formula of one cell, without the equals sign.

    Args:
        row: a computed row. [row]
        index: place on its axis. [1]
        labels: how named values are called. [labels]

    Raises:
        ValueError: a nameless row made by PICK, SPAN or DOT stands inside another formula.

    Source: definition
    """
    text = _spell(row, index, labels, whole=True)
    return f"IF({text},1,0)" if row.op in TRUTHS else text


def _place(arg: Row, index: int) -> int:
    return 0 if arg.axis.kind == "once" else index


def _spell(row: Row, index: int, labels: Labels, *, whole: bool) -> str:
    if row.is_leaf and not row.is_named:
        return f"{row.values[0]:.15G}"
    if row.is_leaf or (row.is_named and not whole):
        return labels.cell(row, _place(row, index))
    rule = OPERATIONS[row.op]
    if row.op in ADDRESS_ONLY and not whole:
        raise ValueError(f"{row.op} of {row.args[0].words} needs a name of its own")
    return rule.spell(*_operands(row, index, labels), extra=row.extra)


def _operands(row: Row, index: int, labels: Labels) -> list[str]:
    if row.op == "TOTAL":
        return [labels.cells(row.args[0], 0, row.args[0].axis.size)]
    if row.op == "PICK":
        return [labels.cell(row.args[0], row.extra[index])]
    if row.op in {"SPAN", "DOT", "COUNT"}:
        first, last = row.extra[index]
        return [labels.cells(arg, first, last) for arg in row.args]
    if row.op == "BLOCK_SUM":
        return [labels.block(row.args, index)]
    if row.op == "SUMPRODUCT":
        half = len(row.args) // 2
        return [labels.block(side, index) for side in (row.args[:half], row.args[half:])]
    return [_operand(row, place, index, labels) for place in range(len(row.args))]


def _operand(row: Row, place: int, index: int, labels: Labels) -> str:
    """Spell one operand: in brackets where it binds less, a truth as 1 or 0 among numbers."""
    arg, rule = row.args[place], OPERATIONS[row.op]
    text = _spell(arg, index, labels, whole=False)
    if arg.is_leaf or arg.is_named:
        return text
    if arg.op in TRUTHS:
        is_condition = row.op in {"AND", "OR"} or (row.op in {"CHOOSE", "GIVEN"} and place == 0)
        return text if is_condition else f"IF({text},1,0)"
    inside = rule.binds if rule.binds < FUNCTION else rule.holds
    return f"({text})" if OPERATIONS[arg.op].binds < inside + (place > 0) else text
