"""The sample year, computed once, and the truth that its model knows."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from footprint.account import Account, account
from footprint.balance import Balance, balance
from footprint.measure import Measured, measure
from footprint.read import read
from footprint.register import load
from tests.sites.sample_modules import SAMPLE, TRUTH


def accounts_of(folder: Path) -> tuple[Measured, Balance, Account]:
    """Return the figures of a folder, stage by stage.

    Args:
        folder: holds site.toml and the spreadsheets it names. [path]

    Source: definition
    """
    register, _ = load()
    readings, _ = read(folder)
    if readings is None:
        raise ValueError(f"{folder} cannot be read")
    measured, _ = measure(readings, register)
    balanced, _ = balance(measured)
    accounted, _ = account(measured, balanced)
    return measured, balanced, accounted


@cache
def sample() -> tuple[Measured, Balance, Account]:
    """Return the figures of the sample, stage by stage, computed once.

    Source: definition
    """
    return accounts_of(SAMPLE)


@cache
def truth() -> dict[str, Any]:
    """Return what truly flowed at the sample works, by name of the quantity.

    Source: definition
    """
    quantities: dict[str, Any] = json.loads(TRUTH.read_text(encoding="utf-8"))["quantities"]
    return quantities
