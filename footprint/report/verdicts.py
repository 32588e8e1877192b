"""The year judged in plain words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from footprint.account import Account
from footprint.base.finding import Finding
from footprint.base.row import Row
from footprint.judge import OUTCOMES, Check, Judgement, limits_of_closure
from footprint.judge.judgement import MONTHS
from footprint.report.book import State, Verdict


def verdicts_of(
    account: Account, judgement: Judgement, findings: Sequence[Finding]
) -> tuple[Verdict, ...]:
    """Return what an officer, a manager and an auditor should know first.

    Args:
        account: the figures of the works. [account]
        judgement: checks of the figures. [judgement]
        findings: of all stages. [findings]

    Source: definition
    """
    return (
        _on_findings(findings),
        *_on_closures(account),
        *_on_energy(account),
        *_on_checks(judgement.checks),
    )


def _on_findings(findings: Sequence[Finding]) -> Verdict:
    levels = Counter(finding.level for finding in findings if finding.acceptance is None)
    if levels["stop"]:
        return Verdict(
            "OPEN",
            f"{levels['stop']} findings stop figures: the workbook is not fit to file until they "
            "are mended",
        )
    if levels["warn"]:
        return Verdict(
            "LOOK", f"no finding stops a figure; {levels['warn']} ask for a look before filing"
        )
    return Verdict("PASS", "no finding stops a figure or asks for a look")


def _on_closures(account: Account) -> list[Verdict]:
    verdicts = [
        _on_closure(account, closure.node, closure.year[2:])
        for closure in account.balance.closures
        if closure.year is not None and not np.isnan(closure.year[3].values[0])
    ]
    names = [node for node, how in account.balance.standing.items() if how == "follows"]
    if names:
        verdicts.append(
            Verdict("LOOK", f"closed by difference, so nothing is proved there: {', '.join(names)}")
        )
    return verdicts


def _on_closure(account: Account, node: str, year: tuple[Row, ...]) -> Verdict:
    """Hold the closure of a node over the year against the limits of its months."""
    left, share = (float(row.values[0]) for row in year)
    name, factor = limits_of_closure(node), account.measured.context.factor
    warn, stop = (float(factor(f"{name}: {end} high").values[0]) for end in ("warn", "stop"))
    state: State = "PASS" if abs(share) <= warn else "LOOK" if abs(share) <= stop else "OPEN"
    return Verdict(
        state,
        f"carbon at the {node}: in less out {left:+,.0f} t C over the year, "
        f"{share:+.2%} of carbon in",
    )


def _on_energy(account: Account) -> list[Verdict]:
    over, distance = account.energy.over_minimum, account.energy.distance
    if over is None or distance is None or over.year is None or distance.year is None:
        return []
    times, above = float(over.year.values[0]), float(distance.year.values[0])
    if np.isnan(times):
        return []
    return [
        Verdict(
            "PASS",
            f"net energy was {times:.2f} times the least that chemistry allows for this year's "
            f"feeds: {above:.1f} GJ (net) by tonne of ammonia above it",
        )
    ]


def _on_checks(checks: Sequence[Check]) -> list[Verdict]:
    """Name each check that asks for a look, and count those that pass and those never judged."""
    asking = [verdict for check in checks if (verdict := _on_check(check)) is not None]
    idle = sum(not np.any(check.outcome.values >= 1) for check in checks)
    passed = len(checks) - len(asking) - idle
    words = f"{passed} of {len(checks)} figures on Checks hold their limits in every month judged"
    none = f"{idle} of {len(checks)} figures on Checks could be judged in no month"
    return [
        *asking,
        *([Verdict("PASS", words)] if passed else []),
        *([Verdict("LOOK", none)] if idle else []),
    ]


def _on_check(check: Check) -> Verdict | None:
    """Return the months of a check that lie outside its limits; None when there are none."""
    months = {
        state: [MONTHS[place] for place in np.flatnonzero(check.outcome.values == code)]
        for code, state in enumerate(OUTCOMES)
        if state in {"LOOK", "OPEN"}
    }
    if not any(months.values()):
        return None
    parts = "; ".join(f"{state} in {', '.join(names)}" for state, names in months.items() if names)
    return Verdict("OPEN" if months["OPEN"] else "LOOK", f"{check.words}: {parts}")
