"""40 CFR Part 98: what takes the place of missing data, as the rule's own algorithms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Put:
    """What is put into one period; no value where the rule leaves it to somebody.

    Attributes:
        place: of the period. [1]
        value: substitute; None where the rule does not settle it. [any]
        rule: paragraph and words. [text]
    """

    place: int
    value: float | None
    rule: str


def carbon_content(values: Sequence[float | None]) -> list[Put]:
    """Return substitutes for months without carbon content of a feed.

    The mean of the month before the gap and the month after it, the same for every month of the
    gap; the first good value after it where there is none before. A gap at the end is not settled.

    Args:
        values: by month; None is missing. [any]

    Source: 40 CFR 98.75(a) (from memory)
    """
    rule = "98.75(a)"
    put = []
    for place, value in enumerate(values):
        if value is not None:
            continue
        before = next((one for one in reversed(values[:place]) if one is not None), None)
        after = next((one for one in values[place:] if one is not None), None)
        if before is not None and after is not None:
            words = f"{rule}: mean of the months before and after the gap"
            put.append(Put(place, (before + after) / 2, words))
        elif after is not None:
            put.append(Put(place, after, f"{rule}: first value after the gap"))
        else:
            put.append(Put(place, None, f"{rule}: not settled for a gap at the end: ask"))
    return put


def fuel_property(values: Sequence[float | None]) -> list[Put]:
    """Return substitutes for missing heat content, carbon content or molar mass of a fuel.

    The mean of the last good value before and the first after; the one there is where the other
    side has none.

    Args:
        values: in the order of sampling; None is missing. [any]

    Source: 40 CFR 98.35(b)(1) (from memory)
    """
    put = []
    for place, value in enumerate(values):
        if value is not None:
            continue
        before = next((one for one in reversed(values[:place]) if one is not None), None)
        after = next((one for one in values[place:] if one is not None), None)
        sides = [one for one in (before, after) if one is not None]
        mean = sum(sides) / len(sides) if sides else None
        put.append(Put(place, mean, "98.35(b)(1): mean of the good values before and after"))
    return put


def quantity(values: Sequence[float | None]) -> list[Put]:
    """Return the periods whose quantity somebody must estimate, with the reason.

    Args:
        values: by period; None is missing. [any]

    Source: 40 CFR 98.35(b)(2), 98.75(b) (from memory): best available estimate, never a formula
    """
    rule = "98.35(b)(2), 98.75(b): best available estimate from process data, with its reason"
    return [Put(place, None, rule) for place, value in enumerate(values) if value is None]
