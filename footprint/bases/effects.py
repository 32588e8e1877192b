"""Steps from the gross CO2 of the works to the total of a basis: each a live row with its reason.

A basis computes its total in its own terms. Here it says, topic by topic, how that total comes from
the one gross figure that all bases share: feed and fuel carbon as metered, by atomic weights.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from footprint.base.formulas import sum_of
from footprint.base.row import Row, step
from footprint.bases.basis import Effect
from footprint.bases.rules import Rules
from footprint.bases.topics import Topic

REFERENCE = "AR5"  # edition of warming potentials at which other gases are counted first


def in_co2e(rules: Rules, row: Row) -> Row:
    """Return a mass of CO2 as CO2e, nameless.

    Args:
        rules: the figures of the works. [rules]
        row: any mass of CO2. [t CO2]

    Source: definition of the global warming potential
    """
    return row * rules.context.factor(f"GWP100 of CO2, {REFERENCE}")


def gross_of(rules: Rules) -> Row:
    """Return the gross CO2 of the works in the year, where every bridge begins.

    Args:
        rules: the figures of the works. [rules]

    Source: conservation of carbon; atomic weights of ISO 6976:2016
    """
    context = rules.context
    key = context.key("gross CO2", "CO2e", "all bases")
    if key not in context.made:
        year = context.year(rules.account.split.gross)
        because = "feed and fuel carbon as metered, by atomic weights"
        context.made[key] = step(in_co2e(rules, year), key, "gross CO2 of the works", because)
    return context.made[key]


def effect_of(rules: Rules, basis: str, topic: Topic, row: Row, because: str) -> Effect:
    """Return one step, named.

    Args:
        rules: the figures of the works. [rules]
        basis: its name. [text]
        topic: which difference of rules it is. [text]
        row: what it adds to the total in the year. [t CO2e, row once]
        because: the rule or reason. [text]

    Source: definition
    """
    named = step(row, rules.key("bridge", topic, basis), f"{basis}: {topic}", because)
    return Effect(topic, named, because)


def warming_effects(
    rules: Rules, basis: str, gases: Mapping[str, Row], as_co2e: Sequence[Row]
) -> tuple[Effect, Effect]:
    """Return the steps for gases other than CO2: at the reference edition, then at the basis' own.

    Args:
        rules: the figures of the works. [rules]
        basis: its name. [text]
        gases: mass in the year, by formula. [t of the gas, rows once]
        as_co2e: the same as the basis counts them. [t CO2e, rows once]

    Source: definition of the global warming potential
    """
    at_reference = [
        step(
            row * rules.context.factor(f"GWP100 of {gas}, {REFERENCE}"),
            rules.key("bridge", f"{gas} at {REFERENCE}", basis),
            f"{basis}: {gas} at GWP100 of {REFERENCE}",
            "mass times GWP100",
        )
        for gas, row in gases.items()
    ]
    first = effect_of(
        rules, basis, "other gases", sum_of(at_reference), f"counted, at GWP100 of {REFERENCE}"
    )
    own = sum_of(list(as_co2e)) - first.effect
    because = f"GWP100 that the basis prescribes, less {REFERENCE}"
    return first, effect_of(rules, basis, "edition of warming potentials", own, because)


def rounding_effect(rules: Rules, basis: str, filed: Row, exact: Row) -> Effect:
    """Return the last step: the total as filed less the exact one.

    Args:
        rules: the figures of the works. [rules]
        basis: its name. [text]
        filed: total as filed. [t CO2e, row once]
        exact: total as computed. [t CO2e, row once]

    Source: definition
    """
    return effect_of(rules, basis, "rounding", filed - exact, "as the basis rounds")
