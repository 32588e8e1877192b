"""One test of a figure against limits, with its outcome as a live row."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.row import Row

OUTCOMES = ("not judged", "PASS", "LOOK", "OPEN")


@dataclass(frozen=True, eq=False, slots=True)
class Limits:
    """Four limits in rising order, once or by month: outside stop is OPEN, outside warn is LOOK."""

    stop_low: Row
    warn_low: Row
    warn_high: Row
    stop_high: Row


@dataclass(frozen=True, eq=False, slots=True)
class Check:
    """A figure, its limits, and the outcome by month or for the year.

    Attributes:
        words: what is tested. [text]
        value: the figure tested, over months or once. [row]
        limits: what it is held against. [rows]
        outcome: 0 not judged, 1 PASS, 2 LOOK, 3 OPEN, shown as words. [row]
        basis: where the limits come from, with seen or memory. [text]
        is_physics: outside stop is impossible, not only unusual. [flag]
    """

    words: str
    value: Row
    limits: Limits
    outcome: Row
    basis: str
    is_physics: bool
