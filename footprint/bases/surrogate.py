"""Conservative values for missing readings: live rows from the readings around each hole."""

from __future__ import annotations

from footprint.base.axis import Axis
from footprint.base.formulas import (
    choose,
    count,
    dot,
    is_read,
    largest,
    pick,
    ratio,
    smallest,
    span,
)
from footprint.base.row import Row, step
from footprint.bases.gap_rules import Direction
from footprint.bases.rules import Rules
from footprint.measure.gap_places import runs_of, windows

AROUND = 15  # periods on each side of a hole that speak for it: common practice, no source


def conservative(rules: Rules, tag: str, basis: str, direction: Direction) -> Row:
    """Return the readings of a meter with conservative values in the holes.

    Never less than what the site file's own method gives, for an input; never more, for what is
    taken off; never below zero.

    Args:
        rules: the figures of the works. [rules]
        tag: of the meter. [text]
        basis: its name. [text]
        direction: which way is conservative. [text]

    Source: mean and two standard deviations: Implementing Regulation (EU) 2018/2066, Article 45,
        for concentrations; for amounts common practice
    """
    read, plain = rules.context.as_read(tag), rules.context.made[f"reading/{tag}"]
    key, words = rules.key(tag, "data gaps", basis), f"{tag}, {basis}"
    surrogate = _surrogate(rules, tag, (key, words), direction)
    stated = plain if any(one.meter == tag for one in rules.context.site.substitutes) else read
    own = step(
        choose(is_read(stated), stated, surrogate),
        f"{key}, conservative",
        f"{words}: readings, holes filled conservatively",
        "the reading; where there is none, the conservative value",
    )
    if plain is read:
        return own
    known = choose(is_read(plain), plain, own)
    bounded = largest(own, known) if direction == "high" else smallest(own, known)
    because = f"{'larger' if direction == 'high' else 'smaller'} of this and the plain filling"
    return step(bounded, f"{key}, used", f"{words}: used", because)


def _surrogate(rules: Rules, tag: str, named: tuple[str, str], direction: Direction) -> Row:
    """Return the conservative value around each hole, on the axis of the readings."""
    key, words = named
    context, read = rules.context, rules.context.as_read(tag)
    series, runs = context.readings.series[tag], runs_of(context.open_periods(tag))
    labels = tuple(f"{read.axis.labels[a]} to {read.axis.labels[b]}" for a, b in runs)
    holes = Axis("pieces", labels, f"{tag}, holes, {key}")
    around = [windows(series.values, run, AROUND) for run in runs]
    sides = [[both[side] for both in around] for side in (0, 1)]
    number, whole, squares = (
        _both(read, sides, holes, f"{key}, {what}", f"{words}: {what} around the hole")
        for what in ("number", "sum", "squares")
    )
    mean = step(ratio(whole, number, "no reading"), f"{key}, mean", f"{words}: mean", "sum over n")
    variance = step(
        ratio(squares - whole * mean, number - 1, "one reading"),
        f"{key}, variance",
        f"{words}: variance",
        "of the readings around the hole, n - 1",
    )
    bounded = step(
        choose(number > 1, choose(variance > 0, variance, 0), 0),
        f"{key}, variance not below 0",
        f"{words}: variance, 0 for a single reading",
        "what the last digits leave below 0 is 0",
    )
    spread = step(
        bounded**0.5, f"{key}, standard deviation", f"{words}: standard deviation", "root"
    )
    margin = rules.factor("standard deviations of margin in a surrogate value")
    shifted = mean + margin * spread if direction == "high" else mean - margin * spread
    value = step(
        choose(shifted > 0, shifted, 0),
        f"{key}, surrogate",
        f"{words}: conservative value",
        f"mean and {'more' if direction == 'high' else 'less'} by the margin, not below 0",
    )
    near = [
        max(at for at, (a, _) in enumerate(runs) if a <= place) if place >= runs[0][0] else 0
        for place in range(read.axis.size)
    ]
    by_period = f"{words}: conservative value of the hole"
    return step(pick(value, near, read.axis), f"{key}, by period", by_period, "of the hole")


def _both(read: Row, sides: list[list[tuple[int, int]]], holes: Axis, key: str, words: str) -> Row:
    """Return number, sum or sum of squares of the readings on both sides of each hole."""
    before, after = (
        step(_over(read, spans, holes, key), f"{key} {name}", f"{words}, {name}", "of the readings")
        for spans, name in zip(sides, ("before", "after"), strict=True)
    )
    if sides[0] == sides[1]:
        return before
    return step(before + after, key, words, "both sides")


def _over(read: Row, spans: list[tuple[int, int]], holes: Axis, key: str) -> Row:
    if key.endswith("number"):
        return count(read, spans, holes)
    return span(read, spans, holes) if key.endswith("sum") else dot(read, read, spans, holes)
