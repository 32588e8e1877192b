"""Ammonia as 100 % NH3: made, bought, sold, used, lost, in stock; and the months that made any."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.carbon_dioxide import added
from footprint.account.rate import Rate, rate_of
from footprint.base.formulas import sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.measure.mass import Stock
from footprint.read.site import Role

INTO: tuple[Role, ...] = ("ammonia produced", "ammonia bought", "ammonia reclaimed")
OUT: tuple[Role, ...] = ("ammonia to urea", "ammonia sold", "ammonia losses")


@dataclass(frozen=True, eq=False, slots=True)
class Ammonia:
    """Ammonia over the months.

    Attributes:
        produced: 100 % NH3. [t NH3]
        runs: 1 in months with production. [1]
        runs_year: 1 when the year has production. [1]
        imbalance: made and bought less used, sold, lost and put into stock; None without a
            stock. [line]
        sections: as shown. [sections]
    """

    produced: Row
    runs: Row
    runs_year: Row
    imbalance: Line | None
    sections: tuple[Section, ...]


def ammonia_of(measured: Measured) -> Ammonia:
    """Return ammonia made and what became of it.

    Args:
        measured: every stream by month. [measured]

    Source: definition
    """
    context = measured.context
    produced = added(
        measured,
        [row for _, row in measured.masses("ammonia produced")],
        context.key("ammonia", "mass", "100 %, produced"),
        "ammonia produced, 100 % NH3",
        "t_NH3",
    )
    runs, runs_year = _running(measured, produced)
    lines = [context.line(row) for role in (*INTO, *OUT) for _, row in measured.masses(role)]
    sections = [
        Section(
            "Ammonia, 100 % NH3",
            (*lines, context.line(produced, is_total=True), Line(runs, runs_year)),
        )
    ]
    imbalance = _imbalance(measured, produced)
    if imbalance is not None:
        sections.append(Section("Ammonia stock balance", tuple(imbalance)))
    return Ammonia(produced, runs, runs_year, imbalance[-1] if imbalance else None, tuple(sections))


def _running(measured: Measured, produced: Row) -> tuple[Row, Row]:
    """Return 1 in months with production, and for the year."""
    context, because = measured.context, "1 where ammonia was made"
    key = context.key("ammonia", "in production", "flag")
    return (
        step((produced > 0) * 1.0, key, "months with production", because),
        step((context.year(produced) > 0) * 1.0, f"{key}/year", "year with production", because),
    )


def _imbalance(measured: Measured, produced: Row) -> list[Line] | None:
    """Return stock lines, the imbalance, and its share of production."""
    context = measured.context
    stocks = [measured.stock[one.name] for one in context.site.with_role("ammonia stock")]
    if not stocks:
        return None
    left = _left_over(measured, produced, stocks)
    named = Rate(
        context.key("ammonia", "imbalance, share of production", "stock balance"),
        "stock imbalance, share of production",
        "over ammonia produced",
    )
    shown = [
        line
        for stock in stocks
        for line in (Line(stock.opening), Line(stock.closing), context.line(stock.growth))
    ]
    return [*shown, context.line(left), rate_of(measured, left, produced, named)]


def _left_over(measured: Measured, produced: Row, stocks: list[Stock]) -> Row:
    bought = [row for role in INTO[1:] for _, row in measured.masses(role)]
    leaving = [row for role in OUT for _, row in measured.masses(role)]
    leaving += [stock.growth for stock in stocks]
    return step(
        sum_of([produced, *bought]) - sum_of(leaving),
        measured.context.key("ammonia", "imbalance", "stock balance"),
        "ammonia made and bought less used, sold, lost and put into stock",
        "stock balance",
    )
