"""Tiers of metering: how sure each stream's amount of the year is, against the Regulation."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from footprint.account import Account
from footprint.base.formulas import choose, frozen, given, square_root
from footprint.base.line import Line, Section
from footprint.base.row import Row, constant, step
from footprint.base.slopes import variances
from footprint.base.source import Factor
from footprint.base.units import NONE
from footprint.judge.tier_streams import SourceStream, source_streams
from footprint.measure.context import Context

NOTE = (
    "Thresholds bind the whole reporting period, random and lasting errors together, at 95 % "
    "(k = 2 here). Which tiers the works owes stands in its approved plan; the verifier decides."
)
OF_THRESHOLDS = "Half the 95 % interval of the year's amount may be this wide at most."
METHOD = "first-order propagation of all stated errors to the amount of the year, JCGM 100:2008"
HIGHEST, NOT_ALONE = "highest tier reached", "not by this cause alone"
HIGHEST_OF = "highest tier of activity data"
ROOT = "root of the sum of squares: causes are independent"
COVERED = "factors/any/coverage factor/tiers"
COVERAGE = Factor(
    "JCGM 100:2008", "clause 6.3.3", year="2008", is_seen=False, note="k = 2, about 95 %"
)


@dataclass(frozen=True, eq=False, slots=True)
class Thresholds:
    """What the tiers of one kind of stream ask for.

    Attributes:
        kind: as the table of thresholds names it. [text]
        widest: largest expanded uncertainty of tier 1, 2 and so on. [%]
        lines: the same for the reader. [lines]
    """

    kind: str
    widest: tuple[Row, ...]
    lines: tuple[Line, ...]


def tier_sections(account: Account) -> tuple[Section, ...]:
    """Return a section for each source stream and one for each set of thresholds.

    Args:
        account: the figures of the works. [account]

    Source: Implementing Regulation (EU) 2018/2066, Annexes II, V and VIII
    """
    context = account.measured.context
    streams = [
        one
        for one in source_streams(account.measured)
        if np.isfinite(one.year.values[0]) and one.year.values[0] != 0
    ]
    kinds = dict.fromkeys(one.kind for one in streams)
    known = {kind: _thresholds(context, kind) for kind in kinds}
    if not streams:
        return ()
    return (
        Section("What the tiers are", (), NOTE),
        *(_section(context, one, known[one.kind]) for one in streams),
        *(Section(f"Thresholds: {kind}", one.lines, OF_THRESHOLDS) for kind, one in known.items()),
    )


def _thresholds(context: Context, kind: str) -> Thresholds:
    """Return the thresholds of one kind of stream."""
    highest = int(context.factor(f"{HIGHEST_OF}: {kind}", "EU").values[0])
    widest = []
    for tier in range(1, highest + 1):
        published = context.factor(
            f"uncertainty of activity data at most, tier {tier}: {kind}", "EU"
        )
        words = f"{kind}: uncertainty at most, tier {tier}"
        because = "Implementing Regulation (EU) 2018/2066"
        widest.append(step(published, f"tiers/{kind}/threshold/tier {tier}", words, because))
    return Thresholds(kind, tuple(widest), tuple(Line(None, row) for row in widest))


def _section(context: Context, stream: SourceStream, thresholds: Thresholds) -> Section:
    """Return what one stream reaches, what is asked of it and what would have to improve."""
    doubt = _doubt(context, stream)
    half, reached = doubt.expanded, _reached(context, stream, doubt.expanded, thresholds)
    asked = _asked(context, stream, reached)
    needed = _needed(context, stream, doubt, thresholds)
    rows = [stream.year, doubt.whole, half, reached, *asked, doubt.own_expanded, needed]
    title = f"{stream.name[0].upper()}{stream.name[1:]}: {stream.kind}"
    lines = tuple(Line(None, row, is_total=row is reached) for row in rows)
    return Section(title, lines, f"Largest cause: {doubt.cause}.")


@dataclass(frozen=True, eq=False, slots=True)
class _Doubt:
    """How sure an amount of the year is, and the largest cause behind it.

    Attributes:
        cause: the largest, in words. [text]
        whole: standard uncertainty from all causes. [unit of the amount]
        expanded: the same at k = 2, as a share. [%]
        own_expanded: of the largest cause alone. [%]
        others_expanded: of all other causes. [%]
    """

    cause: str
    whole: Row
    expanded: Row
    own_expanded: Row
    others_expanded: Row


def _doubt(context: Context, stream: SourceStream) -> _Doubt:
    """Return the uncertainty of the amount of the year, the largest cause apart from the rest."""
    shares = variances(stream.year)
    cause = max(shares, key=lambda key: shares[key], default="none")
    parts = (shares.get(cause, 0.0), math.fsum(shares.values()) - shares.get(cause, 0.0))
    names = ("the largest cause", "all other causes")
    own, others = (
        frozen(
            _fixed(math.sqrt(max(part, 0.0)) / abs(float(stream.year.values[0]))),
            NONE,
            stream.year,
            key=_key(context, stream, f"relative standard uncertainty from {name}"),
            words=f"{stream.name}: relative standard uncertainty from {name}",
            method=METHOD,
        )
        for name, part in zip(names, parts, strict=True)
    )
    words = "relative standard uncertainty of the year"
    whole = _named(context, stream, square_root(own**2 + others**2), (words, ROOT))
    said = ("standard uncertainty of the year", "relative one times the amount")
    return _Doubt(
        cause,
        _named(context, stream, whole * stream.year, said),
        _expanded(context, stream, whole, "expanded uncertainty of the year (k = 2)"),
        _expanded(context, stream, own, f"expanded uncertainty from {names[0]} (k = 2)"),
        _expanded(context, stream, others, f"expanded uncertainty from {names[1]} (k = 2)"),
    )


def _reached(context: Context, stream: SourceStream, half: Row, thresholds: Thresholds) -> Row:
    """Return the highest tier whose threshold is kept; 0 where not even the first is."""
    kept = [half <= one for one in thresholds.widest]
    number = reduce(lambda first, second: first + second, kept)
    return _named(context, stream, number, ("tier reached", "number of thresholds that are kept"))


def _asked(context: Context, stream: SourceStream, reached: Row) -> list[Row]:
    """Return the tier that the category asks for and whether it is reached; none where unknown."""
    category = context.site.works.category
    if category is None:
        return []
    is_least = category == "A" or stream.kind == "commercial standard fuels"
    name = (
        "least tier of activity data, category A" if is_least else "highest tier of activity data"
    )
    asked = context.factor(f"{name}: {stream.kind}", "EU")
    because = f"category {category}; a major stream without leave to go lower"
    named = _named(context, stream, asked, ("tier asked for", because))
    met = (reached >= named) + 0
    return [named, _named(context, stream, met, ("1 where that tier is reached", "compared"))]


def _needed(context: Context, stream: SourceStream, doubt: _Doubt, thresholds: Thresholds) -> Row:
    """Return what the largest cause must fall to for the next tier, the others as they are."""
    ends = thresholds.widest
    aim, because = ends[0], "the first threshold that is not kept; the last where all are"
    for tier, (now, better) in enumerate(pairwise(ends), 2):
        words = f"threshold of the next tier, up to tier {tier}"
        aim = _named(context, stream, choose(doubt.expanded <= now, better, aim), (words, because))
    rest = doubt.others_expanded
    left = given(rest < aim, square_root(aim**2 - rest**2), NOT_ALONE)
    words = "what the others leave of that threshold (k = 2)"
    alone = _named(context, stream, left, (words, "root of the difference of squares"))
    figure = given(doubt.expanded > ends[-1], alone, HIGHEST)
    words = "for the next tier, the largest cause must fall to (k = 2)"
    return _named(context, stream, figure, (words, "others unchanged; independent causes"))


def _expanded(context: Context, stream: SourceStream, u: Row, words: str) -> Row:
    """Return a relative standard uncertainty as an expanded one, in per cent."""
    if COVERED not in context.made:
        name = "coverage factor of tiers"
        context.made[COVERED] = constant(2.0, NONE, COVERED, name, COVERAGE)
    half = u * context.made[COVERED] / context.per_percent
    return _named(context, stream, half, (words, "twice the standard uncertainty"))


def _fixed(share: float) -> Callable[[NDArray[np.float64]], NDArray[np.float64]]:
    """Return the function of an amount that gives a share which was found for it."""
    return lambda amount: np.full(amount.shape, share)


def _named(context: Context, stream: SourceStream, row: Row, said: tuple[str, str]) -> Row:
    words, because = said
    return step(row, _key(context, stream, words), f"{stream.name}: {words}", because)


def _key(context: Context, stream: SourceStream, words: str) -> str:
    return context.key(stream.name, words, "tiers/year")
