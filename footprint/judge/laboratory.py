"""Gas samples that look repeated, that hold air, that miss what is usual, or that are too few."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from footprint.account import Account
from footprint.base.finding import Finding, Where, declare
from footprint.judge.places import where_of_origins
from footprint.measure.context import Context
from footprint.read.readings import AnalysisSeries

OXYGEN_IN_AIR = 0.2095  # mole fraction in dry air; from memory
NITROGEN_TO_OXYGEN = 3.73  # mole ratio in dry air, 0.7808/0.2095; from memory
NEAR = 0.1  # relative: common practice, no source
TRACE = 0.02  # mole per cent of oxygen that a chromatograph tells from none: practice, no source
LEAST_METHANE = 60.0  # mole per cent: leaner gases are not taken for natural gas
USUAL = ("nitrogen", "carbon dioxide")
LEAST_FLOW = 0.02  # of the largest month, under which a month counts as idle: own choice
WEEKLY = 4  # samples a month: common practice, no source
FEWEST = 2  # components of an analysis, less than which a gas is declared pure

REPEATED_SAMPLE = declare(
    "sample-repeats-the-one-before",
    "warn",
    means="A gas sample has the same value in every component as the sample before.",
    effect="two samples never agree to the last digit: the certificate may have been copied",
    mend="look at the certificate; write its own values, or remove the row",
    example="the values of 1 May again on 1 June",
)
AIR_IN_SAMPLE = declare(
    "air-in-sample",
    "warn",
    means="A sample holds oxygen and nitrogen in the ratio of air: cylinder or line leaked.",
    effect="air dilutes the gas; the sample is used as it is written",
    mend="take another sample, or have the laboratory give the composition without air",
    example="0.42 O2 and 1.57 N2 in a natural gas",
)
USUAL_COMPONENT_MISSING = declare(
    "usual-component-missing",
    "note",
    means="The analyses of a natural gas have no column for a component that such gases hold.",
    effect="what is not written is taken as none, and the others are scaled up to 100",
    mend="ask the laboratory; add the column, with 0 where it was looked for and not found",
    example="an analysis with CH4, C2H6 and N2 but no CO2",
)
MONTH_WITHOUT_SAMPLE = declare(
    "month-without-sample",
    "warn",
    means="A gas was not sampled in some months of the year.",
    effect="the samples before or after speak for these months",
    mend="add the samples, or have the frequency agreed in the monitoring plan",
    example="no sample of natural gas between 4 June and 2 August",
)
SAMPLES_BY_MONTH = declare(
    "sampling-frequency-not-prescribed",
    "note",
    means="A gas was sampled less than weekly, and the basis of the return asks for no number.",
    effect="what the monitoring plan says counts; the number of samples a month is shown for it",
    mend="nothing, if the monitoring plan asks for no more",
    example="1 sample of natural gas in each month under the IPCC guidelines",
)


def laboratory_judged(account: Account) -> list[Finding]:
    """Return what is doubtful about the samples of all gases.

    Args:
        account: the figures of the works. [account]

    Findings:
        sample-repeats-the-one-before, air-in-sample, usual-component-missing,
        month-without-sample, sampling-frequency-not-prescribed

    Source: common practice, no source
    """
    findings: list[Finding] = []
    context = account.measured.context
    for series in context.readings.analyses.values():
        findings += [*_repeated(series), *_air(series), *_missing(series)]
        findings += _months(account, series)
    return [*findings, *_frequency(account)]


def _where(series: AnalysisSeries, samples: Sequence[int]) -> Where:
    """Return the rows of some samples: the range of their cells."""
    cells = [origin for sample in samples for origin in series.origins[sample]]
    if len(samples) != 1 or not cells:
        return where_of_origins([series.origins[sample][0] for sample in samples])
    first, last = cells[0], cells[-1]
    return Where(first.file, first.sheet, f"{first.cell}:{last.cell}", series.gas)


def _repeated(series: AnalysisSeries) -> list[Finding]:
    values = series.values
    if len(series.components) < FEWEST:
        return []
    same = [
        place for place in range(1, len(values)) if np.array_equal(values[place], values[place - 1])
    ]
    return (
        [
            REPEATED_SAMPLE.at(
                _where(series, same),
                f'"{series.gas}": {len(same)} of {len(values)} samples repeat the one before, '
                f"first that of {series.dates[same[0]].isoformat()}",
            )
        ]
        if same
        else []
    )


def _air(series: AnalysisSeries) -> list[Finding]:
    if not {"oxygen", "nitrogen"} <= set(series.components):
        return []
    oxygen, nitrogen = (_shares(series, name) for name in ("oxygen", "nitrogen"))
    clean = nitrogen[oxygen <= TRACE]
    own = float(np.nanmedian(clean)) if clean.size else 0.0
    findings: list[Finding] = []
    for place in np.flatnonzero(oxygen > TRACE):
        added = (nitrogen[place] - own, nitrogen[place])
        if any(_is_air(more / oxygen[place]) for more in added):
            findings.append(_air_in(series, int(place), float(oxygen[place])))
    return findings


def _is_air(ratio: float) -> bool:
    return bool(abs(ratio / NITROGEN_TO_OXYGEN - 1) <= NEAR)


def _shares(series: AnalysisSeries, name: str) -> NDArray[np.float64]:
    """Return the shares of one component, by sample."""
    return series.values[:, series.components.index(name)]


def _air_in(series: AnalysisSeries, place: int, oxygen: float) -> Finding:
    total = float(np.nansum(series.values[place]))
    air = oxygen / OXYGEN_IN_AIR
    main = int(np.nanargmax(series.values[place]))
    share, name = float(series.values[place, main]), series.components[main]
    without = share / (total - air) * total
    what = (
        f'"{series.gas}", sample of {series.dates[place].isoformat()}: {oxygen:.3g} % oxygen with '
        f"nitrogen in the ratio of air, so about {air:.3g} % air"
    )
    more = total / (total - air) - 1
    why = (
        f"without the air it would hold {without:.4g} % {name} instead of {share:.4g} %, and "
        f"{more:.2%} more carbon by volume; nothing is taken off by itself"
    )
    return AIR_IN_SAMPLE.at(_where(series, [place]), what, why=why)


def _missing(series: AnalysisSeries) -> list[Finding]:
    if "methane" not in series.components or len(series.components) < FEWEST:
        return []
    methane = _shares(series, "methane")
    if np.isnan(methane).all() or np.nanmedian(methane) < LEAST_METHANE:
        return []
    lacking = [name for name in USUAL if name not in series.components]
    if not lacking:
        return []
    what = f'"{series.gas}" has no column for {" or ".join(lacking)}'
    first = series.origins[0][0]
    return [USUAL_COMPONENT_MISSING.at(Where(first.file, first.sheet), what)]


def _months(account: Account, series: AnalysisSeries) -> list[Finding]:
    context = account.measured.context
    counts, flowed = _by_month(context, series), _flowed(account, series.gas)
    months = zip(context.calendar.months.labels, counts, flowed, strict=True)
    names = [name for name, count, has_flow in months if has_flow and not count]
    if not names:
        return []
    first = series.origins[0][0]
    what = f'"{series.gas}" has no sample in {", ".join(names)}'
    return [MONTH_WITHOUT_SAMPLE.at(Where(first.file, first.sheet), what)]


def _flowed(account: Account, gas: str) -> NDArray[np.bool_]:
    """Return the months in which a gas flowed; where no meter tells, those that made ammonia."""
    flows = [one for one in account.measured.gas.values() if one.stream.analysis == gas]
    if not flows:
        return np.asarray(account.ammonia.produced.values > 0)
    amount = np.nansum([np.broadcast_to(one.amount.values, 12) for one in flows], axis=0)
    return np.asarray(amount > LEAST_FLOW * amount.max())


def _by_month(context: Context, series: AnalysisSeries) -> list[int]:
    """Return how many samples each month has."""
    year = context.calendar.year
    return [
        sum((day.year, day.month) == (year, month) for day in series.dates)
        for month in range(1, 13)
    ]


def _frequency(account: Account) -> list[Finding]:
    """Return one note on all gases that were sampled less than weekly while they flowed."""
    context = account.measured.context
    told = []
    for series in context.readings.analyses.values():
        months = zip(_by_month(context, series), _flowed(account, series.gas), strict=True)
        counts = [count for count, has_flow in months if has_flow]
        low, high = min(counts, default=WEEKLY), max(counts, default=WEEKLY)
        if low < WEEKLY:
            told.append(f"{series.gas} {low}" if low == high else f"{series.gas} {low} to {high}")
    if not told:
        return []
    rules = " and ".join(context.site.works.bases)
    what = f"samples a month: {', '.join(told)}; {rules} prescribes no number"
    return [SAMPLES_BY_MONTH.at(Where("site.toml", "analyses"), what)]
