"""A worksheet under construction: texts that stay texts, formulas with our figures beside them, bytes that depend on nothing else."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction
from io import BytesIO
from typing import Final
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from openpyxl import Workbook
from openpyxl.cell import Cell
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.worksheet.properties import PageSetupProperties

from bot.rules.pay.rounding import decimal_of

EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
"""The first moment that a ZIP archive can name."""

HEADING_HEIGHT: Final = 44
"""Points: three lines, because no program makes a row of wrapped text taller before it is edited."""

MODIFIED: Final = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*")
FORMULA: Final = re.compile(rb'<c r="([A-Z]+[0-9]+)"([^>]*)><f>([^<]*)</f><v ?/></c>')


class Ledger:
    """One worksheet. Places are spreadsheet names such as "B7"."""

    def __init__(self, title: str, creator: str) -> None:
        self._book = Workbook()
        self._book.properties.creator = creator
        self._book.properties.created = datetime(*EARLIEST)
        sheet = self._book.worksheets[0]
        sheet.title = title
        sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        sheet.page_setup.orientation = "landscape"
        self._sheet = sheet
        self._figures: dict[str, Decimal] = {}

    def text(self, place: str, text: str, *, bold: bool = False) -> None:
        """Text that no spreadsheet takes for a formula, not even when the cell is edited."""
        cell = self._cell(place, bold)
        cell.value = ILLEGAL_CHARACTERS_RE.sub("", text)
        cell.data_type = "s"
        cell.quotePrefix = text.startswith(("=", "+", "-", "@"))

    def heading(self, place: str, text: str) -> None:
        """A column's heading: bold, wrapped, with a line below."""
        self.text(place, text, bold=True)
        cell = self._sheet[place]
        cell.alignment = Alignment(wrap_text=True, vertical="bottom")
        cell.border = Border(bottom=Side("thin"))
        self._sheet.row_dimensions[cell.row].height = HEADING_HEIGHT

    def number(self, place: str, number: int | Decimal, form: str = "0") -> None:
        """A number shown in ``form``, a spreadsheet's number format."""
        cell = self._cell(place)
        cell.value = number
        cell.number_format = form

    def day(self, place: str, day: date, form: str) -> None:
        """A day shown in ``form``."""
        cell = self._cell(place)
        cell.value = day
        cell.alignment = Alignment(horizontal="left")
        cell.number_format = form

    def formula(self, place: str, formula: str, figure: int | Decimal | Fraction, form: str = "0") -> None:
        """A formula such as "SUM(B2:B8)", and what it comes to, for readers that show files without computing them."""
        cell = self._cell(place, bold=True)
        cell.value = f"={formula}"
        cell.number_format = form
        self._figures[place] = decimal_of(figure) if isinstance(figure, Fraction) else Decimal(figure)

    def width(self, column: str, letters: int) -> None:
        """Makes a column wide enough for so many letters."""
        self._sheet.column_dimensions[column].width = letters

    def freeze(self, place: str) -> None:
        """What is above and left of ``place`` stays in sight."""
        self._sheet.freeze_panes = place

    def content(self) -> bytes:
        """The file. The same cells give the same bytes at any time."""
        made = BytesIO()
        self._book.save(made)
        return _settled(made.getvalue(), self._figures)

    def _cell(self, place: str, bold: bool = False) -> Cell:
        cell: Cell = self._sheet[place]
        cell.font = Font(bold=bold)
        return cell


def _settled(content: bytes, figures: Mapping[str, Decimal]) -> bytes:
    """The archive with its times taken out and the figures put beside their formulas."""
    settled = BytesIO()
    with ZipFile(BytesIO(content)) as made, ZipFile(settled, "w", ZIP_DEFLATED) as kept:
        for name in made.namelist():
            part = ZipInfo(name, EARLIEST)
            part.compress_type = ZIP_DEFLATED
            kept.writestr(part, _part(made.read(name), figures))
    return settled.getvalue()


def _part(content: bytes, figures: Mapping[str, Decimal]) -> bytes:
    def beside(found: re.Match[bytes]) -> bytes:
        place, style, formula = found.groups()
        return b'<c r="%b"%b><f>%b</f><v>%b</v></c>' % (place, style, formula, f"{figures[place.decode()]:f}".encode())

    return FORMULA.sub(beside, MODIFIED.sub(rb"\g<1>1980-01-01T00:00:00Z", content))
