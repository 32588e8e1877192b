"""Provisional, final and corrected readings of one date: the later word counts, and it is said."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field, replace

from footprint.base.finding import Finding, Where, declare
from footprint.read.fault import Fault, Refusal, fault_in, merged_findings, short
from footprint.read.headings import (
    MISSING_COLUMN,
    REPEATED_HEADING,
    Column,
    clean,
    headings_in,
    matching,
)
from footprint.read.nearest import offer
from footprint.read.plain_numbers import number_of
from footprint.read.rows import Rows
from footprint.read.sheet import Cell
from footprint.read.site import Meter

RANKS = {"provisional": 0, "final": 1, "corrected": 2}
_TOLD_SINGLY = 12

UNKNOWN_STATUS = declare(
    "unknown-status",
    "stop",
    means="The word beside a reading is neither provisional, final nor corrected.",
    effect="nothing tells whether the reading counts before another of its date; it is not used",
    mend="write provisional, final or corrected into the cell",
    example='"prelim." in the column Status; mended: "provisional"',
)
SUPERSEDED_READING = declare(
    "superseded-reading",
    "note",
    means="A date has several readings, and the one with the later word counts.",
    effect="the reading with the earlier word is not used",
    mend="nothing, if the later word is right",
    example="183000 provisional in B66 and 184320 final in B67",
)
TWO_VALUES_OF_ONE_STATUS = declare(
    "two-values-of-one-status",
    "stop",
    means="A date has two different readings with the same word, and none with a later one.",
    effect="nothing tells which of the two counts, so that none is used",
    mend='mark the reading that counts "corrected", or remove the other row',
    example="184320 final in B67 and 184230 final in B68; mended: corrected in C67",
)
PROVISIONAL_READING_USED = declare(
    "provisional-reading-used",
    "warn",
    means="A reading is provisional, and no final one stands beside it.",
    effect="it is used as it is; the final reading may move the figures",
    mend="add the final readings when they are there",
    example="183000 provisional in B66 alone",
)


@dataclass(frozen=True, eq=False, slots=True)
class Settled:
    """The rows of a table that count for one meter.

    Attributes:
        rows: with one row a date; None where the words are not found. [rows]
        findings: what was chosen or left open. [findings]
    """

    rows: Rows | None
    findings: list[Finding]


@dataclass(frozen=True, eq=False, slots=True)
class _Choice:
    """What is known while rows are settled."""

    tag: str
    column: Column
    words: dict[int, int]
    faults: list[Fault] = field(default_factory=list)
    superseded: list[tuple[Cell, Cell]] = field(default_factory=list)


def settled(meter: Meter, column: Column, rows: Rows) -> Settled:
    """Return the rows that count for a meter: of each date the one with the latest word.

    Args:
        meter: with the heading of the words. [meter]
        column: of its readings. [column]
        rows: of the table, with several rows a date. [rows]

    Findings:
        unknown-status, superseded-reading, two-values-of-one-status, provisional-reading-used.
        missing-column, repeated-heading: of the words.

    Source: definition
    """
    place = _status_column(column, str(meter.status_column))
    if isinstance(place, Finding):
        return Settled(None, [place])
    choice = _Choice(meter.tag, column, {})
    used = [row for row in rows.days if column.sheet.at(row, column.column) is not None]
    _read_words(choice, used, place)
    kept: set[int] = set()
    blocked = set(rows.blocked) | {rows.days[row] for row in used if row not in choice.words}
    for same in _by_period(rows, list(choice.words)).values():
        row = _latest(choice, same)
        if row is None:
            blocked.add(rows.days[same[0]])
        else:
            kept.add(row)
    bare = _without_reading(rows, set(used))
    days = {row: day for row, day in rows.days.items() if row in kept or row in bare}
    findings = [*merged_findings(choice.faults), *_told(choice)]
    return Settled(replace(rows, days=days, blocked=blocked), findings)


def _status_column(column: Column, wanted: str) -> int | Finding:
    """Return the column of the words, or what is missing."""
    headings = headings_in(column.sheet, column.header_row)
    found = matching(headings, wanted)
    sheet = column.sheet
    if len(found) == 1:
        return found[0][0]
    if found:
        what = f'heading "{short(wanted)}" stands over {len(found)} columns'
        return REPEATED_HEADING.at(sheet.where(found[0][0], [column.header_row]), what)
    names = [str(cell.value) for _, cell in headings]
    what = f'no heading "{short(wanted)}" beside "{column.heading}"'
    where = Where(sheet.file, sheet.name)
    return MISSING_COLUMN.at(where, what, mend=offer(wanted, names))


def _read_words(choice: _Choice, used: Sequence[int], place: int) -> None:
    """Read the word of each row with a reading."""
    sheet = choice.column.sheet
    head = sheet.heading_at(choice.column.header_row, place)
    heading = clean(str(head.value)) if head else ""
    for row in used:
        cell = sheet.at(row, place)
        word = " ".join(str(cell.value).split()).casefold() if cell else ""
        if word in RANKS:
            choice.words[row] = RANKS[word]
            continue
        what = f'"{short(word)}" is no status' if word else "a reading has no status"
        refusal = Refusal(UNKNOWN_STATUS, what)
        written = cell.written if cell else ""
        choice.faults.append(Fault(refusal, sheet, heading, row, place, written))


def _by_period(rows: Rows, used: Sequence[int]) -> dict[Hashable, list[int]]:
    """Return the rows of each hour or date."""
    found: dict[Hashable, list[int]] = {}
    for row in used:
        found.setdefault(rows.stamps.get(row, rows.days[row]), []).append(row)
    return found


def _latest(choice: _Choice, same: list[int]) -> int | None:
    """Return the row with the latest word, or None where two of them differ."""
    rank = max(choice.words[row] for row in same)
    latest = [row for row in same if choice.words[row] == rank]
    sheet, number = choice.column.sheet, choice.column.column
    cells = [sheet.cells[(row, number)] for row in latest]
    if len({_content(cell) for cell in cells}) > 1:
        word = list(RANKS)[rank]
        texts = " and ".join(short(cell.written) for cell in cells)
        refusal = Refusal(TWO_VALUES_OF_ONE_STATUS, f"{choice.tag} is {texts}, both {word}")
        choice.faults.extend(
            fault_in(sheet, choice.column.heading, cell, refusal) for cell in cells
        )
        return None
    chosen = sheet.cells[(latest[-1], number)]
    if rank == RANKS["provisional"]:
        refusal = Refusal(PROVISIONAL_READING_USED, f"{choice.tag} has provisional readings")
        choice.faults.append(fault_in(sheet, choice.column.heading, chosen, refusal))
    choice.superseded.extend(
        (sheet.cells[(row, number)], chosen) for row in same if row != chosen.row
    )
    return chosen.row


def _content(cell: Cell) -> float | str:
    """Return what two cells must share to be no contradiction."""
    number = number_of(cell)
    return cell.written if number is None else number


def _without_reading(rows: Rows, used: set[int]) -> set[int]:
    """Return one row for each date on which no row has a reading, so that the hole has a place."""
    held = {rows.days[row] for row in used}
    bare = {day: row for row, day in rows.days.items() if row not in used and day not in held}
    if rows.stamps:
        hours = {rows.stamps[row] for row in used}
        return {row for row in rows.days if row not in used and rows.stamps[row] not in hours}
    return set(bare.values())


def _told(choice: _Choice) -> list[Finding]:
    """Return a note for each reading that another one supersedes; many become one."""
    sheet, heading = choice.column.sheet, choice.column.heading
    pairs = choice.superseded
    singly = pairs if len(pairs) <= _TOLD_SINGLY else []
    notes = [
        SUPERSEDED_READING.at(
            sheet.where(old.column, [old.row], heading),
            f"{choice.tag}: {_with_word(choice, new)} in {_place(choice, new)} counts instead "
            f"of {_with_word(choice, old)}",
            read=old.written,
        )
        for old, new in singly
    ]
    if singly or not pairs:
        return notes
    before, after = (sum(number_of(pair[place]) or 0.0 for pair in pairs) for place in (0, 1))
    where = sheet.where(choice.column.column, [old.row for old, _ in pairs], heading)
    sums = f"together {before:.10g} by {after:.10g}"
    what = f"{choice.tag}: {len(pairs)} readings are superseded, {sums}"
    return [SUPERSEDED_READING.at(where, what)]


def _with_word(choice: _Choice, cell: Cell) -> str:
    """Return a reading with the word beside it, such as "final 184320"."""
    return f"{list(RANKS)[choice.words[cell.row]]} {short(cell.written)}"


def _place(choice: _Choice, cell: Cell) -> str:
    """Return the place of the reading that counts, short where it is in the same sheet."""
    home = choice.column.sheet.home(cell.row)
    first = choice.column.sheet
    is_same = (home.file, home.name) == (first.file, first.name)
    return cell.address if is_same else first.where(cell.column, [cell.row]).words
