"""Carbon in against carbon out: does it add up?"""

from footprint.balance.carbon import Balance, balance

__all__ = ["Balance", "balance"]
