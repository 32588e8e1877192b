"""Tables that belong together: one sheet a month, one file a month, one series."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise, takewhile

from footprint.read.library import Library, is_fitting_name
from footprint.read.sheet import Book
from footprint.start.layouts import Layout, days_of, layout_of, years_of
from footprint.start.tables import Table, table_in


@dataclass(frozen=True, eq=False)
class Group:
    """Tables with the same headings whose dates follow each other, mostly a single one.

    Attributes:
        tables: in the order of their dates. [tables]
        file: name, or pattern with *. [text]
        sheet: name, or pattern with *; empty in a text file. [text]
        doubt: about the pattern; empty where there is none. [text]
        days: of all rows. [date]
        open_date: a date that may be two days, in words; empty where none is. [text]
        layout: how the rows are dated. [layout]
    """

    tables: tuple[Table, ...]
    file: str
    sheet: str
    doubt: str
    days: tuple[date, ...]
    open_date: str
    layout: Layout

    @property
    def table(self) -> Table:
        """The first table."""
        return self.tables[0]

    @property
    def context(self) -> str:
        """The words around the headings: sheet and file, without what ends the file's name."""
        stem = self.file.rsplit("/", 1)[-1].rsplit(".", 1)[0]
        return " ".join(part for part in (self.sheet, stem) if part).replace("*", " ").strip()

    @property
    def place(self) -> str:
        """File and sheet as the user sees them."""
        return " > ".join(part for part in (self.file, self.sheet) if part)


def tables_of(books: Iterable[Book]) -> list[Table]:
    """Return the tables of all visible sheets.

    Args:
        books: that were opened. [books]

    Source: definition
    """
    sheets = [sheet for book in books for sheet in book.sheets if not sheet.is_hidden]
    return [table for sheet in sheets if (table := table_in(sheet)) is not None]


def year_of(tables: Iterable[Table]) -> tuple[int | None, str]:
    """Return the year that most dates lie in, and in words how many do.

    Args:
        tables: as found. [tables]

    Source: definition
    """
    years: Counter[int] = Counter()
    for table in tables:
        if not table.has_bare_months:
            years += years_of(table)
    if not years:
        return None, "no date names a year"
    year, count = years.most_common(1)[0]
    return year, f"{count} of {years.total()} dates lie in it"


def groups_of(tables: Sequence[Table], library: Library, year: int) -> list[Group]:
    """Return the tables sorted into series, in the order found.

    Args:
        tables: as found. [tables]
        library: the files of their folder. [files]
        year: of the return. [year]

    Source: definition
    """
    alike: dict[tuple[object, ...], list[Table]] = {}
    for table in tables:
        headings = tuple(one.text for one in table.headings)
        key = (headings, table.date_heading, table.is_across, table.has_bare_months)
        alike.setdefault(key, []).append(table)
    groups: list[Group] = []
    for same in alike.values():
        ordered = _one_after_another(same, year)
        for run in [ordered] if ordered else [[table] for table in same]:
            others = [table for table in tables if table not in run]
            groups.append(_group(run, others, library, year))
    return groups


def _one_after_another(tables: Sequence[Table], year: int) -> list[Table]:
    """Return tables in the order of their dates; none where their dates overlap."""
    spans = [(days_of([table], year)[0], table) for table in tables]
    if any(not days for days, _ in spans):
        return list(tables) if len(tables) == 1 else []
    spans.sort(key=lambda pair: min(pair[0]))
    is_apart = all(max(days) < min(later) for (days, _), (later, _) in pairwise(spans))
    return [table for _, table in spans] if is_apart else []


def _group(tables: Sequence[Table], others: Sequence[Table], library: Library, year: int) -> Group:
    """Return one or more tables with the names under which the site file finds them."""
    files = list(dict.fromkeys(table.sheet.file for table in tables))
    sheets = list(dict.fromkeys(table.sheet.name for table in tables))
    file, sheet = _pattern(files), _pattern(sheets)
    beside = [one.sheet.name for one in others if one.sheet.file in files]
    more = [name for name in library.names(file) if name not in files]
    more += [name for name in beside if "*" in sheet and is_fitting_name(name, sheet)]
    fits = " and ".join(f'"{name}"' for name in dict.fromkeys(more))
    days, open_date = days_of(tables, year)
    return Group(
        tuple(tables),
        file,
        sheet,
        f"the pattern also fits {fits}: does that belong to it?" if more else "",
        tuple(days),
        open_date,
        layout_of(tables, days),
    )


def _pattern(names: Sequence[str]) -> str:
    """Return the name, or the pattern that fits all of several names."""
    if len(names) == 1:
        return names[0]
    start = _common(names)
    end = _common([name[len(start) :][::-1] for name in names])[::-1]
    return f"{start}*{end}"


def _common(names: Sequence[str]) -> str:
    """Return the signs that all names begin with."""
    signs = takewhile(lambda one: len(set(one)) == 1, zip(*names, strict=False))
    return "".join(one[0] for one in signs)
