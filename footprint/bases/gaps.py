"""Missing readings by the rules of a basis: conservative where it asks for that, and never silent.

The accounts fill a hole as the site file says. A basis that asks for conservative values puts its
own in place: the mean of the readings around the hole and two standard deviations more for what
counts as input, less for what is taken off. Both totals are shown.
"""

from __future__ import annotations

from dataclasses import replace

from footprint.base.formulas import choose, total
from footprint.base.line import Line
from footprint.base.rewire import rewired
from footprint.base.row import Row, leaf, step
from footprint.base.source import DEFINITION
from footprint.base.units import NONE
from footprint.bases.basis import Basis, Filed
from footprint.bases.effects import effect_of, rounding_effect
from footprint.bases.gap_rules import Direction, GapRule, OwnGap
from footprint.bases.rules import Rules
from footprint.bases.surrogate import conservative
from footprint.read.site import Role

HIGH: frozenset[Role] = frozenset(
    {
        "purchased gas",
        "feed",
        "fuel",
        "other fuel",
        "hydrogen bought",
        "purge gas",
        "let-down gas",
        "flash gas",
        "solvent flash gas",
        "CO2 bought",
        "CO2 vented",
        "start-up vent",
        "condensate stripper vent",
        "stack CO2",
        "power bought",
        "steam bought",
    }
)
LOW: frozenset[Role] = frozenset(
    {
        "gas to third parties",
        "CO2 to storage",
        "hydrogen sold",
        "ammonia produced",
        "power exported",
        "power sold",
        "steam exported",
    }
)


def with_own_gaps(basis: Basis, rules: Rules, gap_rule: GapRule) -> Basis:
    """Return a basis with missing readings filled by its own rule, and what that did.

    Args:
        basis: on the readings that the accounts use. [basis]
        rules: the figures of the works. [rules]
        gap_rule: how the basis wants it. [rule]

    Source: each basis names its own
    """
    told: list[OwnGap] = []
    instead: dict[Row, Row] = {}
    line = _total_line(basis)
    exact = line.exact
    for tag, places in _holes(rules).items():
        direction = _direction(rules, tag) if gap_rule.is_conservative else None
        plain, effect = rules.context.made[f"reading/{tag}"], None
        used = plain if direction is None else conservative(rules, tag, basis.name, direction)
        if direction is not None:
            instead[plain] = used
            (after,) = rewired(
                [line.exact], instead, f", {basis.name} fills up to {tag}{rules.mark}"
            )
            key = rules.key(tag, "data gaps", f"{basis.name}, effect")
            words = f"{tag}: effect of the {basis.name} rule for gaps"
            effect, exact = step(after - exact, key, words, gap_rule.rule), after
        counted = _counted(rules, basis.name, (tag, places), (plain, used))
        streams = tuple(one.name for one in rules.context.site.streams if one.meter == tag)
        told.append(OwnGap(basis.name, tag, streams, direction, gap_rule, *counted, effect))
    refilled = _refilled(basis, rules, instead, gap_rule) if instead else basis
    return replace(refilled, gaps=tuple(told))


def _total_line(basis: Basis) -> Filed:
    return next(line for line in basis.lines if line.filed is basis.total)


def _holes(rules: Rules) -> dict[str, tuple[int, ...]]:
    """Return the periods of each flow meter that have no reading and no stated substitute."""
    context = rules.context
    flows = {stream.meter for stream in context.site.streams}
    return {
        tag: places
        for tag, series in context.readings.series.items()
        if tag in flows
        and series.rows in {"daily", "monthly"}
        and f"reading/{tag}" in context.made
        and (places := context.open_periods(tag))
    }


def _direction(rules: Rules, tag: str) -> Direction | None:
    """Return which way is conservative for a meter; None where its streams do not say."""
    roles = {stream.role for stream in rules.context.site.streams if stream.meter == tag}
    if roles & HIGH:
        return "high"
    return "low" if roles & LOW else None


def _counted(
    rules: Rules, basis: str, hole: tuple[str, tuple[int, ...]], rows: tuple[Row, Row]
) -> tuple[Row, Row, Row]:
    """Return how many periods were filled, and what the basis and the plain method put in."""
    (tag, places), (plain, used) = hole, rows
    key = rules.key(tag, "data gaps", f"{basis}, counted")
    is_hole = leaf(
        [1.0 if place in places else 0.0 for place in range(plain.axis.size)],
        NONE,
        plain.axis,
        key=f"{key}, is a hole",
        words=f"{tag}: 1 where nothing was read",
        origins=[DEFINITION],
    )
    number = step(total(is_hole), f"{key}, periods", f"{tag}: periods without a reading", "counted")
    sums = []
    for row, what in ((used, f"put in by {basis}"), (plain, "put in by the site file")):
        put_in = step(choose(is_hole, row, 0), f"{key}, {what}", f"{tag}: {what}", "in the holes")
        sums.append(step(total(put_in), f"{put_in.key}/year", f"{tag}: {what}, year", "sum"))
    return number, sums[0], sums[1]


def _refilled(basis: Basis, rules: Rules, instead: dict[Row, Row], gap_rule: GapRule) -> Basis:
    """Return a basis whose rows stand on its own readings."""
    mark, old = f", {basis.name} fills{rules.mark}", _total_line(basis)
    rows = [row for line in basis.lines for row in (line.exact, line.filed)]
    rows += [
        row
        for section in basis.sections
        for line in section.lines
        for row in (line.months, line.year)
        if row is not None
    ]
    new = dict(zip(rows, rewired(rows, instead, mark), strict=True))
    lines = tuple(
        replace(line, exact=new[line.exact], filed=new[line.filed]) for line in basis.lines
    )
    sections = tuple(
        replace(section, lines=tuple(_line(line, new) for line in section.lines))
        for section in basis.sections
    )
    kept = tuple(one for one in basis.effects if one.topic != "rounding")
    exact, filed = new[old.exact], new[old.filed]
    effects = (
        *kept,
        effect_of(
            rules, basis.name, "data gaps", exact - old.exact, f"{gap_rule.rule}: {gap_rule.words}"
        ),
        rounding_effect(rules, f"{basis.name}, gaps filled", filed, exact),
    )
    return replace(basis, lines=lines, sections=sections, total=filed, effects=effects)


def _line(line: Line, new: dict[Row, Row]) -> Line:
    months = None if line.months is None else new[line.months]
    return Line(months, None if line.year is None else new[line.year], line.is_total)
