"""Tiers of metering that streams reach over the year."""

from __future__ import annotations

import math

import pytest

from footprint.base.line import Section
from footprint.base.row import Row
from footprint.judge.tiers import tier_sections
from tests.sites.hand_made import METHANE, HandMade


def works(uncertainty: str, **works_keys: object) -> HandMade:
    """Return a works with a feed of methane, its analysis exact."""
    made = HandMade()
    made.works.update(works_keys)
    made.gas("gas", METHANE, uncertainty="0 % (k=2)")
    made.counted("feed gas", "feed", "Nm3", 18.43e6, analysis="gas", uncertainty=uncertainty)
    made.meter("LAB", "percent", 100.0)
    made.counted("ammonia", "ammonia produced", "t_NH3", 30_000.0, purity="LAB")
    return made


def section_of(made: HandMade, name: str = "Feed gas") -> Section:
    """Return the section of one stream."""
    return next(one for one in tier_sections(made.account()) if one.title.startswith(name))


def figure(section: Section, words: str) -> Row:
    """Return the figure whose words hold some text."""
    return next(line.row for line in section.lines if words in line.row.words)


@pytest.mark.parametrize(
    ("uncertainty", "tier"),
    [
        ("1.2 % (k=2)", 4),
        ("2.4 % (k=2)", 3),
        ("2.6 % (k=2)", 2),
        ("5.1 % (k=2)", 1),
        ("8 % (k=2)", 0),
        ("1.5 % (limits)", 3),  # 1.5/root 3 x 2 is 1.73 %
    ],
)
def test_tier_is_the_highest_whose_threshold_is_kept(uncertainty: str, tier: int) -> None:
    """7.5, 5, 2.5 and 1.5 % are tiers 1 to 4 of fuel used as process input.

    Source: Implementing Regulation (EU) 2018/2066, Annex II, section 1, Table 1.
    """
    assert figure(section_of(works(uncertainty)), "tier reached").values[0] == tier


def test_largest_cause_and_what_it_must_fall_to() -> None:
    """Own 2 % and a flow computer of 0.9 %: the own must fall to root(1.5² - 0.9²) = 1.2 %."""
    made = works("2 % (k=2)")
    made.meters[0]["devices"] = ["FC-1"]
    made.devices.append({"tag": "FC-1", "uncertainty": "0.9 % (k=2)"})
    section = section_of(made)

    assert "Largest cause: calibration of feed gas." in section.note
    assert figure(section, "of the year (k = 2)").values[0] == pytest.approx(
        math.hypot(2, 0.9), rel=1e-3
    )
    assert figure(section, "must fall to").values[0] == pytest.approx(1.2, rel=2e-3)


def test_highest_tier_and_hopeless_cause_are_said_in_words() -> None:
    """Where nothing must fall, or not by this cause alone, no figure stands."""
    hopeless = works("1.6 % (k=2)")
    hopeless.meters[0]["devices"] = ["FC-1"]
    hopeless.devices.append({"tag": "FC-1", "uncertainty": "1.55 % (k=2)"})

    for made in (works("1 % (k=2)"), hopeless):
        assert math.isnan(figure(section_of(made), "must fall to").values[0])


@pytest.mark.parametrize(("category", "asked", "met"), [("A", 2, 1), ("B", 4, 0), ("C", 4, 0)])
def test_category_tells_the_tier_asked_for(category: str, asked: int, met: int) -> None:
    """Category A owes tier 2 of a fuel used as process input, B and C the highest.

    Source: Implementing Regulation (EU) 2018/2066, Annex V and Article 26(1).
    """
    section = section_of(works("2 % (k=2)", category=category))

    assert figure(section, "tier asked for").values[0] == asked
    assert figure(section, "1 where that tier is reached").values[0] == met


def test_without_category_nothing_is_asked() -> None:
    """A tier is asked for only where the site file names the category."""
    words = [line.row.words for line in section_of(works("2 % (k=2)")).lines]

    assert not any("asked for" in one for one in words)
