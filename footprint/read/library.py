"""The files of a site, each opened once, and the sheet that an entry of the site file means."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from footprint.base.finding import Finding, Where, declare
from footprint.read.fault import Refusal
from footprint.read.guard import MACROS_NOT_RUN, MISSING_FILE, content_of, has_macros
from footprint.read.nearest import nearest, offer
from footprint.read.other_formats import Format, holds_macros, open_other
from footprint.read.sheet import Book, Sheet
from footprint.read.site import Source
from footprint.read.textfile import open_text
from footprint.read.workbook import open_workbook

MISSING_SHEET = declare(
    "missing-sheet",
    "stop",
    means="A workbook has no sheet of the name in site.toml.",
    effect="the readings are not found",
    mend="mend the name of the sheet in site.toml",
    example='sheet = "Januray"; mended: sheet = "January"',
)
SHEET_NOT_NAMED = declare(
    "sheet-not-named",
    "stop",
    means="More than one sheet has the columns that site.toml names.",
    effect="nothing tells which sheet is meant",
    mend="add sheet = ... to the entry in site.toml",
    example='two sheets with Date and Feed gas; mended: sheet = "Final"',
)
HIDDEN_SHEET_READ = declare(
    "hidden-sheet-read",
    "note",
    means="A sheet that site.toml names is hidden.",
    effect="it is read, since it is named; who opens the file does not see it",
    mend="nothing, or show the sheet",
    example='sheet = "Raw" where the sheet Raw is hidden',
)
HIDDEN_SHEET_LEFT_OUT = declare(
    "hidden-sheet-left-out",
    "note",
    means="A hidden sheet has the columns that are sought, but site.toml does not name it.",
    effect="it is not read",
    mend="name the sheet in site.toml if it is meant",
    example="an old copy of the sheet, hidden",
)


class Library:
    """The files of a folder; each is opened once, and its faults are reported once."""

    def __init__(self, folder: Path) -> None:
        """Start without any file open.

        Args:
            folder: of the site. [path]

        Source: definition
        """
        self.folder = folder
        self.books: dict[str, Book | None] = {}
        self.findings: list[Finding] = []
        self._turned: dict[tuple[str, str], Sheet] = {}

    def book(self, name: str) -> Book | None:
        """Return an opened file, or None where it can't be opened.

        Args:
            name: of the file, as in the site file. [text]

        Source: definition
        """
        if name not in self.books:
            self.books[name] = self._opened(name)
        return self.books[name]

    def names(self, pattern: str) -> list[str]:
        """Return the files that a name with * stands for, in order; a plain name is itself.

        Args:
            pattern: as in the site file; * stands for any text but a slash. [text]

        Findings:
            missing-file: no file of the folder fits, with the nearest that is there.

        Source: definition
        """
        if "*" not in pattern:
            return [pattern]
        every = sorted(
            one.relative_to(self.folder).as_posix()
            for depth in ("*", "*/*")
            for one in self.folder.glob(depth)
            if one.is_file() and not one.name.startswith((".", "~$"))
        )
        fitting = [name for name in every if is_fitting_name(name, pattern)]
        if not fitting and pattern not in self.books:
            self.books[pattern] = None
            near = nearest(pattern, every)
            mend = f'mend the pattern; the nearest file is "{near}"' if near else ""
            what = f'no file fits "{pattern}"'
            self.findings.append(MISSING_FILE.at(Where(pattern), what, mend=mend))
        return fitting

    def as_read(self, sheet: Sheet, *, is_across: bool) -> Sheet:
        """Return a sheet as it is read: turned where periods run across; the same each time.

        Args:
            sheet: of an opened file. [sheet]
            is_across: periods run across. [flag]

        Source: definition
        """
        if not is_across:
            return sheet
        key = (sheet.file, sheet.name)
        if key not in self._turned:
            self._turned[key] = sheet.turned()
        return self._turned[key]

    @property
    def is_nothing_open(self) -> bool:
        """Whether not a single file could be opened."""
        return not any(self.books.values())

    @property
    def has_unreadable(self) -> bool:
        """Whether a file is there and is no readable table; a missing file blocks only its own."""
        return any(one.level == "stop" and one.code != MISSING_FILE.code for one in self.findings)

    def _opened(self, name: str) -> Book | None:
        """Open a file by its content and keep what was found."""
        found = content_of(self.folder, name)
        if isinstance(found, Finding):
            self.findings.append(found)
            return None
        if found.kind == "text":
            text_book, findings = open_text(name, found.content)
            self.findings += findings
            return text_book
        if found.kind != "workbook":
            return self._opened_other(name, found.content, found.kind)
        book = open_workbook(name, found.content)
        if isinstance(book, Refusal):
            self.findings.append(book.code.at(Where(name), book.what, mend=book.mend))
            return None
        if has_macros(found.content):
            self.findings.append(MACROS_NOT_RUN.at(Where(name), "the workbook holds macros"))
        return book

    def _opened_other(self, name: str, content: bytes, kind: Format) -> Book | None:
        """Open a workbook of another format and keep what was found."""
        book, findings = open_other(name, content, kind)
        self.findings += findings
        if book is not None and holds_macros(content, kind):
            self.findings.append(MACROS_NOT_RUN.at(Where(name), "the workbook holds macros"))
        return book


def is_fitting_name(name: str, pattern: str) -> bool:
    """Return whether a name fits a pattern, in whatever case.

    Args:
        name: of a file or sheet. [text]
        pattern: * stands for any text but a slash. [text]

    Source: definition
    """
    parts = (re.escape(part) for part in pattern.strip().casefold().split("*"))
    return re.fullmatch("[^/]*".join(parts), name.strip().casefold()) is not None


def sheet_of(
    book: Book, source: Source, is_fitting: Callable[[Sheet], bool]
) -> tuple[Sheet | None, list[Finding]]:
    """Return the sheet that an entry of the site file means, or None where it can't be told.

    Args:
        book: an opened file. [book]
        source: the entry, with or without the name of a sheet. [entry]
        is_fitting: whether a sheet has the columns sought. [function]

    Findings:
        missing-sheet, sheet-not-named, hidden-sheet-read, hidden-sheet-left-out.

    Source: definition
    """
    if book.is_text:
        return book.sheets[0], []
    if source.sheet is not None:
        return _named(book, source.sheet)
    visible = [sheet for sheet in book.sheets if not sheet.is_hidden]
    fitting = [sheet for sheet in visible if is_fitting(sheet)]
    if len(fitting) > 1:
        what = f"sheets {_listed(fitting)} all have the columns sought"
        return None, [SHEET_NOT_NAMED.at(Where(book.name), what)]
    notes = [
        HIDDEN_SHEET_LEFT_OUT.at(
            Where(book.name, one.name), f'hidden sheet "{one.name}" is not read'
        )
        for one in book.sheets
        if one.is_hidden and is_fitting(one)
    ]
    if fitting or len(visible) == 1:
        return (fitting or visible)[0], notes
    what = f"none of the sheets {_listed(visible)} has the columns sought"
    mend = "add sheet = ... to the entry in site.toml, and look at its column and date_column"
    return None, [*notes, MISSING_SHEET.at(Where(book.name), what, mend=mend)]


def _named(book: Book, name: str) -> tuple[Sheet | None, list[Finding]]:
    """Return the sheet of a name, which spreadsheets tell apart by letters alone, not by case."""
    wanted = name.strip().casefold()
    sheet = next((one for one in book.sheets if one.name.strip().casefold() == wanted), None)
    if sheet is None:
        mend = offer(name, [one.name for one in book.sheets])
        return None, [MISSING_SHEET.at(Where(book.name), f'no sheet "{name}"', mend=mend)]
    note = HIDDEN_SHEET_READ.at(Where(book.name, sheet.name), f'sheet "{sheet.name}" is hidden')
    return sheet, [note] if sheet.is_hidden else []


def _listed(sheets: list[Sheet]) -> str:
    """Return the names of sheets in quotes."""
    return ", ".join(f'"{sheet.name}"' for sheet in sheets)
