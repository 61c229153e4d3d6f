"""When something takes place, or when the person works."""

from __future__ import annotations

from datetime import date

from bot.voice.manners import Manners, title_text
from bot.voice.message import Message, Page
from bot.voice.plans_said import occurrence_words
from bot.voice.recurrence_words import rule_words
from bot.voice.replies import TimesView
from storage.records import Occurrence

MOST = 12
"""Times that are told in one message."""


def times_view(reply: TimesView, manners: Manners) -> Message:
    """A line for each time; where there is none that, and the next one."""
    page = Page()
    lines = [_line(each, manners, alone=len(reply.there) == 1) for each in reply.there]
    page.lines(lines[:MOST])
    if len(lines) > MOST:
        page.line(f"And {len(lines) - MOST} more.")
    if not lines:
        page.line(f"Nothing is planned for {title_text(reply.about) if reply.about else 'work'} {_when(*reply.span, manners)}.")
    if reply.after is not None:
        page.line(f"Next: {_line(reply.after, manners, alone=True)}")
    return page.message()


def _line(occurrence: Occurrence, manners: Manners, *, alone: bool) -> str:
    """ "Thu 5 Mar, 16:30–17:30 swimming, every Thursday.": how often is told of one that stands alone."""
    rule = occurrence.commitment.rule if alone else None
    often = f", {rule_words(rule, manners.date_order)}" if rule else ""
    return f"{manners.day(occurrence.day)}, {occurrence_words(occurrence, manners)}{often}."


def _when(first: date, last: date, manners: Manners) -> str:
    """ "today", "on Thu 5 Mar", or "in 3–9 March"."""
    if first != last:
        return f"in {manners.days(first, last)}"
    near = manners.near_day(first)
    return near if near in ("today", "tomorrow", "yesterday") else f"on {near}"
