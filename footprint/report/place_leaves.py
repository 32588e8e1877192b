"""Gives places to what was read, looked up, assumed or iterated."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from footprint.base.row import Row
from footprint.base.source import Assumption, Factor, Reading
from footprint.report.layout import FACTORS, READINGS, Layout
from footprint.report.lineage import is_published, was_read
from footprint.report.places import Place, Runs
from footprint.report.plan import FIRST, FactorLine, Heading, ReadingBlock

VALUE_READ = 5  # column of the value on the sheet of readings
VALUE_FACTOR = 1  # column of the value on the sheet of factors
ITERATED_VALUE = 2  # column of an iterated value, further down on the sheet of factors
BY_ADDRESS = frozenset(
    ["=", "PICK", "SPAN", "TOTAL", "COUNT"]
)  # formulas that may point down a sheet from across the months
FINE = frozenset(["days", "dates", "tickets", "pieces"])


def place_readings(layout: Layout) -> None:
    """Give every reading its line on its sheet, in the order of files, sheets and columns.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    names = [file.name for file in layout.book.files]
    rows = [row for row in layout.lineage.rows if _is_listed(row)]
    at = FIRST
    for row in sorted(rows, key=lambda row: _order(row, names)):
        layout.readings.append(ReadingBlock(at, row))
        _settle(layout, row, Place(READINGS, at + 1, VALUE_READ, _runs(row)))
        at += row.axis.size + 1


def _runs(row: Row) -> Runs:
    return "once" if row.axis.kind == "once" else "down"


def _is_listed(row: Row) -> bool:
    if not row.is_leaf:
        return False
    if row.axis.kind in FINE:
        return not is_published(row)
    return row.axis.kind in {"months", "once"} and was_read(row)


def _order(row: Row, names: list[str]) -> tuple[int, str, str]:
    first = next((origin for origin in row.origins if isinstance(origin, Reading)), None)
    if first is None:
        return len(names) + 1, "", ""
    place = names.index(first.file) if first.file in names else len(names)
    return place, first.sheet, first.cell.rstrip("0123456789").rjust(3)


def _settle(layout: Layout, row: Row, place: Place) -> None:
    """Give a row its place; one that is needed across the months is shown there by reference."""
    if row in layout.places or (row.axis.kind == "months" and _is_needed_across(layout, row)):
        layout.evidence[row] = place
    else:
        layout.put(row, place)


def _is_needed_across(layout: Layout, row: Row) -> bool:
    users = layout.lineage.users[row]
    return row in layout.book.shown or any(user.op not in BY_ADDRESS for user in users)


def place_factors(layout: Layout) -> None:
    """Give factors, assumptions, what follows from them alone, and iterated values their lines.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    at = FIRST
    for title, belongs in SECTIONS:
        rows = [row for row in layout.lineage.rows if row not in layout.places and belongs(row)]
        if title != DERIVED:
            rows.sort(key=lambda row: (row.words.casefold(), row.key))
        at = _place_section(layout, Heading(at, title), rows)
    frozen = [row for row in layout.lineage.rows if row.op == "FROZEN"]
    if frozen:
        layout.factors.iterated_heading = Heading(at, ITERATED)
        _place_iterated(layout, frozen, at + 1)


def _place_section(layout: Layout, heading: Heading, rows: Iterable[Row]) -> int:
    lines: list[FactorLine] = []
    at = heading.at + 1
    for row in rows:
        layout.put(row, Place(FACTORS, at, VALUE_FACTOR, _runs(row)))
        lines += [FactorLine(at + index, row, index) for index in range(row.axis.size)]
        at += row.axis.size
    if not lines:
        return heading.at
    layout.factors.sections.append((heading, lines))
    return at + 1


def _place_iterated(layout: Layout, rows: Iterable[Row], at: int) -> None:
    for row in rows:
        at += 2  # a line with the method, and one with the names of the operands
        _settle(layout, row, Place(FACTORS, at, ITERATED_VALUE, _runs(row)))
        layout.factors.iterated += [
            FactorLine(at + index, row, index) for index in range(row.axis.size)
        ]
        at += row.axis.size


def _is_factor(row: Row) -> bool:
    is_single = row.axis.kind in {"once", "editions"}
    return row.is_leaf and is_single and is_published(row) and not _is_definition(row)


def _is_definition(row: Row) -> bool:
    return (
        row.is_leaf
        and row.axis.kind == "once"
        and all(
            isinstance(origin, Factor) and origin.document == "definition" for origin in row.origins
        )
        and bool(row.origins)
    )


def _is_assumption(row: Row) -> bool:
    is_single = row.axis.kind in {"once", "editions"}
    return (
        row.is_leaf and is_single and any(isinstance(origin, Assumption) for origin in row.origins)
    )


def _is_derived(row: Row) -> bool:
    """Return whether a single figure follows from factors and assumptions alone."""
    if row.is_leaf or row.op == "FROZEN" or row.axis.kind != "once":
        return False
    waiting, seen = list(row.args), set[Row]()
    while waiting:
        arg = waiting.pop()
        if arg in seen:
            continue
        seen.add(arg)
        if arg.axis.kind != "once" or (arg.is_leaf and arg.is_named and was_read(arg)):
            return False
        waiting.extend(arg.args)
    return True


DERIVED, ITERATED = "Worked out from factors and assumptions alone", "Iterated values"
SECTIONS: tuple[tuple[str, Callable[[Row], bool]], ...] = (
    ("Assumptions", _is_assumption),
    ("Factors", _is_factor),
    ("Definitions and conversions of units", _is_definition),
    (DERIVED, _is_derived),
)
