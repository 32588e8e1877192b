"""A fault or a choice that the user must know of: collected, never raised."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal

Level = Literal["stop", "warn", "note"]
LEVELS: tuple[Level, ...] = ("stop", "warn", "note")
MEANING_OF_LEVEL = {
    "stop": "a figure cannot be given until this is mended",
    "warn": "the figure is given, but look at this",
    "note": "something was chosen for you",
}


@dataclass(frozen=True, slots=True)
class Where:
    """A position in an input file; parts that do not apply stay empty."""

    file: str = ""
    sheet: str = ""
    cell: str = ""
    column: str = ""

    @property
    def words(self) -> str:
        """The position as the user sees it."""
        place = " > ".join(part for part in (self.file, self.sheet, self.cell) if part)
        return f'{place} (column "{self.column}")' if self.column else place


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Why somebody lets a finding stand: a judgement with its author."""

    reason: str
    author: str
    when: date

    @property
    def words(self) -> str:
        """Author, day and reason."""
        return f"{self.author}, {self.when:%Y-%m-%d}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault at one place: what is wrong, why it matters, how to mend it."""

    code: str
    level: Level
    what: str
    where: Where
    read: str
    why: str
    mend: str
    acceptance: Acceptance | None = None

    def in_words(self) -> str:
        """Return the finding as the terminal shows it.

        Source: definition
        """
        accepted = "accepted " if self.acceptance else ""
        lines = [f"{accepted}{self.level}[{self.code}] {self.what}"]
        lines += [f"  where: {self.where.words}"] if self.where.words else []
        lines += [f"  read:  {self.read}"] if self.read else []
        last = f"  by:    {self.acceptance.words}" if self.acceptance else f"  mend:  {self.mend}"
        return "\n".join([*lines, f"  why:   {self.why}", last])


@dataclass(frozen=True, slots=True)
class Code:
    """A kind of finding, named for the bad thing; `explain` prints these words."""

    code: str
    level: Level
    means: str
    effect: str
    mend: str
    example: str

    def at(
        self, where: Where, what: str, *, read: str = "", why: str = "", mend: str = ""
    ) -> Finding:
        """Return a finding of this kind at one place.

        Args:
            where: file, sheet, cell. [place]
            what: one line, lower case, the user's own text in quotes. [text]
            read: the text as written in the cell. [text]
            why: the consequence; the kind's own words when empty. [text]
            mend: one action in the spreadsheet; the kind's own words when empty. [text]

        Source: definition
        """
        return Finding(
            self.code, self.level, what, where, read, why or self.effect, mend or self.mend
        )


CODES: dict[str, Code] = {}


def declare(  # noqa: PLR0913  a kind of finding has six parts, four of them by name
    code: str, level: Level, *, means: str, effect: str, mend: str, example: str
) -> Code:
    """Return a new kind of finding and enter it in the list that `explain` reads.

    Args:
        code: kebab-case name of the bad thing. [text]
        level: stop, warn or note. [text]
        means: what the fault is, in a sentence. [text]
        effect: what it does to the figures. [text]
        mend: what to do in the spreadsheet or the site file. [text]
        example: a cell that provokes it, and the mended one. [text]

    Source: definition
    """
    if code in CODES:
        raise ValueError(f"the finding {code} is declared twice")
    CODES[code] = Code(code, level, means, effect, mend, example)
    return CODES[code]


def worst(findings: Iterable[Finding]) -> Level | None:
    """Return the most serious level among findings that nobody accepted; None without any.

    Args:
        findings: any number of findings. [findings]

    Source: definition
    """
    present = {finding.level for finding in findings if finding.acceptance is None}
    return next((level for level in LEVELS if level in present), None)
