"""All files of the corpus that are no attack."""

from __future__ import annotations

from tests.corpus.items_dates import DATE_ITEMS
from tests.corpus.items_hours import HOUR_ITEMS
from tests.corpus.items_layouts import LAYOUT_ITEMS
from tests.corpus.items_numbers import NUMBER_ITEMS
from tests.corpus.items_packages import PACKAGE_ITEMS
from tests.corpus.items_text_files import TEXT_FILE_ITEMS

ITEMS = [*NUMBER_ITEMS, *TEXT_FILE_ITEMS, *DATE_ITEMS, *PACKAGE_ITEMS, *LAYOUT_ITEMS, *HOUR_ITEMS]
