"""The way to commitments and back, said of one that is there already."""

from __future__ import annotations

from dataclasses import replace

from bot.actions.calendars import mark_events
from bot.actions.commitments import meant
from bot.actions.refused import refused
from bot.language.calendar_meaning import MarkEvents
from bot.language.standing_meaning import AllowTravel
from bot.rules.calendar_commitments import CalendarCommitment
from bot.voice.replies import Reply, TravelAllowed
from storage.desk import Desk
from storage.records import Commitment, Occurrence


def allow_travel(desk: Desk, said: AllowTravel) -> Reply:
    """Keeps how long the way takes. An event of a calendar is marked by its title, so that a refresh changes nothing of it."""
    if said.words is None and said.id is None:
        raise refused("which commitment")
    found = meant(desk, said.words, said.id, None)
    commitment = found.commitment
    if isinstance(commitment, CalendarCommitment):
        mark_events(desk, MarkEvents(commitment.title, minutes_before=said.minutes_before, minutes_after=said.minutes_after))
        return TravelAllowed(_with(found, said), commitment.title)
    changed = _with(found, said)
    desk.commitments.change(changed.commitment)
    return TravelAllowed(changed)


def _with(found: Occurrence, said: AllowTravel) -> Occurrence:
    return replace(found, commitment=_changed(found.commitment, said))


def _changed(commitment: Commitment, said: AllowTravel) -> Commitment:
    """The commitment with what was said; what was not said stays."""
    before = commitment.minutes_before if said.minutes_before is None else said.minutes_before
    after = commitment.minutes_after if said.minutes_after is None else said.minutes_after
    return replace(commitment, minutes_before=before, minutes_after=after)
