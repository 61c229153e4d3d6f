from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from bot.exporting.cells import FORMULA_STARTS, inert
from bot.pictures.timesheet_csv import timesheet_csv
from bot.rules.pay.timesheet import timesheet
from storage.records import DateOrder, Stint
from tests.pictures.made_sheets import DESK, LAST, MANNERS, MUSEUM, empty, hours_only, usual
from tests.pictures.office import needs_office, recomputed
from tests.rules.made import BRUSSELS, MONDAY


def rows_of(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def test_every_day_is_a_line_and_the_totals_come_last() -> None:
    rows = rows_of(timesheet_csv(usual(), MANNERS))

    assert rows[1][:10] == [
        "Museum of Canals and Locks", "Museum", "02/03/2026", "Monday", "08:53–17:00", "0", "30", "8:07", "7:30", "7.50",
    ]  # fmt: skip
    assert rows[-2][2:] == ["Total", "", "", "30", "120", "44:43", "42:00", "42.00", "", "622.65"]
    assert rows[-1][2:10] == ["Overtime at 1.5 times the rate", "", "", "", "", "", "1:30", "1.50"]


def test_dates_and_numbers_are_in_the_persons_forms() -> None:
    rows = rows_of(timesheet_csv(usual(), replace(MANNERS, date_order=DateOrder.MONTH_DAY, decimal_mark=",")))

    assert (rows[1][2], rows[1][9], rows[1][10]) == ("03/02/2026", "7,50", "14,50")


def test_without_a_rate_nothing_is_said_of_money() -> None:
    text = timesheet_csv(hours_only(), MANNERS).decode("utf-8-sig")

    assert "EUR" not in text
    assert "pay" not in text


def test_gross_pay_says_that_it_is_an_estimate_and_who_decides() -> None:
    assert rows_of(timesheet_csv(usual(), MANNERS))[0][-1] == (
        "Gross pay, estimated, EUR. Before deductions; the employer's record and local law decide."
    )


def test_notes_stay_with_the_person_unless_they_are_wanted() -> None:
    assert "Cloakroom" not in timesheet_csv(usual(), MANNERS).decode("utf-8-sig")
    assert rows_of(timesheet_csv(usual(), replace(MANNERS, with_notes=True)))[6][-1] == "Cloakroom"


def test_the_file_is_what_rfc_4180_asks_for() -> None:
    # Source: RFC 4180, section 2: lines end in CRLF and have the same number of fields; quotes within quotes are doubled.
    job = replace(DESK, employer='Locks, Docks & "Quay"')
    content = timesheet_csv(timesheet(job, MONDAY, LAST, [Stint(1, MUSEUM, MONDAY, 60)], BRUSSELS), MANNERS).decode("utf-8-sig")

    assert '"Locks, Docks & ""Quay"""' in content
    assert content.endswith("\r\n")
    assert content.count("\n") == content.count("\r\n")
    assert len({len(row) for row in rows_of(content.encode())}) == 1


def test_a_period_without_work_has_a_total_of_nothing() -> None:
    assert [row[2] for row in rows_of(timesheet_csv(empty(), MANNERS))] == ["Date", "Total"]


@pytest.mark.parametrize("start", FORMULA_STARTS)
def test_a_name_that_starts_as_a_formula_does_is_made_inert(start: str) -> None:
    # Source: OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return, and their wide forms.
    job = replace(DESK, employer=f"{start}HYPERLINK(1)")
    sheet = timesheet(job, MONDAY, LAST, [Stint(1, MUSEUM, MONDAY, 60, note=f"{start}1+1")], BRUSSELS)

    cells = [cell for row in rows_of(timesheet_csv(sheet, replace(MANNERS, with_notes=True))) for cell in row]

    assert f"'{start}HYPERLINK(1)" in cells
    assert not any(cell.startswith(FORMULA_STARTS) for cell in cells)


@given(st.text(max_size=12))
def test_no_cell_reads_as_a_formula_and_none_loses_a_letter(text: str) -> None:
    assert not inert(text).startswith(FORMULA_STARTS)
    assert inert(text) in (text, f"'{text}")


@needs_office
def test_a_spreadsheet_program_that_opens_the_file_finds_no_formula(tmp_path: Path) -> None:
    work = [Stint(number, MUSEUM, MONDAY + timedelta(days=number), 60, note=f"{start}1+1") for number, start in enumerate("=+-@\t\r")]
    file = tmp_path / "sheet.csv"
    file.write_bytes(timesheet_csv(timesheet(DESK, MONDAY, LAST, work, BRUSSELS), replace(MANNERS, with_notes=True)))

    (opened,) = recomputed([file], tmp_path / "opened")

    read = load_workbook(opened).worksheets[0]
    assert read.max_row == len(work) + 2
    assert "f" not in {cell.data_type for row in read.iter_rows() for cell in row}
    assert read["M2"].value == "'=1+1"
