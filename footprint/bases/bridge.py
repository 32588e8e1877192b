"""From one basis' total to another's, in a fixed order of steps that add up exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footprint.base.formulas import choose, named_sum
from footprint.base.row import Row, constant, step
from footprint.base.units import power_of, unit
from footprint.bases.basis import Basis, Effect
from footprint.bases.topics import TOPICS, Topic

# square of a mass below which two totals are one: the last digits of a computer's numbers
DUST = constant(
    1e-9, power_of(unit("t_CO2e"), 2), "bridge/dust/square of a mass/limit", "dust, squared"
)


@dataclass(frozen=True, eq=False, slots=True)
class Step:
    """One step of a bridge.

    Attributes:
        topic: which difference of rules it is. [text]
        size: what it adds. [t CO2e, row once]
        after: the total after it. [t CO2e, row once]
    """

    topic: Topic
    size: Row
    after: Row


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
    parts: dict[Topic, list[Effect]] = {}
    for one in basis.effects:
        parts.setdefault(one.topic, []).append(one)
    sizes = {
        topic: named_sum(
            [one.effect for one in parts[topic]],
            f"bridge/gross CO2 to {basis.name}/{topic}/step",
            topic,
            "; ".join(dict.fromkeys(one.because for one in parts[topic])),
        )
        for topic in TOPICS
        if topic in parts
    }
    return _closed("", basis.name, gross, sizes, basis.total)


def _between(one: Bridge, other: Bridge) -> Bridge:
    """Take the steps to one basis off and put those to the other on, topic by topic."""
    away = {item.topic: item.size for item in one.steps}
    onto = {item.topic: item.size for item in other.steps}
    sizes = {
        topic: step(
            _difference(away.get(topic), onto.get(topic)),
            f"bridge/{one.end} to {other.end}/{topic}/step",
            topic,
            _reasons(one.end, away.get(topic), other.end, onto.get(topic)),
        )
        for topic in TOPICS
        if topic in away or topic in onto
    }
    return _closed(one.end, other.end, one.last, sizes, other.last)


def _difference(away: Row | None, onto: Row | None) -> Row:
    if away is None:
        if onto is None:
            raise ValueError("a step needs at least one side")
        return onto
    return -away if onto is None else onto - away


def _reasons(one: str, away: Row | None, other: str, onto: Row | None) -> str:
    sides = ((one, away), (other, onto))
    return "; ".join(f"{name}: {'no step' if row is None else row.because}" for name, row in sides)


def _closed(start: str, end: str, first: Row, sizes: dict[Topic, Row], last: Row) -> Bridge:
    """Return a bridge with the total after each step, and what is left over at the end."""
    key = f"bridge/{start or 'gross CO2'} to {end}"
    steps: list[Step] = []
    for topic, size in sizes.items():
        before = steps[-1].after if steps else first
        after = step(
            before + size, f"{key}/{topic}/total after", f"total after {topic}", "step by step"
        )
        steps.append(Step(topic, size, after))
    because = "the steps lead from one total to the other"
    end_of_steps = steps[-1].after if steps else first
    words = f"{end}: all steps made, less the total"
    apart = step(end_of_steps - last, f"{key}/all steps less total/check", words, because)
    shown = choose(apart * apart > DUST, apart, 0)
    left = step(shown, f"{key}/left over/check", "left over: must be 0", because)
    return Bridge(start, end, first, tuple(steps), last, left)
