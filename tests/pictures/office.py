"""A spreadsheet program beside us, where there is one."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import Final

import pytest

SOFFICE: Final = shutil.which("soffice")

needs_office = pytest.mark.skipif(SOFFICE is None, reason="LibreOffice is not installed, so no spreadsheet program opens the file")

TO_XLSX: Final = "xlsx:Calc MS Excel 2007 XML"
FROM_CSV: Final = "--infilter=CSV:44,34,76"
"""Commas, double quotes, UTF-8, each by its number."""


def recomputed(files: list[Path], into: Path) -> list[Path]:
    """The files, all of one kind, as workbooks that LibreOffice has opened, computed and saved."""
    assert SOFFICE is not None
    reading = [FROM_CSV] if files[0].suffix == ".csv" else []
    profile = f"-env:UserInstallation={(into / 'profile').as_uri()}"
    command = [SOFFICE, profile, "--headless", *reading, "--convert-to", TO_XLSX, "--outdir", str(into), *map(str, files)]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return [into / f"{file.stem}.xlsx" for file in files]
