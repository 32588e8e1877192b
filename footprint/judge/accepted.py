"""Findings that somebody looked at and lets stand: marked, listed, and no longer counted.

A warning or a note may be accepted, since the figures are given all the same. A stop may not: it
says that a figure cannot be given or cannot be true, which no signature changes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from footprint.base.finding import Acceptance, Finding, Where, declare
from footprint.read.role_needs import place_of
from footprint.read.site import Accepted

_AREA = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]*)(?::\$?([A-Z]{1,3})\$?([0-9]*))?")
_LAST_ROW = 1_048_576
Area = tuple[int, int, int, int]  # first and last column, first and last row

ACCEPTED_NOTHING = declare(
    "accepted-finding-not-there",
    "note",
    means="An [[accepted]] entry of site.toml matches no finding of this run.",
    effect="it does nothing; the fault may be mended, or code or place may be misspelled",
    mend="remove the entry, or write code, file, sheet and cell as the finding has them",
    example='cell = "D7" where the finding names D8',
)
CANNOT_BE_ACCEPTED = declare(
    "stop-that-cannot-be-accepted",
    "note",
    means="An [[accepted]] entry of site.toml names a finding that says a figure cannot be given.",
    effect="the finding counts as before: a reason does not make the missing figure",
    mend="mend the finding itself, or say by [[gaps]] or [[substitutes]] what is used instead",
    example='code = "missing-reading"; mended: a [[gaps]] entry for the days',
)


def accept(findings: Sequence[Finding], accepted: Sequence[Accepted]) -> list[Finding]:
    """Return the findings, those that an entry accepts marked with reason, author and day.

    Args:
        findings: of all stages. [findings]
        accepted: entries of the site file. [entries]

    Findings:
        accepted-finding-not-there, stop-that-cannot-be-accepted: entries without effect.

    Source: definition
    """
    marked = [_marked(finding, accepted) for finding in findings]
    told: list[Finding] = []
    for index, entry in enumerate(accepted):
        meant = [finding for finding in findings if _is_meant(finding, entry)]
        where = place_of("accepted", index, entry.code, "code")
        if not meant:
            told.append(ACCEPTED_NOTHING.at(where, f'no finding "{entry.code}"{_at(entry)}'))
        elif all(finding.level == "stop" for finding in meant):
            what = f'"{entry.code}"{_at(entry)} stops a figure and stays'
            told.append(CANNOT_BE_ACCEPTED.at(where, what))
    return [*marked, *told]


def _marked(finding: Finding, accepted: Sequence[Accepted]) -> Finding:
    entry = next((one for one in accepted if _is_meant(finding, one)), None)
    if entry is None or finding.level == "stop":
        return finding
    return replace(finding, acceptance=Acceptance(entry.reason, entry.author, entry.when))


def _at(entry: Accepted) -> str:
    place = Where(entry.file, entry.sheet, entry.cell).words
    return f" at {place}" if place else ""


def _is_meant(finding: Finding, entry: Accepted) -> bool:
    """Return whether an entry names a finding: same file; sheet and cell where it states them."""
    where = finding.where
    return (
        finding.code == entry.code
        and where.file == entry.file
        and entry.sheet in ("", where.sheet)
        and (not entry.cell or _holds(entry.cell, where.cell or where.column))
    )


def _holds(wanted: str, found: str) -> bool:
    """Return whether cells lie within those that an entry names, or are the same words."""
    if wanted == found:
        return True
    room, cells = _areas(wanted), _areas(found)
    if not room or not cells:
        return False
    return all(any(_is_within(cell, area) for area in room) for cell in cells)


def _areas(text: str) -> list[Area]:
    """Return the ranges of a text such as "D7:D9, D12"; none where it is anything else."""
    matches = [_AREA.fullmatch(part.strip()) for part in text.split(",")]
    return [_area(match) for match in matches if match] if all(matches) else []


def _area(match: re.Match[str]) -> Area:
    left, top, right, bottom = match.groups()
    last = bottom if right else top
    return (
        _number(left),
        _number(right or left),
        int(top or 1),
        int(last) if last else _LAST_ROW,
    )


def _number(letters: str) -> int:
    """Return the number of a column, counted from 1."""
    number = 0
    for letter in letters:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number


def _is_within(cell: Area, area: Area) -> bool:
    return area[0] <= cell[0] and cell[1] <= area[1] and area[2] <= cell[2] and cell[3] <= area[3]
