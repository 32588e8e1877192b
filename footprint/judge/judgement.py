"""All checks of a year, what they found, and the verdicts in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from footprint.account import Account
from footprint.base.finding import Finding, Where, declare
from footprint.base.formulas import choose, given, in_words, is_read
from footprint.base.row import Row, apply, constant, leaf, step
from footprint.base.source import DEFINITION, Factor
from footprint.base.units import NONE, label, unit
from footprint.judge.check import OUTCOMES, Check, Limits
from footprint.judge.figures import Figure, figures_of
from footprint.judge.mixup import likely_confusion
from footprint.judge.plausible import readings_judged

LOOK, OPEN = 2, 3
MEANING = {
    "stop": "outside the stop limits",
    "warn": "outside the warn limits",
    "judged": "a figure that is judged",
}
RUNNING = Factor(
    "common practice, no source",
    "",
    is_seen=False,
    note="share of the month below which figures by tonne mislead",
)
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

IMPOSSIBLE = declare(
    "figure-against-physics",
    "stop",
    means="A monthly figure lies beyond what chemistry or conservation of mass allows, meter "
    "errors counted in.",
    effect="a meter, a unit or a period is wrong, and with it whatever is computed from it",
    mend="look at the meters behind the figure, their units and reference conditions, and at the "
    "days they cover",
    example="feed energy of 18 GJ for each tonne of ammonia, where the feed's own minimum is 20.8",
)
UNUSUAL = declare(
    "figure-out-of-band",
    "warn",
    means="A monthly figure lies outside the range that such works show.",
    effect="the figure is given; it may be right, but an auditor will ask",
    mend="explain the month, or look at the meters behind the figure",
    example="process CO2 of 1.45 t by tonne of ammonia, where 1.17 to 1.40 is usual",
)


@dataclass(frozen=True, eq=False, slots=True)
class Judgement:
    """Checks of the year and the row that says which months are judged by tonne."""

    checks: tuple[Check, ...]
    running: tuple[Row, ...]


def judge(account: Account) -> tuple[Judgement, list[Finding]]:
    """Return all figures held against their limits, what lies outside, and doubtful readings.

    Args:
        account: the figures of the works. [account]

    Source: limits with their sources in factors/limits.csv
    """
    share, runs = _running(account)
    figures = figures_of(account)
    checks = tuple(_check(account, figure, runs) for figure in figures)
    findings = [
        found
        for figure, check in zip(figures, checks, strict=True)
        for found in _findings(figure, check)
    ]
    return Judgement(checks, (share, runs)), [*findings, *readings_judged(account)]


def _running(account: Account) -> tuple[Row, Row]:
    """Return the share of each month on line, and 1 where it is enough to judge by tonne."""
    key, share = account.measured.context.key, _share_on_line(account)
    least = constant(
        0.6,
        NONE,
        "judge/running/least share/practice",
        "least share on line to judge by tonne",
        RUNNING,
    )
    runs = step(
        (share >= least) * (account.ammonia.produced > 0),
        key("hours on line", "is judged", "judged"),
        "figures by tonne are judged",
        "1 where the month runs at least 60 % of the time",
    )
    return share, runs


def _share_on_line(account: Account) -> Row:
    context, words = account.measured.context, "share of the month on line"
    key = context.key("hours on line", "share of the month", "judged")
    names = [one.name for one in context.site.with_role("hours on line")]
    if not names:
        because = "no hours given: 1 where ammonia was made"
        return step(account.ammonia.runs, key, words, because)
    spans = context.calendar.days_of_months
    in_month = leaf(
        [24.0 * (last - first) for first, last in spans],
        unit("hour"),
        context.calendar.months,
        key=context.key("hours", "in the month", "calendar"),
        words="hours in the month",
        origins=[DEFINITION],
    )
    share = account.measured.count[names[0]] / in_month
    return step(share, key, words, "hours on line over hours in the month")


def _check(account: Account, figure: Figure, runs: Row) -> Check:
    limits, basis = _limits(account, figure, runs)
    value = figure.months

    def flag(row: Row, what: str) -> Row:
        key = f"{value.key}/{figure.name}/{what}"
        return step(row, key, f"{value.words}: {MEANING[what]}", f"1 where it is {MEANING[what]}")

    is_figure = is_read(value) * runs if figure.by_tonne else is_read(value) * 1
    judged = flag(is_figure, "judged")
    beyond = apply("OR", value < limits.stop_low, value > limits.stop_high)
    unusual = apply("OR", value < limits.warn_low, value > limits.warn_high)
    stop, warn = (
        flag(choose(judged, row, 0), what) for row, what in ((beyond, "stop"), (unusual, "warn"))
    )
    outcome = step(
        in_words(choose(judged, stop + warn + 1, 0), *OUTCOMES),
        f"{value.key}/{figure.name}/outcome",
        f"{value.words}: outcome",
        "outside the stop limits OPEN, outside the warn limits LOOK",
    )
    return Check(value.words, value, limits, outcome, basis, bool(figure.physics))


def _limits(account: Account, figure: Figure, runs: Row) -> tuple[Limits, str]:
    context = account.measured.context
    names = {
        end: f"{figure.name}: {end.replace('_', ' ')}"
        for end in ("stop_low", "warn_low", "warn_high", "stop_high")
    }
    rows = {
        end: context.factor(name)
        for end, name in names.items()
        if not (end == "stop_low" and figure.least is not None)
    }
    if figure.least is not None:
        share = context.factor(f"{figure.name}: stop low, share of the minimum")
        rows["stop_low"] = step(
            given(runs, figure.least * share, "not judged"),
            f"{figure.months.key}/stop low",
            f"{figure.months.words}: stop low",
            "the least that chemistry allows, less 1 % for meters",
        )
    source = rows["stop_high"].origins[0]
    basis = source.words if source is not None else ""
    return Limits(**rows), basis


def _findings(figure: Figure, check: Check) -> list[Finding]:
    """Return one finding for the months that are impossible and one for those that are unusual."""
    outcome, value = check.outcome.values, check.value.values
    high, low = (
        np.broadcast_to(row.values, value.shape)
        for row in (check.limits.stop_high, check.limits.stop_low)
    )
    beyond = (value > high) if figure.physics == "high" else (value < low)
    impossible = [
        month for month in range(12) if outcome[month] == OPEN and figure.physics and beyond[month]
    ]
    unusual = [
        month for month in range(12) if outcome[month] in {LOOK, OPEN} and month not in impossible
    ]
    return [
        kind.at(
            Where("figures", check.words),
            _what(check, months),
            why=_why(check, months, kind.effect),
        )
        for kind, months in ((IMPOSSIBLE, impossible), (UNUSUAL, unusual))
        if months
    ]


def _what(check: Check, months: Sequence[int]) -> str:
    value, unit_shown = check.value.values, label(check.value.unit)
    listed = ", ".join(f"{MONTHS[month]} {value[month]:.4g}" for month in months)
    return f"{check.words}: {listed} {unit_shown}".removesuffix(" 1")


def _why(check: Check, months: Sequence[int], effect: str) -> str:
    """Say the limits, and the confusion that the figure's ratio to the other months looks like."""
    value = check.value.values
    warn_low, warn_high = (row.values[0] for row in (check.limits.warn_low, check.limits.warn_high))
    others = [
        value[month] for month in range(12) if month not in months and np.isfinite(value[month])
    ]
    hints = []
    if others and abs(np.median(others)) > 0.1 * abs(warn_high - warn_low):
        hints = [
            likely_confusion(float(value[month]), float(np.median(others))) for month in months
        ]
    if check.value.unit == NONE and abs(warn_low + warn_high) < abs(warn_high):
        hints = [likely_confusion(1 - float(value[month]), 1.0) for month in months]
    named = sorted({hint for hint in hints if hint})
    return "; ".join([f"usual range {warn_low:g} to {warn_high:g}", effect, *named])
