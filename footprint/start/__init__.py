"""Beginnings: sheets ready to fill in, and a draft of the site file for sheets that exist."""

from footprint.start.draft import Draft, draft
from footprint.start.new import New, new, obstacle

__all__ = ["Draft", "New", "draft", "new", "obstacle"]
