"""Why a calendar could not be read, from what the outside says to what the person is told."""

from __future__ import annotations

from bot.outside.faults import CalendarUnavailable, Fault
from bot.voice.replies import CalendarFault, CalendarUnread

TOLD_AS: dict[Fault, CalendarFault] = {
    Fault.TOO_LARGE: "too large",
    Fault.NOT_UNDERSTOOD: "no link",
    Fault.NOT_A_CALENDAR: "no calendar",
    Fault.NOT_SECURE: "not secure",
    Fault.PRIVATE_ADDRESS: "private address",
    Fault.REFUSED: "refused",
    Fault.TOO_MANY_REDIRECTS: "no link",
}
"""What will pass by itself is told as not reached."""


def unread(about: str, error: CalendarUnavailable) -> CalendarUnread:
    """The one sentence about the file or link ``about``."""
    return CalendarUnread(about, TOLD_AS.get(error.fault, "not reached"))
