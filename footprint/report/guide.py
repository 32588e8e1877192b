"""How the figures are made, in words: the last sheet of the workbook."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.account import Account
from footprint.account.energy import BOUNDARY, FINAL, PRIMARY
from footprint.bases import Basis

CAUTIONS = (
    "This workbook computes from the files listed on Input files. It supports a return; it does "
    "not decide what must be reported. The permit, the approved monitoring plan, the programme's "
    "current text and the competent authority come first; only an accredited verifier can verify. "
    "Factors marked memory were not read in their document: check them against the current "
    "official text before filing. Nothing in this workbook may be used to operate or protect a "
    "plant: a CO2 vent by difference says nothing about whether a place is safe to breathe in. "
    "Local codes and licensed practice decide there."
)
OF_READINGS = {
    "From a cell to a figure": (
        "Every figure is a live formula. Follow it down: the sheet of a topic, By analysis "
        "period, By day, Readings; each reading names its file, sheet and cell. Type over a "
        "reading to see what moves."
    ),
    "Gas volume to amount": (
        "A metered volume is real gas at its stated reference condition. Amount is volume over "
        "molar volume of that gas, with its compression factor, by ISO 6976:2016."
    ),
    "Composition": (
        "Readings are made to sum to 1. Each sample speaks for the days that the site file says; "
        "volumes of those days weigh it; pieces are cut at month ends."
    ),
    "Calorific values": (
        "Gross and net at 25 °C from composition by ISO 6976:2016; all energy figures are net "
        "unless they say gross."
    ),
    "Wet gas": (
        "Water is saturation pressure over pressure (IAPWS R7-97(2012), equation 30), times the "
        "stated relative humidity; it is taken off before the dry analysis applies."
    ),
}
OF_FIGURES = {
    "Process and fuel": (
        "By purpose: feed carbon is process, fuel carbon is fuel. By point of release: removal "
        "stream, stacks, flare, vents. Purge, let-down and flash gas carbon is the bridge between "
        "the two and is counted once."
    ),
    "Carbon balance": (
        "A flow without a meter follows by difference where the network allows it, and is marked "
        "so. A node that was closed by difference shows no closure: it would prove nothing."
    ),
    "CO2 captured": (
        "Made, captured, sold, bound, stored and vented are separate lines. A net figure stands "
        "only on the sheet of a named basis, with its rule."
    ),
    "Energy boundary": f"{BOUNDARY} {FINAL} {PRIMARY}",
    "Least feed energy": (
        "B = 4 c + h - 2 o - 2 s reducing equivalents of all feeds, n their nitrogen atoms, r "
        "nitrogen to oxygen in air. Ammonia at most (r B + 2 n) / (3 r + 2), or B / 3 when the "
        "feed holds all the nitrogen."
    ),
    "Uncertainty": (
        "What a meter states as uncertainty is taken as shared by all its readings until it is "
        "calibrated or exchanged; what it states as repeatability is drawn anew at each reading "
        "and averages out. Devices and analysers that several meters name are shared by them. "
        "Where nothing is stated, wide limits of its kind are taken, and a finding says so. "
        "Published ranges of factors count as 95 % intervals; legal definitions, warming "
        "potentials and ratios that a programme prescribes, such as 44/12, have no error. The "
        "interval of a vent by difference is twice its standard uncertainty."
    ),
    "Cells": (
        "A missing reading shows no data; what depends on it cannot be given. Cells that may be "
        "typed over are readings; factors stand on Factors alone; colours repeat what a word "
        "beside them says."
    ),
}


def paragraphs(account: Account, every: Sequence[Basis]) -> tuple[tuple[str, str], ...]:
    """Return titled paragraphs on method, conventions and cautions.

    Args:
        account: the figures of the works. [account]
        every: the bases applied. [bases]

    Source: definition
    """
    record = account.measured.context.site.works.record
    counts = f"The {record} counts; sub-meters share out what it counts. Both splits are shown."
    return (
        ("Cautions", CAUTIONS),
        *OF_READINGS.items(),
        ("Meter of record", counts),
        *OF_FIGURES.items(),
        *((f"Doubts of {basis.name}", doubt) for basis in every for doubt in basis.doubts),
    )
