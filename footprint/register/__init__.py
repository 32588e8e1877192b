"""Facts that change: factors by quantity, day and jurisdiction, each with its document."""

from footprint.register.entry import Entry
from footprint.register.load import factors_folder, load
from footprint.register.register import NoFactorInForceError, Register

__all__ = ["Entry", "NoFactorInForceError", "Register", "factors_folder", "load"]
