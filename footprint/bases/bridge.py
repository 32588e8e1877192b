"""From one basis' total to another's, in a fixed order of steps that add up exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footprint.base.formulas import named_sum
from footprint.base.line import Line, Page, Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis
from footprint.bases.topics import MEANS, TOPICS, Topic

SHEET = "Between bases"
QUESTION = "Why do the totals under different rules differ, step by step?"
ORDER = "The size of a step depends on the order of the steps, so the order is always this one."


@dataclass(frozen=True, eq=False, slots=True)
class Step:
    """One step of a bridge.

    Attributes:
        topic: which difference of rules it is. [text]
        size: what it adds. [t CO2e, row once]
    """

    topic: Topic
    size: Row


@dataclass(frozen=True, eq=False, slots=True)
class Bridge:
    """The way from one total to another.

    Attributes:
        start: name of the first; empty for the gross CO2 of the works. [text]
        end: name of the second. [text]
        first: its total. [t CO2e, row once]
        steps: in the printed order. [steps]
        last: the second total. [t CO2e, row once]
        left: first and all steps less last: must be 0. [t CO2e, row once]
    """

    start: str
    end: str
    first: Row
    steps: tuple[Step, ...]
    last: Row
    left: Row


def bridges_of(gross: Row, every: Sequence[Basis]) -> tuple[Bridge, ...]:
    """Return the way from gross CO2 to each basis, and from the first basis to each other.

    Args:
        gross: CO2 of the works where all bases begin. [t CO2e, row once]
        every: the bases applied. [bases]

    Source: definition
    """
    to_each = [_to_basis(gross, basis) for basis in every]
    return (*to_each, *(_between(to_each[0], other) for other in to_each[1:]))


def _to_basis(gross: Row, basis: Basis) -> Bridge:
    parts: dict[Topic, list[Row]] = {}
    for one in basis.effects:
        parts.setdefault(one.topic, []).append(one.effect)
    steps = [
        Step(
            topic,
            named_sum(
                parts[topic],
                f"bridge/gross CO2 to {basis.name}/{topic}/step",
                f"{topic}: {MEANS[topic]}",
                "; ".join(dict.fromkeys(e.because for e in basis.effects if e.topic == topic)),
            ),
        )
        for topic in TOPICS
        if topic in parts
    ]
    return _closed("", basis.name, gross, steps, basis.total)


def _between(one: Bridge, other: Bridge) -> Bridge:
    """Take the steps to one basis off and put those to the other on, topic by topic."""
    away = {item.topic: item.size for item in one.steps}
    onto = {item.topic: item.size for item in other.steps}
    steps = [
        Step(
            topic,
            step(
                _difference(away.get(topic), onto.get(topic)),
                f"bridge/{one.end} to {other.end}/{topic}/step",
                f"{topic}: {MEANS[topic]}",
                _reasons(one.end, away.get(topic), other.end, onto.get(topic)),
            ),
        )
        for topic in TOPICS
        if topic in away or topic in onto
    ]
    return _closed(one.end, other.end, one.last, steps, other.last)


def _difference(away: Row | None, onto: Row | None) -> Row:
    if away is None:
        if onto is None:
            raise ValueError("a step needs at least one side")
        return onto
    return -away if onto is None else onto - away


def _reasons(one: str, away: Row | None, other: str, onto: Row | None) -> str:
    sides = ((one, away), (other, onto))
    return "; ".join(f"{name}: {row.because if row else 'no step'}" for name, row in sides)


def _closed(start: str, end: str, first: Row, steps: list[Step], last: Row) -> Bridge:
    """Return a bridge with what is left over when all steps are made."""
    named = start or "gross CO2"
    key, because = f"bridge/{named} to {end}", "the steps lead from one total to the other"
    added = named_sum(
        [first, *(item.size for item in steps)],
        f"{key}/total and steps/sum",
        "first total and all steps",
        "sum",
    )
    left = step(added - last, f"{key}/left over/check", "left over: must be 0", because)
    return Bridge(start, end, first, tuple(steps), last, left)


def page_of(bridges: Sequence[Bridge]) -> Page:
    """Return the sheet of all bridges.

    Args:
        bridges: the ways. [bridges]

    Source: definition
    """
    return Page(SHEET, QUESTION, tuple(_section(one) for one in bridges))


def _section(bridge: Bridge) -> Section:
    lines = (
        Line(None, bridge.first, is_total=True),
        *(Line(None, item.size) for item in bridge.steps),
        Line(None, bridge.last, is_total=True),
        Line(None, bridge.left),
    )
    start = bridge.start or "Gross CO2 of the works"
    return Section(f"{start} to {bridge.end}", lines, ORDER)
