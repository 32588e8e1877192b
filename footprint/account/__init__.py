"""Rows of the balance in, figures in trade words out: what do we report?"""

from footprint.account.account import Account, account

__all__ = ["Account", "account"]
