"""The numbers in a column of readings, cell by cell, with everything that is not a plain number."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from footprint.base.finding import declare
from footprint.read.fault import Refusal, short
from footprint.read.number_words import TEXT_IN_NUMBER_CELL, DecimalMark, numbers_in
from footprint.read.sheet import Cell

_OTHER_FILE = re.compile(r"\[[^\]]+\][^!]*!|'[^']*\[[^\]]+\][^']*'!")

FORMULA_WITHOUT_RESULT = declare(
    "formula-without-result",
    "stop",
    means="A cell holds a formula whose result was never stored.",
    effect="the file was written by a program and never computed; the reading counts as missing",
    mend="open the file in a spreadsheet program, save it, and read it again",
    example="=B2*1000 without a stored result",
)
ERROR_CELL = declare(
    "error-cell",
    "stop",
    means="A cell shows an error of the spreadsheet.",
    effect="the reading counts as missing",
    mend="mend the formula of the cell, or the cell that it refers to",
    example="#DIV/0! or #REF!",
)
DATE_IN_NUMBER_CELL = declare(
    "date-in-number-cell",
    "stop",
    means="A cell of a column of readings is stored as a date or a time.",
    effect='a spreadsheet turned a typed number such as "3.12" or "24:00" into a '
    "date; the number is lost",
    mend="give the cell a number format and type the number again",
    example="3 December in a column of tonnes; mended: 3.12",
)
NUMBER_AS_TEXT = declare(
    "number-stored-as-text",
    "note",
    means="A number is stored as text in a workbook.",
    effect="it was read as the number it spells; sums in the sheet itself leave it out",
    mend="nothing, if the number is right; else turn the cells into numbers",
    example="'1 234.5 as text, read as 1234.5",
)
READING_IS_FORMULA = declare(
    "reading-is-a-formula",
    "note",
    means="Readings are the results of formulas, as stored when the file was last saved.",
    effect="the chain to the meter goes on behind the cell",
    mend="nothing; keep the file that the formulas draw on",
    example="=B4*24 in a column of daily amounts",
)
READING_FROM_OTHER_FILE = declare(
    "reading-from-another-file",
    "warn",
    means="Readings are the results of formulas that refer to another workbook.",
    effect="the stored result was read; the other workbook was not opened and may have changed",
    mend="paste the values, or name the other file in site.toml",
    example="='[old.xlsx]Sheet1'!B4",
)
MIXED_PER_CENT = declare(
    "mixed-per-cent",
    "stop",
    means="A column of per cent holds cells shown as per cent beside plain numbers.",
    effect="0.985 beside 98.5 %: nothing tells whether the plain number is a share or per cent",
    mend="give all cells of the column one format",
    example='98.5 beside a cell 0.985 shown as "98.5 %"; mended: 98.5 in both, plain',
)
AMOUNT_AS_PER_CENT = declare(
    "amount-shown-as-per-cent",
    "stop",
    means="A cell of a column of amounts has the format of per cent.",
    effect="the number stored is a hundredth of the one shown; nothing tells which is meant",
    mend="give the cell a number format and look at its value",
    example='150 t shown as "15000 %"; mended: 150 with a number format',
)


@dataclass(frozen=True, slots=True)
class Valued:
    """The number in a cell, with the notes that reading it took."""

    value: float
    notes: tuple[Refusal, ...] = ()


def values_in(
    cells: Sequence[Cell], mark: DecimalMark | None, *, is_per_cent: bool, is_text_usual: bool
) -> list[Valued | Refusal]:
    """Return the number of each cell of a column that is not empty, or why it is refused.

    Args:
        cells: of one column, from top to bottom. [cells]
        mark: the decimal mark, where the site file settles it. [text]
        is_per_cent: the unit is per cent, so that 0.985 shown as 98.5 % is read as 98.5. [flag]
        is_text_usual: the file is a text file, where every number is text. [flag]

    Findings:
        formula-without-result, error-cell, date-in-number-cell: no number.
        mixed-per-cent, amount-shown-as-per-cent: a number that may be a hundredth.
        number-stored-as-text, reading-is-a-formula, reading-from-another-file: the number is read.
        the codes of `number_words`.

    Source: definition
    """
    texts = [_bare(cell, is_per_cent=is_per_cent) for cell in cells if cell.kind == "text"]
    numbers = iter(numbers_in(texts, mark))
    shown = [_is_shown_as_per_cent(cell) for cell in cells]
    is_rare = sum(shown) * 2 <= len(shown)  # of two kinds, the rarer is refused
    is_mixed = is_per_cent and any(shown) and not all(shown)
    results: list[Valued | Refusal] = []
    for cell, is_shown in zip(cells, shown, strict=True):
        found = next(numbers) if cell.kind == "text" else _stored(cell, is_per_cent=is_per_cent)
        if is_mixed and is_shown == is_rare and not isinstance(found, Refusal):
            kinds = ("shown as per cent", "plain numbers")
            own, other = kinds if is_shown else kinds[::-1]
            what = f"cells are {own}, while most of the column are {other}"
            found = Refusal(MIXED_PER_CENT, what)
        if isinstance(found, Refusal):
            results.append(_with_own_text(cell, found))
        else:
            results.append(Valued(found, _notes(cell, is_text_usual=is_text_usual)))
    return results


def _is_shown_as_per_cent(cell: Cell) -> bool:
    """Return whether a cell shows a per cent sign."""
    return cell.is_percent or (cell.kind == "text" and str(cell.value).rstrip().endswith("%"))


def _bare(cell: Cell, *, is_per_cent: bool) -> str:
    """Return the text of a cell, without its per cent sign where the column is per cent."""
    text = str(cell.value)
    return text.rstrip().removesuffix("%") if is_per_cent else text


def _with_own_text(cell: Cell, refusal: Refusal) -> Refusal:
    """Return a refusal that quotes the whole text, not the one without its per cent sign."""
    if refusal.code is TEXT_IN_NUMBER_CELL and cell.kind == "text":
        what = f'"{short(str(cell.value))}" is not a number'
        return Refusal(refusal.code, what, refusal.why, refusal.mend)
    return refusal


def _stored(cell: Cell, *, is_per_cent: bool) -> float | Refusal:
    """Return the number stored in a cell that is no text, or why there is none."""
    if isinstance(cell.value, float) and not cell.is_percent:
        return cell.value
    written = short(cell.written)
    if isinstance(cell.value, Refusal):
        return cell.value
    if not isinstance(cell.value, float):
        is_date = f'"{written}" is stored as a date or a time'
        why = {
            "no result": Refusal(FORMULA_WITHOUT_RESULT, "formulas have no stored result"),
            "error": Refusal(ERROR_CELL, f'the cell shows "{written}"'),
            "date": Refusal(DATE_IN_NUMBER_CELL, is_date),
            "time": Refusal(DATE_IN_NUMBER_CELL, is_date),
        }
        return why.get(cell.kind) or Refusal(TEXT_IN_NUMBER_CELL, f'"{written}" is not a number')
    if not is_per_cent:
        return Refusal(AMOUNT_AS_PER_CENT, f'"{written}" stands in a column of amounts')
    return float(f"{cell.value * 100:.15g}")


def _notes(cell: Cell, *, is_text_usual: bool) -> tuple[Refusal, ...]:
    """Return what had to be chosen to read a cell."""
    notes: list[Refusal] = []
    if cell.kind == "text" and not is_text_usual:
        notes.append(Refusal(NUMBER_AS_TEXT, "numbers are stored as text"))
    if cell.formula and _OTHER_FILE.search(cell.formula):
        notes.append(Refusal(READING_FROM_OTHER_FILE, "formulas draw on another workbook"))
    elif cell.formula:
        notes.append(Refusal(READING_IS_FORMULA, "readings are results of formulas"))
    return tuple(notes)
