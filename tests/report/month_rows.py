"""Monthly rows of a small invented works: ammonia, trials, iterated values, a check."""

from __future__ import annotations

import numpy as np

from footprint.base.axis import Axis
from footprint.base.formulas import (
    absolute,
    choose,
    convert,
    frozen,
    in_words,
    is_read,
    largest,
    pick,
    rounded,
    smallest,
    span,
    square_root,
)
from footprint.base.row import Row, apply, constant, leaf, step
from footprint.base.units import NONE, unit
from footprint.judge.check import OUTCOMES, Check, Limits
from tests.report.gas_rows import DATES, MEMORY, MONTHS, OPINION, YEAR, cells


def ammonia() -> Row:
    """Monthly tonnes of ammonia, none in July, with the change of stock."""
    made = np.array([30e3] * 12)
    made[6] = 0.0
    key = "unit 1/ammonia/mass/as read"
    origins = cells("production.xlsx", "Year", "B", 12)
    words = "ammonia produced, as read"
    read = leaf(made, unit("t_NH3"), MONTHS, key=key, words=words, origins=origins)
    return step(
        choose(read > 0, read + stock_change() - 0 * ammonia_sold(), read),
        "unit 1/ammonia/mass/metered",
        "ammonia produced",
        "as read, with the change of stock",
    )


def stock_change() -> Row:
    """Closing less opening stock of a tank, from thirteen readings."""
    firsts = tuple(f"{YEAR + month // 12}-{month % 12 + 1:02d}-01" for month in range(13))
    stock = leaf(
        1000 + 100 * np.cos(np.arange(13)),
        unit("t_NH3"),
        Axis("dates", firsts, "tank"),
        key="unit 1/ammonia/stock/as read",
        words="ammonia stock, as read",
        origins=cells("production.xlsx", "Tank", "B", 13),
    )
    closing, opening = (
        step(
            pick(stock, places, MONTHS), f"unit 1/ammonia/stock/{words}", f"{words} stock", "dates"
        )
        for places, words in ((range(1, 13), "closing"), (range(12), "opening"))
    )
    key = "unit 1/ammonia/stock/change"
    return step(closing - opening, key, "stock change", "closing less opening")


def ammonia_sold() -> Row:
    """Monthly sum of thirty weighbridge tickets."""
    labels = tuple(f"{DATES[12 * place]} no. {place}" for place in range(30))
    sold = leaf(
        np.full(30, 25.5),
        unit("t_NH3"),
        Axis("tickets", labels, "W1"),
        key="unit 1/ammonia sold/mass/as read",
        words="ammonia sold, as read",
        origins=cells("sales.csv", "", "C", 30),
    )
    monthly = [[i for i in range(30) if DATES[12 * i].month == month] for month in range(1, 13)]
    spans = [(found[0], found[-1] + 1) for found in monthly]
    key = "unit 1/ammonia sold/mass/metered"
    return step(span(sold, spans, MONTHS), key, "ammonia sold", "sum of the tickets of the month")


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
    """A check of a monthly figure against four limits."""
    numbers = (("a", 0.4), ("b", 0.5), ("c", 1.7), ("d", 2.0))
    limits = Limits(
        *(
            constant(number, value.unit, f"limits/rate/{name}/judged", f"limit {name}", MEMORY)
            for name, number in numbers
        )
    )
    low, high = value < limits.stop_low, value > limits.stop_high
    unusual = apply("OR", value < limits.warn_low, value > limits.warn_high)
    judged = apply("OR", low, high) + unusual + 1
    outcome = step(
        in_words(choose(is_read(value), judged, 0 * is_read(value)), *OUTCOMES),
        f"{value.key}/outcome",
        "outcome",
        "value against limits",
    )
    return Check("CO2 per tonne", value, limits, outcome, "a handbook (memory)", is_physics=False)
