"""What is kept of a person, how to get it, and how to be forgotten."""

from __future__ import annotations

from bot.language.meaning import Set
from bot.voice.manners import Manners
from bot.voice.message import Message, Page, Tap, one_line
from bot.voice.replies import Erased, ErasingAsked, NothingErased, Privacy

ERASING = "erase"
EVERYTHING, NOTHING = Set(ERASING, "everything"), Set(ERASING, "nothing")
"""What the two buttons mean. No text that people write has this meaning, so that none erases by mistake."""

BACKUPS = "Where I make daily backups, they forget it at their next round, within a day; copies made in any other way stay as they are."


def privacy(reply: Privacy, manners: Manners) -> Message:
    """What is kept, where, and how to get or erase it."""
    page = Page()
    page.heading("What is kept")
    page.line("Your categories, commitments, goals, tasks, hours, settings, place, and the messages between us.")
    page.line("All of it lies in one database on the machine that runs me, and goes to nobody else. Telegram carries our messages.")
    page.line("A calendar you subscribe to is asked for at its link, every three hours.")
    page.line("For the weather, your rounded coordinates go to Open-Meteo.com; a town's name too, when you write one.")
    page.gap()
    page.line("To get it all: write “export”, and it comes as open files.")
    page.line(f"To have it gone: write “erase everything”. {BACKUPS}")
    return page.message()


def erasing_asked(reply: ErasingAsked, manners: Manners) -> Message:
    """What would be gone, and the two buttons."""
    page = Page()
    page.heading("Erase everything?")
    page.line("All hours, tasks, goals, appointments, calendars and settings, and the messages between us, for good. It cannot be undone.")
    page.line(BACKUPS)
    page.line("What Telegram keeps of our chat you can delete there.")
    return page.message(((Tap("Erase everything", EVERYTHING),), (Tap("Keep it all", NOTHING),)))


def erased(reply: Erased, manners: Manners) -> Message:
    """The last word."""
    return one_line(f"Everything of yours is erased. {BACKUPS} Goodbye, and good weeks.")


def nothing_erased(reply: NothingErased, manners: Manners) -> Message:
    """That all is as it was."""
    return one_line("Nothing was erased.")
