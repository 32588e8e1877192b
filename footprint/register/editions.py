"""Whether the editions of each factor follow one another without gap or overlap."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from datetime import date, timedelta

from footprint.base.finding import Code, Finding, Where
from footprint.base.units import is_convertible
from footprint.register import faults
from footprint.register.entry import Entry, Line, Series

_TOUCHED_BY_BOTH = (faults.REPEATED, faults.SPANS_OVERLAP)


def check_editions(
    entries: Iterable[Entry], unitless: AbstractSet[Line]
) -> tuple[set[Line], list[Finding]]:
    """Return the lines that cannot be told apart, and all faults between editions.

    Args:
        entries: all lines whose name and days could be read. [entries]
        unitless: those of them whose unit could not be read. [places]

    Findings:
        factor-repeated: same quantity, jurisdiction and days
        factor-spans-overlap: two editions on one day
        factor-span-gap: days between two editions
        factor-units-differ: two editions measure different things

    Source: definition
    """
    by_series: dict[Series, list[Entry]] = defaultdict(list)
    for entry in entries:
        by_series[entry.series].append(entry)
    left_out: set[Line] = set()
    findings: list[Finding] = []
    for editions in by_series.values():
        for earlier, later in _pairs(editions):
            found = _between_days(earlier, later)
            if not {earlier.line, later.line} & unitless:
                found += _between_units(earlier, later)
            findings += [code.at(_where(later), what) for code, what in found]
            if any(code in _TOUCHED_BY_BOTH for code, _ in found):
                left_out |= {earlier.line, later.line}
    return left_out, findings


def _pairs(editions: Sequence[Entry]) -> list[tuple[Entry, Entry]]:
    """Return each edition with the one that, of all before it, reaches furthest."""
    ordered = sorted(editions, key=lambda entry: (entry.span.first_day or date.min, _end(entry)))
    return [(max(ordered[:place], key=_end), entry) for place, entry in enumerate(ordered) if place]


def _end(entry: Entry) -> date:
    return entry.span.last_day or date.max


def _between_days(earlier: Entry, later: Entry) -> list[tuple[Code, str]]:
    name, other = f'"{later.words}"', _place_in_words(earlier)
    begin = later.span.first_day or date.min
    if earlier.span == later.span:
        return [(faults.REPEATED, f"{name} stands here and on {other}")]
    if begin <= _end(earlier):
        what = f"{name} ({later.span.words}) overlaps with {other} ({earlier.span.words})"
        return [(faults.SPANS_OVERLAP, what)]
    first, last = _end(earlier) + timedelta(days=1), begin - timedelta(days=1)
    if first <= last:
        what = f"no edition of {name} from {first:%Y-%m-%d} to {last:%Y-%m-%d}"
        return [(faults.SPAN_GAP, what)]
    return []


def _between_units(earlier: Entry, later: Entry) -> list[tuple[Code, str]]:
    if is_convertible(earlier.unit, later.unit):
        return []
    what = f'"{later.words}" has another kind of unit than {_place_in_words(earlier)}'
    return [(faults.UNITS_DIFFER, what)]


def _place_in_words(entry: Entry) -> str:
    return f"line {entry.line.number} of {entry.line.file}"


def _where(entry: Entry) -> Where:
    return Where(entry.line.file, cell=f"line {entry.line.number}")
