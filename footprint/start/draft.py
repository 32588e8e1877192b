"""A draft of the site file from sheets that exist: guesses with reasons, doubts as questions."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from footprint.base.finding import Finding
from footprint.read.library import Library
from footprint.read.sheet import Book
from footprint.read.site_file import SITE_FILE
from footprint.start.draft_analyses import analysed, certificates_in
from footprint.start.draft_meters import group_heading, guesses_of, meter_text, unknown_text
from footprint.start.draft_streams import Metered, is_beside, is_per_cent, streams_text
from footprint.start.groups import Group, groups_of, tables_of, year_of
from footprint.start.layouts import components_in
from footprint.start.notes import QUESTION, heading, known, question, remark, tidy
from footprint.start.series_guess import Guess
from footprint.start.tables import Table

ANY_YEAR = 2000  # a leap year, for months without a year where no date names one


@dataclass(frozen=True)
class Draft:
    """A draft of a site file.

    Attributes:
        text: of the file. [text]
        folder: that holds all files, where the site file belongs. [path]
        meters: drafted. [1]
        questions: left open. [1]
        findings: why a file could not be looked at. [findings]
    """

    text: str
    folder: Path
    meters: int
    questions: int
    findings: tuple[Finding, ...]


def draft(files: Sequence[Path]) -> Draft:
    """Return a draft of the site file for some spreadsheets; nothing is written.

    Args:
        files: spreadsheets, at least one. [path]

    Source: definition
    """
    folder = Path(os.path.commonpath([one.absolute().parent for one in files]))
    library = Library(folder)
    names = dict.fromkeys(one.absolute().relative_to(folder).as_posix() for one in files)
    books = [book for name in names if (book := library.book(name)) is not None]
    tables = tables_of(books)
    year, because = year_of(tables)
    count, described = _described(groups_of(tables, library, year or ANY_YEAR))
    left_out = "".join(_left_out(books, tables, library.findings))
    top = _head(names, folder) + _works(year, because, tables)
    text = f"{top}{described}{heading('what was left out')}{left_out}"
    questions = text.count(f"# {QUESTION}: ")
    return Draft(text, folder, count, questions, tuple(library.findings))


def _described(groups: Sequence[Group]) -> tuple[int, str]:
    """Return how many meters were drafted, and the lines of meters, analyses and streams."""
    gases, analyses = _analyses([one for one in groups if components_in(one.table)])
    meters, text = _meters([one for one in groups if not components_in(one.table)])
    parts = [
        heading("meters"),
        _day_start() if meters else "",
        text,
        heading("gas analyses"),
        analyses,
        heading("streams"),
        streams_text(meters, gases),
    ]
    return len(meters), "".join(parts)


def _head(names: Iterable[str], folder: Path) -> str:
    """Return the remarks that open the draft."""
    texts = (
        f"A draft of {SITE_FILE}, made from {', '.join(names)}.",
        f"Nothing is used until you save it as {SITE_FILE} in {folder.name or folder}.",
        "Keys without # in front are as good as certain; their reasons and cells stand behind.",
        f"Search for {QUESTION}: answer each, remove the # in front of its key, mend the value.",
        "Then run footprint check on the folder: it says what is still missing.",
    )
    return "".join(remark(text) for text in texts)


def _works(year: int | None, because: str, tables: Sequence[Table]) -> str:
    """Return the works and its unit, most of it as questions: no sheet knows them."""
    titles = [tidy(table.title.partition(";")[0]) for table in tables if table.title]
    name = max(titles, key=titles.count, default="")
    said = f', perhaps "{name}", which stands above a table' if name else ""
    lines = [
        heading("the works and the return"),
        "\n[works]\n",
        question(f"what is the works called{said}?", "name", name or "Our works"),
        question("which company answers for the return?", "operator", "Our company"),
        question("in which country is it? two letters", "country", "XX"),
        known("year", year, because) if year else question(f"{because}: which year?", "year", 2025),
        known("bases", ["IPCC 2006"], "CHECK: name all rules that you report under"),
        question("which warming potentials does the programme ask for?", "gwp_set", "AR5"),
        question("which monitoring plan does this put in short? remove the # of all its lines"),
        "# [works.plan]\n",
        '# version = "1"\n',
        f"# approved = {year or 2025}-01-01\n",
        f"# valid_from = {year or 2025}-01-01\n",
        "\n[[units]]\n",
        question("what is the ammonia unit called?", "name", "Ammonia"),
        known("process", "steam reforming", "the only process there is so far"),
        question("for how many tonnes a day is it built?", "nameplate_t_per_day", 1000.0),
    ]
    return "".join(lines)


def _day_start() -> str:
    """Return the question at which hour days start, which no sheet tells by itself."""
    return question(
        "does the day of any meter start at another hour than 00:00, as gas days and shifts do? "
        'then add day_starts = "06:00" to it: six hours may be 0.8 % of a month'
    )


def _analyses(groups: Sequence[Group]) -> tuple[list[str], str]:
    """Return the names of the analysed gases, and their lines."""
    gases: list[str] = []
    parts: list[str] = []
    for group in groups:
        found = analysed(group, gases)
        gases.append(found.gas)
        parts.append(found.text)
    return gases, "".join(parts)


def _meters(groups: Sequence[Group]) -> tuple[list[Metered], str]:
    """Return the drafted meters, and their lines; columns without trade words are remarks."""
    meters: list[Metered] = []
    parts: list[str] = []
    for group in groups:
        parts.append(group_heading(group))
        if group.table.has_bare_months:
            parts.append(_bare_months(group))
        guesses = guesses_of(group)
        for guess in guesses:
            tag = _free(guess, [one.tag for one in meters])
            if _is_known(guess, guesses):
                meters.append(Metered(guess, tag))
                parts.append(meter_text(group, guess, tag))
            else:
                parts.append(unknown_text(group, guess, tag))
    return meters, "".join(parts)


def _bare_months(group: Group) -> str:
    """Return the question that months without their year raise."""
    span = group.table.span(group.table.date_column)
    return question(
        f"the months in {span} stand without their year: are they those of the year under [works]? "
        "then they are read so"
    )


def _is_known(guess: Guess, guesses: Sequence[Guess]) -> bool:
    """Return whether a column has a role, or serves a meter that has one."""
    if guess.beside in {"purity", "nitrogen"}:
        return is_per_cent(guess)
    if guess.beside:
        return any(is_beside(guess, other) for other in guesses if other.roles)
    return bool(guess.roles)


def _free(guess: Guess, taken: Sequence[str]) -> str:
    """Return a tag that no other meter has: with its sheet where the heading is not enough."""
    if guess.tag not in taken:
        return guess.tag
    sheet = guess.table.sheet
    longer = f"{guess.tag}, {sheet.name or Path(sheet.file).stem}"
    number = sum(one.startswith(longer) for one in taken)
    return f"{longer} {number + 1}" if number else longer


def _left_out(
    books: Sequence[Book], tables: Sequence[Table], findings: Sequence[Finding]
) -> Iterable[str]:
    """Yield remarks on files that could not be opened, and on sheets without a table."""
    if not findings and not books:
        yield remark("nothing")
    for finding in findings:
        yield remark(f"{finding.where.words}: {finding.what}; {finding.mend}")
    for asked in certificates_in(books):
        yield question(asked)
    used = {(table.sheet.file, table.sheet.name) for table in tables}
    for book in books:
        for sheet in book.sheets:
            if (book.name, sheet.name) not in used:
                place = " > ".join(part for part in (book.name, sheet.name) if part)
                why = "it is hidden" if sheet.is_hidden else "no dates with headings were found"
                yield remark(f"{place} was left out: {why}")
