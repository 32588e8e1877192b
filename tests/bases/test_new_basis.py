"""A new basis needs one module: here a small one, made in forty lines and applied to the sample.

The return is of our own making: fuel bought by a works, in TJ net, for a statistician.
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from footprint import run
from footprint.base.finding import Finding
from footprint.base.formulas import convert, named_sum
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.base.units import unit
from footprint.bases import Basis, every
from footprint.bases.basis import Lacking
from footprint.bases.effects import effect_of, gross_of, rounding_effect
from footprint.bases.rules import Rules
from tests.sites.builders import clean_twin

NAME = "Fuel statistics"
RULE = ("a return of our own making", "practice")


def fuel_statistics(rules: Rules) -> tuple[Basis, list[Finding]]:
    """Return fuel bought by kind, in TJ net, and CO2 of nothing at all."""
    gases = [flow.net for flow in rules.measured.gases("purchased gas")]
    others = [fuel.net for fuel in rules.measured.fuel.values()]
    lines = [
        rules.filed(str(place), words, in_terajoule(rules, rows, words), RULE)
        for place, (words, rows) in enumerate(
            {"natural gas bought": gases, "other fuels": others}.items(), 1
        )
        if rows
    ]
    nothing = step(-gross_of(rules) + gross_of(rules), rules.key(NAME, "CO2e", "none"), "none", "")
    total = rules.filed("total", "CO2 is not asked for", nothing, RULE)
    taken_off = effect_of(rules, NAME, "carbon counted", -gross_of(rules), "energy alone")
    shown = tuple(rules.line(line.exact) for line in lines if line.exact.axis.kind == "months")
    basis = Basis(
        NAME,
        f"Return, {NAME}",
        (*lines, total),
        (Section("Fuel bought", shown),) if shown else (),
        ("A return of our own making.",),
        total=total.filed,
        effects=(taken_off, rounding_effect(rules, NAME, total.filed, total.exact)),
        lacking=(Lacking("3", "stock of coal", "no coal at this works", *RULE),),
    )
    return basis, []


def in_terajoule(rules: Rules, rows: list[Row], words: str) -> Row:
    """Return net energy of the year in TJ."""
    key = rules.key(NAME, words, "net")
    whole = named_sum([rules.context.year(row) for row in rows], key, words, "sum of the meters")
    return convert(whole, unit("TJ_net"), f"{key}, TJ", words)


def test_a_new_basis_is_one_function(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Entered under its name it is applied, filed, bridged and written like the others."""
    monkeypatch.setitem(every.BASES, NAME, fuel_statistics)
    clean_twin(tmp_path)
    site = tmp_path / "site.toml"
    text = site.read_text(encoding="utf-8")
    before, _, after = text.partition("bases = [")
    site.write_text(f'{before}bases = ["{NAME}", {after}', encoding="utf-8")

    result = run(tmp_path)
    result.write(tmp_path / "out.xlsx")

    book = openpyxl.load_workbook(tmp_path / "out.xlsx", data_only=True)
    lines = [[cell.value for cell in row] for row in book[f"Return, {NAME}"].iter_rows()]
    gas = next(line for line in lines if line[1] == "natural gas bought")
    figures = result.rows.set_index("key")["value"]
    of_meter = figures[[key for key in figures.index if "purchased gas/net energy" in key]]
    year = max(of_meter)  # the year is larger than each of its months
    assert gas[4] == pytest.approx(year / 1000)
    assert gas[2] == round(gas[4])
    assert any(line[1] == "stock of coal" for line in lines)
    steps = [[cell.value for cell in row] for row in book["Between bases"].iter_rows()]
    left = [line[3] for line in steps if line[0] == "left over"]
    assert len(left) >= 2
    assert all(abs(one) < 1e-6 for one in left)
