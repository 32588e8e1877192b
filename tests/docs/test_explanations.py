"""Every kind of finding explains itself."""

from __future__ import annotations

import re

import pytest

from footprint import cli
from footprint.base.finding import CODES, LEVELS, Code

ALL = sorted(CODES.values(), key=lambda one: one.code)


@pytest.mark.parametrize("code", ALL, ids=lambda one: one.code)
def test_a_finding_has_words_for_meaning_effect_mending_and_example(code: Code) -> None:
    """Each part is there and is a line of prose; the name is in kebab case, the level known."""
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)+", code.code)
    assert code.level in LEVELS
    assert code.means.endswith(".")
    for words in (code.means, code.effect, code.mend, code.example):
        assert words.strip()
        assert "\n" not in words


@pytest.mark.parametrize("code", ALL, ids=lambda one: one.code)
def test_effect_and_mending_read_on_in_a_finding(code: Code) -> None:
    """Why and mend begin small and end without a full stop, as they stand behind their labels."""
    for words in (code.effect, code.mend):
        assert not words.endswith(".")
        assert words[0] == words[0].lower() or words.split()[0].isupper()


def test_explain_prints_all_that_is_known_of_a_finding(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The command shows level, meaning, effect, mending and example of each code, and ends well."""
    for code in ALL:
        status = cli.main(["explain", code.code])

        text = capsys.readouterr().out
        assert status == cli.GOOD
        for words in (code.code, code.level, code.means, code.effect, code.mend, code.example):
            assert words in text


def test_findings_of_all_stages_are_known_to_the_command() -> None:
    """Reading, measuring, balance, judging and the register each declare what they find."""
    codes = {one.code for one in ALL}

    assert {
        "missing-reading",
        "purity-not-given",
        "flow-cannot-be-known",
        "figure-against-physics",
        "factor-repeated",
    } <= codes
