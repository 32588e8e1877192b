"""Figures against limits: outcomes as rows, and what they tell the user."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.base.finding import Finding
from footprint.judge import Check, Judgement, judge
from footprint.judge.check import OUTCOMES
from tests.sites.hand_made import HandMade, plain_works

FEED = "feed energy, by tonne of ammonia"
AMMONIA = 30_000.0


def judged(made: HandMade) -> tuple[Judgement, list[Finding]]:
    """Return the judgement of a works, and what was found about its figures."""
    judgement, findings = judge(made.account())
    return judgement, [one for one in findings if one.code.startswith("figure-")]


def check(judgement: Judgement, words: str) -> Check:
    """Return a check by its words."""
    return next(one for one in judgement.checks if one.words == words)


def outcomes(made: HandMade, words: str = FEED) -> list[str]:
    """Return the outcome of a check by month, in words."""
    judgement, _ = judged(made)
    return [OUTCOMES[int(place)] for place in check(judgement, words).outcome.values]


def with_feed(month: int, factor: float) -> HandMade:
    """Return the plain works whose feed meter is off in one month."""
    made = plain_works()
    made.series["feed gas"].values[month] *= factor
    return made


@pytest.mark.parametrize(
    ("factor", "word"),
    [
        (1.0, "PASS"),  # 22.0 GJ by tonne, inside 21.5 to 25.5
        (0.96, "LOOK"),  # 21.2, above the least of 20.8
        (1.2, "LOOK"),  # 26.5
        (1.4, "OPEN"),  # 30.9, above 28
        (0.9, "OPEN"),  # 19.8, below the least
    ],
)
def test_a_month_is_held_against_its_limits(factor: float, word: str) -> None:
    """Feed energy inside the band passes, outside it is looked at, beyond the stops it is open.

    Source: limits of `energy of all feeds` in factors/limits.csv, with their documents there.
    """
    found = outcomes(with_feed(4, factor))

    assert found[4] == word
    assert found[:4] == ["PASS"] * 4


def test_less_feed_than_chemistry_allows_stops_the_year() -> None:
    """Feed below its own minimum is impossible: a finding of level stop names the month."""
    _, findings = judged(with_feed(4, 0.9))

    impossible = [one for one in findings if one.code == "figure-against-physics"]

    assert [one.level for one in impossible] == ["stop", "stop"]  # energy and process CO2
    assert impossible[0].what.startswith(f"{FEED}: May 19.8")
    assert impossible[0].where.sheet == FEED


def test_more_feed_than_such_works_use_is_only_unusual() -> None:
    """Feed far above the band is open and may be right: a warning, no stop."""
    _, findings = judged(with_feed(4, 1.4))

    assert findings
    assert {one.code for one in findings} == {"figure-out-of-band"}
    assert {one.level for one in findings} == {"warn"}


def test_a_month_that_ran_too_little_is_not_judged() -> None:
    """With 400 of 744 hours on line the figures by tonne of that month mislead and are left out."""
    hours = [744.0, 672.0, 744.0, 720.0, 400.0, 720.0, 744.0, 744.0, 720.0, 744.0, 720.0, 744.0]
    made = with_feed(4, 1.4)
    made.counted("clock", "hours on line", "hour", hours)

    judgement, findings = judged(made)

    assert OUTCOMES[int(check(judgement, FEED).outcome.values[4])] == "not judged"
    assert findings == []
    assert list(judgement.running[1].values) == [1, 1, 1, 1, 0, 1, 1, 1, 1, 1, 1, 1]


def test_sixty_per_cent_of_the_month_is_enough() -> None:
    """432 of 720 hours are 60 %: the month is judged."""
    made = with_feed(3, 1.4)
    made.counted("clock", "hours on line", "hour", [700.0, 600.0, 700.0, 432.0, *[700.0] * 8])

    assert outcomes(made)[3] == "OPEN"


def test_a_month_without_ammonia_is_not_judged_by_tonne() -> None:
    """Without hours the months that made ammonia are judged, and no others."""
    made = plain_works()
    made.series["ammonia"].values[6] = 0.0

    assert outcomes(made)[6] == "not judged"
    assert outcomes(made).count("PASS") == 11


def test_a_month_without_reading_is_not_judged() -> None:
    """A figure that cannot be given neither passes nor fails."""
    made = plain_works()
    made.series["feed gas"].values[6] = np.nan

    assert outcomes(made)[6] == "not judged"


@pytest.mark.parametrize(
    ("factor", "hint"),
    [
        (288.15 / 273.15, "cubic metres at 15 °C taken for 0 °C"),
        (293.15 / 273.15, "cubic metres at 20 °C taken for 0 °C"),
    ],
)
def test_a_month_off_by_a_known_factor_names_the_confusion(factor: float, hint: str) -> None:
    """A month whose gas is too high by the ratio of two reference conditions says which.

    Source: ratio of the absolute temperatures of the reference conditions: definition.
    """
    made = plain_works()
    made.series["feed gas"].values[:] *= 1.13  # 24.9 GJ by tonne, near the upper limit
    made.series["feed gas"].values[4] *= factor

    _, findings = judged(made)

    feed = next(one for one in findings if one.what.startswith(FEED))
    assert hint in feed.why
    assert "usual range 21.5 to 25.5" in feed.why


def test_a_month_off_by_no_known_factor_names_none() -> None:
    """A feed that is 20 % too high is told without a guess."""
    _, findings = judged(with_feed(4, 1.2))

    assert not any("taken for" in one.why for one in findings)


def test_several_months_are_one_finding() -> None:
    """Months outside the same limits are told together."""
    made = with_feed(4, 1.2)
    made.series["feed gas"].values[9] *= 1.2

    _, findings = judged(made)

    feed = [one for one in findings if one.what.startswith(FEED)]
    assert len(feed) == 1
    assert "May 26.4" in feed[0].what
    assert "October 26.4" in feed[0].what


def test_the_outcome_is_a_live_row() -> None:
    """The outcome is computed from figure and limits, so that it moves when they are typed over."""
    judgement, _ = judged(plain_works())
    found = check(judgement, FEED)

    assert found.outcome.op == "WORDS"
    assert found.outcome.extra == OUTCOMES
    assert found.is_physics


def test_urea_with_less_co2_than_it_binds_is_impossible() -> None:
    """Less than 0.72 t of CO2 by tonne of urea cannot be.

    Source: 44.0095/60.05526 = 0.733 by stoichiometry, less 1.7 % for meters.
    """
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("CO2 to urea", "CO2 to urea", "t_CO2", 7_000.0, is_counted_elsewhere=True)
    made.counted("urea", "urea", "t_urea", 10_000.0)

    _, findings = judged(made)

    impossible = [one for one in findings if one.code == "figure-against-physics"]
    assert [one.where.sheet for one in impossible] == ["CO2 to urea by tonne of urea"]


def test_more_co2_removed_than_feed_brings_is_impossible() -> None:
    """CO2 removed above process CO2 by more than the meters explain stops: carbon is conserved."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 1.05 * AMMONIA * 1.209)

    _, findings = judged(made)

    impossible = [one for one in findings if one.code == "figure-against-physics"]
    assert [one.where.sheet for one in impossible] == ["CO2 removed over process CO2"]


def test_co2_removed_by_difference_is_no_check() -> None:
    """A flow that follows from the others is not held against them."""
    made = plain_works()
    made.gas("purge", {"hydrogen": 60.0, "nitrogen": 20.0, "methane": 20.0})
    made.counted("purge gas", "purge gas", "Nm3", 2.0e6, analysis="purge", to="fuel")

    judgement, _ = judged(made)

    assert "CO2 removed over process CO2" not in [one.words for one in judgement.checks]


def test_a_works_without_feed_is_judged_by_what_it_has() -> None:
    """Where there is no minimum, neither feed energy nor process CO2 is held against one."""
    made = plain_works()
    made.streams = [one for one in made.streams if one["role"] != "feed"]

    judgement, _ = judged(made)

    assert FEED not in [one.words for one in judgement.checks]
