"""The year judged in plain words."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.base.finding import CODES, Finding, Where
from footprint.judge import judge
from footprint.report import Verdict
from footprint.report.verdicts import verdicts_of
from tests.sites.hand_made import HandMade, plain_works


def verdicts(made: HandMade, findings: tuple[Finding, ...] = ()) -> tuple[Verdict, ...]:
    """Return the verdicts on a works."""
    account = made.account()
    judgement, _ = judge(account)
    return verdicts_of(account, judgement, findings)


def on(made: HandMade, start: str) -> Verdict:
    """Return the verdict whose text starts so."""
    return next(one for one in verdicts(made) if one.text.startswith(start))


@pytest.mark.parametrize(
    ("codes", "state", "words"),
    [
        ((), "PASS", "no finding stops a figure or asks for a look"),
        (("purity-not-given",), "PASS", "no finding stops a figure or asks for a look"),
        (("figure-out-of-band",), "LOOK", "1 ask for a look before filing"),
        (("figure-out-of-band", "text-in-number-cell"), "OPEN", "not fit to file"),
    ],
)
def test_findings_decide_whether_the_year_is_fit_to_file(
    codes: tuple[str, ...], state: str, words: str
) -> None:
    """The first verdict is the worst level among the findings."""
    findings = tuple(CODES[code].at(Where("a.xlsx"), "something") for code in codes)

    first = verdicts(plain_works(), findings)[0]

    assert first.state == state
    assert words in first.text


def test_checks_that_hold_in_every_month_are_counted() -> None:
    """A works inside every band passes all its checks in one line."""
    verdict = verdicts(plain_works())[-1]

    assert verdict.state == "PASS"
    assert verdict.text.startswith("11 of 11 figures on Checks hold")


def test_a_check_names_the_months_outside_its_limits() -> None:
    """A month that asks for a look is named with its figure, beside those that hold."""
    made = plain_works()
    made.series["power"].values[[1, 6]] = 6_000.0  # 200 kWh by tonne, above 150

    verdict = on(made, "power by tonne of ammonia")

    assert verdict.state == "LOOK"
    assert verdict.text.endswith("LOOK in February, July")


def test_a_check_that_judged_no_month_has_not_held() -> None:
    """Figures that could be given in no month are counted apart and ask for a look."""
    made = plain_works()
    made.series["feed gas"].values[:] = np.nan

    held, idle = verdicts(made)[-2:]

    # fuel CO2 and power do not need the feed; the other nine figures do
    assert (held.state, idle.state) == ("PASS", "LOOK")
    assert held.text.startswith("2 of 11 figures")
    assert idle.text.startswith("9 of 11 figures")


@pytest.mark.parametrize(("third", "state"), [(4.0e6, "PASS"), (3.4e6, "LOOK"), (1.5e6, "OPEN")])
def test_the_closure_of_the_year_is_held_against_the_limits_of_its_months(
    third: float, state: str
) -> None:
    """The gas header passes to 1.5 %, is looked at to 4 % and open beyond.

    Source: limits of `sub-meters against purchase meter` in factors/limits.csv.
    """
    made = plain_works()
    made.counted("fence", "purchased gas", "Nm3", 30.0e6, analysis="natural gas")
    made.counted("neighbour", "gas to third parties", "Nm3", third, analysis="natural gas")

    assert on(made, "carbon at the gas header").state == state


def test_nodes_closed_by_difference_are_named_as_no_proof() -> None:
    """What follows from the others is told as such, and never passes."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)

    verdict = on(made, "closed by difference")

    assert verdict.state == "LOOK"
    assert "CO2 removal" in verdict.text
