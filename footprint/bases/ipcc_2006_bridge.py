"""2006 IPCC Guidelines: the steps from the gross CO2 of the works to the total of the category."""

from __future__ import annotations

from collections.abc import Mapping

from footprint.base.formulas import named_sum
from footprint.base.row import Row
from footprint.bases.basis import Effect, Filed
from footprint.bases.effects import effect_of, in_co2e, rounding_effect, warming_effects
from footprint.bases.ipcc_2006_combustion import JURISDICTION, NAME
from footprint.bases.rules import Rules
from footprint.bases.topics import Topic


def ipcc_effects(
    rules: Rules,
    carbon_and_share: tuple[Row, Row],
    recovered: Mapping[Topic, list[Row]],
    gases: tuple[Mapping[str, Row], Mapping[str, Row]],
    whole: Filed,
) -> tuple[Effect, ...]:
    """Return what the guidelines add to the gross CO2 of the works, or take off it.

    Args:
        rules: the figures of the works. [rules]
        carbon_and_share: carbon of feed and fuel by month, and its oxidised share. [t C, 1]
        recovered: CO2 deducted by month, by topic. [t CO2]
        gases: mass of other gases by month, and the same as CO2e. [t, t CO2e]
        whole: the total, exact and as filed. [line]

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2 (from memory)
    """
    carbon, share = rules.context.year(carbon_and_share[0]), carbon_and_share[1]
    molar = rules.factor("ratio of CO2 to carbon", JURISDICTION)
    masses, in_warming = gases
    return (
        effect_of(
            rules,
            NAME,
            "ratio of CO2 to carbon",
            in_co2e(rules, carbon * (molar - rules.context.co2_per_carbon)),
            "44/12 in place of atomic weights",
        ),
        effect_of(
            rules,
            NAME,
            "oxidation",
            in_co2e(rules, carbon * molar * (share - 1)),
            "oxidised share of the carbon",
        ),
        *(_deducted(rules, topic, rows) for topic, rows in recovered.items() if rows),
        *warming_effects(
            rules,
            NAME,
            {gas: rules.context.year(row) for gas, row in masses.items()},
            [rules.context.year(row) for row in in_warming.values()],
        ),
        rounding_effect(rules, NAME, whole.filed, whole.exact),
    )


def _deducted(rules: Rules, topic: Topic, rows: list[Row]) -> Effect:
    """Return what is taken off as recovered and counted elsewhere."""
    key = rules.key(NAME, f"{topic}, deducted", "bridge")
    words = f"{topic}: deducted as counted elsewhere"
    deducted = named_sum([rules.context.year(row) for row in rows], key, words, "sum of the lines")
    return effect_of(rules, NAME, topic, -in_co2e(rules, deducted), "counted elsewhere")
