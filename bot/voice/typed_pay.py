"""What is said of paid work as a reply, the way a person would type it: ``as_reply`` with these kinds as well."""

from __future__ import annotations

from datetime import date

from bot.language.pay_meaning import (
    HandIn,
    NewJob,
    RemindPayday,
    SendTimesheet,
    SetBreak,
    SetJobWord,
    SetOvertime,
    SetPayday,
    SetPayPeriod,
    SetRate,
    SetRounding,
)
from bot.voice.recurrence_words import nth
from bot.voice.spelling import Spelling, amount_words
from bot.voice.typed import BACK, words
from bot.voice.typed_standing import as_reply

__all__ = ["as_reply"]

LIMITS = {"week": "each week", "day": "each day", "seventh day": "on the seventh day"}


@as_reply.register
def _(meaning: NewJob, spelling: Spelling) -> str:
    employer = f", employer {meaning.employer}" if meaning.employer else ""
    paid = f", paid {words(meaning.paid, _from(meaning.anchor, meaning.month_starts))}" if meaning.paid else ""
    rate = f", {words(meaning.per_hour, meaning.currency, 'an hour')}" if meaning.per_hour else ""
    left = f", {meaning.left}" if meaning.left else ""
    return f"new job {meaning.name}{employer}{paid}{rate}{left}"


def _from(day: date | None, month_starts: int | None = None) -> str | None:
    if month_starts is not None:
        return f"from the {nth(month_starts)}"
    return f"from {day.isoformat()}" if day else None


@as_reply.register
def _(meaning: SetRate, spelling: Spelling) -> str:
    return words("rate", meaning.category, meaning.per_hour, meaning.currency, _from(meaning.since))


@as_reply.register
def _(meaning: SetRounding, spelling: Spelling) -> str:
    how = f"to {meaning.step} min {meaning.what}" if meaning.step is not None else "off"
    return words(meaning.category, "rounding", how)


@as_reply.register
def _(meaning: SetBreak, spelling: Spelling) -> str:
    if meaning.after_minutes is None:
        return words(meaning.category, "break off")
    return words(meaning.category, f"break {amount_words(meaning.minutes)} after {amount_words(meaning.after_minutes)}")


@as_reply.register
def _(meaning: SetPayPeriod, spelling: Spelling) -> str:
    return words(meaning.category, "is paid", meaning.paid, _from(meaning.anchor, meaning.month_starts))


@as_reply.register
def _(meaning: SetPayday, spelling: Spelling) -> str:
    if meaning.on is not None:
        return words("payday", meaning.category, "on the", nth(meaning.on))
    return words("payday", meaning.category, "off" if meaning.days_after is None else f"{meaning.days_after} days after")


@as_reply.register
def _(meaning: SetOvertime, spelling: Spelling) -> str:
    if meaning.over_minutes is None or meaning.times is None:
        return words("overtime", meaning.category, "off")
    over = f"over {amount_words(meaning.over_minutes)}" if meaning.over_minutes else None
    return words("overtime", meaning.category, over, LIMITS[meaning.of], f"at {meaning.times}")


@as_reply.register
def _(meaning: SetJobWord, spelling: Spelling) -> str:
    return words(meaning.name, meaning.category, "starts" if meaning.name == "workweek" else None, meaning.value)


@as_reply.register
def _(meaning: RemindPayday, spelling: Spelling) -> str:
    return words("payday reminder", meaning.category, "on" if meaning.on else "off")


@as_reply.register
def _(meaning: HandIn, spelling: Spelling) -> str:
    return words("handed in", meaning.category, _period(meaning.first, meaning.last, meaning.back))


@as_reply.register
def _(meaning: SendTimesheet, spelling: Spelling) -> str:
    forms = " ".join(meaning.forms) or "files"
    return words("timesheet", meaning.category, _period(meaning.first, meaning.last, meaning.back), forms)


def _period(first: date | None, last: date | None, back: int) -> str | None:
    return f"from {first.isoformat()} to {last.isoformat()}" if first and last else BACK.get(back)
