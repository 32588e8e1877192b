"""The whole of a small invented works, whose rows use every axis and nearly every operation."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from footprint.base.finding import Finding, Where
from footprint.base.formulas import ratio, rounded
from footprint.base.line import Line, Page, Section
from footprint.base.row import Row, constant, leaf, step
from footprint.base.units import unit
from footprint.read.readings import InputFile
from footprint.report import Book, ChartRows, Flow, Headline, Verdict
from tests.report.gas_rows import (
    MEMORY,
    MONTHS,
    SEEN,
    YEAR,
    daily,
    gas_carbon,
    properties,
    with_gap,
    year_of,
)
from tests.report.month_rows import ammonia, check_of, enthalpy, factor_by_month, ways_of

PER_CARBON = "factors/any/CO2 per carbon/always"


@dataclass(frozen=True)
class Figures:
    """The rows that the pages show."""

    feed: dict[str, Row]
    purge: dict[str, Row]
    left: Row
    per_carbon: Row
    process: Row
    fuel: Row
    made: Row
    rate: Row
    year: Row
    filed: Row


def figures() -> Figures:
    """Carbon of two gases, CO2 of feed and fuel, and the rate by tonne of ammonia."""
    masses = properties("molar mass", "kg/kmol", (16.043, 30.070, 44.010, 28.013), SEEN)
    atoms = properties("carbon atoms", "kmol_C/kmol", (1.0, 2.0, 1.0, 0.0), SEEN)
    feed = gas_carbon(daily("feed gas", 900_000.0, "feed.xlsx", "B"), "feed gas", masses, atoms)
    purge = gas_carbon(with_gap(), "purge gas", masses, atoms)
    factor = constant(3.664, unit("t_CO2/t_C"), PER_CARBON, "CO2 per carbon", SEEN)
    key, words = "unit 1/feed/carbon/net", "feed carbon less purge"
    left = step(feed["carbon"] - purge["carbon"], key, words, "balance")
    process = step(left * factor, "unit 1/feed/CO2/tier 2", "process CO2", "a rule, equation 1")
    burnt = purge["carbon"] * factor
    fuel = step(burnt, "unit 1/fuel/CO2/tier 2", "fuel CO2", "a rule, equation 2")
    made = ammonia()
    key, words = "unit 1/ammonia/CO2 per tonne/tier 2", "CO2 per tonne of ammonia"
    rate = step(ratio(process, made), key, words, "definition")
    year, words = year_of(process), "process CO2, whole tonnes"
    filed = step(rounded(year, 0), "unit 1/feed/CO2/filed", words, "a rule, article 72")
    return Figures(feed, purge, left, factor, process, fuel, made, rate, year, filed)


def gone(process: Row) -> tuple[Row, Row]:
    """CO2 sold, of which nothing was written down, and CO2 vented, which needs it."""
    blank = leaf(
        np.full(12, np.nan),
        unit("t_CO2"),
        MONTHS,
        key="unit 1/CO2 sold/mass/as read",
        words="CO2 sold",
        origins=[None],
    )
    sold = step(blank, "unit 1/CO2 sold/mass/metered", "CO2 sold", "as read")
    key = "unit 1/CO2/vented/by difference"
    return sold, step(process - sold, key, "CO2 vented", "by difference")


def carbon_share(of: Figures) -> Row:
    """Share of feed carbon that is not purged."""
    feed, purge = of.feed["year"], of.purge["year"]
    key = "unit 1/feed/carbon share/year"
    return step(ratio(feed - purge, feed, "no carbon"), key, "share of carbon", "definition")


def process_page(of: Figures) -> Page:
    """Carbon and CO2 of the feed."""
    carbon = (Line(of.feed["carbon"]), Line(of.purge["carbon"]), Line(of.left))
    filed = (Line(of.process, of.year, is_total=True), Line(None, of.filed))
    sections = (
        Section("Carbon", carbon, "tonnes of carbon"),
        Section("CO2", (*filed, Line(of.rate), Line(of.per_carbon))),
    )
    return Page("Process CO2", "How much CO2 came from the feed?", sections)


def balance_page(of: Figures, share: Row) -> Page:
    """Trials of operations, and figures that cannot be given."""
    multiplier = factor_by_month(of.process)
    key = "unit 1/trial/scaled/iterated"
    scaled = step(of.process * multiplier, key, "scaled", "trial")
    trials = [Line(row) for row in (*ways_of(of.made), scaled, multiplier)]
    sections = (
        Section("Trial", (*trials, Line(None, share))),
        Section("Gone", (*(Line(row) for row in gone(of.process)), Line(None, enthalpy()))),
    )
    return Page("Carbon balance", "Where does carbon go?", sections)


def energy_rows(of: Figures) -> tuple[Row, Row]:
    """A least rate and the distance to it."""
    key = "unit 1/energy/minimum/theory"
    least = step(of.rate / 12, key, "theoretical minimum", "trial")
    key = "unit 1/energy/distance/theory"
    return least, step(of.rate - least, key, "distance to the minimum", "trial")


def flows_of(of: Figures) -> tuple[Flow, ...]:
    """Carbon from feed to urea and to the air."""
    feed, purge, left = of.feed["year"], of.purge["year"], year_of(of.left)
    bound = left.replaced(key="unit 1/urea/carbon/year")
    return (
        Flow("feed gas", "front end", "feed carbon", feed),
        Flow("front end", "CO2 removal", "raw gas", left, is_by_difference=True),
        Flow("front end", "furnace", "purge gas", purge),
        Flow("furnace", "air", "stack", purge, is_loss=True),
        Flow("CO2 removal", "urea", "to urea", bound),
    )


def findings() -> tuple[Finding, ...]:
    """A finding that stops a figure, with a text that looks like a formula, and a note."""
    where = Where("loop.xlsx", "Daily", "C42:C43")
    what, why = 'two days of "purge gas"', "the month is short"
    missing = Finding("days-missing", "stop", what, where, "=cmd", why, "enter both days")
    chosen = Finding("chosen", "note", "a choice", Where("site.toml"), "", "small", "nothing")
    return missing, chosen


def book() -> Book:
    """The whole invented works."""
    of = figures()
    share = carbon_share(of)
    least, distance = energy_rows(of)
    key = "benchmarks/best/CO2/published"
    best = constant(0.55, unit("t_CO2/t_NH3"), key, "best works", MEMORY)
    fuel = Section("CO2", (Line(of.fuel), Line(of.process)))
    rates = Section("Rates", (Line(least), Line(distance)))
    lines = Line(of.process), Line(of.fuel)
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
            Headline("Process CO2", of.filed, "Filed in whole tonnes."),
            Headline("Share", share, "Of feed carbon."),
        ),
        verdicts=(Verdict("LOOK", "One month stands out."), Verdict("PASS", "The balance closes.")),
        is_fit_to_file=False,
        pages=(
            process_page(of),
            Page("Fuel CO2", "How much CO2 came from fuel?", (fuel,)),
            balance_page(of, share),
            Page("Energy per tonne", "How far from the minimum?", (rates,)),
        ),
        checks=(check_of(of.rate),),
        findings=findings(),
        files=(
            InputFile("feed.xlsx", 1000, "ab" * 32, ("Daily",), 365, ""),
            InputFile("loop.xlsx", 1200, "cd" * 32, ("Daily",), 365, "sheet Notes: no table"),
        ),
        charts=ChartRows(*lines, least, distance, Line(of.rate), (("best works", best),)),
        flows=flows_of(of),
        how=(("Boundary", "The ammonia unit."),),
    )
