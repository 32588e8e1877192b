"""Where a number comes from: a cell that was read, a published factor, somebody's assumption."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


def place_in_words(file: str, sheet: str = "", cell: str = "", column: str = "") -> str:
    """Return a position as the user sees it: file > sheet > cell (column "heading").

    Args:
        file: name of the file inside the folder. [text]
        sheet: name of the sheet; empty for a text file. [text]
        cell: address such as D7, or a range. [text]
        column: heading of the column. [text]

    Source: definition
    """
    place = " > ".join(part for part in (file, sheet, cell) if part)
    return f'{place} (column "{column}")' if column else place


@dataclass(frozen=True, slots=True)
class Reading:
    """A value somebody wrote into a cell."""

    file: str
    sheet: str
    cell: str
    written: str

    @property
    def words(self) -> str:
        """The place, as the user sees it."""
        return place_in_words(self.file, self.sheet, self.cell)


FROM_MEMORY = "from memory: check before filing"
EVIDENCE = {
    "seen": "the document itself was read",
    "seen-secondary": "read as quoted by others",
    "memory": FROM_MEMORY,
    "computed": "worked out from the values named",
    "practice": "common practice, no document",
}


@dataclass(frozen=True, slots=True)
class Factor:
    """A published or defined value."""

    document: str
    place: str
    year: str = ""
    address: str = ""
    is_seen: bool = True
    seen_on: date | None = None
    first_day: date | None = None
    last_day: date | None = None
    note: str = ""
    evidence: str = ""  # word of EVIDENCE; blank is "seen" or "memory"

    @property
    def words(self) -> str:
        """Document, year and place, with the mark that says whether the text was read."""
        year = "" if self.year in self.document else self.year
        named = ", ".join(part for part in (self.document, year, self.place) if part)
        return named if self.is_seen else f"{named} ({EVIDENCE.get(self.evidence, FROM_MEMORY)})"


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value somebody answers for: who, why, when."""

    who: str
    why: str
    when: date
    place: str = ""

    @property
    def words(self) -> str:
        """Author, day and reason."""
        return f"{self.who}, {self.when:%Y-%m-%d}: {self.why}"


@dataclass(frozen=True, slots=True)
class Iterated:
    """The result of a calculation that a spreadsheet cannot hold."""

    method: str

    @property
    def words(self) -> str:
        """The method, in words."""
        return self.method


Origin = Reading | Factor | Assumption | Iterated

DEFINITION = Factor(document="definition", place="")


def seen_or_memory(origin: Origin) -> str:
    """Return the mark shown beside a factor: "seen", "memory" or another word of EVIDENCE.

    Other origins have none.

    Args:
        origin: where a value comes from. [origin]

    Source: definition
    """
    if not isinstance(origin, Factor):
        return ""
    return "seen" if origin.is_seen else origin.evidence or "memory"
