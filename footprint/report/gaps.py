"""The page of gaps and judgements: what was filled by which method, and what somebody accepts."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.finding import Finding
from footprint.base.formulas import choose, span, total
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.measure.context import Context
from footprint.measure.gaps import RULES, FilledGap

GAPS_PAGE = "Gaps and judgements"
GAPS_QUESTION = "Which readings were filled, which findings accepted, by whom and why?"
SUMMED = frozenset(["days", "months"])


def gaps_and_judgements(measured: Measured, findings: Sequence[Finding]) -> tuple[Section, ...]:
    """Return a section for each gap that was filled and for each finding that somebody accepts.

    Args:
        measured: every stream by month. [measured]
        findings: of all stages. [findings]

    Source: definition
    """
    gaps = tuple(_filled(measured.context, one) for one in measured.context.filled)
    return (*gaps, *(_accepted(one) for one in findings if one.acceptance is not None))


def _filled(context: Context, one: FilledGap) -> Section:
    """Return how many periods were filled in each month, and what was put in."""
    gap = one.gap
    span_of_days = f"{gap.first_day.isoformat()} to {gap.last_day.isoformat()}"
    rows = [(one.is_filled, "periods filled", "counted")]
    is_flow = any(stream.meter == gap.meter for stream in context.site.streams)
    if is_flow and one.used.axis.kind in SUMMED:
        put_in = step(
            choose(one.is_filled, one.substitute, 0),
            f"{one.substitute.key}, put in",
            f"{gap.meter}: put in by period, {gap.method} from {gap.first_day.isoformat()}",
            "the value where it was needed, else 0",
        )
        rows.append((put_in, "put in", "sum of what was put in"))
    lines = tuple(_line(context, row, f"{gap.meter}: {words}", rule) for row, words, rule in rows)
    note = f"{RULES[gap.method]}; {gap.author}, {gap.when:%Y-%m-%d}: {gap.why}"
    return Section(f"{gap.meter}, {span_of_days}: {gap.method}", lines, note)


def _line(context: Context, row: Row, words: str, because: str) -> Line:
    """Return the months and the year of a row by period."""
    calendar, key = context.calendar, f"{row.key}, by month"
    if row.axis.kind == "days":
        by_month = span(row, calendar.days_of_months, calendar.months)
        return context.line(step(by_month, key, words, because))
    if row.axis.kind == "months":
        return context.line(step(row, key, words, because))
    return Line(None, step(total(row), f"{row.key}/year", words, because))


def _accepted(finding: Finding) -> Section:
    """Return what somebody accepts, where, and why."""
    acceptance = finding.acceptance
    by = "" if acceptance is None else f"accepted by {acceptance.words}"
    parts = (finding.what, finding.where.words, finding.why, by)
    return Section(
        f"Accepted {finding.level}: {finding.code}", (), "; ".join(part for part in parts if part)
    )
