"""What kind of file somebody sent: found by its first bytes, and by its name only where a text could be either."""

import re
import zipfile
from enum import StrEnum
from io import BytesIO
from types import MappingProxyType

from bot.files.texts import text_of

MOST_BYTES = 2 * 1024 * 1024
"""Largest file. [byte]"""


class Kind(StrEnum):
    """Kinds that are read."""

    XLSX = "xlsx"
    CSV = "csv"
    YAML = "yaml"


OPENED = (".xlsx", ".xlsm", ".csv", ".tsv", ".txt", ".yaml", ".yml", ".json")
"""Endings of names of files that may hold a block."""

_ODS, _PAGES, _SHEETS_OF_A_PHONE = "an ods file", "a text document", "a numbers file"
_BINARY, _PDF, _PICTURE, _WEB = "an xlsb file", "a PDF", "a picture", "a web page"
_OLD = "a file in the old xls format"

_ENDINGS = MappingProxyType(
    {
        ".xls": _OLD,
        ".xlsb": _BINARY,
        ".ods": _ODS,
        ".numbers": _SHEETS_OF_A_PHONE,
        ".pdf": _PDF,
        ".doc": _PAGES,
        ".docx": _PAGES,
        ".odt": _PAGES,
        ".pages": _PAGES,
        **dict.fromkeys(
            (".jpg", ".jpeg", ".png", ".gif", ".webp", ".heic", ".heif", ".bmp", ".tif"), _PICTURE
        ),
        **dict.fromkeys((".htm", ".html"), _WEB),
    }
)
_ZIP = b"PK\x03\x04"
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_STARTS = (
    (b"%PDF-", _PDF),
    (b"\xff\xd8\xff", _PICTURE),
    (b"\x89PNG", _PICTURE),
    (b"GIF8", _PICTURE),
    (b"BM", _PICTURE),
    (b"II*\0", _PICTURE),
    (b"MM\0*", _PICTURE),
)
_MARKS = ((8, b"WEBP", _PICTURE), (4, b"ftyp", "a picture or a film"))
_WEB_PAGE = re.compile(r"\s*(?:<!doctype html|<html|<table)", re.IGNORECASE)
# What begins a file of YAML or of JSON, which is YAML too; or one of the two keys with something indented below it.
_YAML = re.compile(
    r"\A\s*(?:---\s*$|\{\s*[\"'\w])|^[\"']?(?:block|sessions?)[\"']?\s*:\s*(?:#.*)?\n\s*(?:[ \t]\S|- )",
    re.IGNORECASE | re.MULTILINE,
)


def is_old_or_locked(content: bytes) -> bool:
    """True for the old xls format, and for an xlsx with a password, which is wrapped in it."""
    return content.startswith(_OLE)


def kind_named(name: str) -> str | None:
    """Return in words what a file is by its name, when that is nothing that is read."""
    return next((words for ending, words in _ENDINGS.items() if name.casefold().endswith(ending)), None)


def kind_of(content: bytes, name: str) -> Kind | str | None:
    """Return the kind of a file; words for one that is known and not read; None for one that is not known."""
    if content.startswith(_ZIP):
        return _kind_of_archive(content)
    if content.startswith(b"PK"):
        return None
    words = next((words for start, words in _STARTS if content.startswith(start)), None)
    words = words or next((words for at, mark, words in _MARKS if content[at : at + len(mark)] == mark), None)
    if words is not None:
        return words
    text = text_of(content)
    if text is None or not text.strip():
        return None
    if _WEB_PAGE.match(text):
        return _WEB
    if _YAML.search(text) or name.casefold().endswith((".yaml", ".yml", ".json")):
        return Kind.YAML
    return Kind.CSV


def _kind_of_archive(content: bytes) -> Kind | str | None:
    """Return the kind of an archive; a broken one is taken for a workbook, which says that it is damaged."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            parts = set(archive.namelist())
    except Exception:  # noqa: BLE001 - a broken archive breaks in many ways; all mean the same to its sender
        return Kind.XLSX
    if "xl/workbook.xml" in parts:
        return Kind.XLSX
    if "xl/workbook.bin" in parts:
        return _BINARY
    if "word/document.xml" in parts:
        return _PAGES
    if any(part.endswith(".iwa") for part in parts):
        return _SHEETS_OF_A_PHONE
    if {"mimetype", "content.xml"} <= parts:
        return _ODS
    return None
