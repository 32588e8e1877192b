"""What is taken where no uncertainty is stated: limits by kind, each with its source."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from footprint.base.finding import Finding, Where, declare
from footprint.base.source import EVIDENCE
from footprint.base.units import NONE, Unit, is_convertible, label, unit
from footprint.read.accuracy_words import Accuracy, Part
from footprint.read.roles import Purpose, kind_of
from footprint.register import Register

PREFIX = "limits of error where none are stated: "
SHOWN = 6  # names in a finding
BY_LEVEL = "precision by level of ASTM D1945, from memory"
UNSTATED = declare(
    "uncertainty-not-stated",
    "note",
    means="site.toml states no uncertainty for a meter, a laboratory or a number somebody answers "
    "for.",
    effect="limits that suit its kind are taken; they are wide on purpose, so that a certificate "
    "can only narrow them",
    mend='write what the certificate states, such as uncertainty = "1.5 % (k=2)"',
    example="a [[meters]] entry of a gas meter without uncertainty",
)
_GAS_VOLUMES = ("Nm3", "Sm3", "m3_20C", "scf_60F", "scf_68F", "m3_line", "kmol")
_KINDS = {
    "gas": "gas meter",
    "NH3": "meter of ammonia",
    "urea": "weigher of urea",
    "steam": "steam meter",
    "fuel": "meter of liquid fuel",
    "power": "electricity meter",
    "per cent": "laboratory result by mass",
    "temperature": "gas temperature",
    "pressure": "gas pressure",
    "pressure above atmosphere": "gas pressure",
    "bill": "supplier's bill",
}


def kind_of_meter(purposes: Sequence[Purpose], rows: str, read: Unit) -> str | None:
    """Return the kind of a meter as the table of defaults names it; None where it counts pieces.

    Args:
        purposes: roles and uses of the meter. [text]
        rows: daily, monthly, tickets or stock. [text]
        read: its unit. [unit]

    Source: definition
    """
    kinds = [kind_of(one) for one in purposes]
    kind = next((one for one in kinds if one not in {"hours", "starts"}), None)
    if kind is None:
        return None
    if rows == "stock":
        return "tank gauge"
    if rows == "tickets" and kind in {"CO2", "NH3", "urea", "fuel"}:
        return "weighbridge"
    if kind == "CO2":
        is_gas = any(is_convertible(read, unit(name)) for name in _GAS_VOLUMES)
        return "meter of CO2 gas" if is_gas else "mass of CO2"
    return _KINDS.get(kind)


@dataclass
class Unstated:
    """The defaults that a run took, each with the names it stands for."""

    register: Register
    day: date
    taken: dict[str, list[str]] = field(default_factory=dict)
    gases: list[str] = field(default_factory=list)

    def take(self, kind: str, name: str) -> Accuracy:
        """Return the default of a kind, and keep for whom it was taken.

        Args:
            kind: as the table of defaults names it. [text]
            name: whose uncertainty is not stated. [text]

        Source: limits as a rectangle: JCGM 100:2008, clause 4.3.7 (from memory)
        """
        names = self.taken.setdefault(kind, [])
        if name not in names:
            names.append(name)
        entry = self.register.entry(f"{PREFIX}{kind}", self.day)
        is_share = entry.unit == NONE
        part = Part(
            standard=entry.value / math.sqrt(3),
            unit=None if is_share else entry.unit,
            is_of_scale=False,
            distribution="rectangular",
        )
        return Accuracy((part,), f"{_limits(entry.value, entry.unit)}, by default: {kind}")

    def take_analysis(self, gas: str) -> None:
        """Keep for which gas the precision by level was taken.

        Args:
            gas: its name. [text]

        Source: definition
        """
        if gas not in self.gases:
            self.gases.append(gas)

    @property
    def findings(self) -> list[Finding]:
        """One finding for each default that was taken."""
        found = [self._finding(kind, names) for kind, names in self.taken.items()]
        if self.gases:
            what = f"{len(self.gases)} x analyses without uncertainty; taken: {BY_LEVEL}"
            found.append(UNSTATED.at(Where("site.toml", _names(self.gases)), what))
        return found

    def _finding(self, kind: str, names: list[str]) -> Finding:
        entry = self.register.entry(f"{PREFIX}{kind}", self.day)
        said = "states" if len(names) == 1 else "state"
        limits = _limits(entry.value, entry.unit)
        what = f"{len(names)} x {kind} {said} no uncertainty; taken: {limits}"
        source = f"{entry.source.document}; {EVIDENCE.get(entry.evidence, entry.evidence)}"
        why = f"{UNSTATED.effect}; these are by {source}"
        return UNSTATED.at(Where("site.toml", _names(names)), what, why=why)


def _limits(value: float, of: Unit) -> str:
    if of == NONE:
        return f"±{value * 100:g} % (limits)"
    return f"±{value:g} {label(of)} (limits)"


def _names(names: Sequence[str]) -> str:
    return ", ".join(names[:SHOWN]) + (", ..." if len(names) > SHOWN else "")
