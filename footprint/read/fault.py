"""Faults of cells on their way to findings: equal ones in a column become one with a cell range."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footprint.base.finding import Finding
from footprint.read.refusal import Refusal
from footprint.read.sheet import Cell, Sheet

__all__ = ["Fault", "Refusal", "fault_in", "merged_findings", "short", "texts_in_words"]

TEXTS_SHOWN = 3
TEXT_LIMIT = 80


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
        refusal, home = fault.refusal, fault.sheet.home(fault.row)
        place = (id(fault.sheet), home.file, home.name, fault.column)
        key = (*place, refusal.code, refusal.why, refusal.mend)
        groups.setdefault(key, []).append(fault)
    return [_finding(group) for group in groups.values()]


def _finding(group: Sequence[Fault]) -> Finding:
    """Return the finding that stands for equal faults of one column."""
    first = group[0]
    where = first.sheet.where(first.column, [fault.row for fault in group], first.heading)
    refusal = first.refusal
    read = texts_in_words([fault.read for fault in group])
    what = refusal.what
    if any(fault.refusal.what != what for fault in group):
        others = len({fault.row for fault in group}) - 1
        what += f", and {others} more cell{'s' if others > 1 else ''} like it"
    return refusal.code.at(where, what, read=read, why=refusal.why, mend=refusal.mend)


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
