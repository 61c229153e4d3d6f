"""The messages that come unasked: each is claimed, told and planned anew in one transaction."""

from __future__ import annotations

from datetime import date, time, timedelta

from bot.actions import recap as weekly
from bot.actions import rounds
from bot.actions.months import month_recap
from bot.actions.pictures import recap_picture
from bot.actions.schedule import plan_after_missing, plan_next
from bot.actions.today import local_now, today
from bot.owing import owe
from bot.rules.quiet import is_quiet
from bot.voice.replies import Reply
from storage.desk import Desk
from storage.records import Author, Round, RoundKind, RoundState

ON_TIME = timedelta(minutes=15)
"""A message less late than this does not speak of it."""

NOON = time(12)
WEEK_AHEAD = "week ahead"
"""What the message after the recap is called."""

FIRST_RETRY = timedelta(minutes=10)


def morning(desk: Desk, due: Round) -> None:
    """The day ahead, until noon; without a sound before the waking window."""
    if not begin(desk, due, _still_morning(desk, due)):
        return
    if kept_quiet(desk, due):
        rounds.carry_on(desk)
        desk.journal.write("Carried on, quietly", None, by=Author.ROUND)
        return
    reply = rounds.morning(desk, late=is_late(desk, due))
    parcel = owe(desk, reply, round=due.kind.value, silent=local_now(desk).time() < desk.person.waking_start)
    if reply.view.weather_missing == "no forecast" and reply.view.weather is None:
        desk.rounds.plan(RoundKind.FORECAST, due.key, desk.now + FIRST_RETRY, str(parcel.id))


def evening(desk: Desk, due: Round) -> None:
    """What the day leaves open, until midnight; silence when that is nothing."""
    day = date.fromisoformat(due.key)
    if begin(desk, due, today(desk) == day) and not kept_quiet(desk, due):
        _owe_if_any(desk, rounds.evening(desk, day, late=is_late(desk, due)), due)


def recap(desk: Desk, due: Round) -> None:
    """The week that ends, then the week ahead, until the next day's noon."""
    day = date.fromisoformat(due.key)
    if begin(desk, due, _until_next_noon(desk, day)) and not kept_quiet(desk, due):
        owe(desk, weekly.recap(desk, day, late=is_late(desk, due)), round=due.kind.value)
        _owe_if_any(desk, recap_picture(desk, day), due, silent=True)
        owe(desk, weekly.after_recap(desk, day), round=WEEK_AHEAD)


def month(desk: Desk, due: Round) -> None:
    """The month that ends, until the next day's noon."""
    day = date.fromisoformat(due.key)
    if begin(desk, due, _until_next_noon(desk, day)) and not kept_quiet(desk, due):
        owe(desk, month_recap(desk, day, late=is_late(desk, due)), round=due.kind.value)


def begin(desk: Desk, due: Round, still_of_use: bool) -> bool:
    """Claims the round and plans the next; False when it is no longer due so, or comes too late to be of use."""
    if not desk.rounds.claim_as_it_was(due):
        return False
    if not still_of_use:
        desk.rounds.finish(due.id, RoundState.MISSED)
        plan_after_missing(desk, due.kind)
        return False
    plan_next(desk, due.kind)
    return True


def kept_quiet(desk: Desk, due: Round) -> bool:
    """Whether the person wants nothing unasked now; the round is then noted as kept quiet."""
    if not is_quiet(desk.person, today(desk)):
        return False
    desk.rounds.finish(due.id, RoundState.KEPT_QUIET)
    return True


def _still_morning(desk: Desk, due: Round) -> bool:
    """Until noon of its day; a morning message set for the afternoon, until midnight."""
    shown = local_now(desk)
    return shown.date().isoformat() == due.key and (shown.time() < NOON or desk.person.morning_at >= NOON)


def _until_next_noon(desk: Desk, day: date) -> bool:
    shown = local_now(desk)
    return shown.date() <= day or (shown.date() == day + timedelta(days=1) and shown.time() < NOON)


def is_late(desk: Desk, due: Round) -> bool:
    """Whether the message must say that it comes late."""
    return desk.now - due.due >= ON_TIME


def _owe_if_any(desk: Desk, reply: Reply | None, due: Round, *, silent: bool = False) -> None:
    if reply is not None:
        owe(desk, reply, round=due.kind.value, silent=silent)
