"""The sheets of the bases: to file from, the bridge between them, change of rules, workings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footprint.account import Account
from footprint.base.line import Page
from footprint.base.listing import Listing
from footprint.bases import Basis
from footprint.bases.bridge import bridges_of
from footprint.bases.effects import gross_of
from footprint.bases.rules import Rules
from footprint.report.bridge import bridges_sheet
from footprint.report.data_gaps import data_gaps_sheet
from footprint.report.filing import filing_of
from footprint.report.unmeasured import unmeasured_sheet
from footprint.report.year_change import year_change_of

HOW_FOUND = "How were the figures of the return found?"


@dataclass(frozen=True, eq=False, slots=True)
class Returns:
    """All bases applied to one set of accounts.

    Attributes:
        every: under the rules of the year of the return. [bases]
        before: under those of the year before, for comparison. [bases]
    """

    every: tuple[Basis, ...]
    before: tuple[Basis, ...] = ()


def sheets_of(account: Account, returns: Returns) -> list[Page | Listing]:
    """Return the sheets of all bases, those to file from first.

    Args:
        account: the figures of the works. [account]
        returns: the bases applied. [bases]

    Source: definition
    """
    year = account.measured.context.site.works.year
    gross = gross_of(Rules(account, year))
    return [
        *(filing_of(basis) for basis in returns.every),
        bridges_sheet(bridges_of(gross, returns.every)),
        data_gaps_sheet(returns.every),
        year_change_of(year, returns.every, returns.before),
        unmeasured_sheet(returns.every, account.measured.context.register),
        *(
            Page(one.sheet.replace("Return", "Working", 1), HOW_FOUND, one.sections)
            for one in returns.every
        ),
    ]


def _working(basis: Basis) -> str:
    """Return the name of the sheet that shows how the figures were found."""
    return basis.sheet.replace("Return", "Working", 1)


def sheets_in_order(pages: Sequence[Page | Listing]) -> tuple[Page | Listing, ...]:
    """Return the sheets that hold anything.

    Args:
        pages: sheets of lines and of entries. [pages]

    Source: definition
    """
    return tuple(one for one in pages if (one.parts if isinstance(one, Listing) else one.sections))
