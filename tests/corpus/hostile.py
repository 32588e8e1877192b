"""Files that nobody sends in good faith, each with the kind of finding that must end it."""

from __future__ import annotations

import gzip
import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.corpus.attacks import WORKBOOKS, good
from tests.corpus.item import lines, site_of
from tests.corpus.open_documents import OPEN_DOCUMENTS, hidden_without_end
from tests.corpus.package import archive
from tests.findings.site_folder import SiteFolder

OLD = bytes.fromhex("D0CF11E0A1B11AE1") + bytes(4096)
ENCRYPTED = OLD + "EncryptedPackage".encode("utf-16-le")


@dataclass(frozen=True)
class Hostile:
    """A file that must be refused.

    Attributes:
        name: what is hostile, in words. [text]
        code: of the finding. [text]
        content: makes the bytes. [function]
        file: as the site file names it. [text]
        prepare: puts something else in the place of the file. [function]
    """

    name: str
    code: str
    content: Callable[[], bytes] = lambda: b""
    file: str = "power.xlsx"
    prepare: Callable[[Path], object] | None = None

    def write(self, path: Path) -> None:
        """Write the site folder."""
        path.mkdir()
        folder: SiteFolder = site_of(path, "power.xlsx", b"")
        folder.meter("EM-4")["file"] = self.file
        folder.texts = {}
        folder.write()
        if self.prepare:
            self.prepare(path)
        else:
            (path / "power.xlsx").write_bytes(self.content())


def link_to(target: str) -> Callable[[Path], object]:
    """Return what puts a symbolic link in the place of the file."""

    def prepare(path: Path) -> None:
        (path.parent / "outside.xlsx").write_bytes(good())
        (path / "power.xlsx").symlink_to(target)

    return prepare


def folder_link(path: Path) -> None:
    """Put a link to the folder above into the folder."""
    (path.parent / "outside.xlsx").write_bytes(good())
    (path / "sub").symlink_to(path.parent)


PLACES = (
    "../outside.xlsx",
    "sub/../../outside.xlsx",
    "/etc/passwd",
    "./../outside.xlsx",
)
NOT_THERE = (
    "../*.xlsx",
    "/etc/*",
    "..\\outside.xlsx",
    "~/outside.xlsx",
    "power\0.xlsx",
    "C:\\outside.xlsx",
    "a" * 5000,
)
KINDS = {
    "old workbook": lambda: OLD,
    "web page named as workbook": lambda: b"<html><table><tr><td>Date</td></tr></table></html>",
    "web page behind blanks": lambda: b"\xef\xbb\xbf \r\n<!DOCTYPE html><table></table>",
    "workbook of another program": lambda: archive({"content.xml": "<a/>"}),
    "binary workbook": lambda: archive({"[Content_Types].xml": "<a/>", "xl/workbook.bin": b"x"}),
    "text document": lambda: archive({"[Content_Types].xml": "<a/>", "word/document.xml": "<a/>"}),
    "archive of archives": lambda: archive({f"{n}.zip": good() for n in range(9)}),
    "packed text": lambda: gzip.compress(lines("Date;Power bought (MWh)")),
    "print": lambda: b"%PDF-1.7\n%\xe2\xe3\xcf\xd3",
    "picture": lambda: b"\x89PNG\r\n\x1a\n" + bytes(64),
}
HOSTILE = [
    *(Hostile(name, "unsafe-workbook", content) for name, content in WORKBOOKS.items()),
    *(Hostile(name, "unsafe-workbook", content) for name, content in OPEN_DOCUMENTS.items()),
    *(Hostile(name, "unsupported-file-format", content) for name, content in KINDS.items()),
    *(Hostile(f"file {name}", "file-outside-the-folder", file=name) for name in PLACES),
    *(Hostile(f"file {name[:20]!r}", "missing-file", file=name) for name in NOT_THERE),
    Hostile("hidden columns without end", "missing-column", hidden_without_end),
    Hostile("password", "password-protected-file", lambda: ENCRYPTED),
    Hostile("no bytes", "empty-file"),
    Hostile("65 MiB", "file-too-large", lambda: bytes(65 * 2**20)),
    Hostile("bytes before the archive", "unreadable-text-file", lambda: b"MZ\0" + good()),
    Hostile("zeros alone", "unreadable-text-file", lambda: bytes(4096)),
    Hostile(
        "folder in place of a file", "missing-file", prepare=lambda at: (at / "power.xlsx").mkdir()
    ),
    Hostile(
        "pipe in place of a file", "missing-file", prepare=lambda at: os.mkfifo(at / "power.xlsx")
    ),
    Hostile("link to nowhere", "missing-file", prepare=link_to("nowhere.xlsx")),
    Hostile("link to itself", "missing-file", prepare=link_to("power.xlsx")),
    Hostile(
        "link out of the folder", "file-outside-the-folder", prepare=link_to("../outside.xlsx")
    ),
    Hostile("link to a device", "file-outside-the-folder", prepare=link_to("/dev/zero")),
    Hostile(
        "folder that links out",
        "file-outside-the-folder",
        file="sub/outside.xlsx",
        prepare=folder_link,
    ),
    Hostile("quote over 60 MiB", "uneven-line", lambda: b'Date;Power\n"' + b"9" * 60 * 2**20),
    Hostile("line of a million fields", "uneven-line", lambda: b"a;" * 10**6),
    Hostile("heading of brackets", "missing-column", lambda: b"Date;" + b"(" * 60_000 + b"\n1;2\n"),
    Hostile(
        "a thousand long headings",
        "missing-column",
        lambda: b";".join([b"Power bouhgt " * 80] * 1000),
    ),
    Hostile("200 000 blank lines", "missing-column", lambda: b"Day;Power\n" + b"\n" * 200_000),
]
