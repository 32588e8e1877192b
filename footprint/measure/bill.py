"""The supplier's bill beside the works' own meter: energy first, then amount of gas."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.formulas import choose, convert, given, ratio
from footprint.base.line import Line
from footprint.base.row import Row, step
from footprint.base.units import unit
from footprint.measure.context import Context
from footprint.measure.gas_flow import GasFlow

NOTHING_BILLED, NO_GAS = "nothing billed", "no gas"
COMBUSTION = (
    "Both in gross energy, the bill's own basis; the meter's is at a combustion temperature of "
    "25 °C. Where the bill's is 15 °C, it is 0.10 % higher by that alone, at 0 °C 0.26 %."
)


@dataclass(frozen=True, eq=False, slots=True)
class Bill:
    """A supplier's bill by month, beside what the works' own meter found.

    Attributes:
        flow: the gas billed, by the own meter. [gas flow]
        billed: gross energy of the bill. [GJ gross]
        difference: bill less meter. [GJ gross]
        share: the difference over the bill. [1]
        amount: gas that the billed energy is, by the composition of the month. [kmol]
        lines: what the workbook shows. [lines]
    """

    flow: GasFlow
    billed: Row
    difference: Row
    share: Row
    amount: Row
    lines: tuple[Line, ...]


def bill_of(context: Context, flow: GasFlow, tag: str) -> Bill:
    """Return the bill of a gas by month.

    Args:
        context: site, year, factors. [context]
        flow: the same gas by the works' own meter. [gas flow]
        tag: of the bill's readings, in gross energy. [text]

    Source: definition
    """
    name = flow.stream.name
    billed = _billed(context, name, tag)
    difference = step(
        billed - flow.gross,
        context.key(name, "gross energy", "bill less meter"),
        f"{name}: bill less meter",
        "bill less meter",
    )
    share = step(
        ratio(difference, billed, NOTHING_BILLED),
        context.key(name, "bill less meter", "share of the bill"),
        f"{name}: bill less meter, share of the bill",
        "difference over the bill",
    )
    content = step(
        ratio(flow.gross, flow.amount, NO_GAS),
        context.key(name, "gross energy per kmol", "of the month"),
        f"{name}: gross energy per kmol",
        "gross energy over amount, by the meter",
    )
    amount = step(
        choose(
            flow.gross > 0,
            billed * flow.amount / flow.gross,
            given(billed <= 0, flow.amount, NO_GAS),
        ),
        context.key(name, "amount", "billed"),
        f"{name}: amount of gas, billed",
        "billed energy over the gross energy per kmol of the month",
    )
    lines = (
        *(context.line(row) for row in (billed, flow.gross, difference)),
        Line(share, _share_of_year(context, share, difference, billed)),
        Line(content),
        *(context.line(row) for row in (amount, flow.amount)),
    )
    return Bill(flow, billed, difference, share, amount, lines)


def _billed(context: Context, name: str, tag: str) -> Row:
    """Return the gross energy of the bill by month."""
    words = f"{name}: gross energy, billed"
    read = context.by_month(
        context.reading(tag, f"{name}: bill"),
        context.key(name, "gross energy", "billed, as read"),
        f"{words}, as read",
    )
    return convert(read, unit("GJ_gross"), context.key(name, "gross energy", "billed"), words)


def _share_of_year(context: Context, share: Row, difference: Row, billed: Row) -> Row:
    """Return the share of the whole year, which is no sum of the months' shares."""
    return step(
        ratio(context.year(difference), context.year(billed), NOTHING_BILLED),
        f"{share.key}/year",
        f"{share.words}, year",
        "difference of the year over the bills of the year",
    )
