"""Rules of reporting: one module a basis, each with its own words, factors and lines."""

from footprint.bases.basis import Basis, Filed
from footprint.bases.every import bases

__all__ = ["Basis", "Filed", "bases"]
