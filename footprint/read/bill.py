"""One invoice with its billing period."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

SAME = 1e-9  # of an amount: closer than a spreadsheet keeps its digits


@dataclass(frozen=True, eq=False, slots=True)
class Bill:
    """One invoice: its row, its period with both days, its amount."""

    row: int
    first: date
    last: date
    amount: float

    @property
    def days(self) -> int:
        """Days of the period."""
        return (self.last - self.first).days + 1

    @property
    def is_over_months(self) -> bool:
        """Whether the period runs over the end of a month."""
        return (self.first.year, self.first.month) != (self.last.year, self.last.month)

    @property
    def words(self) -> str:
        """The period in words."""
        return f"{self.first.isoformat()} to {self.last.isoformat()}"

    def inside(self, first: date, last: date) -> int:
        """Return how many days of the period lie in a span of days.

        Args:
            first: of the span. [date]
            last: of the span, inclusive. [date]

        Source: definition
        """
        return max((min(self.last, last) - max(self.first, first)).days + 1, 0)

    @property
    def smaller_part(self) -> float:
        """What of the amount does not lie in the month that holds most of the days."""
        days = [self.first + timedelta(days=place) for place in range(self.days)]
        largest = max(Counter((day.year, day.month) for day in days).values())
        return abs(self.amount) * (1 - largest / self.days)


def runs_of(days: Sequence[date]) -> list[list[date]]:
    """Return days that follow each other, run by run.

    Args:
        days: in rising order. [date]

    Source: definition
    """
    return [
        [day for _, day in run]
        for _, run in groupby(enumerate(days), key=lambda pair: pair[1].toordinal() - pair[0])
    ]


def not_taken_back(bills: Iterable[Bill]) -> list[Bill]:
    """Return the invoices that no credit note of the same period and amount takes back.

    Args:
        bills: of one meter. [bills]

    Source: definition
    """
    standing = [one for one in bills if not one.amount < 0]
    for credit in bills:
        back = (
            one
            for one in standing
            if credit.amount < 0
            and (one.first, one.last) == (credit.first, credit.last)
            and abs(one.amount + credit.amount) <= SAME * one.amount
        )
        if taken := next(back, None):
            standing.remove(taken)
    return standing
