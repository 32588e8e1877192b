"""The commands: what they print, what they write, and the status they end with."""

from __future__ import annotations

import json
from pathlib import Path

import openpyxl
import pytest

from footprint import cli
from tests.findings.site_folder import SiteFolder, good_site
from tests.sites.sample_modules import SAMPLE

Caught = pytest.CaptureFixture[str]


def written(site: SiteFolder) -> str:
    """Return the path of a site after its files were written."""
    site.read()
    return str(site.path)


def with_bad_cell(folder: Path) -> str:
    """Return a site whose feed meter has a word where a number is needed."""
    site = good_site(folder)
    site.put("Gas", "B10", "no signal")
    return written(site)


def refused(words: list[str], capsys: Caught) -> str:
    """Return what is said of a wrong command line, which must end with its own status."""
    with pytest.raises(SystemExit) as ended:
        cli.main(words)
    assert ended.value.code == cli.WRONG_COMMAND
    return capsys.readouterr().err


@pytest.mark.parametrize(
    ("word", "nearest"),
    [("reprot", "report"), ("chek", "check"), ("explane", "explain"), ("factor", "factors")],
)
def test_an_unknown_command_offers_the_nearest(word: str, nearest: str, capsys: Caught) -> None:
    """A slip of the pen is told with the command that was meant, and status 2."""
    said = refused([word, "folder"], capsys)

    assert f'there is no command "{word}", the nearest is "{nearest}"' in said
    assert "footprint --help" in said


def test_a_word_like_no_command_offers_none(capsys: Caught) -> None:
    """A word that resembles no command is told without a guess."""
    said = refused(["xyzzy"], capsys)

    assert 'there is no command "xyzzy"\n' in said
    assert "nearest" not in said


@pytest.mark.parametrize("words", [[], ["report"], ["explain"], ["check", "a", "--nothing"]])
def test_an_incomplete_command_line_ends_with_two(words: list[str], capsys: Caught) -> None:
    """What is missing or unknown is told in a line, with status 2 and no traceback."""
    said = refused(words, capsys)

    assert said.startswith("footprint: ")
    assert "Traceback" not in said


def test_explain_offers_the_nearest_codes(capsys: Caught) -> None:
    """An unknown code is told with those that resemble it, and status 2."""
    status = cli.main(["explain", "gas-volume-without-condition"])

    said = capsys.readouterr().err
    assert status == cli.WRONG_COMMAND
    assert "gas-volume-without-conditions" in said


def test_explain_of_a_known_code_ends_well(capsys: Caught) -> None:
    """A known code is explained, with status 0."""
    status = cli.main(["explain", "gas-volume-without-conditions"])

    assert status == cli.GOOD
    assert "how to mend it: " in capsys.readouterr().out


def test_factors_are_found_by_their_words(capsys: Caught) -> None:
    """The search prints quantity, value, unit, evidence and document, a line each."""
    status = cli.main(["factors", "molar", "mass", "methane"])

    lines = capsys.readouterr().out.splitlines()
    assert status == cli.GOOD
    assert all("molar mass" in line for line in lines)
    # molar mass of methane: ISO 6976:2016, table 1, all its digits
    assert any(line.startswith("molar mass of methane: 16.04246 kg/kmol [") for line in lines)
    assert all("ISO 6976:2016" in line for line in lines)


def test_factors_that_do_not_exist_end_with_two(capsys: Caught) -> None:
    """Words that no factor holds are told."""
    status = cli.main(["factors", "phlogiston"])

    assert status == cli.WRONG_COMMAND
    assert 'no factor holds the words "phlogiston"' in capsys.readouterr().err


def test_check_of_a_good_site_ends_well(tmp_path: Path, capsys: Caught) -> None:
    """A site without a finding that stops a figure ends with status 0, and nothing is written."""
    folder = written(good_site(tmp_path))
    before = sorted(tmp_path.iterdir())

    status = cli.main(["check", folder])

    assert status == cli.GOOD
    assert "findings: 0 stop" in capsys.readouterr().out
    assert sorted(tmp_path.iterdir()) == before


def test_check_of_a_bad_cell_names_it_and_ends_with_one(tmp_path: Path, capsys: Caught) -> None:
    """A word in a column of numbers is printed with file, sheet and cell, and status 1."""
    status = cli.main(["check", with_bad_cell(tmp_path)])

    said = capsys.readouterr().out
    assert status == cli.STOPPED
    assert "stop[text-in-number-cell]" in said
    assert "where: meters.xlsx > Gas > B10" in said
    assert "no signal" in said
    assert "mend:" in said


def test_check_for_a_program_is_json(tmp_path: Path, capsys: Caught) -> None:
    """The findings can be read by a program, with code, level, place and words."""
    status = cli.main(["check", with_bad_cell(tmp_path), "--json"])

    findings = json.loads(capsys.readouterr().out)
    assert status == cli.STOPPED
    bad = next(one for one in findings if one["code"] == "text-in-number-cell")
    assert bad["level"] == "stop"
    assert bad["where"]["cell"] == "B10"
    assert {"what", "why", "mend", "read"} <= bad.keys()


def test_findings_are_printed_by_file_the_worst_first(tmp_path: Path, capsys: Caught) -> None:
    """Findings of one file stand together, those that stop a figure before the others."""
    site = good_site(tmp_path)
    site.put("Gas", "B10", "no signal")
    site.put("Gas", "C12", "300000")
    site.put("Natural gas", "B5", "lost")

    cli.main(["check", written(site)])

    lines = capsys.readouterr().out.splitlines()
    files = [
        line.removeprefix("  where: ").partition(" >")[0] for line in lines if "where:" in line
    ]
    assert files == sorted(files, key=files.index)
    levels = [line.partition("[")[0] for line in lines if line and line[0] in "swn" and "[" in line]
    meters = [level for level, file in zip(levels, files, strict=True) if file == "meters.xlsx"]
    assert meters == sorted(meters, key=["stop", "warn", "note"].index)
    assert len(meters) > 1


def test_a_folder_without_site_file_ends_with_one(tmp_path: Path, capsys: Caught) -> None:
    """A folder in which nothing says what is where is a finding, not a fault of the program."""
    status = cli.main(["report", str(tmp_path / "nowhere"), "--out", str(tmp_path / "a.xlsx")])

    assert status == cli.STOPPED
    assert "stop[no-site-file]" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []


def test_a_broken_site_file_writes_nothing(tmp_path: Path, capsys: Caught) -> None:
    """With a site file that cannot be understood the report says so and leaves no file."""
    site, out = tmp_path / "site", tmp_path / "out"
    site.mkdir()
    out.mkdir()
    written(good_site(site))
    (site / "site.toml").write_text('[works\nname = "x"', encoding="utf-8")

    status = cli.main(
        ["report", str(site), "--out", str(out / "a.xlsx"), "--json", str(out / "a.json")]
    )

    assert status == cli.STOPPED
    assert list(out.iterdir()) == []
    assert "nothing was written" in capsys.readouterr().out


def test_a_bad_cell_blocks_its_figures_and_not_the_workbook(tmp_path: Path, capsys: Caught) -> None:
    """The workbook is written and marked not fit to file, with status 1."""
    site = tmp_path / "site"
    site.mkdir()
    target = tmp_path / "a.xlsx"

    status = cli.main(["report", with_bad_cell(site), "--out", str(target)])

    assert status == cli.STOPPED
    assert "NOT FIT TO FILE" in capsys.readouterr().out
    first = openpyxl.load_workbook(target, read_only=True).worksheets[0]
    words = [str(cell) for row in first.iter_rows(values_only=True) for cell in row if cell]
    assert any("not fit to file" in text.lower() for text in words)


def test_report_writes_workbook_and_rows(tmp_path: Path, capsys: Caught) -> None:
    """The sample gives a workbook that opens and every row by its key, with status 0."""
    target, rows = tmp_path / "sample.xlsx", tmp_path / "rows.json"

    status = cli.main(["report", str(SAMPLE), "--out", str(target), "--json", str(rows)])

    assert status == cli.GOOD
    assert f"workbook: {target}" in capsys.readouterr().out
    assert openpyxl.load_workbook(target, read_only=True).sheetnames[0] == "At a glance"
    held = json.loads(rows.read_text(encoding="utf-8"))
    assert held["year"] == 2025
    assert held["is fit to file"] is True
    assert any(key.endswith("process CO2/CO2/by purpose") for key in held["rows"])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["rows.json", "sample.xlsx"]


def test_without_a_name_the_workbook_is_named_after_works_and_year(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The workbook stands where the command was given, under the name of the works."""
    site = tmp_path / "site"
    site.mkdir()
    folder = written(good_site(site))
    monkeypatch.chdir(tmp_path)

    cli.main(["report", folder])

    assert (tmp_path / "test-works-2025.footprint.xlsx").is_file()
