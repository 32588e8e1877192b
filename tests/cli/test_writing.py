"""What is written stands there whole, or not at all, and never over what was read."""

from __future__ import annotations

import json
from pathlib import Path
from typing import NoReturn

import pytest

from footprint import Result, cli
from footprint.report import workbook
from tests.findings.site_folder import good_site

Caught = pytest.CaptureFixture[str]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder that holds a good site and a place for what is written."""
    (tmp_path / "site").mkdir()
    (tmp_path / "out").mkdir()
    good_site(tmp_path / "site").read()
    return tmp_path


def failing(problem: Exception) -> object:
    """Return something that fails when it is called."""

    def fail(*_: object) -> NoReturn:
        raise problem

    return fail


def test_a_workbook_that_fails_half_way_leaves_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When writing breaks off, neither the workbook nor a part of it is left."""
    monkeypatch.setattr(workbook, "write_how", failing(RuntimeError("broken off")))

    with pytest.raises(RuntimeError, match="broken off"):
        cli.main(["report", str(folder / "site"), "--out", str(folder / "out" / "a.xlsx")])

    assert list((folder / "out").iterdir()) == []


def test_the_workbook_of_before_stays_until_the_new_one_is_whole(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When writing breaks off, the file that was to be replaced is what it was."""
    target = folder / "out" / "a.xlsx"
    target.write_bytes(b"the workbook of last month")
    monkeypatch.setattr(workbook, "write_how", failing(RuntimeError("broken off")))

    with pytest.raises(RuntimeError):
        cli.main(["report", str(folder / "site"), "--out", str(target)])

    assert target.read_bytes() == b"the workbook of last month"
    assert list(target.parent.iterdir()) == [target]


def test_a_full_disk_is_told_without_a_traceback(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: Caught
) -> None:
    """What the system refuses to write is told with its reason, and status 2."""
    problem = OSError(28, "No space left on device")
    monkeypatch.setattr(workbook, "write_how", failing(problem))
    target = folder / "out" / "a.xlsx"

    status = cli.main(["report", str(folder / "site"), "--out", str(target)])

    assert status == cli.WRONG_COMMAND
    assert f'"{target}" cannot be written: No space left on device' in capsys.readouterr().err
    assert list((folder / "out").iterdir()) == []


def test_rows_that_cannot_be_written_leave_no_part(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the rows cannot be moved into place, no half file is left beside them."""
    monkeypatch.setattr(Path, "replace", failing(PermissionError(13, "Permission denied")))
    monkeypatch.setattr(Result, "write", lambda *_: None)
    rows = folder / "out" / "rows.json"

    status = cli.main(["report", str(folder / "site"), "--json", str(rows)])

    assert status == cli.WRONG_COMMAND
    assert list((folder / "out").iterdir()) == []


def test_rows_have_no_figure_that_is_no_number(folder: Path) -> None:
    """A figure that cannot be given is words in the rows, since the format knows no NaN."""
    site = good_site(folder / "site")
    site.put("Gas", "B10", "no signal")
    site.read()
    rows = folder / "out" / "rows.json"

    cli.main(
        ["report", str(site.path), "--out", str(folder / "out" / "a.xlsx"), "--json", str(rows)]
    )

    text = rows.read_text(encoding="utf-8")
    assert "NaN" not in text
    assert "cannot be given" in text
    assert json.loads(text)["is fit to file"] is False


@pytest.mark.parametrize("name", ["meters.xlsx", "laboratory.xlsx"])
def test_a_file_that_was_read_is_never_written_over(
    folder: Path, name: str, capsys: Caught
) -> None:
    """Naming one of the site's own spreadsheets as target is refused, and it stays as it is."""
    own = folder / "site" / name
    before = own.read_bytes()

    status = cli.main(["report", str(folder / "site"), "--out", str(own)])

    assert status == cli.WRONG_COMMAND
    assert "is one of the files that are read" in capsys.readouterr().err
    assert own.read_bytes() == before


def test_the_site_file_is_never_written_over(folder: Path) -> None:
    """Naming the site file as target of the rows is refused, and it stays as it is."""
    own = folder / "site" / "site.toml"
    before = own.read_bytes()
    target = folder / "out" / "a.xlsx"

    status = cli.main(["report", str(folder / "site"), "--out", str(target), "--json", str(own)])

    assert status == cli.WRONG_COMMAND
    assert own.read_bytes() == before
    assert not target.exists()


@pytest.mark.parametrize(
    ("target", "said"),
    [
        ("nowhere/a.xlsx", "does not exist"),
        ("out", "is a folder, not a file"),
        ("out/a.csv", "does not end in .xlsx"),
    ],
)
def test_a_target_that_cannot_be_is_refused_before_reading(
    folder: Path, target: str, said: str, capsys: Caught
) -> None:
    """A target that could never be written is told at once, with status 2."""
    status = cli.main(["report", str(folder / "site"), "--out", str(folder / target)])

    caught = capsys.readouterr()
    assert status == cli.WRONG_COMMAND
    assert said in caught.err
    assert caught.out == ""
