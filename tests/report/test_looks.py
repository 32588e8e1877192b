from __future__ import annotations

import pytest

from footprint.report.charts import BLACK, BLUE, GREEN, PURPLE, VERMILLION
from footprint.report.how import LEGEND
from footprint.report.looks import ROLES
from footprint.report.sankey import COLOURS, HEADER, SOURCE

WHITE = "#FFFFFF"


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour.

    Source: WCAG 2.1, definition of relative luminance
    """
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(first: str, second: str) -> float:
    """Return the contrast of two colours.

    Source: WCAG 2.1, definition of contrast ratio
    """
    low, high = sorted((luminance(first), luminance(second)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("role", sorted(ROLES))
def test_text_stands_out_from_its_fill(role: str) -> None:
    """Every role has a contrast of at least 4.5 : 1.

    Source: WCAG 2.1, success criterion 1.4.3
    """
    look = ROLES[role]  # type: ignore[index]  # every role

    assert contrast(look["font_color"], look.get("bg_color", WHITE)) >= 4.5


@pytest.mark.parametrize(
    "colour", [BLUE, VERMILLION, BLACK, GREEN, PURPLE, *COLOURS, HEADER, SOURCE]
)
def test_parts_of_charts_stand_out_from_white(colour: str) -> None:
    """Every colour of a chart or picture has a contrast of at least 3 : 1 on white.

    Source: WCAG 2.1, success criterion 1.4.11
    """
    assert contrast(colour, WHITE) >= 3


def test_the_contrast_of_black_on_white_is_21() -> None:
    """The measure itself is right.

    Source: WCAG 2.1: contrast ratios range from 1 to 21
    """
    assert contrast("#000000", WHITE) == pytest.approx(21)


def test_every_role_with_a_fill_is_explained() -> None:
    """A reader finds each colour and its second mark on the last sheet."""
    filled = {role for role, look in ROLES.items() if "bg_color" in look} - {"heading", "entry"}

    assert filled <= {role for role, _, _ in LEGEND}
