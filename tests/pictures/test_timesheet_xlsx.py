from __future__ import annotations

import io
import re
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from zipfile import ZipFile

import pytest
from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from bot.pictures.timesheet_xlsx import timesheet_xlsx
from bot.rules.pay.rounding import decimal_hours
from bot.rules.pay.timesheet import Timesheet, timesheet
from storage.records import DateOrder, Stint
from tests.pictures.made_sheets import DESK, GUIDED, LAST, MANNERS, MUSEUM, TOURS, empty, hours_only, usual
from tests.pictures.office import needs_office, recomputed
from tests.rules.made import BRUSSELS, MONDAY


def sheet_of(content: bytes, *, figures: bool) -> Worksheet:
    return load_workbook(io.BytesIO(content), data_only=figures).worksheets[0]


def column(sheet: Worksheet, letter: str) -> dict[object, object]:
    """The column's values by what is written at the start of their rows; the uppermost of two."""
    return {sheet[f"A{row}"].value: sheet[f"{letter}{row}"].value for row in range(sheet.max_row, 0, -1)}


@pytest.mark.parametrize("sheet", [usual(), hours_only(), empty()], ids=["usual", "hours only", "empty"])
def test_the_total_is_a_formula_over_the_days_and_our_figure_stands_beside_it(sheet: Timesheet) -> None:
    content = timesheet_xlsx(sheet, MANNERS)

    formulas, figures = sheet_of(content, figures=False), sheet_of(content, figures=True)

    assert re.fullmatch(r"=SUM\(G6:G\d+\)", str(column(formulas, "G")["Total"]))
    assert column(figures, "G")["Total"] == sheet.paid
    assert column(figures, "F")["Total"] == sheet.worked


def test_gross_pay_is_the_sum_of_hours_and_overtime_in_cents() -> None:
    sheet = usual()
    content = timesheet_xlsx(sheet, MANNERS)

    assert sheet.estimate is not None
    assert str(column(sheet_of(content, figures=False), "D")["Gross pay, estimated, EUR"]).startswith("=")
    assert column(sheet_of(content, figures=True), "D")["Gross pay, estimated, EUR"] == float(sheet.estimate.gross)
    assert "Before deductions; the employer's record and local law decide." in column(sheet_of(content, figures=True), "A")


def test_without_a_rate_nothing_is_said_of_money() -> None:
    sheet = sheet_of(timesheet_xlsx(hours_only(), MANNERS), figures=True)

    assert not any("EUR" in str(cell) or "pay" in str(cell).split() for cell in column(sheet, "A"))


def test_days_are_dates_in_the_persons_order() -> None:
    sheet = sheet_of(timesheet_xlsx(usual(), replace(MANNERS, date_order=DateOrder.MONTH_DAY)), figures=True)

    assert (sheet["A6"].value, sheet["A6"].number_format) == (datetime(2026, 3, 2), "mm/dd/yyyy")


def test_what_looks_like_a_formula_in_a_note_stays_text() -> None:
    sheet = sheet_of(timesheet_xlsx(usual(), replace(MANNERS, with_notes=True)), figures=False)

    assert [(sheet[place].value, sheet[place].data_type) for place in ("K10", "K12")] == [("=SUM(A1:A9)", "s"), ("-2 lockers broken", "s")]
    assert sheet["K10"].quotePrefix


def test_letters_that_no_workbook_may_hold_are_left_out() -> None:
    job = replace(DESK, employer="Museum\x0b of\x00 Locks")
    sheet = sheet_of(timesheet_xlsx(timesheet(job, MONDAY, LAST, [], BRUSSELS), MANNERS), figures=True)

    assert sheet["A1"].value == "Timesheet: Museum, Museum of Locks"


def test_the_same_sheet_gives_the_same_bytes_at_any_time() -> None:
    content = timesheet_xlsx(usual(), MANNERS)

    with ZipFile(io.BytesIO(content)) as archive:
        times = {part.date_time for part in archive.infolist()}
        properties = archive.read("docProps/core.xml").decode()
    assert timesheet_xlsx(usual(), MANNERS) == content
    assert times == {(1980, 1, 1, 0, 0, 0)}
    assert set(re.findall(r"\d{4}-\d\d-\d\dT", properties)) == {"1980-01-01T"}


def invented(random: Random) -> Timesheet:
    """Two weeks of two jobs for one employer, some of them long."""
    work = [
        Stint(number, random.choice([MUSEUM, MUSEUM, TOURS]), MONDAY + timedelta(days=random.randrange(14)), random.randrange(1, 500))
        for number in range(random.randrange(2, 25))
    ]
    return timesheet(DESK, MONDAY, LAST, work, BRUSSELS, [GUIDED])


# Source: LibreOffice Calc, which computes the formulas of the file itself.
@needs_office
def test_a_spreadsheet_program_comes_to_the_same_totals(tmp_path: Path) -> None:
    random = Random(20260302)
    sheets = [usual(), hours_only(), empty(), *(invented(random) for _ in range(12))]
    files = [tmp_path / f"sheet-{number}.xlsx" for number in range(len(sheets))]
    for file, sheet in zip(files, sheets, strict=True):
        # Without our figures beside the formulas, what is read back can only be what the program computed.
        file.write_bytes(without_figures(timesheet_xlsx(sheet, MANNERS)))

    computed = recomputed(files, tmp_path / "computed")

    for file, sheet in zip(computed, sheets, strict=True):
        read = sheet_of(file.read_bytes(), figures=True)
        gross = column(read, "D").get("Gross pay, estimated, EUR")
        assert [column(read, letter)["Total"] for letter in "FGI"] == [sheet.worked, sheet.paid, float(decimal_hours(sheet.paid))]
        assert gross == (None if sheet.estimate is None else float(sheet.estimate.gross))
    assert any(sheet.overtime for sheet in sheets[3:])


def without_figures(content: bytes) -> bytes:
    """The workbook with every formula's figure taken out."""
    bare = io.BytesIO()
    with ZipFile(io.BytesIO(content)) as made, ZipFile(bare, "w") as kept:
        for name in made.namelist():
            kept.writestr(name, re.sub(rb"(</f>)<v>[^<]*</v>", rb"\1<v/>", made.read(name)))
    return bare.getvalue()
