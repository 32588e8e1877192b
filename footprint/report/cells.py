"""What one cell holds: a number, words, or a live formula with its stored result."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from footprint.base.row import Row
from footprint.base.spelling import ADDRESS_ONLY, spell
from footprint.report.layout import Layout
from footprint.report.places import LayoutError, Place, address, quoted_sheet, range_of
from footprint.report.words import CANNOT_BE_GIVEN, NO_DATA

LONGEST_FORMULA = 8192  # of the file format
MARK = "\x00"  # around a row number that runs along with the periods


@dataclass(frozen=True, slots=True)
class Live:
    """A formula, without its equals sign, and the result that was computed for it."""

    formula: str
    value: float | str


Content = Live | float | str


class Cells:
    """Labels that are addresses, as seen from one sheet."""

    def __init__(self, layout: Layout, home: Place, top: Row, *, marks: bool = False) -> None:
        """Keep the plan, the cells of the row whose formula is written, and the row.

        With `marks`, row numbers that run along with the periods stand between marks.
        """
        self.layout, self.home, self.top, self.marks = layout, home, top, marks

    def cell(self, row: Row, index: int) -> str:
        """Return the address of one value.

        Args:
            row: a named row. [row]
            index: place on its axis. [1]

        Source: definition
        """
        place = self.layout.place(row)
        found = reference(self.home, place, index)
        return self._marked(found, place.row + 1 + index) if place.runs == "down" else found

    def _marked(self, found: str, number: int) -> str:
        """Mark the number that an address ends in, as one that runs along with the periods."""
        digits = str(number)
        return f"{found[: len(found) - len(digits)]}{MARK}{digits}{MARK}" if self.marks else found

    def cells(self, row: Row, first: int, last: int) -> str:
        """Return the address of a range.

        Args:
            row: a named row. [row]
            first: first place. [1]
            last: the place after the last. [1]

        Source: definition
        """
        place = self.layout.place(row)
        is_fixed = place.runs == "down"
        return self._on(place.sheet) + range_of(
            place.at(first), place.at(last - 1), is_fixed=is_fixed
        )

    def block(self, rows: Sequence[Row], index: int) -> str:
        """Return the address of adjacent rows at one period.

        Args:
            rows: of a block. [rows]
            index: place on their axis. [1]

        Source: definition
        """
        place = self.layout.blocks.get((tuple(rows), self.top.axis))
        if place is None:
            raise LayoutError(
                f"{self.top.key}: its block of {rows[0].words} has no place in the workbook"
            )
        along = index if place.runs else 0
        row, column = place.row, place.column
        if place.is_upright:
            first, last = (row, column + along), (row + place.size - 1, column + along)
        else:
            first, last = (row + along, column), (row + along, column + place.size - 1)
        found = range_of(first, last, is_fixed=not place.runs)
        if self.marks and place.runs:
            found = ":".join(self._marked(corner, row + 1 + index) for corner in found.split(":"))
        return self._on(place.sheet) + found

    def _on(self, sheet: str) -> str:
        return "" if sheet == self.home.sheet else quoted_sheet(sheet)


def shown(row: Row, index: int) -> float | str | None:
    """Return what a live formula shows: a number or words; None where it cannot be given.

    Args:
        row: any row. [row]
        index: place on its axis. [1]

    Source: definition
    """
    at = index if row.values.shape[-1] > 1 else 0
    value = float(row.values[at])
    if math.isfinite(value):
        return (
            row.extra[round(value)] if row.op == "WORDS" else value + 0.0
        )  # no minus before a zero
    if row.is_leaf:
        return NO_DATA
    return _words_instead(row, at)


def _words_instead(row: Row, index: int) -> str | None:
    """Return the words that a formula passes on, or None where it would be an error."""
    if row.op in {"=", "PICK"}:
        return _passed_on(row.args[0], row.extra[index] if row.op == "PICK" else index)
    if row.op == "RATIO":
        return str(row.extra) if shown(row.args[1], index) == 0 else None
    condition = shown(row.args[0], index) if row.op in {"CHOOSE", "GIVEN"} else None
    if not isinstance(condition, float):
        return None
    if row.op == "GIVEN":
        return _passed_on(row.args[1], index) if condition else str(row.extra)
    return _passed_on(row.args[1] if condition else row.args[2], index)


def _passed_on(row: Row, index: int) -> str | None:
    words = shown(row, index)
    if isinstance(words, str):
        return words
    return CANNOT_BE_GIVEN if row.is_named else None


def contents(layout: Layout, row: Row, home: Place, size: int = 0) -> Iterator[Content]:
    """Return what the cells of a row hold at one place of the workbook.

    Args:
        layout: the plan. [layout]
        row: a named row. [row]
        home: first cell of the row here; not always the one that formulas refer to. [place]
        size: number of cells; that of the row's axis when 0. [1]

    Source: definition
    """
    place, evidence = layout.place(row), layout.evidence.get(row)
    values = (shown(row, index) for index in range(size or row.axis.size))
    if home == place and evidence is not None:
        yield from _references(home, evidence, values)
    elif home not in (place, evidence):
        yield from _references(home, place, values)
    elif row.is_leaf or row.op == "FROZEN":
        yield from (CANNOT_BE_GIVEN if value is None else value for value in values)
    else:
        formula = _formula_of(layout, row, home)
        for index, value in enumerate(values):
            yield CANNOT_BE_GIVEN if value is None else Live(formula(index), value)


def _formula_of(layout: Layout, row: Row, home: Place) -> Callable[[int], str]:
    """Return the formula of a place; spelled once where only row numbers run."""
    if home.runs != "down" or row.op in ADDRESS_ONLY:
        labels = Cells(layout, home, row)
        return lambda index: _checked(row, spell(row, index, labels))
    pattern = _checked(row, spell(row, 0, Cells(layout, home, row, marks=True))).split(MARK)
    fixed, numbers = pattern[::2], [int(number) for number in pattern[1::2]]

    def formula(index: int) -> str:
        running = [
            f"{number + index}{after}" for number, after in zip(numbers, fixed[1:], strict=True)
        ]
        return fixed[0] + "".join(running)

    return formula


def _checked(row: Row, formula: str) -> str:
    if len(formula) > LONGEST_FORMULA:
        raise LayoutError(f"{row.key}: its formula is too long for a cell; name a part of it")
    return formula


def _references(home: Place, source: Place, values: Iterable[float | str | None]) -> Iterator[Live]:
    for index, value in enumerate(values):
        yield Live(reference(home, source, index), CANNOT_BE_GIVEN if value is None else value)


def reference(home: Place, source: Place, index: int) -> str:
    """Return the address of one value as seen from another place; fixed if it does not move.

    Args:
        home: first cell of the row whose formula is written. [place]
        source: first cell of the row referred to. [place]
        index: place on its axis. [1]

    Source: definition
    """
    sheet = "" if source.sheet == home.sheet else quoted_sheet(source.sheet)
    is_fixed = source.runs == "once" or source.runs != home.runs
    return sheet + address(*source.at(index), is_fixed=is_fixed)
