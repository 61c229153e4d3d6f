"""A timesheet as CSV: one line a day, and the totals."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from typing import Final

from bot.exporting.cells import inert
from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.rates import rate_on
from bot.rules.pay.timesheet import Timesheet
from bot.voice.manners import title_text
from bot.voice.timesheet_words import DAY_COLUMNS, ESTIMATE, GROSS, TOTAL, SheetManners, clock_hours, notes_of, overtime_words, weekday

COLUMNS: Final = ("Employer", "Job", *DAY_COLUMNS, "Hours worked", "Hours paid", "Hours paid, decimal")


def timesheet_csv(sheet: Timesheet, manners: SheetManners) -> bytes:
    """The file's content: RFC 4180 with CRLF, in UTF-8 with a byte order mark, without which spreadsheets guess another encoding."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerows([inert(cell) for cell in row] for row in _rows(sheet, manners))
    return text.getvalue().encode("utf-8-sig")


def _rows(sheet: Timesheet, manners: SheetManners) -> Iterator[tuple[str, ...]]:
    """Every row has as many cells as the first; the rates, the pay and the notes are there only where they are known or wanted."""
    job = (sheet.job.employer, title_text(sheet.job.name))

    def further(rate: str = "", gross: str = "", notes: str = "") -> tuple[str, ...]:
        return (*((rate, gross) if sheet.estimate else ()), *((notes,) if manners.with_notes else ()))

    yield (*COLUMNS, *further(f"Rate, {sheet.job.currency}", f"{GROSS}, {sheet.job.currency}. {ESTIMATE}", "Notes"))
    for day in sheet.days:
        yield (*job, *_day_cells(day, manners), *further(_rate(sheet, day, manners), notes=notes_of(day)))
    gross = manners.number(sheet.estimate.gross) if sheet.estimate else ""
    yield (*job, *_total_cells(sheet, manners), *further(gross=gross))
    for each in sheet.overtime:
        yield (*job, overtime_words(each.times, manners), *[""] * 5, clock_hours(each.minutes), manners.hours(each.minutes), *further())


def _day_cells(day: DaySheet, manners: SheetManners) -> tuple[str, ...]:
    breaks = (str(day.noted_break), str(day.taken_off))
    hours = (clock_hours(day.worked), clock_hours(day.paid), manners.hours(day.paid))
    return (manners.day(day.day), weekday(day.day), manners.times(day), *breaks, *hours)


def _total_cells(sheet: Timesheet, manners: SheetManners) -> tuple[str, ...]:
    breaks = (str(sum(day.noted_break for day in sheet.days)), str(sheet.taken_off))
    return (TOTAL, "", "", *breaks, clock_hours(sheet.worked), clock_hours(sheet.paid), manners.hours(sheet.paid))


def _rate(sheet: Timesheet, day: DaySheet, manners: SheetManners) -> str:
    rate = rate_on(day.day, sheet.job.rates)
    return "" if rate is None else manners.number(rate)
