"""The periods a row runs over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["once", "months", "days", "dates", "tickets", "samples", "pieces", "editions"]


@dataclass(frozen=True, slots=True)
class Axis:
    """An ordered set of periods; two rows share an axis when kind, owner and labels are equal."""

    kind: Kind
    labels: tuple[str, ...]
    owner: str = ""

    @property
    def size(self) -> int:
        """Number of periods."""
        return len(self.labels)

    @property
    def words(self) -> str:
        """The axis as a reader would name it."""
        return f"{self.kind} of {self.owner}" if self.owner else self.kind


ONCE = Axis("once", ("year",))


def months_of(year: int) -> Axis:
    """Return the twelve months of a calendar year, labelled 2025-01 and so on.

    Args:
        year: calendar year of the return. [year]

    Source: definition
    """
    return Axis("months", tuple(f"{year}-{month:02d}" for month in range(1, 13)))
