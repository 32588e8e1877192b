"""Numbers in text: the decimal mark is learned from the whole column, never guessed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from footprint.base.finding import declare
from footprint.read.fault import Refusal, short

DecimalMark = Literal[".", ","]
MARKS: tuple[DecimalMark, DecimalMark] = (".", ",")
BLANKS = "\u0020\u00a0\u202f\u2009\u2007"
_PATTERNS = {
    mark: re.compile(
        rf"(?P<sign>[+-]?)"
        rf"(?P<whole>[0-9]+|[1-9][0-9]{{0,2}}(?:(?P<group>[{thousands}'\u2019{BLANKS}])[0-9]{{3}})"
        rf"(?:(?P=group)[0-9]{{3}})*)?"
        rf"(?:{decimal}(?P<fraction>[0-9]+))?"
        rf"(?:[eE](?P<power>[+-]?[0-9]{{1,3}}))?"
    )
    for mark, decimal, thousands in ((".", r"\.", ","), (",", ",", r"\."))
}

TEXT_IN_NUMBER_CELL = declare(
    "text-in-number-cell",
    "stop",
    means="A cell of a column of readings holds something that is not a number.",
    effect="the reading counts as missing; a text is never taken as zero",
    mend="write the number alone into the cell, or empty it and add [[substitutes]] to site.toml",
    example='"12 Nm3", "n/a", "<0.5" or "(5.0)"; mended: 12, an empty cell with a '
    "substitute, 0.25, -5.0",
)
CONTRADICTORY_DECIMAL_MARKS = declare(
    "contradictory-decimal-marks",
    "stop",
    means="A column of text numbers uses the point as decimal mark in one cell "
    "and the comma in another.",
    effect="a mark taken for the wrong one makes a reading a thousand times too large or too small",
    mend="write the cell with the decimal mark of the other cells of the column",
    example='"100.5" in D7 and "100,5" in D8; mended: 100.5 in both',
)
AMBIGUOUS_DECIMAL_MARK = declare(
    "ambiguous-decimal-mark",
    "stop",
    means="Nothing in a column of text numbers tells whether its mark is decimal "
    "or parts thousands.",
    effect='"101,001" is 101.001 or 101001: a thousand times apart',
    mend='add decimal_mark = "." or decimal_mark = "," to the meter in site.toml',
    example='"101,001" in every cell; mended: decimal_mark = "," in site.toml',
)


def meanings(text: str) -> dict[DecimalMark, float]:
    """Return the value of a text under each decimal mark that fits; empty if it is no number.

    Args:
        text: as written. [text]

    Source: definition
    """
    tidy = text.strip(BLANKS + "\t\r\n").replace("\u2212", "-")
    found: dict[DecimalMark, float] = {}
    for mark in MARKS:
        match = _PATTERNS[mark].fullmatch(tidy)
        if match and match["whole"]:
            whole = re.sub("[^0-9]", "", match["whole"])
            fraction, power = match["fraction"] or "0", match["power"] or "0"
            found[mark] = float(f"{match['sign']}{whole}.{fraction}e{power}")
    return {mark: value for mark, value in found.items() if abs(value) != float("inf")}


def numbers_in(texts: Sequence[str], mark: DecimalMark | None = None) -> list[float | Refusal]:
    """Return the number of each text of a column, or why it is refused.

    Args:
        texts: the text cells of one column. [text]
        mark: the decimal mark, where the site file settles it. [text]

    Findings:
        text-in-number-cell: a text that is no number.
        contradictory-decimal-marks: two cells can't have the same decimal mark.
        ambiguous-decimal-mark: every cell allows both marks, with different values.

    Source: definition
    """
    found = [meanings(text) for text in texts]
    possible = {mark} if mark else set(MARKS)
    is_contradictory = False
    results: list[float | Refusal] = []
    for one in found:
        if one and not possible & set(one):
            is_contradictory = True
        elif one:
            possible &= set(one)
    learned = None if is_contradictory and not mark else possible
    for text, one in zip(texts, found, strict=True):
        results.append(_settled(text, one, learned, possible))
    return results


def _settled(
    text: str,
    one: dict[DecimalMark, float],
    learned: set[DecimalMark] | None,
    possible: set[DecimalMark],
) -> float | Refusal:
    """Return the value of a text; None learned means that the column contradicts itself."""
    if not one:
        return _no_number(text)
    if not possible & set(one):
        what = f'"{short(text)}" has another decimal mark than the cells above it'
        return Refusal(CONTRADICTORY_DECIMAL_MARKS, what)
    values = {one[mark] for mark in (learned or set(one)) & set(one)}
    if len(values) > 1:
        low, high = sorted(values)
        return Refusal(AMBIGUOUS_DECIMAL_MARK, f'"{short(text)}" may be {low:.15g} or {high:.15g}')
    return values.pop()


def _no_number(text: str) -> Refusal:
    """Return the refusal of a text that is no number, with the mend that fits it."""
    what = f'"{short(text)}" is not a number'
    if re.match(r"\s*[<>≤≥]", text):
        mend = "write the value that the monitoring plan gives for results beyond the limit"
        return Refusal(TEXT_IN_NUMBER_CELL, what, mend=mend)
    if match := re.fullmatch(r"\s*(\(.*[0-9].*\)|[0-9.,]+\s*-)\s*", text):
        inner = re.sub(r"[()\s-]", "", match[1])
        return Refusal(TEXT_IN_NUMBER_CELL, what, mend=f'write "-{inner}" if a minus is meant')
    return Refusal(TEXT_IN_NUMBER_CELL, what)
