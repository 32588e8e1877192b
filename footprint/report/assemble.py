"""The stages' results arranged as a book: which page shows what, and the year in a few figures."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.metadata import PackageNotFoundError, version

from footprint.account import Account
from footprint.account.energy import BOUNDARY
from footprint.balance.network import STANDING_IN_WORDS, Closure
from footprint.balance.steam_reforming import ATMOSPHERE
from footprint.base.finding import Finding, worst
from footprint.base.formulas import count
from footprint.base.line import Line, Page, Section
from footprint.base.listing import Listing
from footprint.base.row import Row, step
from footprint.bases import Basis
from footprint.judge import Judgement
from footprint.judge.tiers import tier_sections
from footprint.measure import Measured
from footprint.measure.bill import COMBUSTION
from footprint.measure.context import Context
from footprint.read.site import Role
from footprint.report.book import Book, ChartRows, Flow, Headline
from footprint.report.gaps import GAPS_PAGE, GAPS_QUESTION, gaps_and_judgements
from footprint.report.guide import paragraphs
from footprint.report.returns import Returns, sheets_in_order, sheets_of
from footprint.report.verdicts import verdicts_of

QUESTIONS = {
    "Carbon balance": "Does carbon in equal carbon out, and where does it go?",
    "Process CO2": "How much CO2 comes from feed, and where is it released?",
    "Fuel CO2": "How much CO2 comes from fuel, and what leaves at the stacks?",
    "CO2 captured and sold": "Where did the CO2 taken out of the synthesis gas go?",
    "Energy per tonne": "What did a tonne of ammonia cost in energy, against the least possible?",
    "Month by month": "How much was metered, month by month?",
    "Tiers of metering": "How sure is each stream over the year, and which tier is that?",
    "Completeness": "Are the readings complete, and which months are judged?",
}
OVER_ALL = (
    "The sum of what the nodes leave over; flows by difference close their own nodes and prove "
    "nothing."
)
BENCHMARKS = (
    ("latest designs", "B01 latest designs: typical"),
    ("best operating plants, upper end", "B02 best operating plants: high"),
    ("mean of 93 plants, 2008", "B03 average of 93 plants: typical"),
)


def book_of(
    account: Account, returns: Returns, judgement: Judgement, findings: Sequence[Finding]
) -> Book:
    """Return the book of a year.

    Args:
        account: the figures of the works. [account]
        returns: the bases applied. [bases]
        judgement: checks of the figures. [judgement]
        findings: of all stages. [findings]

    Source: definition
    """
    context, every = account.measured.context, returns.every
    works = context.site.works
    return Book(
        works=works.name,
        operator=works.operator,
        year=works.year,
        plan=f"version {works.plan.version}, approved {works.plan.approved:%Y-%m-%d}",
        tool_version=tool_version(),
        bases=tuple(basis.name for basis in every),
        gwp_set=works.gwp_set,
        boundary=BOUNDARY,
        headline=_headline(account, every),
        verdicts=verdicts_of(account, judgement, findings),
        is_fit_to_file=worst(findings) != "stop",
        pages=(*_pages(account, returns, judgement), *_judged_by_hand(account, findings)),
        checks=judgement.checks,
        findings=tuple(findings),
        files=context.readings.files,
        charts=_charts(account),
        flows=_flows(account),
        how=paragraphs(account, every),
        others=_evidence(context),
    )


def _evidence(context: Context) -> tuple[Row, ...]:
    """Return what stands in the evidence though no figure needs it: readings, quality of gases."""
    readings = [row for key, row in context.made.items() if key.startswith("reading/")]
    qualities = [row for quality in context.qualities.values() for row in quality.rows]
    return (*readings, *qualities)


def tool_version() -> str:
    """Return the version of this package.

    Source: definition
    """
    try:
        return version("footprint")
    except PackageNotFoundError:
        return "not installed"


def _pages(account: Account, returns: Returns, judgement: Judgement) -> tuple[Page | Listing, ...]:
    split = account.split
    sections = {
        "Carbon balance": _balance_sections(account),
        "Process CO2": split.process_sections,
        "Fuel CO2": split.fuel_sections,
        "CO2 captured and sold": account.captured.sections,
        "Energy per tonne": account.energy.sections,
        "Month by month": _measured_sections(account.measured),
        "Completeness": _completeness(account, judgement),
        "Tiers of metering": tier_sections(account),
    }
    pages: list[Page | Listing] = [
        *sheets_of(account, returns),
        *(Page(name, QUESTIONS[name], shown) for name, shown in sections.items()),
    ]
    return sheets_in_order(pages)


def _judged_by_hand(account: Account, findings: Sequence[Finding]) -> tuple[Page, ...]:
    """Return the page of filled gaps and accepted findings, where there are any."""
    sections = gaps_and_judgements(account.measured, findings)
    return (Page(GAPS_PAGE, GAPS_QUESTION, sections),) if sections else ()


def _balance_sections(account: Account) -> tuple[Section, ...]:
    balance, line = account.balance, account.measured.context.line
    sections = []
    for closure in (*balance.closures, balance.works):
        network = balance.network
        flows = [*network.into(closure.node), *network.out_of(closure.node)]
        known = tuple(line(flow.carbon) for flow in flows if flow.carbon is not None)
        title = f"{closure.node[0].upper()}{closure.node[1:]}"
        note = STANDING_IN_WORDS[closure.standing]
        if closure is balance.works and closure.year is not None:
            note = OVER_ALL
        sections.append(Section(title, (*known, *_closure_lines(closure)), note))
    return tuple(section for section in sections if section.lines)


def _closure_lines(closure: Closure) -> tuple[Line, ...]:
    if closure.year is None:
        return ()
    months = (closure.entering, closure.leaving, closure.difference, closure.share)
    return tuple(
        Line(month, year, is_total=place > 1)
        for place, (month, year) in enumerate(zip(months, closure.year, strict=True))
    )


def _measured_sections(measured: Measured) -> tuple[Section, ...]:
    line = measured.context.line
    gases = tuple(
        Section(
            name[0].upper() + name[1:],
            tuple(line(row) for row in (flow.amount, flow.carbon, flow.net, flow.gross)),
        )
        for name, flow in measured.gas.items()
    )
    masses = tuple(line(row) for row in measured.mass.values())
    fuels = tuple(
        line(row) for fuel in measured.fuel.values() for row in (fuel.mass, fuel.net, fuel.carbon)
    )
    counts = tuple(line(row) for row in measured.count.values())
    others = (
        Section("By mass", masses),
        Section("Other fuels", fuels),
        Section("Operation", counts),
    )
    bills = tuple(
        Section(f"Bill against meter: {name}", bill.lines, COMBUSTION)
        for name, bill in measured.bills.items()
    )
    return (*gases, *bills, *(section for section in others if section.lines))


def _completeness(account: Account, judgement: Judgement) -> tuple[Section, ...]:
    context = account.measured.context
    calendar = context.calendar
    lines = []
    for tag, series in context.readings.series.items():
        read = context.made.get(f"as read/{tag}")
        if series.rows != "daily" or read is None:
            continue
        key, words = f"meter/{tag}/days with a reading/counted", f"{tag}: days with a reading"
        lines.append(
            context.line(
                step(count(read, calendar.days_of_months, calendar.months), key, words, "counted")
            )
        )
    return (
        Section("Months that are judged by tonne", tuple(Line(row) for row in judgement.running)),
        Section("Daily readings", tuple(lines)),
    )


def _headline(account: Account, every: Sequence[Basis]) -> tuple[Headline, ...]:
    split = account.split
    filed = [
        Headline(f"{basis.name}: {line.words}", line.filed, line.rule)
        for basis in every
        for line in basis.lines
        if line.is_headline
    ]
    return (
        *filed,
        _year(account, account.ammonia.produced, "daily product times laboratory purity"),
        _year(account, split.process, "from all feed carbon, by purpose"),
        _year(account, split.fuel, "from all fuel carbon, by purpose"),
        *_captured_headline(account),
        *_energy_headline(account),
    )


def _year(account: Account, row: Row, sentence: str) -> Headline:
    return Headline(row.words, account.measured.context.year(row), sentence)


def _captured_headline(account: Account) -> list[Headline]:
    captured, measured = account.captured, account.measured
    roles: tuple[Role, ...] = ("CO2 to urea", "CO2 sold", "CO2 to storage")
    left = "leaves the CO2 header; a separate line, never netted"
    shown: list[tuple[Row | None, str]] = [(captured.removed, "taken out of the synthesis gas")]
    shown += [(row, left) for role in roles for _, row in captured.of_role(measured, role)]
    shown += [(captured.vented, "at the CO2 header, with its sign; the sheet says how sure")]
    return [_year(account, row, sentence) for row, sentence in shown if row is not None]


def _energy_headline(account: Account) -> list[Headline]:
    energy, minimum = account.energy, account.minimum
    final = "final energy: feed, fuel, power and steam, net calorific value"
    shown = (
        (energy.by_tonne["net"], final),
        (minimum.by_tonne if minimum else None, "least feed energy of the year's own feeds"),
        (energy.over_minimum, "how many times the least"),
        (energy.distance, "what lies between"),
    )
    return [
        Headline(line.row.words, line.year, sentence)
        for line, sentence in shown
        if line is not None and line.year is not None
    ]


def _charts(account: Account) -> ChartRows | None:
    energy, minimum, context = account.energy, account.minimum, account.measured.context
    if (
        minimum is None
        or minimum.by_tonne.months is None
        or energy.distance is None
        or energy.distance.months is None
    ):
        return None
    return ChartRows(
        process=context.line(account.split.process),
        fuel=context.line(account.split.fuel),
        minimum=minimum.by_tonne.months,
        distance=energy.distance.months,
        energy=energy.by_tonne["net"],
        benchmarks=tuple((words, context.factor(quantity)) for words, quantity in BENCHMARKS),
    )


def _flows(account: Account) -> tuple[Flow, ...]:
    years = account.balance.years
    return tuple(
        Flow(
            flow.source,
            flow.target,
            flow.name,
            years[flow.name],
            flow.is_by_difference,
            is_loss=flow.target == ATMOSPHERE,
        )
        for flow in account.balance.network.flows
        if flow.name in years
    )
