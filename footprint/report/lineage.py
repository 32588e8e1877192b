"""Who is made of what: the operands of a named row, its users, its blocks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from footprint.base.axis import Axis
from footprint.base.row import Row, ancestry
from footprint.base.source import Factor, Reading
from footprint.report.places import LayoutError

BLOCKS = frozenset(["SUMPRODUCT", "BLOCK_SUM"])
Side = tuple[Row, ...]


@dataclass(frozen=True, eq=False, slots=True)
class BlockUse:
    """The sides of one sum over a block, and the axis of the row whose formula it stands in."""

    sides: tuple[Side, ...]
    axis: Axis


@dataclass(frozen=True, eq=False)
class Lineage:
    """All named rows of a book, each after those it is made from.

    Attributes:
        rows: named rows. [rows]
        operands: the named rows in the formula of each. [rows]
        users: the named rows whose formula holds each. [rows]
        blocks: sums over blocks, in the order of their rows. [blocks]
    """

    rows: tuple[Row, ...]
    operands: dict[Row, tuple[Row, ...]]
    users: dict[Row, tuple[Row, ...]]
    blocks: tuple[BlockUse, ...]


def lineage_of(tops: Iterable[Row]) -> Lineage:
    """Return all named rows behind the given ones, and how they hang together.

    Args:
        tops: rows shown by name. [rows]

    Raises:
        LayoutError: two rows share a key, or a row that is shown has none.

    Source: definition
    """
    tops = list(tops)
    for top in tops:
        if not top.is_named:
            raise LayoutError(f"a row that is shown has no key: {top.words or top.op}")
    rows = tuple(row for row in ancestry(tops) if row.is_named)
    _refuse_repeated_keys(rows)
    operands = {row: tuple(dict.fromkeys(_named_below(row))) for row in rows}
    users: dict[Row, list[Row]] = {row: [] for row in rows}
    for row in rows:
        for operand in operands[row]:
            users[operand].append(row)
    blocks = tuple(use for row in rows for use in _blocks_of(row))
    return Lineage(rows, operands, {row: tuple(found) for row, found in users.items()}, blocks)


def _refuse_repeated_keys(rows: Iterable[Row]) -> None:
    seen: dict[str, Row] = {}
    for row in rows:
        if row.key in seen:
            raise LayoutError(
                f"two rows have the key {row.key}: {seen[row.key].words} and {row.words}"
            )
        seen[row.key] = row


def _named_below(row: Row) -> Iterator[Row]:
    for arg in row.args:
        if arg.is_named:
            yield arg
        else:
            yield from _named_below(arg)


def _blocks_of(top: Row) -> Iterator[BlockUse]:
    waiting = [top]
    while waiting:
        row = waiting.pop()
        if row.op in BLOCKS:
            half = len(row.args) // 2
            sides = (row.args[:half], row.args[half:]) if row.op == "SUMPRODUCT" else (row.args,)
            yield BlockUse(sides, top.axis)
        waiting.extend(arg for arg in row.args if not arg.is_named)


def was_read(row: Row) -> bool:
    """Return whether a leaf came, at least in part, from cells of the input files.

    Args:
        row: a leaf. [row]

    Source: definition
    """
    return any(isinstance(origin, Reading) for origin in row.origins)


def is_published(row: Row) -> bool:
    """Return whether every value of a leaf is a factor.

    Args:
        row: a leaf. [row]

    Source: definition
    """
    return bool(row.origins) and all(isinstance(origin, Factor) for origin in row.origins)
