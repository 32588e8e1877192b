"""2006 IPCC Guidelines: CO2 recovered, deducted only where somebody else's inventory counts it."""

from __future__ import annotations

from footprint.account.carbon_dioxide import added
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.bases.ipcc_2006_combustion import JURISDICTION, NAME
from footprint.bases.ipcc_2006_tiers import CHAPTER
from footprint.bases.rules import Rules
from footprint.bases.topics import Topic
from footprint.read.site import Role

DEDUCTION = f"{CHAPTER}, section 3.2.2 (from memory)"
NOTES = {
    "urea made": (
        "Deducted: urea made times 44/60. CO2 metered to urea stands beside it and is not used: "
        "what the urea unit loses is emitted at the works."
    ),
    "CO2 metered": (
        "Deducted: CO2 metered to the urea unit. What the unit loses is deducted with it; urea "
        "made times 44/60 stands beside it."
    ),
}


def deducted_of(rules: Rules) -> dict[Topic, list[Row]]:
    """Return CO2 that leaves for a use or store that somebody else's inventory counts, by topic.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2.2 (from memory)
    """
    return {
        "CO2 to urea": _to_urea(rules),
        "CO2 sold": _counted_elsewhere(rules, "CO2 sold"),
        "CO2 stored": _counted_elsewhere(rules, "CO2 to storage"),
    }


def recovered_of(rules: Rules, deducted: dict[Topic, list[Row]]) -> tuple[Row, Section]:
    """Return the sum of what is deducted by month, and all of it as shown.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]
        deducted: CO2 by month, by topic. [t CO2]

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2.2 (from memory)
    """
    rows = [row for rows in deducted.values() for row in rows]
    key, words = rules.key(NAME, "CO2", "recovered"), "CO2 recovered and counted elsewhere"
    recovered = added(rules.measured, rows, key, words)
    beside = [*_by_urea(rules), *_by_meter(rules)] if deducted["CO2 to urea"] else []
    shown = [rules.line(row) for row in dict.fromkeys([*beside, *rows])]
    note = NOTES[rules.context.site.ipcc.urea_by]
    return recovered, Section("CO2 recovered", (*shown, rules.line(recovered, is_total=True)), note)


def _to_urea(rules: Rules) -> list[Row]:
    """Return CO2 that leaves with urea; none where it counts nowhere else."""
    sent = rules.context.site.with_role("CO2 to urea")
    if not any(one.is_counted_elsewhere for one in sent):
        return []
    by_meter = rules.context.site.ipcc.urea_by == "CO2 metered"
    return _by_meter(rules) if by_meter else _by_urea(rules)


def _by_meter(rules: Rules) -> list[Row]:
    return [row for _, row in rules.account.captured.of_role(rules.measured, "CO2 to urea")]


def _counted_elsewhere(rules: Rules, role: Role) -> list[Row]:
    """Return flows of a role whose later release the site file says is counted elsewhere."""
    by_flow = rules.account.captured.by_flow
    return [
        by_flow[stream.name]
        for stream in rules.context.site.with_role(role)
        if stream.is_counted_elsewhere and stream.name in by_flow
    ]


def _by_urea(rules: Rules) -> list[Row]:
    """Return CO2 bound in the urea made; made once."""
    made = rules.context.made
    rows = []
    for stream, mass in rules.measured.masses("urea"):
        key = rules.key(stream.name, "CO2", "recovered, IPCC 2006")
        if key not in made:
            bound = mass * rules.factor("CO2 bound in urea", JURISDICTION)
            made[key] = step(bound, key, f"{stream.name}: CO2 bound, by urea made", DEDUCTION)
        rows.append(made[key])
    return rows
