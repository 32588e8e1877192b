"""Readings, analyses and factors of a small invented works; carbon of its gases."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

import numpy as np

from footprint.base.axis import Axis, months_of
from footprint.base.formulas import (
    block_product,
    block_sum,
    choose,
    dot,
    is_read,
    pick,
    span,
    total,
)
from footprint.base.row import Row, constant, leaf, step
from footprint.base.source import Assumption, Factor, Origin, Reading
from footprint.base.units import NONE, unit

YEAR = 2025
FIRST_DAY = date(YEAR, 1, 1)
MONTHS = months_of(YEAR)
DATES = [FIRST_DAY + timedelta(days=place) for place in range(365)]
DAYS = Axis("days", tuple(day.isoformat() for day in DATES))
MONTH_SPANS = tuple(
    (min(found), max(found) + 1)
    for found in (
        [place for place, day in enumerate(DATES) if day.month == month] for month in range(1, 13)
    )
)
COMPONENTS = ("methane", "ethane", "carbon dioxide", "nitrogen")
MEMORY = Factor("a handbook", "table 3", "2016", is_seen=False, note="digits as remembered")
SEEN = Factor(
    "a standard",
    "table 1",
    "2016",
    address="https://example.org/standard",
    first_day=date(2016, 1, 1),
)
OPINION = Assumption("A. Officer", "no meter before the filter", date(2025, 3, 1), "site.toml")


def cells(file: str, sheet: str, column: str, count: int) -> list[Origin | None]:
    """Origins of a column of readings."""
    return [
        Reading(file, sheet, f"{column}{place + 2}", f"as written {place}")
        for place in range(count)
    ]


def daily(words: str, scale: float, file: str, column: str) -> Row:
    """A made-up daily reading in Nm3 with one missing day."""
    values = scale * (1 + 0.1 * np.sin(np.arange(365) / 9))
    return leaf(
        values,
        unit("Nm3"),
        DAYS,
        key=f"unit 1/{words}/volume/as read",
        words=f"{words}, as read",
        origins=cells(file, "Daily", column, 365),
    )


def with_gap() -> Row:
    """Daily purge gas: two days are missing and replaced by what somebody answers for."""
    read = daily("purge gas", 90_000.0, "loop.xlsx", "C")
    holes = read.values.copy()
    holes[[40, 41]] = np.nan
    read = read.replaced(values=holes)
    instead = np.full(365, np.nan)
    instead[[40, 41]] = 88_000.0
    origins: list[Origin | None] = [OPINION if place in (40, 41) else None for place in range(365)]
    substitute = leaf(
        instead,
        unit("Nm3"),
        DAYS,
        key="unit 1/purge gas/volume/substitute",
        words="purge gas, substitute",
        origins=origins,
    )
    return step(
        choose(is_read(read), read, substitute),
        "unit 1/purge gas/volume/used",
        "purge gas, used",
        "the reading, or what the site file puts in its place",
    )


def samples_of(gas: str, count: int) -> list[Row]:
    """Four components of a gas in mole fractions, sample by sample."""
    axis = Axis(
        "samples",
        tuple((FIRST_DAY + timedelta(days=7 * place)).isoformat() for place in range(count)),
        gas,
    )
    drift = np.linspace(0, 0.02, count)
    values = [0.9 - drift, 0.05 + drift / 2, 0.03 + drift / 4, 0.02 + drift / 4]
    letters = "BCDE"
    return [
        leaf(
            value,
            NONE,
            axis,
            key=f"gas/{gas}/{name}/as read",
            words=f"mole fraction of {name} in {gas}",
            origins=cells("laboratory.xlsx", gas, letter, count),
        )
        for name, value, letter in zip(COMPONENTS, values, letters, strict=True)
    ]


def properties(quantity: str, unit_name: str, values: Sequence[float], origin: Factor) -> list[Row]:
    """One factor a component."""
    return [
        constant(
            value,
            unit(unit_name),
            f"factors/any/{quantity} of {name}/always",
            f"{quantity} of {name}",
            origin,
        )
        for name, value in zip(COMPONENTS, values, strict=True)
    ]


def gas_carbon(volume: Row, gas: str, masses: list[Row], atoms: list[Row]) -> dict[str, Row]:
    """Carbon of a gas by month, its year, and its molar mass by sample."""
    mass, carbon = by_sample(gas, masses, atoms)
    moles, here, by_month = by_piece(volume, gas, carbon)
    metered = step(
        dot(moles, here, by_month, MONTHS),
        f"unit 1/{gas}/carbon atoms/metered",
        f"{gas}: carbon atoms",
        "amount times analysis",
    )
    weight = constant(
        0.0120107,
        unit("t_C/kmol_C"),
        f"factors/any/carbon mass for {gas}/always",
        f"atomic weight of carbon for {gas}",
        SEEN,
    )
    key, words = f"unit 1/{gas}/carbon/metered", f"{gas}: carbon"
    tonnes = step(metered * weight, key, words, "atoms times weight")
    return {"carbon": tonnes, "mass": mass, "year": year_of(tonnes)}


def by_sample(gas: str, masses: list[Row], atoms: list[Row]) -> tuple[Row, Row]:
    """Molar mass and carbon atoms of a gas, sample by sample, from its normalised analysis."""
    fractions = samples_of(gas, 52)
    words = f"sum of the analysis of {gas}"
    whole = step(block_sum(fractions), f"gas/{gas}/sum/as read", words, "definition")
    normal = [
        step(
            one / whole,
            f"gas/{gas}/{name}/normalised",
            f"mole fraction of {name} in {gas}, normalised",
            "each over the sum",
        )
        for one, name in zip(fractions, COMPONENTS, strict=True)
    ]
    products = [
        step(block_product(normal, of), f"gas/{gas}/{words}/by sample", f"{words} of {gas}", "sum")
        for of, words in ((masses, "molar mass"), (atoms, "carbon atoms"))
    ]
    return products[0], products[1]


def by_piece(volume: Row, gas: str, carbon: Row) -> tuple[Row, Row, tuple[tuple[int, int], ...]]:
    """Amount and carbon atoms by analysis period, and the periods of each month."""
    edges = sorted({0, 365, *range(0, 365, 7), *(first for first, _ in MONTH_SPANS)})
    spans = tuple(pairwise(edges))
    pieces = Axis("pieces", tuple(f"{DATES[a]} to {DATES[b - 1]}" for a, b in spans), gas)
    key = f"unit 1/{gas}"
    amount = step(span(volume, spans, pieces), f"{key}/volume/piece", f"{gas}: volume", "sum")
    per_kmol = constant(
        22.36,
        unit("Nm3/kmol"),
        f"factors/any/molar volume of {gas}/always",
        f"molar volume of {gas}",
        MEMORY,
    )
    moles = step(amount / per_kmol, f"{key}/amount/piece", f"{gas}: amount", "over molar volume")
    picked = pick(carbon, [min(a // 7, 51) for a, _ in spans], pieces)
    here = step(picked, f"{key}/carbon atoms/piece", f"{gas}: carbon atoms", "of the sample")
    firsts = [a for a, _ in spans]
    by_month = tuple(
        (firsts.index(a), firsts.index(b) if b in firsts else len(spans)) for a, b in MONTH_SPANS
    )
    return moles, here, by_month


def year_of(row: Row) -> Row:
    """Sum over the year."""
    return step(total(row), f"{row.key}/year", f"{row.words}, year", "sum of the months")
