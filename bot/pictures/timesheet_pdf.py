"""A timesheet as one printed page with lines to sign on."""

from __future__ import annotations

from typing import Final, NamedTuple

from bot.pictures.lettering import Weight
from bot.pictures.paper import Paper, PaperSize, fitted, wrapped
from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.timesheet import Estimate, Timesheet
from bot.voice import timesheet_words as words
from bot.voice.timesheet_words import SheetManners, clock_hours

MARGIN: Final = 50.0
TOP: Final = 124.0
TALLEST_ROW: Final = 18.0
ROOM_BELOW: Final = 250.0
"""Points below the table for overtime, pay, rules and signatures."""

NAME_ROOM: Final = 38.0
NAME_LINE: Final = 260.0
"""Where the line to write one's name on starts and ends."""

GREY: Final = 0.35


class Column(NamedTuple):
    """A column of the table: its heading, where it starts or, for figures, ends, as a share of the width between the margins."""

    heading: str
    at: float
    figures: bool


COLUMNS: Final = (
    Column(words.DAY_COLUMNS[0], 0, False),
    Column(words.DAY_COLUMNS[1], 0.14, False),
    Column(words.DAY_COLUMNS[2], 0.29, False),
    Column("Break", 0.7, True),
    Column("Worked", 0.8, True),
    Column("Paid", 0.9, True),
    Column("Decimal", 1, True),
)


def timesheet_pdf(sheet: Timesheet, manners: SheetManners, size: PaperSize = PaperSize.A4) -> bytes:
    """The file's content: one page, whatever the period."""
    paper = Paper(size, f"{words.TITLE}: {words.job_line(sheet.job)}, {manners.period(sheet)}")
    _head(paper, sheet, manners)
    y = _table(paper, sheet, manners)
    y = _sums(paper, sheet, manners, y + 22)
    _rules(paper, sheet, y + 6)
    _signatures(paper)
    return paper.content()


def _head(paper: Paper, sheet: Timesheet, manners: SheetManners) -> None:
    right = paper.width - MARGIN
    paper.text(MARGIN, 62, words.TITLE, 20, Weight.BOLD)
    paper.text_to(right, 62, manners.period(sheet), 11, Weight.MEDIUM)
    paper.text(MARGIN, 84, fitted(words.job_line(sheet.job), right - MARGIN, 11), 11)
    if manners.name:
        paper.text(MARGIN, 100, fitted(manners.name, right - MARGIN, 11), 11)
    else:
        paper.text(MARGIN, 103, words.NAME, 11)
        paper.line(MARGIN + NAME_ROOM, 104, MARGIN + NAME_LINE)


def _table(paper: Paper, sheet: Timesheet, manners: SheetManners) -> float:
    """The days and their total; gives how far down they reach."""
    row = min(TALLEST_ROW, (paper.height - TOP - ROOM_BELOW) / (len(sheet.days) + 2))
    _cells(paper, TOP, tuple(column.heading for column in COLUMNS), Weight.MEDIUM)
    y = TOP + 5
    paper.line(MARGIN, y, paper.width - MARGIN, thick=0.8)
    for number, day in enumerate(sheet.days):
        if number % 2:
            paper.shade(MARGIN, y, paper.width - 2 * MARGIN, row, grey=0.95)
        y += row
        _cells(paper, y - row * 0.3, _day_cells(day, manners))
    if not sheet.days:
        y += row
        paper.text(MARGIN, y - row * 0.3, words.NOTHING, grey=GREY)
    paper.line(MARGIN, y, paper.width - MARGIN, thick=0.8)
    _cells(paper, y + row * 0.8, _total_cells(sheet, manners), Weight.BOLD)
    return y + row


def _cells(paper: Paper, y: float, cells: tuple[str, ...], weight: Weight = Weight.REGULAR) -> None:
    room = paper.width - 2 * MARGIN
    for column, cell in zip(COLUMNS, cells, strict=True):
        if column.figures:
            paper.text_to(MARGIN + column.at * room, y, cell, weight=weight)
        else:
            paper.text(MARGIN + column.at * room, y, fitted(cell, 0.34 * room, 9, weight), weight=weight)


def _day_cells(day: DaySheet, manners: SheetManners) -> tuple[str, ...]:
    hours = (clock_hours(day.noted_break + day.taken_off), clock_hours(day.worked), clock_hours(day.paid), manners.hours(day.paid))
    return (manners.day(day.day), words.weekday(day.day), manners.times(day), *hours)


def _total_cells(sheet: Timesheet, manners: SheetManners) -> tuple[str, ...]:
    breaks = sum(day.noted_break + day.taken_off for day in sheet.days)
    return (words.TOTAL, "", "", clock_hours(breaks), clock_hours(sheet.worked), clock_hours(sheet.paid), manners.hours(sheet.paid))


def _sums(paper: Paper, sheet: Timesheet, manners: SheetManners, y: float) -> float:
    """Overtime and pay, where there are any; gives how far down they reach."""
    right = paper.width - MARGIN
    for each in sheet.overtime:
        paper.text(MARGIN, y, words.overtime_words(each.times, manners))
        paper.text_to(right, y, f"{clock_hours(each.minutes)}, {manners.hours(each.minutes)} hours")
        y += 14
    if sheet.estimate:
        for label, amount in _pay_lines(sheet.estimate, manners):
            weight = Weight.BOLD if label == words.GROSS else Weight.REGULAR
            paper.text(MARGIN, y, label, weight=weight)
            paper.text_to(right, y, amount, weight=weight)
            y += 14
        paper.text(MARGIN, y, words.ESTIMATE, grey=GREY)
        y += 14
        if sheet.estimate.unrated:
            paper.text(MARGIN, y, words.unrated_words(sheet.estimate.unrated), grey=GREY)
            y += 14
    return y


def _pay_lines(estimate: Estimate, manners: SheetManners) -> tuple[tuple[str, str], ...]:
    """What hours and overtime pay, and both together; only that without overtime."""
    gross = (words.GROSS, manners.money(estimate.gross, estimate.currency))
    if not estimate.premium:
        return (gross,)
    straight, premium = (manners.money(each, estimate.currency) for each in (estimate.straight, estimate.premium))
    return (words.STRAIGHT, straight), (words.PREMIUM, premium), gross


def _rules(paper: Paper, sheet: Timesheet, y: float) -> None:
    for rule in words.rules_said(sheet.job):
        for line in wrapped(rule, paper.width - 2 * MARGIN, 8):
            paper.text(MARGIN, y, line, 8, grey=GREY)
            y += 11


def _signatures(paper: Paper) -> None:
    """A line for each to sign on, and one for the day, at the foot of the page."""
    y = paper.height - 62
    half = (paper.width - 2 * MARGIN) / 2
    for number, who in enumerate(words.SIGN):
        left = MARGIN + number * (half + 10)
        paper.line(left, y, left + half * 0.62)
        paper.text(left, y + 12, who, 8, grey=GREY)
        paper.line(left + half * 0.68, y, left + half - 10)
        paper.text(left + half * 0.68, y + 12, words.SIGNED_ON, 8, grey=GREY)
