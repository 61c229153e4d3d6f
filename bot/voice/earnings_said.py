"""What the hours of a span are likely to pay."""

from __future__ import annotations

from decimal import Decimal

from bot.rules.pay.timesheet import Timesheet
from bot.voice.manners import Manners, hours_text, title_text
from bot.voice.message import Message, Page
from bot.voice.replies import EarningsView
from bot.voice.timesheet_words import ESTIMATE, unrated_words


def earnings_view(reply: EarningsView, manners: Manners) -> Message:
    """A line a job, then the sum of those that pay in one currency, and that all of it is an estimate."""
    page = Page()
    page.heading(f"Earned, {manners.stretch(reply.first, reply.last)}")
    for sheet in reply.sheets:
        page.lines(_job_lines(sheet, manners))
    sums: dict[str, list[Decimal]] = {}
    for estimate in (each.estimate for each in reply.sheets if each.estimate):
        sums.setdefault(estimate.currency, []).append(estimate.gross)
    page.lines([f"Together: {manners.number(sum(each, Decimal(0)))} {currency}" for currency, each in sums.items() if len(each) > 1])
    if sums:
        page.line(ESTIMATE)
    return page.message()


def _job_lines(sheet: Timesheet, manners: Manners) -> list[str]:
    name = title_text(sheet.job.name)
    if sheet.estimate is None:
        why = "not all rates are known" if sheet.job.rates else f"no rate is known, so write “rate {sheet.job.name}” and what an hour pays"
        return [f"{name}: {hours_text(sheet.paid)}; {why}." if sheet.days else f"{name}: no hours."]
    off = [f"{hours_text(sheet.taken_off)} of break off"] if sheet.taken_off else []
    rounded = ["rounded"] if sheet.job.rounding else []
    how = f" ({', '.join([*off, *rounded])})" if off or rounded else ""
    line = f"{name}: {hours_text(sheet.paid)}{how}, {manners.number(sheet.estimate.gross)} {sheet.estimate.currency}"
    return [line, *([unrated_words(sheet.estimate.unrated)] if sheet.estimate.unrated else [])]
