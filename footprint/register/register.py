"""Facts that change, looked up by quantity, day and jurisdiction; the nearest is never borrowed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date

from footprint.base.axis import ONCE
from footprint.base.finding import Finding, Where
from footprint.base.row import Row, leaf
from footprint.register.doubt import errors_of
from footprint.register.entry import Entry, Series
from footprint.register.faults import NONE_IN_FORCE


class NoFactorInForceError(LookupError):
    """No line gives the quantity for that day and jurisdiction."""

    def __init__(self, quantity: str, day: date, jurisdiction: str, known: Sequence[str]) -> None:
        """Keep what was asked for, and what is known instead."""
        self.what = f'no factor "{quantity}" is in force on {day:%Y-%m-%d} for "{jurisdiction}"'
        self.known = tuple(known)
        super().__init__("; ".join([self.what, *self.known]))

    def finding(self, where: Where) -> Finding:
        """Return the same as a finding, for a factor that the site file asked for.

        Args:
            where: the place that asked. [place]

        Source: definition
        """
        why = "; ".join([NONE_IN_FORCE.effect, *self.known])
        return NONE_IN_FORCE.at(where, self.what, why=why)


class Register:
    """All factors that were loaded, one row each, made once."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        """Keep the entries in the order of the files."""
        self.entries: tuple[Entry, ...] = tuple(entries)
        self._editions: dict[Series, list[Entry]] = defaultdict(list)
        for entry in self.entries:
            self._editions[entry.series].append(entry)
        self._rows: dict[Entry, Row] = {}

    def entry(self, quantity: str, day: date, jurisdiction: str = "any") -> Entry:
        """Return the line in force on a day.

        Args:
            quantity: as in the factor files. [text]
            day: the day it must apply on. [day]
            jurisdiction: whose value; "any" for physics and science. [text]

        Raises:
            NoFactorInForceError: no line applies; the nearest is never borrowed.

        Source: definition
        """
        editions = self._editions.get(Series(quantity, jurisdiction), [])
        in_force = next((entry for entry in editions if entry.span.holds(day)), None)
        if in_force is None:
            raise NoFactorInForceError(quantity, day, jurisdiction, self._known(quantity))
        return in_force

    def row(self, quantity: str, day: date, jurisdiction: str = "any") -> Row:
        """Return the value in force on a day as a row; the same row on every call.

        Args:
            quantity: as in the factor files. [text]
            day: the day it must apply on. [day]
            jurisdiction: whose value; "any" for physics and science. [text]

        Raises:
            NoFactorInForceError: no line applies; the nearest is never borrowed.

        Source: definition
        """
        return self.row_of(self.entry(quantity, day, jurisdiction))

    def row_of(self, entry: Entry) -> Row:
        """Return an entry as a row; the same row on every call.

        Args:
            entry: one of `entries`. [entry]

        Source: definition
        """
        if entry not in self._rows:
            self._rows[entry] = leaf(
                [entry.value],
                entry.unit,
                ONCE,
                key=entry.key,
                words=entry.words,
                origins=[entry.source],
                errors=errors_of(entry, self._of_science),
            )
        return self._rows[entry]

    def search(self, words: Iterable[str]) -> list[Entry]:
        """Return the entries whose quantity, jurisdiction or document hold all the words.

        Args:
            words: in any order, capital or small. [text]

        Source: definition
        """
        wanted = [word.casefold() for text in words for word in text.split()]
        return [entry for entry in self.entries if all(word in _searched(entry) for word in wanted)]

    def _of_science(self, quantity: str) -> float | None:
        """Return the one value of science that a quantity has, without days; None without."""
        editions = self._editions.get(Series(quantity, "any"), [])
        return editions[0].value if len(editions) == 1 else None

    def _known(self, quantity: str) -> list[str]:
        named = [entry for entry in self.entries if entry.quantity == quantity]
        return [f'known for "{entry.jurisdiction}" {entry.span.words}' for entry in named]


def _searched(entry: Entry) -> str:
    return f"{entry.quantity} {entry.jurisdiction} {entry.source.document}".casefold()
