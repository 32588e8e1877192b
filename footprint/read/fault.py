"""Faults of cells on their way to findings: equal ones in a column become one with a cell range."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from openpyxl.utils import get_column_letter

from footprint.base.finding import Code, Finding, Where
from footprint.read.sheet import Cell, Sheet

RANGES_SHOWN = 4
TEXTS_SHOWN = 3
TEXT_LIMIT = 80


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why something was not understood, before its place is known."""

    code: Code
    what: str
    why: str = ""
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """A refusal in one cell."""

    refusal: Refusal
    sheet: Sheet
    heading: str
    row: int
    column: int
    read: str = ""


def fault_in(sheet: Sheet, heading: str, cell: Cell, refusal: Refusal) -> Fault:
    """Return the fault of a cell that holds something.

    Args:
        sheet: where the cell stands. [sheet]
        heading: of the cell's column. [text]
        cell: that was refused. [cell]
        refusal: why. [refusal]

    Source: definition
    """
    return Fault(refusal, sheet, heading, cell.row, cell.column, cell.written)


def merged_findings(faults: Iterable[Fault]) -> list[Finding]:
    """Return one finding for each kind of fault in a column, with all its cells.

    Args:
        faults: in any order; the findings keep the order of each first fault. [faults]

    Source: definition
    """
    groups: dict[tuple[object, ...], list[Fault]] = {}
    for fault in faults:
        refusal = fault.refusal
        key = (id(fault.sheet), fault.column, refusal.code, refusal.why, refusal.mend)
        groups.setdefault(key, []).append(fault)
    return [_finding(group) for group in groups.values()]


def _finding(group: Sequence[Fault]) -> Finding:
    """Return the finding that stands for equal faults of one column."""
    first = group[0]
    cells = cells_in_words(first.column, [fault.row for fault in group])
    where = Where(first.sheet.file, first.sheet.name, cells, first.heading)
    refusal = first.refusal
    read = texts_in_words([fault.read for fault in group])
    what = refusal.what
    if any(fault.refusal.what != what for fault in group):
        others = len({fault.row for fault in group}) - 1
        what += f", and {others} more cell{'s' if others > 1 else ''} like it"
    return refusal.code.at(where, what, read=read, why=refusal.why, mend=refusal.mend)


def cells_in_words(column: int, rows: Iterable[int]) -> str:
    """Return the addresses of cells in one column, such as "D7:D9, D12".

    Args:
        column: counted from 1. [1]
        rows: counted from 1. [1]

    Source: definition
    """
    letter = get_column_letter(column)
    runs = [
        [row for _, row in run]
        for _, run in groupby(enumerate(sorted(set(rows))), key=lambda pair: pair[1] - pair[0])
    ]
    shown = [
        f"{letter}{run[0]}" if len(run) == 1 else f"{letter}{run[0]}:{letter}{run[-1]}"
        for run in runs[:RANGES_SHOWN]
    ]
    left = sum(len(run) for run in runs[RANGES_SHOWN:])
    return ", ".join(shown) + (f" and {left} more" if left else "")


def texts_in_words(texts: Iterable[str]) -> str:
    """Return the texts as read, each once, the first few of many.

    Args:
        texts: as written in the cells. [text]

    Source: definition
    """
    different = list(dict.fromkeys(text for text in texts if text))
    shown = ", ".join(short(text) for text in different[:TEXTS_SHOWN])
    return f"{shown}, ..." if len(different) > TEXTS_SHOWN else shown


def short(text: str) -> str:
    """Return a text of the user on one line, cut where it is long.

    Args:
        text: as written. [text]

    Source: definition
    """
    line = " ".join(text.split())
    return line if len(line) <= TEXT_LIMIT else f"{line[: TEXT_LIMIT - 3]}..."
