"""What there is to say about the post itself: a message that may come twice, and silence that is over."""

from __future__ import annotations

from dataclasses import replace

from bot.voice.manners import Manners, count_text
from bot.voice.message import Message, Page
from bot.voice.replies import BackAgain
from storage.records import Parcel

LATE = "Late, as I was not running earlier."
"""What stands on top of a message that was due while the bot was down."""

PERHAPS_A_REPEAT = "You may have had this already; I could not tell whether it arrived."


def back_again(reply: BackAgain, manners: Manners) -> Message:
    """What could not be sent, and that nothing else is lost."""
    page = Page()
    since = f"{manners.near_day(manners.local(reply.since).date())} at {manners.clock(reply.since)}"
    page.line(f"I can write to you again. You had blocked me, which I noticed {since}.")
    if reply.unsent:
        page.line(f"{count_text(reply.unsent, 'message')} could not reach you. All you logged is kept; “today” shows how things stand.")
    else:
        page.line("All you logged is kept; “today” shows how things stand.")
    return page.message()


def as_perhaps_a_repeat(parcel: Parcel) -> Parcel:
    """The parcel with a first line that says so."""
    first = PERHAPS_A_REPEAT + "\n"
    bold = tuple((start + len(first), end + len(first)) for start, end in parcel.bold)
    return replace(parcel, text=first + parcel.text, bold=bold)
