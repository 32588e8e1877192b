"""A works that meters less, or whose meters cannot be read, gets what can be given."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from footprint.account import account
from footprint.balance import balance
from footprint.base.finding import Finding
from footprint.bases import bases
from footprint.judge import judge
from footprint.measure import measure
from footprint.read import read
from footprint.read.readings import Readings
from footprint.report import Book, Returns, book_of
from footprint.report.arrange import arrange
from tests.sites.builders import monthly_works
from tests.sites.hand_made import factors


@cache
def whole() -> Readings:
    """Return all that a works with every meter in place writes down."""
    with TemporaryDirectory() as folder:
        readings, _ = read(monthly_works(Path(folder)).folder)
    assert readings is not None
    return readings


STREAMS = [stream.name for stream in whole().site.streams]
METERS = sorted({stream.meter for stream in whole().site.streams})


def with_streams(names: Iterable[str]) -> Readings:
    """Return the works as if it had only some of its streams."""
    kept = [stream for stream in whole().site.streams if stream.name in set(names)]
    return replace(whole(), site=whole().site.model_copy(update={"streams": kept}))


def without_reading(tag: str) -> Readings:
    """Return the works after one meter could not be read."""
    series = {name: series for name, series in whole().series.items() if name != tag}
    return replace(whole(), series=series)


def book(readings: Readings) -> Book:
    """Return the book of a works, every stage run, each row with a place in the workbook."""
    findings: list[Finding] = []
    measured, found = measure(readings, factors())
    findings += found
    balanced, found = balance(measured)
    findings += found
    accounted, found = account(measured, balanced)
    findings += found
    every, found = bases(accounted)
    findings += found
    judged, found = judge(accounted)
    made = book_of(accounted, Returns(tuple(every)), judged, [*findings, *found])
    arrange(made)
    return made


@cache
def whole_book() -> Book:
    """Return the book of the works with every meter in place."""
    return book(whole())


def figure(made: Book, start: str) -> float:
    """Return the figure of the year whose words start so."""
    row = next(one.row for one in made.headline if one.words.startswith(start))
    return float(row.values[0])


@pytest.mark.parametrize("name", STREAMS)
def test_a_works_without_a_stream_has_its_book(name: str) -> None:
    """Whatever single stream a works does not have, every stage gives what the others allow."""
    made = book(with_streams(one for one in STREAMS if one != name))

    assert made.pages
    assert not any(name == finding.where.column for finding in made.findings)


@pytest.mark.parametrize("tag", METERS)
def test_a_works_with_an_unread_meter_has_its_book(tag: str) -> None:
    """Whatever single meter cannot be read, figures that do not need it are what they were."""
    made, same = book(without_reading(tag)), whole_book()

    shown = [one.words for one in made.headline]
    assert shown
    for words in shown:
        value = figure(made, words)
        assert np.isnan(value) or value == pytest.approx(figure(same, words), rel=1e-12)


@pytest.mark.parametrize(
    "names",
    [
        ("feed gas", "ammonia produced"),
        ("feed gas", "reformer fuel gas", "ammonia produced", "power bought"),
        ("purchased gas", "ammonia produced"),
        ("ammonia produced",),
        ("CO2 sold",),
        ("purge gas", "diesel"),
    ],
    ids=" and ".join,
)
def test_a_works_of_few_meters_has_its_book(names: tuple[str, ...]) -> None:
    """A handful of meters is enough to begin with: nothing breaks, and what is there is shown."""
    made = book(with_streams(names))

    assert made.pages
    assert made.headline
