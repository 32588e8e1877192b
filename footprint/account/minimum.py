"""The least energy that chemistry allows for a month's own feeds."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.rate import Rate, rate_of
from footprint.account.record import Record
from footprint.base.formulas import sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.gas.theory import ammonia_from
from footprint.measure import Measured

WHY = (
    "oxygen, hydrogen and nitrogen balances of steam reforming with air: every carbon atom leaves "
    "as CO2, no loss"
)
NOTE = (
    "All feeds together, bought hydrogen included. Assumed: every carbon atom leaves as CO2, no "
    "hydrogen or methane is lost, nitrogen comes from air and feed, the oxygen that comes with it "
    "is used up, hydrogen to nitrogen is 3 to 1. Heat is not balanced: surplus heat of reaction is "
    "not credited. The second line is the heating value of ammonia itself, which is the least for "
    "any feed when heat is balanced and water enters as vapour."
)
QUANTITIES = {
    "reducing": "reducing equivalents",
    "nitrogen": "nitrogen atoms",
    "net": "net energy",
    "carbon": "carbon",
}


@dataclass(frozen=True, eq=False, slots=True)
class Minimum:
    """Least feed energy and least CO2, for ammonia made by month."""

    by_tonne: Line
    co2_by_tonne: Line
    heating_value: Row
    section: Section


def minimum_of(measured: Measured, record: Record) -> Minimum | None:
    """Return the least feed energy by tonne for each month's own feeds; None without feeds.

    Args:
        measured: every stream by month. [measured]
        record: feed gas as it counts. [record]

    Source: stoichiometry; air of 0.78084 N2 to 0.20946 O2: common practice, no source
    """
    if not record.feeds:
        return None
    line = measured.context.line
    sums = {quantity: _feeds(measured, record, quantity) for quantity in QUANTITIES}
    most = _most_ammonia(measured, sums["reducing"], sums["nitrogen"])
    by_tonne = _by_tonne(measured, sums["net"], most, "least feed energy")
    co2 = _as_co2(measured, sums["carbon"])
    least_co2 = _by_tonne(measured, co2, most, "least process CO2")
    heating = _heating_value(measured)
    lines = (*map(line, (*sums.values(), most)), by_tonne, least_co2, Line(None, heating))
    section = Section("The least that chemistry allows, for these feeds", lines, NOTE)
    return Minimum(by_tonne, least_co2, heating, section)


def _feeds(measured: Measured, record: Record, quantity: str) -> Row:
    words = QUANTITIES[quantity]
    return step(
        sum_of([getattr(one, quantity) for one in record.feeds]),
        measured.context.key("all feeds", words, "of record"),
        f"all feeds: {words}",
        "sum of the feeds",
    )


def _as_co2(measured: Measured, carbon: Row) -> Row:
    return step(
        carbon * measured.context.co2_per_carbon,
        measured.context.key("all feeds", "CO2", "of record"),
        "all feeds: carbon as CO2",
        "carbon times CO2 per carbon",
    )


def _heating_value(measured: Measured) -> Row:
    return step(
        measured.context.factor("net calorific value of ammonia made"),
        measured.context.key("ammonia", "net calorific value", "theory"),
        "heating value of ammonia: least with heat balanced",
        "thermoneutral, water entering as vapour",
    )


def _most_ammonia(measured: Measured, reducing: Row, nitrogen: Row) -> Row:
    context = measured.context
    front = f"{context.unit_name}/all feeds"
    most = ammonia_from(reducing, nitrogen, context.physics.synthesis, front, "all feeds")
    return step(
        most.ammonia * context.factor("molar mass of ammonia made, by kmol"),
        context.key("all feeds", "most ammonia", "theory"),
        "most ammonia from the feeds",
        "amount times molar mass",
    )


def _by_tonne(measured: Measured, row: Row, most: Row, words: str) -> Line:
    key = measured.context.key("all feeds", words, "by tonne, theory")
    named = Rate(key, f"{words} by tonne of ammonia", WHY, otherwise="no feed")
    return rate_of(measured, row, most, named)
