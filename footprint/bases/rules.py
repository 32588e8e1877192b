"""The accounts of a works under the rules of one year: factors in force, names of rows, lines."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from footprint.account import Account
from footprint.base.formulas import rounded
from footprint.base.line import Line
from footprint.base.row import Row, step
from footprint.bases.basis import Filed
from footprint.measure import Measured
from footprint.measure.context import Context


@dataclass(frozen=True, eq=False, slots=True)
class Rules:
    """What a basis is applied to.

    Attributes:
        account: the figures of the works. [account]
        year: whose rules apply; another year than that of the return for comparison only. [year]
    """

    account: Account
    year: int

    @property
    def measured(self) -> Measured:
        """Every stream by month."""
        return self.account.measured

    @property
    def context(self) -> Context:
        """The site, its year and the register."""
        return self.account.measured.context

    @property
    def is_comparison(self) -> bool:
        """Whether the rules of another year are applied to the data of this one."""
        return self.year != self.context.site.works.year

    @property
    def mark(self) -> str:
        """What the keys of rows carry under the rules of another year."""
        return f", rules of {self.year}" if self.is_comparison else ""

    @property
    def day(self) -> date:
        """The day whose factors apply: the last of the year of the rules."""
        return date(self.year, 12, 31)

    def factor(self, quantity: str, jurisdiction: str = "any") -> Row:
        """Return a factor in force under these rules, or what the site file assumes.

        Args:
            quantity: as in the factor files. [text]
            jurisdiction: whose value. [text]

        Raises:
            NoFactorInForceError: no line of the factor files applies.

        Source: definition
        """
        published = self.context.register.row(quantity, self.day, jurisdiction)
        return self.context.assumed.get(quantity, published)

    def key(self, stream: str, quantity: str, basis: str) -> str:
        """Return the key of a row under these rules.

        Args:
            stream: name of the stream or topic. [text]
            quantity: what is counted. [text]
            basis: how it was found. [text]

        Source: definition
        """
        return self.context.key(stream, quantity, f"{basis}{self.mark}")

    def line(self, row: Row, *, is_total: bool = False) -> Line:
        """Return a line that shows a monthly row and its sum over the year.

        Args:
            row: a named row over months. [any]
            is_total: whether it is set off as a total. [flag]

        Source: definition
        """
        return self.context.line(row, is_total=is_total)

    def yearly(self, row: Row) -> Row:
        """Return the sum over the year of a monthly row; a row of the year itself.

        Args:
            row: a named row. [any]

        Source: definition
        """
        return row if row.axis.kind == "once" else self.context.year(row)

    def filed(
        self, number: str, words: str, row: Row, cited: tuple[str, str], digits: int | None = 0
    ) -> Filed:
        """Return a line to file, rounded.

        Args:
            number: of the line in the document. [text]
            words: our sentence for it. [text]
            row: a named row over months or the year. [any]
            cited: the place in the document, and the word of `base.source.EVIDENCE`. [text]
            digits: after the decimal point; None files the exact figure. [1]

        Source: definition
        """
        exact = self.yearly(row)
        made = exact if digits is None else rounded(exact, digits)
        because = "as computed" if digits is None else "rounded for the return"
        filed = step(
            made, f"{exact.key}/filed as {number}{self.mark}", f"{words}, as filed", because
        )
        rule, evidence = cited
        return Filed(number, words, exact, filed, rule, evidence)
