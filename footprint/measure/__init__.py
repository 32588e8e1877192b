"""Readings in, monthly quantities in house units out: how much was it?"""

from footprint.measure.measured import Measured, measure

__all__ = ["Measured", "measure"]
