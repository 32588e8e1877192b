"""Implementing Regulation (EU) 2018/2066: statements, what the works has not given, doubts."""

from __future__ import annotations

from footprint.bases.basis import Lacking, Said
from footprint.bases.rules import Rules

BOUNDARY = (
    "One installation: all fuel for heat and all fuel used as process input, start-up, trips and "
    "flares included; engines that move vehicles excluded. CO2 alone."
)
ITEM = "Annex X, section 1"
DOUBTS = (
    (
        "Read in the consolidated text of 1 January 2022. The amendments of 2023 and 2024 were "
        "read in part: zero-rated carbon, Article 49a and parts of Annex X are known from recitals."
    ),
    (
        "CO2 bound for good in products (Article 49a) is not deducted here: urea is no such "
        "product on the reasoning of the recitals."
    ),
    (
        "Flares are counted where their gas is metered as a fuel; flare gas from the process is "
        "inside the feed."
    ),
    "Biomass is not told apart: every fuel counts as fossil.",
    (
        "Whether a stream is major, minor or de minimis follows from its share on the working "
        "sheet and from the other streams together: the authority approves it."
    ),
)
OF_THE_UK = (
    "The UK applies the regulation as assimilated law with the changes of S.I. 2020/1265, whose "
    "schedule was not read; the EU amendments of 2023 and 2024 do not carry over by themselves. "
    "Check every line against the text in force in the UK."
)


def doubts_of(basis: str) -> tuple[str, ...]:
    """Return what is not certain about the rules.

    Args:
        basis: its name. [text]

    Source: Implementing Regulation (EU) 2018/2066, as far as it was read
    """
    return (OF_THE_UK, *DOUBTS) if basis.startswith("UK") else DOUBTS


def said_of(rules: Rules) -> tuple[Said, ...]:
    """Return the elements of the report that are words.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: Implementing Regulation (EU) 2018/2066, Annex X, section 1 (seen)
    """
    works = rules.context.site.works
    plan = f"version {works.plan.version}, approved {works.plan.approved:%Y-%m-%d}"
    sampled = "; ".join(
        f"{gas}: {len(series.dates)} samples"
        for gas, series in rules.context.readings.analyses.items()
    )
    said = [
        ("(3)", "reporting year", str(works.year), ITEM, "seen"),
        ("(4)", "monitoring plan", plan, ITEM, "seen"),
        ("(6)(c)", "calculation or measurement", "calculation, standard method", ITEM, "seen"),
        ("(6)(d)", "analyses behind the factors", sampled, "Article 35, Annex VII", "seen"),
    ]
    if works.category:
        said.append(("Article 19", "category of the installation", works.category, ITEM, "seen"))
    return tuple(Said(*one) for one in said)


def lacking_of(rules: Rules) -> tuple[Lacking, ...]:
    """Return the elements of the report that the works has not given.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: Implementing Regulation (EU) 2018/2066, Annex X, section 1 (seen)
    """
    outside = "give it in the report itself; the site file has no place for it"
    asked = [
        ("(1)", "identity of the installation, permit number", outside, ITEM, "seen"),
        ("(2)", "name and address of the verifier", outside, ITEM, "seen"),
        ("(5)", "changes and deviations from the plan in the year", outside, ITEM, "seen"),
    ]
    if not rules.context.site.works.category:
        mend = 'write category = "A", "B" or "C" under [works]'
        asked.append(("Article 19", "category of the installation", mend, "Article 19(2)", "seen"))
    if rules.context.site.with_role("CO2 to storage"):
        words = "name and code of the installation that receives CO2"
        asked.append(("(8)(g)", words, outside, ITEM, "seen"))
    return tuple(Lacking(*one) for one in asked)
