"""Names that were meant, for names that were not found."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher

LIKENESS = 0.6  # common practice of spelling aids, no source
NAMES_SHOWN = 8


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Return the name most like the one written, or None where none is like it.

    Args:
        name: as written. [text]
        names: that exist. [text]

    Source: definition
    """
    likeness = {
        other: SequenceMatcher(None, name.casefold(), other.casefold()).ratio() for other in names
    }
    best = max(likeness, key=lambda other: likeness[other], default=None)
    return best if best is not None and likeness[best] >= LIKENESS else None


def offer(name: str, names: Iterable[str]) -> str:
    """Return what to write: the nearest name, else one of those there are; nothing if none.

    Args:
        name: as written. [text]
        names: that exist. [text]

    Source: definition
    """
    known = list(dict.fromkeys(names))
    if near := nearest(name, known):
        return f'write "{near}", if that is meant'
    listed = ", ".join(f'"{other}"' for other in known[:NAMES_SHOWN])
    more = f" and {len(known) - NAMES_SHOWN} more" if len(known) > NAMES_SHOWN else ""
    return f"write one of {listed}{more}" if listed else ""
