from __future__ import annotations

import pytest

from footprint.base.finding import CODES, Finding, Where, declare, worst

PLACE = Where("feed_2024.xlsx", "March", "D7", "Flow, m3")


def finding(level: str = "stop") -> Finding:
    """Return a finding with all its parts."""
    return Finding(
        "gas-volume-without-conditions",
        level,  # type: ignore[arg-type]  # one of the three
        'unit "m3" does not say at which temperature and pressure',
        PLACE,
        "184 320 m3",
        "the same gas fills 5.5 % more at 15 °C than at 0 °C",
        "write Nm3 in D4",
    )


def test_a_finding_is_told_in_five_lines() -> None:
    """What, where, as read, why, how to mend: each on its line."""
    assert finding().in_words().splitlines() == [
        f"stop[gas-volume-without-conditions] {finding().what}",
        '  where: feed_2024.xlsx > March > D7 (column "Flow, m3")',
        "  read:  184 320 m3",
        "  why:   the same gas fills 5.5 % more at 15 °C than at 0 °C",
        "  mend:  write Nm3 in D4",
    ]


def test_parts_that_do_not_apply_are_left_out() -> None:
    """A finding without a place and a text has no empty lines."""
    bare = Finding("x", "note", "chosen", Where(), "", "small", "nothing")

    assert [line.split(":")[0].strip() for line in bare.in_words().splitlines()[1:]] == [
        "why",
        "mend",
    ]


def test_the_worst_level_is_that_of_the_most_serious_finding() -> None:
    """One stop among notes is a stop; nothing found is nothing."""
    assert worst([finding("note"), finding("stop"), finding("warn")]) == "stop"
    assert worst([finding("note"), finding("warn")]) == "warn"
    assert worst([]) is None


def test_a_code_is_declared_once() -> None:
    """Two kinds of finding cannot share a name."""
    words = {"means": "m", "effect": "e", "mend": "do", "example": "x"}
    code = declare("a-code-of-this-test", "warn", **words)

    with pytest.raises(ValueError, match="declared twice"):
        declare("a-code-of-this-test", "warn", **words)

    assert CODES.pop("a-code-of-this-test") is code


def test_a_finding_takes_the_words_of_its_kind() -> None:
    """Why and how to mend come from the kind unless said more exactly."""
    words = {"means": "m", "effect": "the sum is short", "mend": "enter it", "example": "x"}
    code = declare("another-code-of-this-test", "warn", **words)
    del CODES["another-code-of-this-test"]

    plain, exact = code.at(PLACE, "gap"), code.at(PLACE, "gap", why="by 3 t", mend="enter D7")

    assert (plain.why, plain.mend) == ("the sum is short", "enter it")
    assert (exact.why, exact.mend) == ("by 3 t", "enter D7")
