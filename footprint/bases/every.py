"""The bases that the site file asks for, in its order."""

from __future__ import annotations

from collections.abc import Callable

from footprint.account import Account
from footprint.base.finding import Finding
from footprint.bases.basis import Basis
from footprint.bases.ipcc_2006 import ipcc_2006
from footprint.bases.rules import Rules

Applied = Callable[[Rules], tuple[Basis, list[Finding]]]
BASES: dict[str, Applied] = {"IPCC 2006": ipcc_2006}


def bases(account: Account, year: int | None = None) -> tuple[list[Basis], list[Finding]]:
    """Return each basis that the site file names, applied to the year.

    Args:
        account: the figures of the works. [account]
        year: whose rules apply; that of the return when None. [year]

    Source: definition
    """
    works = account.measured.context.site.works
    rules = Rules(account, works.year if year is None else year)
    applied = [BASES[name](rules) for name in works.bases]
    return [basis for basis, _ in applied], [found for _, findings in applied for found in findings]
