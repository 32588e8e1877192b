"""Faults of statements of uncertainty and of the devices that meters share."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.findings.case import Case, all_of
from tests.findings.site_folder import SiteFolder


def meter(tag: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that gives a meter some keys."""
    return lambda folder: folder.meter(tag).update(keys)


def device(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that declares a device."""
    return lambda folder: folder.site.setdefault("devices", []).append(keys)


def gas(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that gives the analyses some keys."""
    return lambda folder: folder.site["analyses"][0].update(keys)


FC = device(tag="FC-9", uncertainty="0.3 % (k=2)")
UNCERTAINTY_CASES = [
    Case(
        "unclear-uncertainty",
        meter("FT-2", repeatability="0.2 %"),
        "site.toml > meters[2] FT-2 > repeatability",
        '"0.2 %" does not say how wide it covers',
    ),
    Case(
        "unclear-uncertainty",
        meter("FT-2", uncertainty="class X"),
        "site.toml > meters[2] FT-2 > uncertainty",
        '"class X" names no known class',
    ),
    Case(
        "unclear-uncertainty",
        gas(uncertainty={"CH4": "about 1 %"}),
        "site.toml > analyses[1] natural gas > uncertainty > CH4",
        '"about 1 %" does not say how wide it covers',
    ),
    Case(
        "unclear-uncertainty",
        all_of(device(tag="FC-9", uncertainty="0.1 t (k=2)"), meter("FT-2", devices=["FC-9"])),
        "site.toml > meters[2] FT-2 > devices > FC-9",
        '"0.1 t (k=2)" is in another unit than the readings, Nm³ (0 °C, 101.325 kPa)',
    ),
    Case(
        "wrong-kind-of-value",
        gas(uncertainty={"CH4": 3}),
        "site.toml > analyses[1] natural gas > uncertainty > CH4",
        '"CH4" must be text in quotes, such as "FT-1101"',
    ),
    Case(
        "undeclared-device",
        all_of(FC, meter("FT-1", devices=["FC-9"]), meter("FT-2", devices=["FC-99"])),
        "site.toml > meters[2] FT-2 > devices",
        '"FC-99" is not declared',
    ),
    Case(
        "device-not-used",
        FC,
        "site.toml > devices[1] FC-9",
        'nothing uses "FC-9"',
    ),
    Case(
        "full-scale-without-range",
        meter("FT-2", uncertainty="0.5 % of full scale (limits)"),
        "site.toml > meters[2] FT-2 > range",
        "a share of full scale without range",
    ),
    Case(
        "uncertainty-of-unknown-component",
        gas(sampling={"CH5": "1 % (k=2)"}),
        "site.toml > analyses[1] natural gas > sampling > CH5",
        '"CH5" is no component',
    ),
    Case(
        "repeated-name",
        all_of(FC, FC, meter("FT-2", devices=["FC-9"])),
        "site.toml > devices[2] FC-9 > tag",
        '2 entries have the tag "FC-9"',
    ),
]
