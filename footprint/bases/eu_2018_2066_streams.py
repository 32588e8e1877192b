"""Implementing Regulation (EU) 2018/2066: one source stream by the standard method."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.rate import Rate, rate_of
from footprint.account.record import Recorded
from footprint.base import units
from footprint.base.formulas import convert
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.bases.basis import Filed
from footprint.bases.rules import Rules
from footprint.measure.fuel import OtherFuel

EU = "EU"
STANDARD = "Article 24(1): activity data x emission factor x oxidation factor"
CONVERSION = "Annex II, section 3.1: carbon content x 3.664 over net calorific value"
DEFAULTS = "Annex VI, table 1"
TERAJOULE = "1 TJ is 1000 GJ"


@dataclass(frozen=True, eq=False, slots=True)
class Source:
    """One source stream over the months.

    Attributes:
        name: of the stream. [text]
        carbon: as the accounts have it. [t C]
        energy: activity data. [TJ net]
        factor: emission factor, months and year. [t CO2/TJ net]
        co2: emitted. [t CO2]
        is_analysed: its factor comes from the works' own analyses. [flag]
        section: how it was found. [section]
    """

    name: str
    carbon: Row
    energy: Row
    factor: Line
    co2: Row
    is_analysed: bool
    section: Section

    def lines(self, rules: Rules, cited: tuple[str, str]) -> list[Filed]:
        """Return the lines of the report for this stream.

        Args:
            rules: the figures of the works. [rules]
            cited: the place in the document, and its evidence. [text]

        Source: Implementing Regulation (EU) 2018/2066, Annex X, section 1 (6) (seen)
        """
        made = [
            rules.filed("(6)(a)", f"{self.name}: emissions", self.co2, cited),
            rules.filed("(6)(e)", f"{self.name}: activity data", self.energy, cited, None),
        ]
        if self.factor.year is not None:
            words = f"{self.name}: emission factor"
            made.append(rules.filed("(6)(f)", words, self.factor.year, cited, None))
        return made


def sources_of(rules: Rules, basis: str) -> tuple[Source, ...]:
    """Return all source streams: feed as process input, fuel gas, other fuels.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]
        basis: its name. [text]

    Source: Implementing Regulation (EU) 2018/2066, Annex IV, section 17 (seen)
    """
    record = rules.account.record
    gases = [(one, "fuel used as process input") for one in record.feeds]
    gases += [(one, "fuel") for one in record.fuels]
    analysed = [_analysed(rules, basis, one, kind) for one, kind in gases]
    return (*analysed, *(_by_default(rules, basis, one) for one in rules.measured.fuel.values()))


def _analysed(rules: Rules, basis: str, one: Recorded, kind: str) -> Source:
    name, oxidised = one.stream.name, rules.factor("oxidation factor of fuels, tier 1", EU)
    energy = _terajoule(rules, basis, name, one.net)
    co2 = step(
        one.carbon * rules.factor("ratio of CO2 to carbon", EU) * oxidised,
        rules.key(name, "CO2", basis),
        f"{name}: CO2",
        f"{STANDARD}; {CONVERSION}",
    )
    return _source(rules, basis, (name, kind), (one.carbon, energy, co2), is_analysed=True)


def _by_default(rules: Rules, basis: str, one: OtherFuel) -> Source:
    name, fuel = one.stream.name, one.stream.fuel
    oxidised = rules.factor("oxidation factor of fuels, tier 1", EU)
    net = step(
        one.mass * rules.factor(f"net calorific value of {fuel}", EU),
        rules.key(name, "net energy", f"{basis}, as tabled"),
        f"{name}: net energy by default",
        DEFAULTS,
    )
    energy = _terajoule(rules, basis, name, net)
    co2 = step(
        energy * rules.factor(f"CO2 emission factor of {fuel}", EU) * oxidised,
        rules.key(name, "CO2", basis),
        f"{name}: CO2",
        f"{STANDARD}; {DEFAULTS}",
    )
    return _source(rules, basis, (name, "fuel"), (one.carbon, energy, co2), is_analysed=False)


def _terajoule(rules: Rules, basis: str, name: str, net: Row) -> Row:
    key = rules.key(name, "activity data", basis)
    return convert(net, units.unit("TJ_net"), key, f"{name}: activity data", TERAJOULE)


def _source(
    rules: Rules,
    basis: str,
    named: tuple[str, str],
    rows: tuple[Row, Row, Row],
    *,
    is_analysed: bool,
) -> Source:
    (name, kind), (carbon, energy, co2) = named, rows
    key, words = rules.key(name, "emission factor", basis), f"{name}: emission factor"
    factor = rate_of(rules.measured, co2, energy, Rate(key, words, CONVERSION, otherwise="no fuel"))
    lines = (rules.line(energy), factor, rules.line(co2, is_total=True))
    how = "emission factor by own analyses" if is_analysed else f"default values, {DEFAULTS}"
    return Source(
        name, carbon, energy, factor, co2, is_analysed, Section(f"{name}: {kind}", lines, how)
    )
