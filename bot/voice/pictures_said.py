"""The line that comes with a picture or a page."""

from __future__ import annotations

from typing import Final

from bot.language.meaning import Paper
from bot.voice.manners import Manners, count_text, hours_text, title_text
from bot.voice.message import Message
from bot.voice.replies import ExportMade, HoursPictured, PageMade, WeekPictured

PAPERS: Final[dict[Paper, str]] = {"a4": "A4", "letter": "US Letter"}


def week_pictured(reply: WeekPictured, manners: Manners) -> Message:
    """ "Your week, 2–8 March: 31 h 33 spent, 33 h 15 planned."."""
    parts = [f"{hours_text(minutes)} {what}" for minutes, what in ((reply.spent, "spent"), (reply.planned, "planned")) if minutes]
    said = ", ".join(parts) or "nothing planned, nothing noted"
    return Message(f"Your week, {manners.days(reply.first, reply.last)}: {said}.")


def hours_pictured(reply: HoursPictured, manners: Manners) -> Message:
    """ "Hours of 8 weeks, Mon 12 Jan – Sun 8 Mar."."""
    whose = f"{title_text(reply.category)}: hours" if reply.category else "Hours"
    return Message(f"{whose} of {count_text(reply.weeks, 'week')}, {manners.days(reply.first, reply.last)}.")


def page_made(reply: PageMade, manners: Manners) -> Message:
    """ "The week of 2–8 March to print, on A4."."""
    return Message(f"The week of {manners.days(reply.first, reply.last)} to print, on {PAPERS[reply.form]}.")


def export_made(reply: ExportMade, manners: Manners) -> Message:
    """What is in the archive."""
    return Message("All that I keep of you: tables as CSV and JSON, a calendar, and a page that says what each field means.")
