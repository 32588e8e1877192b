"""How a basis wants missing readings to be filled, and what that did to one meter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from footprint.base.row import Row

Direction = Literal["high", "low"]


@dataclass(frozen=True, slots=True)
class GapRule:
    """How a basis wants missing readings to be filled.

    Attributes:
        is_conservative: high for inputs, low for what is taken off. [flag]
        rule: the place in the document. [text]
        evidence: word of `base.source.EVIDENCE`. [text]
        words: the algorithm in a sentence. [text]
    """

    is_conservative: bool
    rule: str
    evidence: str
    words: str


@dataclass(frozen=True, eq=False, slots=True)
class OwnGap:
    """The holes of one meter as a basis fills them.

    Attributes:
        basis: its name. [text]
        tag: of the meter. [text]
        streams: that the meter counts. [text]
        direction: which way is conservative; None where the site file's method stays. [text]
        rule: how the basis wants it. [rule]
        filled: number of periods filled. [1, row once]
        put_in: sum of what the basis puts in. [unit of the meter, row once]
        plainly: sum of what the site file's method puts in. [unit of the meter, row once]
        effect: what it does to the total. [t CO2e, row once]; None where nothing differs
    """

    basis: str
    tag: str
    streams: tuple[str, ...]
    direction: Direction | None
    rule: GapRule
    filled: Row
    put_in: Row
    plainly: Row
    effect: Row | None
