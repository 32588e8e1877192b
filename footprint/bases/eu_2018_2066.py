"""Implementing Regulation (EU) 2018/2066 and its UK version: the standard method for ammonia.

Feed is fuel used as process input and is counted like fuel: activity data times emission factor
times oxidation factor. CO2 in urea or sold is emitted by the works that made it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from footprint.account.carbon_dioxide import added
from footprint.base.finding import Finding
from footprint.base.formulas import named_sum
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis, Effect, Filed
from footprint.bases.effects import effect_of, in_co2e, rounding_effect
from footprint.bases.eu_2018_2066_streams import EU, Source, sources_of
from footprint.bases.eu_2018_2066_words import BOUNDARY, doubts_of, lacking_of, said_of
from footprint.bases.rules import Rules

ROUNDING = "Article 72(1): whole tonnes for each gas"
TRANSFER = "Article 49(1): CO2 not emitted but transferred to permitted storage"
ITEM = "Annex X, section 1"


@dataclass(frozen=True, eq=False, slots=True)
class _Year:
    """All source streams, what is transferred, and the total by month."""

    sources: tuple[Source, ...]
    gross: Row
    transferred: Row
    total: Row


def _regulation(name: str, rules: Rules) -> tuple[Basis, list[Finding]]:
    year = _year(rules, name)
    lines = _lines(rules, name, year)
    total = lines[0]
    basis = Basis(
        name,
        f"Return, {name}".replace("/", "-"),
        lines,
        _sections(rules, year),
        doubts_of(name),
        total=total.filed,
        effects=_effects(rules, name, year, total),
        said=said_of(rules),
        lacking=lacking_of(rules),
        boundary=BOUNDARY,
    )
    return basis, []


def _year(rules: Rules, name: str) -> _Year:
    sources, key = sources_of(rules, name), rules.key
    gross = added(
        rules.measured,
        [one.co2 for one in sources],
        key(name, "CO2", "before transfer"),
        "CO2 of all source streams, before transferred CO2",
    )
    stored = rules.account.captured.of_role(rules.measured, "CO2 to storage")
    words = "CO2 transferred to storage"
    rows = [row for _, row in stored]
    transferred = added(rules.measured, rows, key(name, "CO2", "transferred"), words)
    total = step(gross - transferred, key(name, "CO2", "total"), "CO2 emitted", TRANSFER)
    return _Year(sources, gross, transferred, total)


def _lines(rules: Rules, name: str, year: _Year) -> tuple[Filed, ...]:
    seen, captured = (f"{ITEM} (6)", "seen"), rules.account.captured
    whole = step(
        in_co2e(rules, rules.context.year(year.total)),
        rules.key(name, "CO2e", "total"),
        "total emissions",
        "CO2 alone: the activity lists no other gas",
    )
    streams = [line for one in year.sources for line in one.lines(rules, seen)]
    beside = [
        rules.filed(f"({letter})", f"{stream}: {words}", row, (f"{ITEM} (8)", "seen"))
        for letter, role, words in (
            ("8e", "CO2 to storage", "transferred, Article 49"),
            ("memo urea", "CO2 to urea", "to urea, counted as emitted"),
            ("memo sold", "CO2 sold", "sold, counted as emitted"),
            ("memo bought", "CO2 bought", "received; not emitted by this works' fuels"),
        )
        for stream, row in captured.of_role(rules.measured, role)  # type: ignore[arg-type]
    ]
    product = rules.filed(
        "activity level",
        "ammonia produced, as 100 % NH3",
        rules.account.ammonia.produced,
        ("Delegated Regulation (EU) 2019/331, Annex I, section 2", "seen"),
    )
    total = rules.filed("total", "total emissions of the installation", whole, (ROUNDING, "seen"))
    before = rules.filed(
        "before transfer", "emissions before transferred CO2", year.gross, ("Article 19", "seen")
    )
    return (total.on_first_sheet(), before, *streams, *beside, product)


def _sections(rules: Rules, year: _Year) -> tuple[Section, ...]:
    total = (
        *(rules.line(one.co2) for one in year.sources),
        rules.line(year.gross, is_total=True),
        rules.line(year.transferred),
        rules.line(year.total, is_total=True),
    )
    note = "Urea and CO2 sold are not deducted: what leaves with them is emitted by the works."
    return (Section("All source streams", total, note), *(one.section for one in year.sources))


def _effects(rules: Rules, name: str, year: _Year, total: Filed) -> tuple[Effect, ...]:
    atomic, of_year = rules.context.co2_per_carbon, rules.context.year
    ratio, key = rules.factor("ratio of CO2 to carbon", EU), rules.key(name, "bridge", "streams")
    effects = []
    analysed = [of_year(one.carbon) for one in year.sources if one.is_analysed]
    if analysed:
        carbon = named_sum(analysed, f"{key}, analysed", "carbon by analysis", "sum")
        moved = in_co2e(rules, carbon * (ratio - atomic))
        because = "3.664 in place of atomic weights"
        effects.append(effect_of(rules, name, "ratio of CO2 to carbon", moved, because))
    parts = [
        step(
            of_year(one.co2) - of_year(one.carbon) * atomic,
            f"{key}, {place}",
            f"{one.name}: Annex VI less the accounts",
            "difference",
        )
        for place, one in enumerate(year.sources)
        if not one.is_analysed
    ]
    if parts:
        moved = in_co2e(rules, named_sum(parts, f"{key}, defaults", "other fuels, moved", "sum"))
        because = "Annex VI in place of the defaults of the accounts"
        effects.append(effect_of(rules, name, "default or measured factor", moved, because))
    stored = -in_co2e(rules, of_year(year.transferred))
    return (
        *effects,
        effect_of(rules, name, "CO2 stored", stored, TRANSFER),
        rounding_effect(rules, name, total.filed, total.exact),
    )


Regulation = Callable[[Rules], tuple[Basis, list[Finding]]]
eu_2018_2066: Regulation = partial(_regulation, "EU 2018/2066")
uk_2018_2066: Regulation = partial(_regulation, "UK 2018/2066")
