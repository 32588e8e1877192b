"""Checks of a file before any reader opens it: where it lies, its size, what it really is."""

from __future__ import annotations

import zipfile
import zlib
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Literal

from footprint.base.finding import Finding, Where, declare
from footprint.read.fault import Refusal
from footprint.read.nearest import nearest
from footprint.read.part_scan import UNSAFE_WORKBOOK, scan_parts

FILE_LIMIT = 64 * 2**20
PARTS_LIMIT = 5_000
PART_LIMIT = 256 * 2**20
PARTS_TOGETHER_LIMIT = 512 * 2**20
RATIO_LIMIT = 100  # sheets of nothing but zeros reach 18
RATIO_FROM = 2**20
_OLD_CONTAINER = bytes.fromhex("D0CF11E0A1B11AE1")
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
_OLD_STREAMS = tuple(name.encode("utf-16-le") for name in ("Workbook", "Book"))

MISSING_FILE = declare(
    "missing-file",
    "stop",
    means="A file named in site.toml is not in the folder.",
    effect="nothing can be read from it",
    mend="put the file into the folder, or mend its name in site.toml",
    example='file = "gas_2052.xlsx"; mended: file = "gas_2025.xlsx"',
)
FILE_OUTSIDE_FOLDER = declare(
    "file-outside-the-folder",
    "stop",
    means="A file named in site.toml lies outside the folder of the site, or is "
    "a link that leads out.",
    effect="the return could not be handed over with all its files; the file is not opened",
    mend="copy the file into the folder and name it without a path",
    example='file = "../old/gas.xlsx"; mended: file = "gas.xlsx"',
)
FILE_TOO_LARGE = declare(
    "file-too-large",
    "stop",
    means="A file is larger than 64 MiB.",
    effect="no meter sheet of a year is that large; the file is not opened",
    mend="save the sheets that are needed as a file of their own",
    example="a workbook with photographs; mended: a copy without them",
)
EMPTY_FILE = declare(
    "empty-file",
    "stop",
    means="A file holds no bytes.",
    effect="nothing can be read from it; often a copy was interrupted",
    mend="copy the file again",
    example="gas_2025.xlsx of 0 bytes",
)
PASSWORD_PROTECTED_FILE = declare(
    "password-protected-file",
    "stop",
    means="A workbook is encrypted with a password.",
    effect="nothing can be read from it",
    mend="open it, remove the password under its save options, and save it as .xlsx",
    example="a workbook that asks for a password when opened",
)
UNSUPPORTED_FILE_FORMAT = declare(
    "unsupported-file-format",
    "stop",
    means="A file is neither a workbook of a format that is read nor a text table.",
    effect="nothing can be read from it, whatever its name ends in",
    mend="open it in a spreadsheet program and save it as .xlsx",
    example="an .xlsb file, or a web page saved as .xls",
)


MACROS_NOT_RUN = declare(
    "macros-not-run",
    "note",
    means="A workbook holds macros.",
    effect="they were not run; the cells were read as they stood when the file was last saved",
    mend="nothing, if the file was saved after its macros had run; else save it again",
    example="an .xlsm file whose macro fills the sheet",
)
_MACROS = "xl/vbaProject.bin"
_OPEN_DOCUMENT = "content.xml"
_SPREADSHEET = b"application/vnd.oasis.opendocument.spreadsheet"


@dataclass(frozen=True, slots=True)
class Content:
    """The bytes of a file that passed the checks."""

    kind: Literal["workbook", "text", "ods", "xls"]
    content: bytes


def content_of(folder: Path, name: str) -> Content | Finding:
    """Return the bytes of a file that is safe to read, or why it is not opened.

    Args:
        folder: of the site. [path]
        name: of the file, as in site.toml. [text]

    Findings:
        missing-file, file-outside-the-folder, file-too-large, empty-file: before it is opened.
        password-protected-file, unsupported-file-format, unsafe-workbook: by its content.

    Source: definition
    """
    path = folder / name
    if refusal := _place(folder, path, name):
        return refusal.code.at(Where(name), refusal.what, mend=refusal.mend)
    try:
        content = path.read_bytes()
    except OSError:
        return MISSING_FILE.at(Where(name), f'"{name}" is there, but can\'t be opened')
    refusal = _container(content)
    if refusal:
        return refusal.code.at(Where(name), refusal.what, why=refusal.why, mend=refusal.mend)
    return Content(_kind(content), content)


def _kind(content: bytes) -> Literal["workbook", "text", "ods", "xls"]:
    """Return what bytes that passed the checks are."""
    if content.startswith(_OLD_CONTAINER):
        return "xls"
    if not content.startswith(b"PK"):
        return "text"
    with zipfile.ZipFile(BytesIO(content)) as archive:
        return "ods" if _OPEN_DOCUMENT in archive.namelist() else "workbook"


def has_macros(content: bytes) -> bool:
    """Return whether a workbook that passed the checks holds macros.

    Args:
        content: of the file. [bytes]

    Source: definition
    """
    with zipfile.ZipFile(BytesIO(content)) as archive:
        return _MACROS in archive.namelist()


def _place(folder: Path, path: Path, name: str) -> Refusal | None:
    """Return why a path is not opened, or None."""
    root = folder.resolve()
    try:
        resolved = path.resolve()
        is_inside = resolved.is_relative_to(root) and not Path(name).is_absolute()
        if not is_inside:
            return Refusal(FILE_OUTSIDE_FOLDER, f'"{name}" lies outside the folder of the site')
        if not resolved.is_file():
            return _missing(folder, name)
        size = resolved.stat().st_size
    except (OSError, ValueError, RuntimeError):
        return _missing(folder, name)
    if size > FILE_LIMIT:
        return Refusal(FILE_TOO_LARGE, f'"{name}" has {size / 2**20:.0f} MiB; the limit is 64')
    return Refusal(EMPTY_FILE, f'"{name}" holds no bytes') if size == 0 else None


def _missing(folder: Path, name: str) -> Refusal:
    """Return the refusal of a file that is not there, with the nearest name that is."""
    others = sorted(
        one.relative_to(folder).as_posix()
        for pattern in ("*.xlsx", "*.xlsm", "*.ods", "*.xls", "*.csv", "*/*.xlsx", "*/*.csv")
        for one in folder.glob(pattern)
    )
    near = nearest(name, others)
    mend = f'write file = "{near}" in site.toml, if that is meant' if near else ""
    return Refusal(MISSING_FILE, f'no file "{name}" in the folder', mend=mend)


def _container(content: bytes) -> Refusal | None:
    """Return why bytes are neither a workbook nor text, or None."""
    if content.startswith(_OLD_CONTAINER):
        return _old_container(content)
    if content.startswith(b"PK"):
        return _archive(content)
    if content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is a web page or XML text, not a table")
    if content.startswith((b"%PDF", b"\x89PNG", b"\xff\xd8", b"GIF8", b"\x1f\x8b")):
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is a picture, a print or an archive")
    return None


def _old_container(content: bytes) -> Refusal | None:
    """Return why a file of the old container is no workbook that can be read, or None."""
    if _ENCRYPTED in content:
        return Refusal(PASSWORD_PROTECTED_FILE, "the workbook is encrypted with a password")
    if not any(stream in content for stream in _OLD_STREAMS):
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is an old document, no workbook")
    return None


def _archive(content: bytes) -> Refusal | None:
    """Return why a zip archive is no workbook that is safe to read, or None."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            return _directory(archive) or scan_parts(archive)
    except (zipfile.BadZipFile, EOFError, OSError, ValueError, NotImplementedError, RuntimeError):
        return Refusal(UNSAFE_WORKBOOK, "the archive of the workbook is cut short or damaged")
    except zlib.error:
        return Refusal(UNSAFE_WORKBOOK, "the archive of the workbook is damaged")


def _directory(archive: zipfile.ZipFile) -> Refusal | None:
    """Return what is wrong with the list of parts, before any part is unpacked, or None."""
    parts = archive.infolist()
    names = [part.filename for part in parts]
    is_leading_out = any(
        name.startswith("/") or ".." in name.split("/") or "\\" in name for name in names
    )
    unsafe = [
        (len(parts) > PARTS_LIMIT, f"the workbook has {len(parts)} parts"),
        (len(set(names)) < len(names), "a part of the workbook is stored twice"),
        (is_leading_out, "a part of the workbook names a place outside it"),
        (_is_bloated(parts), "the workbook would unpack to an unreasonable size"),
    ]
    if what := next((what for is_unsafe, what in unsafe if is_unsafe), None):
        return Refusal(UNSAFE_WORKBOOK, what)
    if any(part.flag_bits & 1 for part in parts):
        return Refusal(PASSWORD_PROTECTED_FILE, "parts of the workbook are encrypted")
    if "xl/workbook.bin" in names:
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is an .xlsb workbook, which is not read")
    if _OPEN_DOCUMENT in names:
        return _open_document(archive)
    if "[Content_Types].xml" not in names or not any(name.startswith("xl/") for name in names):
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is an archive, but not a workbook")
    return None


def _open_document(archive: zipfile.ZipFile) -> Refusal | None:
    """Return why an OpenDocument file is no workbook that can be read, or None."""
    kind, manifest = (
        archive.read(name) if name in archive.namelist() else b""
        for name in ("mimetype", "META-INF/manifest.xml")
    )
    if not kind.startswith(_SPREADSHEET):
        return Refusal(UNSUPPORTED_FILE_FORMAT, "the file is a document, but not a workbook")
    if b"encryption-data" in manifest:
        return Refusal(PASSWORD_PROTECTED_FILE, "the workbook is encrypted with a password")
    return None


def _is_bloated(parts: list[zipfile.ZipInfo]) -> bool:
    """Return whether parts unpack to more than those of any real workbook do."""
    sizes = [(part.file_size, part.compress_size) for part in parts]
    together = (sum(size for size, _ in sizes), sum(packed for _, packed in sizes))
    if together[0] > PARTS_TOGETHER_LIMIT or any(size > PART_LIMIT for size, _ in sizes):
        return True
    return any(
        size > RATIO_FROM and size > RATIO_LIMIT * packed for size, packed in (*sizes, together)
    )
