"""What is asked about hours before anything is logged: those in the way, those still to come, and which are meant."""

from __future__ import annotations

from dataclasses import replace

from bot.language.meaning import AddCommitment, Log
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.hours_said import as_noted, stint_line
from bot.voice.manners import Manners, hours_text, listed, title_text
from bot.voice.message import Message, Page, Tap, clipped, one_line, rows_of
from bot.voice.replies import DayTooFull, HoursClash, NotedAlready, StillToCome, WhichHours

LONGEST_ENTRY = 44
"""Characters of a button that tells of hours as they were noted."""


def _so_far(said: Log | None) -> str:
    """What has become of hours that were told, or that were only to be corrected."""
    return "Nothing is logged yet." if said is not None and said.corrects is None else "What was logged stays as it is."


def hours_clash(reply: HoursClash, manners: Manners) -> Message:
    """What the hours overlap, with the three ways out."""
    page = Page()
    kept = listed([stint_line(category, stint, manners) for category, stint in reply.kept])
    page.line(f"That overlaps hours already there: {kept}. {_so_far(reply.said)}")
    taps = [
        Tap("Keep both", replace(reply.said, despite="keep both"), True),
        Tap("Replace", replace(reply.said, despite="replace"), True),
        Tap("Only the rest", replace(reply.said, despite="trim"), True),
    ]
    return page.message((tuple(taps),))


def noted_already(reply: NotedAlready, manners: Manners) -> Message:
    """The hours that are there, and ways to say that these are others, or stand for them."""
    whose = f"{title_text(reply.category)} on {manners.day(reply.day)}"
    noted = listed([as_noted(each, manners) for each in reply.kept])
    taps = (
        Tap("Log it as well", replace(reply.said, despite="keep both"), True),
        Tap("Replace", replace(reply.said, despite="replace"), True),
    )
    return one_line(f"{whose} has hours already: {noted}. {_so_far(reply.said)}", (taps,))


def which_hours(reply: WhichHours, manners: Manners) -> Message:
    """Each of the hours as a button, as they were noted, and one for all of them together."""
    page = Page()
    together = hours_text(sum(each.minutes for each in reply.there))
    page.line(f"{title_text(reply.category)}, {manners.day(reply.day)}: {len(reply.there)} entries, {together} in all.")
    page.line(f"Which of them is {hours_text(reply.said.minutes or 0)}?")
    named = replace(reply.said, of_category=reply.category, of_day=reply.day)
    taps = [Tap(clipped(as_noted(each, manners), LONGEST_ENTRY), replace(named, id=each.id), True) for each in reply.there]
    taps.append(Tap(f"{hours_text(reply.said.minutes or 0)} in all", replace(named, in_all=True), True))
    return page.message(rows_of(taps, 1))


def day_too_full(reply: DayTooFull, manners: Manners) -> Message:
    """How much the day would hold."""
    return one_line(
        f"With that, {manners.near_day(reply.day)} would have {hours_text(reply.minutes)}; "
        f"the day has {hours_text(reply.most)}. {_so_far(reply.said)}",
        ((Tap("Log it anyway", replace(reply.said, despite="keep both"), True),),),
    )


def still_to_come(reply: StillToCome, manners: Manners) -> Message:
    """That the hours are ahead or not over, with what was probably meant."""
    page = Page()
    page.line(f"{_when(reply, manners)} is still {'under way' if reply.under_way else 'to come'}. {_so_far(reply.said)}")
    taps = [Tap("Log it anyway", replace(reply.said, despite="keep both"), True)] if reply.said else []
    if reply.start and reply.end and not reply.under_way:
        planned = AddCommitment(title_text(reply.category), reply.day, reply.start, reply.end, reply.category)
        taps.append(Tap("Plan it instead", planned, True))
    earlier = _earlier(reply.said, manners) if reply.said else None
    if earlier:
        taps.append(Tap(f"Log for {manners.day(earlier.stints[0].day)}", earlier, True))
    return page.message((tuple(taps),) if taps else ())


def _when(reply: StillToCome, manners: Manners) -> str:
    hours = "" if reply.start is None else f", {manners.times(reply.start, reply.end)}"
    day = manners.near_day(reply.day)
    return f"{day[:1].upper()}{day[1:]}{hours}"


def _earlier(said: Log, manners: Manners) -> Log | None:
    """The same hours on the same weekday before today, where a day ahead was named that may be a weekday of the week to come."""
    days = (said.stints[0].day - manners.today).days
    if any(stint.day <= manners.today for stint in said.stints) or days > DAYS_A_WEEK:
        return None
    weeks = -(-days // DAYS_A_WEEK)
    moved = tuple(replace(stint, day=stint.day.fromordinal(stint.day.toordinal() - DAYS_A_WEEK * weeks)) for stint in said.stints)
    return Log(moved)
