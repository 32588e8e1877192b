"""Why something in a sheet was not understood, before its place is known."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.finding import Code


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why something was not understood, before its place is known."""

    code: Code
    what: str
    why: str = ""
    mend: str = ""
