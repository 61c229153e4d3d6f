from __future__ import annotations

import io
from dataclasses import replace
from datetime import date, timedelta

import pytest
from pypdf import PdfReader

from bot.pictures.paper import PaperSize
from bot.pictures.timesheet_pdf import timesheet_pdf
from bot.rules.pay.job_rules import DAILY_OVERTIME
from bot.rules.pay.timesheet import Timesheet, timesheet
from storage.records import BreakRule, PayPeriod, Stint
from tests.pictures.made_sheets import DESK, MANNERS, MUSEUM, empty, hours_only, usual
from tests.rules.made import BRUSSELS, wall


def long_month() -> Timesheet:
    """Thirty-one long days of up to five stints, with every rule there is."""
    first = date(2026, 3, 1)
    days = [first + timedelta(days=number) for number in range(31)]
    work = [
        Stint(100 * day.day + hour, MUSEUM, day, 110, wall(f"{day} {hour:02d}:03"), wall(f"{day} {hour + 1:02d}:53"))
        for day in days
        for hour in range(6, 8 + 2 * (day.day % 6), 2)
    ]
    job = replace(DESK, pay_period=PayPeriod.MONTHLY, breaks=(BreakRule(360, 30), BreakRule(540, 45)), overtime=DAILY_OVERTIME)
    return timesheet(job, first, days[-1], work, BRUSSELS)


def pages_of(content: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(content))


@pytest.mark.parametrize("size", list(PaperSize))
@pytest.mark.parametrize("sheet", [usual(), hours_only(), empty(), long_month()], ids=["usual", "hours only", "empty", "long month"])
def test_a_period_is_one_page_of_the_paper_asked_for(sheet: Timesheet, size: PaperSize) -> None:
    pages = pages_of(timesheet_pdf(sheet, MANNERS, size)).pages

    assert len(pages) == 1
    assert (float(pages[0].mediabox.width), float(pages[0].mediabox.height)) == pytest.approx(size.value, abs=0.01)


def test_the_page_says_whose_hours_they_are_what_they_come_to_and_where_to_sign() -> None:
    text = pages_of(timesheet_pdf(usual(), MANNERS)).pages[0].extract_text()

    for said in (
        "Museum, Museum of Canals and Locks", "02/03/2026 to 15/03/2026", "Noor Peeters", "08:53–17:00", "44:43", "42:00", "42.00",
        "Overtime at 1.5 times the rate", "1:30", "622.65 EUR", "Signed by the employee", "Approved by the employer",
        "each start and end are rounded to the nearest quarter of an hour",
    ):  # fmt: skip
        assert said in text


def test_gross_pay_says_that_it_is_an_estimate_and_who_decides() -> None:
    assert "Gross pay, estimated" in (text := pages_of(timesheet_pdf(usual(), MANNERS)).pages[0].extract_text())
    assert "Before deductions; the employer's record and local law decide." in text
    assert "estimated" not in pages_of(timesheet_pdf(hours_only(), MANNERS)).pages[0].extract_text()


def test_nothing_on_a_full_page_reaches_the_lines_to_sign_on() -> None:
    lowest: list[float] = []

    def note(text: str, _cm: object, place: list[float], _font: object, _size: float) -> None:
        if text.strip() and not text.startswith(("Signed", "Approved", "Date")):
            lowest.append(place[5])

    pages_of(timesheet_pdf(long_month(), MANNERS, PaperSize.LETTER)).pages[0].extract_text(visitor_text=note)

    assert min(lowest) > 62 + 20


def test_names_with_accents_keep_their_letters() -> None:
    job = replace(DESK, employer="Musée de la Vélocipédie Škoda")

    text = pages_of(timesheet_pdf(timesheet(job, date(2026, 3, 2), date(2026, 3, 15), [], BRUSSELS), MANNERS)).pages[0].extract_text()

    assert "Musée de la Vélocipédie Škoda" in text


def test_the_same_sheet_gives_the_same_bytes_at_any_time() -> None:
    assert timesheet_pdf(usual(), MANNERS) == timesheet_pdf(usual(), MANNERS)


def test_without_a_name_there_is_a_line_to_write_it_on() -> None:
    named, unnamed = (timesheet_pdf(usual(), manners) for manners in (MANNERS, replace(MANNERS, name=None)))

    assert "Name:" in pages_of(unnamed).pages[0].extract_text()
    assert "Name:" not in pages_of(named).pages[0].extract_text()
