"""The bases that the site file asks for, in its order."""

from __future__ import annotations

from footprint.account import Account
from footprint.base.finding import Finding
from footprint.bases.basis import Basis
from footprint.bases.ipcc_2006 import ipcc_2006

BASES = {"IPCC 2006": ipcc_2006}


def bases(account: Account) -> tuple[list[Basis], list[Finding]]:
    """Return each basis that the site file names, applied to the year.

    Args:
        account: the figures of the works. [account]

    Source: definition
    """
    wanted = account.measured.context.site.works.bases
    applied = [BASES[name](account) for name in wanted]
    return [basis for basis, _ in applied], [found for _, findings in applied for found in findings]
