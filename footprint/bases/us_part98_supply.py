"""40 CFR Part 98, subpart PP: CO2 supplied, by quarter and end use; never netted."""

from __future__ import annotations

from footprint.account.carbon_dioxide import added
from footprint.base.axis import ONCE
from footprint.base.formulas import span
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.bases.basis import Filed
from footprint.bases.rules import Rules
from footprint.bases.us_part98_gas import NAME

PP_1 = "40 CFR 98.423(a)(1), equation PP-1"
APART = "A supply total stands apart from the facility total and is never taken off it."
QUARTERS = ((0, 3), (3, 6), (6, 9), (9, 12))


def supplied(rules: Rules) -> list[tuple[str, Row]]:
    """Return CO2 sold by stream, by month.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR 98.422, 98.423 (equation seen, the rest from memory)
    """
    return rules.account.captured.of_role(rules.measured, "CO2 sold")


def supply_lines(rules: Rules) -> tuple[Filed, ...]:
    """Return the lines of subpart PP: each quarter, the year; none without CO2 sold.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR 98.423(a)(1), equation PP-1 (seen); 98.426(a) (from memory)
    """
    if not supplied(rules):
        return ()
    whole = _whole(rules)
    quarters = [
        rules.filed(
            f"98.426(a) Q{place}",
            f"CO2 supplied, quarter {place}",
            step(
                span(whole, [months], ONCE),
                rules.key(NAME, f"CO2 supplied, quarter {place}", "PP-1"),
                f"CO2 supplied, quarter {place}",
                PP_1,
            ),
            (PP_1, "seen"),
            None,
        )
        for place, months in enumerate(QUARTERS, 1)
    ]
    cited = (f"40 CFR 98.422 (from memory); {PP_1}", "memory")
    year = rules.filed("98.422", "CO2 supplied in the year", whole, cited, None)
    return (*quarters, year)


def supply_section(rules: Rules) -> Section:
    """Return CO2 supplied as shown on the working sheet.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: definition
    """
    rows = [row for _, row in supplied(rules)]
    lines = [rules.line(row) for row in rows]
    if rows:
        lines.append(rules.line(_whole(rules), is_total=True))
    return Section("Subpart PP: CO2 supplied", tuple(lines), APART)


def _whole(rules: Rules) -> Row:
    key, made = rules.key(NAME, "CO2 supplied", "PP-1"), rules.context.made
    if key not in made:
        rows = [row for _, row in supplied(rules)]
        made[key] = added(rules.measured, rows, key, "CO2 supplied, all streams")
    return made[key]
