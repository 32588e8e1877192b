"""A new folder: a site file with remarks, and spreadsheets ready to fill in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from footprint.read.site_file import SITE_FILE
from footprint.start.plan import FORMS
from footprint.start.site_words import site_text
from footprint.start.workbooks import write_workbooks


@dataclass(frozen=True)
class New:
    """What was written into a new folder."""

    site_file: Path
    workbooks: tuple[Path, ...]


def obstacle(folder: Path) -> str:
    """Return why a folder can't be begun, in words; empty where nothing is in the way.

    Args:
        folder: to begin. [path]

    Source: definition
    """
    if folder.exists() and not folder.is_dir():
        return f'"{folder}" is a file, not a folder'
    names = (SITE_FILE, *dict.fromkeys(form.file for form in FORMS))
    found = next((name for name in names if (folder / name).exists()), None)
    return f'"{folder}" holds a {found} already: name another folder' if found else ""


def new(folder: Path, name: str, year: int) -> New:
    """Return what was written into a folder that was made where it did not exist.

    Args:
        folder: with nothing in the way, see `obstacle`. [path]
        name: of the works. [text]
        year: of the return. [year]

    Raises:
        OSError: the folder or a file in it can't be written.

    Source: definition
    """
    folder.mkdir(parents=True, exist_ok=True)
    workbooks = write_workbooks(folder, year)
    site_file = folder / SITE_FILE
    site_file.write_text(site_text(name, year), encoding="utf-8", newline="\n")
    return New(site_file, tuple(workbooks))
