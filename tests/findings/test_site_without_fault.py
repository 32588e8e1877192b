from __future__ import annotations

from pathlib import Path

from tests.findings.site_folder import good_site


def test_site_without_fault_has_no_finding(tmp_path: Path) -> None:
    """The site in which the other tests make one fault each has no finding by itself."""
    folder = good_site(tmp_path)

    readings, findings = folder.read()

    assert findings == []
    assert readings is not None
    assert set(readings.series) == {"FT-1", "FT-2", "WB-3", "LAB-3", "EM-4", "LT-5"}
