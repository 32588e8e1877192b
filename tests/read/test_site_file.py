from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from footprint.read import load_site
from tests.findings.site_folder import SiteFolder, good_site
from tests.sites.site_text import site_text


def mends(path: Path, change: Callable[[SiteFolder], object]) -> list[str]:
    """Return the mends of all findings in a site file after a change."""
    folder = good_site(path)
    change(folder)
    (path / "site.toml").write_text(site_text(folder.site), encoding="utf-8")
    return [one.mend for one in load_site(path)[1]]


def test_good_site_file_is_read(tmp_path: Path) -> None:
    """A site file without slips is returned without findings."""
    (tmp_path / "site.toml").write_text(site_text(good_site(tmp_path).site), encoding="utf-8")

    site, findings = load_site(tmp_path)

    assert findings == []
    assert site is not None
    assert site.meter("FT-1").column == "Feed gas"
    assert [stream.name for stream in site.with_role("feed", "fuel")] == ["feed", "fuel"]


def test_mark_of_the_encoding_is_allowed(tmp_path: Path) -> None:
    """A site file saved with a byte order mark is read."""
    text = site_text(good_site(tmp_path).site)
    (tmp_path / "site.toml").write_text(text, encoding="utf-8-sig")

    assert load_site(tmp_path)[0] is not None


@pytest.mark.parametrize(
    ("change", "mend"),
    [
        (
            lambda folder: folder.meter("FT-1").update(paint="red"),
            "mend the spelling, or remove the key",
        ),
        (
            lambda folder: folder.meter("FT-1").update(colunm="Feed gas"),
            'write it "column", if that is meant, or remove it',
        ),
        (
            lambda folder: folder.stream("ammonia").update(role="CO2 sold"),
            "add is_counted_elsewhere = true or false to the stream",
        ),
        (
            lambda folder: folder.meter("FT-1").update(rows="dayly"),
            'write "daily", if that is meant',
        ),
        (
            lambda folder: folder.site["works"].update(gwp_set="2007"),
            'write one of "AR4", "AR5", "AR6"',
        ),
        (
            lambda folder: folder.site["works"].update(year=1998),
            "write a value at least 2005 for year",
        ),
        (
            lambda folder: folder.site["works"]["plan"].update(approved="2024-11-01"),
            "write approved as a date without quotes, such as 2025-03-31",
        ),
        (
            lambda folder: folder.stream("feed").update(is_counted_elsewhere="no"),
            "write is_counted_elsewhere as true or false, without quotes",
        ),
        (
            lambda folder: folder.stream("feed").update(mixed_with="purge gas"),
            'write mixed_with as a list in square brackets, such as ["purge gas"]',
        ),
        (
            lambda folder: folder.stream("feed").update(analysis="naturla gas"),
            'write "natural gas", if that is meant',
        ),
        (
            lambda folder: folder.stream("feed").update(meter="FT-11"),
            'write "FT-1", if that is meant',
        ),
        (
            lambda folder: folder.site["works"].update(country=""),
            'write country as two capital letters, such as "GB"',
        ),
        (
            lambda folder: folder.meter("FT-1").update(tag=""),
            "write tag as a text that is not empty",
        ),
        (
            lambda folder: folder.site["works"].update(bases=[]),
            "write bases as a list of at least 1",
        ),
        (
            lambda folder: folder.site["units"].append(dict(folder.site["units"][0])),
            "write units as a list of at most 1",
        ),
    ],
)
def test_slip_has_an_exact_mend(
    change: Callable[[SiteFolder], object], mend: str, tmp_path: Path
) -> None:
    """A slip in the site file is told with the one thing to write."""
    assert mend in mends(tmp_path, change)


def test_all_slips_are_told_in_one_run(tmp_path: Path) -> None:
    """Slips in different entries are all told, each with its own place."""
    folder = good_site(tmp_path)
    folder.meter("FT-1")["rows"] = "dayly"
    folder.meter("FT-2").pop("column")
    folder.site["works"]["year"] = "2025"
    (tmp_path / "site.toml").write_text(site_text(folder.site), encoding="utf-8")

    site, findings = load_site(tmp_path)

    assert site is None
    assert sorted(one.code for one in findings) == [
        "missing-key",
        "unknown-choice",
        "wrong-kind-of-value",
    ]


def test_infinity_is_no_value(tmp_path: Path) -> None:
    """A number without end is refused like any other wrong value."""
    folder = good_site(tmp_path)
    text = site_text(folder.site).replace("1000.0", "inf")
    (tmp_path / "site.toml").write_text(text, encoding="utf-8")

    site, findings = load_site(tmp_path)

    assert site is None
    assert [one.code for one in findings] == ["wrong-kind-of-value"]


def test_warning_keeps_the_site(tmp_path: Path) -> None:
    """A note or warning about the site file does not withhold it."""
    folder = good_site(tmp_path)
    folder.site["meters"].append({**folder.meter("FT-1"), "tag": "FT-9"})
    (tmp_path / "site.toml").write_text(site_text(folder.site), encoding="utf-8")

    site, findings = load_site(tmp_path)

    assert site is not None
    assert [one.level for one in findings] == ["note"]
