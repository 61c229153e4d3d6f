"""What a timesheet's files say: headings, dates, hours and money, the employer's rules in sentences."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Final, Literal
from zoneinfo import ZoneInfo

from bot.rules.clock_went import clock_went
from bot.rules.pay.day_sheet import DaySheet
from bot.rules.pay.job_rules import JobRules
from bot.rules.pay.rounding import MINUTES_AN_HOUR, decimal_hours
from bot.rules.pay.timesheet import Timesheet
from bot.voice.manners import LONG_DAYS, Manners, employed, hours_text
from bot.voice.times_of_day import time_text
from storage.records import BreakRule, ClockStyle, DateOrder, Rounded, Rounding, RoundingStep, Stint

ESTIMATE: Final = "Before deductions; the employer's record and local law decide."
EXACT: Final = "Hours worked are as they were noted, to the minute, less the breaks that were noted."
OVERTIME: Final = "Overtime counts the workweek's hours in all jobs for this employer, in the period in which the week ends."
SIGN: Final = ("Signed by the employee", "Approved by the employer")
NAME: Final = "Name:"
SIGNED_ON: Final = "Date"
TITLE: Final = "Timesheet"
TOTAL: Final = "Total"
GROSS: Final = "Gross pay, estimated"
STRAIGHT: Final = "Hours at their own rates"
PREMIUM: Final = "Overtime on top"
SOME_WITHOUT_TIMES: Final = "and some without times"
NOTHING: Final = "No hours were noted in this period."

DAY_COLUMNS: Final = ("Date", "Day", "Times", "Break noted, minutes", "Break taken off, minutes")
"""The headings of a day's cells, in the order of the files."""

WEEK_COLUMNS: Final = (
    "Workweek to", "Paid in all the employer's jobs, minutes", "Rate on average over all of them",
    "Overtime in this job, minutes", "Times the rate", "Overtime on top",
)  # fmt: skip

STEPS: Final = {
    RoundingStep.FIVE_MINUTES: "5 minutes",
    RoundingStep.TENTH_HOUR: "6 minutes",
    RoundingStep.QUARTER_HOUR: "quarter of an hour",
}
MOST_SPANS: Final = 3
CENTS: Final = 2
CENT: Final = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class SheetManners:
    """How the person writes days and numbers, whose name the files bear, and whether notes are handed in too.

    Times are of the 24-hour clock whatever the person's: the files are records.
    """

    zone: ZoneInfo
    date_order: DateOrder = DateOrder.DAY_MONTH
    decimal_mark: Literal[".", ","] = "."
    name: str | None = None
    with_notes: bool = False

    def day(self, day: date) -> str:
        """ "02/03/2026" for the 2nd of March, or "03/02/2026"."""
        return f"{day:%d/%m/%Y}" if self.date_order is DateOrder.DAY_MONTH else f"{day:%m/%d/%Y}"

    def number(self, number: Decimal) -> str:
        """ "7.75", or "7,75"."""
        return f"{number:f}".replace(".", self.decimal_mark)

    def hours(self, minutes: int) -> str:
        """Minutes as hours with two decimals: "7.75"."""
        return self.number(decimal_hours(minutes))

    def money(self, amount: Decimal, currency: str) -> str:
        """ "543.75 EUR"."""
        return f"{self.number(amount)} {currency}"

    def period(self, sheet: Timesheet) -> str:
        """ "02/03/2026 to 15/03/2026"."""
        return f"{self.day(sheet.first)} to {self.day(sheet.last)}"

    def times(self, day: DaySheet) -> str:
        """ "08:00–12:00, 13:00–17:00", and that the clock went back or forward; of more than three stints the first and the last time."""
        spans = [self._span(each.stint) for each in day.stints]
        timed = [span for span in spans if span]
        untimed = len(spans) - len(timed)
        went = went_words(day, self.zone)
        if len(timed) > MOST_SPANS:
            return f"{timed[0][0]}–{timed[-1][1]} in {len(timed)} stints{went}"
        said = [f"{starts}–{ends}" for starts, ends in timed]
        if untimed:
            said.append(SOME_WITHOUT_TIMES if timed else "without times")
        return ", ".join(said) + went

    def _span(self, stint: Stint) -> tuple[str, str] | None:
        if stint.starts is None or stint.ends is None:
            return None
        starts, ends = (time_text(each.astimezone(self.zone).time(), ClockStyle.TWENTY_FOUR) for each in (stint.starts, stint.ends))
        return starts, ends


def went_words(day: DaySheet, zone: ZoneInfo) -> str:
    """ " (the clock went back)" where it did during one of the day's stints, so that its hours are not what its times say."""
    stints = (each.stint for each in day.stints)
    ways = (clock_went(each.starts, each.ends, zone) for each in stints if each.starts and each.ends)
    return next((f" (the clock went {way})" for way in ways if way), "")


def in_cents(amount: Decimal) -> Decimal:
    """The same with two decimals at least: 15.00, 14.505."""
    return amount if -int(amount.as_tuple().exponent) >= CENTS else amount.quantize(CENT)


def weekday(day: date) -> str:
    """ "Monday"."""
    return LONG_DAYS[day.weekday()]


def clock_hours(minutes: int) -> str:
    """Minutes as hours and minutes: "7:45"."""
    return f"{minutes // 60}:{minutes % 60:02d}"


def notes_of(day: DaySheet) -> str:
    """The notes of a day's stints, one after the other."""
    return "; ".join(each.stint.note for each in day.stints if each.stint.note)


def file_name(sheet: Timesheet, ending: str) -> str:
    """ "timesheet-museum-2026-03-02-to-2026-03-15.csv"; what a file system may mind in the job's name becomes a dash."""
    name = "".join(letter if letter.isalnum() else "-" for letter in sheet.job.name.lower()).strip("-") or "job"
    return f"timesheet-{name}-{sheet.first}-to-{sheet.last}.{ending}"


def job_line(job: JobRules) -> str:
    """ "Museum, Museum of Canals and Locks", or one name where both are the same."""
    return employed(job.name, job.employer)


def overtime_words(times: Decimal, manners: Manners | SheetManners) -> str:
    """ "Overtime at 1.5 times the rate"."""
    return f"Overtime at {manners.number(times.normalize())} times the rate"


def unrated_words(minutes: int) -> str:
    """ "4 h from before the first rate are not in it."."""
    return f"{hours_text(minutes)} from before the first rate {'is' if minutes == MINUTES_AN_HOUR else 'are'} not in it."


def rules_said(job: JobRules) -> tuple[str, ...]:
    """How paid hours come from worked ones, a sentence a rule."""
    rounding = (rounding_said(job.rounding),) if job.rounding else ()
    overtime = (OVERTIME,) if job.overtime else ()
    return (EXACT, *(break_said(rule) for rule in job.breaks), *rounding, *overtime)


def rounding_said(rounding: Rounding) -> str:
    """ "For hours paid, each day's hours are rounded to the nearest quarter of an hour."."""
    what = "each start and end" if rounding.what is Rounded.PUNCHES else "each day's hours"
    middle = ", from the middle up" if rounding.step is RoundingStep.TENTH_HOUR else ""
    return f"For hours paid, {what} are rounded to the nearest {STEPS[rounding.step]}{middle}."


def break_said(rule: BreakRule) -> str:
    """The rule as a sentence."""
    over, off = hours_text(rule.after_minutes), hours_text(rule.minutes)
    return f"A day of more than {over} is due {off} of unpaid break; what was not taken of it is taken off the hours paid."
