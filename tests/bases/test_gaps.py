"""Missing readings by the rules of a basis: conservative, visible, with their effect."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.account import Account
from footprint.bases import Basis
from footprint.bases.effects import gross_of
from footprint.bases.gap_rules import GapRule
from footprint.bases.gaps import with_own_gaps
from footprint.bases.ipcc_2006 import ipcc_2006
from footprint.bases.rules import Rules
from tests.sites.hand_made import HandMade, plain_works

CAREFUL = GapRule(is_conservative=True, rule="a rule", evidence="seen", words="carefully")
PLAINLY = GapRule(is_conservative=False, rule="a rule", evidence="seen", words="plainly")
WHO = {"author": "A. Nobody", "why": "transmitter failed", "when": date(2026, 1, 8)}
HOLE = (40, 41)


def works(daily: np.ndarray, *, is_filled: bool, role: str = "fuel") -> HandMade:
    """Return a works with one more gas, metered by the day, that lacks two days."""
    made = plain_works()
    readings = np.array(daily)
    readings[list(HOLE)] = np.nan
    made.meter("FT-9", "Nm3", readings, rows="daily")
    made.stream("heater gas", role, "FT-9", analysis="natural gas")
    if is_filled:
        days = {"first_day": date(2025, 2, 10), "last_day": date(2025, 2, 11)}
        made.gaps.append({"meter": "FT-9", "method": "neighbouring periods", **days, **WHO})
    return made


def filled(made: HandMade, rule: GapRule) -> tuple[Account, Basis, Basis]:
    """Return the accounts, a basis on them, and the same with its own gaps."""
    account = made.account()
    rules = Rules(account, 2025)
    plain, _ = ipcc_2006(rules)
    return account, plain, with_own_gaps(plain, rules, rule)


def value(basis: Basis) -> float:
    """Return the exact total of a basis."""
    line = next(one for one in basis.lines if one.filed is basis.total)
    return float(line.exact.values[0])


def test_conservative_values_are_mean_and_two_standard_deviations() -> None:
    """An input gets the mean of fifteen readings on each side and two standard deviations more.

    Source: Implementing Regulation (EU) 2018/2066, Article 45, for concentrations; numpy is the
    referee.
    """
    daily = 1000.0 + 50.0 * np.sin(np.arange(365.0))
    _, _, own = filled(works(daily, is_filled=True), CAREFUL)

    around = np.concatenate([daily[25:40], daily[42:57]])
    expected = around.mean() + 2 * around.std(ddof=1)
    (gap,) = own.gaps
    assert gap.direction == "high"
    assert gap.filled.values[0] == 2.0
    assert gap.put_in.values[0] == pytest.approx(2 * expected, rel=1e-12)
    assert gap.plainly.values[0] == pytest.approx(daily[[38, 39, 42, 43]].mean() * 2)


def test_the_total_moves_by_the_effect_and_the_bridge_still_closes() -> None:
    """The total is that of the accounts plus the effect of the gaps; steps add up exactly."""
    daily = 1000.0 + 50.0 * np.sin(np.arange(365.0))
    account, plain, own = filled(works(daily, is_filled=True), CAREFUL)

    effect = own.gaps[0].effect
    assert effect is not None
    assert effect.values[0] > 0
    assert value(own) - value(plain) == pytest.approx(effect.values[0], rel=1e-9)
    steps = sum(float(one.effect.values[0]) for one in own.effects)
    gross = float(gross_of(Rules(account, 2025)).values[0])
    assert gross + steps == pytest.approx(float(own.total.values[0]), rel=1e-12)
    assert any(one.topic == "data gaps" for one in own.effects)


def test_what_is_taken_off_gets_low_values() -> None:
    """Gas passed to third parties is taken off, so its surrogate lies below the mean."""
    daily = 1000.0 + 50.0 * np.sin(np.arange(365.0))
    made = works(daily, is_filled=True, role="gas to third parties")
    made.counted("fence", "purchased gas", "Nm3", 50e6, analysis="natural gas")

    _, _, own = filled(made, CAREFUL)

    (gap,) = own.gaps
    assert gap.direction == "low"
    assert gap.put_in.values[0] < gap.plainly.values[0]


def test_readings_that_do_not_vary_are_filled_alike() -> None:
    """Where all readings around a hole are equal, the margin is zero and nothing moves."""
    _, plain, own = filled(works(np.full(365, 1000.0), is_filled=True), CAREFUL)

    assert value(own) == pytest.approx(value(plain), rel=1e-12)


def test_a_basis_with_its_own_rule_gives_a_figure_where_nobody_filled_the_hole() -> None:
    """Without an entry in the site file only a conservative basis has a figure."""
    _, plain, own = filled(works(np.full(365, 1000.0), is_filled=False), CAREFUL)

    assert np.isnan(value(plain))
    assert np.isfinite(value(own))
    assert own.gaps[0].put_in.values[0] == pytest.approx(2000.0)


def test_a_plain_basis_changes_nothing_but_counts_the_gap() -> None:
    """A basis that takes the site file's method keeps its rows and lists the hole."""
    _, plain, own = filled(works(np.full(365, 1000.0), is_filled=True), PLAINLY)

    assert own.total is plain.total
    (gap,) = own.gaps
    assert gap.effect is None
    assert gap.filled.values[0] == 2.0
