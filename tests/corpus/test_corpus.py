from __future__ import annotations

from pathlib import Path

import pytest

from tests.corpus.every import ITEMS
from tests.corpus.item import Item, told, values_in

WORDS_OF_MACHINES = ("Traceback", "Error", "None", "NaN", "Exception", "float(")


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.name)
def test_file_leads_to_its_values_and_its_findings(item: Item, tmp_path: Path) -> None:
    """A file gives the values that stand in it, or the finding at the cell, and nothing else."""
    folder = item.folder(tmp_path)

    readings, findings = folder.read()

    assert told(findings) == sorted(item.findings), [one.in_words() for one in findings]
    assert values_in(readings) == item.values
    assert not [one for one in findings if any(word in one.what for word in WORDS_OF_MACHINES)]


def test_corpus_has_no_file_twice() -> None:
    """No two files of the corpus have the same name."""
    names = [item.name for item in ITEMS]

    assert len(set(names)) == len(names)
