"""Spreadsheets and the site file to readings: what was written down, each value with its cell."""

from footprint.read.folder import read
from footprint.read.site_file import load_site

__all__ = ["load_site", "read"]
