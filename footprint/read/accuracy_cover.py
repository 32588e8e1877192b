"""How wide a statement of uncertainty covers: coverage factor, interval, limits, class."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from statistics import NormalDist

from footprint.base.cause import Distribution

_NUMBER = r"([0-9]+(?:[.,][0-9]+)?)"
_FACTOR = re.compile(rf"k\s*=\s*{_NUMBER}")
_LEVEL = re.compile(rf"{_NUMBER}\s*%(?: (?:interval|confidence|coverage|level|probability))*")
_FREEDOM = re.compile(rf"(?:nu|ν|dof)\s*=\s*{_NUMBER}|{_NUMBER} (?:degrees? of freedom|dof)")
_ITEMS = re.compile(r"\s*(?:;|,(?!\d)|\band\b)\s*")
_LEAST_LEVEL, _MOST_LEVEL = 50.0, 99.99  # per cent; beyond them it is a slip of the pen
# half-width over standard uncertainty: JCGM 100:2008, 4.3.7 to 4.3.9 (from memory); a U-shape in
# 4.3.5 of its notes and in H.1.3.4
_SHAPES: dict[str, tuple[float, Distribution]] = {
    "limits": (math.sqrt(3), "rectangular"),
    "mpe": (math.sqrt(3), "rectangular"),
    "maximum permissible error": (math.sqrt(3), "rectangular"),
    "rectangular": (math.sqrt(3), "rectangular"),
    "triangular": (math.sqrt(6), "triangular"),
    "arcsine": (math.sqrt(2), "arcsine"),
    "u-shaped": (math.sqrt(2), "arcsine"),
    "standard": (1.0, "normal"),
}
_NORMAL = ("normal", "gaussian")
# limits in per cent of the reading; letters: EN 50470-3 (from memory); S: IEC 62053-22 (scope of
# the standard was seen, limits at rated current and power factor 1 from memory)
_CLASSES = {"a": 2.0, "b": 1.0, "c": 0.5, "0.1s": 0.1, "0.2s": 0.2, "0.5s": 0.5}
_LARGEST_CLASS = 5.0  # per cent


@dataclass(frozen=True, slots=True)
class Cover:
    """How wide a stated half-width is against the standard uncertainty.

    Attributes:
        divisor: half-width over standard uncertainty. [1]
        distribution: of the error. [text]
        degrees_of_freedom: infinite where nothing is said. [1]
    """

    divisor: float
    distribution: Distribution = "rectangular"
    degrees_of_freedom: float = math.inf


def cover_of(said: str) -> Cover | None:
    """Return what the words behind a number mean; None where they leave the width open.

    An interval in per cent is that of a normal distribution; with degrees of freedom beside it the
    factor k must be stated, since certificates differ in which they use.

    Args:
        said: such as "k=2", "95 %", "limits", "k=2.13, 16 degrees of freedom". [text]

    Source: JCGM 100:2008, clause 4.3 and annex G (from memory)
    """
    widths: list[tuple[float, str]] = []
    shapes: list[Distribution] = []
    freedoms: list[float] = []
    for item in filter(None, _ITEMS.split(" ".join(said.lower().split()))):
        if match := _FACTOR.fullmatch(item):
            widths.append((_number(match[1]), "factor"))
        elif match := _FREEDOM.fullmatch(item):
            freedoms.append(_number(match[1] or match[2]))
        elif match := _LEVEL.fullmatch(item):
            widths.append((_factor_at(_number(match[1])), "level"))
        elif item in _SHAPES:
            widths.append((_SHAPES[item][0], "shape"))
            shapes.append(_SHAPES[item][1])
        elif item in _NORMAL:
            shapes.append("normal")
        else:
            return None
    return _joined(widths, shapes, freedoms)


def class_limits(name: str, *, is_in_service: bool) -> float | None:
    """Return the limits of error of an accuracy class, None if it is no class.

    A class is named after the limits in per cent at usual flow or rated current; in service the law
    allows a gas meter twice as much.

    Args:
        name: such as "0.5S", "C" or "1.5". [text]
        is_in_service: whether the limits in service are meant. [flag]

    Returns:
        half-width. [% of the reading]

    Source: IEC 62053-22, EN 50470-3, Directive 2014/32/EU, annex IV (all from memory)
    """
    key = name.lower().replace(",", ".")
    if key not in _CLASSES and not re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", key):
        return None
    limits = _CLASSES[key] if key in _CLASSES else float(key)
    if not 0 < limits <= _LARGEST_CLASS:
        return None
    return limits * (2 if is_in_service else 1)


def _joined(
    widths: list[tuple[float, str]], shapes: list[Distribution], freedoms: list[float]
) -> Cover | None:
    """Return one width, one shape and one number of degrees of freedom, if they fit."""
    kinds = {kind for _, kind in widths}
    stated = [width for width, kind in widths if kind != "shape" or "factor" not in kinds]
    freedom = freedoms[0] if freedoms else math.inf
    if len(stated) != 1 or not stated[0] > 0 or len(shapes) > 1 or len(freedoms) > 1:
        return None
    shape: Distribution = shapes[0] if shapes else "normal"
    is_plain = shape == "normal" and math.isinf(freedom)
    if not freedom > 0 or ("level" in kinds and not is_plain):
        return None
    return Cover(stated[0], shape, freedom)


def _factor_at(level: float) -> float:
    """Return the half-width of an interval of a normal distribution over its deviation."""
    if not _LEAST_LEVEL <= level <= _MOST_LEVEL:
        return 0.0
    return NormalDist().inv_cdf((1 + level / 100) / 2)


def _number(text: str) -> float:
    return float(text.replace(",", "."))
