"""Samples with a lumped fraction of heavier hydrocarbons, and their tolerance."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from footprint.base.row import ancestry
from footprint.measure import measure
from tests.findings.site_folder import SiteFolder, good_site
from tests.sites.hand_made import factors


def with_split(path: Path, heading: str = "C6+", **keys: Any) -> SiteFolder:
    """Return a site whose ethane column is a lumped fraction, half hexane and half heptane."""
    folder = good_site(path)
    folder.put("Natural gas", "C3", heading)
    shares = {"n-hexane": 0.5, "n-heptane": 0.5}
    folder.site["analyses"][0] |= {"plus_fraction": shares, **keys}
    return folder


@pytest.mark.parametrize(
    ("heading", "keys"), [("C6+", {}), ("Heavies", {"plus_column": "Heavies"})]
)
def test_a_lumped_fraction_is_split_by_the_shares_of_the_site_file(
    tmp_path: Path, heading: str, keys: dict[str, str]
) -> None:
    """Three per cent of C6+ are 1.5 of hexane and 1.5 of heptane, each with the cell it is from."""
    readings, findings = with_split(tmp_path, heading, **keys).read()

    assert readings is not None
    series = readings.analyses["natural gas"]
    assert findings == []
    assert series.components[-2:] == ("n-hexane", "n-heptane")
    assert series.values[0, -2:].tolist() == [1.5, 1.5]
    assert series.origins[0][-1].cell == "C4"


def test_the_split_is_a_live_formula(tmp_path: Path) -> None:
    """Each part is the lumped fraction as read times its share, so that both can be typed over."""
    readings, _ = with_split(tmp_path).read()
    assert readings is not None

    measured, _ = measure(readings, factors())

    fraction = measured.gas["feed"].carbon
    words = {row.key for row in ancestry([fraction])}
    assert "gas/natural gas/heavier hydrocarbons/as read" in words
    assert "gas/natural gas/n-heptane/share of the lumped fraction" in words
    assert "gas/natural gas/n-heptane/of the lumped fraction" in words


@pytest.mark.parametrize(("tolerance", "count"), [(0.5, 1), (1.0, 0), (2.0, 0)])
def test_the_tolerance_of_an_analysis_is_its_own(
    tmp_path: Path, tolerance: float, count: int
) -> None:
    """A sample that sums to 99.2 is told where the site file allows less than 0.8."""
    folder = good_site(tmp_path)
    folder.put("Natural gas", "B6", 93.2)
    folder.site["analyses"][0]["tolerance_percent"] = tolerance

    _, findings = folder.read()

    assert [one.what for one in findings] == ["the components sum to 99.2 mole per cent"] * count
    assert all(f"more than {tolerance:g} from 100" in one.why for one in findings)
