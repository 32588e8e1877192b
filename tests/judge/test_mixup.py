from __future__ import annotations

import pytest

from footprint.judge.mixup import likely_confusion

CASES = [
    # ratio of molar volumes, from the temperatures of the reference conditions: definition
    (288.15 / 273.15, "15 °C taken for 0 °C"),
    (293.15 / 273.15, "20 °C taken for 0 °C"),
    # 1 short ton = 2,000 lb of 0.45359237 kg: definition of the international pound
    (1000 / (2000 * 0.45359237), "short tons taken for metric tons"),
    # methane, gross over net at 25 °C: ISO 6976:2016 through independent copies
    (890.58 / 802.554, "gross taken for net"),
    # molar mass of CO2 over that of carbon: IUPAC abridged atomic weights (from memory)
    (44.009 / 12.011, "tonnes of CO2 taken for tonnes of carbon"),
]


@pytest.mark.parametrize(("ratio", "words"), CASES)
def test_a_known_ratio_names_the_confusion_both_ways(ratio: float, words: str) -> None:
    """A figure off by a known factor, or by one over it, names the likely confusion."""
    assert words in likely_confusion(1000 * ratio, 1000)
    assert words in likely_confusion(1000, 1000 * ratio)


@pytest.mark.parametrize("ratio", [1.0, 1.02, 1.2, 2.0, -1.055, 0.0])
def test_other_ratios_name_nothing(ratio: float) -> None:
    """A ratio that no known confusion makes gives no hint."""
    assert likely_confusion(1000 * ratio, 1000) == ""
