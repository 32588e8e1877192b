"""A small invented works whose rows use every operation and every axis."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np

from footprint.base.axis import ONCE, Axis, months_of
from footprint.base.finding import Finding, Where
from footprint.base.line import Line, Page, Section
from footprint.base.row import (
    Row,
    absolute,
    apply,
    block_product,
    block_sum,
    choose,
    constant,
    convert,
    dot,
    frozen,
    in_words,
    is_read,
    largest,
    leaf,
    pick,
    ratio,
    rounded,
    smallest,
    span,
    square_root,
    step,
    total,
)
from footprint.base.source import Assumption, Factor, Origin, Reading
from footprint.base.units import NONE, unit
from footprint.judge.check import OUTCOMES, Check, Limits
from footprint.read.readings import InputFile
from footprint.report import Book, ChartRows, Flow, Headline, Verdict

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


def samples_of(gas: str, count: int) -> tuple[Axis, list[Row]]:
    """Four components of a gas in mole fractions, sample by sample."""
    axis = Axis(
        "samples",
        tuple((FIRST_DAY + timedelta(days=7 * place)).isoformat() for place in range(count)),
        gas,
    )
    drift = np.linspace(0, 0.02, count)
    values = [0.9 - drift, 0.05 + drift / 2, 0.03 + drift / 4, 0.02 + drift / 4]
    letters = "BCDE"
    return axis, [
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
    """Carbon of a gas by month: composition by sample, volume by day, joined by analysis period."""
    axis, fractions = samples_of(gas, 52)
    whole = step(
        block_sum(fractions),
        f"gas/{gas}/sum/as read",
        f"sum of the analysis of {gas}",
        "definition",
    )
    normal = [
        step(
            one / whole,
            f"gas/{gas}/{name}/normalised",
            f"mole fraction of {name} in {gas}, normalised",
            "each over the sum",
        )
        for one, name in zip(fractions, COMPONENTS, strict=True)
    ]
    mass = step(
        block_product(normal, masses),
        f"gas/{gas}/molar mass/by sample",
        f"molar mass of {gas}",
        "a standard",
    )
    carbon = step(
        block_product(normal, atoms),
        f"gas/{gas}/carbon atoms/by sample",
        f"carbon atoms of {gas}",
        "sum",
    )
    edges = sorted({0, 365, *range(0, 365, 7), *(first for first, _ in MONTH_SPANS)})
    spans = tuple(zip(edges[:-1], edges[1:], strict=True))
    pieces = Axis("pieces", tuple(f"{DATES[a]} to {DATES[b - 1]}" for a, b in spans), gas)
    amount = step(
        span(volume, spans, pieces),
        f"unit 1/{gas}/volume/by analysis",
        f"{gas}: volume",
        "sum of days",
    )
    per_kmol = constant(
        22.36,
        unit("Nm3/kmol"),
        f"factors/any/molar volume of {gas}/always",
        f"molar volume of {gas}",
        MEMORY,
    )
    moles = step(
        amount / per_kmol,
        f"unit 1/{gas}/amount/by analysis",
        f"{gas}: amount",
        "volume over molar volume",
    )
    here = step(
        pick(carbon, [min(a // 7, 51) for a, _ in spans], pieces),
        f"unit 1/{gas}/carbon atoms/by analysis",
        f"{gas}: carbon atoms",
        "of the sample that speaks for these days",
    )
    by_month = tuple(
        (
            next(i for i, s in enumerate(spans) if s[0] >= a),
            max(i for i, s in enumerate(spans) if s[1] <= b) + 1,
        )
        for a, b in MONTH_SPANS
    )
    atoms_metered = step(
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
    tonnes = step(
        atoms_metered * weight,
        f"unit 1/{gas}/carbon/metered",
        f"{gas}: carbon",
        "atoms times weight",
    )
    return {"carbon": tonnes, "mass": mass, "year": year_of(tonnes)}


def year_of(row: Row) -> Row:
    """Sum over the year."""
    return step(total(row), f"{row.key}/year", f"{row.words}, year", "sum of the months")


def ammonia() -> Row:
    """Monthly tonnes of ammonia, none in July, with a stock change and tickets."""
    made = np.array([30e3] * 12)
    made[6] = 0.0
    read = leaf(
        made,
        unit("t_NH3"),
        MONTHS,
        key="unit 1/ammonia/mass/as read",
        words="ammonia produced, as read",
        origins=cells("production.xlsx", "Year", "B", 12),
    )
    stock_axis = Axis(
        "dates",
        tuple(f"{YEAR + month // 12}-{month % 12 + 1:02d}-01" for month in range(13)),
        "tank",
    )
    stock = leaf(
        1000 + 100 * np.cos(np.arange(13)),
        unit("t_NH3"),
        stock_axis,
        key="unit 1/ammonia/stock/as read",
        words="ammonia stock, as read",
        origins=cells("production.xlsx", "Tank", "B", 13),
    )
    closing = step(
        pick(stock, range(1, 13), MONTHS), "unit 1/ammonia/stock/closing", "closing stock", "dates"
    )
    opening = step(
        pick(stock, range(12), MONTHS), "unit 1/ammonia/stock/opening", "opening stock", "dates"
    )
    change = step(
        closing - opening, "unit 1/ammonia/stock/change", "stock change", "closing less opening"
    )
    tickets = Axis(
        "tickets", tuple(f"{DATES[12 * place]} no. {place}" for place in range(30)), "W1"
    )
    sold = leaf(
        np.full(30, 25.5),
        unit("t_NH3"),
        tickets,
        key="unit 1/ammonia sold/mass/as read",
        words="ammonia sold, as read",
        origins=cells("sales.csv", "", "C", 30),
    )
    monthly = [[i for i in range(30) if DATES[12 * i].month == month] for month in range(1, 13)]
    sales = step(
        span(sold, [(found[0], found[-1] + 1) for found in monthly], MONTHS),
        "unit 1/ammonia sold/mass/metered",
        "ammonia sold",
        "sum of the tickets of the month",
    )
    return step(
        choose(read > 0, read + change - 0 * sales, read),
        "unit 1/ammonia/mass/metered",
        "ammonia produced",
        "as read, with the change of stock",
    )


def ways_of(row: Row) -> list[Row]:
    """Rows over months that use the operations which nothing else here uses."""
    tenth = constant(0.1, NONE, "unit 1/trial/tenth/assumed", "a tenth", OPINION)
    small = step(row * tenth - row / 12, "unit 1/trial/small/made", "small part", "trial")
    low = step(smallest(small, -small), "unit 1/trial/low/made", "lower", "trial")
    high = step(largest(small, absolute(low)), "unit 1/trial/high/made", "higher", "trial")
    root = step(square_root(high * high) + high**1, "unit 1/trial/root/made", "root", "trial")
    whole = step(rounded(root, 1), "unit 1/trial/whole/made", "rounded", "trial")
    both = step(
        apply("AND", whole > low, apply("OR", whole < 0, small >= low)),
        "unit 1/trial/both/made",
        "both",
        "trial",
    )
    added = step(apply("SUM", small, low, high) * both, "unit 1/trial/added/made", "added", "trial")
    again = step(small, "unit 1/trial/again/made", "small part again", "as above")
    return [small, low, high, root, whole, both, added, again]


def enthalpy() -> Row:
    """An iterated value with two operands, one of them worked out."""
    pressure = constant(
        40.0, unit("bar"), "unit 1/steam/pressure/assumed", "steam, pressure", OPINION
    )
    in_mpa = convert(pressure, unit("MPa"), "unit 1/steam/pressure/MPa", "steam, pressure in MPa")
    heat = constant(
        400.0, unit("celsius"), "unit 1/steam/temperature/assumed", "steam, temperature", OPINION
    )
    return frozen(
        lambda p, t: 2500 + 2 * t - 3 * p + 1 / 3,
        unit("kJ_heat/kg_steam"),
        in_mpa,
        heat,
        key="unit 1/steam/enthalpy/iterated",
        words="steam, enthalpy",
        method="steam tables (trial)",
    )


def factor_by_month(row: Row) -> Row:
    """An iterated row over months."""
    return frozen(
        lambda a: 1 + np.sqrt(np.abs(a)) / 1e3,
        NONE,
        row,
        key="unit 1/trial/multiplier/iterated",
        words="multiplier",
        method="fixed point (trial)",
    )


def check_of(value: Row) -> Check:
    """A check of energy per tonne against limits."""
    limits = Limits(
        *(
            constant(number, value.unit, f"limits/energy/{name}/judged", f"limit {name}", MEMORY)
            for name, number in (("a", 0.4), ("b", 0.5), ("c", 0.6), ("d", 0.61))
        )
    )
    judged = choose(
        is_read(value),
        choose(
            value < limits.stop_low,
            Row(np.array([1.0]), NONE, ONCE) + 1,
            choose(
                value > limits.warn_high,
                Row(np.array([1.0]), NONE, ONCE) * 1,
                Row(np.array([0.0]), NONE, ONCE),
            ),
        ),
        constant(3.0, NONE, "words/not judged/place/definition", "place of not judged"),
    )
    outcome = step(
        in_words(judged, *OUTCOMES), f"{value.key}/outcome", "outcome", "value against limits"
    )
    return Check(
        "CO2 per tonne of ammonia",
        value,
        limits,
        outcome,
        "a handbook (from memory)",
        is_physics=False,
    )


def book() -> Book:
    """The whole invented works."""
    masses = properties("molar mass", "kg/kmol", (16.043, 30.070, 44.010, 28.013), SEEN)
    atoms = properties("carbon atoms", "kmol_C/kmol", (1.0, 2.0, 1.0, 0.0), SEEN)
    feed = gas_carbon(daily("feed gas", 900_000.0, "feed.xlsx", "B"), "feed gas", masses, atoms)
    purge = gas_carbon(with_gap(), "purge gas", masses, atoms)
    per_carbon = constant(
        3.664, unit("t_CO2/t_C"), "factors/any/CO2 per carbon/always", "CO2 per carbon", SEEN
    )
    left = step(
        feed["carbon"] - purge["carbon"],
        "unit 1/feed/carbon/net",
        "feed carbon less purge",
        "balance",
    )
    process = step(left * per_carbon, "unit 1/feed/CO2/tier 2", "process CO2", "a rule, equation 1")
    fuel = step(
        purge["carbon"] * per_carbon, "unit 1/fuel/CO2/tier 2", "fuel CO2", "a rule, equation 2"
    )
    made = ammonia()
    rate = step(
        ratio(process, made),
        "unit 1/ammonia/CO2 per tonne/tier 2",
        "CO2 per tonne of ammonia",
        "definition",
    )
    year = year_of(process)
    filed = step(
        rounded(year, 0), "unit 1/feed/CO2/filed", "process CO2, whole tonnes", "a rule, article 72"
    )
    share = step(
        ratio(feed["year"] - purge["year"], feed["year"], "no carbon"),
        "unit 1/feed/carbon share/year",
        "share of carbon",
        "definition",
    )
    blank = leaf(
        np.full(12, np.nan),
        unit("t_CO2"),
        MONTHS,
        key="unit 1/CO2 sold/mass/as read",
        words="CO2 sold",
        origins=[None],
    )
    sold = step(blank, "unit 1/CO2 sold/mass/metered", "CO2 sold", "as read")
    short = step(process - sold, "unit 1/CO2/vented/by difference", "CO2 vented", "by difference")
    minimum = step(rate / 12, "unit 1/energy/minimum/theory", "theoretical minimum", "trial")
    distance = step(
        rate - minimum, "unit 1/energy/distance/theory", "distance to the minimum", "trial"
    )
    best = constant(
        0.55, unit("t_CO2/t_NH3"), "benchmarks/best/CO2/published", "best works", MEMORY
    )
    trial = ways_of(made)
    multiplier = factor_by_month(process)
    scaled = step(process * multiplier, "unit 1/trial/scaled/iterated", "scaled", "trial")
    check = check_of(rate)
    pages = (
        Page(
            "Process CO2",
            "How much CO2 came from the feed?",
            (
                Section(
                    "Carbon",
                    (Line(feed["carbon"]), Line(purge["carbon"]), Line(left)),
                    "tonnes of carbon",
                ),
                Section(
                    "CO2",
                    (
                        Line(process, year, is_total=True),
                        Line(None, filed),
                        Line(rate),
                        Line(per_carbon),
                    ),
                    "",
                ),
            ),
        ),
        Page(
            "Fuel CO2",
            "How much CO2 came from fuel?",
            (Section("CO2", (Line(fuel), Line(process)), ""),),
        ),
        Page(
            "Carbon balance",
            "Where does carbon go?",
            (
                Section(
                    "Trial",
                    (
                        *(Line(row) for row in trial),
                        Line(scaled),
                        Line(multiplier),
                        Line(None, share),
                    ),
                    "",
                ),
                Section("Gone", (Line(sold), Line(short), Line(None, enthalpy())), ""),
            ),
        ),
        Page(
            "Energy per tonne",
            "How far from the minimum?",
            (Section("Rates", (Line(minimum), Line(distance))),),
        ),
    )
    flows = (
        Flow("feed gas", "front end", "feed carbon", feed["year"]),
        Flow("front end", "CO2 removal", "raw gas", year_of(left), is_by_difference=True),
        Flow("front end", "furnace", "purge gas", purge["year"]),
        Flow("furnace", "air", "stack", purge["year"], is_loss=True),
        Flow(
            "CO2 removal", "urea", "to urea", year_of(left).replaced(key="unit 1/urea/carbon/year")
        ),
    )
    return Book(
        works="Brackwater Works",
        operator="Brackwater Nitrogen",
        year=YEAR,
        plan="version 3, 1 May 2024",
        tool_version="0.1.0",
        bases=("IPCC 2006",),
        gwp_set="AR5",
        boundary="Ammonia unit with refrigeration.",
        headline=(
            Headline("Process CO2", filed, "Filed in whole tonnes."),
            Headline("Share", share, "Of feed carbon."),
        ),
        verdicts=(Verdict("LOOK", "One month stands out."), Verdict("PASS", "The balance closes.")),
        is_fit_to_file=False,
        pages=pages,
        checks=(check,),
        findings=(
            Finding(
                "days-missing",
                "stop",
                'two days of "purge gas"',
                Where("loop.xlsx", "Daily", "C42:C43"),
                "=cmd",
                "the month is short",
                "enter both days",
            ),
            Finding("chosen", "note", "a choice", Where("site.toml"), "", "small", "nothing"),
        ),
        files=(
            InputFile("feed.xlsx", 1000, "ab" * 32, ("Daily",), 365, ""),
            InputFile("loop.xlsx", 1200, "cd" * 32, ("Daily",), 365, "sheet Notes: no table"),
        ),
        charts=ChartRows(
            Line(process), Line(fuel), minimum, distance, Line(rate), (("best works", best),)
        ),
        flows=flows,
        how=(("Boundary", "The ammonia unit."),),
    )
