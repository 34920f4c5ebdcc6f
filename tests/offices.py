"""Spreadsheet programs that open a file and save it anew, for tests: a library, and LibreOffice where it is here.

Without LibreOffice those tests run on the library alone, the summary says so, and `TEST_LIBREOFFICE_REQUIRED=1` makes
it an error.
"""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

from openpyxl import load_workbook

SOFFICE = shutil.which("soffice") or shutil.which("libreoffice")
REQUIRES_OFFICE = os.environ.get("TEST_LIBREOFFICE_REQUIRED", "") not in {"", "0"}
OFFICE_ABSENT = "LibreOffice is not here: install its spreadsheet program, libreoffice-calc"
OFFICES = ["openpyxl", "libreoffice"] if SOFFICE else ["openpyxl"]
_LONGEST_S = 50
_AS_CSV = ("--infilter=Text - txt - csv (StarCalc):44,34,76,1",)
"""Commas and UTF-8, which a person confirms in a window that does not open here."""


def opened_and_saved(office: str, files: Mapping[str, bytes], ending: str = "xlsx") -> dict[str, bytes]:
    """The files as a program saves them anew, by their names; the library knows xlsx alone."""
    if office == "libreoffice":
        return _by_libreoffice(files, ending)
    return {name: _by_openpyxl(content) for name, content in files.items()}


def _by_openpyxl(content: bytes) -> bytes:
    stream = BytesIO()
    load_workbook(BytesIO(content)).save(stream)
    return stream.getvalue()


def _by_libreoffice(files: Mapping[str, bytes], ending: str) -> dict[str, bytes]:
    """One start of the program for all files, with a profile of its own that is thrown away."""
    with tempfile.TemporaryDirectory(prefix="plimsoll-office-") as folder:
        place = Path(folder)
        out = place / "out"
        for name, content in files.items():
            (place / name).write_bytes(content)
        done = subprocess.run(  # noqa: S603  (LibreOffice)
            [
                str(SOFFICE),
                f"-env:UserInstallation={(place / 'profile').as_uri()}",
                "--headless",
                "--norestore",
                *(_AS_CSV if all(name.endswith(".csv") for name in files) else ()),
                "--convert-to",
                ending,
                "--outdir",
                str(out),
                *(str(place / name) for name in files),
            ],
            check=False,
            env={"PATH": os.environ.get("PATH", ""), "HOME": folder, "LC_ALL": "C.UTF-8"},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=_LONGEST_S,
        )
        made = {name: out / f"{Path(name).stem}.{ending}" for name in files}
        lacking = [name for name, path in made.items() if not path.exists()]
        if done.returncode or lacking:
            raise RuntimeError(
                f"LibreOffice ended with {done.returncode}, without {lacking}: {done.stderr!r}"
            )
        return {name: path.read_bytes() for name, path in made.items()}
