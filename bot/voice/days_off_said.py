"""What may be done about a day on which the person is sick or off."""

from __future__ import annotations

from bot.language.meaning import Cancel, Push, Several
from bot.language.pick import Pick
from bot.voice.manners import Manners, count_text, listed, next_day
from bot.voice.message import Message, Page, Rows, Tap, clipped
from bot.voice.plans_said import occurrence_words
from bot.voice.replies import DayOffOffered
from storage.records import Occurrence

MOST_ROWS = 5
LONGEST_LABEL = 40


def day_off_offered(reply: DayOffOffered, manners: Manners) -> Message:
    """What the day holds, with a tap for each thing; nothing is done before one is tapped."""
    page, day = Page(), manners.near_day(reply.day)
    if reply.sick:
        page.line(f"Noted: sick {day}." if reply.over else f"Get well soon. Noted: sick {day}.")
    held = [*reply.shifts, *reply.others, *reply.elsewhere]
    if not held and not reply.tasks:
        nothing = f"No shift of {day} waits for hours" if reply.over else f"Nothing is fixed for {day} and no task is open"
        page.line(f"{nothing}, so there is nothing to change.")
        return page.message()
    page.some([f"{manners.day(each.day)}, {occurrence_words(each, manners)}" for each in held], MOST_ROWS, f"day {reply.day.isoformat()}")
    if reply.tasks:
        page.line(f"{count_text(len(reply.tasks), 'open task')}: {listed([task.title for task in reply.tasks[:MOST_ROWS]])}.")
    if reply.elsewhere:
        page.line("What comes from a calendar is changed there.")
    page.line(f"Nothing {'else ' if reply.sick else ''}is changed before you tap.")
    return page.message(_rows(reply, manners))


def _rows(reply: DayOffOffered, manners: Manners) -> Rows:
    own = (*reply.shifts, *reply.others)
    every = Several(tuple(_cancel(each) for each in reply.shifts))
    taps = [Tap(f"Cancel all {len(reply.shifts)} shifts", every)] if len(reply.shifts) > 1 else []
    taps += [Tap(clipped(f"Cancel {occurrence_words(each, manners)}", LONGEST_LABEL), _cancel(each)) for each in own[:MOST_ROWS]]
    if reply.tasks:
        to = next_day(reply.day)
        pushed = Push(Pick(ids=tuple(task.id for task in reply.tasks)), to)
        taps.append(Tap(f"Push {count_text(len(reply.tasks), 'task')} to {manners.day(to)}", pushed))
    return tuple((tap,) for tap in taps)


def _cancel(occurrence: Occurrence) -> Cancel:
    return Cancel(None, occurrence.day, id=occurrence.commitment.id)
