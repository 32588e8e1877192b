"""What a value may be for what it measures: a molar mass is above 0, a share is 1 at most."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Allowed:
    """The values that a kind of quantity can take."""

    begins_with: str
    least: float
    is_least_itself_allowed: bool
    most: float = float("inf")

    @property
    def words(self) -> str:
        """The range in words."""
        low = f"{self.least:g} or more" if self.is_least_itself_allowed else f"above {self.least:g}"
        return low if self.most == float("inf") else f"{low} and at most {self.most:g}"

    def admits(self, value: float) -> bool:
        """Return whether a quantity of this kind can have the value.

        Args:
            value: the figure. [any]

        Source: definition
        """
        is_above = value >= self.least if self.is_least_itself_allowed else value > self.least
        return is_above and value <= self.most


_ABOVE_NOTHING = (
    "molar mass",
    "molar gas constant",
    "atomic weight",
    "compression factor",
    "vaporisation enthalpy",
    "net calorific value",
    "GWP100",
    "fuel requirement",
    "CO2 bound in",
    "ratio of CO2",
    "primary energy factor",
)
_NOT_NEGATIVE = (
    "standard uncertainty",
    "uncertainty",
    "gross calorific value",
    "carbon content",
    "carbon atoms",
    "hydrogen atoms",
    "nitrogen atoms",
    "oxygen atoms",
    "sulfur atoms",
    "CO2 emission factor",
    "CH4 emission factor",
    "N2O emission factor",
)
_SHARES = ("mole fraction", "oxidised share", "efficiency")
ALLOWED = (
    *(Allowed(words, 0.0, is_least_itself_allowed=False) for words in _ABOVE_NOTHING),
    *(Allowed(words, 0.0, is_least_itself_allowed=True) for words in _NOT_NEGATIVE),
    *(Allowed(words, 0.0, is_least_itself_allowed=False, most=1.0) for words in _SHARES),
)


def allowed_for(quantity: str) -> Allowed | None:
    """Return what a quantity may be, or None where any number is possible.

    Args:
        quantity: as in the factor files. [text]

    Source: definition
    """
    return next((kind for kind in ALLOWED if quantity.startswith(kind.begins_with)), None)
