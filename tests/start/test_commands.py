"""The commands in the documents that users read."""

from __future__ import annotations

from pathlib import Path

import pytest

from footprint.cli import COMMANDS, EXAMPLES

README = Path(__file__).resolve().parents[2] / "README.md"


@pytest.mark.parametrize("command", COMMANDS)
def test_command_is_documented(command: str) -> None:
    """Each command stands in the list of the README and has an example in the help."""
    text = README.read_text(encoding="utf-8")

    assert f"\n    footprint {command} " in text
    assert f"\n  footprint {command} " in EXAMPLES
