"""Which bases are applied, and what is said of names that are not known."""

from __future__ import annotations

from datetime import date

import pytest

from footprint.base.finding import Finding
from footprint.bases import Basis, bases, every
from footprint.bases.rules import Rules
from footprint.register import NoFactorInForceError
from tests.sites.hand_made import plain_works


def applied(*names: str) -> tuple[list[Basis], list[Finding]]:
    """Return the bases of a plain works that asks for some names, and what was found."""
    made = plain_works()
    made.works = {**made.works, "bases": list(names)}
    return bases(made.account())


def test_a_name_that_is_not_known_is_a_finding_with_the_nearest() -> None:
    """A slip in the name of a basis stops it and says what is known."""
    found_bases, (finding,) = applied("IPPC 2006")

    assert found_bases == []
    assert finding.code == "unknown-basis"
    assert finding.level == "stop"
    assert finding.where.words == 'site.toml (column "works > bases")'
    assert finding.mend == 'write "IPCC 2006", if that is meant'


def test_a_basis_that_is_named_twice_is_applied_once() -> None:
    """The second mention is a finding."""
    found_bases, (finding,) = applied("IPCC 2006", "IPCC 2006")

    assert [one.name for one in found_bases] == ["IPCC 2006"]
    assert finding.what == '"IPCC 2006" is named twice'


def test_a_factor_that_is_not_in_force_stops_its_basis_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A basis that lacks a factor for the year is a finding; the others are given."""

    def lacking(rules: Rules) -> tuple[Basis, list[Finding]]:
        rules.factor("a factor that nobody published", "nowhere")
        raise AssertionError

    monkeypatch.setitem(every.BASES, "a basis without factors", lacking)

    found_bases, (finding,) = applied("a basis without factors", "IPCC 2006")

    assert [one.name for one in found_bases] == ["IPCC 2006"]
    assert finding.code == "no-factor-in-force"
    assert "a factor that nobody published" in finding.what
    assert NoFactorInForceError.__doc__


def test_what_the_site_file_leaves_out_stands_on_every_return() -> None:
    """A source that is left out on purpose is listed with its reason, author and day."""
    made = plain_works()
    entry = {
        "source": "refrigerant of the offices",
        "reason": "less than 1 t CO2e",
        "author": "A. Nobody",
        "when": date(2026, 1, 8),
    }
    made.more = {"excluded": [entry]}

    ((basis,), _) = bases(made.account())

    (left_out,) = basis.excluded
    assert left_out.source == "refrigerant of the offices"
    assert left_out.reason == "A. Nobody, 2026-01-08: less than 1 t CO2e"
