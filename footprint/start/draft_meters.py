"""The [[meters]] of a draft: one for each column of readings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import get_args

from footprint.read.headings import name_without_unit
from footprint.read.site import Status
from footprint.start.groups import Group
from footprint.start.notes import commented, known, listed, question, remark
from footprint.start.series_guess import Guess, guess_of
from footprint.start.tables import Heading
from footprint.start.trade_words import plain

_NO_READINGS = (
    "hour",
    "time",
    "hour ending",
    "no",
    "no.",
    "day",
    "week",
    "ticket",
    "ticket no",
    "id",
)
_WEIGHTS = ("net", "gross", "weight", "amount", "quantity")
_PLACES_SHOWN = 3
_HOURS_OF_CHANGE = (23, 25)


def guesses_of(group: Group) -> list[Guess]:
    """Return what the columns of readings of a group are thought to be.

    Args:
        group: tables of one series. [group]

    Source: common practice, no source
    """
    headings = [one for one in group.table.headings if one.is_of_numbers]
    headings = [one for one in headings if plain(one.text) not in _NO_READINGS]
    tare: Heading | None = None
    if group.layout.rows == "tickets":
        headings, tare = _of_tickets(headings)
    guesses = [guess_of(group.tables, one, group.context) for one in headings]
    for guess in guesses:
        if tare is not None:
            name = name_without_unit(tare.text)[0]
            cell = group.table.place(group.table.header_row, tare.column)
            guess.keys.append(("tare_column", name, f"{cell}, no column of net weights"))
    return guesses


def _of_tickets(headings: Sequence[Heading]) -> tuple[list[Heading], Heading | None]:
    """Return the column of amounts of a list of tickets, and the tare where only gross is given."""

    def with_word(word: str) -> list[Heading]:
        return [one for one in headings if word in plain(one.text).split()]

    if net := with_word("net"):
        return net, None
    gross, tare = with_word("gross"), with_word("tare")
    if len(gross) == len(tare) == 1:
        return gross, tare[0]
    weighed = [one for one in headings if set(_WEIGHTS) & set(plain(one.text).split())]
    return weighed or list(headings), None


def meter_text(group: Group, guess: Guess, tag: str) -> str:
    """Return the lines of a meter: keys that are as good as certain, and questions.

    Args:
        group: tables of one series. [group]
        guess: what the column is thought to be. [guess]
        tag: that no other meter has. [text]

    Source: definition
    """
    own = f"in or beside {guess.place}" if guess.has_own_tag else "no tag beside the heading"
    lines = ["\n[[meters]]\n", known("tag", tag, own), *place_lines(group)]
    asked = dict(guess.questions)
    if "column" in asked:
        lines.append(question(asked.pop("column"), "column", guess.column))
    else:
        heading = guess.heading
        count = f"{heading.numbers} numbers in {guess.table.span(heading.column)}"
        said = f', unit "{guess.unit_text}"' if guess.unit_text else ""
        lines.append(known("column", guess.column, f"{guess.place}: {count}{said}"))
    lines += [known(key, value, reason) for key, value, reason in guess.keys]
    lines += [_asked(key, text) for key, text in asked.items() if key != "role"]
    return "".join([*lines, *_blanks(guess)])


def place_lines(group: Group, default: str = "daily") -> Iterable[str]:
    """Yield the keys that say where a series stands and how its rows are dated.

    Args:
        group: tables of one series. [group]
        default: word for the rows that need not be written; of analyses, "samples". [text]

    Source: definition
    """
    table, layout = group.table, group.layout
    several = f"{len(group.tables)} tables with the same headings, one after another"
    reason = several if group.tables[1:] else ""
    write = question if group.doubt else known
    for key, value in (("file", group.file), ("sheet", group.sheet)):
        if value and "*" in value and write is question:
            yield question(group.doubt, key, value)
        elif value:
            yield known(key, value, reason if "*" in value else "")
    if default != "samples":
        if layout.doubt:
            yield question(f"{layout.because}: {layout.doubt}", "rows", layout.rows)
        else:
            span = table.span(table.date_column)
            yield known("rows", layout.rows, f"{layout.because}, from {span}")
    yield from _date_lines(group)
    if table.is_across:
        yield known("across", value=True, reason="the dates stand in a row")
    if default != "samples":
        yield from _more_lines(group)


def _date_lines(group: Group) -> Iterable[str]:
    """Yield the heading of the dates, and the order of day and month where it is open."""
    table = group.table
    cell = table.place(table.header_row, table.date_column)
    if table.date_heading:
        yield known("date_column", table.date_heading, cell)
    elif table.is_across:
        row = f"row {table.date_column}"
        yield known("date_column", row, f"the dates in {table.span(table.date_column)}")
    else:
        span = table.span(table.date_column)
        asked = f"the dates in {span} have no heading: write one into {cell}, and its words here"
        yield question(asked, "date_column", "Date")
    if group.open_date:
        yield question(f"{group.open_date}: does the day stand first?", "date_order", "day first")


def _more_lines(group: Group) -> Iterable[str]:
    """Yield keys for bills, corrected values and the days of the clock change."""
    if group.layout.rows == "invoices":
        name = group.table.other_dates[0]
        yield known("to_column", name, "a second column of dates")
    held = {
        one.text: {plain(str(cell.value)) for cell in one.cells} for one in group.table.headings
    }
    states = [text for text, words in held.items() if words and words <= set(get_args(Status))]
    if len(states) == 1:
        words = ", ".join(sorted(held[states[0]]))
        yield known("status_column", states[0], f"it holds {words}")
    elif states:
        asked = f"which column says whether a value is final: {listed(states)}?"
        yield question(asked, "status_column", states[0])
    counts = set(Counter(group.days).values())
    if group.layout.rows == "hourly" and counts & set(_HOURS_OF_CHANGE):
        asked = "some days have 23 or 25 rows: is that the change of the clock, and in which zone?"
        yield question(asked, "time_zone", "Europe/Dublin")


def _asked(key: str, text: str) -> str:
    """Return a question about a meter with the key that settles it."""
    if key.startswith("index rolls over at "):
        limit = float(key.rpartition(" ")[2])
        return question(text, "index", {"rolls_over_at": limit})
    key, _, value = key.partition(" = ")
    begin = {"unit": "Nm3", "decimal_mark": "."}
    return question(text, key, value or begin[key])


def _blanks(guess: Guess) -> Iterable[str]:
    """Yield a remark on rows with a date and no reading."""
    rows, column, table = guess.heading.blanks, guess.heading.column, guess.table
    if rows:
        shown = ", ".join(table.place(row, column) for row in rows[:_PLACES_SHOWN])
        left = len(rows) - _PLACES_SHOWN
        more = f" and {left} more" if left > 0 else ""
        yield question(
            f"{len(rows)} dates have no reading, {shown}{more}: a blank is never zero; write the "
            "readings, or 0, or answer for others in [[substitutes]] or [[gaps]]"
        )


def unknown_text(group: Group, guess: Guess, tag: str) -> str:
    """Return the lines of a column that holds no word of the trade: all of them remarks.

    Args:
        group: tables of one series. [group]
        guess: what was found. [guess]
        tag: that no other meter has. [text]

    Source: definition
    """
    asked = f"{guess.place} holds no word of the trade: does it count for anything?"
    return "\n" + question(asked) + commented(meter_text(group, guess, tag).lstrip("\n"))


def group_heading(group: Group) -> str:
    """Return the remark that opens the meters of a group.

    Args:
        group: tables of one series. [group]

    Source: definition
    """
    table = group.table
    row = table.place(table.header_row, table.date_column)
    where = "column" if table.is_across else "row"
    return "\n" + remark(
        f"--- {group.place}: headings in the {where} of {row}, {group.layout.because}"
    )
