"""A timesheet in the chat, what was handed in, and payday's eve."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import timedelta
from itertools import groupby

from bot.language.meaning import Several, Show, Undo
from bot.language.pay_meaning import HandIn, SendTimesheet
from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.handed_in import ChangedDay, ChangedPay
from bot.rules.pay.timesheet import Timesheet
from bot.rules.weeks import first_of_week, last_of_week
from bot.voice.manners import Manners, count_text, employed, hours_text, listed, title_text
from bot.voice.message import Message, Page, Rows, Tap
from bot.voice.post_said import LATE
from bot.voice.replies import ChangedPeriod, PaydayEve, PeriodHandedIn, TimesheetFile, TimesheetView
from bot.voice.timesheet_words import ESTIMATE, GROSS, SOME_WITHOUT_TIMES, overtime_words, unrated_words, went_words
from storage.records import DayHandedIn, Occurrence

MOST_DAYS = 10
"""A longer sheet is summed up by workweek, so that it fits a phone."""

FORMS = {
    "pdf": "To print and sign (PDF).",
    "xlsx": "A workbook with its sums (XLSX).",
    "csv": "Plain cells (CSV).",
}
MOST_SPANS = 2
MOST_CHANGED = 3
MOST_MISSING = 3


def timesheet_view(reply: TimesheetView, manners: Manners) -> Message:
    """The days or weeks, the totals, the likely pay, and whether it was handed in."""
    page, sheet = Page(), reply.sheet
    page.heading(employed(sheet.job.name, sheet.job.employer))
    page.line(manners.days(sheet.first, sheet.last))
    page.lines(_day_lines(sheet, manners) if len(sheet.days) <= MOST_DAYS else _week_lines(sheet, manners))
    page.lines(list(_totals(sheet, manners)) if sheet.days else ["No hours logged."])
    page.lines(missing_lines(reply.missing, manners))
    if reply.payday:
        page.line(f"Payday: {manners.day(reply.payday)}.")
    page.lines(list(_handed_in_lines(reply, manners)))
    return page.message(_buttons(reply))


def _day_lines(sheet: Timesheet, manners: Manners) -> list[str]:
    return [f"{manners.day(day.day)}: {_times(day, manners)}{hours_text(day.worked)}{_paid(day.worked, day.paid)}" for day in sheet.days]


def _times(day: DaySheet, manners: Manners) -> str:
    """ "09:00–12:00, less 30 min: ", the first and the last time of many stints, that some have none; or nothing without times."""
    timed = [(each.stint.starts, each.stint.ends) for each in day.stints if each.stint.starts and each.stint.ends]
    if not timed:
        return f"less {hours_text(day.noted_break)}: " if day.noted_break else ""
    spans = [manners.span(starts, ends) for starts, ends in timed if starts and ends]
    if len(spans) > MOST_SPANS:
        spans = [f"{manners.span(timed[0][0], timed[-1][1])} in {len(spans)} stints"]
    if len(timed) < len(day.stints):
        spans.append(SOME_WITHOUT_TIMES)
    pause = [f"less {hours_text(day.noted_break)}"] if day.noted_break else []
    return ", ".join((*spans, *pause)) + went_words(day, manners.zone) + ": "


def _week_lines(sheet: Timesheet, manners: Manners) -> list[str]:
    starts = sheet.job.week_starts
    weeks = [(first, tuple(days)) for first, days in groupby(sheet.days, lambda day: first_of_week(day.day, starts))]
    return [_week_line(days, sheet, manners) for _, days in weeks]


def _week_line(days: tuple[DaySheet, ...], sheet: Timesheet, manners: Manners) -> str:
    starts = sheet.job.week_starts
    first, last = max(first_of_week(days[0].day, starts), sheet.first), min(last_of_week(days[0].day, starts), sheet.last)
    worked, paid = sum(day.worked for day in days), sum(day.paid for day in days)
    return f"{manners.days(first, last)}: {hours_text(worked)} on {count_text(len(days), 'day')}{_paid(worked, paid)}"


def _paid(worked: int, paid: int) -> str:
    return f", paid {hours_text(paid)}" if paid != worked else ""


def _totals(sheet: Timesheet, manners: Manners) -> Iterator[str]:
    yield f"Together: {hours_text(sheet.worked)}"
    noted = sum(day.noted_break for day in sheet.days)
    if noted:
        yield f"Breaks you noted: {hours_text(noted)}, not counted"
    if sheet.job.breaks or sheet.job.rounding:
        how = [f"less {hours_text(sheet.taken_off)} of break"] if sheet.taken_off else []
        how += ["rounded"] if sheet.job.rounding else []
        yield f"Paid: {hours_text(sheet.paid)}" + (f", {listed(how)}" if how else "")
    for each in sheet.overtime:
        yield f"{overtime_words(each.times, manners)}: {hours_text(each.minutes)}"
    if sheet.estimate:
        yield f"{GROSS}: {manners.number(sheet.estimate.gross)} {sheet.estimate.currency}. {ESTIMATE}"
        if sheet.estimate.unrated:
            yield unrated_words(sheet.estimate.unrated)


def _handed_in_lines(reply: TimesheetView, manners: Manners) -> Iterator[str]:
    if reply.handed_in:
        day = manners.day(manners.local(reply.handed_in.at).date())
        yield f"Changed since you handed it in on {day}: {_changed(reply.changed, manners)}." if reply.changed else f"Handed in on {day}."
        if reply.pay:
            yield f"What it pays has changed since: {_pay_words(reply.pay, manners)}."
    if reply.elsewhere:
        periods = [manners.days(each.handed_in.first, each.handed_in.last) for each in reply.elsewhere]
        yield f"Changed since you handed them in: {listed(periods)}."


def _buttons(reply: TimesheetView) -> Rows:
    sheet = reply.sheet
    name, span = sheet.job.name, (sheet.first, sheet.last)
    before = Tap("Period before", Show("timesheet", day=sheet.first - timedelta(days=1), category=name))
    if not sheet.days:
        return ((before,),)
    label = "Handed in" if reply.handed_in is None else "Handed in anew"
    hand_in = [Tap(label, HandIn(name, *span))] if reply.handed_in is None or reply.changed else []
    return ((Tap("Files", SendTimesheet(name, *span)), *hand_in), (before,))


def timesheet_file(reply: TimesheetFile, manners: Manners) -> Message:
    """What stands under a file: "Museum timesheet, 2–15 March: 20 h 34, paid 20 h. PDF"."""
    page, sheet = Page(), reply.sheet
    figures = f"{hours_text(sheet.worked)}{_paid(sheet.worked, sheet.paid)}"
    page.line(f"{title_text(sheet.job.name)} timesheet, {manners.days(sheet.first, sheet.last)}: {figures}. {FORMS[reply.form]}")
    return page.message()


def handed_in(reply: PeriodHandedIn, manners: Manners) -> Message:
    """Which figures were handed in."""
    page, sheet = Page(), reply.sheet
    again = " anew" if reply.anew else ""
    figures = f"{hours_text(sheet.worked)}{_paid(sheet.worked, sheet.paid)}"
    page.line(f"Handed in{again}: the {sheet.job.name} timesheet of {manners.days(sheet.first, sheet.last)}, {figures}.")
    if reply.still_open:
        page.line(f"The period still runs until {manners.day(sheet.last)}.")
    page.lines(missing_lines(reply.missing, manners))
    page.line("I keep these figures and point out what changes them.")
    if reply.other is None:
        return page.message()
    instead = Several((Undo(), HandIn(sheet.job.name, *reply.other)))
    return page.message(((Tap(f"No, {manners.days(*reply.other)}", instead),),))


def missing_lines(missing: Sequence[Occurrence], manners: Manners) -> list[str]:
    """ "2 planned shifts have no hours: Fri 6 Mar, 06:00–12:00; Sat 7 Mar, 14:00–23:00."; the first few by name."""
    if not missing:
        return []
    said = [f"{manners.day(each.day)}, {manners.span(each.starts, each.ends)}" for each in missing[:MOST_MISSING]]
    more = [f"{len(missing) - MOST_MISSING} more"] if len(missing) > MOST_MISSING else []
    have = "has" if len(missing) == 1 else "have"
    return [f"{count_text(len(missing), 'planned shift')} {have} no hours: {'; '.join((*said, *more))}."]


def unsettled_lines(periods: Iterable[ChangedPeriod], manners: Manners) -> list[str]:
    """One line a period that is no longer as it was handed in; of many the first few, and how many more."""
    known = tuple(periods)
    lines = [f"This changes the {_which(each, manners)} that you handed in: {_how(each, manners)}." for each in known[:MOST_CHANGED]]
    more = len(known) - MOST_CHANGED
    return [*lines, f"And {count_text(more, 'more timesheet')} that you handed in."] if more > 0 else lines


def _how(period: ChangedPeriod, manners: Manners) -> str:
    return f"pay {_pay_words(period.pay, manners)}" if period.pay else _changed(period.days, manners)


def _pay_words(pay: ChangedPay, manners: Manners) -> str:
    """ "290.00 EUR then, 310.00 EUR now"."""
    return f"{manners.number(pay.was)} {pay.was_in} then, {manners.number(pay.now)} {pay.now_in} now"


def changed_lines(periods: tuple[ChangedPeriod, ...], manners: Manners) -> list[str]:
    """One line for all of them together, for the recap."""
    return [f"Changed since you handed it in: {listed([f'the {_which(each, manners)}' for each in periods])}."] if periods else []


def _which(period: ChangedPeriod, manners: Manners) -> str:
    return f"{period.job} timesheet of {manners.days(period.handed_in.first, period.handed_in.last)}"


def _changed(days: tuple[ChangedDay, ...], manners: Manners) -> str:
    said = [f"{manners.day(each.day)} {_figure(each.was)} then, {_figure(each.now, each.was)} now" for each in days[:MOST_CHANGED]]
    more = [f"{count_text(len(days) - MOST_CHANGED, 'more day')}"] if len(days) > MOST_CHANGED else []
    return "; ".join((*said, *more))


def _figure(day: DayHandedIn | None, beside: DayHandedIn | None = None) -> str:
    """The exact hours; those paid where the exact ones are the same as those ``beside``."""
    if day is None:
        return "nothing"
    return f"paid {hours_text(day.paid)}" if beside and beside.worked == day.worked else hours_text(day.worked)


def payday_eve(reply: PaydayEve, manners: Manners) -> Message:
    """What is paid tomorrow, and what was not handed in yet."""
    page, taps = Page(), []
    page.heading(f"Payday on {manners.long_day(reply.payday)}")
    if reply.late:
        page.line(LATE)
    for sheet, is_handed_in in reply.periods:
        name = title_text(sheet.job.name)
        page.line(f"{name}, {manners.days(sheet.first, sheet.last)}: {hours_text(sheet.paid)} to be paid{_gross(sheet, manners)}.")
        if not is_handed_in:
            page.line(f"The {sheet.job.name} timesheet is not marked as handed in.")
        taps.append(Tap(f"Timesheet {sheet.job.name}", Show("timesheet", day=sheet.first, category=sheet.job.name)))
    return page.message(tuple((tap,) for tap in taps))


def _gross(sheet: Timesheet, manners: Manners) -> str:
    return f", {manners.number(sheet.estimate.gross)} {sheet.estimate.currency} estimated before deductions" if sheet.estimate else ""
