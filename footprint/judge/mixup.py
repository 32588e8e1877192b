"""Confusions that show as a ratio: the wrong unit behind a figure off by a known factor."""

from __future__ import annotations

CONFUSIONS = (  # ratio, half width, what it looks like
    (1.0549, 0.004, "cubic metres at 15 °C taken for 0 °C"),
    (1.0732, 0.004, "cubic metres at 20 °C taken for 0 °C"),
    (
        1.1023,
        0.003,
        "short tons taken for metric tons, or gross for net calorific value (1.10 to 1.11)",
    ),
    (1.1085, 0.003, "gross taken for net calorific value"),
    (3.6, 0.02, "gigajoules taken for megawatt hours"),
    (3.664, 0.02, "tonnes of CO2 taken for tonnes of carbon"),
    (24.0, 0.2, "amounts of a day taken for rates by the hour"),
    (35.3147, 0.2, "cubic feet taken for cubic metres"),
    (1000.0, 10.0, "a unit taken for its thousandfold"),
)


def likely_confusion(figure: float, expected: float) -> str:
    """Return the confusion that the ratio of two figures looks like; empty for none.

    Args:
        figure: what was found. [any]
        expected: what it should be near to. [same]

    Source: 288.15/273.15, 293.15/273.15, 1/0.90718474, natural gas gross over net, 44.009/12.011,
        1/0.3048 to the third power
    """
    if not expected or not figure or (figure < 0) != (expected < 0):
        return ""
    ratio = figure / expected
    for size, width, words in CONFUSIONS:
        if abs(ratio - size) <= width:
            return f"the ratio {ratio:.3f} is that of {words}"
        if abs(1 / ratio - size) <= width:
            return f"the ratio {ratio:.3f} is one over that of {words}"
    return ""
