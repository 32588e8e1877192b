"""All figures in trade words, one part after the other."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.ammonia import Ammonia, ammonia_of
from footprint.account.captured import Captured, captured_of
from footprint.account.energy import Energy, energy_of
from footprint.account.minimum import Minimum, minimum_of
from footprint.account.process import Split, split_of
from footprint.account.record import Record, gas_of_record
from footprint.balance import Balance
from footprint.base.finding import Finding
from footprint.measure import Measured


@dataclass(frozen=True, eq=False, slots=True)
class Account:
    """What the works made, emitted, captured and used."""

    measured: Measured
    balance: Balance
    record: Record
    ammonia: Ammonia
    split: Split
    captured: Captured
    minimum: Minimum | None
    energy: Energy


def account(measured: Measured, balance: Balance) -> tuple[Account, list[Finding]]:
    """Return the figures of the works, and what was found on the way.

    Args:
        measured: every stream by month. [measured]
        balance: the solved carbon network. [balance]

    Source: definition
    """
    record = gas_of_record(measured)
    ammonia = ammonia_of(measured)
    minimum = minimum_of(measured, record)
    figures = Account(
        measured,
        balance,
        record,
        ammonia,
        split_of(measured, record, ammonia.produced),
        captured_of(measured, balance),
        minimum,
        energy_of(measured, record, ammonia, minimum),
    )
    return figures, []
