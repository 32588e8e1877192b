"""40 CFR Part 98: what the report says in words, what the works has not given, what is in doubt."""

from __future__ import annotations

from footprint.bases.basis import Lacking, Said
from footprint.bases.rules import Rules
from footprint.bases.us_part98_combustion import Burnt

BOUNDARY = (
    "One facility: ammonia manufacturing (subpart G) and stationary combustion (subpart C); CO2 "
    "supplied (subpart PP) stands apart. CO2 of purge gas burnt is inside subpart G. Portable and "
    "emergency equipment and flares are outside subpart C."
)
ITEMS = "40 CFR 98.76"
LAST_OF_OLD_TEXT = 2024
DOUBTS = (
    (
        "98.73(b)(4) and its equation G-4 as amended from 1 January 2025 were not seen: the unit's "
        "figure is taken as the plain sum of G-1 to G-3, and CO2 used for urea is not subtracted."
    ),
    (
        "A proposal of 16 September 2025 (90 FR 44591) would end the duties of most categories, "
        "this one among them. Whether it was made final is not known here: check before filing."
    ),
    (
        "Fuel gas: equation C-5 month by month; the annual means of 98.33(a)(3)(iii) give the same "
        "where they are weighted by gas mass and by volume (amended text from memory)."
    ),
    (
        "Every engine and heater with a fuel meter is counted under subpart C; portable and "
        "emergency equipment must be left out by whoever files."
    ),
    (
        "CH4 and N2O of fuel gas use the default heat content of Table C-1; those of purge gas are "
        "not asked for, as far as the rule was read."
    ),
    "The heat content per scf of Table C-1 is applied at 68 F; the table leaves that open.",
)
IN_2024 = (
    "Whether reports for 2024 take the warming potentials of the table before or after 1 January "
    "2025 is in doubt: confirm before filing."
)
OLD_TEXT = "Text before 1 January 2025: the report may include CO2 later used on site for urea."


def doubts_of(rules: Rules) -> tuple[str, ...]:
    """Return what is not certain about the rules of a year.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR Part 98, as far as it was read
    """
    more = [OLD_TEXT] if rules.year <= LAST_OF_OLD_TEXT else []
    more += [IN_2024] if rules.year == LAST_OF_OLD_TEXT else []
    return (*DOUBTS, *more)


def said_of(rules: Rules) -> tuple[Said, ...]:
    """Return the elements of the report that are words.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR 98.76 (seen), 98.426(f) (from memory)
    """
    site = rules.context.site
    meters = [(one.name, one.meter) for one in site.with_role("feed")]
    by_meter = "; ".join(f"{name}: meter {tag}" for name, tag in meters)
    uses = [f"{one.name}: {one.use or 'not stated'}" for one in site.with_role("CO2 sold")]
    sampled = "; ".join(
        f"{gas}: {len(series.dates)} samples in the files"
        for gas, series in rules.context.readings.analyses.items()
    )
    said = [
        Said("98.76(b)(3)", "method for monthly feed", by_meter, ITEMS, "seen"),
        Said("98.76(b)(4)", "carbon content by supplier or analysis", sampled, ITEMS, "seen"),
    ]
    if uses:
        rule = "40 CFR 98.426(f)"
        said.append(Said("98.426(f)", "CO2 by end use", "; ".join(uses), rule, "memory"))
    return tuple(said)


def lacking_of(rules: Rules, burnt: Burnt) -> tuple[Lacking, ...]:
    """Return the elements of the report that the works has not given.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]
        burnt: what subpart C counts. [fuels]

    Source: 40 CFR 98.3(c) (from memory), 98.36, 98.76 (seen)
    """
    general, memory = "40 CFR 98.3(c)", "memory"
    outside = "give it in the report itself; the site file has no place for it"
    asked = [
        ("98.3(c)(1)", "identifier, address, owner, industry codes", outside, general, memory),
        ("98.36(b)", "rated heat input of each fired unit", outside, "40 CFR 98.36", "seen"),
        ("98.76(b)(6)", "yearly check of the supplier's carbon content", outside, ITEMS, "seen"),
    ]
    asked += [
        (
            "98.33(a)(1)",
            f'"{name}": no heat content by its unit, so the default of the accounts is used',
            "meter the liquid in litres, or name a fuel of Table C-1",
            "40 CFR 98.33(a)(1), Table C-1",
            "seen",
        )
        for name in burnt.untabled
    ]
    if not any(one.method_column for one in rules.context.site.analyses):
        mend = "name method_column in the [[analyses]] entry"
        asked.append(("98.76(b)(5)", "test method of the analyses", mend, ITEMS, "seen"))
    return tuple(Lacking(*one) for one in asked)
