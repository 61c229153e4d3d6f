"""A timesheet as a workbook whose totals are formulas."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from bot.pictures.ledger import Ledger
from bot.rules.pay.rates import rate_on
from bot.rules.pay.rounding import decimal_hours, decimal_of
from bot.rules.pay.timesheet import Estimate, Overtime, Timesheet, WeekSheet
from bot.voice import timesheet_words as words
from bot.voice.timesheet_words import SheetManners
from storage.records import DateOrder

DAY_FORMS: Final = {DateOrder.DAY_MONTH: "dd/mm/yyyy", DateOrder.MONTH_DAY: "mm/dd/yyyy"}
HOURS: Final = "0.00"
MONEY: Final = "0.00"
CLOCK: Final = "[h]:mm"
MINUTES_A_DAY: Final = 24 * 60
FIRST_ROW: Final = 6
COLUMNS: Final = "ABCDEFGHIJK"
WIDTHS: Final = (16, 14, 30, 14, 14, 14, 12, 15, 12, 12, 40)


def timesheet_xlsx(sheet: Timesheet, manners: SheetManners) -> bytes:
    """The file's content. Minutes are the figures; hours, totals and pay are formulas over them."""
    ledger = Ledger(words.TITLE, "Weekwright")
    _top(ledger, sheet, manners)
    total = FIRST_ROW + max(1, len(sheet.days))
    _days(ledger, sheet, manners)
    _totals(ledger, sheet, total)
    row = _overtime(ledger, sheet, manners, total + 2)
    if sheet.estimate:
        row = _estimate(ledger, sheet, sheet.estimate, total, row)
    for number, rule in enumerate(words.rules_said(sheet.job)):
        ledger.text(f"A{row + number}", rule)
    return ledger.content()


def _top(ledger: Ledger, sheet: Timesheet, manners: SheetManners) -> None:
    ledger.text("A1", f"{words.TITLE}: {words.job_line(sheet.job)}", bold=True)
    ledger.text("A2", manners.period(sheet))
    if manners.name:
        ledger.text("A3", manners.name)
    for column, (heading, width) in enumerate(zip(_headings(sheet, manners), WIDTHS, strict=False)):
        ledger.heading(f"{COLUMNS[column]}{FIRST_ROW - 1}", heading)
        ledger.width(COLUMNS[column], width)
    ledger.freeze(f"A{FIRST_ROW}")


def _headings(sheet: Timesheet, manners: SheetManners) -> tuple[str, ...]:
    rate = (f"Rate, {sheet.job.currency}",) if sheet.estimate else ()
    notes = ("Notes",) if manners.with_notes else ()
    return (*words.DAY_COLUMNS, "Worked, minutes", "Paid, minutes", "Paid, hours:minutes", "Paid, hours", *rate, *notes)


def _days(ledger: Ledger, sheet: Timesheet, manners: SheetManners) -> None:
    if not sheet.days:
        ledger.text(f"A{FIRST_ROW}", words.NOTHING)
    for row, day in enumerate(sheet.days, FIRST_ROW):
        ledger.day(f"A{row}", day.day, DAY_FORMS[manners.date_order])
        ledger.text(f"B{row}", words.weekday(day.day))
        ledger.text(f"C{row}", manners.times(day))
        for column, minutes in zip("DEFG", (day.noted_break, day.taken_off, day.worked, day.paid), strict=True):
            ledger.number(f"{column}{row}", minutes)
        _hours(ledger, row, day.paid)
        rate = rate_on(day.day, sheet.job.rates)
        if sheet.estimate and rate is not None:
            ledger.number(f"J{row}", rate, MONEY)
        if manners.with_notes:
            ledger.text(f"{'K' if sheet.estimate else 'J'}{row}", words.notes_of(day))


def _hours(ledger: Ledger, row: int, paid: int) -> None:
    """Paid minutes as a length of time and as hours with two decimals."""
    ledger.formula(f"H{row}", f"G{row}/{MINUTES_A_DAY}", Fraction(paid, MINUTES_A_DAY), CLOCK)
    ledger.formula(f"I{row}", f"ROUND(G{row}/60,2)", decimal_hours(paid), HOURS)


def _totals(ledger: Ledger, sheet: Timesheet, row: int) -> None:
    ledger.text(f"A{row}", words.TOTAL, bold=True)
    sums = (sum(day.noted_break for day in sheet.days), sheet.taken_off, sheet.worked, sheet.paid)
    for column, minutes in zip("DEFG", sums, strict=True):
        ledger.formula(f"{column}{row}", f"SUM({column}{FIRST_ROW}:{column}{row - 1})", minutes)
    _hours(ledger, row, sheet.paid)


def _overtime(ledger: Ledger, sheet: Timesheet, manners: SheetManners, row: int) -> int:
    """The workweeks with overtime and what it pays; gives the next free row."""
    found = [(week, each) for week in sheet.weeks for each in week.overtime]
    if not found:
        return row
    for column, heading in zip("ABCDEF", words.WEEK_COLUMNS, strict=True):
        ledger.heading(f"{column}{row}", heading)
    for at, (week, each) in enumerate(found, row + 1):
        ledger.day(f"A{at}", week.last, DAY_FORMS[manners.date_order])
        _overtime_row(ledger, week, each, at)
    first, last = row + 1, row + len(found)
    ledger.text(f"A{last + 1}", words.TOTAL, bold=True)
    ledger.formula(f"D{last + 1}", f"SUM(D{first}:D{last})", sum(each.minutes for _, each in found))
    if sheet.estimate:
        ledger.formula(f"F{last + 1}", f"ROUND(SUM(F{first}:F{last}),2)", sheet.estimate.premium, MONEY)
    return last + 3


def _overtime_row(ledger: Ledger, week: WeekSheet, overtime: Overtime, row: int) -> None:
    ledger.number(f"B{row}", week.minutes)
    ledger.number(f"D{row}", overtime.minutes)
    ledger.number(f"E{row}", overtime.times, "0.0#")
    pays = week.premium_of(overtime)
    if week.regular_rate is not None and pays is not None:
        ledger.number(f"C{row}", decimal_of(week.regular_rate), "0.00##")
        ledger.formula(f"F{row}", f"C{row}*(E{row}-1)*D{row}/60", pays, "0.00##")


def _estimate(ledger: Ledger, sheet: Timesheet, estimate: Estimate, total: int, row: int) -> int:
    """What the period is likely to pay; gives the next free row."""
    last = total - 1
    premium = f"F{row - 2}" if sheet.overtime else "0"
    straight = f"ROUND(SUMPRODUCT(G{FIRST_ROW}:G{last},J{FIRST_ROW}:J{last})/60,2)"
    lines = (
        (words.STRAIGHT, straight, estimate.straight),
        (words.PREMIUM, premium, estimate.premium),
        (words.GROSS, f"D{row}+D{row + 1}", estimate.gross),
    )
    for at, (label, formula, figure) in enumerate(lines, row):
        ledger.text(f"A{at}", f"{label}, {estimate.currency}", bold=label == words.GROSS)
        ledger.formula(f"D{at}", formula, figure, MONEY)
    ledger.text(f"A{row + 3}", words.ESTIMATE)
    if estimate.unrated:
        ledger.text(f"A{row + 4}", words.unrated_words(estimate.unrated))
    return row + 6
