"""Timesheets to look at, to have as files, and to mark as handed in.

sheet   := ["send" | "show" | …] "timesheet" {category | span | period | form}
period  := "this period" | "last period" | "the period before" | "two periods ago"
form    := "file" | "files" | "pdf" | "csv" | "xlsx" | "spreadsheet"
handed  := ["i" | "i've"] "handed in" {category | span | period} | category {span | period} "handed in"

A plain timesheet without a period of its own is read where everything else to look at is.
"""

from __future__ import annotations

from dataclasses import dataclass

from bot.language.meaning import Ask, Meaning, Show
from bot.language.pay_meaning import HandIn, SendTimesheet
from bot.language.phrase import Explained, Phrase, explain, opened_by
from bot.language.showing import category_said
from bot.language.slots import Called
from bot.language.spans import Span, read_span_of_days
from bot.language.tokens import Found

SHEET = opened_by("timesheet | timesheets | hours sheet")
HANDED_IN = opened_by("handed in | handed | hand in | handed over | turned in | submitted")
PERIODS_BACK = (
    (opened_by("two periods ago | 2 periods ago | the period before last | period before last"), 2),
    (opened_by("this period | this pay period | the period | current period"), 0),
    (opened_by("last period | last pay period | previous period | period before | the period before | the last period | before"), 1),
)
FORMS = {"file": "", "files": "", "csv": "csv", "xlsx": "xlsx", "spreadsheet": "xlsx", "pdf": "pdf", "send": "", "sent": "", "export": ""}
SMALL = frozenset("send me the my for of i have i've a an as by please to in and , . ! : show see your is was it give timesheet".split())


@dataclass(frozen=True, slots=True)
class Back:
    """So many pay periods before today's."""

    periods: int


@dataclass(frozen=True, slots=True)
class Form:
    """The ending of a file; empty for every form."""

    ending: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """That a timesheet is meant."""


@dataclass(frozen=True, slots=True)
class Handed:
    """That it was handed in."""


def read_timesheet(phrase: Phrase) -> Meaning | None:
    """A timesheet as files, of another period than today's, or handed in; None for a plain one."""
    said = explain(phrase, (_sheet_said, _handed_said, _back_said, _form_said, read_span_of_days, category_said))
    if said.twice(Called, Span, Back) or any(said.phrase.word(at) not in SMALL for at in said.left):
        return None
    if said.one(Span) and said.one(Back):
        return None
    call = said.one(Called)
    choices = [_meaning(said, name) for name in (call.names if call else (None,))]
    found = tuple(each for each in choices if each is not None)
    return None if not found else found[0] if len(found) == 1 else Ask(found)


def _meaning(said: Explained, name: str | None) -> Meaning | None:
    span, back, forms = said.one(Span), said.one(Back), said.all(Form)
    first, last = (span.first, span.last) if span else (None, None)
    periods = back.periods if back else 0
    if said.one(Handed):
        if back is not None and not periods:
            first = last = said.phrase.context.now.date()
        return None if forms else HandIn(name, first, last, periods)
    if said.one(Sheet) is None:
        return None
    if forms:
        return SendTimesheet(name, first, last, periods, tuple(dict.fromkeys(form.ending for form in forms if form.ending)))
    return Show("timesheet", first=first, last=last, category=name, back=periods) if back else None


def _sheet_said(phrase: Phrase, at: int) -> Found[object] | None:
    taken = SHEET(phrase, at)
    return Found(Sheet(), at + taken) if taken else None


def _handed_said(phrase: Phrase, at: int) -> Found[object] | None:
    taken = HANDED_IN(phrase, at)
    return Found(Handed(), at + taken) if taken else None


def _back_said(phrase: Phrase, at: int) -> Found[object] | None:
    for opening, periods in PERIODS_BACK:
        taken = opening(phrase, at)
        if taken:
            return Found(Back(periods), at + taken)
    return None


def _form_said(phrase: Phrase, at: int) -> Found[object] | None:
    ending = FORMS.get(phrase.word(at))
    return None if ending is None else Found(Form(ending), at + 1)
