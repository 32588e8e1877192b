"""What some readings do to the year's gross CO2: the figure with them less that with others."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from footprint.account import Account
from footprint.base.row import Row, ancestry, evaluate
from footprint.measure.context import Context


@dataclass(frozen=True, eq=False)
class CarbonEffect:
    """The year's gross CO2 as it is, and as it would be with other readings."""

    account: Account

    @property
    def context(self) -> Context:
        """Site, year, readings."""
        return self.account.measured.context

    @cached_property
    def gross(self) -> Row:
        """Process and fuel CO2 of the year."""
        return self.context.year(self.account.split.gross)

    @cached_property
    def behind(self) -> frozenset[Row]:
        """All rows that the figure rests on."""
        return frozenset(ancestry([self.gross]))

    def of(self, tag: str, instead: NDArray[np.float64]) -> float | None:
        """Return gross CO2 as it is less what it would be with other readings of a meter.

        None where the meter is not behind the figure or the figure cannot be given.

        Args:
            tag: of the meter. [text]
            instead: the other readings. [unit of the meter]

        Source: definition
        """
        row = self.context.made.get(f"reading/{tag}")
        if row is None or row not in self.behind:
            return None
        (other,) = evaluate([self.gross], {row: instead})
        effect = float(self.gross.values[0] - other[0])
        return effect if np.isfinite(effect) else None

    def words(self, tag: str, instead: NDArray[np.float64], compared: str) -> str:
        """Return the effect in words; empty where no carbon hangs on the meter.

        Args:
            tag: of the meter. [text]
            instead: the other readings. [unit of the meter]
            compared: what they are, such as "with the median in their place". [text]

        Source: definition
        """
        effect = self.of(tag, instead)
        if effect is None:
            return ""
        size = f"{abs(effect):,.0f} t CO2"
        if size == "0 t CO2":
            return f"gross CO2 of the year would be the same {compared}"
        side = "lower" if effect > 0 else "higher"
        return f"gross CO2 of the year would be {size} {side} {compared}"
