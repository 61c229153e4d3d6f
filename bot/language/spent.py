"""The stretches of time that a reply says were spent: their day, start, end, break and net minutes.

spent := amount [clock] [break] | hours [amount that agrees, or fills the end that is missing] [break] | hours hours
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from bot.language.context import Context
from bot.language.elapsed import elapsed_minutes, later, sooner
from bot.language.hours import Hours, less, read_hours
from bot.language.phrase import Explained, Phrase, Piece
from bot.language.slots import Amount, Break, Clock

DAY = 24 * 60
DAY_OF_WORK = 8 * 60
"""Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Spent:
    """One stretch; ``minutes`` are net of the break."""

    day: date
    minutes: int
    start: time | None = None
    end: time | None = None
    break_minutes: int = 0


def all_spent(said: Explained, day: date | None) -> list[tuple[Spent, ...]]:
    """Every stretch with its readings, likeliest first; none when nothing was spent or what was said contradicts itself."""
    context = said.phrase.context
    today = context.now.date()
    stretches = [_on_its_day(said.phrase, piece, day is None or day == today) for piece in said.pieces if isinstance(piece.value, Hours)]
    amount, pause, clock = said.one(Amount), said.one(Break), said.one(Clock)
    if not stretches:
        lived = day or (_day_lived(amount, context) if clock is None else today)
        options = (_of_amount(each, clock, lived, pause, context.now.tzinfo) for each in _either_day(amount))
        spent = tuple(option for option in options if option is not None)
        return [spent] if spent else []
    if clock is not None or (amount is not None and len(stretches) > 1):
        return []
    if pause is not None:
        stretches[-1] = less(stretches[-1], pause.minutes)
    found = [_of_hours(hours, amount, day, context.now) for hours in stretches]
    return found if all(found) else []


def _on_its_day(phrase: Phrase, piece: Piece, today: bool) -> Hours:
    """The hours read for their day: on another day than today nothing is yet to come."""
    again = None if today else read_hours(phrase.tokens, piece.at, phrase.context, "back", today=False)
    hours = again.value if again is not None and again.end == piece.end else piece.value
    assert isinstance(hours, Hours)
    return hours


def _day_lived(amount: Amount | None, context: Context) -> date:
    """Today; before one gets up the day before, where since midnight there was not so much time: 7h at half past one."""
    since_midnight = context.now.hour * 60 + context.now.minute
    early = context.now.time() < context.waking_start
    before = early and amount is not None and since_midnight < amount.minutes < DAY
    return context.now.date() - timedelta(days=int(before))


def _either_day(amount: Amount | None) -> tuple[Amount | None, ...]:
    """Half a day may be twelve hours, or half of what one works in a day: then both are readings."""
    return (amount, Amount(amount.minutes * DAY_OF_WORK // DAY)) if amount is not None and amount.of_days else (amount,)


def _of_amount(amount: Amount | None, clock: Clock | None, day: date, pause: Break | None, zone: tzinfo | None) -> Spent | None:
    """An amount, from a time on where one was said. The break is taken off it: 8h less 30m is 7h30.

    An amount of seconds is 0 minutes; what to do about it is not for the reader to say.
    """
    away = pause.minutes if pause else 0
    if amount is None or amount.minutes < away or (away and amount.minutes == away):
        return None
    net = amount.minutes - away
    if clock is None:
        return Spent(day, net, break_minutes=away)
    if not 0 < amount.minutes < DAY:
        return None
    return Spent(day, net, clock.time, later(day, clock.time, amount.minutes, zone), away)


def _of_hours(hours: Hours, amount: Amount | None, day: date | None, now: datetime) -> tuple[Spent, ...]:
    options = (_spent(option, amount, day, now) for option in (hours, *hours.others))
    return tuple(option for option in options if option is not None)


def _spent(hours: Hours, amount: Amount | None, day: date | None, now: datetime) -> Spent | None:
    """Hours with both ends, one of them perhaps from the amount; an amount that contradicts them makes it nothing."""
    start, end = _both_ends(hours, amount, day or now.date(), now.tzinfo)
    if start is None or end is None:
        return None
    day = day or _day_of(start, end, now)
    gross = elapsed_minutes(day, start, end, now.tzinfo)
    net = gross - hours.break_minutes
    if net <= 0 or (amount is not None and amount.minutes not in (net, gross)):
        return None
    return Spent(day, net, start, end, hours.break_minutes)


def _both_ends(hours: Hours, amount: Amount | None, day: date, zone: tzinfo | None) -> tuple[time | None, time | None]:
    gross = amount.minutes + hours.break_minutes if amount is not None else 0
    if not 0 < gross < DAY:
        return hours.start, hours.end
    if hours.end is None and hours.start is not None:
        return hours.start, later(day, hours.start, gross, zone)
    if hours.start is None and hours.end is not None:
        return sooner(day, hours.end, gross, zone), hours.end
    return hours.start, hours.end


def _day_of(start: time, end: time, now: datetime) -> date:
    """Today; yesterday only for hours over midnight that have ended by now."""
    over_midnight = end <= start and end <= now.time() < start
    return now.date() - timedelta(days=1) if over_midnight else now.date()
